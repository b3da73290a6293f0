package sheet_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"strings"
	"sync"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/sheet"
)

// hostile are names that break out of careless files.
var hostile = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `</title></svg><script>alert(1)</script>`,
	`]]>&lt;&#60;script&#62;`,
	"=HYPERLINK(\"x\")", "a|b\n# c `d`", "\x00\x1b[2Jred\x1b[31m", "\xff\xfe\xf0\x28", "漢字 الغرفة 😀\U0010ffff\u202e",
	"{{.Key}} {row}", `\)(endobj`, strings.Repeat("w", 3000), "",
}

// named gives everything in a job and its plan that has a name the same one.
func named(name string) (*cutopt.Job, *cutopt.Plan) {
	job := kitchenJob()
	job.Name, job.Plank.Name = name, name
	room := &job.Rooms[0]
	room.Name, room.Islands[0].Name, room.Doorways[0].Name, room.Doorways[0].To = name, name, name, name
	plan, err := planfile.Decode(bytes.NewReader(kitchenPlan()))
	if err != nil {
		panic(err)
	}
	plan.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactDoorway, Room: 1, Wall: 1, Doorway: 1}} // names the room
	return job, plan
}

// kitchenPlan is the plan of the kitchen as a file: laid out once, since the fuzzer asks for it thousands of times.
var kitchenPlan = sync.OnceValue(func() []byte {
	var buf bytes.Buffer
	if err := planfile.Encode(&buf, layOut(kitchenJob())); err != nil {
		panic(err)
	}
	return buf.Bytes()
})

func TestHostileNames(t *testing.T) {
	tags := regexp.MustCompile(`(?i)<(script|img)[\s>]`)
	plain, plainPlan := named("x")
	for _, doc := range documents() {
		same := written(t, func(w io.Writer) error { return doc.write(w, plain, plainPlan, &sheet.Options{DPI: 20}) })
		for i, name := range hostile {
			if i > 2 && (strings.HasSuffix(doc.name, ".pdf") || strings.HasSuffix(doc.name, ".png")) {
				break // that they are written is all that is seen here
			}
			job, plan := named(name)
			text := written(t, func(w io.Writer) error { return doc.write(w, job, plan, &sheet.Options{DPI: 20}) })
			switch doc.name {
			case "sheet.html":
				if a, b := len(tags.FindAllString(text, -1)), len(tags.FindAllString(same, -1)); a != b {
					t.Errorf("%q makes %d elements of script and img, want %d", name, a, b)
				}
			case "map.svg", "planks.svg":
				dec := xml.NewDecoder(strings.NewReader(text))
				for {
					tok, err := dec.Token()
					if err == io.EOF {
						break
					}
					if err != nil {
						t.Fatalf("%q in %s: %v", name, doc.name, err)
					}
					if e, ok := tok.(xml.StartElement); ok &&
						!strings.Contains(" svg title path text clipPath g ", " "+e.Name.Local+" ") {
						t.Errorf("%q makes an element %s in %s", name, e.Name.Local, doc.name)
					}
				}
			case "map.txt", "cuts.txt":
				for _, r := range text {
					if r < ' ' && r != '\n' || r == 0x7f {
						t.Errorf("%q leaves the character %q in %s", name, r, doc.name)
					}
				}
			case "cuts.csv":
				lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
				if err != nil {
					t.Fatalf("%q: %v", name, err)
				}
				for _, l := range lines {
					for _, c := range l {
						if strings.HasPrefix(c, "=") {
							t.Errorf("the cell %q is a formula", c)
						}
					}
				}
			case "cuts.md":
				if a, b := strings.Count(text, "\n"), strings.Count(same, "\n"); a != b {
					t.Errorf("%q makes %d lines of Markdown, want %d", name, a, b)
				}
			}
		}
	}
}

