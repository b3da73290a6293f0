package sheet

import (
	"math"
	"slices"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/words"
)

// checksBefore says what to check before work begins.
func (b *book) checksBefore() []string {
	items := b.List("checks.before")
	for i, s := range items {
		items[i] = words.Fill(s, "fit", b.Length(b.job.Rules.Fit), "tests",
			strconv.Itoa(moistureTests(b.plan.Waste.Net)))
	}
	if rise := b.job.Rise(); rise > 0 {
		items = append(items, b.Say("checks.rise", "rise", b.Length(rise)))
	}
	return items
}

// moistureTests returns how many tests of relative humidity ASTM F2170 asks for, as reported: 3 for the first 1,000 sq
// ft of slab and one for each further 1,000 or part of it.
func moistureTests(floor measure.Area) int {
	const each = 1000 * measure.SquareFoot
	return 3 + int(max(0, (floor-1)/each))
}

// checksAfter says what to do when the floor lies.
func (b *book) checksAfter() []string {
	items := b.List("checks.after")
	o, kept := &b.plan.Order, b.Say("after.none")
	switch {
	case o.Kept > 0:
		kept = b.Count("after.kept", o.Kept)
	case o.Left > 0:
		kept = b.Count("after.left", o.Left)
	}
	return append(items, kept)
}

// brokenItems says what to do when a plank breaks, and what there is for it.
func (b *book) brokenItems() []string {
	o, r := &b.plan.Order, &b.job.Rules
	var whole []string
	switch free := o.Left - o.Kept; {
	case free > 0:
		whole = append(whole, b.Count("broken.spare", free))
	case o.Kept <= 0:
		whole = append(whole, b.Say("broken.none"))
	}
	if o.Kept > 0 {
		whole = append(whole, b.Count("broken.kept", o.Kept))
	} else if text := b.Spares(b.job, b.plan); text != "" {
		whole = append(whole, text)
	}
	items := b.List("broken")
	for i, s := range items {
		items[i] = words.Fill(
			s, "piece", b.Length(r.MinPiece), "stagger", b.Length(r.Stagger), "kerf", b.Length(r.Kerf),
		)
	}
	return append(whole, items...)
}

// cautionItems says what can hurt someone, with what a stair asks for where the floor ends at one, and how much base
// each room has where its paint may hold lead.
func (b *book) cautionItems() []string {
	items := b.List("cautions")
	if b.atStair() {
		items = append(items, b.Say("cautions.stair"))
		if rise := b.job.Rise(); rise > 0 {
			items = append(items, b.Say("cautions.step", "rise", b.Length(rise)))
		}
	}
	return append(items, b.leadItems()...)
}

// atStair reports whether the floor ends at the edge of a stair.
func (b *book) atStair() bool {
	return slices.ContainsFunc(b.job.Rooms, func(r cutopt.Room) bool {
		return slices.ContainsFunc(r.Doorways, func(d cutopt.Doorway) bool {
			return d.Transition == cutopt.TransitionNosing
		})
	})
}

// leadLimit is the area of disturbed paint in a room above which the lead rule applies: 6 sq ft (40 CFR 745.83, as
// reported).
const leadLimit = 6 * measure.SquareFoot

// mostLeadItems is how many rooms are told one by one.
const mostLeadItems = 12

// leadItems says of each room how much base board is taken off, as high as is usual, against the limit of the lead
// rule.
func (b *book) leadItems() []string {
	height := 7 * measure.Inch / 2
	if b.Unit.Metric() {
		height = 90 * measure.Millimetre
	}
	var items []string
	above := 0
	for i := range b.job.Rooms {
		length := baseLength(b.job, i)
		area := measure.Area(length) * measure.Area(height)
		key := "lead.below"
		if area > leadLimit {
			key, above = "lead.above", above+1
		}
		items = append(items, b.Say(key, "room", b.roomName(i), "height", b.Length(height), "length", b.Length(length),
			"area", b.area(area)))
	}
	if len(items) > mostLeadItems {
		return []string{b.Count("lead.rooms", above, "all", strconv.Itoa(len(items)), "height", b.Length(height))}
	}
	return items
}

// baseLength returns how much wall of a room has base boards: all of it less its doorways.
func baseLength(job *cutopt.Job, room int) measure.Length {
	r := &job.Rooms[room]
	sum := 0.0
	for i, a := range r.Outline {
		c := r.Outline[(i+1)%len(r.Outline)]
		sum += math.Hypot(float64(c.X-a.X), float64(c.Y-a.Y))
	}
	length := roundTicks(sum)
	for _, d := range r.Doorways {
		length -= d.Width
	}
	for i := range job.Rooms {
		for _, d := range job.Rooms[i].Doorways {
			if i != room && d.Through && d.To != "" && d.To == r.Name && !backDoor(r, job.Rooms[i].Name) {
				length -= d.Width
			}
		}
	}
	return max(length, 0)
}

// backDoor reports whether a room lists a doorway to another one itself.
func backDoor(r *cutopt.Room, other string) bool {
	for _, d := range r.Doorways {
		if d.Through && d.To == other {
			return true
		}
	}
	return false
}

// roomName names a room of the job.
func (b *book) roomName(i int) string {
	if name := b.job.Rooms[i].Name; name != "" {
		return name
	}
	return b.Say("room", "n", strconv.Itoa(i+1))
}

// area prints an area to a hundredth, as limits of a few square feet need it.
func (b *book) area(a measure.Area) string {
	size, name := float64(measure.SquareFoot), "sq ft"
	if b.Unit.Metric() {
		size, name = float64(measure.SquareMetre), "m²"
	}
	return b.Decimal(strconv.FormatFloat(float64(a)/size, 'f', 2, 64)) + string(words.NoBreak) + name
}
