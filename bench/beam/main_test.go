package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/apache/beam/sdks/v2/go/pkg/beam/testing/ptest"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/x/beamx"

	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

func TestMain(m *testing.M) { ptest.Main(m) }

func spec() *trial.Spec {
	return &trial.Spec{
		Mix: "dwelling", Planks: []string{"48x7", "36x6"}, MinPieces: []string{"8"}, Staggers: []string{"8"},
		Strategies: []string{"thumb", "thirds", "library-quick"}, Verify: true,
	}
}

// TestTotals wants the totals of the pipeline to be those of the plain run, byte for byte, for several numbers of
// shards.
func TestTotals(t *testing.T) {
	const from, to = 3, 43
	plain := tally.New(spec())
	if err := trial.Run(context.Background(), spec(), from, to, nil, plain.Add); err != nil {
		t.Fatal(err)
	}
	want, err := encode(plain)
	if err != nil {
		t.Fatal(err)
	}
	for _, shards := range []int{1, 7} {
		name := filepath.Join(t.TempDir(), "summary.json")
		p, err := pipeline(spec(), from, to, shards, name)
		if err != nil {
			t.Fatal(err)
		}
		if err := beamx.Run(context.Background(), p); err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != string(want) {
			t.Errorf("%d shards: other totals than the plain run", shards)
		}
	}
}

func TestRefuses(t *testing.T) {
	for i, edit := range []func(*trial.Spec){
		func(s *trial.Spec) { s.Mix = "castle" },
		func(s *trial.Spec) { s.Planks = []string{"48"} },
		func(s *trial.Spec) { s.Strategies = []string{"luck"} },
	} {
		s := spec()
		edit(s)
		if _, err := pipeline(s, 0, 10, 2, "x"); err == nil {
			t.Errorf("spec %d is accepted", i)
		}
	}
	for _, c := range [][3]uint64{{0, 10, 0}, {0, 10, 11}, {5, 5, 1}} {
		if _, err := pipeline(spec(), c[0], c[1], int(c[2]), "x"); err == nil {
			t.Error(fmt.Sprint(c), "is accepted")
		}
	}
	if _, err := (&Merge{}).MergeAccumulators([]byte("{"), []byte("{}")); err == nil {
		t.Error("half a summary is merged")
	}
}
