package solve_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"plank.example/cutopt/internal/oracle"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// valueOf returns the figure that an aim is after, the lower the better, and as low as the aim wants it.
func valueOf(job *cutopt.Job, q cutopt.Quality, planks int, aim cutopt.Aim) int {
	return map[cutopt.Aim]int{
		cutopt.AimHJoints: q.HJoints, cutopt.AimChains: q.Chains, cutopt.AimStaircases: q.Staircases,
		cutopt.AimClusters:  q.Clusters,
		cutopt.AimStagger:   -int(min(q.LeastStagger, job.Rules.PreferStagger, job.Plank.Length/2)),
		cutopt.AimCrosscuts: q.Crosscuts,
		cutopt.AimOffcuts:   max(q.OffcutsAtOnce, 1), cutopt.AimWaiting: q.RowsWaited, cutopt.AimFigures: q.OddStarters,
		cutopt.AimPlanks: planks,
	}[aim]
}

// qualityRoom draws a plain room, or every fourth time rooms of any shape.
func qualityRoom(seed uint64) *cutopt.Job {
	r := rand.New(rand.NewPCG(seed, 71))
	if seed%4 == 3 {
		return oracle.AnyRooms(r)
	}
	return oracle.PlainRoom(r)
}

// A betterment adds up figures before and after the aims were pursued.
type betterment struct {
	aims          []cutopt.Aim
	before, after []int
	planned       int
	moved         int             // runs that are laid otherwise without aims
	times         []time.Duration // of improving a plan, and counting its figures
}

func newBetterment() *betterment {
	aims := cutopt.DefaultAims()
	return &betterment{aims: aims, before: make([]int, len(aims)), after: make([]int, len(aims))}
}

// plan plans a job without and with aims. Boxes stay what they were, and so does the bound; the first floor is the
// same, and without aims it stays as holdsFirst says; the first of the figures that differs, in the order of the aims,
// is better; and all figures are what their description says.
func (b *betterment) plan(t *testing.T, name string, job *cutopt.Job) {
	quick := &solve.Options{Effort: solve.EffortQuick}
	job.Rules.AsItComes = 0 // the first plan's figures are of sawn starters
	job.Aims = []cutopt.Aim{}
	began := time.Now()
	plain, err := solve.Job(context.Background(), job, quick)
	took := time.Since(began)
	if errors.Is(err, solve.ErrNoPlan) {
		return
	}
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	job.Aims = nil
	began = time.Now()
	better, err := solve.Job(context.Background(), job, quick)
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	b.planned++
	b.times = append(b.times, max(time.Since(began)-took, 0))
	if got, want := better.Plan.Order.Boxes, plain.Plan.Order.Boxes; got != want {
		t.Errorf("%s: %d boxes, without aims %d", name, got, want)
	}
	if better.Plan.Bound.Planks != plain.Plan.Bound.Planks || better.Plan.Bound.Proven != plain.Plan.Bound.Proven {
		t.Errorf("%s: another bound: %+v, without aims %+v", name, better.Plan.Bound, plain.Plan.Bound)
	}
	if better.Before != plain.Before {
		t.Errorf("%s: another first floor: %+v, without aims %+v", name, better.Before, plain.Before)
	}
	if plain.Stats.Better > 0 {
		job.Aims = []cutopt.Aim{}
		b.moved += holdsFirst(t, name, job, plain, quick)
	} else if plain.Plan.Quality != plain.Before {
		t.Errorf("%s: without aims and steps %+v became %+v", name, plain.Before, plain.Plan.Quality)
	}
	for _, result := range []*solve.Result{plain, better} {
		if got, want := result.Plan.Quality, oracle.Quality(job, result.Plan); got != want {
			t.Errorf("%s: quality %+v, counted %+v", name, got, want)
		}
	}
	first := true
	for k, aim := range b.aims {
		was := valueOf(job, plain.Plan.Quality, plain.Plan.Order.Planks, aim)
		is := valueOf(job, better.Plan.Quality, better.Plan.Order.Planks, aim)
		if first && is > was {
			t.Errorf("%s: %v went from %d to %d and nothing before it is better", name, aim, was, is)
		}
		first = first && is == was
		b.before[k], b.after[k] = b.before[k]+was, b.after[k]+is
	}
}

// log prints the means.
func (b *betterment) log(t *testing.T) {
	slices.Sort(b.times)
	n := len(b.times)
	t.Logf("%d plans, without aims %d runs moved; improving took %v at the median, %v at most at 99 %%, %v at most",
		b.planned, b.moved, b.times[n/2], b.times[n*99/100], b.times[n-1])
	t.Log("means before and after:")
	for k, aim := range b.aims {
		scale := float64(b.planned)
		if aim == cutopt.AimStagger {
			scale *= -float64(measure.Inch)
		}
		t.Logf("%12v %8.3f %8.3f", aim, float64(b.before[k])/scale, float64(b.after[k])/scale)
	}
}

