package planfile

import (
	"bufio"
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A planWriter writes a plan file. The first error sticks.
type planWriter struct {
	w    *bufio.Writer
	unit measure.Unit
	err  error
}

func newPlanWriter(w io.Writer, unit measure.Unit) *planWriter {
	return &planWriter{w: bufio.NewWriter(w), unit: unit}
}

func (w *planWriter) flush() error {
	if w.err != nil {
		return w.err // what is buffered is not worth writing
	}
	return w.w.Flush()
}

// raw writes strings as they are; errors of the buffered writer come back from flush.
func (w *planWriter) raw(parts ...string) {
	for _, s := range parts {
		w.w.WriteString(s)
	}
}

// value writes anything as encoding/json does, without escapes meant for HTML.
func (w *planWriter) value(v any) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		w.fail(err)
		return
	}
	w.w.Write(bytes.TrimRight(b.Bytes(), "\n"))
}

func (w *planWriter) fail(err error) {
	if w.err == nil {
		w.err = fmt.Errorf("planfile: writing a plan: %w", err)
	}
}

func (w *planWriter) name(e encoding.TextMarshaler) {
	text, err := e.MarshalText()
	if err != nil {
		w.fail(err)
	}
	w.raw(`"`, string(text), `"`)
}

func (w *planWriter) length(l measure.Length) { w.raw(l.Decimal(w.unit)) }

func (w *planWriter) area(key string, a measure.Area) { w.raw(`, "`, key, `": `, a.Decimal(w.unit)) }

func (w *planWriter) count(key string, n int) { w.raw(`"`, key, `": `, strconv.Itoa(n)) }

func (w *planWriter) flag(key string, b bool) { w.raw(`, "`, key, `": `, strconv.FormatBool(b)) }

func (w *planWriter) point(p cutopt.Point) {
	w.raw("[")
	w.length(p.X)
	w.raw(", ")
	w.length(p.Y)
	w.raw("]")
}

// list writes n items, each on a line of its own after the given indent.
func (w *planWriter) list(n int, indent string, item func(i int)) {
	w.raw("[")
	for i := range n {
		if i > 0 {
			w.raw(",")
		}
		w.raw("\n", indent)
		item(i)
	}
	w.raw("]")
}

// inline writes n items on one line.
func (w *planWriter) inline(n int, item func(i int)) {
	w.raw("[")
	for i := range n {
		if i > 0 {
			w.raw(", ")
		}
		item(i)
	}
	w.raw("]")
}

func (w *planWriter) plan(p *cutopt.Plan) {
	if p.Version != cutopt.PlanVersion {
		w.fail(fmt.Errorf("Plan.Version is %d: this package writes version %d", p.Version, cutopt.PlanVersion))
		return
	}
	if _, err := p.Unit.MarshalText(); err != nil {
		w.fail(err)
		return
	}
	w.raw("{\n  ")
	w.count("version", p.Version)
	w.raw(",\n  \"job\": ")
	w.value(p.Job)
	w.raw(",\n  \"unit\": ")
	w.name(p.Unit)
	w.order(&p.Order)
	w.bound(&p.Bound)
	w.waste(&p.Waste)
	w.quality(&p.Quality)
	w.raw(",\n  \"floors\": ")
	w.list(len(p.Floors), "    ", func(i int) { w.room(&p.Floors[i]) })
	if len(p.Breaks) > 0 {
		w.raw(",\n  \"breaks\": ")
		w.list(len(p.Breaks), "    ", func(i int) { w.brk(&p.Breaks[i]) })
	}
	w.raw(",\n  \"planks\": ")
	w.list(len(p.Planks), "    ", func(i int) { w.plank(&p.Planks[i]) })
	if p.Site != nil {
		w.site(p.Site)
	}
	w.raw("\n}\n")
}

func (w *planWriter) order(o *cutopt.Order) {
	w.raw(",\n  \"order\": {")
	w.count("planks", o.Planks)
	w.raw(", ")
	w.count("planks_per_box", o.PlanksPerBox)
	w.raw(", ")
	w.count("boxes", o.Boxes)
	w.raw(", ")
	w.count("left", o.Left)
	w.raw(", ")
	w.count("kept", o.Kept)
	w.raw(", ")
	w.count("reserve", o.Reserve)
	w.raw(", ")
	w.count("fewest", o.Fewest)
	w.raw(`, "loss": `)
	w.value(o.Loss)
	w.raw(`, "risk_limit": `)
	w.value(o.RiskLimit)
	w.raw(`, "risk": `)
	w.value(o.Risk)
	w.raw(`, "price": `, o.Price.String(), ", ")
	w.count("thumb_boxes", o.ThumbBoxes)
	w.raw("}")
}

