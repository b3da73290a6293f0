package jobfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// maxTriangulated is the most corners of a room that is given by its walls and diagonals: the adjustment takes
// O(corners³).
const maxTriangulated = 200

const diagonalHint = `write each as two corners and the length between them: [1, 3, 18' 2 1/4"]`

// A span is a length measured between two corners, counted from 0.
type span struct {
	from, to int
	length   measure.Length
	path     string // of the key that it was read from
}

func (s span) name() string { return fmt.Sprintf("%d-%d", s.from+1, s.to+1) }

// diagonals returns a reader of a list of [corner, corner, length].
func (d *decoder) diagonals(w *walk) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.items(n, path, diagonalHint, func(n *yaml.Node, path string) {
			if n = d.visit(n, path); n == nil {
				return
			}
			if n.Kind != yaml.SequenceNode || len(n.Content) != 3 {
				d.fail(n, path, "a diagonal is two corners and a length", diagonalHint)
				return
			}
			at, errs := d.file.places[path], d.count()
			s := span{path: path}
			d.whole(&s.from)(n.Content[0], path)
			d.whole(&s.to)(n.Content[1], path)
			d.length(&s.length)(n.Content[2], path)
			d.file.places[path] = at // the place of a diagonal is where its list begins
			if d.count() == errs {
				s.from, s.to = s.from-1, s.to-1
				w.diagonals = append(w.diagonals, s)
			}
		})
	}
}

// inward returns a reader of the list of corners that turn in.
func (d *decoder) inward(w *walk) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.items(n, path, "write the numbers of the corners that turn in: [4]", func(n *yaml.Node, path string) {
			var corner int
			d.whole(&corner)(n, path)
			w.inward = append(w.inward, corner-1)
		})
	}
}

// triangulate returns the corners of a room from its walls and diagonals, or reports what is wrong with them.
func (d *decoder) triangulate(path string, w walk) []measure.Point {
	key := path + ".diagonals"
	at := d.file.places[key]
	n := len(w.legs)
	spans, ok := d.spans(path, w)
	if !ok {
		return nil
	}
	if need := n - 3; len(w.diagonals) < need {
		d.failAt(
			at,
			key,
			fmt.Sprintf(
				"a room of %d corners is fixed by %d diagonals that cut it into triangles, and here are %d",
				n,
				need,
				len(w.diagonals),
			),
			"measure more of them inside the room, so that misclosure can tell what is wrong, or give the turns of the walls",
		)
		return nil
	}
	t := &triangles{n: n, spans: spans, inward: w.inward, tolerance: float64(w.tolerance)}
	if wrong := t.place(d.text64); wrong != nil {
		d.failAt(at, key, wrong.Msg, wrong.Mend)
		return nil
	}
	if len(spans) > 2*n-3 && !t.adjust() {
		d.failAt(
			at,
			key,
			"the walls and the diagonals contradict each other",
			"measure them again; misclosure allows only small differences",
		)
		return nil
	}
	if !d.residuals(key, t) || !d.turnsIn(path, t) {
		return nil
	}
	corners := make([]measure.Point, n)
	for i, p := range t.at {
		corners[i] = measure.Point{X: measure.Length(math.Round(p[0])), Y: measure.Length(math.Round(p[1]))}
		if w.clockwise {
			corners[i].Y = -corners[i].Y
		}
	}
	return corners
}

