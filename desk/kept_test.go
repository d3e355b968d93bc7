package desk_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"pgregory.net/rapid"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/desk"
	"roomful/exchange"
	"roomful/sim"
	"roomful/store"
	"roomful/store/sqlite"
)

// ctx is of questions that nobody breaks off.
var ctx = context.Background()

// counted is the simulator, a little quicker, which counts what it is asked.
type counted struct {
	roomful.Forecaster
	asked *atomic.Int64
}

// Forecast simulates eight times at most.
func (c counted) Forecast(ctx context.Context, r roomful.ForecastRequest) (roomful.Forecast, error) {
	c.asked.Add(1)
	r.Runs = min(r.Runs, 8)
	return c.Forecaster.Forecast(ctx, r)
}

// shop is a store with gyms, and the desk that is tested.
type shop struct {
	store *store.Store
	day   *day.Day
	desk  *desk.Desk
	asked atomic.Int64 // forecasts
	gyms  int
}

func newShop(t *testing.T) *shop {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	s := &shop{day: day.New(lex)}
	s.day.Forecaster = &counted{sim.New(lex), &s.asked}
	if s.store, err = sqlite.Open(t.Context(), t.TempDir()); err != nil {
		t.Fatal(err)
	}
	s.desk = desk.New(s.day, s.store)
	t.Cleanup(func() { s.desk.Close(); s.store.Close() })
	return s
}

// place is a gym of it.
type place struct {
	*shop
	t   testing.TB
	id  string
	now time.Time
	n   int // for ids
}

// open opens a gym in which Bo, Mo and Ola have places in a class that does the sheet drip.
func (s *shop) open(t testing.TB) *place {
	t.Helper()
	s.gyms++
	p := &place{shop: s, t: t, id: fmt.Sprint("g", s.gyms), now: now}
	if err := s.store.Update(ctx, store.By{At: p.now}, func(tx *store.Tx) error {
		return tx.MakeGym(store.Gym{ID: p.id, Name: "G", Zone: "UTC", MadeAt: now})
	}); err != nil {
		t.Fatal(err)
	}
	p.change(func(b *store.Books) error {
		for _, id := range []string{"bo", "mo", "ola", "pim"} {
			if err := b.PutPerson(store.Person{Athlete: roomful.Athlete{ID: id, Name: strings.ToUpper(id[:1]) + id[1:]}}); err != nil {
				return err
			}
		}
		if err := b.PutAccount(store.Account{ID: "coach", Name: "Olu", Role: store.Coach, MadeAt: now}); err != nil {
			return err
		}
		for _, d := range []store.Document{
			{ID: "d0", Kind: store.Sheet, Name: "before", Title: "Drip", Day: day3, Text: drip},
			{ID: "d1", Kind: store.Sheet, Name: "drip", Title: "Drip", Day: day4, Text: drip},
		} {
			if _, _, err := b.Save(d); err != nil {
				return err
			}
		}
		if err := b.PutClass(store.Class{ID: "c", Day: day4, Start: "17:30", Minutes: 60, Document: "d1"}); err != nil {
			return err
		}
		for _, id := range []string{"bo", "mo", "ola"} {
			if _, err := b.SignUp("c", id); err != nil {
				return err
			}
		}
		return nil
	})
	return p
}

// change changes the gym.
func (p *place) change(f func(*store.Books) error) {
	p.t.Helper()
	if err := p.store.Update(ctx, store.By{Account: "coach", At: p.now}, func(tx *store.Tx) error { return f(tx.In(p.id)) }); err != nil {
		p.t.Fatal(err)
	}
}

// id makes an id.
func (p *place) newID() string { p.n++; return fmt.Sprint("n", p.n) }

// asks are the questions that are asked after each change: of a class, of everybody, at
// home, of a piece that is not there, as members see it, and by what is known now.
func (p *place) asks() []desk.Ask {
	of := func(a desk.Ask) desk.Ask { a.Gym, a.Now, a.Sheet = p.id, p.now, "drip"; return a }
	return []desk.Ask{of(desk.Ask{Class: "c"}), of(desk.Ask{}), of(desk.Ask{Class: "c", Home: true}), of(desk.Ask{Class: "c", Piece: "main b"}), of(desk.Ask{Class: "c", Shown: true}), of(desk.Ask{Class: "c", Anew: true})}
}

// told is all that a desk answers, as the web would say it.
func told(d *desk.Desk, a desk.Ask) string {
	var out bytes.Buffer
	say := func(v any, err error) {
		if err != nil {
			v = err.Error() + roomful.HintOf(err)
		}
		text, err := json.Marshal(v)
		fmt.Fprintln(&out, string(text), err)
	}
	w, err := d.Versions(ctx, a)
	if err == nil {
		say(exchange.LineupOf(w.Piece, w.Effort, w.Lineup), nil)
		say(w.Start, nil)
	} else {
		say(nil, err)
	}
	if !a.Home {
		_, hour, err := d.Hour(ctx, a)
		say(exchange.HourOf(hour, 0, func(id string) string { return id }), err)
	}
	return out.String()
}

// held fails unless what is kept is what a desk says that was never asked before: at once
// where that is asked for, and once what is made beside is made.
func (p *place) held(t interface{ Fatalf(string, ...any) }, a desk.Ask, after string, atOnce bool) {
	want := told(desk.New(p.day, p.store), a)
	if got := told(p.desk, a); atOnce && got != want {
		t.Fatalf("after %q %+v is at once\n%s, not\n%s", after, a, got, want)
	}
	p.desk.Settle()
	if got := told(p.desk, a); got != want {
		t.Fatalf("after %q %+v is\n%s, not\n%s", after, a, got, want)
	}
}

