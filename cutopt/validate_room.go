package cutopt

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

func (v *validator) rooms() {
	rooms := v.job.Rooms
	list, rule := fmt.Sprintf("a list of %d", len(rooms)), "a job has at least 1 room and at most 100,000"
	switch {
	case len(rooms) == 0:
		v.add("rooms", list, rule, "measure a room")
		return
	case len(rooms) > MaxRooms:
		v.tooLarge("rooms", list, rule, "plan the floors in several jobs")
		return
	}
	first := make(map[string]int, len(rooms))
	sound := make([]bool, len(rooms))
	for i := range rooms {
		field := fmt.Sprintf("rooms[%d]", i+1)
		name := rooms[i].Name
		if name == "" && len(rooms) > 1 {
			v.add(field+".name", "", "where a job has several rooms each has a name", "give it one")
		} else if other, twice := first[name]; twice {
			v.add(field+".name", fmt.Sprintf("%q", name), fmt.Sprintf("rooms[%d] has this name too", other),
				"give each room a name of its own")
		} else {
			first[name] = i + 1
		}
		sound[i] = (&roomValidator{v, &rooms[i], field, first}).run()
	}
	for i := range rooms {
		for k, d := range rooms[i].Doorways {
			v.leadsTo(fmt.Sprintf("rooms[%d].doorways[%d]", i+1, k+1), rooms[i].Name, d, first)
		}
	}
	v.oneHand()
	v.commonRows()
	v.through(sound, first)
}

// oneHand reports floors that are laid from another side than the first.
func (v *validator) oneHand() {
	first := v.job.LaidFrom(v.job.Rooms[0].Rows)
	for _, rooms := range v.job.Floors() {
		i := rooms[0]
		if from := v.job.LaidFrom(v.job.Rooms[i].Rows); from != first {
			v.add(fmt.Sprintf("rooms[%d].rows.from", i+1), from.String(),
				"rooms of one job share offcuts, so all are laid from one side, and the first is laid from the "+
					first.String(),
				"lay all from one side, or plan the others as a job of their own")
		}
	}
}

// commonRows reports rooms joined into one floor that ask for different rows. A room may leave its rows to the first of
// its floor.
func (v *validator) commonRows() {
	for _, rooms := range v.job.Floors() {
		first := &v.job.Rooms[rooms[0]]
		for _, r := range rooms[1:] {
			room := &v.job.Rooms[r]
			if room.Rows != first.Rows && room.Rows != (RowRules{}) {
				v.add(fmt.Sprintf("rooms[%d].rows", r+1), room.Rows.text(v.unit), fmt.Sprintf(
					"rooms joined without a transition are one floor with common rows, and those of %q are %s",
					first.Name, first.Rows.text(v.unit)),
					"give the rows of the first room alone, or drop through: from the doorway between")
			}
		}
	}
}

// leadsTo checks that an opening without a transition joins two rooms of the job.
func (v *validator) leadsTo(field, from string, d Doorway, rooms map[string]int) {
	_, known := rooms[d.To]
	switch {
	case d.To != "" && d.To == from:
		v.add(field+".to", fmt.Sprintf("%q", d.To), "a doorway leads out of its own room", "")
	case d.Through && !known:
		v.add(field+".to", fmt.Sprintf("%q", d.To), "a floor runs through to another room of the job",
			"write the name of that room as it stands there")
	}
}

// A roomValidator checks one room.
type roomValidator struct {
	*validator
	room  *Room
	field string // of the room
	names map[string]int
}

// run checks the room, and reports whether its outline is in order.
func (v *roomValidator) run() bool {
	if !v.sizes() {
		return false
	}
	sound := v.ring(v.field+".corners", "wall", v.room.Outline)
	for _, wall := range slices.Sorted(maps.Keys(v.room.WallGaps)) {
		field := fmt.Sprintf("%s.gaps[%d]", v.field, wall+1)
		v.wall(field, wall)
		v.within(field, v.room.WallGaps[wall], 0, MaxLength, "the gap of a wall is at least 0 and at most 1 km")
	}
	v.rows()
	v.doorways()
	v.islands(sound)
	v.breaks(sound)
	return sound
}

