package account

import (
	"sync"
	"time"

	"github.com/go-webauthn/webauthn/webauthn"
)

// How long somebody may take to unlock a device and touch it, and how many may be at it
// at a time, so that memory stays bounded (judgement).
const (
	ceremonyFor    = 5 * time.Minute
	mostCeremonies = 10_000
)

// Ceremonies are the makings and uses of passkeys that have begun and not ended. Each
// ends once, at the server where it began: several servers behind one address have to
// keep a visitor on one of them, or the visitor begins again. The zero value is ready.
type Ceremonies struct {
	mu    sync.Mutex
	begun map[string]ceremony // by challenge
	order []string            // the oldest first
}

// ceremony is one that has begun.
type ceremony struct {
	session webauthn.SessionData
	until   time.Time
}

// begin remembers a ceremony; the oldest is forgotten for it when there are too many.
func (c *Ceremonies) begin(session webauthn.SessionData, now time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.begun == nil {
		c.begun = map[string]ceremony{}
	}
	for len(c.order) > 0 && (len(c.order) >= mostCeremonies || c.over(c.order[0], now)) {
		delete(c.begun, c.order[0])
		c.order = c.order[1:]
	}
	c.begun[session.Challenge] = ceremony{session, now.Add(ceremonyFor)}
	c.order = append(c.order, session.Challenge)
}

// over reports whether a ceremony has ended or has taken too long.
func (c *Ceremonies) over(challenge string, now time.Time) bool {
	one, ok := c.begun[challenge]
	return !ok || one.until.Before(now)
}

// end takes a ceremony out: a second end finds nothing.
func (c *Ceremonies) end(challenge string, now time.Time) (webauthn.SessionData, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	over := c.over(challenge, now)
	session := c.begun[challenge].session
	delete(c.begun, challenge)
	return session, !over
}
