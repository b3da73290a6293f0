package site

import (
	"fmt"
	"strconv"
	"strings"

	"plank.example/cutopt/measure"
)

// Format writes an event as a line that Parse reads as the same event. An event of a floor or room that the plan does
// not have is written with what number it has.
func (g *Grammar) Format(e Event) string {
	var b strings.Builder
	add := func(parts ...string) {
		for _, s := range parts {
			if s != "" {
				if b.Len() > 0 {
					b.WriteByte(' ')
				}
				b.WriteString(s)
			}
		}
	}
	switch {
	case e.Kind.ofFloor():
		add(g.floorWord(e.Floor))
		if e.Row > 0 && (b.Len() == 0 || g.digits(e.Floor)) {
			add("row")
		}
	case e.Kind.ofRoom():
		add(g.roomWord(e.Room))
	}
	switch e.Kind {
	case KindLaid:
		add(rowWord(e))
		if e.Pieces == 1 {
			add("1 piece")
		} else if e.Pieces > 0 {
			add(strconv.Itoa(e.Pieces), "pieces")
		}
	case KindStarter:
		add(rowWord(e), "starter", g.length(e.Length))
	case KindLost:
		add("lost", numbers(e.Planks))
	case KindOffcuts:
		add("offcut of", numbers(e.Planks), "lost")
	case KindCulled:
		add("culled", strconv.Itoa(e.Count))
	case KindMiscut:
		add("miscut", numbers(e.Planks), e.Ends.String(), g.length(e.Length))
	case KindOffcut:
		add("offcut", g.length(e.Length), e.Ends.String())
	case KindPlanks, KindBoxes:
		add(e.Kind.String(), strconv.Itoa(e.Count))
		if e.Lot != "" {
			add("lot", e.Lot)
		}
	case KindLot:
		add("lot", e.Lot)
	case KindMix:
		add("mix")
	default:
		g.changed(add, e)
	}
	return b.String()
}

// changed writes what is told of lengths, walls and fixed things.
func (g *Grammar) changed(add func(...string), e Event) {
	size := e.Length
	if size < 0 {
		size = -size
	}
	switch e.Kind {
	case KindLonger:
		add(rowWord(e), map[bool]string{true: "longer", false: "shorter"}[e.Length >= 0], g.length(size))
	case KindMeasured:
		add(rowWord(e), "is", g.length(e.Length))
	case KindWall:
		add("wall", strconv.Itoa(e.Wall), map[bool]string{true: "out", false: "in"}[e.Length >= 0], g.length(size))
	case KindFirst:
		add("first row", g.length(e.Length))
	case KindLast:
		add("last row", g.length(e.Length))
	case KindPipe:
		add("pipe at", g.length(e.At.X)+",", g.length(e.At.Y), "diameter", g.length(e.Length))
	case KindIsland:
		add("island at", g.length(e.At.X)+",", g.length(e.At.Y), "size", g.length(e.Size.X), "x", g.length(e.Size.Y))
	}
}

// length writes a length in the unit of bare numbers, exactly.
func (g *Grammar) length(l measure.Length) string {
	if g.unit == measure.UnitInch {
		return l.Compact(g.unit, measure.Tick)
	}
	return l.Format(g.unit, measure.Tick)
}

// floorWord is the name that a line begins with; it may be empty where there is one floor.
func (g *Grammar) floorWord(floor int) string {
	if len(g.floors) == 1 {
		return ""
	}
	if floor >= 0 && floor < len(g.floors) {
		return quoted(g.whole(floor))
	}
	return fmt.Sprintf("room %d", floor+1)
}

// digits reports whether a number behind the name of a floor would be read as part of a name.
func (g *Grammar) digits(floor int) bool {
	name := g.whole(floor)
	for _, p := range g.places {
		if len(p.name) > len(name) && strings.EqualFold(p.name[:len(name)], name) {
			return true
		}
	}
	return strings.ContainsAny(name, "0123456789")
}

func (g *Grammar) roomWord(room int) string {
	if len(g.rooms) == 1 && len(g.floors) == 1 {
		return ""
	}
	return fmt.Sprintf("room %d", room+1)
}

// quoted writes "room" before a name that is a word of an event.
func quoted(name string) string {
	if first, _, _ := strings.Cut(strings.ToLower(name), " "); vocabulary[first] != "" || fillers[first] {
		return "room " + name
	}
	return name
}

// rowWord writes the number of a row, and the letter of a run.
func rowWord(e Event) string {
	s := strconv.Itoa(e.Row)
	switch {
	case e.Run > 26:
		s += "." + strconv.Itoa(e.Run)
	case e.Run > 0:
		s += string(rune('a' + e.Run - 1))
	}
	return s
}

func numbers(list []int) string {
	out := make([]string, len(list))
	for i, n := range list {
		out[i] = strconv.Itoa(n)
	}
	return strings.Join(out, ", ")
}
