package main

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"sync/atomic"
	"time"
)

// pace is how often pages are asked for, and for how long.
type pace struct {
	rate    int // a second, all kinds together
	seconds int
}

// mostUnderWay is how many pages are waited for at most: a server that is so far behind has
// failed.
const mostUnderWay = 500

// ask asks for pages at a steady rate, each kind as often, whether those before were
// answered or not: an open loop, in which whoever comes while the server is slow waits as
// long as they would. A page is timed from when it was due.
func (p pace) ask(pages []page, accept string) ([]times, error) {
	var mu sync.Mutex
	took, failed := make([]times, len(pages)), error(nil)
	var under atomic.Int64
	var all sync.WaitGroup
	began, every := time.Now(), time.Second/time.Duration(p.rate)
	order := rand.Perm(len(pages))
	for n := range p.rate * p.seconds {
		due := began.Add(time.Duration(n) * every)
		time.Sleep(time.Until(due))
		if under.Add(1) > mostUnderWay {
			return nil, fmt.Errorf("%d pages are waited for", mostUnderWay)
		}
		if n%len(pages) == 0 {
			rand.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		}
		kind := order[n%len(pages)]
		all.Go(func() {
			defer under.Add(-1)
			_, err := pages[kind].who().get(pages[kind].path(), accept)
			mu.Lock()
			defer mu.Unlock()
			took[kind] = append(took[kind], time.Since(due))
			failed = errors.Join(failed, err)
		})
	}
	all.Wait()
	for _, t := range took {
		slices.Sort(t)
	}
	return took, failed
}

// times are how long pages took, the quickest first.
type times []time.Duration

// String tells the middle and the slow end.
func (t times) String() string {
	at := func(share int) float64 { return float64(t[len(t)*share/100].Microseconds()) / 1000 }
	return fmt.Sprintf("%6.1f ms in the middle, %.1f ms at the 95th of a hundred, %.1f ms at the 99th, %.1f ms at most, of %d", at(50), at(95), at(99),
		float64(t[len(t)-1].Microseconds())/1000, len(t))
}
