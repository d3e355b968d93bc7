package room

import (
	"context"
	"fmt"
	"time"

	"roomful"
)

// freeRuns is how often a piece is simulated with enough of everything: what people
// take on average counts, and there are many of them.
const freeRuns = 8

// uses says how the places that run short in a piece are used, and how much is asked
// of them.
func (h *house) uses(ctx context.Context, p Piece) ([]roomful.PieceUse, error) {
	o := h.goes[p.Name()]
	places := o.places()
	if len(places) == 0 {
		return nil, nil
	}
	free := *h
	free.Kit, free.Runs = nil, min(h.Runs, freeRuns)
	f, err := free.Forecaster.Forecast(ctx, free.request(p))
	if err != nil {
		return nil, fmt.Errorf("forecasting %s with enough of everything: %w", p.Name(), err)
	}
	var out []roomful.PieceUse
	for _, place := range places {
		use := roomful.PieceUse{Part: p.Name(), PlaceForecast: place}
		for n := range o.heats {
			one := p
			one.Entrants = share(p.Entrants, n, o.heats, p.Team.Size)
			free := share(f.Athletes, n, o.heats, p.Team.Size)
			use.Load = max(use.Load, h.load(one, place.Place, free, o.after(spot{wave: o.waves - 1})))
		}
		out = append(out, use)
	}
	return out, nil
}

// load returns how much of what the places of a kind can give is asked of them by
// people who never wait: what they would spend there, over how long the places are
// there until the last are done, who start so much later. Above 1 they cannot all go
// without waiting, whatever the order. Clocks, rests and ladders are in what they
// would spend.
func (h *house) load(p Piece, place roomful.Place, free []roomful.AthleteForecast, later time.Duration) float64 {
	team := max(1, p.Team.Size)
	spent, length := 0.0, p.Format.Length(len(p.Round))
	for i, a := range free {
		length = max(length, seconds(a.Seconds.P50))
		if i%team > 0 && p.Team.Style != roomful.Synchronised || a.Cannot > 0 {
			continue // partners take a place between them; what never ends would swallow all others
		}
		for k, t := range p.Entrants[i].Work.All() {
			if k < len(a.Elements) {
				spent += a.Elements[k].Times * a.Elements[k].Seconds * float64(h.takes(t, place))
			}
		}
	}
	if length <= 0 {
		return 0
	}
	return spent / (float64(place.Count) * (length + later).Seconds())
}

// takes returns how many places of a kind a task takes, at most all there are.
func (h *house) takes(t roomful.Task, place roomful.Place) (n int) {
	if m := h.Lexicon.Movement(t.Movement); m != nil {
		for _, p := range h.Kit.Places(m, t) {
			if p.Word == place.Word {
				n += p.Count
			}
		}
	}
	return min(n, place.Count)
}
