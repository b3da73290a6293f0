package planfile

import "plank.example/cutopt"

// mark writes a flag that is left out where it is not set.
func (w *planWriter) mark(key string, set bool) {
	if set {
		w.flag(key, true)
	}
}

// lot writes the name of a lot, if there is one.
func (w *planWriter) lot(name string) {
	if name != "" {
		w.raw(`, "lot": `)
		w.value(name)
	}
}

func (w *planWriter) site(s *cutopt.Site) {
	w.raw(",\n  \"site\": {")
	w.count("bought", s.Bought)
	w.raw(", ")
	w.count("brought", s.Brought)
	w.raw(`, "here": `)
	w.lots(s.Here)
	w.flag("mixed", s.Mixed)
	w.raw(",\n    ")
	w.count("needed", s.Needed)
	w.raw(", ")
	w.count("least", s.Least)
	w.raw(", ")
	w.count("short", s.Short)
	w.raw(", ")
	w.count("buy", s.Buy)
	w.raw(`, "returns": `)
	w.lots(s.Returns)
	w.flag("assigned", s.Assigned)
	w.raw(",\n    \"reaches\": ")
	w.inline(len(s.Reaches), func(i int) { w.value(s.Reaches[i]) })
	w.raw(`, "waits": `)
	w.inline(len(s.Waits), func(i int) { w.value(s.Waits[i] + 1) })
	w.raw(`, "changed": `)
	w.list(len(s.Changed), "      ", func(i int) {
		c := &s.Changed[i]
		w.raw("{")
		w.count("floor", c.Floor+1)
		w.raw(", ")
		w.count("row", c.Row+1)
		w.raw(", ")
		w.count("run", c.Run+1)
		w.raw(`, "was": `)
		w.length(c.Was)
		w.raw(`, "is": `)
		w.length(c.Is)
		w.raw("}")
	})
	w.raw("}")
}

func (w *planWriter) lots(lots []cutopt.Lot) {
	w.inline(len(lots), func(i int) {
		w.raw(`{"name": `)
		w.value(lots[i].Name)
		w.raw(", ")
		w.count("planks", lots[i].Planks)
		w.raw(", ")
		w.count("boxes", lots[i].Boxes)
		w.raw("}")
	})
}

var siteFields = []field[cutopt.Site]{
	{key: "bought", read: func(r *planReader, s *cutopt.Site) { s.Bought = r.count() }},
	{key: "brought", read: func(r *planReader, s *cutopt.Site) { s.Brought = r.count() }},
	{key: "here", read: func(r *planReader, s *cutopt.Site) { list(r, &s.Here, objectOf(lotFields)) }},
	{key: "mixed", read: func(r *planReader, s *cutopt.Site) { s.Mixed = r.flag() }},
	{key: "needed", read: func(r *planReader, s *cutopt.Site) { s.Needed = r.count() }},
	{key: "least", read: func(r *planReader, s *cutopt.Site) { s.Least = r.count() }},
	{key: "short", read: func(r *planReader, s *cutopt.Site) { s.Short = r.count() }},
	{key: "buy", read: func(r *planReader, s *cutopt.Site) { s.Buy = r.count() }},
	{key: "returns", read: func(r *planReader, s *cutopt.Site) { list(r, &s.Returns, objectOf(lotFields)) }},
	{key: "assigned", read: func(r *planReader, s *cutopt.Site) { s.Assigned = r.flag() }},
	{key: "reaches", read: func(r *planReader, s *cutopt.Site) {
		list(r, &s.Reaches, func(r *planReader, to *int) { *to = r.count() })
	}},
	{key: "waits", read: func(r *planReader, s *cutopt.Site) {
		list(r, &s.Waits, func(r *planReader, to *int) { *to = r.index() })
	}},
	{key: "changed", read: func(r *planReader, s *cutopt.Site) { list(r, &s.Changed, objectOf(changeFields)) }},
}

var lotFields = []field[cutopt.Lot]{
	{key: "name", read: func(r *planReader, l *cutopt.Lot) { l.Name = r.text() }},
	{key: "planks", read: func(r *planReader, l *cutopt.Lot) { l.Planks = r.count() }},
	{key: "boxes", read: func(r *planReader, l *cutopt.Lot) { l.Boxes = r.count() }},
}

var changeFields = []field[cutopt.RunChange]{
	{key: "floor", read: func(r *planReader, c *cutopt.RunChange) { c.Floor = r.index() }},
	{key: "row", read: func(r *planReader, c *cutopt.RunChange) { c.Row = r.index() }},
	{key: "run", read: func(r *planReader, c *cutopt.RunChange) { c.Run = r.index() }},
	{key: "was", read: func(r *planReader, c *cutopt.RunChange) { c.Was = r.length() }},
	{key: "is", read: func(r *planReader, c *cutopt.RunChange) { c.Is = r.length() }},
}
