package solve_test

import (
	"context"
	"strings"
	"testing"

	"plank.example/cutopt/check"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/solve"
)

// TestOddJobs plans jobs, found by changing figures of job files at random, whose plans once broke a rule of Check.
func TestOddJobs(t *testing.T) {
	const head = "unit: in\nplank: {length: 48, width: 7}\nbox: {planks: 8}\n"
	for name, text := range map[string]string{
		"a first row wider than the room is deep, with a doorway beyond": head + `
rules: {gap: 0, min-piece: 8 in, stagger: 8 in, fit: 1/8 in, smooth: 1/8 in, cover: 1/4 in}
rooms: [{size: 144 x 1 1/2, rows: {direction: 0, first: 4}, doorways: [{wall: 3, at: 24, width: 30, depth: 4 1/4}]}]
`,
		"a slanted wall ten times as long as meant": head + `
rules: {gap: 0, min-piece: 5 in, stagger: 8 in, fit: 1/8 in, smooth: 1/8 in, cover: 3/4 in}
rooms: [{corners: [[0, 0], [174, 0], [1750, 131], [0, 131]]}]
`,
		"rows that begin beneath the casing of a passage at the corner": head + `
rules: {gap: 1/4, min-piece: 8, stagger: 8, fit: 1/8, smooth: 1/8, cover: 1/4, under: 1/2}
rooms:
- name: A
  size: 63 3/4 x 56 3/4
  doorways: [{wall: 3, at: 1/4, width: 37 1/2, depth: 3, casing: wood, to: B, through: true}]
  rows: {direction: across, start: near, first: 4 1/2}
- {name: B, corners: [[6 1/2, 59 3/4], [63 3/4, 59 3/4], [63 3/4, 150], [0, 153 3/4]]}
`,
		"a taper and no gap": head + `
rules: {gap: 0, min-piece: 8 in, stagger: 8 in, fit: 1/8 in, smooth: 1/8 in, cover: 1/4 in}
rooms: [{corners: [[0, 0], [174, 0], [174, 132 1/2], [0, 131]]}]
`,
	} {
		job, err := jobfile.Decode(strings.NewReader(text), name)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if v := check.Plan(job, result.Plan); v != nil {
			t.Errorf("%s: %v", name, v)
		}
	}
}
