package stock

import (
	"fmt"

	"plank.example/cutopt/measure"
)

// A Violation is a rule that a plan breaks.
type Violation struct {
	Cutting int    // index into Plan.Cuttings, or -1 for the plan as a whole
	Rule    string // "stick", "count", "piece", "fit", "offcut", "supply", "pieces", "cost", "sticks"
	Text    string // what is wrong, with figures; lengths in ticks
}

// String names the cutting, counted from 1, and says what is wrong.
func (v Violation) String() string {
	if v.Cutting < 0 {
		return v.Rule + ": " + v.Text
	}
	return fmt.Sprintf("cutting %d: %s: %s", v.Cutting+1, v.Rule, v.Text)
}

// Check recounts a plan: that the pieces of each stick and their kerfs fit on it, that every piece is cut as often as
// wanted and no stick more often than there are, and that offcuts, cost and number of sticks are as stated. The job
// must be valid; a nil plan cuts nothing. It returns what is broken, nil where nothing is. It shares no code with any
// solver. Cost: O(size of both).
func Check(job *Job, plan *Plan) []Violation {
	if plan == nil {
		plan = new(Plan)
	}
	c := &checker{job: job, cut: make([]int, len(job.Pieces)), used: make([]int, len(job.Sticks))}
	costs := job.Costs()
	sticks, cost := 0, int64(0)
	var longest measure.Length
	for i, k := range plan.Cuttings {
		if !c.cutting(i, &k) {
			continue
		}
		sticks += k.Count
		cost += int64(k.Count) * costs[k.Stick]
		longest = max(longest, k.Offcut)
	}
	for k, s := range job.Sticks {
		if s.Supply > 0 && c.used[k] > s.Supply {
			c.add(-1, "supply", "%d sticks of kind %d are cut, there are %d", c.used[k], k+1, s.Supply)
		}
	}
	for i, p := range job.Pieces {
		if c.cut[i] != p.Count {
			c.add(-1, "pieces", "piece %d is cut %d times, wanted are %d", i+1, c.cut[i], p.Count)
		}
	}
	if longest < job.Keep {
		longest = 0
	}
	if len(c.found) > 0 {
		return c.found // the sums are of no use
	}
	if cost != plan.Cost {
		c.add(-1, "cost", "the sticks cost %d, stated are %d", cost, plan.Cost)
	}
	if sticks != plan.Sticks {
		c.add(-1, "sticks", "%d sticks are cut, stated are %d", sticks, plan.Sticks)
	}
	if longest != plan.Offcut {
		c.add(-1, "offcut", "the longest worth keeping is %d, stated is %d", longest, plan.Offcut)
	}
	return c.found
}

type checker struct {
	job       *Job
	cut, used []int // by piece, by stick
	found     []Violation
}

func (c *checker) add(cutting int, rule, format string, args ...any) {
	c.found = append(c.found, Violation{cutting, rule, fmt.Sprintf(format, args...)})
}

// cutting recounts one cutting and reports whether its figures can be summed.
func (c *checker) cutting(i int, k *Cutting) bool {
	if k.Stick < 0 || k.Stick >= len(c.job.Sticks) {
		c.add(i, "stick", "there is no stick of kind %d", k.Stick+1)
		return false
	}
	if k.Count < 1 || k.Count > MaxPieces {
		c.add(i, "count", "%d sticks are no number from 1 to %d", k.Count, MaxPieces)
		return false
	}
	n, total := 0, measure.Length(0)
	for _, p := range k.Pieces {
		if p.Piece < 0 || p.Piece >= len(c.job.Pieces) {
			c.add(i, "piece", "there is no piece %d", p.Piece+1)
			return false
		}
		if p.Count < 1 || p.Count > MaxPieces || n+p.Count > MaxPieces {
			c.add(i, "count", "%d pieces are no number from 1 to %d", p.Count, MaxPieces)
			return false
		}
		n += p.Count
		total += measure.Length(p.Count) * c.job.Pieces[p.Piece].Length
	}
	if n == 0 {
		c.add(i, "piece", "nothing is cut from it")
		return false
	}
	left, fits := c.left(k.Stick, n, total)
	if !fits {
		c.add(i, "fit", "%d pieces of %d in all and their kerfs are longer than the stick", n, total)
		return false
	}
	if left != k.Offcut {
		c.add(i, "offcut", "%d is left, stated is %d", left, k.Offcut)
	}
	for _, p := range k.Pieces {
		c.cut[p.Piece] = min(c.cut[p.Piece]+k.Count*p.Count, 1<<40)
	}
	c.used[k.Stick] = min(c.used[k.Stick]+k.Count, 1<<40)
	return true
}

// left is what a stick leaves when pieces of the given total length are cut from it, each with a kerf behind it; the
// last kerf may run out of the stick. It reports false when they do not fit.
func (c *checker) left(stick, pieces int, total measure.Length) (measure.Length, bool) {
	left := c.job.Sticks[stick].Usable() - total - measure.Length(pieces)*c.job.Kerf
	return max(left, 0), left+c.job.Kerf >= 0
}
