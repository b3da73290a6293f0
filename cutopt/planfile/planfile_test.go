package planfile_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/proof"
)

// fullPlan has every field set to something that is not its zero value.
func fullPlan() *cutopt.Plan {
	const in = measure.Inch
	return &cutopt.Plan{
		Version: cutopt.PlanVersion, Job: `The "north" loft <1> & 2`, Unit: measure.UnitInch,
		Order: cutopt.Order{
			Planks:       2,
			PlanksPerBox: 8,
			Boxes:        1,
			Left:         6,
			Kept:         5,
			Reserve:      1,
			Fewest:       2,
			Loss:         2,
			RiskLimit:    2.5,
			Risk:         1e-7,
			Price:        4990,
			ThumbBoxes:   3,
		},
		Bound: cutopt.Bound{
			Planks: 2, Boxes: 1, Proven: true, Settled: true, PlanksProven: true,
			Certificate: &proof.Certificate{Planks: 2, Dropped: [][2]int{{0, 3}}, Tree: proof.Node{
				Split: &proof.Split{Of: proof.OfDeficit, Below: 9, Value: 1},
				Low:   &proof.Node{Prices: []proof.Step{{At: 9, Price: 5}}, Multipliers: []int64{7}},
				High: &proof.Node{
					Split: &proof.Split{Of: proof.OfPlace, Run: 2, Value: 3},
					Low:   &proof.Node{Counts: true}, High: &proof.Node{Prices: []proof.Step{{At: 9, Price: 5}}},
				},
			}},
			Rooms: &cutopt.RoomBound{
				Planks: 1, Firsts: [][]cutopt.FirstRow{{{Width: 6 * in, Turned: true}, {Width: 3*in - 1}}, {{Width: 2 * in}}},
				Certificate: &proof.FamilyCertificate{Planks: 1, Tree: proof.FamilyNode{
					Floor: 1, Of: []int{0, 2},
					In:  &proof.FamilyNode{Prices: []proof.Step{{At: 9, Price: 5}}},
					Out: &proof.FamilyNode{Certificate: &proof.Certificate{Planks: 1}},
				}},
			},
		},
		Waste: cutopt.Waste{
			AddedToFloor: 12.5, ShareOfPurchase: 1.0 / 9, Afterwards: 1e-7, Net: 1, Bought: 9_512_000_000,
			Laid: 3, Offcuts: 4,
			Ripped: 5, Kerf: 6, Lost: 7, Brought: 8, WholeLeft: measure.Area(math.MaxInt64),
		},
		Quality: cutopt.Quality{
			HJoints: 1, LongestChain: 8, Chains: 9, Staircases: 2, Clusters: 3, LeastStagger: 9 * in, Crosscuts: 4,
			OffcutsAtOnce: 5, RowsWaited: 6, OddStarters: 7,
		},
		Floors: []cutopt.PlanFloor{{
			Name: "Loft", Field: 2, Axes: cutopt.Axes{
				Origin: cutopt.Point{X: 3, Y: -7 * in}, Turn: 22.5,
				Mirrored: true,
			},
			LaidFrom: cutopt.HandRight, Lot: `B "2"`, Facts: allFacts(false),
			Rows: []cutopt.PlanRow{{
				From: -1, To: 7*in - 1, Width: 7 * in,
				Runs: []cutopt.PlanRun{{From: 1, To: 20 * in, Pieces: []cutopt.Piece{{
					Plank: 1, From: 1, To: 20 * in, Length: 20*in - 1, AsItComes: 20 * in,
					Ends:  cutopt.EndsLeft,
					Shape: []cutopt.Point{{X: 1}, {X: 20 * in, Y: 1}, {X: 5, Y: 7 * in}}, Shaping: allFacts(true),
					Lies: true,
				}, {Plank: 2, Ends: cutopt.EndsBoth}}}},
			}},
		}},
		Breaks: []cutopt.PlanBreak{{
			Room: 1, Wall: 2, At: 3 * in, Doorway: 4, From: cutopt.Point{X: 5, Y: 6}, To: cutopt.Point{
				X: 7,
				Y: 8,
			}, Length: 9,
			Width: 10, Asked: true,
		}, {Wall: -1, Doorway: -1}},
		Planks: []cutopt.PlankUse{{
			Number: 1, Pieces: []cutopt.PieceRef{{Floor: 1, Row: 2, Run: 3, Piece: 4}},
			Cuts:   []cutopt.Cut{{At: 20 * in}},
			Left:   []cutopt.Leftover{{From: 21 * in, To: 48 * in, Ends: cutopt.EndsRight}},
			Opened: true, Gone: []cutopt.Leftover{{From: 1, To: 2 * in, Ends: cutopt.EndsLeft}}, Brought: true, Lot: "A",
		}, {Number: 2}},
		Site: &cutopt.Site{
			Bought: 1, Brought: 2, Here: []cutopt.Lot{{Name: "A", Planks: 9, Boxes: 1}}, Mixed: true, Needed: 3, Least: 4,
			Short: 5, Buy: 6, Returns: []cutopt.Lot{{Name: "B", Planks: 8, Boxes: 1}}, Assigned: true,
			Reaches: []int{7}, Waits: []int{8},
			Changed: []cutopt.RunChange{{Floor: 1, Row: 2, Run: 3, Was: 14 * in, Is: 20 * in}},
		},
	}
}

