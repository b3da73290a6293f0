package jobfile

import (
	"fmt"
	"math"
	"math/big"
	"strings"

	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

const (
	wallHint = `write the length and the turn at its end: 12' 6" right`
	turnHint = "write left or right for a square corner, or left 45 for a turn by 45 degrees"
)

// defaultMisclosure is what a careful tape walk round a room closes within: common practice.
func defaultMisclosure(unit measure.Unit) measure.Length {
	if unit.Metric() {
		return 12 * measure.Millimetre
	}
	return measure.Inch / 2
}

// A walk is the tape walk round a room.
type walk struct {
	legs      []leg
	tolerance measure.Length
	diagonals []span // in place of turns
	inward    []int  // corners that turn in, of a room given by diagonals
	clockwise bool   // its walls are named clockwise
}

// A leg is a wall and the turn at its end: degrees to the left, nil where the walk leaves it out.
type leg struct {
	length measure.Length
	turn   *big.Rat
}

// walls reads the legs of a walk and reports whether all of them are good.
func (d *decoder) walls(n *yaml.Node, path string, w *walk) bool {
	errs := d.count()
	d.items(n, path, "write a - before each wall", func(n *yaml.Node, path string) {
		var l leg
		d.wall(n, path, &l)
		w.legs = append(w.legs, l)
	})
	if d.count() > errs {
		return false
	}
	if len(w.legs) < 3 || len(w.legs) > cutopt.MaxCorners {
		d.fail(n, path, "a room has at least 3 walls and at most 50,000", "")
		return false
	}
	return true
}

// walked reports whether all walls but the last have a turn, as a walk needs.
func (d *decoder) walked(path string, w walk) bool {
	for k, l := range w.legs[:len(w.legs)-1] {
		if l.turn == nil {
			field := fmt.Sprintf("%s[%d]", path, k+1)
			d.failAt(d.file.places[field], field, "only the last wall may leave out its turn", wallHint+", or measure diagonals")
			return false
		}
	}
	return true
}

// wall reads one leg, from a text or a mapping.
func (d *decoder) wall(n *yaml.Node, path string, l *leg) {
	target := n
	if n.Kind == yaml.AliasNode {
		target = n.Alias
	}
	if target.Kind == yaml.MappingNode {
		d.mapping(n, path,
			key{"length", "measure the wall", d.length(&l.length)},
			key{"turn", "", func(n *yaml.Node, path string) {
				if n, s, ok := d.text(n, path, turnHint); ok {
					if l.turn, ok = parseTurn(s); !ok {
						d.fail(n, path, "this is no turn", turnHint)
					}
				}
			}},
		)
	} else if n, s, ok := d.text(n, path, wallHint); ok {
		length, turn := cutTurn(s)
		if turn != "" {
			if l.turn, ok = parseTurn(turn); !ok {
				d.fail(n, path, "this is no turn: "+quote(shorten(turn)), turnHint)
				return
			}
		}
		if strings.TrimSpace(length) == "" {
			d.fail(n, path, "the length of the wall is missing", wallHint)
		} else if errs := len(d.errs); !d.parseLength(n, path, length, 0, &l.length) && turn == "" && len(d.errs) > errs {
			d.errs[errs].Mend = wallHint
		}
	}
	if l.length > cutopt.MaxLength {
		d.fail(target, path, "a wall is at most 1 km long", "check its unit")
	}
}

// cutTurn cuts the turn off the end of a wall's text.
func cutTurn(s string) (length, turn string) {
	lower := strings.ToLower(s)
	i := max(strings.LastIndex(lower, "left"), strings.LastIndex(lower, "right"))
	if i < 0 || len(lower) != len(s) {
		return s, ""
	}
	return s[:i], s[i:]
}

// parseTurn reads left, right, left 45 or right 22.5°, and returns degrees to the left.
func parseTurn(s string) (*big.Rat, bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	rest, left := strings.CutPrefix(s, "left")
	if !left {
		var right bool
		if rest, right = strings.CutPrefix(s, "right"); !right {
			return nil, false
		}
	}
	degrees := big.NewRat(90, 1)
	if number := strings.TrimSpace(rest); number != "" {
		for _, unit := range []string{"°", "degrees", "degree", "deg"} {
			number = strings.TrimSpace(strings.TrimSuffix(number, unit))
		}
		if v, ok := decimal(number); !ok || v <= 0 || v >= 180 {
			return nil, false
		}
		degrees.SetString(number)
	}
	if !left {
		degrees.Neg(degrees)
	}
	return degrees, true
}

// close returns the corners of a walk with its misclosure spread, or reports what is wrong with it.
func (d *decoder) close(path string, w walk) []measure.Point {
	at := d.file.places[path]
	square, problem := w.turns()
	if problem != "" {
		d.failAt(at, path, problem, "check that every wall has its turn, seen along the walk; no misclosure makes up for one")
		return nil
	}
	corners, end := w.corners()
	gap := d.misclosure(end, w.tolerance)
	if gap.over {
		d.failAt(at, path, fmt.Sprintf("the walk ends %s from where it began (%s): more than the misclosure of %s",
			gap.text, gap.parts, w.tolerance.Format(d.file.Job.Unit, measure.Tick)), gap.hint)
		return nil
	}
	if end == (measure.Point{}) {
		return corners
	}
	rule := "each wall by its length (compass rule)"
	if square {
		rule = "each wall by its length along its own axis (transit rule), corners kept square"
		w.spreadSquare(corners, end)
	} else {
		w.spread(corners, end)
	}
	d.file.Warnings = append(d.file.Warnings, Warning{
		File: d.file.name, Line: at.line, Column: at.column, Key: path,
		Text: fmt.Sprintf("the walk ends %s from where it began (%s): spread over the walls, %s", gap.text, gap.parts, rule),
	})
	return corners
}

// turns reports whether all corners are square, and what is wrong with the sum of the turns.
func (w walk) turns() (square bool, problem string) {
	square = true
	sum, whole := new(big.Rat), big.NewRat(360, 1)
	for _, l := range w.legs {
		if l.turn == nil {
			continue
		}
		sum.Add(sum, l.turn)
		square = square && new(big.Rat).Abs(l.turn).Cmp(big.NewRat(90, 1)) == 0
	}
	if w.legs[len(w.legs)-1].turn == nil {
		return square, ""
	}
	off := new(big.Rat).Sub(new(big.Rat).Abs(sum), whole)
	if off.Abs(off).Cmp(big.NewRat(1, 1)) > 0 || square && off.Sign() != 0 {
		degrees, _ := sum.Abs(sum).Float64()
		return square, fmt.Sprintf("the turns add up to %g degrees, and once round a room is 360", degrees)
	}
	return square, ""
}

// corners returns where each wall begins and where the last one ends.
func (w walk) corners() (corners []measure.Point, end measure.Point) {
	heading := new(big.Rat)
	for _, l := range w.legs {
		corners = append(corners, end)
		cos, sin := direction(heading)
		end.X += along(l.length, cos)
		end.Y += along(l.length, sin)
		if l.turn != nil {
			heading.Add(heading, l.turn)
		}
	}
	return corners, end
}

// along returns l*f to the nearest tick.
func along(l measure.Length, f *big.Rat) measure.Length {
	product := new(big.Int).Mul(big.NewInt(int64(l)), f.Num())
	return measure.Length(roundDiv(product, f.Denom()).Int64())
}

// spread moves corner k by the share of the error that the walls up to it have in the length of all walls.
func (w walk) spread(corners []measure.Point, end measure.Point) {
	var total, before measure.Length
	for _, l := range w.legs {
		total += l.length
	}
	for k, l := range w.legs {
		corners[k].X -= share(end.X, before, total)
		corners[k].Y -= share(end.Y, before, total)
		before += l.length
	}
}

// spreadSquare does so for each axis by itself, with the walls that run along it.
func (w walk) spreadSquare(corners []measure.Point, end measure.Point) {
	var total, before [2]measure.Length // along x and along y
	for k, l := range w.legs {
		total[k%2] += l.length // each square corner changes the axis
	}
	for k, l := range w.legs {
		corners[k].X -= share(end.X, before[0], total[0])
		corners[k].Y -= share(end.Y, before[1], total[1])
		before[k%2] += l.length
	}
}

// share returns whole*part/total to the nearest tick.
func share(whole, part, total measure.Length) measure.Length {
	if total == 0 {
		return 0
	}
	product := new(big.Int).Mul(big.NewInt(int64(whole)), big.NewInt(int64(part)))
	return measure.Length(roundDiv(product, big.NewInt(int64(total))).Int64())
}

// A gap is the misclosure of a walk in words.
type gap struct {
	over              bool // above the tolerance
	text, parts, hint string
}

// misclosure describes the way from the start of a walk to its end.
func (d *decoder) misclosure(end measure.Point, tolerance measure.Length) gap {
	unit, grid := d.file.Job.Unit, measure.Millimetre
	if !unit.Metric() {
		grid = measure.Sixteenth
	}
	dx, dy := max(end.X, -end.X), max(end.Y, -end.Y)
	g := gap{over: dx > tolerance || dy > tolerance}
	if !g.over { // so dx and dy are small enough to square
		g.over = tolerance <= cutopt.MaxLength && dx*dx+dy*dy > tolerance*tolerance
	}
	g.text = measure.Length(math.Hypot(float64(dx), float64(dy))).Format(unit, grid)
	g.parts = fmt.Sprintf("%s along wall 1, %s across it", dx.Format(unit, grid), dy.Format(unit, grid))
	g.hint = "measure again, or allow more with misclosure"
	switch {
	case dy <= tolerance && dx > tolerance:
		g.hint = "measure the walls that run like wall 1 again, or allow more with misclosure"
	case dx <= tolerance && dy > tolerance:
		g.hint = "measure the walls that run across wall 1 again, or allow more with misclosure"
	}
	return g
}
