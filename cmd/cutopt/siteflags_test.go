package main

import (
	"slices"
	"testing"
)

// What is copied from a sheet has several lines; given to --happened at once they are as many events.
func TestHappenedTakesSeveralLines(t *testing.T) {
	for _, row := range []struct {
		value string
		want  []string
	}{
		{"Hall 6", []string{"Hall 6"}},
		{"Hall 6\n\n# the second day\n  Hall 7 2 pieces\r\nlost 12\n", []string{"Hall 6", "Hall 7 2 pieces", "lost 12"}},
		{"", []string{""}}, // refused as a line that says nothing
	} {
		f := newSiteFlags()
		if err := f.set.Parse([]string{"--happened", row.value}); err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, line := range f.lines {
			got = append(got, line.Text)
		}
		if !slices.Equal(got, row.want) || len(f.from) != len(f.lines) {
			t.Errorf("%q: lines %q of %d flags, want %q", row.value, got, len(f.from), row.want)
		}
	}
}