func TestPlanReadsBackInEveryUnit(t *testing.T) {
	for _, unit := range []measure.Unit{
		measure.UnitInch, measure.UnitFoot, measure.UnitMillimetre, measure.UnitCentimetre, measure.UnitMetre,
	} {
		want := fullPlan()
		want.Unit = unit
		data := oracle.Encode(t, want)
		got, err := planfile.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatalf("%v: %v\n%s", unit, err, data)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%v: %s", unit, diff)
		}
		if again := oracle.Encode(t, got); !bytes.Equal(data, again) {
			t.Errorf("%v: written again it differs:\n%s\n%s", unit, data, again)
		}
	}
}

// allFacts has a fact of every kind about floors or about shapes, with every field set.
func allFacts(ofShape bool) (facts []cutopt.Fact) {
	n := 0
	for _, kind := range cutopt.FactKinds() {
		if kind.OfShape() != ofShape {
			continue
		}
		f := cutopt.Fact{Kind: kind}
		for _, name := range kind.Fields() {
			n++
			switch v := f.Field(name).(type) {
			case *int:
				*v = n
			case *cutopt.Ends:
				*v = cutopt.EndsRight
			case *cutopt.Edges:
				*v = cutopt.EdgesBack
			case *measure.Length:
				*v = measure.Length(n)
			case *measure.Area:
				*v = measure.Area(n)
			}
		}
		facts = append(facts, f)
	}
	return facts
}

// Every field of the types is in fullPlan, so that none can be forgotten in the file.
func TestFullPlanIsFull(t *testing.T) {
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			switch {
			case v.IsNil():
				t.Errorf("%s is nil", path)
			case !slices.Contains([]reflect.Type{
				reflect.TypeFor[*proof.Certificate](), reflect.TypeFor[*proof.FamilyCertificate](),
			}, v.Type()):
				walk(path, v.Elem())
			}
		case reflect.Struct:
			if v.Type() == reflect.TypeFor[cutopt.Fact]() {
				return // allFacts sets the fields of each kind
			}
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		case reflect.Slice:
			if v.Len() == 0 {
				t.Errorf("%s is empty", path)
				return
			}
			walk(path, v.Index(0))
		default:
			// the inch, and one coordinate of two
			zeroIsFine := path == "Plan.Unit" || strings.HasSuffix(path, ".Shape.Y")
			if v.IsZero() && !zeroIsFine {
				t.Errorf("%s is zero", path)
			}
		}
	}
	walk("Plan", reflect.ValueOf(fullPlan()))
}

func TestPlanFileKeys(t *testing.T) {
	var file struct {
		Unit  string
		Order struct {
			Planks, Boxes int
			Left          int
			Kept          int
		}
		Bound struct {
			Planks, Boxes int
			Proven        bool
		}
		Floors []struct {
			Rows []struct {
				From, To, Width json.Number
				Runs            []struct {
					From, To json.Number
					Pieces   []struct {
						Plank            int
						From, To, Length json.Number
						FactoryEnds      string `json:"factory_ends"`
					}
				}
			}
		}
	}
	if err := json.Unmarshal(oracle.Encode(t, fullPlan()), &file); err != nil {
		t.Fatal(err)
	}
	row := file.Floors[0].Rows[0]
	piece := row.Runs[0].Pieces[0]
	if file.Unit != "in" || file.Order.Planks != 2 || file.Order.Boxes != 1 || file.Order.Left != 6 ||
		file.Order.Kept != 5 ||
		file.Bound.Planks != 2 || file.Bound.Boxes != 1 || !file.Bound.Proven ||
		row.Width != "7" || row.Runs[0].To != "20" || piece.Plank != 1 || piece.To != "20" ||
		piece.FactoryEnds != "left" {
		t.Errorf("the keys that are promised hold %+v", file)
	}
}

