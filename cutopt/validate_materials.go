package cutopt

import (
	"fmt"

	"plank.example/cutopt/measure"
)

// Limits of the materials of a job.
const (
	MaxSizes      = 100       // sticks or rolls of one product, and products of one kind
	MaxOnHand     = 1_000_000 // sticks or rolls that lie about, and spacers in a pack
	MaxAppliances = 1000
)

// materials holds every product that goes with the floor against its range and against what it must do.
func (v *validator) materials() {
	m := &v.job.Materials
	v.count("trim", len(m.Trim), 0, MaxSizes, "a job names at most 100 trims")
	v.count("transitions", len(m.Transitions), 0, MaxSizes, "a job names at most 100 profiles")
	v.count("appliances", len(m.Appliances), 0, MaxAppliances, "a job names at most 1,000 appliances")
	if len(m.Trim) > MaxSizes || len(m.Transitions) > MaxSizes || len(m.Appliances) > MaxAppliances {
		return
	}
	for i := range m.Trim {
		v.trim(fmt.Sprintf("trim[%d]", i+1), &m.Trim[i])
	}
	if len(m.Transitions) > 0 {
		doors := v.job.DoorTransitions()
		for i := range m.Transitions {
			v.profile(i, &m.Transitions[i], doors)
		}
	}
	v.underlay(&m.Underlay)
	v.within("film.lap", m.Film.Lap, 0, MaxLength, "the lap of a film is at least 0")
	v.within("film.turn-up", m.Film.TurnUp, 0, MaxLength, "what a film is turned up is at least 0")
	v.rolls("film.rolls", "lap", m.Film.Lap, m.Film.Rolls)
	v.within("tape.length", m.Tape.Length, 0, MaxLength,
		"the tape of a roll is at least 0 (unknown) and at most 1 km long")
	v.price("tape.price", m.Tape.Price, m.Tape.Length > 0, "give the length of a roll too")
	v.within("spacers.every", m.Spacers.Every, 0, MaxLength, "the distance of spacers is at least 0 (the usual one)")
	v.count("spacers.pack", m.Spacers.Pack, 0, MaxOnHand,
		"a pack holds at least 0 spacers (unknown) and at most 1,000,000")
	v.price("spacers.price", m.Spacers.Price, m.Spacers.Pack > 0, "give the number of a pack too")
	for i, a := range m.Appliances {
		field := fmt.Sprintf("appliances[%d]", i+1)
		ok := v.within(field+".opening", a.Opening, 1, MaxLength, "an opening is higher than 0")
		ok = v.within(field+".height", a.Height, 1, MaxLength, "an appliance is higher than 0") && ok
		if ok && a.Height > a.Opening {
			v.add(field+".height", v.text(a.Height),
				"an appliance is at most as high as its opening, "+v.text(a.Opening),
				"measure it with its feet turned in, and the opening up to the counter")
		}
	}
}

// price holds a price against its range, and reports one of which nothing is said to cost it.
func (v *validator) price(field string, price Money, counts bool, hint string) {
	switch {
	case price < 0 || price > MaxPrice:
		v.add(field, price.String(), "a price is at least 0 (unknown) and at most 1,000,000,000", "")
	case price > 0 && !counts:
		v.add(field, price.String(), "a price is of something counted", hint)
	}
}

func (v *validator) trim(field string, t *Trim) {
	if _, err := t.Kind.MarshalText(); err != nil {
		v.add(field+".kind", t.Kind.String(), "a trim is base, shoe or quarter-round", "")
	}
	thick := v.within(field+".thickness", t.Thickness, 1, MaxLength, "a trim is thicker than 0")
	v.within(field+".casing", t.Casing, 0, MaxLength, "the face of a casing is at least 0")
	if !v.sticks(field+".sticks", t.Sticks) || !thick {
		return
	}
	for k, s := range t.Sticks {
		if s.Length <= 2*t.Thickness {
			v.add(fmt.Sprintf("%s.sticks[%d].length", field, k+1), v.text(s.Length),
				"a stick is longer than twice the thickness of the trim, "+v.text(t.Thickness)+
					", which two mitres take",
				"check their units")
		}
	}
}

// sticks holds lengths on sale against their range and reports whether they are sound.
func (v *validator) sticks(field string, sticks []Stick) bool {
	before := len(v.errs)
	sizes := make([]size, len(sticks))
	for k, s := range sticks {
		sizes[k] = size{s.Price, s.OnHand}
		if k < MaxSizes {
			v.within(fmt.Sprintf("%s[%d].length", field, k+1), s.Length, 1, MaxLength, "a stick is longer than 0")
		}
	}
	v.sizes(field, sizes)
	return len(v.errs) == before
}

