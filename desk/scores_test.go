package desk_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"roomful"
	"roomful/desk"
	"roomful/exchange"
	"roomful/store"
)

// said is all that a desk says of a day's scores.
func said(d *desk.Desk, a desk.Ask) string {
	var out strings.Builder
	say := func(v any, err error) {
		text, _ := json.Marshal(v)
		fmt.Fprintln(&out, string(text), err)
	}
	words := func(e roomful.Entry) string { return e.Reading.Raw }
	boards, err := d.Boards(ctx, a)
	if say(nil, err); err == nil {
		for _, b := range boards.All {
			say(exchange.BoardOf(b, words), nil)
		}
	}
	after, err := d.After(ctx, a)
	if say(nil, err); err == nil {
		for _, b := range after.All {
			say(exchange.AfterOf(b, "", words), nil)
		}
	}
	compared, err := d.Compared(ctx, a, "mo")
	if say(nil, err); err == nil {
		for _, c := range compared.All {
			if c.Only != nil {
				c.Later = *c.Only
			}
			say(exchange.ComparisonOf(c.Who, c.Comparison, c.Only == nil), nil)
		}
	}
	return out.String()
}

// TestScoresKept holds what is kept of scores to what a desk says that was never asked
// before.
func TestScoresKept(t *testing.T) {
	p := newShop(t).open(t)
	a := desk.Ask{Gym: p.id, Now: p.now, Sheet: "before"}
	takeBack := func(b *store.Books) error { return b.Withdraw("n1") }
	unlist := func(b *store.Books) error {
		who, err := b.Person("mo")
		who.Unlisted = true
		if err != nil {
			return err
		}
		return b.PutPerson(who)
	}
	for _, step := range []struct {
		name string
		do   func(*store.Books) error
		want string // that a coach is told
	}{
		{"nothing has come", func(*store.Books) error { return nil }, "null <nil>\nnull <nil>\nnull <nil>\n"},
		{"a score comes", steps["a score comes"].do(p, 1), `"date":"2027-03-03"`},
		{"another score comes", steps["a score comes"].do(p, 3), `"tier":"`},
		{"something is learnt", steps["something is learnt"].do(p, 1), ""},
		{"one is taken back", takeBack, ""},
		{"a coach decides", steps["a coach decides"].do(p, 1), ""},
		{"the settings are saved", steps["save the settings"].do(p, 1), ""},
		{"Mo wants to be left out", unlist, ""},
	} {
		p.change(step.do)
		for _, a.Shown = range []bool{false, true} {
			said(p.desk, a)
			p.desk.Settle()
			got := said(p.desk, a)
			if want := said(desk.New(p.day, p.store), a); got != want {
				t.Errorf("%s, and %+v is\n%s, not\n%s", step.name, a, got, want)
			}
			if !a.Shown && !strings.Contains(got, step.want) {
				t.Errorf("%s, and a coach is told\n%s", step.name, got)
			}
		}
	}
	if boards, err := p.desk.Boards(ctx, a); err != nil || len(boards.All) > 0 {
		t.Errorf("who wants to be left out is on a board that members see: %+v %v", boards, err)
	}
}

// TestTried finds what somebody scored on sheets of one title alone.
func TestTried(t *testing.T) {
	p := newShop(t).open(t)
	for range 3 {
		p.change(steps["a score comes"].do(p, 1))
	}
	p.change(func(b *store.Books) error {
		_, err := b.PutAttempt(store.Attempt{ID: "bo", Person: "bo", Document: "d0", Day: day3, Text: "5+3"})
		return err
	})
	if err := p.store.View(ctx, func(tx *store.Tx) error {
		for title, want := range map[string]int{"Drip": 3, "Drop": 0, "": 0} {
			all, done, err := tx.In(p.id).Tried("mo", title, title)
			if err != nil || len(all) != want || len(done) != want {
				t.Errorf("%q: %d, of %d it is known what was done: %v", title, len(all), len(done), err)
			}
		}
		last, err := tx.In(p.id).LatestOn("d0", store.Place{}, 2)
		if err != nil || len(last) != 2 || last[0].ID != "bo" {
			t.Errorf("the last two are %+v: %v", last, err)
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
}
