package main

import (
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// Progress is told in the language of the report, whatever the phase.
func TestProgressText(t *testing.T) {
	for _, c := range []struct {
		p               solve.Progress
		english, german string
	}{
		{solve.Progress{Phase: solve.PhaseFloor}, "floor", "Boden"},
		{
			solve.Progress{Phase: solve.PhaseBound, Bound: 9},
			"bound, at least 9 needed",
			"Schranke, mindestens 9 nötig",
		},
		{
			solve.Progress{Phase: solve.PhaseSearch, Planks: 12, Bound: 9},
			"search: 12 planks so far, at least 9 needed", "Suche: bisher 12 Dielen, mindestens 9 nötig",
		},
		{solve.Progress{Phase: solve.PhaseBranch, Planks: 1}, "branch: 1 plank so far", "Fälle: bisher 1 Diele"},
		{solve.Progress{Phase: solve.PhaseQuality}, "quality", "Aussehen"},
		{solve.Progress{Phase: solve.PhaseCheck}, "check", "Prüfung"},
	} {
		for language, want := range map[string]string{"en": c.english, "de": c.german} {
			if got := progressText(words.New(language, nil, measure.UnitInch, 0), c.p); got != want {
				t.Errorf("%s: %q, want %q", language, got, want)
			}
		}
	}
}
