package cut

import (
	"context"

	"plank.example/cutopt/stock"
)

// RefuteByShortlist tries to refute that a job can be cut for at most so much, by nothing but a shortlist.
func RefuteByShortlist(job *stock.Job, most int64) *stock.Refutation {
	r := newRun(newKinds(job).engine(job, &meter{ctx: context.Background(), budget: 1e9}, 0))
	r.aimAt = most
	m := r.master()
	l, ok := m.finish()
	if !ok {
		return nil
	}
	s := newShortlist(m, l, most)
	if s == nil {
		return nil
	}
	n := l.node()
	if n.Shortlist = s.close(); n.Shortlist == nil {
		return nil
	}
	return &stock.Refutation{Claim: r.e.claim(most), Root: n}
}
