package jobfile

import (
	"strconv"

	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// The readers here are of the products that go with a floor: trim, transitions, underlay and the rest.

func (d *decoder) trim(n *yaml.Node, path string) {
	d.items(n, path, "write a - before each trim", func(n *yaml.Node, path string) {
		var t cutopt.Trim
		d.mapping(n, path,
			key{"kind", "write base, shoe or quarter-round", d.constant(&t.Kind, "base", "shoe", "quarter-round")},
			key{"name", "", d.string(&t.Name)},
			key{"thickness", "measure it out from the wall", d.length(&t.Thickness)},
			key{"casing", "", d.length(&t.Casing)},
			key{"islands", "", d.truth(&t.Islands)},
			key{"sticks", "", d.sticks(&t.Sticks)},
		)
		d.file.Job.Materials.Trim = append(d.file.Job.Materials.Trim, t)
	})
}

func (d *decoder) transitions(n *yaml.Node, path string) {
	d.items(n, path, "write a - before each profile", func(n *yaml.Node, path string) {
		var p cutopt.Profile
		d.mapping(n, path,
			key{
				"kind", "write level, lower, edge or nosing",
				d.constant(&p.Kind, "level", "lower", "edge", "nosing"),
			},
			key{"name", "", d.string(&p.Name)},
			key{"sticks", "", d.sticks(&p.Sticks)},
		)
		d.file.Job.Materials.Transitions = append(d.file.Job.Materials.Transitions, p)
	})
}

// height returns a reader of the height of a floor, of which 0 would stand for unknown.
func (d *decoder) height(into *measure.Length) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		errs := d.count()
		if d.length(into)(n, path); d.count() == errs && *into == 0 {
			d.failAt(d.file.places[path], path, "the height of a floor is above 0", "write transition: lower")
		}
	}
}

// sticks returns a reader of lengths on sale.
func (d *decoder) sticks(into *[]cutopt.Stick) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.items(n, path, "write them as [{length: 12', price: 14.90}]", func(n *yaml.Node, path string) {
			var s cutopt.Stick
			d.mapping(n, path,
				key{"length", "it is how long one stick is", d.length(&s.Length)},
				key{"price", "", d.price(&s.Price)},
				key{"on-hand", "", d.whole(&s.OnHand)},
			)
			*into = append(*into, s)
		})
	}
}

// rolls returns a reader of rolls on sale.
func (d *decoder) rolls(into *[]cutopt.Roll) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.items(n, path, "write them as [{width: 4', length: 25', price: 39.00}]", func(n *yaml.Node, path string) {
			var r cutopt.Roll
			d.mapping(n, path,
				key{"width", "read it from the label", d.length(&r.Width)},
				key{"length", "read it from the label", d.length(&r.Length)},
				key{"price", "", d.price(&r.Price)},
				key{"on-hand", "", d.whole(&r.OnHand)},
			)
			*into = append(*into, r)
		})
	}
}

func (d *decoder) underlay(n *yaml.Node, path string) {
	u := &d.file.Job.Materials.Underlay
	d.mapping(n, path,
		key{"name", "", d.string(&u.Name)},
		key{"thickness", "", d.length(&u.Thickness)},
		key{"attached", "", d.truth(&u.Attached)},
		key{"strips", "", d.constant(&u.Strips, "either", "along", "across")},
		key{"overlap", "", d.length(&u.Overlap)},
		key{"self-taped", "", d.truth(&u.SelfTaped)},
		key{"rolls", "", d.rolls(&u.Rolls)},
	)
}

func (d *decoder) film(n *yaml.Node, path string) {
	f := &d.file.Job.Materials.Film
	d.mapping(n, path,
		key{"name", "", d.string(&f.Name)},
		key{"lap", "", d.length(&f.Lap)},
		key{"turn-up", "", d.length(&f.TurnUp)},
		key{"rolls", "", d.rolls(&f.Rolls)},
	)
}

func (d *decoder) tape(n *yaml.Node, path string) {
	t := &d.file.Job.Materials.Tape
	d.mapping(n, path,
		key{"name", "", d.string(&t.Name)},
		key{"length", "", d.length(&t.Length)},
		key{"price", "", d.price(&t.Price)},
	)
}

func (d *decoder) spacers(n *yaml.Node, path string) {
	s := &d.file.Job.Materials.Spacers
	d.mapping(n, path,
		key{"every", "", d.length(&s.Every)},
		key{"pack", "", d.whole(&s.Pack)},
		key{"price", "", d.price(&s.Price)},
	)
}

