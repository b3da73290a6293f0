package strips

import "context"

// A poll asks a context now and then whether to go on.
type poll struct {
	ctx   context.Context
	steps int
}

// spend counts steps and returns the error of a context that has ended, which it asks every few thousand of them.
func (p *poll) spend(steps int) error {
	if p.steps += steps; p.steps < 1<<14 {
		return nil
	}
	p.steps = 0
	return p.ctx.Err()
}
