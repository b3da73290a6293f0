package main

import (
	"fmt"
	"strconv"
	"strings"

	"plank.example/cutopt/laying"
)

// changesShown is how many changed rows are listed.
const changesShown = 40

// site prints how a job stands that is begun, before anything else: will what is here do, what to buy, what stands
// behind it, what changed.
func (r *report) site() error {
	s := r.speech
	state := s.Site(r.job, r.plan)
	for _, text := range []string{state.Will, state.Buy} {
		for _, line := range wrap(text, r.width, "  ") {
			fmt.Fprintln(r.w, r.palette.bold(line))
		}
	}
	if name := clean(r.plan.Job); name != "" {
		fmt.Fprintln(r.w, strings.Join(wrap(name, r.width, ""), "\n"))
	}
	r.heading(s.Say("site.changed-title"))
	r.para(state.Changed)
	if err := r.changes(); err != nil {
		return err
	}
	r.heading(s.Say("site.stands"))
	for _, text := range state.Stands {
		r.item(clean(text))
	}
	if len(r.remarks) > 0 {
		r.heading(s.Say("site.remarks"))
		for _, text := range r.remarks {
			r.item(text)
		}
	}
	return nil
}

// changes lists the rows that start otherwise than before.
func (r *report) changes() error {
	all := r.plan.Site.Changed
	if len(all) == 0 {
		return nil
	}
	lay, err := laying.FromPlan(r.job, r.plan)
	if err != nil {
		return err
	}
	s := r.speech
	t := &table{columns: []column{
		{head: s.Say("site.row"), fold: true}, {head: s.Say("site.was"), right: true}, {head: s.Say("site.is"), right: true},
	}}
	for _, c := range all[:min(len(all), changesShown)] {
		name := strconv.Itoa(c.Row + 1)
		if c.Floor < len(lay.Floors) && c.Row < len(lay.Floors[c.Floor]) {
			for _, run := range lay.Floors[c.Floor][c.Row].Runs {
				if run.Index == c.Run {
					name = run.Name
				}
			}
		}
		if len(r.plan.Floors) > 1 {
			name = clean(s.FloorName(r.plan, c.Floor)) + " " + name
		}
		was := "-"
		if c.Was > 0 {
			was = r.length(c.Was)
		}
		t.rows = append(t.rows, []string{name, was, r.length(c.Is)})
	}
	if n := len(all) - len(t.rows); n > 0 {
		t.rows = append(t.rows, []string{s.Say("site.more", "n", strconv.Itoa(n)), "", ""})
	}
	ok, err := t.write(r.w, r.width, r.palette)
	if err == nil && !ok {
		for _, row := range t.rows {
			r.item(row[0] + ": " + row[1] + " " + s.Say("site.was") + ", " + row[2] + " " + s.Say("site.is"))
		}
	}
	return err
}