// spans lists all measures: the walls in order, then the diagonals. It reports those that cannot be.
func (d *decoder) spans(path string, w walk) ([]span, bool) {
	n, errs := len(w.legs), d.count()
	if n > maxTriangulated {
		d.failAt(
			d.file.places[path+".walls"],
			path+".walls",
			fmt.Sprintf("a room given by diagonals has at most %d walls", maxTriangulated),
			"give the turns of the walls, or corners",
		)
		return nil, false
	}
	var all []span
	seen := make(map[[2]int]bool)
	for k, l := range w.legs {
		s := span{k, (k + 1) % n, l.length, fmt.Sprintf("%s.walls[%d]", path, k+1)}
		if l.turn != nil {
			d.failAt(
				d.file.places[s.path],
				s.path,
				"a room has turns of its walls or diagonals, not both",
				"drop the turn, or the diagonals",
			)
		}
		if l.length <= 0 {
			d.failAt(d.file.places[s.path], s.path, "a wall is longer than 0", "measure it again")
		}
		all = append(all, s)
		seen[[2]int{min(s.from, s.to), max(s.from, s.to)}] = true
	}
	for _, s := range w.diagonals {
		ends := [2]int{min(s.from, s.to), max(s.from, s.to)}
		switch {
		case ends[0] < 0 || ends[1] >= n || ends[0] == ends[1]:
			d.failAt(d.file.places[s.path], s.path, fmt.Sprintf("a diagonal joins two of the corners 1 to %d", n),
				"wall 1 runs from corner 1 to corner 2, and so on")
		case seen[ends]:
			d.failAt(d.file.places[s.path], s.path, "this is a wall, or a diagonal given before", "give each length once")
		case s.length <= 0 || s.length > cutopt.MaxLength:
			d.failAt(d.file.places[s.path], s.path, "a diagonal is longer than 0 and at most 1 km", "check its unit")
		}
		seen[ends] = true
		all = append(all, s)
	}
	for i, corner := range w.inward {
		if corner < 0 || corner >= n {
			field := fmt.Sprintf("%s.inward[%d]", path, i+1)
			d.failAt(
				d.file.places[field],
				field,
				fmt.Sprintf("the room has corners 1 to %d", n),
				"wall 1 runs from corner 1 to corner 2, and so on",
			)
		}
	}
	return all, d.count() == errs
}

// text64 prints a length reckoned in ticks.
func (d *decoder) text64(ticks float64) string {
	return measure.Length(math.Round(ticks)).Format(d.file.Job.Unit, d.tapeMark())
}

// tapeMark returns the graduation of the tape that rooms are measured with.
func (d *decoder) tapeMark() measure.Length {
	if d.file.Job.Unit.Metric() {
		return measure.Millimetre
	}
	return measure.Sixteenth
}

// residuals reports the largest difference between what was measured and the corners, when it is beyond the misclosure;
// below that it leaves a warning with those that a tape shows.
func (d *decoder) residuals(key string, t *triangles) bool {
	largest, worst := 0.0, 0
	var list []string
	for i, s := range t.spans {
		r := t.residual(s)
		if math.Abs(r) > math.Abs(largest) {
			largest, worst = r, i
		}
		sign := "+"
		if r < 0 {
			sign = "-"
		}
		if off := d.text64(math.Abs(r)); off != d.text64(0) {
			list = append(list, s.name()+" "+sign+off)
		}
	}
	s := t.spans[worst]
	if math.Abs(largest) > t.tolerance {
		d.failAt(d.file.places[s.path], s.path, fmt.Sprintf(
			"the other measures make the way from corner %d to corner %d %s, %s off: more than the misclosure of %s",
			s.from+1, s.to+1, d.text64(float64(s.length)+largest), d.text64(math.Abs(largest)), d.text64(t.tolerance)),
			"measure it and those beside it again, or allow more with misclosure")
		return false
	}
	if math.Abs(largest) >= 0.5 { // a tick or more
		at, text := d.file.places[key], "adjusted to fit each other by least squares, "
		switch {
		case len(list) == 0:
			text += "none by as much as " + d.text64(float64(d.tapeMark()))
		case len(list) < len(t.spans):
			text += "from corner to corner: " + strings.Join(list, ", ") + "; the others by less than " +
				d.text64(float64(d.tapeMark()))
		default:
			text += "from corner to corner: " + strings.Join(list, ", ")
		}
		d.file.Warnings = append(d.file.Warnings, Warning{
			File: d.file.name, Line: at.line, Column: at.column, Key: key,
			Text: text,
		})
	}
	return true
}

// turnsIn holds the corners that turn in against those named.
func (d *decoder) turnsIn(path string, t *triangles) bool {
	errs := d.count()
	for k := range t.n {
		a, b, c := t.at[(k+t.n-1)%t.n], t.at[k], t.at[(k+1)%t.n]
		cross := float64((b[0]-a[0])*(c[1]-a[1])) - float64((b[1]-a[1])*(c[0]-a[0]))
		off := cross / max(math.Hypot(c[0]-a[0], c[1]-a[1]), 1) // of the corner from the line between its neighbours
		named := slices.Contains(t.inward, k)
		if off < -t.tolerance && !named || off > t.tolerance && named {
			msg, mend := "turns in by these measures and is not named under inward", "name it there, or measure again"
			if named {
				msg, mend = "turns out by these measures and is named under inward", "drop it there, or measure again"
			}
			at := d.file.places[path+".walls"]
			d.failAt(at, path+".walls", fmt.Sprintf("corner %d %s", k+1, msg), mend+"; misclosure does not reach so far")
		}
	}
	return d.count() == errs
}
