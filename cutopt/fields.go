package cutopt

import (
	"math"
	"slices"

	"plank.example/cutopt/measure"
)

// A Field is a floor as it is laid: one of [Job.Floors] as a whole, or what breaks leave of it between them.
type Field struct {
	Floor int // index in Job.Floors
	Part  int // number of the field within its floor, from 1
	Parts int // fields of that floor: 1 where nothing breaks it
	Rooms []RoomPart
}

// A RoomPart is a room, or the part of one on one side of a break, as a room of its own.
type RoomPart struct {
	Room           // its outline ends at the breaks, whose walls keep the gap and half of what stands in the break
	Number   int   // index of the room in the job
	Walls    []int // by wall: that of the room in the job; below 0 is a break, -1 the first of the list
	Fixed    []int // by island: its index in the room of the job
	Openings []int // by doorway: its index in the room of the job; -1 for one that only the room behind lists
	Into     []int // by doorway: the room of the field that it runs through to; -1 for none
	Ends     []int // breaks of the list, by index, that its floor ends at
	starts   []measure.Length
}

// Fields returns the floors of the job with their breaks: in the order of [Job.Floors], and of their rooms. The breaks
// are those of a plan, the ones the job asks for among them. It takes O(breaks * corners + doorways * corners).
func (j *Job) Fields(breaks []PlanBreak) []Field {
	var out []Field
	named := make(map[string]int, len(j.Rooms))
	for i := range j.Rooms {
		named[j.Rooms[i].Name] = i
	}
	for f, rooms := range j.Floors() {
		out = append(out, j.fieldsOf(f, rooms, named, breaks)...)
	}
	return out
}

// FieldsOf returns the fields of one of [Job.Floors], by its index, with its rooms as given there.
func (j *Job) FieldsOf(floor int, rooms []int, breaks []PlanBreak) []Field {
	named := make(map[string]int, len(rooms))
	for _, i := range rooms {
		named[j.Rooms[i].Name] = i
	}
	return j.fieldsOf(floor, rooms, named, breaks)
}

func (j *Job) fieldsOf(floor int, rooms []int, named map[string]int, breaks []PlanBreak) []Field {
	s := &splitter{job: j, named: named, parts: make(map[int][]RoomPart, len(rooms))}
	for _, i := range rooms {
		s.parts[i] = []RoomPart{s.whole(i)}
	}
	for i := range breaks {
		if b := &breaks[i]; s.parts[b.Room] != nil && b.Doorway < 0 {
			s.cut(b, i)
		}
	}
	s.join(breaks)
	return s.fields(floor, rooms)
}

// A splitter parts the rooms of a job at breaks.
type splitter struct {
	job   *Job
	parts map[int][]RoomPart // by room of the job
	named map[string]int     // rooms by name
}

// whole returns a room of the job with every gap written out.
func (s *splitter) whole(i int) RoomPart {
	room := &s.job.Rooms[i]
	f := RoomPart{Room: *room, Number: i}
	f.WallGaps = make(map[int]measure.Length, len(room.Outline))
	for w := range room.Outline {
		f.Walls, f.starts = append(f.Walls, w), append(f.starts, 0)
		f.WallGaps[w] = s.job.Rules.WallGap(room, w)
	}
	for k := range room.Doorways {
		f.Openings = append(f.Openings, k)
	}
	for k := range room.Islands {
		f.Fixed = append(f.Fixed, k)
	}
	return f
}

// cut parts the part of a room that a break crosses.
func (s *splitter) cut(b *PlanBreak, number int) {
	parts := s.parts[b.Room]
	for k := range parts {
		p := &parts[k]
		i, oki := onRing(p.Outline, b.From)
		e, oke := onRing(p.Outline, b.To)
		if !oki || !oke || i == e || !within(p.Outline, middle(b.From, b.To)) {
			continue
		}
		gap := s.job.Rules.Gap + (b.Width+1)/2
		one, two := p.side(b.From, b.To, i, e, gap, number), p.side(b.To, b.From, e, i, gap, number)
		if len(one.Outline) < 3 || len(two.Outline) < 3 {
			return
		}
		p.share(&one, &two)
		s.parts[b.Room] = slices.Replace(slices.Clone(parts), k, k+1, one, two)
		return
	}
}

