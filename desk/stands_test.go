package desk_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/day"
	"roomful/desk"
	"roomful/store"
)

// scored stores a score of Mo's on the earlier day of the same piece, at a load.
func (p *place) scored(kg float64) (id string) {
	p.t.Helper()
	p.does("a score comes", int(kg-40)/5)
	return fmt.Sprint("n", p.n)
}

// mends puts a score right: it is taken back, and comes anew under another id.
func (p *place) mends(id string, kg float64) {
	p.t.Helper()
	p.change(func(b *store.Books) error { return b.Withdraw(id) })
	p.scored(kg)
}

// TestPublishedStandsMended: what somebody scored before stands under a published day as it
// was when that was published, whatever is put right or taken back since; what had been
// taken back by then is not there.
func TestPublishedStandsMended(t *testing.T) {
	s := newShop(t)
	for _, kg := range []float64{45, 50, 55} {
		p := s.published(t)
		a := p.asks()[4]
		without := told(s.desk, a)
		id := p.scored(kg)
		p.does("the sheet is published", 0)
		before := told(s.desk, a)
		if before == without {
			t.Fatalf("%v kg: nothing of the score is in the day: nothing is tested", kg)
		}
		p.mends(id, kg)
		for what, d := range map[string]*desk.Desk{"here": s.desk, "elsewhere": desk.New(s.day, s.store), "restored": p.restored()} {
			if got := told(d, a); got != before {
				t.Errorf("%v kg: put right, the published day is %s\n%s, it was\n%s", kg, what, got, before)
			}
		}
		p.change(func(b *store.Books) error { return b.Withdraw(fmt.Sprint("n", p.n)) })
		p.does("the sheet is published", 0)
		if got := told(s.desk, a); got != without {
			t.Errorf("%v kg: taken back before it was published, the day is\n%s, without any it was\n%s", kg, got, without)
		}
	}
}

// rounds has somebody score on the earlier day of the same piece, at a load.
func (p *place) rounds(who string, n int, kg float64) {
	p.t.Helper()
	id := p.newID()
	p.change(func(b *store.Books) error {
		text := fmt.Sprint(n, "+3")
		if _, err := b.PutAttempt(store.Attempt{ID: id, Person: who, Document: "d0", Day: day3, Text: text}); err != nil {
			return err
		}
		session, _ := p.day.Read(drip)
		done := roomful.Done{Piece: session.Pieces()[0], Score: float64(n), Work: roomful.Work{Round: []roomful.Task{
			{Movement: "burpee", Amount: 10, Unit: roomful.Rep}, {Movement: "deadlift", Amount: 12, Unit: roomful.Rep, Load: roomful.Kg(kg)}}}}
		read := store.Read{Readings: []roomful.Reading{{Raw: text, Piece: "main", Kind: roomful.RoundsScore, LoadsKg: []float64{kg}}}}
		return b.PutResolved(who, map[string]store.Resolved{id: {Read: read, Done: []roomful.Done{done}}})
	})
}

// night has everything learnt of everybody, by emulators that are made anew.
func (p *place) night() {
	p.t.Helper()
	p.now = p.now.Add(time.Minute)
	p.change(func(b *store.Books) error {
		g, err := desk.New(p.day, p.store).Open(b, p.now)
		if err != nil {
			return err
		}
		seq, err := b.Seq()
		if err != nil {
			return err
		}
		q, err := g.AsksAll(func(who string) (roomful.Record, error) {
			got, err := g.Record(ctx, who, 0)
			return got.Record, err
		}, nil)
		if err != nil {
			return err
		}
		q.By = nil
		taught, err := p.day.LearnGym(ctx, q, func(l day.Lesson) error {
			return b.PutLearnt(store.Learnt{Person: l.Person, Abilities: *l.Abilities, Shift: l.Shift, Seq: seq, Model: day.ModelEdition})
		})
		if err != nil {
			return err
		}
		kept, err := desk.Emulators(taught)
		return errors.Join(err, b.PutEmulators(kept), b.PutLearning(store.Learning{Percent: 100, DoneAt: p.now, Seq: seq, Model: day.ModelEdition, Shift: taught.Shift}))
	})
}

