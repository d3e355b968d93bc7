package desk_test

import (
	"encoding/json"
	"errors"
	"testing"

	"roomful/desk"
	"roomful/exchange"
	"roomful/store"
)

// heavy is how heavy somebody goes, as the web would say it.
func heavy(t *testing.T, d *desk.Desk, a desk.Ask, of desk.HowHeavy) string {
	t.Helper()
	who, got, err := d.OwnLoad(ctx, a, of)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(exchange.OwnLoadOf(got.Piece, got.OwnLoad, who.Unit))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// TestOwnLoad says how heavy from what is kept until something changes that it rests on,
// and then what a desk says that was never asked before.
func TestOwnLoad(t *testing.T) {
	p := newShop(t).open(t)
	a, of := p.asks()[0], desk.HowHeavy{Who: "mo", Set: "5x50kg"}
	first := heavy(t, p.desk, a, of)
	asked := p.asked.Load()
	if again := heavy(t, p.desk, a, of); again != first || p.asked.Load() != asked {
		t.Errorf("asked again it is worked out again: %s", again)
	}
	if other := heavy(t, p.desk, a, desk.HowHeavy{Who: "mo", Set: "5x90kg"}); other == first {
		t.Errorf("after another set it is the same: %s", other)
	}
	p.change(steps["somebody is sore"].do(p, 3))
	got, want := heavy(t, p.desk, a, of), heavy(t, desk.New(p.day, p.store), a, of)
	if got != want || got == first {
		t.Errorf("with a sore back it is\n%s, not\n%s", got, want)
	}
	for _, c := range []struct {
		of   desk.HowHeavy
		hint bool
	}{{desk.HowHeavy{Who: "nobody"}, false}, {desk.HowHeavy{Who: "mo", Set: "many"}, true}} {
		_, _, err := p.desk.OwnLoad(ctx, a, c.of)
		if err == nil || c.hint == errors.Is(err, store.ErrMissing) {
			t.Errorf("%+v: %v", c.of, err)
		}
	}
}
