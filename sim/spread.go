package sim

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// spread has jobs done, each by its number, by so many workers at once, 0 for as many as
// there are processors. Each worker begins once, and so can have memory of its own.
func spread(jobs, workers int, begin func() (do func(job int))) {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	workers = min(workers, jobs)
	var next atomic.Int64
	work := func() {
		do := begin()
		for {
			j := int(next.Add(1)) - 1
			if j >= jobs {
				return
			}
			do(j)
		}
	}
	if workers == 1 {
		work()
		return
	}
	var wg sync.WaitGroup
	for range workers {
		wg.Go(work)
	}
	wg.Wait()
}