func (w *planWriter) bound(b *cutopt.Bound) {
	w.raw(",\n  \"bound\": {")
	w.count("planks", b.Planks)
	w.raw(", ")
	w.count("boxes", b.Boxes)
	w.flag("proven", b.Proven)
	w.flag("settled", b.Settled)
	w.flag("planks_proven", b.PlanksProven)
	if b.Certificate != nil {
		w.raw(`, "certificate": `)
		w.value(b.Certificate)
	}
	if r := b.Rooms; r != nil {
		w.raw(",\n    \"rooms\": {")
		w.count("planks", r.Planks)
		w.raw(`, "firsts": `)
		w.inline(len(r.Firsts), func(i int) {
			w.inline(len(r.Firsts[i]), func(k int) {
				w.raw(`{"width": `)
				w.length(r.Firsts[i][k].Width)
				if r.Firsts[i][k].Turned {
					w.flag("turned", true)
				}
				w.raw("}")
			})
		})
		w.raw(`, "certificate": `)
		w.value(r.Certificate)
		w.raw("}")
	}
	w.raw("}")
}

func (w *planWriter) waste(x *cutopt.Waste) {
	w.raw(",\n  \"waste\": {\"added_to_floor\": ")
	w.value(x.AddedToFloor)
	w.raw(`, "share_of_purchase": `)
	w.value(x.ShareOfPurchase)
	w.raw(`, "afterwards": `)
	w.value(x.Afterwards)
	w.raw(",\n    \"areas\": {\"unit\": \"", areaUnitName(w.unit), `"`)
	for _, f := range areasOf(x) {
		if !f.ofSite || *f.area != 0 {
			w.area(f.key, *f.area)
		}
	}
	w.raw("}}")
}

func (w *planWriter) quality(q *cutopt.Quality) {
	w.raw(",\n  \"quality\": {\"least_stagger\": ")
	w.length(q.LeastStagger)
	for _, f := range countsOf(q) {
		w.raw(", ")
		w.count(f.key, *f.count)
	}
	w.raw("}")
}

// A qualityCount is a key of a plan file's quality.
type qualityCount struct {
	key   string
	count *int
}

func countsOf(q *cutopt.Quality) []qualityCount {
	return []qualityCount{
		{"h_joints", &q.HJoints},
		{"longest_chain", &q.LongestChain},
		{"chains", &q.Chains},
		{"staircases", &q.Staircases},
		{"clusters", &q.Clusters},
		{"crosscuts", &q.Crosscuts},
		{"offcuts_at_once", &q.OffcutsAtOnce},
		{"rows_waited", &q.RowsWaited},
		{"odd_starters", &q.OddStarters},
	}
}

// A wasteArea is a key of a plan file's areas.
type wasteArea struct {
	key    string
	area   *measure.Area
	ofSite bool // 0 in a plan from scratch, and then not written
}

func areasOf(x *cutopt.Waste) []wasteArea {
	return []wasteArea{
		{"net", &x.Net, false},
		{"bought", &x.Bought, false},
		{"laid", &x.Laid, false},
		{"offcuts", &x.Offcuts, false},
		{"ripped", &x.Ripped, false},
		{"kerf", &x.Kerf, false},
		{"lost", &x.Lost, true},
		{"brought", &x.Brought, true},
		{"whole_left", &x.WholeLeft, false},
	}
}

// areaUnitName names the unit of areas in plan files.
func areaUnitName(u measure.Unit) string {
	if u.Metric() {
		return "m2"
	}
	return "ft2"
}

