package room_test

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"

	"roomful"
	"roomful/room"
	"roomful/sim"
)

// listening notes what is done instead in the forecasts that are asked for.
type listening struct {
	roomful.Forecaster
	mu    sync.Mutex
	bikes []roomful.Task
}

func (l *listening) Forecast(ctx context.Context, r roomful.ForecastRequest) (roomful.Forecast, error) {
	l.mu.Lock()
	for _, e := range r.Entrants {
		for _, t := range e.Work.All() {
			if t.Movement == "bike" {
				l.bikes = append(l.bikes, t)
			}
		}
	}
	l.mu.Unlock()
	return l.Forecaster.Forecast(ctx, r)
}

// class8 is eight people on four rowers, with bikes for those whom the question of who
// goes where is about: the third and the sixth keep their effort on 500 m of them, the
// others are given far too much.
func class8(t *testing.T, bikes int) (room.Request, *listening) {
	t.Helper()
	hears := &listening{Forecaster: sim.New(lexicon)}
	q := ask(t, "Rowing\n2027-03-04, 60 min\nmain: every minute x 12\n  1: 200 m row\n  2: 12 push-ups\n", 8, hears)
	q.Pieces[0].Effort = roomful.Effort{Low: 11, High: 12, Unit: "rounds"}
	for i := range q.Pieces[0].Entrants {
		q.Pieces[0].Entrants[i].Abilities = able(i)
	}
	fit := []string{q.Pieces[0].Entrants[2].ID, q.Pieces[0].Entrants[5].ID}
	q.Kit = &roomful.Kit{Stations: map[string]int{"row": 4, "bike": bikes}}
	q.Else = func(id string, _ roomful.Task) []roomful.Choice {
		c := roomful.Choice{Task: roomful.Task{Movement: "bike", Amount: 3000, Unit: roomful.Metre}}
		if slices.Contains(fit, id) {
			c.Amount = 300
		}
		return []roomful.Choice{c}
	}
	return q, hears
}

// moves returns the remedies that send people to the bikes.
func moves(t *testing.T, q room.Request) (out []roomful.Fix) {
	t.Helper()
	h, err := room.Plan(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range h.Fixes {
		if strings.Contains(f.What, "on bike instead of the row") {
			out = append(out, f)
		}
	}
	if len(out) == 0 {
		t.Fatalf("nobody is sent to the bikes: %+v", h.Fixes)
	}
	return out
}

// TestWhoLeaves sends those from the rowers who keep their effort elsewhere, wherever
// they stand on the list, and only as many as there are bikes; and names those who do
// not keep it.
func TestWhoLeaves(t *testing.T) {
	q, _ := class8(t, 2)
	fit := []string{q.Pieces[0].Entrants[2].Name, q.Pieces[0].Entrants[5].Name}
	for _, f := range moves(t, q) {
		if len(f.Touches) > 2 {
			t.Errorf("%d go to 2 bikes", len(f.Touches))
		}
		for _, name := range f.Touches {
			if !slices.Contains(fit, name) {
				t.Errorf("%s leaves, want %v", name, fit)
			}
		}
		if strings.Contains(f.Why, "less likely") {
			t.Errorf("all keep their effort, but: %s", f.Why)
		}
	}
	q, _ = class8(t, 8)
	for _, f := range moves(t, q) {
		_, less, said := strings.Cut(f.Why, "; less likely to keep the effort: ")
		if said != (len(f.Touches) > 2) {
			t.Errorf("%d leave: %q", len(f.Touches), f.Why)
		}
		for _, name := range fit {
			if strings.Contains(less, name) || !slices.Contains(f.Touches, name) {
				t.Errorf("%s: %v leave, %q", name, f.Touches, f.Why)
			}
		}
	}
}

// TestLeavesInTurn has whoever leaves do it when they would have rowed: not in every
// minute.
func TestLeavesInTurn(t *testing.T) {
	q, hears := class8(t, 8)
	moves(t, q)
	for _, b := range hears.bikes {
		if b.Slot != 1 {
			t.Fatalf("the bike comes in minute %d, want the row's: 1", b.Slot)
		}
	}
}