// Plans that do not hold together are refused by name, and nothing is written.
func TestBrokenPlans(t *testing.T) {
	for _, c := range []struct {
		why   string
		spoil func(*cutopt.Job, *cutopt.Plan)
		want  string
	}{
		{"no plank", func(j *cutopt.Job, _ *cutopt.Plan) { j.Plank.Length = 0 }, "Job.Plank"},
		{
			"a kerf longer than a plank", func(j *cutopt.Job, _ *cutopt.Plan) { j.Rules.Kerf = 2 * j.Plank.Length },
			"Job.Rules.Kerf",
		},
		{"a unit that is none", func(j *cutopt.Job, _ *cutopt.Plan) { j.Unit = 77 }, "Job.Unit"},
		{"a corner beyond all", func(j *cutopt.Job, _ *cutopt.Plan) { j.Rooms[0].Outline[1].X = 1 << 60 }, "rooms[1] has a " +
			"corner"},
		{
			"a doorway beyond all", func(j *cutopt.Job, _ *cutopt.Plan) { j.Rooms[0].Doorways[0].Depth = 1 << 60 },
			"rooms[1].doorways[1]",
		},
		{
			"another job's plan", func(j *cutopt.Job, _ *cutopt.Plan) { j.Rooms = append(j.Rooms, cutopt.Room{Name: "Attic"}) },
			"the plan has 1 floors",
		},
		{
			"a floor that lies nowhere", func(_ *cutopt.Job, p *cutopt.Plan) { p.Floors[0].Axes.Turn = math.NaN() },
			"floors[1] is turned by NaN",
		},
		{"a row upside down", func(_ *cutopt.Job, p *cutopt.Plan) { p.Floors[0].Rows[2].To = 0 }, "floors[1].rows[3] runs"},
		{"a run backwards", func(_ *cutopt.Job, p *cutopt.Plan) { p.Floors[0].Rows[2].Runs[0].To = 0 }, "rows[3].runs[1] " +
			"runs"},
		{
			"a piece outside its run", func(_ *cutopt.Job, p *cutopt.Plan) { p.Floors[0].Rows[2].Runs[0].Pieces[0].From = -5 },
			"runs[1].pieces[1] runs",
		},
		{"a shape outside its piece", func(_ *cutopt.Job, p *cutopt.Plan) {
			p.Floors[0].Rows[2].Runs[0].Pieces[0].Shape = []cutopt.Point{{X: 1 << 50}, {}, {}}
		}, "pieces[1].shape"},
		{"a piece of no plank", func(_ *cutopt.Job, p *cutopt.Plan) { p.Planks[3].Pieces = nil }, "is on no plank"},
		{"a plank that counts wrong", func(_ *cutopt.Job, p *cutopt.Plan) { p.Planks[3].Number = 9 }, "planks[4].number is " +
			"9"},
		{
			"a plank with a piece of another", func(_ *cutopt.Job, p *cutopt.Plan) { p.Planks[3].Pieces = p.Planks[4].Pieces },
			"planks[4].pieces[1] names",
		},
		{
			"a plank with a piece that is nowhere", func(_ *cutopt.Job, p *cutopt.Plan) { p.Planks[3].Pieces[0].Row = -1 },
			"planks[4].pieces[1] names",
		},
		{"a plank too short for its pieces", func(j *cutopt.Job, _ *cutopt.Plan) { j.Plank.Length -= measure.Inch }, "is " +
			"this plan made from this job"},
		{"no cuts between pieces", func(_ *cutopt.Job, p *cutopt.Plan) {
			for i := range p.Planks {
				p.Planks[i].Cuts = nil
			}
			p.Floors[0].LaidFrom = cutopt.HandRight
		}, ""},
	} {
		for _, doc := range documents() {
			job := denJob()
			plan := layOut(job)
			c.spoil(job, plan)
			var buf bytes.Buffer
			err := doc.write(&buf, job, plan, nil)
			if c.want == "" {
				continue // it only must not panic
			}
			if err == nil || !strings.Contains(err.Error(), c.want) || buf.Len() > 0 {
				t.Errorf(
					"%s, %s: %v and %d bytes; want an error with %q and nothing written",
					c.why,
					doc.name,
					err,
					buf.Len(),
					c.want,
				)
			}
		}
	}
	var buf bytes.Buffer
	for _, doc := range documents() {
		if err := doc.write(&buf, nil, nil, nil); err == nil || buf.Len() > 0 {
			t.Errorf("%s of nothing: %v", doc.name, err)
		}
		if err := doc.write(io.Discard, &cutopt.Job{Plank: cutopt.Plank{Length: 1, Width: 1}}, &cutopt.Plan{},
			nil); err != nil {
			t.Errorf("%s of an empty plan: %v", doc.name, err)
		}
	}
}

// FuzzPlan feeds plans and jobs from bytes: whatever they are, nothing panics, and it ends.
func FuzzPlan(f *testing.F) {
	for name, job := range scenes() {
		j, err := json.Marshal(job)
		if err != nil {
			f.Fatal(err)
		}
		var p bytes.Buffer
		if err := planfile.Encode(&p, planOf(name, job)); err != nil {
			f.Fatal(err)
		}
		f.Add(j, p.Bytes())
	}
	f.Fuzz(func(t *testing.T, j, p []byte) {
		var job cutopt.Job
		plan, err := planfile.Decode(bytes.NewReader(p))
		if err != nil || json.Unmarshal(j, &job) != nil {
			t.Skip()
		}
		opt := &sheet.Options{DPI: 10}
		for _, doc := range documents() {
			if err := doc.write(io.Discard, &job, plan, opt); err == nil && doc.name == "map.svg" {
				var buf bytes.Buffer
				doc.write(&buf, &job, plan, opt)
				if err := xml.Unmarshal(buf.Bytes(), new(struct{})); err != nil {
					t.Errorf("the map is no XML: %v", err)
				}
			}
		}
	})
}

// FuzzNames gives everything the same name: whatever it is, every document is written.
func FuzzNames(f *testing.F) {
	for _, name := range hostile {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		job, plan := named(name)
		for _, doc := range documents() {
			if slow := strings.HasSuffix(doc.name, ".pdf") || strings.HasSuffix(doc.name, ".png"); slow && len(name)%32 != 1 {
				continue // they take a hundred times as long as the others together
			}
			if err := doc.write(io.Discard, job, plan, &sheet.Options{DPI: 10}); err != nil {
				t.Errorf("%q: %s: %v", name, doc.name, err)
			}
		}
	})
}
