package pool_test

import (
	"sync/atomic"
	"testing"

	"plank.example/cutopt/internal/pool"
)

// TestEach calls every piece of work once, whatever the workers, and no more of them at once than asked for.
func TestEach(t *testing.T) {
	for _, c := range []struct{ n, workers, atOnce int }{
		{0, 4, 0}, {1, 4, 1}, {7, 0, 1}, {7, -3, 1}, {7, 1, 1}, {1000, 3, 3}, {3, 1000, 3},
	} {
		var now, most atomic.Int64
		calls := make([]atomic.Int64, c.n)
		pool.Each(c.n, c.workers, func(k int) {
			for n, m := now.Add(1), most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
			}
			calls[k].Add(1)
			now.Add(-1)
		})
		for k := range calls {
			if n := calls[k].Load(); n != 1 {
				t.Errorf("%d pieces, %d workers: piece %d was called %d times", c.n, c.workers, k, n)
			}
		}
		if most.Load() > int64(c.atOnce) {
			t.Errorf("%d pieces, %d workers: %d at once, want at most %d", c.n, c.workers, most.Load(), c.atOnce)
		}
	}
}
