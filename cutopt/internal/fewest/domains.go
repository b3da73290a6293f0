package fewest

import (
	"sync"

	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/measure"
)

// domains are the starters that walks over all runs may take, each made once a walk wants it and kept, but for those
// that take much memory.
type domains struct {
	coarse, fine making // a lattice of about 192 steps to a plank, and the grid
	nearest      []making
	nearestAt    int64 // work of the bound when these were made
}

type making func() *search.Domain

// mostKept is the most starters of a domain that is kept, of all lengths or runs that have lists of their own.
const mostKept = 1_000_000

// kept makes a domain of about so many starters once, or each time where they are too many to keep.
func kept(starters int, build making) making {
	if starters > mostKept {
		return build
	}
	return sync.OnceValue(build)
}

func (s *solver) newDomains() domains {
	in := s.table.Instance
	on := func(step measure.Length) making {
		return kept(len(s.table.Classes)*int(in.Plank/step), func() *search.Domain {
			return search.NewDomain(s.table, search.Lattice(s.table, step))
		})
	}
	return domains{coarse: on(s.lattice(192)), fine: on(in.Grid)}
}

// near are the starters near the best prices: many of layouts that cost next to nothing more than the bound, and few of
// those that cost more.
func (s *solver) near() []making {
	if s.nearest != nil && s.nearestAt == s.root.Work() {
		return s.nearest
	}
	s.nearest = nil
	reach := s.root.Reach() // at once, since it counts as work
	within := func(slack float64, most int) making {
		return kept(reach.Size(), func() *search.Domain { return search.NewDomain(s.table, reach.Near(slack, most)) })
	}
	out := []making{within(0.02, 12), within(0.1, 6)}
	if reach.Size() <= mostKept {
		s.nearest, s.nearestAt = out, s.root.Work()
	}
	return out
}

// lattice returns a multiple of the grid that divides a plank into about n parts.
func (s *solver) lattice(n int) measure.Length {
	in := s.table.Instance
	return max(in.Plank/(in.Grid*measure.Length(n)), 1) * in.Grid
}
