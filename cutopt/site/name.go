package site

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// name looks for the name of a floor or a room, and takes it out of the line.
func (p *parser) name() error {
	from := 0
	for from < len(p.toks) && slices.Contains([]string{"laid", "room", "in", "to", "row", "the", "up"}, p.wordAt(from)) {
		from++
	}
	var f found
	at := from
	if from < len(p.toks) && p.toks[from].kind == tokenWord {
		if f = p.g.at(p.toks[from:]); p.wordAt(from) != "" && !f.complete {
			f = found{}
		}
	}
	for i := range p.toks {
		if t := p.toks[i]; f.tokens == 0 && i != from && t.kind == tokenWord && len(t.text) >= 3 && p.wordAt(i) == "" {
			f, at = p.g.at(p.toks[i:]), i
		}
	}
	if f.tokens == 0 {
		return p.numbered()
	}
	name := p.toks[at]
	p.toks = slices.Delete(slices.Clone(p.toks), at, at+f.tokens)
	for at > 0 && slices.Contains([]string{"room", "in", "of", "the"}, p.wordAt(at-1)) {
		at--
		p.toks = slices.Delete(p.toks, at, at+1)
	}
	return p.decide(name, f.places, p.fieldAt(at))
}

// numbered reads "room 2": a room by its number in the job.
func (p *parser) numbered() error {
	if p.word() == "laid" && p.wordAt(1) == "room" {
		p.toks = p.toks[1:]
	}
	if p.word() != "room" || len(p.toks) < 2 || p.toks[1].kind != tokenNumber {
		return nil
	}
	t := p.toks[1]
	n, err := strconv.Atoi(t.text)
	if err != nil || n < 1 || n > len(p.g.rooms) {
		return p.failAt(t, fmt.Sprintf("the rooms have the numbers 1 to %d", len(p.g.rooms)), "the rooms are "+p.g.list())
	}
	p.toks = p.toks[2:]
	var places []place
	for i, f := range p.g.floors {
		if slices.Contains(f.rooms, n-1) {
			places = append(places, place{name: p.g.rooms[n-1], floor: i, room: n - 1})
		}
	}
	return p.decide(t, places, p.fieldAt(0))
}

// fieldAt takes "field 2" out of the line where it stands next; 0 for none.
func (p *parser) fieldAt(at int) int {
	if at+1 < len(p.toks) && p.wordAt(at) == "field" && p.toks[at+1].kind == tokenNumber {
		if n, err := strconv.Atoi(p.toks[at+1].text); err == nil {
			p.toks = slices.Delete(slices.Clone(p.toks), at, at+2)
			return n
		}
	}
	return 0
}

// decide settles which floor and room a name means.
func (p *parser) decide(at token, places []place, field int) error {
	floors := make(map[int]bool)
	room, names := -1, []string(nil)
	for _, c := range places {
		if f := p.g.floors[c.floor]; field > 0 && f.field != field {
			continue
		}
		floors[c.floor] = true
		p.e.Floor = c.floor
		if c.room >= 0 {
			room = c.room
		}
		if !slices.Contains(names, p.g.whole(c.floor)) {
			names = append(names, p.g.whole(c.floor))
		}
	}
	switch {
	case len(floors) == 0 && field > 0:
		return p.failAt(at, fmt.Sprintf("it has no field %d", field), "the floors are "+p.g.list())
	case len(floors) > 1:
		return p.failAt(at, "it may mean "+strings.Join(names, " or "), "write more of the name")
	}
	p.named, p.room = true, room
	return nil
}
