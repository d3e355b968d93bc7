package infer

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"

	"roomful"
)

// Result is one logged attempt: what was done and what came of it.
type Result struct {
	Title string // of the sheet; names the result among what informed a capacity
	On    roomful.Date
	roomful.Done
}

// label names the result where a capacity says what informed it.
func (r *Result) label() string {
	switch on := r.On.String(); {
	case on == "":
		return r.Title
	case r.Title == "":
		return on
	default:
		return r.Title + ", " + on
	}
}

// capless returns the piece without its time cap: an emulator of the whole
// time says of every cap how likely it was met.
func (r *Result) capless() roomful.Part {
	p := r.Piece
	if f, ok := p.Format.(roomful.ForTime); ok {
		f.Cap = 0
		p.Format = f
	}
	return p
}

// entrant returns somebody with these abilities about to do what was done.
func (r *Result) entrant(id string, a *roomful.Abilities) roomful.Entrant {
	return roomful.Entrant{ID: id, Abilities: a, Work: r.Work, Lead: r.Lead, Dose: r.Dose, Segments: r.Segments}
}

// task returns a task without its load, which is an input.
func task(t roomful.Task) any {
	loaded := t.Load.Value > 0
	t.Load = roomful.Mass{}
	return []any{t, loaded}
}

// tasks returns the tasks of a work without their loads.
func tasks(w roomful.Work) []any {
	out := []any{len(w.Once), len(w.Round)}
	for _, t := range w.All() {
		out = append(out, task(t))
	}
	return out
}

// Structure returns a key that results share when one emulator serves them:
// everything about what was done but loads, the person, the cap and the day.
func (r *Result) Structure() string {
	p := r.capless()
	parts := []any{p.Format.Name(), p.Format, p.Team, p.ScoreBy}
	for _, es := range [][]roomful.Element{p.Once, p.Round, p.Last} {
		for _, e := range es {
			parts = append(parts, e.Movement, e.Amount, e.Slot)
		}
		parts = append(parts, "")
	}
	for i, p := range r.Before {
		parts = append(parts, p.Format.Name(), p.Format, p.Team, r.Lead[min(i, len(r.Lead)-1)])
	}
	d := r.Dose
	parts = append(parts, tasks(r.Work), d.StopAt, d.Rounds, d.Ladder, d.Work, d.Steady)
	for _, s := range r.Segments {
		parts = append(parts, s.From, tasks(s.Work))
	}
	text, err := json.Marshal(parts)
	if err != nil { // only a figure that is no number; such a result stands alone
		text = []byte(err.Error())
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:8])
}

// weeks returns how many whole weeks before a day the result is, 0 when either
// date is not known.
func (r *Result) weeks(today roomful.Date) int {
	if r.On.IsZero() || today.IsZero() {
		return 0
	}
	return max(0, today.Days(r.On)/7)
}
