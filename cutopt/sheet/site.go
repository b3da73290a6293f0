package sheet

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt/laying"
	"plank.example/cutopt/sheet/internal/draw"
)

// Happened is what the job sheet copies for planning on: the beginning of a state file, and the line that tells of
// each row that it lies, by floor and row. Package site reads and writes such lines.
type Happened struct {
	Head  string // lines up to those of events, each with its line break
	Lines [][]string
	// Indent is what stands before each line.
	Indent string
}

// line returns the line that tells of a row; "" where none is given.
func (h *Happened) line(floor, row int) string {
	if h == nil || floor >= len(h.Lines) || row >= len(h.Lines[floor]) {
		return ""
	}
	return h.Lines[floor][row]
}

// The printed form: its section, how many lines it has, and how far they are apart, in points.
const (
	formID    = "happened"
	formLines = 10
	formPitch = 22.0
)

// begun reports whether the plan is one of a job that is begun.
func (b *book) begun() bool { return b.plan.Site != nil }

// lotOf names the lot that a floor is laid from; "" where lots are not told apart.
func (b *book) lotOf(floor int) string {
	lot := b.plan.Floors[floor].Lot
	if lot == "" {
		return ""
	}
	return " · " + b.Say("site.lot-short", "lot", lot)
}

// siteBlocks say, of a job that is begun, whether what is here will do, what to buy, what changed and how it stands.
func (b *book) siteBlocks() []block {
	r := b.Site(b.job, b.plan)
	blocks := []block{{Text: r.Will, Strong: true}, {Text: r.Buy, Strong: true}, {Text: r.Changed}}
	if t := b.changes(); len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	return append(blocks, block{Items: r.Stands})
}

// changes lists the rows that start otherwise than before.
func (b *book) changes() block {
	t := block{Head: []string{b.Say("site.row"), b.Say("site.was"), b.Say("site.is")}}
	for _, c := range b.plan.Site.Changed {
		if c.Floor >= len(b.lay.Floors) || c.Row >= len(b.lay.Floors[c.Floor]) {
			continue
		}
		name := strconv.Itoa(c.Row + 1)
		for _, run := range b.lay.Floors[c.Floor][c.Row].Runs {
			if run.Index == c.Run {
				name = run.Name
			}
		}
		if len(b.plan.Floors) > 1 {
			name = b.floorName(c.Floor) + " " + name
		}
		was := "–"
		if c.Was > 0 {
			was = b.Length(c.Was)
		}
		t.Rows = append(t.Rows, []string{name, was, b.Length(c.Is)})
	}
	return t
}

// handBlocks list the offcuts on hand, the longest first, and where each goes.
func (b *book) handBlocks() []block {
	t := block{Head: []string{
		b.Say("hand.length"), b.Say("hand.end"), b.Say("hand.plank"), b.Say("hand.goes"),
	}}
	spare := 0
	for _, o := range b.onHand() {
		if o.Next == nil && o.Length() < b.job.Rules.MinPiece {
			spare++
			continue
		}
		goes := b.Say("hand.spare")
		if o.Next != nil {
			floor := -1 // names the floor of each
			if len(b.plan.Floors) == 1 {
				floor = 0
			}
			goes = b.mark(o.Next) + ": " + b.use(o.Next, floor)
		}
		t.Rows = append(t.Rows, []string{
			b.Length(o.Length()), b.Say("hand.ends." + o.Ends.String()), strconv.Itoa(o.Plank), goes,
		})
	}
	blocks := []block{{Text: b.Say("hand.intro")}}
	if len(t.Rows) > 0 {
		blocks = append(blocks, t)
	} else {
		blocks[0].Text = b.Say("hand.nothing")
	}
	if spare > 0 {
		blocks = append(blocks, block{Text: b.Count("hand.short", spare, "least", b.Length(b.job.Rules.MinPiece))})
	}
	return blocks
}

// onHand returns the offcuts on hand, the longest first.
func (b *book) onHand() []*laying.Offcut {
	return slices.SortedStableFunc(slices.Values(b.lay.OnHand), func(o, p *laying.Offcut) int {
		return cmp.Compare(p.Length(), o.Length())
	})
}

// lying returns how many pieces of a row lie, and whether all do.
func lying(lr laying.Row) (n int, all bool) {
	all = len(lr.Runs) > 0
	for _, run := range lr.Runs {
		for _, p := range run.Pieces {
			if p.Lies {
				n++
			} else {
				all = false
			}
		}
	}
	return n, all
}

// done reports whether nothing more is to be cut from a plank: all that the plan has of it lies, or it is lost.
func (b *book) done(i int) bool {
	for _, p := range b.lay.Planks[i] {
		if !p.Lies {
			return false
		}
	}
	return b.begun()
}

// formSection is what happened: the text that ticks make, on a screen, and lines to write on, on paper.
func (b *book) formSection() section {
	return section{formID, b.Say("sheet.happened"), some(
		block{Text: b.Say("happened.intro")},
		block{Form: formLines, Happened: b.opt.Happened},
	)}
}

// samples are lines such as could be written, in a plan of several floors with the name of the first.
func (b *book) samples() []string {
	row := "row"
	if len(b.plan.Floors) > 1 {
		row = b.plan.Floors[0].Name
	}
	return strings.Split(b.Say("happened.lines", "row", row), "\n")
}

// form sets lines to write on, with samples above.
func (b *book) form(f *flow, lines int) {
	f.para(b.Say("happened.samples")+" "+strings.Join(b.samples(), "   ·   "), f.small())
	for n := range lines {
		f.need(formPitch)
		f.y += formPitch
		f.d.Write(draw.Text{
			At: draw.Point{X: f.left(), Y: f.y - 3}, Str: strconv.Itoa(n + 1), Size: 7, Colour: b.look.soft,
		})
		f.d.Line(draw.Pen{Colour: b.look.soft, Width: 0.5}, draw.Point{X: f.left() + 14, Y: f.y - 2},
			draw.Point{X: f.left() + f.inner(), Y: f.y - 2})
	}
	f.skip(4)
}

// paintOf returns how a piece is filled and hatched: what lies is plain grey.
func (l look) paintOf(p *laying.Piece) (draw.Colour, draw.Hatch) {
	if p.Lies {
		return l.lies, draw.HatchNone
	}
	return l.paint(p.Role)
}