func (d *decoder) appliances(n *yaml.Node, path string) {
	d.items(n, path, "write a - before each appliance", func(n *yaml.Node, path string) {
		var a cutopt.Appliance
		d.mapping(n, path,
			key{"name", "", d.string(&a.Name)},
			key{"opening", "measure it from what the floor is laid on up to the counter", d.length(&a.Opening)},
			key{"height", "measure it with its feet turned in", d.length(&a.Height)},
		)
		d.file.Job.Materials.Appliances = append(d.file.Job.Materials.Appliances, a)
	})
}

// materials writes the products that go with a floor, those that are named.
func (e *encoder) materials(root tree, m *cutopt.Materials) {
	trims, profiles, appliances := list(0), list(0), list(0)
	for i := range m.Trim {
		t := &m.Trim[i]
		node := newTree(0)
		node.put("kind", plain(t.Kind.String()))
		e.putName(node, t.Name)
		node.put("thickness", e.length(t.Thickness))
		e.putLength(node, "casing", t.Casing)
		putTrue(node, "islands", t.Islands)
		e.putSticks(node, t.Sticks)
		trims.Content = append(trims.Content, node.Node)
	}
	for i := range m.Transitions {
		p := &m.Transitions[i]
		node := newTree(0)
		node.put("kind", plain(p.Kind.String()))
		e.putName(node, p.Name)
		e.putSticks(node, p.Sticks)
		profiles.Content = append(profiles.Content, node.Node)
	}
	for _, a := range m.Appliances {
		node := newTree(0)
		e.putName(node, a.Name)
		node.put("opening", e.length(a.Opening))
		node.put("height", e.length(a.Height))
		appliances.Content = append(appliances.Content, node.Node)
	}
	putFilled(root, "trim", trims)
	putFilled(root, "transitions", profiles)
	putFilled(root, "underlay", e.underlay(&m.Underlay).Node)
	putFilled(root, "film", e.film(&m.Film).Node)
	tape := newTree(0)
	e.putName(tape, m.Tape.Name)
	e.putLength(tape, "length", m.Tape.Length)
	putPrice(tape, m.Tape.Price)
	putFilled(root, "tape", tape.Node)
	spacers := newTree(0)
	e.putLength(spacers, "every", m.Spacers.Every)
	putCount(spacers, "pack", m.Spacers.Pack)
	putPrice(spacers, m.Spacers.Price)
	putFilled(root, "spacers", spacers.Node)
	putFilled(root, "appliances", appliances)
}

func (e *encoder) underlay(u *cutopt.Underlay) tree {
	t := newTree(0)
	e.putName(t, u.Name)
	e.putLength(t, "thickness", u.Thickness)
	putTrue(t, "attached", u.Attached)
	if u.Strips != cutopt.StripsEither {
		t.put("strips", plain(u.Strips.String()))
	}
	e.putLength(t, "overlap", u.Overlap)
	putTrue(t, "self-taped", u.SelfTaped)
	e.putRolls(t, u.Rolls)
	return t
}

func (e *encoder) film(f *cutopt.Film) tree {
	t := newTree(0)
	e.putName(t, f.Name)
	e.putLength(t, "lap", f.Lap)
	e.putLength(t, "turn-up", f.TurnUp)
	e.putRolls(t, f.Rolls)
	return t
}

func (e *encoder) putSticks(t tree, sticks []cutopt.Stick) {
	items := list(0)
	for _, s := range sticks {
		node := newTree(yaml.FlowStyle)
		node.put("length", e.length(s.Length))
		putPrice(node, s.Price)
		putCount(node, "on-hand", s.OnHand)
		items.Content = append(items.Content, node.Node)
	}
	putFilled(t, "sticks", items)
}

func (e *encoder) putRolls(t tree, rolls []cutopt.Roll) {
	items := list(0)
	for _, r := range rolls {
		node := newTree(yaml.FlowStyle)
		node.put("width", e.length(r.Width))
		node.put("length", e.length(r.Length))
		putPrice(node, r.Price)
		putCount(node, "on-hand", r.OnHand)
		items.Content = append(items.Content, node.Node)
	}
	putFilled(t, "rolls", items)
}

// The following leave out what is 0, which is the default.

func (e *encoder) putLength(t tree, key string, l measure.Length) {
	if l > 0 {
		t.put(key, e.length(l))
	}
}

func putCount(t tree, key string, n int) {
	if n > 0 {
		t.put(key, bare(strconv.Itoa(n)))
	}
}

func putPrice(t tree, m cutopt.Money) {
	if m > 0 {
		t.put("price", bare(m.String()))
	}
}

func putTrue(t tree, key string, is bool) {
	if is {
		t.put(key, bare("true"))
	}
}

func putFilled(t tree, key string, value *yaml.Node) {
	if len(value.Content) > 0 {
		t.put(key, value)
	}
}