// sizes checks the number of corners and their coordinates, which everything after relies on.
func (v *roomValidator) sizes() bool {
	corners, before := len(v.room.Outline), len(v.errs)
	v.coordinates(v.field+".corners", v.room.Outline)
	for k := range v.room.Pipes {
		corners += pipeCorners
		v.coordinates(fmt.Sprintf("%s.pipes[%d].at", v.field, k+1), []Point{v.room.Pipes[k].At})
	}
	for k, island := range v.room.Islands {
		corners += len(island.Outline)
		v.coordinates(fmt.Sprintf("%s.islands[%d].corners", v.field, k+1), island.Outline)
	}
	if corners > MaxCorners {
		v.tooLarge(v.field, fmt.Sprintf("a room of %d corners", corners),
			"a room and its islands have at most 50,000 corners, and a pipe counts as 24", "")
	}
	return len(v.errs) == before
}

func (v *roomValidator) coordinates(field string, ring []Point) {
	for i, p := range ring {
		if max(p.X, p.Y) > MaxLength || min(p.X, p.Y) < -MaxLength {
			v.add(fmt.Sprintf("%s[%d]", field, i+1), v.at(p), "coordinates lie within 1 km of the origin",
				"check the unit")
			return
		}
	}
}

func (v *validator) at(p Point) string { return fmt.Sprintf("(%s, %s)", v.text(p.X), v.text(p.Y)) }

// near prints a place that need not be on the graduation.
func (v *validator) near(p Point) string {
	grid := measure.Millimetre
	if !v.unit.Metric() {
		grid = measure.Sixteenth
	}
	return fmt.Sprintf("(%s, %s)", p.X.Format(v.unit, grid), p.Y.Format(v.unit, grid))
}

// ring checks that corners make a simple outline. Edge is what its edges are called.
func (v *roomValidator) ring(field, edge string, ring []Point) bool {
	flaw, ok := outline.Simple(ring)
	if ok {
		return true
	}
	const rule = "an outline neither crosses nor touches itself"
	const hint = "check the order of the corners and the sign of every coordinate"
	switch flaw.Kind {
	case outline.FewCorners:
		v.add(field, fmt.Sprintf("a list of %d", len(ring)), "an outline has at least three different corners", "")
	case outline.Cross:
		v.add(
			field,
			fmt.Sprintf("crossed: %s %d crosses %s %d near %s", edge, flaw.I+1, edge, flaw.J+1, v.near(flaw.At)),
			rule,
			hint,
		)
	case outline.Touch:
		v.add(
			field,
			fmt.Sprintf("closed in itself: corner %d touches %s %d at %s", flaw.I+1, edge, flaw.J+1, v.at(flaw.At)),
			rule,
			hint,
		)
	case outline.Repeat:
		v.add(
			field,
			fmt.Sprintf("closed in itself: corners %d and %d are both at %s", flaw.I+1, flaw.J+1, v.at(flaw.At)),
			rule,
			hint,
		)
	default:
		v.add(
			field,
			fmt.Sprintf("folded: %s %d runs back over %s %d at %s", edge, flaw.J+1, edge, flaw.I+1, v.at(flaw.At)),
			rule,
			hint,
		)
	}
	return false
}

// wall reports whether a wall is one of the room's.
func (v *roomValidator) wall(field string, wall int) bool {
	n := len(v.room.Outline)
	if 0 <= wall && wall < n {
		return true
	}
	v.add(field, fmt.Sprintf("at wall %d", wall+1), fmt.Sprintf("the room has walls 1 to %d", n), "")
	return false
}

