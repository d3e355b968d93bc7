package account

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// How often somebody may fail to come in (judgement): a few times at once, then once
// every ten seconds; and how many are remembered, so that memory stays bounded.
const (
	failsAtOnce = 5
	failsEvery  = 10 * time.Second
	mostPaced   = 10_000
)

// Pace slows down those who fail to come in again and again, by whatever names they go:
// an address, an account. A whole class that comes in at once by one address is not
// slowed down.
type Pace struct {
	mu    sync.Mutex
	seen  map[string]*rate.Limiter
	under map[string]int // tries that are under way
}

// Begin is Allow for a try that takes long. Until its End it counts as failed, so that
// many at once are not all allowed.
func (p *Pace) Begin(now time.Time, names ...string) bool {
	if !p.Allow(now, names...) {
		return false
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, name := range names {
		if left := p.left(now, name); left < 1 {
			return false
		}
	}
	if p.under == nil {
		p.under = map[string]int{}
	}
	for _, name := range names {
		p.under[name]++
	}
	return true
}

// left is how many more tries a name has, without those under way.
func (p *Pace) left(now time.Time, name string) float64 {
	left := float64(failsAtOnce)
	if l := p.seen[name]; l != nil {
		left = l.TokensAt(now)
	}
	return left - float64(p.under[name])
}

// End ends a try that Begin has allowed.
func (p *Pace) End(now time.Time, failed bool, names ...string) {
	p.mu.Lock()
	for _, name := range names {
		if p.under[name]--; p.under[name] <= 0 {
			delete(p.under, name)
		}
	}
	p.mu.Unlock()
	if failed {
		p.Failed(now, names...)
	}
}

// Allow reports whether another try is in order now, by all of the names.
func (p *Pace) Allow(now time.Time, names ...string) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, name := range names {
		if l := p.seen[name]; l != nil && l.TokensAt(now) < 1 || l == nil && len(p.seen) >= mostPaced {
			return false // too often, or too many at once fail too often
		}
	}
	return true
}

// Failed counts a try that failed, for each of the names.
func (p *Pace) Failed(now time.Time, names ...string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.seen == nil {
		p.seen = map[string]*rate.Limiter{}
	}
	for _, name := range names {
		if p.seen[name] == nil && len(p.seen) >= mostPaced {
			p.forget(now)
		}
		if p.seen[name] == nil && len(p.seen) < mostPaced {
			p.seen[name] = rate.NewLimiter(rate.Every(failsEvery), failsAtOnce)
		}
		if l := p.seen[name]; l != nil {
			l.AllowN(now, 1)
		}
	}
}

// forget lets go of those who have not failed for so long that they are as if new.
func (p *Pace) forget(now time.Time) {
	for name, l := range p.seen {
		if l.TokensAt(now) >= failsAtOnce {
			delete(p.seen, name)
		}
	}
}
