package words

import (
	"strconv"
	"strings"

	"plank.example/cutopt"
)

// Facts says facts of a floor of the job, in their order, as Fact says each: but for the places along one slanted line,
// which are one remark, and for strips that lie in the same place of successive rows, as beside an island.
func (s *Speech) Facts(job *cutopt.Job, facts []cutopt.Fact) []string {
	var out []string
	for i := 0; i < len(facts); {
		n := 1
		for i+n < len(facts) && goesOn(&facts[i+n-1], &facts[i+n]) {
			n++
		}
		switch same := facts[i : i+n]; {
		case n == 1:
			out = append(out, s.Fact(job, &same[0]))
		case same[0].Kind.OfLine():
			out = append(out, s.slantedLine(job, same))
		default:
			out = append(out, s.strip(same))
		}
		i += n
	}
	return out
}

// goesOn reports whether a fact tells more of what the one before it tells of.
func goesOn(f, next *cutopt.Fact) bool {
	if f.Kind != next.Kind {
		return false
	}
	switch f.Kind {
	case cutopt.FactLineAt, cutopt.FactLineFixedAt:
		return f.Row == next.Row && f.Room == next.Room && f.Wall == next.Wall && f.Island == next.Island && f.At < next.At
	case cutopt.FactStrip:
		return f.Row+1 == next.Row && f.Run == next.Run && f.Piece == next.Piece &&
			max(f.At-next.At, next.At-f.At) < f.Least
	}
	return false
}

// slantedLine says the places along one line; that line itself where it slants by less than can be measured.
func (s *Speech) slantedLine(job *cutopt.Job, places []cutopt.Fact) string {
	low, high := places[0].Width, places[0].Width
	for i := range places {
		low, high = min(low, places[i].Width), max(high, places[i].Width)
	}
	f := &places[0]
	if high-low <= s.Grid {
		straight := *f
		straight.At, straight.Width = 0, low+(high-low)/2
		if straight.Kind = cutopt.FactLine; f.Island > 0 {
			straight.Kind = cutopt.FactLineFixed
		}
		return s.Fact(job, &straight)
	}
	said := make([]string, len(places))
	for i := range places {
		said[i] = s.compact(places[i].At) + " | " + s.compact(places[i].Width)
	}
	return s.Say("facts."+f.Kind.String(), "row", strconv.Itoa(f.Row), "wall", strconv.Itoa(f.Wall),
		"island", s.island(job, f.Room, f.Island), "room", s.room(job, f.Room),
		"unit", s.Say("unit."+s.Unit.String()), "places", strings.Join(said, ", "))
}

// strip says strips of successive rows, by the widths between which they are.
func (s *Speech) strip(strips []cutopt.Fact) string {
	first, last := &strips[0], &strips[len(strips)-1]
	least, most := first.Width, first.Width
	for i := range strips {
		least, most = min(least, strips[i].Width), max(most, strips[i].Width)
	}
	widths := s.narrower(most, first.Least)
	if narrow := s.narrower(least, first.Least); narrow != widths {
		widths = s.Say("range", "from", s.compact(least), "to", widths)
	}
	return s.Say("facts.strip", "from", strconv.Itoa(first.Row), "to", strconv.Itoa(last.Row),
		"piece", strconv.Itoa(first.Piece), "widths", widths, "at", s.format(first.At, s.Grid),
		"least", s.Exact(first.Least))
}