func (v *roomValidator) rows() {
	r, field := v.room.Rows, v.field+".rows"
	for _, enum := range []struct {
		field string
		text  interface{ MarshalText() ([]byte, error) }
	}{{"direction", r.Direction}, {"start", r.Start}, {"from", r.LaidFrom}} {
		if _, err := enum.text.MarshalText(); err != nil {
			v.add(field+"."+enum.field, fmt.Sprint(enum.text), "it has no such value", "")
		}
	}
	if r.Direction == DirectionAngle && !(math.Abs(r.Angle) <= 360) {
		v.add(field+".direction", fmt.Sprint(r.Angle), "an angle lies between -360 and 360 degrees", "")
	}
	if r.StartWall != 0 && v.wall(field+".start", r.StartWall-1) {
		if r.Direction != DirectionAlong || r.Start != StartNear {
			v.add(field+".start", fmt.Sprintf("wall %d", r.StartWall), "rows that begin at a wall run along it",
				"drop the direction, or write near or far")
		}
	}
	wide := v.job.Plank.Width
	if !v.job.Plank.sized() {
		wide = MaxLength
	}
	v.within(
		field+".first",
		r.FirstRow,
		0,
		wide,
		"the first row is at least 0 (the planner chooses) and at most the plank's width",
	)
}

func (v *roomValidator) doorways() {
	onWall := make(map[int][]int)
	for k, d := range v.room.Doorways {
		field := fmt.Sprintf("%s.doorways[%d]", v.field, k+1)
		if _, err := d.Casing.MarshalText(); err != nil {
			v.add(field+".casing", d.Casing.String(), "a casing is wood or metal", "")
		}
		sound := v.wall(field+".wall", d.Wall)
		sound = v.within(field+".at", d.At, 0, MaxLength,
			"a doorway begins at least 0 from the first corner of its wall") &&
			sound
		sound = v.within(field+".width", d.Width, 1, MaxLength, "a doorway is wider than 0") && sound
		v.within(field+".depth", d.Depth, 0, MaxLength, "the depth of a doorway is at least 0")
		v.within(field+".height", d.Height, 0, MaxLength, "the height of the floor behind is at least 0 (unknown)")
		v.within(field+".clearance", d.Clearance, 0, MaxLength, "the clearance of a door is at least 0 (unknown)")
		switch _, err := d.Transition.MarshalText(); {
		case err != nil:
			v.add(field+".transition", d.Transition.String(), "a transition is level, lower, edge or nosing", "")
		case d.Through && d.Transition != TransitionOpen:
			v.add(field+".transition", d.Transition.String(), "a floor that runs through has no transition",
				"drop it, or through; for a break with a profile over it write break: true")
		}
		if d.Break && !d.Through {
			v.add(field+".break", "true", "a break parts a floor that runs through a doorway",
				"add through: true, or drop it: where a floor ends in a doorway, the transition there parts it")
		}
		if sound && v.fits(field, d) {
			onWall[d.Wall] = append(onWall[d.Wall], k)
			v.free(field, d)
			v.cased(field, d)
		}
	}
	for _, wall := range slices.Sorted(maps.Keys(onWall)) {
		v.apart(onWall[wall])
	}
}

// fits reports whether a doorway lies within its wall.
func (v *roomValidator) fits(field string, d Doorway) bool {
	ring := v.room.Outline
	a, b := ring[d.Wall], ring[(d.Wall+1)%len(ring)]
	dx, dy, end := b.X-a.X, b.Y-a.Y, d.At+d.Width
	if end*end <= dx*dx+dy*dy {
		return true
	}
	long := measure.Length(math.Sqrt(float64(dx*dx + dy*dy)))
	v.add(field, fmt.Sprintf("an opening from %s to %s", v.text(d.At), v.text(end)),
		fmt.Sprintf("it lies within wall %d, which is %s long", d.Wall+1, v.text(long)),
		"measure at from the corner where the wall begins")
	return false
}

// apart reports doorways of one wall that overlap.
func (v *roomValidator) apart(doorways []int) {
	slices.SortFunc(doorways, func(a, b int) int {
		return cmp.Or(cmp.Compare(v.room.Doorways[a].At, v.room.Doorways[b].At), cmp.Compare(a, b))
	})
	for i := 1; i < len(doorways); i++ {
		before, d := v.room.Doorways[doorways[i-1]], v.room.Doorways[doorways[i]]
		if end := before.At + before.Width; d.At < end {
			v.add(fmt.Sprintf("%s.doorways[%d].at", v.field, doorways[i]+1), v.text(d.At),
				fmt.Sprintf("doorways[%d] of the same wall reaches to %s", doorways[i-1]+1, v.text(end)),
				"doorways of one wall do not overlap")
		} else if least := v.post(&before, &d); d.At-end < least {
			v.add(fmt.Sprintf("%s.doorways[%d].at", v.field, doorways[i]+1), v.text(d.At),
				fmt.Sprintf("between it and doorways[%d] is %s of wall, and the floor runs beneath wooden casings: at least "+
					"%s has to stand there", doorways[i-1]+1, v.text(d.At-end), v.text(least)),
				"check at and width, or cut round them: casing: metal")
		}
	}
}

