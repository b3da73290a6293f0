package check

import (
	"cmp"
	"context"
	"iter"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// quality recounts the figures of the floor where nothing else is wrong: those of a floor that cannot be laid mean
// nothing.
func (c *checker) quality() {
	if len(c.out) > 0 || c.over() {
		return
	}
	q := &c.plan.Quality
	var got cutopt.Quality
	got.LeastStagger = c.job.Plank.Length
	for i := range c.plan.Floors {
		s := &seen{ctx: c.ctx, job: c.job, floor: &c.plan.Floors[i], q: &got}
		s.count()
	}
	for i := range c.plan.Planks {
		got.Crosscuts += len(c.plan.Planks[i].Cuts)
	}
	got.OffcutsAtOnce, got.RowsWaited = c.carried()
	c.equal(RuleQuality, "quality.h_joints", q.HJoints, got.HJoints)
	c.equal(RuleQuality, "quality.longest_chain", q.LongestChain, got.LongestChain)
	c.equal(RuleQuality, "quality.chains", q.Chains, got.Chains)
	c.equal(RuleQuality, "quality.staircases", q.Staircases, got.Staircases)
	c.equal(RuleQuality, "quality.clusters", q.Clusters, got.Clusters)
	if q.LeastStagger != got.LeastStagger {
		c.off(RuleQuality, "quality.least_stagger", q.LeastStagger, got.LeastStagger)
	}
	c.equal(RuleQuality, "quality.crosscuts", q.Crosscuts, got.Crosscuts)
	c.equal(RuleQuality, "quality.offcuts_at_once", q.OffcutsAtOnce, got.OffcutsAtOnce)
	c.equal(RuleQuality, "quality.rows_waited", q.RowsWaited, got.RowsWaited)
	c.equal(RuleQuality, "quality.odd_starters", q.OddStarters, got.OddStarters)
}

// carried follows every plank from the row of its first piece to that of its last and returns the most that are under
// way at the end of a row, and the rows between first and last, added up. Rows are those of all rooms that have runs.
func (c *checker) carried() (atOnce, waited int) {
	number := make([][]int, len(c.plan.Floors))
	rows := 0
	for i := range c.plan.Floors {
		for j := range c.plan.Floors[i].Rows {
			number[i] = append(number[i], rows)
			if len(c.plan.Floors[i].Rows[j].Runs) > 0 {
				rows++
			}
		}
	}
	change := make([]int, rows+1) // of the planks under way, by row
	for i := range c.plan.Planks {
		first, last := rows, -1
		for _, ref := range c.plan.Planks[i].Pieces {
			n := number[ref.Floor][ref.Row]
			first, last = min(first, n), max(last, n)
		}
		if first < last {
			change[first]++
			change[last]--
			waited += last - first - 1
		}
	}
	now := 0
	for _, d := range change {
		now += d
		atOnce = max(atOnce, now)
	}
	return atOnce, waited
}

// seen counts the figures of one room that can be seen on the floor.
type seen struct {
	ctx   context.Context
	job   *cutopt.Job
	floor *cutopt.PlanFloor
	q     *cutopt.Quality

	// joints of the row at hand and the three after it, by row modulo four, from left to right
	joints [4][]joint
}

func (s *seen) count() {
	rows := s.floor.Rows
	for i := range min(3, len(rows)) {
		s.joints[i] = joints(nil, s.floor, i)
	}
	for i := range rows {
		if s.ctx.Err() != nil {
			return
		}
		if n := i + 3; n < len(rows) {
			s.joints[n%4] = joints(s.joints[n%4], s.floor, n)
		}
		for k := range rows[i].Runs {
			s.starter(&rows[i].Runs[k])
		}
		var path [4]measure.Length
		for k := range s.joints[i%4] {
			a := &s.joints[i%4][k]
			s.stagger(i, a)
			path[0] = a.x
			s.follow(i, a, path[:1])
		}
		s.inLine(i)
	}
	s.chains()
}

// chains follows steps from row to row: each run hands on, to those of the next row that touch it, how many steps the
// same way have led to it, and one more where the step between them goes that way too.
func (s *seen) chains() {
	long := s.job.Plank.Length
	var before [][2]int // by run of the row before: steps to the right, steps to the left
	for i := range s.floor.Rows {
		here := make([][2]int, len(s.floor.Rows[i].Runs))
		if i > 0 && s.floor.Rows[i-1].To == s.floor.Rows[i].From {
			for k := range here {
				b := &s.floor.Rows[i].Runs[k]
				for j := range before {
					a := &s.floor.Rows[i-1].Runs[j]
					if len(a.Pieces) < 2 || len(b.Pieces) < 2 || min(a.To, b.To) <= max(a.From, b.From) {
						continue
					}
					by := (b.Pieces[0].To - a.Pieces[0].To) % long
					right := 2*by > 0 && 2*by < long || 2*by < -long
					left := 2*by < 0 && 2*by > -long || 2*by > long
					if right {
						here[k][0] = max(here[k][0], before[j][0]+1)
					}
					if left {
						here[k][1] = max(here[k][1], before[j][1]+1)
					}
				}
				for _, steps := range here[k] {
					if s.q.LongestChain = max(s.q.LongestChain, steps); steps >= 5 {
						s.q.Chains++
					}
				}
			}
		}
		before = here
	}
}

// starter counts the piece of a run that is laid first.
func (s *seen) starter(run *cutopt.PlanRun) {
	if len(run.Pieces) < 2 {
		return
	}
	p := &run.Pieces[first(s.floor, len(run.Pieces))]
	if p.AsItComes > 0 {
		return
	}
	if length, round := p.To-p.From, s.job.Rules.Round; round > 0 && length < s.job.Plank.Length && length%round != 0 {
		s.q.OddStarters++
	}
}

// next yields the joints of the row after row i from low to high in runs that touch the run of a.
func (s *seen) next(i int, a *joint, low, high measure.Length) iter.Seq[*joint] {
	return func(yield func(*joint) bool) {
		if i+1 >= len(s.floor.Rows) || s.floor.Rows[i].To != s.floor.Rows[i+1].From {
			return
		}
		all := s.joints[(i+1)%4]
		from, _ := slices.BinarySearchFunc(all, low, func(j joint, x measure.Length) int { return cmp.Compare(j.x, x) })
		for k := from; k < len(all) && all[k].x <= high; k++ {
			if b := &all[k]; min(a.to, b.to) > max(a.from, b.from) && !yield(b) {
				return
			}
		}
	}
}

// stagger looks for the nearest joints of the row after.
func (s *seen) stagger(i int, a *joint) {
	for b := range s.next(i, a, a.x-s.q.LeastStagger, a.x+s.q.LeastStagger) {
		s.q.LeastStagger = min(s.q.LeastStagger, max(a.x-b.x, b.x-a.x))
	}
}

// inLine counts the joints of row i and of the row after the next that are in line, with a run between that touches
// both.
func (s *seen) inLine(i int) {
	if i+2 >= len(s.floor.Rows) || s.floor.Rows[i].To != s.floor.Rows[i+1].From ||
		s.floor.Rows[i+1].To != s.floor.Rows[i+2].From {
		return
	}
	tolerance, low := s.job.Rules.InLine, 0
	far := s.joints[(i+2)%4]
	for _, a := range s.joints[i%4] {
		for low < len(far) && far[low].x < a.x-tolerance {
			low++
		}
		for _, b := range far[low:] {
			if b.x > a.x+tolerance {
				break
			}
			if slices.ContainsFunc(s.floor.Rows[i+1].Runs, func(m cutopt.PlanRun) bool {
				return min(a.to, m.To) > max(a.from, m.From) && min(b.to, m.To) > max(b.from, m.From)
			}) {
				s.q.HJoints++
			}
		}
	}
}

// follow goes on from the joints of some successive rows, the last of them a of row i, to those of the row after, and
// counts the staircases and clusters that four of them make.
func (s *seen) follow(i int, a *joint, path []measure.Length) {
	long := s.job.Plank.Length
	if len(path) == 4 {
		steps := [3]measure.Length{path[1] - path[0], path[2] - path[1], path[3] - path[2]}
		if steps[0] < 0 {
			steps = [3]measure.Length{-steps[0], -steps[1], -steps[2]}
		}
		least, most := min(steps[0], steps[1], steps[2]), max(steps[0], steps[1], steps[2])
		if tolerance := s.job.Rules.InLine; least > tolerance && 2*most < long && most-least <= tolerance {
			s.q.Staircases++
		}
		if slices.Max(path)-slices.Min(path) <= long/3 {
			s.q.Clusters++
		}
		return
	}
	for b := range s.next(i, a, a.x-long/2, a.x+long/2) {
		s.follow(i+1, b, append(path, b.x))
	}
}
