package solve_test

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestBeyondReckoning: an order of more area than can be said, 10,080 planks of a square kilometre, is refused.
func TestBeyondReckoning(t *testing.T) {
	job := oracle.SmallRoom(rand.New(rand.NewPCG(1, 96)))
	job.Plank.Length, job.Plank.Width = cutopt.MaxLength, cutopt.MaxLength
	job.Box, job.Spare = cutopt.Box{Planks: 80}, cutopt.Spare{Planks: 10_000}
	_, err := solve.Job(t.Context(), job, nil)
	var field *cutopt.FieldError
	if !errors.As(err, &field) || field.Field != "plank" || !errors.Is(err, cutopt.ErrTooLarge) {
		t.Error(err)
	}
}

// TestContinueContradictions: marks that contradict the plan, the job or each other are refused with the field, the
// rule and what to do.
func TestContinueContradictions(t *testing.T) {
	job := oracle.SmallRoom(rand.New(rand.NewPCG(1, 96)))
	first, err := solve.Job(t.Context(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	good := lay(job, first.Plan, len(inOrder(first.Plan))/2)
	refs := inOrder(good)
	lying := func(p *cutopt.Plan) *cutopt.Piece { return p.Piece(refs[0]) }
	shared := func(p *cutopt.Plan) *cutopt.PlankUse { return &p.Planks[lying(p).Plank-1] }
	for _, c := range []struct {
		why, field string
		spoil      func(*cutopt.Plan)
	}{
		{"what lies is lost", "plan.planks", func(p *cutopt.Plan) {
			shared(p).Gone = []cutopt.Leftover{{To: job.Plank.Length, Ends: cutopt.EndsBoth}}
		}},
		{"two losses overlap", "plan.planks", func(p *cutopt.Plan) {
			p.Planks[len(p.Planks)-1].Gone = []cutopt.Leftover{{From: 10, To: 900}, {From: 100, To: 1000}}
		}},
		{"more of a plank is gone than there was", "plan.planks", func(p *cutopt.Plan) {
			p.Planks[len(p.Planks)-1].Gone = []cutopt.Leftover{{From: 0, To: job.Plank.Length + 1}}
		}},
		{"a piece that lies is longer than a plank", "plan.planks", func(p *cutopt.Plan) {
			lying(p).Length += job.Plank.Length
		}},
		{"a piece lies where none before it does", "plan.floors[1].rows", func(p *cutopt.Plan) {
			p.Piece(refs[1]).Lies = true
			lying(p).Lies = false
		}},
		{"a gap between pieces that lie", "plan.floors[1].rows", func(p *cutopt.Plan) {
			q := p.Piece(refs[1])
			q.From, q.To = q.From+5, q.To+5
		}},
		{"a piece of no plank", "plan.planks", func(p *cutopt.Plan) { lying(p).Plank = 0 }},
		{"a piece of a plank that does not list it", "plan.planks", func(p *cutopt.Plan) {
			lying(p).Plank = len(p.Planks) + 1
		}},
		{"a plank lists a piece that is not there", "plan.planks", func(p *cutopt.Plan) { p.Planks[0].Pieces[0].Row = 999 }},
		{"more planks here than came", "plan.site.here", func(p *cutopt.Plan) { p.Site.Here[0].Planks++ }},
		{"fewer than none here", "plan.site.here[1]", func(p *cutopt.Plan) { p.Site.Here[0].Planks = -1 }},
		{"more in boxes than there are", "plan.site.here[1]", func(p *cutopt.Plan) { p.Site.Here[0].Boxes = 1000 }},
		{"more boxes bought than planks can be counted of", "plan.order.boxes", func(p *cutopt.Plan) {
			p.Site, p.Order.Boxes = nil, 1<<53
		}},
		{"more boxes bought, and planks brought to match", "plan.site.bought", func(p *cutopt.Plan) {
			p.Site.Bought, p.Site.Brought = 1<<60, p.Site.Bought*p.Order.PlanksPerBox
		}},
		{"fewer boxes bought than none, and planks brought to match", "plan.site.bought", func(p *cutopt.Plan) {
			p.Site.Brought, p.Site.Bought = (p.Site.Bought+1)*p.Order.PlanksPerBox, -1
		}},
		{"a first piece without the factory end that joins", "plan.floors[1].rows", func(p *cutopt.Plan) {
			lying(p).Ends = cutopt.EndsNone
		}},
		{"a piece as it comes longer than a plank", "plan.floors[1].rows", func(p *cutopt.Plan) {
			lying(p).AsItComes = job.Plank.Length + 1
		}},
		{"a plank opened of which all is there", "plan.planks", func(p *cutopt.Plan) {
			p.Planks[len(p.Planks)-1].Opened = true
		}},
		{"a lost plank without its factory ends", "plan.planks", func(p *cutopt.Plan) {
			p.Planks[len(p.Planks)-1].Gone = []cutopt.Leftover{{To: job.Plank.Length}}
		}},
		{"other rows lie than the job has", "plan.floors[1].rows[", func(p *cutopt.Plan) {
			p.Floors[0].Rows[0].To -= measure.Inch
		}},
		{"a plan of another job", "plan.floors", func(p *cutopt.Plan) { p.Floors = append(p.Floors, p.Floors[0]) }},
	} {
		marked := good.Clone()
		c.spoil(marked)
		_, err := solve.Continue(t.Context(), job, marked, nil)
		var field *cutopt.FieldError
		switch {
		case !errors.As(err, &field):
			t.Errorf("%s: %v", c.why, err)
		case !strings.HasPrefix(field.Field, c.field) || field.Rule == "" || field.Mend == "":
			t.Errorf("%s: %q: %v", c.why, field.Field, err)
		}
	}
	if _, err := solve.Continue(t.Context(), job, nil, nil); err == nil {
		t.Error("no plan to go on from")
	}
	if _, err := solve.Continue(t.Context(), job, good, nil); err != nil {
		t.Error(err)
	}
}