// TestQuality plans random rooms with and without aims.
func TestQuality(t *testing.T) {
	b := newBetterment()
	for seed := range uint64(oracle.Samples(12)) {
		b.plan(t, fmt.Sprintf("seed %d", seed), qualityRoom(seed))
	}
	b.log(t)
	for k, aim := range b.aims[:4] {
		if b.after[k] >= b.before[k] && b.before[k] != 0 {
			t.Errorf("%v is no better over all rooms: %d, before %d", aim, b.after[k], b.before[k])
		}
	}
}

// TestRealRoomsQuality does the same with the room outlines in the folder that CUTOPT_ROOMS names.
func TestRealRoomsQuality(t *testing.T) {
	folder := os.Getenv("CUTOPT_ROOMS")
	if folder == "" {
		t.Skip("CUTOPT_ROOMS names no folder of room outlines")
	}
	b := newBetterment()
	for _, room := range readRealRooms(t, folder) {
		for _, size := range [][2]measure.Length{{48 * measure.Inch, 7 * measure.Inch}, {
			1220 * measure.Millimetre,
			180 * measure.Millimetre,
		}} {
			b.plan(t, room.Source+" "+room.Room, realJob(room, size))
		}
	}
	b.log(t)
}

// TestAimsOrder puts each aim first and last: over some rooms its figure is the better the earlier it comes, and no aim
// costs one before it.
func TestAimsOrder(t *testing.T) {
	quick := &solve.Options{Effort: solve.EffortQuick}
	for _, aim := range cutopt.DefaultAims() {
		rest := slices.DeleteFunc(cutopt.DefaultAims(), func(a cutopt.Aim) bool { return a == aim })
		orders := [][]cutopt.Aim{append([]cutopt.Aim{aim}, rest...), append(slices.Clone(rest), aim)}
		var sum [2]int
		for seed := range uint64(oracle.Samples(4)) {
			job := oracle.PlainRoom(rand.New(rand.NewPCG(seed, 72)))
			for k, order := range orders {
				job.Aims = order
				result, err := solve.Job(context.Background(), job, quick)
				if err != nil {
					t.Fatalf("seed %d: %v", seed, err)
				}
				sum[k] += valueOf(job, result.Plan.Quality, result.Plan.Order.Planks, aim)
				if k == 0 && aim != cutopt.AimPlanks {
					if was := valueOf(job, result.Before, 0, aim); valueOf(job, result.Plan.Quality, 0, aim) > was {
						t.Errorf("seed %d: %v comes first and is worse than %d", seed, aim, was)
					}
				}
			}
		}
		t.Logf("%12v first %d, last %d", aim, sum[0], sum[1])
		if sum[0] > sum[1] {
			t.Errorf("%v adds up to %d when it comes first and to %d when it comes last", aim, sum[0], sum[1])
		}
	}
}

// TestQualityKeepsPlanks asks for the fewest planks: no aim costs one.
func TestQualityKeepsPlanks(t *testing.T) {
	opt := &solve.Options{Effort: solve.EffortQuick, Fewest: solve.FewestPlanks}
	for seed := range uint64(12) {
		job := oracle.PlainRoom(rand.New(rand.NewPCG(seed, 73)))
		job.Aims = []cutopt.Aim{}
		plain, err := solve.Job(context.Background(), job, opt)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		job.Aims = nil
		better, err := solve.Job(context.Background(), job, opt)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got, most := better.Plan.Order.Planks, plain.Plan.Order.Planks; got > most {
			t.Errorf("seed %d: %d planks, without aims %d", seed, got, most)
		}
	}
}

// TestQualityAnyWorkers plans with one, two and eight workers: the plan files are the same.
func TestQualityAnyWorkers(t *testing.T) {
	for seed := range uint64(8) {
		job := qualityRoom(seed)
		var files [][]byte
		for _, workers := range []int{1, 2, 8} {
			result, err := solve.Job(
				context.Background(),
				job,
				&solve.Options{Effort: solve.EffortQuick, Workers: workers, Seed: seed},
			)
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			files = append(files, oracle.Encode(t, result.Plan))
		}
		if !bytes.Equal(files[0], files[1]) || !bytes.Equal(files[0], files[2]) {
			t.Errorf("seed %d: the plan depends on the workers", seed)
		}
	}
}

// TestQualityMirrored plans rooms and their mirror images laid from the other hand: the figures are the same.
func TestQualityMirrored(t *testing.T) {
	for seed := range uint64(12) {
		job := oracle.PlainRoom(rand.New(rand.NewPCG(seed, 74)))
		quality := func() cutopt.Quality {
			result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			return result.Plan.Quality
		}
		want := quality()
		for i := range job.Rooms[0].Outline {
			job.Rooms[0].Outline[i].X *= -1
		}
		slices.Reverse(job.Rooms[0].Outline)
		job.Rooms[0].Rows.LaidFrom = cutopt.FromRight
		if got := quality(); got != want {
			t.Errorf("seed %d: mirrored %+v, want %+v", seed, got, want)
		}
	}
}
