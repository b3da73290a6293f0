package story_test

import (
	"context"
	"os"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/bench/sample"
	"plank.example/bench/story"
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestStories tells a few stories to the end, CUTOPT_SAMPLES times as many. Tell holds every plan on the way; here the
// planks add up, fewer are used than by the trade's habit in all, and no story uses fewer than a plan that knew it all,
// unless that is not proven.
func TestStories(t *testing.T) {
	samples := 1
	if n, err := strconv.Atoi(os.Getenv("CUTOPT_SAMPLES")); err == nil {
		samples = max(n, 1)
	}
	rules := cutopt.DefaultRules(measure.UnitInch)
	opt := &solve.Options{Fewest: solve.FewestPlanks}
	used, habit, events := 0, 0, 0
	seeds := []uint64{
		3, 8, 11, 43, 52, 62, // short ones
		915, // laid as planned it is cut as before, with fewer planks than rows.Instance.Count knows of
	}
	for len(seeds) < 7*samples {
		seeds = append(seeds, uint64(100+len(seeds)))
	}
	for _, seed := range seeds {
		s := story.Draw(sample.MixDwelling, sample.Products(), &rules, seed)
		o, err := s.Tell(context.Background(), opt, false)
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		used, habit, events = used+o.Used, habit+o.Habit, events+o.Events
		if o.Proven == o.Events && o.Used < o.Known || o.Used < o.Planned-2*o.Runs || o.Lost >= o.Used {
			t.Errorf("seed %d: %+v", seed, o)
		}
		if seed > 8 {
			continue
		}
		again, err := s.Tell(context.Background(), opt, false)
		if err != nil {
			t.Fatal(err)
		}
		o.Longest, again.Longest = 0, 0
		if diff := cmp.Diff(o, again); diff != "" {
			t.Errorf("told again it is another story: %s", diff)
		}
	}
	if used >= habit {
		t.Errorf("%d planks are used, %d by the habit", used, habit)
	}
	if events < 3 {
		t.Errorf("only %d plans were made on the way", events)
	}
}

// All luck is of the same share whatever the seed, and the same for the same question.
func TestLuck(t *testing.T) {
	const planks = 20_000
	s := &story.Story{Seed: 3, Loss: 0.06, Mixed: 0.02, Job: &cutopt.Job{Plank: cutopt.Plank{Length: 480}}}
	culled, miscut, gone := 0, 0, 0
	for n := range planks {
		if s.Culled(n) {
			culled++
		}
		if at := s.Miscut(n); at < 0 || at >= 480 {
			t.Fatalf("plank %d is sawn at %d", n, at)
		} else if at > 0 {
			miscut++
		}
		if s.Gone(n) {
			gone++
		}
		at, lost := s.Miscut(n), s.Culled(n)
		if at != s.Miscut(n) || lost != s.Culled(n) {
			t.Fatalf("the luck of plank %d changes", n)
		}
	}
	// Three standard deviations of a binomial count of 800 or 400 of 20,000 are 84 and 60.
	if max(culled-800, 800-culled) > 84 || max(miscut-400, 400-miscut) > 60 || max(gone-400, 400-gone) > 60 {
		t.Errorf("%d planks are culled, %d miscut, %d offcuts gone", culled, miscut, gone)
	}
}