func (w *planWriter) room(r *cutopt.PlanFloor) {
	w.raw(`{"name": `)
	w.value(r.Name)
	if r.Field != 0 {
		w.raw(", ")
		w.count("field", r.Field)
	}
	w.raw(`, "axes": {"origin": `)
	w.point(r.Axes.Origin)
	w.raw(`, "turn": `)
	w.value(r.Axes.Turn)
	w.flag("mirrored", r.Axes.Mirrored)
	w.raw(`}, "laid_from": `)
	w.name(r.LaidFrom)
	w.lot(r.Lot)
	w.raw(`, "facts": `)
	w.inline(len(r.Facts), func(i int) { w.fact(&r.Facts[i]) })
	w.raw(`, "rows": `)
	w.list(len(r.Rows), "      ", func(i int) { w.row(&r.Rows[i]) })
	w.raw("}")
}

func (w *planWriter) brk(b *cutopt.PlanBreak) {
	w.raw("{")
	w.count("room", b.Room+1)
	w.raw(", ")
	w.count("wall", b.Wall+1)
	w.raw(`, "at": `)
	w.length(b.At)
	w.raw(", ")
	w.count("doorway", b.Doorway+1)
	w.raw(`, "from": `)
	w.point(b.From)
	w.raw(`, "to": `)
	w.point(b.To)
	w.raw(`, "length": `)
	w.length(b.Length)
	w.raw(`, "width": `)
	w.length(b.Width)
	w.flag("asked", b.Asked)
	w.raw("}")
}

func (w *planWriter) row(r *cutopt.PlanRow) {
	w.raw(`{"from": `)
	w.length(r.From)
	w.raw(`, "to": `)
	w.length(r.To)
	w.raw(`, "width": `)
	w.length(r.Width)
	w.raw(`, "runs": `)
	w.list(len(r.Runs), "        ", func(i int) { w.run(&r.Runs[i]) })
	w.raw("}")
}

func (w *planWriter) run(r *cutopt.PlanRun) {
	w.raw(`{"from": `)
	w.length(r.From)
	w.raw(`, "to": `)
	w.length(r.To)
	w.raw(`, "pieces": `)
	w.list(len(r.Pieces), "          ", func(i int) { w.piece(&r.Pieces[i]) })
	w.raw("}")
}

func (w *planWriter) piece(p *cutopt.Piece) {
	w.raw("{")
	w.count("plank", p.Plank)
	w.raw(`, "from": `)
	w.length(p.From)
	w.raw(`, "to": `)
	w.length(p.To)
	w.raw(`, "length": `)
	w.length(p.Length)
	if p.AsItComes != 0 {
		w.raw(`, "as_it_comes": `)
		w.length(p.AsItComes)
	}
	w.raw(`, "factory_ends": `)
	w.name(p.Ends)
	if len(p.Shape) > 0 {
		w.raw(`, "shape": `)
		w.inline(len(p.Shape), func(i int) { w.point(p.Shape[i]) })
	}
	if len(p.Shaping) > 0 {
		w.raw(`, "shaping": `)
		w.inline(len(p.Shaping), func(i int) { w.fact(&p.Shaping[i]) })
	}
	w.mark("lies", p.Lies)
	w.raw("}")
}

func (w *planWriter) plank(p *cutopt.PlankUse) {
	w.raw("{")
	w.count("number", p.Number)
	w.raw(`, "pieces": `)
	w.inline(len(p.Pieces), func(i int) {
		ref := p.Pieces[i]
		w.raw("{")
		w.count("floor", ref.Floor+1)
		w.raw(", ")
		w.count("row", ref.Row+1)
		w.raw(", ")
		w.count("run", ref.Run+1)
		w.raw(", ")
		w.count("piece", ref.Piece+1)
		w.raw("}")
	})
	w.raw(`, "cuts": `)
	w.inline(len(p.Cuts), func(i int) {
		w.raw(`{"at": `)
		w.length(p.Cuts[i].At)
		w.raw("}")
	})
	w.raw(`, "left": `)
	w.parts(p.Left)
	w.mark("opened", p.Opened)
	if len(p.Gone) > 0 {
		w.raw(`, "gone": `)
		w.parts(p.Gone)
	}
	w.mark("brought", p.Brought)
	w.lot(p.Lot)
	w.raw("}")
}

func (w *planWriter) parts(parts []cutopt.Leftover) {
	w.inline(len(parts), func(i int) {
		o := parts[i]
		w.raw(`{"from": `)
		w.length(o.From)
		w.raw(`, "to": `)
		w.length(o.To)
		w.raw(`, "factory_ends": `)
		w.name(o.Ends)
		w.raw("}")
	})
}