func TestPlanMatchesSchema(t *testing.T) {
	schema := oracle.PlanSchema(t)
	validate := func(data []byte) error {
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		return schema.Validate(v)
	}
	good := oracle.Encode(t, fullPlan())
	if err := validate(good); err != nil {
		t.Errorf("a plan file does not match the schema: %v", err)
	}
	if err := validate(oracle.Encode(t, &cutopt.Plan{Version: cutopt.PlanVersion})); err != nil {
		t.Errorf("an empty plan does not match the schema: %v", err)
	}
	for _, c := range []struct{ reason, old, new string }{
		{"unknown key", `"job"`, `"jobs"`},
		{"a floor left for later that has no number", `"waits": [9]`, `"waits": [0]`},
		{"a site without its stock", `"here": [{"name": "A", "planks": 9, "boxes": 1}], `, ``},
		{"another version", `"version": 2`, `"version": 1`},
		{"a name that is none of the ends", `"factory_ends": "both"`, `"factory_ends": "all"`},
		{"a length as text", `"width": 7`, `"width": "7"`},
		{"a plank without number", `"number": 2`, `"number": 0`},
		{"a key left out", `"turn": 22.5, `, ``},
		{"a certificate of another shape", `"low":{"prices"`, `"low":{"costs"`},
		{"a fact that lacks a figure", `"kind": "jogs", "count": 4, `, `"kind": "jogs", `},
		{
			"a fact with a figure of another kind", `"kind": "jogs", "count": 4, `,
			`"kind": "jogs", "count": 4, "row": 3, `,
		},
		{"a fact of no kind", `"kind": "jogs"`, `"kind": "jog"`},
		{
			"a fact about a floor told of a piece", `"shaping": [{"kind": "rip", `,
			`"shaping": [{"kind": "jogs", "count": 4, "most": 3}, {"kind": "rip", `,
		},
	} {
		bad := bytes.Replace(good, []byte(c.old), []byte(c.new), 1)
		if bytes.Equal(bad, good) {
			t.Fatalf("%s: the file has no %s", c.reason, c.old)
		}
		if validate(bad) == nil {
			t.Errorf("%s: the schema accepts %s", c.reason, c.new)
		}
		if _, err := planfile.Decode(bytes.NewReader(bad)); err == nil && c.reason != "a plank without number" {
			t.Errorf("%s: Decode accepts %s", c.reason, c.new)
		}
	}
}

