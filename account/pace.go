package account

import (
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// How often somebody may try to come in (judgement): a few times at once, then once
// every ten seconds; and how many are remembered, so that memory stays bounded.
const (
	triesAtOnce = 5
	triesEvery  = 10 * time.Second
	mostPaced   = 10_000
)

// Pace slows down those who try to come in again and again, by address and by account.
type Pace struct {
	mu   sync.Mutex
	seen map[string]*rate.Limiter
}

// Allow reports whether another try is in order now by any of the names it goes by; it
// counts for each.
func (p *Pace) Allow(now time.Time, names ...string) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.seen == nil {
		p.seen = map[string]*rate.Limiter{}
	}
	if len(p.seen)+len(names) > mostPaced {
		for name, l := range p.seen {
			if l.TokensAt(now) >= triesAtOnce { // as if never seen
				delete(p.seen, name)
			}
		}
	}
	ok := true
	for _, name := range names {
		l := p.seen[name]
		if l == nil {
			if len(p.seen) >= mostPaced {
				return false // too many at once try too often
			}
			l = rate.NewLimiter(rate.Every(triesEvery), triesAtOnce)
			p.seen[name] = l
		}
		ok = l.AllowN(now, 1) && ok
	}
	return ok
}