// post returns how much wall stands at least between two doorways of one wall: what the floor runs beneath wooden
// casings on its two sides, and the gap from one that is cut round.
func (v *roomValidator) post(one, two *Doorway) (least measure.Length) {
	for _, d := range []*Doorway{one, two} {
		if d.Casing == CasingWood && d.Depth > 0 {
			least += v.job.Rules.Under
		}
	}
	if least > 0 && (one.Casing != CasingWood || two.Casing != CasingWood) {
		least += v.job.Rules.WallGap(v.room, one.Wall)
	}
	return least
}

// islands checks each island by itself, against the room and against the other islands.
func (v *roomValidator) islands(sound bool) {
	var rings []int
	for k, island := range v.room.Islands {
		field := fmt.Sprintf("%s.islands[%d]", v.field, k+1)
		if island.Gap != GapNone {
			v.within(field+".gap", island.Gap, 0, MaxLength, "the gap of an island is at least 0")
		}
		if !v.ring(field+".corners", "edge", island.Outline) {
			continue
		}
		rings = append(rings, k)
		if !sound {
			continue
		}
		const rule = "an island lies within its room; it may touch the walls"
		switch flaw, ok := outline.Within(island.Outline, v.room.Outline); {
		case ok:
		case flaw.Kind == outline.Cross:
			v.add(
				field+".corners",
				fmt.Sprintf("partly outside: edge %d crosses wall %d near %s", flaw.I+1, flaw.J+1, v.near(flaw.At)),
				rule,
				"end it at the wall",
			)
		default:
			v.add(field+".corners", fmt.Sprintf("outside the room at %s", v.near(flaw.At)), rule,
				"use the same axes as the room's corners")
		}
	}
	v.thingsApart(rings, v.pipes(sound))
}

// thingsApart compares the islands of these numbers and the pipes, whose rings are given, where extents along x meet.
func (v *roomValidator) thingsApart(islands []int, pipes [][]Point) {
	type thing struct {
		field, edge string // edge is the field of its outline
		hint        string
		ring        []Point
		from, to    measure.Length
	}
	var line []thing
	add := func(t thing) {
		t.from, t.to = 2*MaxLength, -2*MaxLength
		for _, p := range t.ring {
			t.from, t.to = min(t.from, p.X), max(t.to, p.X)
		}
		line = append(line, t)
	}
	for _, k := range islands {
		field := fmt.Sprintf("islands[%d]", k+1)
		add(
			thing{
				field: field,
				edge:  ".corners",
				hint:  "join the two into one outline",
				ring:  v.room.Islands[k].Outline,
			},
		)
	}
	for k, ring := range pipes {
		if ring != nil {
			field := fmt.Sprintf("pipes[%d]", k+1)
			add(thing{field: field, edge: ".at", hint: "leave out the one that stands in the other", ring: ring})
		}
	}
	order := make([]int, len(line))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(
		order,
		func(i, j int) int { return cmp.Or(cmp.Compare(line[i].from, line[j].from), cmp.Compare(i, j)) },
	)
	for n, i := range order {
		for _, j := range order[n+1:] {
			if line[j].from >= line[i].to {
				break
			}
			a, b := &line[min(i, j)], &line[max(i, j)]
			if flaw, ok := outline.Apart(b.ring, a.ring); !ok {
				rule := "fixed things do not overlap; they may touch"
				if a.edge == b.edge && a.edge == ".corners" {
					rule = "islands do not overlap; they may touch"
				}
				v.add(
					v.field+"."+b.field+b.edge,
					fmt.Sprintf("over %s near %s", a.field, v.near(flaw.At)),
					rule,
					b.hint,
				)
			}
		}
	}
}
