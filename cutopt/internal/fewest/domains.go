package fewest

import (
	"sync"

	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/measure"
)

// domains are the starters that walks over all runs may take, each made once a walk wants it and kept.
type domains struct {
	coarse, fine making // a lattice of about 192 steps to a plank, and the grid
	nearest      []making
	nearestAt    int64 // work of the bound when these were made
}

type making func() *search.Domain

func (s *solver) newDomains() domains {
	on := func(step measure.Length) making {
		return sync.OnceValue(func() *search.Domain {
			return search.NewDomain(s.table, search.Lattice(s.table, step))
		})
	}
	return domains{coarse: on(s.lattice(192)), fine: on(s.table.Instance.Grid)}
}

// near are the starters near the best prices: many of layouts that cost next to nothing more than the bound, and few of
// those that cost more.
func (s *solver) near() []making {
	if s.nearest == nil || s.nearestAt != s.root.Work() {
		reach := s.root.Reach() // at once, since it counts as work
		within := func(slack float64, most int) making {
			return sync.OnceValue(func() *search.Domain { return search.NewDomain(s.table, reach.Near(slack, most)) })
		}
		s.nearest, s.nearestAt = []making{within(0.02, 12), within(0.1, 6)}, s.root.Work()
	}
	return s.nearest
}

// lattice returns a multiple of the grid that divides a plank into about n parts.
func (s *solver) lattice(n int) measure.Length {
	in := s.table.Instance
	return max(in.Plank/(in.Grid*measure.Length(n)), 1) * in.Grid
}