// TestKeptEach holds what is kept to that after each thing that may happen.
func TestKeptEach(t *testing.T) {
	p := newShop(t).open(t)
	p.change(steps["a coach decides"].do(p, 0))
	names := slices.Sorted(maps.Keys(steps))
	for n, name := range slices.Concat(names, names) { // who left comes back
		for _, a := range p.asks() {
			p.held(t, a, "before "+name, false)
		}
		p.change(steps[name].do(p, n))
		for _, a := range p.asks() {
			p.held(t, a, name, steps[name].atHand)
		}
	}
}

// TestKept holds what is kept to that whatever happens in between.
func TestKept(t *testing.T) {
	s := newShop(t)
	names := slices.Sorted(maps.Keys(steps))
	rapid.Check(t, func(r *rapid.T) {
		p := s.open(t)
		aging := make([]bool, len(p.asks())) // of each ask, whether something is to be made beside
		for range rapid.IntRange(1, 6).Draw(r, "steps") {
			name := rapid.SampledFrom(names).Draw(r, "step")
			p.change(steps[name].do(p, rapid.IntRange(0, 3).Draw(r, "n")))
			for i := range aging {
				aging[i] = aging[i] || !steps[name].atHand
			}
			i := rapid.IntRange(0, len(aging)-1).Draw(r, "ask")
			p.held(r, p.asks()[i], name, !aging[i])
			aging[i] = false
		}
	})
}

// TestKeptOnce works nothing out twice that nothing has changed of, and once for all who
// ask at once.
func TestKeptOnce(t *testing.T) {
	s := newShop(t)
	p := s.open(t)
	a := p.asks()[0]
	alone := desk.New(s.day, s.store)
	told(alone, a)
	once := s.asked.Swap(0)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() { told(s.desk, a) })
	}
	all.Wait()
	if n := s.asked.Swap(0); n != once {
		t.Errorf("worked out by %d forecasts for eight who ask at once, and by %d for one", n, once)
	}
	for _, name := range []string{"something is said", "somebody is like somebody else", "the coach is called something else"} {
		p.change(steps[name].do(p, 1))
		told(s.desk, a)
		s.desk.Settle()
		if n := s.asked.Swap(0); n > 0 {
			t.Errorf("%s, and %d forecasts are made", name, n)
		}
	}
}

// TestKeptRace asks from many sides while things change.
func TestKeptRace(t *testing.T) {
	s := newShop(t)
	p := s.open(t)
	var all sync.WaitGroup
	asking, cancel := context.WithCancel(t.Context())
	for i := range 4 {
		all.Go(func() {
			for n := 0; asking.Err() == nil; n++ {
				a := p.asks()[(n+i)%2]
				if n%3 == 0 {
					a.Text, a.Typist = strings.Replace(drip, "10 burpees", fmt.Sprint(3+n%4, " burpees"), 1), "coach"
				}
				told(s.desk, a)
			}
		})
	}
	for n := range 12 {
		for _, name := range []string{"save the sheet", "a score comes", "something is learnt", "somebody is sore"} {
			p.change(steps[name].do(p, n))
		}
	}
	cancel()
	all.Wait()
}

// TestTyping answers what is typed before it is saved, lets a later text break off the
// work on an earlier one, and keeps none of it from what is saved.
func TestTyping(t *testing.T) {
	s := newShop(t)
	p := s.open(t)
	a := p.asks()[0]
	saved := told(s.desk, a)
	for _, n := range []string{"11", "12", "13"} {
		typed := a
		typed.Text, typed.Typist = strings.Replace(drip, "10 burpees", n+" burpees", 1), "coach"
		if got := told(s.desk, typed); !strings.Contains(got, `"amount":`+n) || strings.Contains(got, `"amount":10,`) {
			t.Errorf("typed %s: %s", n, got)
		}
	}
	if got := told(s.desk, a); got != saved {
		t.Errorf("what is saved became %s", got)
	}
	a.Sheet, a.Text = "new", drip
	if got := told(s.desk, a); !strings.Contains(got, `"amount":10`) {
		t.Errorf("a new day: %s", got)
	}
	a.Text = "Half\n\nmain: as many rounds as possible\n"
	if got := told(s.desk, a); !strings.Contains(got, "faults") {
		t.Errorf("half a day: %s", got)
	}
}

// TestTypistsApart: of two who type the same, one types on; the other, who typed nothing
// else, has their answer.
func TestTypistsApart(t *testing.T) {
	s := newShop(t)
	p := s.open(t)
	for _, n := range []string{"21", "22", "23"} {
		typed := p.asks()[0]
		typed.Text, typed.Typist = strings.Replace(drip, "10 burpees", n+" burpees", 1), "owner"
		first := typed
		first.Typist = "coach"
		later := first
		later.Text = strings.Replace(later.Text, n, "9", 1)
		var all sync.WaitGroup
		var got string
		all.Go(func() { got = told(s.desk, typed) })
		all.Go(func() { told(s.desk, first) })
		time.Sleep(5 * time.Millisecond) // both are under way
		told(s.desk, later)
		all.Wait()
		if !strings.Contains(got, `"amount":`+n) {
			t.Errorf("the owner is told %s", got)
		}
	}
}