func TestDecodeErrors(t *testing.T) {
	const empty = `{"version": 2, "job": "", "unit": "in",
"order": {"planks": 0, "planks_per_box": 0, "boxes": 0, "left": 0, "kept": 0, ` +
		`"reserve": 0, "fewest": 0, "loss": 0, "risk_limit": 0, "risk": 0, "price": 0, "thumb_boxes": 0},
"bound": {"planks": 0, "boxes": 0, "proven": false, "settled": false, "planks_proven": false}, ` +
		`"quality": {"least_stagger": 0, "h_joints": 0, "longest_chain": 0, "chains": 0, ` +
		`"staircases": 0, "clusters": 0, "crosscuts": 0, "offcuts_at_once": 0, "rows_waited": 0, "odd_starters": 0},
"waste": {"added_to_floor": 0, "share_of_purchase": 0, "afterwards": 0,
"areas": {"unit": "ft2", "net": 0, "bought": 0, "laid": 0, "offcuts": 0, "ripped": 0, "kerf": 0, "whole_left": 0}},
"floors": [],
"planks": []}`
	if _, err := planfile.Decode(strings.NewReader(empty)); err != nil {
		t.Fatal(err)
	}
	plank := `"planks": [{"number": 1, "pieces": [], "cuts": [], "left": []}, `
	for _, c := range []struct{ reason, old, new, want string }{
		{"nothing at all", empty, "", "line 1, column 1: the file ends too early"},
		{"not JSON", empty, "hello", "line 1, column 1: this is not JSON"},
		{"a list", empty, "[]", "line 1, column 1: a list stands where an object belongs"},
		{"cut short", `"floors": [],`, `"floors": [`, "floors[1]"},
		{"two plans", `"planks": []}`, `"planks": []} {}`, "line 7, column 15: something follows the plan"},
		{"unknown key", `"job"`, `"jab"`, `line 1, column 16: "jab" is no key here; one of version, job, unit`},
		{"keys are case-sensitive", `"job"`, `"Job"`, `"Job" is no key here`},
		{"repeated key", `"job": ""`, `"job": "", "job": ""`, "line 1, column 27: job: this key is given twice"},
		{
			"columns count characters", `"job": ""`, `"job": "Küche", "job": ""`,
			"line 1, column 32: job: this key is given twice",
		},
		{"missing key", `"price": 0, `, ``, `line 2, column 10: order: the key "price" is missing`},
		{"earlier version", `"version": 2`, `"version": 1`, "version: 1 is not the version read here, which is 2"},
		{"unknown unit", `"unit": "in"`, `"unit": "yd"`, `line 1, column 35: unit: `},
		{
			"areas in the other unit", `"ft2"`, `"m2"`,
			`waste.areas.unit: "m2" is not the unit of areas in a plan in in; it is "ft2"`,
		},
		{
			"half a plank", `"planks": 0, "planks_per_box"`, `"planks": 0.5, "planks_per_box"`,
			"order.planks: 0.5 is no " +
				"whole number",
		},
		{
			"a text for a number", `"boxes": 0, "left`, `"boxes": "0", "spare`,
			`line 2, column 54: order.boxes: "0" stands where a number belongs`,
		},
		{
			"a number for a flag", `"proven": false,`, `"proven": 0,`,
			"bound.proven: 0 stands where true or false belongs",
		},
		{"null", `"floors": []`, `"floors": null`, "floors: null stands where a list belongs"},
		{"a third of a cent", `"price": 0`, `"price": 0.333`, "order.price: an amount has at most two decimals"},
		{"an amount out of range", `"price": 0`, `"price": 1e30`, "order.price: 1e30 is too large"},
		{
			"a number with a huge exponent", `"net": 0`, `"net": 1e999999999`,
			"waste.areas.net: 1e999999999 has too many " +
				"digits",
		},
		{"a percentage out of range", `"afterwards": 0`, `"afterwards": 1e999`, "waste.afterwards: 1e999 is too large"},
		{
			"a length out of range",
			`"planks": []}`, plank + `{"number": 2, "pieces": [], "cuts": [{"at": 1e20}], "left": []}]}`,
			"line 7, column " +
				"109: planks[2].cuts[1].at: 1e20 is no length: it is too long",
		},
		{
			"a point of three", `"floors": []`, `"floors": [{"axes": {"origin": [1, 2, 3]}}]`,
			"floors[1].axes.origin[3]: a " +
				"point is two numbers",
		},
		{
			"a point of one", `"floors": []`, `"floors": [{"axes": {"origin": [1]}}]`,
			"floors[1].axes.origin: a point is two " +
				"numbers",
		},
		{
			"no certificate", `"planks_proven": false`, `"planks_proven": false, "certificate": null`,
			"bound.certificate: " +
				"null stands where an object belongs",
		},
		{
			"a certificate with an unknown key", `"planks_proven": false`,
			`"planks_proven": false, "certificate": {"x": 1}`,
			"bound.certificate: unknown field",
		},
		{
			"a certificate with a text", `"planks_proven": false`,
			`"planks_proven": false, "certificate": {"planks": "1"}`,
			"planks holds a string",
		},
		{"not UTF-8", `"job": ""`, "\"job\": \"\xff\"", "line 1, column 24: the file is not in UTF-8"},
		{
			"an end that is none", `"planks": []}`, `"planks": [{"left": [{"factory_ends": "up"}]}]}`,
			`planks[1].left[1].factory_ends: "up" is no ends`,
		},
	} {
		t.Run(c.reason, func(t *testing.T) {
			if !strings.Contains(empty, c.old) {
				t.Fatalf("the file has no %s", c.old)
			}
			_, err := planfile.Decode(strings.NewReader(strings.Replace(empty, c.old, c.new, 1)))
			var place *planfile.Error
			if !errors.As(err, &place) {
				t.Fatalf("got %v, want a *planfile.Error", err)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %q, want it to say %q", err, c.want)
			}
		})
	}
}

// A program that sorts keys writes the rooms before the unit.
func TestDecodeInAnyOrderOfKeys(t *testing.T) {
	want := fullPlan()
	want.Bound.Certificate = nil
	var m map[string]json.RawMessage
	if err := json.Unmarshal(oracle.Encode(t, want), &m); err != nil {
		t.Fatal(err)
	}
	sorted, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Index(string(sorted), `"floors"`) > strings.Index(string(sorted), `"unit"`) {
		t.Fatal("the rooms still follow the unit")
	}
	got, err := planfile.Decode(bytes.NewReader(sorted))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	bad := bytes.Replace(sorted, []byte(`"width":7`), []byte(`"width":"7"`), 1)
	_, err = planfile.Decode(bytes.NewReader(bad))
	if err == nil || !strings.Contains(err.Error(), `floors[1].rows[1].width: "7" stands where a number belongs`) {
		t.Errorf("an error in a part read late: %v", err)
	}
}

