package gate_test

import (
	"bytes"
	"context"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/bench/frozen"
	"plank.example/bench/gate"
)

func figures(used, bound int) *gate.Figures {
	return &gate.Figures{ID: "den", By: "library-quick", Count: "planks", Used: used, Bound: bound}
}

func boxes(used, bound int) *gate.Figures {
	return &gate.Figures{ID: "den", By: "library-quick", Count: "boxes", Used: used, Bound: bound}
}

// TestCompare tells better from worse.
func TestCompare(t *testing.T) {
	other := figures(37, 37)
	other.By = "library-thorough"
	slower := figures(37, 36)
	slower.Steps = 1 << 40
	for _, c := range []struct {
		why         string
		stored, now []*gate.Figures
		worse       int
		better      int
	}{
		{"the same", []*gate.Figures{figures(37, 36)}, []*gate.Figures{figures(37, 36)}, 0, 0},
		{"more steps do not count", []*gate.Figures{figures(37, 36)}, []*gate.Figures{slower}, 0, 0},
		{"a plank more", []*gate.Figures{figures(37, 37)}, []*gate.Figures{figures(38, 37)}, 1, 0},
		{"a lower bound, a proof lost", []*gate.Figures{figures(37, 37)}, []*gate.Figures{figures(37, 36)}, 1, 0},
		{"a plank less, but a lower bound", []*gate.Figures{figures(37, 36)}, []*gate.Figures{figures(36, 35)}, 1, 0},
		{"a plank less", []*gate.Figures{figures(37, 36)}, []*gate.Figures{figures(36, 36)}, 0, 1},
		{"a higher bound", []*gate.Figures{figures(37, 36)}, []*gate.Figures{figures(37, 37)}, 0, 1},
		{"a box less with other rows, proven", []*gate.Figures{boxes(9, 9)}, []*gate.Figures{boxes(8, 8)}, 0, 1},
		{"a box less, but open again", []*gate.Figures{boxes(9, 9)}, []*gate.Figures{boxes(8, 7)}, 1, 0},
		{"a case lost", []*gate.Figures{figures(37, 37)}, nil, 1, 0},
		{"a case new", nil, []*gate.Figures{figures(37, 37)}, 0, 1},
		{"another effort", []*gate.Figures{figures(37, 37)}, []*gate.Figures{other}, 1, 0},
	} {
		worse, better := 0, 0
		for _, d := range gate.Compare(c.stored, c.now) {
			if d.Worse {
				worse++
			} else {
				better++
			}
		}
		if worse != c.worse || better != c.better {
			t.Errorf("%s: %d worse, %d better", c.why, worse, better)
		}
	}
}

// TestCases runs a few cases twice and round a file: nothing depends on when or how often.
func TestCases(t *testing.T) {
	f, err := os.Open("../../testdata/instances/instances.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	set, err := frozen.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	cases, err := gate.Cases(set)
	if err != nil {
		t.Fatal(err)
	}
	if len(cases) < 300 {
		t.Errorf("%d cases", len(cases))
	}
	var first, second []*gate.Figures
	for i := 0; i < len(cases); i += len(cases) / 12 {
		for _, to := range []*[]*gate.Figures{&first, &second} {
			got, err := gate.Run(context.Background(), &cases[i])
			if err != nil {
				t.Fatal(err)
			}
			*to = append(*to, got)
		}
	}
	if diff := cmp.Diff(first, second); diff != "" {
		t.Errorf("the second time: %s", diff)
	}
	var b bytes.Buffer
	if err := gate.Write(&b, first); err != nil {
		t.Fatal(err)
	}
	read, err := gate.Read(&b)
	if diff := cmp.Diff(first, read); err != nil || diff != "" {
		t.Errorf("%v %s", err, diff)
	}
	for _, text := range []string{
		``, `{}`, `{"id": "den", "used": 3, "bound": 4}`, `{"id": "den", "planks": 4}`,
		"{\"id\": \"den\", \"used\": 3}\n{\"id\": \"den\", \"used\": 3}",
	} {
		if got, err := gate.Read(bytes.NewReader([]byte(text))); err == nil {
			t.Errorf("%s reads as %v", text, got)
		}
	}
}
