package desk

import (
	"context"
	"crypto/sha256"

	"roomful"
	"roomful/store"
)

// session is a sheet as it was read.
type session struct {
	roomful.Session
	faults int
}

// sheetKey is a text, and what it was read by: settings decide which effort is proposed.
type sheetKey struct{ text, settings [sha256.Size]byte }

// mostSessions is how many sheets are held as they were read: the days of some years. One
// takes ten kilobytes.
const mostSessions = 2000

// Session reads a sheet as far as it can be read, and says how many faults it has.
func (g *Gym) Session(ctx context.Context, sheet store.Document) (roomful.Session, int) {
	return g.session(ctx, sheet.Text, true)
}

// session reads a text, and holds it as it was read when asked.
func (g *Gym) session(ctx context.Context, text string, hold bool) (roomful.Session, int) {
	d, key := g.desk, sheetKey{sha256.Sum256([]byte(text)), g.base.settings}
	d.mu.Lock()
	one, known := d.sessions[key]
	d.mu.Unlock()
	if known {
		return one.Session, one.faults
	}
	read, ds := g.Check(ctx, text)
	one.Session, one.faults = read, faults(ds)
	if ctx.Err() != nil || !hold {
		return one.Session, one.faults // the effort may not have been worked out: not to be held
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.sessions) >= mostSessions {
		clear(d.sessions)
	}
	d.sessions[key] = one
	return one.Session, one.faults
}
