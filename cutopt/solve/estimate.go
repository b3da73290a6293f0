package solve

import (
	"fmt"
	"math"

	"plank.example/cutopt"
)

// An Estimate says how large a job is, from the outlines and the plank alone.
type Estimate struct {
	Planks int64 // that have the area of the floor: no plan needs fewer, but for what gaps and trim hide
	Rows   int64 // about so many rows of all rooms together
	Pieces int64 // about so many pieces of planks
}

// EstimateOf estimates the work of a job before anything is laid out: time and memory of [Job] are about linear in
// Pieces and in the search, whose steps Options.Effort bounds. The error is that of Validate. It takes a pass over the
// corners.
func EstimateOf(job *cutopt.Job) (Estimate, error) {
	if err := job.Validate(); err != nil {
		return Estimate{}, err
	}
	return estimate(job), nil
}

func estimate(job *cutopt.Job) Estimate {
	var e Estimate
	plank := float64(job.Plank.Length) * float64(job.Plank.Width)
	for i := range job.Rooms {
		outline := job.Rooms[i].Outline
		twice := math.Abs(twiceArea(outline))
		for k := range job.Rooms[i].Islands {
			twice -= math.Abs(twiceArea(job.Rooms[i].Islands[k].Outline))
		}
		longest := 0.0 // wall
		for k, p := range outline {
			q := outline[(k+1)%len(outline)]
			longest = max(longest, math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)))
		}
		planks := max(twice, 0) / 2 / plank
		across := max(twice, 0) / 2 / longest // of a rectangle with its rows along the longest wall
		rows := math.Ceil(across / float64(job.Plank.Width))
		e.Planks, e.Rows, e.Pieces = e.Planks+int64(planks), e.Rows+int64(rows), e.Pieces+int64(planks+rows)+1
	}
	return e
}

// twiceArea returns twice the area within a ring, negative for one that runs clockwise, to the precision of an
// estimate.
func twiceArea(ring []cutopt.Point) float64 {
	sum := 0.0
	for i, p := range ring {
		q, o := ring[(i+1)%len(ring)], ring[0]
		sum += float64(float64(p.X-o.X)*float64(q.Y-o.Y)) - float64(float64(p.Y-o.Y)*float64(q.X-o.X))
	}
	return sum
}

// affordable returns an error for a job that takes far more pieces than a plan may have.
func affordable(job *cutopt.Job) error {
	e := estimate(job)
	if e.Pieces <= cutopt.MaxPieces*5/4 { // what gaps and trim hide is far less
		return nil
	}
	return &cutopt.FieldError{
		Field: "rooms", Value: fmt.Sprintf("floor for about %d pieces", e.Pieces), Rule: fmt.Sprintf("a plan has at most "+
			"%d pieces", cutopt.MaxPieces),
		Mend: "check the sizes and the unit, or plan the floors in several jobs", Err: cutopt.ErrTooLarge,
	}
}
