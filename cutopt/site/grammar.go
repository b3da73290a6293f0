package site

import (
	"fmt"
	"slices"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/internal/nearest"
)

// A Grammar reads and writes the lines of a state for one plan: it knows the names of its floors and what a bare
// number means. It may be used by several goroutines at once.
type Grammar struct {
	unit   measure.Unit // of bare numbers
	places []place
	floors []floorName
	rooms  []string // of the job
}

// A place is a name that a line may begin with: that of a floor or of a room in it.
type place struct {
	name  string
	words []string
	floor int // index in Plan.Floors
	room  int // index in Job.Rooms; -1 for the name of a floor of several
}

// A floorName is how a floor of the plan is called.
type floorName struct {
	name  string
	field int // 0 where no break parts it
	rows  int
	rooms []int
}

// NewGrammar returns the grammar for a plan of a job. Bare numbers are inches in a job in inches or feet, centimetres
// in one in metres, else in the job's unit: what a tape shows. It takes O(rooms).
func NewGrammar(job *cutopt.Job, plan *cutopt.Plan) *Grammar {
	g := &Grammar{unit: job.Unit}
	switch job.Unit {
	case measure.UnitFoot:
		g.unit = measure.UnitInch
	case measure.UnitMetre:
		g.unit = measure.UnitCentimetre
	}
	for i := range job.Rooms {
		g.rooms = append(g.rooms, job.Rooms[i].Name)
	}
	fields := job.Fields(plan.Breaks)
	for i := range plan.Floors {
		f := floorName{name: plan.Floors[i].Name, field: plan.Floors[i].Field, rows: len(plan.Floors[i].Rows)}
		if i < len(fields) {
			for k := range fields[i].Rooms {
				if room := fields[i].Rooms[k].Number; !slices.Contains(f.rooms, room) {
					f.rooms = append(f.rooms, room)
				}
			}
		}
		g.floors = append(g.floors, f)
		g.named(f.name, i, -1)
		for _, room := range f.rooms {
			g.named(job.Rooms[room].Name, i, room)
		}
	}
	return g
}

// named adds a name.
func (g *Grammar) named(name string, floor, room int) {
	var words []string
	for _, t := range lex([]rune(name)) {
		if t.kind != tokenMark {
			words = append(words, t.text)
		}
	}
	if len(words) > 0 {
		g.places = append(g.places, place{name, words, floor, room})
	}
}

// A found is a name found in a line.
type found struct {
	places   []place // all that match as well
	tokens   int     // how many tokens it is
	complete bool    // the whole name stands there
}

// at returns the names that the tokens begin with: those of which most words are there, each at least begun.
func (g *Grammar) at(toks []token) (best found) {
	words := 0
	for _, p := range g.places {
		n, used := 0, 0
		for i := 0; i < len(toks) && n < len(p.words); i++ {
			t := toks[i]
			if t.kind == tokenMark && n > 0 && strings.Contains("+/&-'.", t.text) {
				continue
			}
			if t.kind == tokenMark || !strings.HasPrefix(p.words[n], t.text) ||
				t.kind == tokenNumber && p.words[n] != t.text {
				break
			}
			n, used = n+1, i+1
		}
		last := used > 0 && toks[used-1].text == p.words[max(n-1, 0)]
		complete := n == len(p.words) && last
		switch {
		case n == 0 || n < words || n == words && best.complete && !complete:
		case n > words || complete && !best.complete:
			best, words = found{[]place{p}, used, complete}, n
		default:
			best.places = append(best.places, p)
		}
	}
	return best
}

// whole says how a floor is called in a line.
func (g *Grammar) whole(floor int) string {
	f := &g.floors[floor]
	name := f.name
	if len(g.floors) == 1 && (name == "" || f.field == 0) {
		return name
	}
	if f.field > 0 {
		name = fmt.Sprintf("%s field %d", name, f.field)
	}
	return name
}

// list names all floors, for hints.
func (g *Grammar) list() string {
	var out []string
	for i := range g.floors {
		if name := g.whole(i); name != "" && len(out) < 12 {
			out = append(out, name)
		}
	}
	return strings.Join(out, ", ")
}

// near returns the room's name that was probably meant.
func (g *Grammar) near(word string) string {
	var names []string
	for _, p := range g.places {
		names = append(names, p.name)
	}
	return nearest.Word(word, names)
}
