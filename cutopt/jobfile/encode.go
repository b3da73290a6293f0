package jobfile

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"unicode"

	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Encode writes a job as a job file with every rule spelled out, lengths in the job's unit. [Decode] reads the same job
// back, but for an angle of rows that no direction asks for. It refuses a job that is not valid before it writes
// anything.
func Encode(w io.Writer, job *cutopt.Job) error { return encode(w, job, false) }

// EncodeCommented writes what [Encode] does with a comment beside each key, for people who begin with a written job and
// change it.
func EncodeCommented(w io.Writer, job *cutopt.Job) error { return encode(w, job, true) }

func encode(w io.Writer, job *cutopt.Job, commented bool) error {
	if err := job.Validate(); err != nil {
		return err
	}
	e := &encoder{unit: job.Unit}
	root := e.job(job)
	if e.err != nil {
		return e.err
	}
	if commented {
		help := make(map[string]string)
		for _, m := range Reference() {
			for _, k := range m.Keys {
				help[join(m.Path, k.Name)] = k.Help
			}
		}
		comment(root, "", help)
	}
	out, err := yaml.Dump(root, yaml.WithIndent(2), yaml.WithLineWidth(-1))
	if err != nil {
		return fmt.Errorf("jobfile: %w", err)
	}
	if len(out) > MaxSize {
		return fmt.Errorf("jobfile: the job takes %d bytes, and a job file has at most %d MB: %w",
			len(out), MaxSize>>20, cutopt.ErrTooLarge)
	}
	_, err = w.Write(out)
	return err
}

// comment puts help beside the values of a mapping, by their paths, and above those that take several lines.
func comment(n *yaml.Node, path string, help map[string]string) {
	if n.Kind == yaml.SequenceNode {
		for _, item := range n.Content {
			comment(item, path+"[]", help)
		}
		return
	}
	if n.Kind != yaml.MappingNode {
		return
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		at := join(path, key.Value)
		switch text := help[at]; {
		case text == "":
		case value.Kind == yaml.ScalarNode:
			value.LineComment = "# " + text
		default:
			key.HeadComment = "# " + text
		}
		comment(value, at, help)
	}
}

// An encoder builds the tree of a job file.
type encoder struct {
	unit measure.Unit
	err  error
}

// A tree is a mapping under construction.
type tree struct{ *yaml.Node }

func newTree(style yaml.Style) tree {
	return tree{&yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Style: style}}
}

func (t tree) put(key string, value *yaml.Node) {
	t.Content = append(t.Content, plain(key), value)
}

// plain returns a scalar that is written as it stands: a key, a number, a length or a word of this package.
func plain(text string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text, Style: 0}
}

// bare returns a number, which needs no quotes.
func bare(number string) *yaml.Node {
	n := plain(number)
	n.Tag = "!!float"
	return n
}

func list(style yaml.Style, items ...*yaml.Node) *yaml.Node {
	return &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq", Style: style, Content: items}
}

// name returns a name, quoted unless it is made of words.
func (e *encoder) name(s string) *yaml.Node {
	n := plain(s)
	for i, r := range s {
		if !unicode.IsLetter(r) && (i == 0 || !unicode.IsDigit(r) && r != ' ') || r > unicode.MaxLatin1 {
			n.Style = yaml.DoubleQuotedStyle
		}
	}
	return n
}

func (e *encoder) length(l measure.Length) *yaml.Node { return bare(l.Compact(e.unit, measure.Tick)) }

func (e *encoder) job(job *cutopt.Job) *yaml.Node {
	root := newTree(0)
	e.putName(root, job.Name)
	root.put("unit", plain(job.Unit.String()))
	root.put("plank", e.plank(job.Plank).Node)
	root.put("box", e.box(job.Box).Node)
	if len(job.Products) > 0 {
		products := list(0)
		for _, p := range job.Products {
			t := newTree(0)
			t.put("plank", e.plank(p.Plank).Node)
			t.put("box", e.box(p.Box).Node)
			products.Content = append(products.Content, t.Node)
		}
		root.put("products", products)
	}
	if s := job.Spare; s.Planks > 0 {
		root.put("spare", bare(s.String()))
	} else if s != (cutopt.Spare{}) {
		root.put("spare", plain(s.String()))
	}
	root.put("rules", e.rules(job.Rules).Node)
	if len(job.Pattern) > 0 {
		starters := list(yaml.FlowStyle)
		for _, s := range job.Pattern {
			starters.Content = append(starters.Content, e.length(s))
		}
		root.put("pattern", starters)
	}
	if job.Aims != nil {
		root.put("aims", e.aims(job.Aims))
	}
	rooms := list(0)
	for i := range job.Rooms {
		rooms.Content = append(rooms.Content, e.room(&job.Rooms[i]).Node)
	}
	root.put("rooms", rooms)
	e.materials(root, &job.Materials)
	return root.Node
}

func (e *encoder) putName(t tree, name string) {
	if name != "" {
		t.put("name", e.name(name))
	}
}

func (e *encoder) plank(p cutopt.Plank) tree {
	t := newTree(0)
	e.putName(t, p.Name)
	t.put("length", e.length(p.Length))
	t.put("width", e.length(p.Width))
	e.putLength(t, "thickness", p.Thickness)
	if p.Ends != cutopt.EndJoinUnset {
		t.put("ends", plain(p.Ends.String()))
	}
	if p.ToWall != cutopt.LongEdgeUnset {
		t.put("to-wall", plain(p.ToWall.String()))
	}
	if p.From != cutopt.FromUnset {
		t.put("from", plain(p.From.String()))
	}
	return t
}

