package words

import (
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A Listing is a take-off in words, ready for tables.
type Listing struct {
	Head     []string   // what, needed, to buy, price
	Rows     [][]string // one for each item
	Total    string
	Reckoned []string // how: one for each item
	Cuts     []CutText
	Heights  []string // doors and appliances
}

// A CutText is how the sticks or rolls of one item are cut.
type CutText struct {
	Title string
	Proof string   // what is proven of it
	Lines []string // one for each stick
}

// Takeoff says a take-off of the job.
func (s *Speech) Takeoff(job *cutopt.Job, t *cutopt.Takeoff) *Listing {
	l := &Listing{Head: []string{
		s.Say("takeoff.what"), s.Say("takeoff.needed"), s.Say("takeoff.buy"), s.Say("takeoff.price"),
	}}
	for i := range t.Items {
		item := &t.Items[i]
		name := s.ItemName(item)
		var buy, price []string
		for k := range item.Goods {
			g := &item.Goods[k]
			buy = append(buy, s.Goods(g))
			if g.Each > 0 {
				price = append(price, s.Decimal(g.Price().String()))
			}
		}
		l.Rows = append(l.Rows, []string{name, s.Need(item), strings.Join(buy, "\n"), strings.Join(price, "\n")})
		l.Reckoned = append(l.Reckoned, name+": "+s.reckoned(job, item)+".")
		if item.Cutting != nil {
			l.Cuts = append(l.Cuts, s.cuts(job, item))
		}
	}
	sum, open := t.Total()
	if sum > 0 {
		l.Total = s.Say("takeoff.total", "sum", s.Decimal(sum.String()))
		if open > 0 {
			l.Total += " " + s.Count("takeoff.open", open)
		}
	}
	for i := range t.Heights {
		l.Heights = append(l.Heights, s.heightCheck(job, t, &t.Heights[i]))
	}
	return l
}

// ItemName names an item: what it is, and the product.
func (s *Speech) ItemName(item *cutopt.Item) string {
	var name string
	switch item.Kind {
	case cutopt.ItemTrim:
		if name = s.Say("trim.any"); item.Named {
			name = s.Say("trim." + item.Trim.String())
		}
	case cutopt.ItemTransition:
		name = s.Say("transition." + item.Transition.String())
	default:
		name = s.Say("item." + item.Kind.String())
	}
	if item.Name != "" {
		name += ", " + item.Name
	}
	return name
}

// Need says how much of an item is needed.
func (s *Speech) Need(item *cutopt.Item) string {
	switch item.Kind {
	case cutopt.ItemPlanks, cutopt.ItemKept:
		return s.Count("things.plank", item.Count)
	case cutopt.ItemTrim, cutopt.ItemTransition:
		return s.Count("takeoff.pieces", item.Count) + ", " + s.up(item.Length)
	case cutopt.ItemTape:
		return s.up(item.Length)
	case cutopt.ItemSpacers:
		return strconv.Itoa(item.Count)
	case cutopt.ItemDisposal:
		if item.Thickness > 0 {
			return s.volume(item)
		}
	}
	switch {
	case item.Attached:
		return s.Say("takeoff.none")
	case item.Kind == cutopt.ItemFilm && !item.Named:
		return s.Say("takeoff.if-asked", "area", s.Area(item.Area))
	case item.Count > 0:
		return s.Count("takeoff.strips", item.Count) + ", " + s.Area(item.Area)
	}
	return s.Area(item.Area)
}

// up prints a length with its unit, rounded up to the graduation.
func (s *Speech) up(l measure.Length) string { return s.format(l.Ceil(s.Grid), s.Grid) }

// volume prints the volume of an area so thick, in cubic feet or litres.
func (s *Speech) volume(item *cutopt.Item) string {
	size, name := float64(measure.Foot), " cu ft"
	if s.Unit.Metric() {
		size, name = float64(100*measure.Millimetre), " l"
	}
	v := float64(item.Area) / (size * size) * float64(item.Thickness) / size
	return s.Decimal(s.glue(strconv.FormatFloat(v, 'f', 2, 64) + name))
}

// Goods says how many of what size are bought.
func (s *Speech) Goods(g *cutopt.Goods) string {
	return s.Count("goods."+g.Unit.String(), g.Count, "size", s.GoodsSize(g))
}

// GoodsSize says the size that goods are sold in: what a box or a pack holds, how long a stick is.
func (s *Speech) GoodsSize(g *cutopt.Goods) string {
	switch g.Unit {
	case cutopt.GoodsBox:
		return s.Count("things.plank", g.Holds)
	case cutopt.GoodsPack:
		return strconv.Itoa(g.Holds)
	case cutopt.GoodsRoll:
		if g.Width > 0 {
			return s.Exact(g.Width) + " x " + s.Exact(g.Length)
		}
	}
	return s.Exact(g.Length)
}

// reckoned says how the quantity of an item came about.
func (s *Speech) reckoned(job *cutopt.Job, item *cutopt.Item) string {
	n := strconv.Itoa
	switch item.Kind {
	case cutopt.ItemPlanks:
		return s.Say("reckoned.planks", "n", n(item.Count), "reserve", n(item.Spare), "over", n(item.Over))
	case cutopt.ItemKept:
		return s.Say("reckoned.kept")
	case cutopt.ItemTape:
		return s.Say("reckoned.tape")
	case cutopt.ItemSpacers:
		return s.Say("reckoned.spacers", "every", s.Exact(item.Every), "length", s.up(item.Length))
	case cutopt.ItemDisposal:
		if item.Thickness == 0 {
			return s.Say("reckoned.disposal-area")
		}
		return s.Say("reckoned.disposal", "area", s.Area(item.Area), "thickness", s.Exact(item.Thickness))
	case cutopt.ItemTransition:
		return s.openings(job, item)
	case cutopt.ItemTrim:
		return s.stretches(item)
	}
	switch {
	case item.Attached:
		return s.Say("reckoned.attached")
	case len(item.Strips) > 0:
		return s.strips(job, item)
	case item.Kind == cutopt.ItemFilm && !item.Named:
		return s.Say("reckoned.film")
	}
	return s.Say("reckoned.area")
}

// openings lists the doorways of transitions.
func (s *Speech) openings(job *cutopt.Job, item *cutopt.Item) string {
	var list []string
	for i := range item.Stretches {
		list = append(list, s.opening(job, &item.Stretches[i])+", "+s.Exact(item.Stretches[i].Length))
	}
	text := s.Say("reckoned.openings") + ": " + strings.Join(list, "; ")
	if item.Transition == cutopt.TransitionOpen {
		text += ". " + s.Say("reckoned.transition-open")
	}
	return text
}

// opening names the doorway or the break that a transition lies in.
func (s *Speech) opening(job *cutopt.Job, st *cutopt.Stretch) string {
	if st.Doorway > 0 {
		return s.doorway(job, st.Room, st.Doorway)
	}
	text := s.Say("takeoff.break-on")
	if st.Wall > 0 {
		text = s.Say("takeoff.break", "n", strconv.Itoa(st.Wall), "at", s.Exact(st.At))
	}
	if len(job.Rooms) > 1 {
		text = s.room(job, st.Room) + ", " + text
	}
	return text
}

// doorway names a doorway by room and name, or by room and wall.
func (s *Speech) doorway(job *cutopt.Job, room, number int) string {
	d := &job.Rooms[room-1].Doorways[number-1]
	name := d.Name
	if name == "" {
		name = s.Say("takeoff.doorway", "n", strconv.Itoa(number))
	}
	if len(job.Rooms) == 1 {
		return name
	}
	return s.room(job, room) + ", " + name
}

// stretches says how many stretches of wall a trim covers, what outside corners add and how many are spliced.
func (s *Speech) stretches(item *cutopt.Item) string {
	outside, spliced := 0, 0
	var longest measure.Length
	for i := range item.Stretches {
		st := &item.Stretches[i]
		if len(st.Pieces) > 1 {
			spliced++
		}
		for _, o := range st.Outside {
			if o > 0 {
				outside++
				longest = max(longest, o)
			}
		}
	}
	text := s.Count("reckoned.stretches", len(item.Stretches))
	if outside > 0 {
		text += "; " + s.Count("reckoned.outside", outside, "add", s.up(longest))
	}
	if spliced > 0 {
		text += "; " + s.Count("reckoned.spliced", spliced)
	}
	if item.Bare > 0 {
		text += "; " + s.Say("reckoned.bare", "bare", s.up(item.Bare))
	}
	if item.Unseen > 0 {
		text += "; " + s.Count("reckoned.unseen", item.Unseen)
	}
	if !item.Named {
		text += "; " + s.Say("reckoned.no-trim")
	}
	return text
}

// strips says how many strips each room takes, and which way they run.
func (s *Speech) strips(job *cutopt.Job, item *cutopt.Item) string {
	var list []string
	for i := range item.Strips {
		st := &item.Strips[i]
		run := "across"
		if st.Along {
			run = "along"
		}
		text := s.Count("reckoned.strips", st.Count, "extent", s.up(st.Extent), "width", s.Exact(st.Width),
			"run", s.Say("strips-run."+run))
		if st.Overlap > 0 {
			text += ", " + s.Say("reckoned.lap", "lap", s.Exact(st.Overlap))
		}
		if more := len(st.Lengths) - st.Count; more > 0 {
			text += ", " + s.Count("reckoned.more", more)
		}
		if len(job.Rooms) > 1 {
			text = s.room(job, st.Room) + " " + text
		}
		list = append(list, text)
	}
	return strings.Join(list, "; ")
}

// heightCheck says whether a door or an appliance clears the floor.
func (s *Speech) heightCheck(job *cutopt.Job, t *cutopt.Takeoff, c *cutopt.HeightCheck) string {
	key, what := "height.door", ""
	if c.Appliance > 0 {
		key, what = "height.appliance", job.Materials.Appliances[c.Appliance-1].Name
		if what == "" {
			what = s.Say("takeoff.appliance", "n", strconv.Itoa(c.Appliance))
		}
	} else {
		what = s.doorway(job, c.Room, c.Doorway)
	}
	key += ".clear"
	left := c.Left
	switch {
	case left < 0:
		key, left = strings.TrimSuffix(key, "clear")+"short", -left
	case left < cutopt.LittleClearance:
		key = strings.TrimSuffix(key, "clear") + "tight"
	}
	return what + ": " + s.Say(key, "left", s.Exact(left), "rise", s.Exact(t.Rise), "under", s.Exact(c.Under))
}
