package main

import (
	"context"
	"fmt"
	"io"

	"plank.example/bench/tables"
	"plank.example/bench/tally"
)

func tableCommand(_ context.Context, args []string, out, errw io.Writer) error {
	f := newFlags("table", errw)
	group := f.String(
		"group",
		"all",
		`rooms to count: "all", "kind bedroom", "shape L", "size 100-125" (sq ft), "rows 16-20"`,
	)
	if err := parse(f, args, 1, -1); err != nil {
		return err
	}
	s, err := readSummaries(f.Args())
	if err != nil {
		return err
	}
	return writeGroup(out, s, *group)
}

// writeTables prints the table of all rooms.
func writeTables(w io.Writer, s *tally.Summary) error { return writeGroup(w, s, "all") }

func writeGroup(w io.Writer, s *tally.Summary, group string) error {
	settings, err := s.Spec.Settings()
	if err != nil {
		return err
	}
	found := false
	for _, set := range settings {
		g := tables.Strategies(s, set.Name, group)
		if len(g.Rows) == 0 {
			continue
		}
		found = true
		fmt.Fprintf(w, "%s, rooms: %s %s\n", set.Name, s.Spec.Mix, group)
		if err := g.Text(w); err != nil {
			return err
		}
		fmt.Fprintln(w)
	}
	if !found {
		return fmt.Errorf("no room of the summary is of group %q", group)
	}
	_, err = fmt.Fprintf(
		w,
		"added: bought on top of the floor area, by planks needed and by whole boxes; opened: by someone who lays run after "+
			"run;\nplanks against %s, boxes against %s: mean difference a room, over rooms that both laid; "+
			"intervals are %.0f %%\n",
		s.PlanksReference(), s.Reference(), 100*tally.Confidence,
	)
	return err
}