func TestPlanInsideOtherJSON(t *testing.T) {
	type report struct{ Plan planfile.File }
	want := report{planfile.File{Plan: fullPlan()}}
	data, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	var got report
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	before := planfile.File{Plan: fullPlan()}
	if err := before.UnmarshalJSON([]byte(`{"version": 1}`)); err == nil || !cmp.Equal(before.Plan, fullPlan()) {
		t.Errorf("a plan that cannot be read (%v) changed what was there", err)
	}
	if _, err := json.Marshal(fullPlan()); err == nil || !strings.Contains(err.Error(), "planfile") {
		t.Errorf("a bare plan is marshalled in a shape that nobody promised: %v", err)
	}
}

func TestEncodeErrors(t *testing.T) {
	if err := planfile.Encode(new(bytes.Buffer), nil); err == nil || !strings.Contains(err.Error(), "nil") {
		t.Errorf("no plan: %v", err)
	}
	for _, c := range []struct {
		reason string
		spoil  func(*cutopt.Plan)
		want   string
	}{
		{"version of a plan made by hand", func(p *cutopt.Plan) { p.Version = 0 }, "Plan.Version is 0"},
		{"unit that is none", func(p *cutopt.Plan) { p.Unit = 9 }, "Unit(9)"},
		{"ends that are none", func(p *cutopt.Plan) { p.Floors[0].Rows[0].Runs[0].Pieces[0].Ends = 4 }, "Ends(4)"},
		{"no number", func(p *cutopt.Plan) { p.Waste.Afterwards = math.NaN() }, "NaN"},
	} {
		p := fullPlan()
		c.spoil(p)
		if err := planfile.Encode(new(bytes.Buffer), p); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want it to say %q", c.reason, err, c.want)
		}
	}
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("no full device here:", err)
	}
	defer full.Close()
	if err := planfile.Encode(full, fullPlan()); err == nil {
		t.Error("a full disk is no error")
	}
}

func TestDecodeLimit(t *testing.T) {
	blanks := &endless{}
	_, err := planfile.Decode(blanks)
	if !errors.Is(err, cutopt.ErrTooLarge) || !strings.Contains(err.Error(), "larger than 256 MiB") {
		t.Errorf("an endless file: %v", err)
	}
	if blanks.read > planfile.MaxSize+1<<20 {
		t.Errorf("%d bytes were read of it", blanks.read)
	}
}

type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	e.read += len(p)
	return len(p), nil
}

func FuzzDecode(f *testing.F) {
	// The seeds are short, each with its own part of a plan: a fuzzer spends its time on making long ones shorter.
	parts := []func(p, full *cutopt.Plan){
		func(p, full *cutopt.Plan) { p.Order, p.Bound.Certificate = full.Order, full.Bound.Certificate },
		func(p, full *cutopt.Plan) { p.Unit, p.Waste, p.Quality = measure.UnitMetre, full.Waste, full.Quality },
		func(p, full *cutopt.Plan) { p.Planks = full.Planks },
		func(p, full *cutopt.Plan) { p.Site = full.Site },
		func(p, full *cutopt.Plan) { p.Floors = full.Floors; p.Floors[0].Facts = nil; shaping(p, 1) },
		func(p, full *cutopt.Plan) {
			p.Floors = full.Floors
			p.Floors[0].Rows, p.Floors[0].Facts = nil, full.Floors[0].Facts[:2]
		},
	}
	for _, part := range parts {
		p := &cutopt.Plan{Version: cutopt.PlanVersion}
		part(p, fullPlan())
		f.Add(oracle.Encode(f, p))
	}
	f.Add([]byte(`{"floors": [{"rows": []}], "unit": "ft", "version": 1}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := planfile.Decode(bytes.NewReader(data))
		if err != nil {
			var place *planfile.Error
			if !errors.As(err, &place) || place.Line < 1 || place.Column < 1 {
				t.Fatalf("an error without a place: %v", err)
			}
			return
		}
		once := oracle.Encode(t, p)
		q, err := planfile.Decode(bytes.NewReader(once))
		if err != nil {
			t.Fatalf("what Encode wrote is refused: %v\n%s", err, once)
		}
		if twice := oracle.Encode(t, q); !slices.Equal(once, twice) {
			t.Fatalf("written again it differs:\n%s\n%s", once, twice)
		}
	})
}

// shaping leaves so many facts about the shape of the first piece.
func shaping(p *cutopt.Plan, n int) {
	piece := &p.Floors[0].Rows[0].Runs[0].Pieces[0]
	piece.Shaping = piece.Shaping[:n]
}
