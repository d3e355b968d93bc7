package catalogue_test

import (
	"sync"
	"testing"
	"time"

	"roomful"
	"roomful/catalogue"
)

var loaded = sync.OnceValues(catalogue.Load)

// load returns the catalogue that comes with the program, read once.
func load(tb testing.TB) *catalogue.Catalogue {
	tb.Helper()
	c, err := loaded()
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

func TestEveryMovementLoadsInItsPlace(t *testing.T) {
	start := time.Now()
	c, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	// The benchmark holds the real aim; this catches only what nobody would wait for.
	if d := time.Since(start); d > 20*time.Second {
		t.Errorf("reading the movements took %v", d)
	}
	if n := len(c.All()); n < 90 {
		t.Errorf("there are only %d movements", n)
	}
	again := load(t)
	if c.Version() != again.Version() || len(c.Version()) != 12 {
		t.Errorf("versions %q and %q of the same data", c.Version(), again.Version())
	}
	for i, m := range c.All() {
		if again.All()[i].ID != m.ID || c.Movement(m.ID) != m {
			t.Fatalf("%s does not keep its place", m.ID)
		}
	}
	if m := c.Movement("no-such-thing"); m != nil {
		t.Errorf("an unknown id gives %v", m)
	}
	var _ roomful.Lexicon = c
}
