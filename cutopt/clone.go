package cutopt

import (
	"maps"
	"slices"

	"plank.example/cutopt/measure"
)

// Clone returns a deep copy of the job: nothing that is changed in one is changed in the other.
func (j *Job) Clone() *Job {
	if j == nil {
		return nil
	}
	c := *j
	c.Pattern, c.Aims = slices.Clone(j.Pattern), slices.Clone(j.Aims)
	c.Products, c.Rooms = slices.Clone(j.Products), slices.Clone(j.Rooms)
	for i := range c.Rooms {
		r := &c.Rooms[i]
		r.Outline, r.WallGaps = slices.Clone(r.Outline), maps.Clone(r.WallGaps)
		r.Doorways, r.Islands, r.Pipes = slices.Clone(r.Doorways), slices.Clone(r.Islands), slices.Clone(r.Pipes)
		r.Breaks = slices.Clone(r.Breaks)
		for k := range r.Islands {
			r.Islands[k].Outline = slices.Clone(r.Islands[k].Outline)
		}
	}
	m := &c.Materials
	m.Trim, m.Transitions, m.Appliances = slices.Clone(m.Trim), slices.Clone(m.Transitions), slices.Clone(m.Appliances)
	for i := range m.Trim {
		m.Trim[i].Sticks = slices.Clone(m.Trim[i].Sticks)
	}
	for i := range m.Transitions {
		m.Transitions[i].Sticks = slices.Clone(m.Transitions[i].Sticks)
	}
	m.Underlay.Rolls, m.Film.Rolls = slices.Clone(m.Underlay.Rolls), slices.Clone(m.Film.Rolls)
	return &c
}

// Clone returns a deep copy of the plan: nothing that is changed in one is changed in the other. The certificate, which
// nobody changes, is shared.
func (p *Plan) Clone() *Plan {
	if p == nil {
		return nil
	}
	c := *p
	c.Floors, c.Breaks, c.Planks = slices.Clone(p.Floors), slices.Clone(p.Breaks), slices.Clone(p.Planks)
	for i := range c.Floors {
		f := &c.Floors[i]
		f.Facts, f.Rows = slices.Clone(f.Facts), slices.Clone(f.Rows)
		for j := range f.Rows {
			f.Rows[j].Runs = slices.Clone(f.Rows[j].Runs)
			for k := range f.Rows[j].Runs {
				run := &f.Rows[j].Runs[k]
				run.Pieces = slices.Clone(run.Pieces)
				for m := range run.Pieces {
					piece := &run.Pieces[m]
					piece.Shape, piece.Shaping = slices.Clone(piece.Shape), slices.Clone(piece.Shaping)
				}
			}
		}
	}
	for i := range c.Planks {
		use := &c.Planks[i]
		use.Pieces, use.Cuts = slices.Clone(use.Pieces), slices.Clone(use.Cuts)
		use.Left, use.Gone = slices.Clone(use.Left), slices.Clone(use.Gone)
	}
	c.Site = p.Site.clone()
	return &c
}

func (s *Site) clone() *Site {
	if s == nil {
		return nil
	}
	c := *s
	c.Here, c.Returns = slices.Clone(s.Here), slices.Clone(s.Returns)
	c.Reaches, c.Waits, c.Changed = slices.Clone(s.Reaches), slices.Clone(s.Waits), slices.Clone(s.Changed)
	return &c
}

// Rectangle returns the outline of a rectangular room, or of an island, with its near left corner at the origin:
// corners counter-clockwise, the first wall along x.
func Rectangle(long, wide measure.Length) []Point { return RectangleAt(Point{}, long, wide) }

// RectangleAt is [Rectangle] with its near left corner elsewhere in the drawing.
func RectangleAt(corner Point, long, wide measure.Length) []Point {
	x, y := corner.X, corner.Y
	return []Point{corner, {X: x + long, Y: y}, {X: x + long, Y: y + wide}, {X: x, Y: y + wide}}
}
