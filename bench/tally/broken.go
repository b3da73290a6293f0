package tally

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"plank.example/bench/trial"
)

// ErrBroken is wrapped by Broken.
var ErrBroken = errors.New("answers do not hold")

// first is the first broken answer of a strategy that this process has seen.
type first struct {
	seed uint64
	note string
}

// Broken names every strategy with answers that did not hold, how many, and the first of them where this process has
// seen it; the errors wrap ErrBroken. It is nil where there is none.
func (s *Summary) Broken() error {
	counts := make(map[string]int64)
	rooms := make(map[string]int64)
	for text, c := range s.Cells {
		if key, err := ParseKey(text); err == nil && key.Group == "all" {
			counts[key.Strategy] += c.Outcomes[trial.Broken]
			rooms[key.Strategy] += c.Rooms
		}
	}
	var errs []error
	for _, name := range slices.Sorted(maps.Keys(counts)) {
		if n := counts[name]; n > 0 {
			err := fmt.Errorf("%s: %d of %d %w", name, n, rooms[name], ErrBroken)
			if f, ok := s.broken[name]; ok {
				err = fmt.Errorf("%w; the first, of seed %d: %s", err, f.seed, f.note)
			}
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

func (s *Summary) note(r *trial.Record) {
	if r.Outcome != trial.Broken {
		return
	}
	if _, ok := s.broken[r.Strategy]; !ok {
		if s.broken == nil {
			s.broken = make(map[string]first)
		}
		s.broken[r.Strategy] = first{r.Seed, r.Note}
	}
}
