package desk_test

import (
	"fmt"
	"strings"
	"time"

	"roomful"
	"roomful/day"
	"roomful/prior"
	"roomful/store"
)

// steps are what happens in a gym. Of those that are not at hand whoever looks sees the
// last answer until the new one is made.
var steps = map[string]struct {
	atHand bool
	do     func(p *place, n int) func(*store.Books) error
}{
	"save the sheet": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			d, err := b.Named(store.Sheet, "drip")
			if err != nil {
				return err
			}
			d.Text = strings.Replace(drip, "10 burpees", fmt.Sprint(7+n, " burpees"), 1)
			_, _, err = b.Save(d)
			return err
		}
	}},
	"the sheet is published": {true, func(p *place, n int) func(*store.Books) error {
		id := p.newID()
		return func(b *store.Books) error { return b.Publish(id, "d1", store.Readers{}) }
	}},
	"save the kit":      {true, saving(store.Kit, "bars:\n  - {mass: 20, count: %d}\nplates:\n  - {mass: 10, count: 4}\n")},
	"save the settings": {true, saving(store.Settings, "hour:\n  briefing: %d min\n")},
	"somebody is sore": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			return b.PutLimit(store.Limit{ID: fmt.Sprint("l", n), Person: []string{"mo", "bo", "pim"}[n%3], Limit: roomful.Limit{What: "back", Pain: n}, Since: day3, Until: day4})
		}
	}},
	"somebody tells their mass": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			who, err := b.Person("mo")
			who.MassKg = float64(60 + 10*n)
			if err != nil {
				return err
			}
			return b.PutPerson(who)
		}
	}},
	"somebody comes": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error { _, err := b.SignUp("c", "pim"); return err }
	}},
	"somebody stays away": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error { return orGone(b.Leave("c", []string{"bo", "ola"}[n%2], store.Out)) }
	}},
	"a coach decides": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			return b.PutOverride(store.Override{Document: "d1", Person: "bo", Work: roomful.Work{Round: []roomful.Task{
				{Movement: "burpee", Amount: float64(3 + n), Unit: roomful.Rep}, {Movement: "deadlift", Amount: 12, Unit: roomful.Rep, Load: roomful.Kg(30)}}}})
		}
	}},
	"a coach takes it back": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			return orGone(b.DropOverride("d1", "", "bo"))
		}
	}},
	"somebody is erased": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			return orGone(b.Erase("ola"))
		}
	}},
	"somebody comes no more, or again": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			who, err := b.Person("pim")
			if who.LeftAt.IsZero() {
				who.LeftAt = p.now
			} else {
				who.LeftAt = time.Time{}
			}
			if err != nil {
				return err
			}
			return b.PutPerson(who)
		}
	}},
	"a night passes": {true, func(p *place, n int) func(*store.Books) error {
		p.now = p.now.Add(24 * time.Hour)
		return func(b *store.Books) error { return nil }
	}},
	"something is learnt": {false, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			seq, err := b.Seq()
			if err != nil {
				return err
			}
			learnt := *prior.Of(roomful.Athlete{ID: "mo"}, p.day.Lexicon, day3)
			for i := range learnt.Dims {
				learnt.Dims[i].Centre += float64(n+1) / 100
			}
			return b.PutLearnt(store.Learnt{Person: "mo", Abilities: learnt, Seq: seq, Model: day.ModelEdition})
		}
	}},
	"all is learnt from": {true, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error { return b.PutLearning(store.Learning{Percent: 100, DoneAt: p.now}) }
	}},
	"a score comes": {false, func(p *place, n int) func(*store.Books) error {
		id := p.newID()
		return func(b *store.Books) error {
			if _, err := b.PutAttempt(store.Attempt{ID: id, Person: "mo", Document: "d0", Day: day3, Text: "5+3"}); err != nil {
				return err
			}
			task := roomful.Task{Movement: "deadlift", Amount: 12, Unit: roomful.Rep, Load: roomful.Kg(float64(40 + 5*n))}
			session, _ := p.day.Read(drip)
			done := roomful.Done{Piece: session.Pieces()[0], Score: 5, Work: roomful.Work{Round: []roomful.Task{{Movement: "burpee", Amount: 10, Unit: roomful.Rep}, task}}}
			read := store.Read{Readings: []roomful.Reading{{Raw: "5+3", Piece: "main", Kind: roomful.RoundsScore, LoadsKg: []float64{task.Load.Value}}}}
			return b.PutResolved("mo", map[string]store.Resolved{id: {Read: read, Done: []roomful.Done{done}}})
		}
	}},
	"the coach is called something else": {false, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			return b.PutAccount(store.Account{ID: "coach", Name: fmt.Sprint("Olu ", n), Role: store.Coach, MadeAt: now})
		}
	}},
	"the other day is called something else": {false, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			d, err := b.Named(store.Sheet, "before")
			if err != nil {
				return err
			}
			d.Title = []string{"Drip", "Drop"}[n%2]
			_, _, err = b.Save(d)
			return err
		}
	}},
	"somebody is like somebody else": {false, func(p *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			who, err := b.Person("pim")
			if err != nil {
				return err
			}
			who.Known = []roomful.Known{{Test: roomful.TestDeadlift, Value: float64(100 + n)}}
			return b.PutPerson(who)
		}
	}},
	"something is said": {true, func(p *place, n int) func(*store.Books) error {
		id := p.newID()
		return func(b *store.Books) error {
			return b.PutNote(store.Note{ID: id, Document: "d1", Person: "mo", Text: "good"})
		}
	}},
}

// orGone takes what is not there for what has been taken away before.
func orGone(err error) error {
	if err == store.ErrMissing {
		return nil
	}
	return err
}

// saving saves a text that a gym has one of, with a number in it.
func saving(kind, text string) func(*place, int) func(*store.Books) error {
	return func(_ *place, n int) func(*store.Books) error {
		return func(b *store.Books) error {
			d, err := b.Named(kind, kind)
			if err != nil && err != store.ErrMissing {
				return err
			}
			d.ID, d.Kind, d.Name, d.Text = kind, kind, kind, fmt.Sprintf(text, n+1)
			_, _, err = b.Save(d)
			return err
		}
	}
}