// side returns what lies between two places of the outline, on walls i and k, going on from the first: its last wall is
// the break.
func (f *RoomPart) side(from, to Point, i, k int, gap measure.Length, number int) RoomPart {
	out := RoomPart{Room: f.Room, Number: f.Number}
	out.Outline, out.WallGaps, out.Walls, out.Openings = nil, make(map[int]measure.Length), nil, nil
	out.Islands, out.Fixed, out.Pipes, out.Doorways = nil, nil, nil, nil
	n := len(f.Outline)
	add := func(p Point, wall int, start, gap measure.Length) {
		if m := len(out.Outline); m > 0 && out.Outline[m-1] == p { // the wall before it has no length
			out.Outline, out.Walls, out.starts = out.Outline[:m-1], out.Walls[:m-1], out.starts[:m-1]
		}
		out.WallGaps[len(out.Outline)] = gap
		out.Outline, out.Walls, out.starts = append(
			out.Outline,
			p,
		), append(
			out.Walls,
			wall,
		), append(
			out.starts,
			start,
		)
	}
	add(from, f.Walls[i], f.starts[i]+distance(f.Outline[i], from), f.WallGaps[i])
	for w := (i + 1) % n; ; w = (w + 1) % n {
		add(f.Outline[w], f.Walls[w], f.starts[w], f.WallGaps[w])
		if w == k {
			break
		}
	}
	add(to, -1-number, 0, gap)
	return out
}

// share gives each doorway, island and pipe to one of two sides.
func (f *RoomPart) share(one, two *RoomPart) {
	for k, d := range f.Doorways {
		if f.Openings[k] < 0 || d.Wall < 0 || d.Wall >= len(f.Walls) {
			continue
		}
		own := f.Walls[d.Wall]
		at := d.At + f.starts[d.Wall] // on the wall of the job
		for _, side := range []*RoomPart{one, two} {
			w := side.wallAt(own, at+d.Width/2)
			if w < 0 {
				continue
			}
			d.Wall, d.At = w, max(0, at-side.starts[w])
			side.Doorways, side.Openings = append(side.Doorways, d), append(side.Openings, f.Openings[k])
			break
		}
	}
	for k, island := range f.Islands {
		side := one
		if inside(two.Outline, island.Outline) > inside(one.Outline, island.Outline) {
			side = two
		}
		side.Islands, side.Fixed = append(side.Islands, island), append(side.Fixed, f.Fixed[k])
	}
	for _, pipe := range f.Pipes {
		side := one
		if within(two.Outline, pipe.At) {
			side = two
		}
		side.Pipes = append(side.Pipes, pipe)
	}
}

// wallAt returns the wall of a part that a place of a wall of the job lies on; -1 for none.
func (f *RoomPart) wallAt(own int, at measure.Length) int {
	for w := range f.Outline {
		long := distance(f.Outline[w], f.Outline[(w+1)%len(f.Outline)])
		if f.Walls[w] == own && at >= f.starts[w] && at <= f.starts[w]+long {
			return w
		}
	}
	return -1
}

// inside counts the corners and the middles of the edges of a ring that lie within an outline.
func inside(outline, ring []Point) (n int) {
	for i, p := range ring {
		if within(outline, p) {
			n++
		}
		if within(outline, middle(p, ring[(i+1)%len(ring)])) {
			n++
		}
	}
	return n
}

func middle(p, q Point) Point { return Point{X: p.X + (q.X-p.X)/2, Y: p.Y + (q.Y-p.Y)/2} }

// within reports whether a place lies within an outline, by whether a ray from it crosses the outline an odd number of
// times.
func within(outline []Point, p Point) bool {
	odd := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > p.Y) == (b.Y > p.Y) {
			continue
		}
		x := float64(a.X) + float64(float64(b.X-a.X)*(float64(p.Y-a.Y)/float64(b.Y-a.Y)))
		if float64(p.X) < x {
			odd = !odd
		}
	}
	return odd
}

// onRing returns the wall that a place lies on, to within two ticks; the one that begins there rather than the one that
// ends.
func onRing(outline []Point, p Point) (wall int, ok bool) {
	best := 2.0
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if a == p {
			return i, true
		}
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		size := math.Hypot(dx, dy)
		if size == 0 || b == p {
			continue
		}
		along := (float64(float64(p.X-a.X)*dx) + float64(float64(p.Y-a.Y)*dy)) / size
		off := math.Abs(float64(float64(p.X-a.X)*dy)-float64(float64(p.Y-a.Y)*dx)) / size
		if along >= 0 && along <= size && off < best {
			best, wall, ok = off, i, true
		}
	}
	return wall, ok
}

