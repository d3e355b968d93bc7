package desk_test

import (
	"maps"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"roomful/desk"
	"roomful/store"
)

// shelved is what a library tells of its sheets.
type shelved struct {
	Uses  map[string]store.Use
	Chain []store.Document
}

// library asks a desk what it holds of the sheets.
func (p *place) library(t interface{ Fatalf(string, ...any) }, d *desk.Desk) (out shelved) {
	if err := p.store.View(ctx, func(tx *store.Tx) error {
		g, err := d.Open(tx.In(p.id), p.now)
		if err != nil {
			return err
		}
		if out.Uses, err = g.Uses([]string{"d0", "d1"}); err != nil {
			return err
		}
		chains, err := g.Chains()
		if err == nil {
			out.Chain = chains.With("d1")
		}
		return err
	}); err != nil {
		t.Fatalf("the library: %v", err)
	}
	return out
}

// TestLibrary holds what is held of the library to what a desk says that was never asked
// before, whatever happens in between: scores that come and are taken back, sheets that
// change, are published, and people who are erased.
func TestLibrary(t *testing.T) {
	s := newShop(t)
	all := maps.Clone(steps)
	for name, step := range map[string]func(p *place, n int) func(*store.Books) error{
		"somebody scores": func(p *place, n int) func(*store.Books) error {
			id := p.newID()
			return func(b *store.Books) error {
				_, err := b.PutAttempt(store.Attempt{ID: id, Person: []string{"mo", "bo", "pim"}[n%3], Document: []string{"d0", "d1"}[n%2], Day: day3.Plus(n), Text: "5"})
				return err
			}
		},
		"a score is taken back": func(p *place, n int) func(*store.Books) error {
			return func(b *store.Books) error {
				scores, err := b.OfSheet([]string{"d0", "d1"}[n%2])
				if len(scores) == 0 || err != nil {
					return err
				}
				return b.Withdraw(scores[n%len(scores)].ID)
			}
		},
		"a sheet is the same again": func(p *place, n int) func(*store.Books) error {
			return func(b *store.Books) error {
				d, err := b.Named(store.Sheet, "before")
				if err != nil {
					return err
				}
				d.Text = "Drop\nagain: Drip\n"
				_, _, err = b.Save(d)
				return err
			}
		},
	} {
		one := all["something is said"]
		one.do = step
		all[name] = one
	}
	names := slices.Sorted(maps.Keys(all))
	rapid.Check(t, func(r *rapid.T) {
		p := s.open(t)
		for range rapid.IntRange(1, 12).Draw(r, "steps") {
			p.change(all[rapid.SampledFrom(names).Draw(r, "step")].do(p, rapid.IntRange(0, 5).Draw(r, "n")))
			if got, want := p.library(r, p.desk), p.library(r, desk.New(p.day, p.store)); !reflect.DeepEqual(got, want) {
				r.Fatalf("the library tells\n%+v, not\n%+v", got, want)
			}
		}
	})
}