// TestPublishedStandsHeavy: how heavy somebody goes on a published day is the same after a
// night as before it, here and in another run of the program; on a day that is not, a part
// that was worked out before the night is not given out after it.
func TestPublishedStandsHeavy(t *testing.T) {
	s := newShop(t)
	p := s.open(t)
	p.change(func(b *store.Books) error {
		who, err := b.Person("mo")
		who.Known = []roomful.Known{{Test: roomful.TestDeadlift, Value: 70}}
		return errors.Join(err, b.PutPerson(who))
	})
	p.rounds("mo", 1, 60)
	p.rounds("mo", 1, 55)
	p.night()
	p.does("the sheet is published", 0)
	a, anew, of := p.asks()[0], p.asks()[5], desk.HowHeavy{Who: "mo"}
	day0, before, now := told(s.desk, a), heavy(t, s.desk, a, of), heavy(t, s.desk, anew, of)
	for i, who := range []string{"bo", "ola", "pim", "bo", "ola"} {
		p.rounds(who, 2+2*i, 60+5*float64(i))
	}
	p.night()
	s.desk.Settle()
	a, anew = p.asks()[0], p.asks()[5]
	if told(s.desk, a) != day0 {
		t.Fatal("the day moved")
	}
	if got := heavy(t, desk.New(s.day, s.store), a, of); got != before {
		t.Errorf("after a night the published day says\n%s, it was\n%s", got, before)
	}
	if got := heavy(t, s.desk, a, of); got != before {
		t.Errorf("after a night the published day says here\n%s, it was\n%s", got, before)
	}
	heavy(t, s.desk, anew, of) // has what was learnt worked out beside
	s.desk.Settle()
	fresh := heavy(t, desk.New(s.day, s.store), anew, of)
	if got := heavy(t, s.desk, anew, of); got != fresh {
		t.Errorf("after a night what is known now says\n%s, elsewhere\n%s", got, fresh)
	}
	if fresh == now {
		t.Error("the night changed nothing: nothing is tested")
	}
}

// TestPublishedStandsToTheClass: what is published without a day, or dated before its class,
// stands to the end of the day after the class, whether that was known when it was published
// or came since, and no night in between moves it.
func TestPublishedStandsToTheClass(t *testing.T) {
	s := newShop(t)
	undated := strings.Replace(drip, "2027-03-04, ", "", 1)
	for what, text := range map[string]string{"undated": undated, "dated before": strings.Replace(drip, "03-04", "03-03", 1)} {
		for _, later := range []bool{false, true} {
			p := s.published(t)
			p.now = p.now.Add(time.Duration(day3.Days(roomful.DateOf(p.now))) * 24 * time.Hour)
			p.change(func(b *store.Books) error {
				d, err := b.Named(store.Sheet, "drip")
				if err != nil {
					return err
				}
				d.Text, d.Day = text, roomful.Date{}
				if what != "undated" {
					d.Day = day3
				}
				_, _, err = b.Save(d)
				return err
			})
			set := func() {
				p.change(func(b *store.Books) error {
					return b.PutClass(store.Class{ID: "c", Day: day3.Plus(4), Start: "17:30", Minutes: 60, Document: "d1"})
				})
			}
			if !later {
				set()
			}
			p.does("the sheet is published", 0)
			if later {
				set()
			}
			p.scored(45)
			before := told(s.desk, p.asks()[4])
			p.strong(.5)
			for n := range 6 {
				s.desk.Settle()
				got := told(s.desk, p.asks()[4])
				if n == 5 {
					got = told(desk.New(s.day, s.store), p.asks()[4])
				}
				if got != before {
					t.Fatalf("%s, class set later %v: after %d nights it is\n%s, it was\n%s", what, later, n, got, before)
				}
				p.does("a night passes", 0)
			}
			s.desk.Settle()
			if told(s.desk, p.asks()[4]) == before {
				t.Errorf("%s, class set later %v: it stands for ever", what, later)
			}
		}
	}
}