// join finds what each doorway runs through to, and lets the floors of broken doorways end at their breaks.
func (s *splitter) join(breaks []PlanBreak) {
	for i := range s.parts {
		for k := range s.parts[i] {
			p := &s.parts[i][k]
			p.Doorways = slices.Clone(p.Doorways)
			p.Into = make([]int, len(p.Doorways))
			for _, w := range p.Walls {
				if w < 0 && !slices.Contains(p.Ends, -1-w) {
					p.Ends = append(p.Ends, -1-w)
				}
			}
			for d := range p.Into {
				p.Into[d] = -1
			}
		}
	}
	for i := range breaks {
		if b := &breaks[i]; b.Doorway >= 0 && s.parts[b.Room] != nil {
			s.end(b, i)
		}
	}
}

// end lets the floors of the two rooms of a broken doorway end at the break.
func (s *splitter) end(b *PlanBreak, number int) {
	part, d := s.opening(b.Room, b.Doorway)
	if part == nil {
		return
	}
	behind, f := s.behind(part, d)
	if behind == nil {
		return
	}
	deep := max(0, (measure.Length(min(f.ahead[0], f.ahead[1]))-b.Width)/2)
	door := &part.Doorways[d]
	at := measure.Length(math.Round(min(f.at[0], f.at[1])))
	door.Through, door.Depth = false, deep
	part.Ends, behind.Ends = append(part.Ends, number), append(behind.Ends, number)
	for k := range behind.Doorways { // the room behind may list it too
		o := &behind.Doorways[k]
		if o.Wall == f.wall && o.Through && o.At < at+door.Width && at < o.At+o.Width {
			o.Through, o.Depth = false, deep
			return
		}
	}
	other := *door
	other.Wall, other.At, other.To = f.wall, at, part.Name
	other.Width = measure.Length(math.Round(math.Abs(f.at[1] - f.at[0])))
	behind.Doorways = append(behind.Doorways, other)
	behind.Openings, behind.Into = append(behind.Openings, -1), append(behind.Into, -1)
}

// opening returns the part of a room that has a doorway, and its index there.
func (s *splitter) opening(room, doorway int) (*RoomPart, int) {
	for k := range s.parts[room] {
		if d := slices.Index(s.parts[room][k].Openings, doorway); d >= 0 {
			return &s.parts[room][k], d
		}
	}
	return nil, 0
}

// behind returns the part of the room behind a doorway that it opens on, and where.
func (s *splitter) behind(part *RoomPart, doorway int) (*RoomPart, faced) {
	d := &part.Doorways[doorway]
	m, ok := d.sides(part.Outline)
	if to, known := s.named[d.To]; ok && known {
		for k := range s.parts[to] {
			if f, ok := m.facing(s.parts[to][k].Outline); ok {
				return &s.parts[to][k], f
			}
		}
	}
	return nil, faced{}
}

// fields gathers the parts that doorways join.
func (s *splitter) fields(floor int, rooms []int) []Field {
	type ref struct{ room, part int }
	root := make(map[ref]ref)
	var first func(r ref) ref
	first = func(r ref) ref {
		if root[r] != r {
			root[r] = first(root[r])
		}
		return root[r]
	}
	place := make(map[*RoomPart]ref)
	for i := range s.parts {
		for k := range s.parts[i] {
			root[ref{i, k}], place[&s.parts[i][k]] = ref{i, k}, ref{i, k}
		}
	}
	into := make(map[*RoomPart][]*RoomPart)
	for _, i := range rooms {
		for k := range s.parts[i] {
			p := &s.parts[i][k]
			into[p] = make([]*RoomPart, len(p.Doorways))
			for d := range p.Doorways {
				if !p.Doorways[d].Through {
					continue
				}
				if behind, _ := s.behind(p, d); behind != nil {
					into[p][d] = behind
					a, b := first(ref{i, k}), first(place[behind])
					if b.room < a.room || b.room == a.room && b.part < a.part {
						a, b = b, a
					}
					root[b] = a
				}
			}
		}
	}
	at := make(map[ref]int)
	index := make(map[*RoomPart]int)
	var in [][]*RoomPart
	for _, i := range rooms {
		for k := range s.parts[i] {
			r := first(ref{i, k})
			n, ok := at[r]
			if !ok {
				n = len(in)
				at[r] = n
				in = append(in, nil)
			}
			p := &s.parts[i][k]
			index[p] = len(in[n])
			in[n] = append(in[n], p)
		}
	}
	var out []Field
	for n, parts := range in {
		field := Field{Floor: floor, Part: n + 1, Parts: len(in)}
		for _, p := range parts {
			for d, behind := range into[p] {
				if behind != nil {
					p.Into[d] = index[behind]
				}
			}
			field.Rooms = append(field.Rooms, *p)
		}
		out = append(out, field)
	}
	return out
}
