package solve_test

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// A realRoom is a line of a file of published room outlines, in metres.
type realRoom struct {
	Source, Room string
	Outer        [][2]float64
	Holes        [][][2]float64
}

// TestRealRooms plans the room outlines in the folder that CUTOPT_ROOMS names, each with four planks and the default
// rules: every plan passes Check and its certificate verifies, or the error names the rows and the rule that clash.
// CUTOPT_FEWEST=planks asks for the fewest planks instead of boxes, CUTOPT_LIMIT=5s stops each plan after that time.
func TestRealRooms(t *testing.T) {
	folder := os.Getenv("CUTOPT_ROOMS")
	if folder == "" {
		t.Skip("CUTOPT_ROOMS names no folder of room outlines")
	}
	opt := &solve.Options{}
	if os.Getenv("CUTOPT_FEWEST") == "planks" {
		opt.Fewest = solve.FewestPlanks
	}
	if limit, err := time.ParseDuration(os.Getenv("CUTOPT_LIMIT")); err == nil {
		opt.Limit = limit
	}
	sizes := [][2]measure.Length{
		{48 * measure.Inch, 7 * measure.Inch},
		{36 * measure.Inch, 6 * measure.Inch},
		{60 * measure.Inch, 9 * measure.Inch},
		{1220 * measure.Millimetre, 180 * measure.Millimetre},
	}
	counts := make(map[string]int)
	var thumb thumbTally
	var times []time.Duration
	for _, room := range readRealRooms(t, folder) {
		for _, size := range sizes {
			job := realJob(room, size)
			began := time.Now()
			result, err := solve.Job(context.Background(), job, opt)
			times = append(times, time.Since(began))
			var no *solve.InfeasibleError
			if errors.As(err, &no) && len(no.Rows) > 0 && no.Rule != "" {
				counts["no plan: "+no.Rule]++
				continue
			}
			if err != nil {
				t.Errorf("%s %s, plank %v: %v", room.Source, room.Room, size, err)
				counts["failed"]++
				continue
			}
			if check.Plan(job, result.Plan) != nil || check.Proof(job, result.Plan) != nil {
				t.Errorf("%s %s, plank %v: check or proof fails", room.Source, room.Room, size)
				counts["failed"]++
				continue
			}
			counts["planned"]++
			if count(result.Plan, cutopt.FactStrip) > 0 {
				counts["with a strip stated"]++
			}
			thumb.add(t, job, result.Plan)
			counts["stopped by "+[...]string{"proof", "effort", "limit", "cancel"}[result.Status]]++
			if result.Plan.Bound.Rooms != nil {
				counts["of the room"]++
			}
			if result.Plan.Bound.Proven {
				counts["boxes proven"]++
			}
			if result.Plan.Bound.PlanksProven {
				counts["planks proven"]++
			} else if opt.Fewest == solve.FewestPlanks && result.Plan.Order.Planks > result.Plan.Bound.Planks+1 {
				counts["gap above one plank"]++
			}
		}
	}
	slices.Sort(times)
	t.Logf(
		"%v; time: median %v, 99th percentile %v, most %v",
		counts,
		times[len(times)/2],
		times[len(times)*99/100],
		times[len(times)-1],
	)
	t.Log(&thumb)
}

// A thumbTally counts how far the rule of thumb is off: boxes it buys beyond those that hold the fewest planks when
// none breaks, and beyond those that the plan says to buy, which hold the reserve too.
type thumbTally struct{ held, bought map[int]int }

func (c *thumbTally) add(t *testing.T, job *cutopt.Job, plan *cutopt.Plan) {
	t.Helper()
	if c.held == nil {
		c.held, c.bought = make(map[int]int), make(map[int]int)
	}
	terms, err := job.Terms()
	if err != nil {
		t.Fatal(err)
	}
	c.held[plan.Order.ThumbBoxes-terms.Holding(plan.Order.Fewest)]++
	c.bought[plan.Order.ThumbBoxes-plan.Order.Boxes]++
}

// String prints both counts as histograms.
func (c *thumbTally) String() string {
	return "boxes by the rule of thumb beyond those that hold the floor when no plank breaks:\n" + histogram(c.held) +
		"and beyond those to buy, which hold the reserve too:\n" + histogram(c.bought)
}

// histogram draws counts by boxes; the last line is five boxes and more.
func histogram(boxes map[int]int) string {
	counts := make(map[int]int)
	all, out := 0, ""
	for k, n := range boxes {
		counts[min(k, 5)] += n
		all += n
	}
	for _, k := range slices.Sorted(maps.Keys(counts)) {
		share := float64(counts[k]) / float64(all)
		out += fmt.Sprintf("%+4d %5d %5.1f %% %s\n", k, counts[k], 100*share, strings.Repeat("#", int(math.Ceil(50*share))))
	}
	return out
}

// A floor of 70 planks from boxes of 8: nine hold it, ten hold the reserve too, and the rule of thumb buys ten.
func TestThumbTally(t *testing.T) {
	job := metric(1220*measure.Millimetre, 180*measure.Millimetre, cutopt.Room{Name: "Room"})
	job.Box.Planks, job.Rules.Loss, job.Rules.RiskLimit = 8, 2, 2
	var c thumbTally
	c.add(t, job, &cutopt.Plan{Order: cutopt.Order{Planks: 72, Fewest: 70, Boxes: 10, ThumbBoxes: 10}})
	if c.held[1] != 1 || c.bought[0] != 1 {
		t.Errorf("beyond those that hold the floor %v, beyond those bought %v; want +1 and +0", c.held, c.bought)
	}
	const row = "    1 100.0 % ##################################################\n"
	if text := c.String(); !strings.Contains(text, "  +1 "+row) || !strings.Contains(text, "  +0 "+row) {
		t.Errorf("%s", text)
	}
}

func readRealRooms(t *testing.T, folder string) []realRoom {
	files, err := filepath.Glob(filepath.Join(folder, "*.jsonl"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no *.jsonl in %s", folder)
	}
	var out []realRoom
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(f)
		lines.Buffer(nil, 1<<24)
		for lines.Scan() {
			var r realRoom
			if err := json.Unmarshal(lines.Bytes(), &r); err != nil {
				t.Fatal(err)
			}
			out = append(out, r)
		}
		if err := lines.Err(); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
	if len(out) == 0 {
		t.Fatalf("no rooms in %s", folder)
	}
	t.Logf("%d rooms", len(out))
	return out
}

func realJob(room realRoom, size [2]measure.Length) *cutopt.Job {
	ring := func(points [][2]float64) []cutopt.Point {
		var out []cutopt.Point
		for _, p := range points[:len(points)-1] {
			out = append(out, cutopt.Point{
				X: measure.Length(math.Round((p[0] - room.Outer[0][0]) * float64(measure.Metre))),
				Y: measure.Length(math.Round((p[1] - room.Outer[0][1]) * float64(measure.Metre))),
			})
		}
		return out
	}
	r := cutopt.Room{Name: "room", Outline: ring(room.Outer)}
	for _, h := range room.Holes {
		r.Islands = append(r.Islands, cutopt.Island{Outline: ring(h)})
	}
	return &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: size[0], Width: size[1]}, Box: cutopt.Box{Planks: 10},
		Rules: oracle.Rules(measure.UnitInch), Rooms: []cutopt.Room{r},
	}
}