// A size is what sticks and rolls have in common.
type size struct {
	price  Money
	onHand int
}

func (v *validator) sizes(field string, sizes []size) {
	v.count(field, len(sizes), 0, MaxSizes, "a product comes in at most 100 sizes")
	if len(sizes) > MaxSizes {
		return
	}
	priced := false
	for _, s := range sizes {
		priced = priced || s.onHand == 0 && s.price > 0
	}
	for k, s := range sizes {
		at := fmt.Sprintf("%s[%d]", field, k+1)
		v.count(at+".on-hand", s.onHand, 0, MaxOnHand,
			"what lies on hand is at least 0 (to be bought) and at most 1,000,000")
		switch {
		case s.price < 0 || s.price > MaxPrice:
			v.add(at+".price", s.price.String(), "a price is at least 0 (unknown) and at most 1,000,000,000", "")
		case s.onHand > 0 && s.price > 0:
			v.add(at+".price", s.price.String(), "what lies on hand costs nothing", "drop the price")
		case priced && s.onHand == 0 && s.price == 0:
			v.add(at+".price", "unknown", "other sizes of the product have a price", "give this one a price too")
		}
	}
}

// profile holds a profile against its range, and its sticks against the openings that one piece must span.
func (v *validator) profile(i int, p *Profile, doors [][]Transition) {
	m, field := &v.job.Materials, fmt.Sprintf("transitions[%d]", i+1)
	if _, err := p.Kind.MarshalText(); err != nil || p.Kind == TransitionOpen {
		v.add(field+".kind", p.Kind.String(), "a profile is for a transition that is level, lower, edge or nosing", "")
		return
	}
	for k := range m.Transitions[:i] {
		if m.Transitions[k].Kind == p.Kind {
			v.add(field+".kind", p.Kind.String(), fmt.Sprintf("transitions[%d] is for it too", k+1),
				"give all lengths on sale as sticks of one")
		}
	}
	if !v.sticks(field+".sticks", p.Sticks) || len(p.Sticks) == 0 {
		return
	}
	longest := measure.Length(0)
	for _, s := range p.Sticks {
		longest = max(longest, s.Length)
	}
	for r := range v.job.Rooms {
		room := &v.job.Rooms[r]
		for k := range room.Doorways {
			d := &room.Doorways[k]
			if d.Width > longest && d.Width <= MaxLength && doors[r][k] == p.Kind {
				v.add(field+".sticks", "at most "+v.text(longest),
					fmt.Sprintf("one piece spans an opening, and %s is %s wide",
						named("doorway", d.Name, fmt.Sprintf("rooms[%d].doorways[%d]", r+1, k+1)), v.text(d.Width)),
					"add a stick at least as long")
			}
		}
	}
}

func (v *validator) underlay(u *Underlay) {
	v.within("underlay.thickness", u.Thickness, 0, MaxLength, "a thickness is at least 0 (unknown)")
	v.within("underlay.overlap", u.Overlap, 0, MaxLength, "the overlap of strips is at least 0 (butted)")
	if _, err := u.Strips.MarshalText(); err != nil {
		v.add("underlay.strips", u.Strips.String(), "strips run along the rows, across them, or either way", "")
	}
	if u.Attached && len(u.Rolls) > 0 {
		v.add("underlay.rolls", fmt.Sprintf("a list of %d", len(u.Rolls)), "an attached underlay comes with the planks",
			"drop the rolls, or attached")
	}
	v.rolls("underlay.rolls", "overlap", u.Overlap, u.Rolls)
}

// rolls holds rolls against their range and their width against what neighbouring strips share.
func (v *validator) rolls(field, shared string, overlap measure.Length, rolls []Roll) {
	sizes := make([]size, len(rolls))
	for k, r := range rolls {
		sizes[k] = size{r.Price, r.OnHand}
		if k >= MaxSizes {
			continue
		}
		at := fmt.Sprintf("%s[%d]", field, k+1)
		v.within(at+".length", r.Length, max(overlap, 0)+1, MaxLength,
			fmt.Sprintf("a roll is longer than the %s, %s, and at most 1 km long", shared, v.text(overlap)))
		if v.within(at+".width", r.Width, 1, MaxLength, "a roll is wider than 0") && r.Width <= overlap {
			v.add(at+".width", v.text(r.Width), fmt.Sprintf("a roll is wider than the %s, %s", shared,
				v.text(overlap)), "")
		}
	}
	v.sizes(field, sizes)
}
