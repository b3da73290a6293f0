package jobfile_test

import (
	"fmt"
	"strings"
	"testing"

	"plank.example/cutopt/jobfile"
)

func ExampleReference() {
	for _, m := range jobfile.Reference() {
		if m.Path == "rooms[].walls[]" {
			for _, k := range m.Keys {
				fmt.Printf("%s (%s): %s\n", k.Name, k.Takes, k.Help)
			}
		}
	}
	// Output:
	// length (length): of the wall
	// turn (): left, right, left 45: the turn at the end of the wall
}

// Every key is documented, and every kind that a key takes is explained.
func TestReferenceIsComplete(t *testing.T) {
	kinds := map[string]bool{
		"": true, "list": true, "mapping": true, "unit": true, "percent": true,
		// mappings that have a page of their own
		"plank": true, "box": true, "rows": true, "underlay": true, "film": true, "tape": true, "spacers": true,
	}
	for _, k := range jobfile.Kinds() {
		kinds[k.Name] = true
	}
	keys := 0
	for _, m := range jobfile.Reference() {
		for _, k := range m.Keys {
			keys++
			if k.Help == "" && m.Path != "products[]" {
				t.Errorf("%s %s has no description", m.Path, k.Name)
			}
			if !kinds[k.Takes] && !strings.Contains(k.Takes, " | ") {
				t.Errorf("%s %s takes %q, which is explained nowhere", m.Path, k.Name, k.Takes)
			}
		}
	}
	if keys < 60 {
		t.Errorf("%d keys, and job files have more", keys)
	}
}