func (e *encoder) box(b cutopt.Box) tree {
	t := newTree(0)
	if b.Planks > 0 {
		t.put("planks", bare(strconv.Itoa(b.Planks)))
	}
	if b.Covers > 0 {
		name := " sq ft"
		if e.unit.Metric() {
			name = " m2"
		}
		t.put("covers", plain(b.Covers.Decimal(e.unit)+name))
	}
	putPrice(t, b.Price)
	return t
}

// rules writes every rule of the table.
func (e *encoder) rules(r cutopt.Rules) tree {
	t := newTree(0)
	for _, rule := range cutopt.RuleTable() {
		text := rule.Text(r, e.unit)
		if rule.Kind() == "length" && text != rule.Zero {
			t.put(rule.Key, bare(text))
		} else {
			t.put(rule.Key, plain(text))
		}
	}
	return t
}

// number prints a float with the fewest digits that read back and no exponent.
func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func (e *encoder) room(r *cutopt.Room) tree {
	t := newTree(0)
	e.putName(t, r.Name)
	if width, depth, ok := sizeOf(r.Outline); ok {
		t.put("size", plain(width.Compact(e.unit, measure.Tick)+" x "+depth.Compact(e.unit, measure.Tick)))
	} else {
		t.put("corners", e.corners(r.Outline))
	}
	if r.WallGaps != nil {
		gaps := newTree(yaml.FlowStyle)
		for _, wall := range slices.Sorted(maps.Keys(r.WallGaps)) {
			gaps.Content = append(gaps.Content, bare(strconv.Itoa(wall+1)), e.length(r.WallGaps[wall]))
		}
		t.put("gaps", gaps.Node)
	}
	if len(r.Islands) > 0 {
		islands := list(0)
		for i := range r.Islands {
			islands.Content = append(islands.Content, e.island(&r.Islands[i]).Node)
		}
		t.put("islands", islands)
	}
	if len(r.Pipes) > 0 {
		pipes := list(0)
		for i := range r.Pipes {
			pipes.Content = append(pipes.Content, e.pipe(&r.Pipes[i]).Node)
		}
		t.put("pipes", pipes)
	}
	if len(r.Doorways) > 0 {
		doors := list(0)
		for i := range r.Doorways {
			doors.Content = append(doors.Content, e.doorway(&r.Doorways[i]).Node)
		}
		t.put("doorways", doors)
	}
	if len(r.Breaks) > 0 {
		breaks := list(0)
		for i := range r.Breaks {
			b := newTree(0)
			e.putName(b, r.Breaks[i].Name)
			b.put("wall", bare(strconv.Itoa(r.Breaks[i].Wall+1)))
			b.put("at", e.length(r.Breaks[i].At))
			breaks.Content = append(breaks.Content, b.Node)
		}
		t.put("breaks", breaks)
	}
	if r.Rows != (cutopt.RowRules{}) {
		t.put("rows", e.rows(r.Rows).Node)
	}
	return t
}

// sizeOf returns the two sides of a room that the key size can give.
func sizeOf(ring []measure.Point) (width, depth measure.Length, ok bool) {
	if len(ring) != 4 {
		return 0, 0, false
	}
	width, depth = ring[2].X, ring[2].Y
	return width, depth, width > 0 && depth > 0 && slices.Equal(ring, rectangle(measure.Point{}, width, depth))
}

func (e *encoder) corners(ring []measure.Point) *yaml.Node {
	points := list(0)
	for _, p := range ring {
		points.Content = append(points.Content, list(yaml.FlowStyle, e.length(p.X), e.length(p.Y)))
	}
	return points
}

func (e *encoder) island(island *cutopt.Island) tree {
	t := newTree(0)
	e.putName(t, island.Name)
	t.put("corners", e.corners(island.Outline))
	e.putGap(t, island.Gap)
	return t
}

func (e *encoder) pipe(pipe *cutopt.Pipe) tree {
	t := newTree(0)
	e.putName(t, pipe.Name)
	t.put("at", list(yaml.FlowStyle, e.length(pipe.At.X), e.length(pipe.At.Y)))
	t.put("diameter", e.length(pipe.Diameter))
	e.putGap(t, pipe.Gap)
	return t
}

// putGap writes the gap round a fixed thing, unless it is the rules'.
func (e *encoder) putGap(t tree, gap measure.Length) {
	switch {
	case gap == cutopt.GapNone:
		t.put("gap", bare("0"))
	case gap > 0:
		t.put("gap", e.length(gap))
	}
}

func (e *encoder) doorway(d *cutopt.Doorway) tree {
	t := newTree(0)
	e.putName(t, d.Name)
	t.put("wall", bare(strconv.Itoa(d.Wall+1)))
	t.put("at", e.length(d.At))
	t.put("width", e.length(d.Width))
	t.put("depth", e.length(d.Depth))
	t.put("casing", plain(d.Casing.String()))
	if d.To != "" {
		t.put("to", e.name(d.To))
	}
	putTrue(t, "through", d.Through)
	putTrue(t, "break", d.Break)
	if d.Transition != cutopt.TransitionOpen {
		t.put("transition", plain(d.Transition.String()))
	}
	e.putLength(t, "height", d.Height)
	e.putLength(t, "clearance", d.Clearance)
	return t
}

func (e *encoder) rows(r cutopt.RowRules) tree {
	t := newTree(0)
	if r.Direction == cutopt.DirectionAngle {
		t.put("direction", bare(number(r.Angle)))
	} else {
		t.put("direction", plain(r.Direction.String()))
	}
	if r.StartWall > 0 {
		t.put("start", bare(strconv.Itoa(r.StartWall)))
	} else {
		t.put("start", plain(r.Start.String()))
	}
	if r.LaidFrom != cutopt.FromUnset {
		t.put("from", plain(r.LaidFrom.String()))
	}
	if r.FirstRow > 0 {
		t.put("first", e.length(r.FirstRow))
	}
	return t
}
