// Package pool shares independent pieces of work among goroutines.
package pool

import (
	"sync"
	"sync/atomic"
)

// Each calls work for 0 … n-1 from at most the given number of goroutines, begun in that order, and returns when all
// are done. With one worker or none it calls them one after the other from its own goroutine. What a call does must not
// depend on the others, so that the number of workers changes the time alone.
func Each(n, workers int, work func(k int)) {
	if workers <= 1 || n <= 1 {
		for k := range n {
			work(k)
		}
		return
	}
	var next atomic.Int64
	var group sync.WaitGroup
	for range min(workers, n) {
		group.Go(func() {
			for k := int(next.Add(1)) - 1; k < n; k = int(next.Add(1)) - 1 {
				work(k)
			}
		})
	}
	group.Wait()
}
