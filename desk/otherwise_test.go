package desk_test

import (
	"bytes"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"roomful"
	"roomful/day"
	"roomful/desk"
	"roomful/prior"
	"roomful/store"
	"roomful/store/sqlite"
)

// does has something happen.
func (p *place) does(step string, n int) {
	p.t.Helper()
	p.change(steps[step].do(p, n))
}

// strong has it learnt that Mo, who has told a maximum, is stronger by a share of it.
func (p *place) strong(share float64) {
	p.t.Helper()
	p.change(func(b *store.Books) error {
		who, err := b.Person("mo")
		if err != nil {
			return err
		}
		learnt := *prior.Of(who.Athlete, p.day.Lexicon, day3)
		for i := range learnt.Dims {
			learnt.Dims[i].Centre += math.Log(1 + share)
		}
		p.n++
		return b.PutLearnt(store.Learnt{Person: "mo", Abilities: learnt, Seq: int64(p.n), Model: day.ModelEdition})
	})
}

// published is a gym that has learnt from its scores, and whose day was published then.
func (s *shop) published(t testing.TB) *place {
	p := s.open(t)
	p.change(func(b *store.Books) error {
		who, err := b.Person("mo")
		who.Known = []roomful.Known{{Test: roomful.TestDeadlift, Value: 70}}
		return errors.Join(err, b.PutPerson(who))
	})
	p.strong(0)
	p.does("all is learnt from", 0)
	p.does("the sheet is published", 0)
	return p
}

// otherwise is who would do otherwise, in the order of the answer, once what is made
// beside is made.
func (p *place) otherwise(a desk.Ask) (who []string) {
	p.t.Helper()
	_, _, _ = p.desk.Otherwise(ctx, a, true)
	p.desk.Settle()
	all, later, err := p.desk.Otherwise(ctx, a, false)
	if err != nil || later {
		p.t.Fatal(later, err)
	}
	for _, o := range all {
		who = append(who, o.Then.Athlete)
	}
	return who
}

// TestPublishedStands: what is learnt after a day was published leaves it as it was, byte
// for byte, for members and coaches, in another run of the program and where the gym is
// restored; what is told of a body acts at once; given out anew it is as it would be.
func TestPublishedStands(t *testing.T) {
	s := newShop(t)
	p := s.published(t)
	member, coach := p.asks()[4], p.asks()[0]
	anew := coach
	anew.Anew = true
	before := told(s.desk, member)
	if who := p.otherwise(coach); len(who) > 0 || told(s.desk, anew) != before {
		t.Errorf("nothing was learnt, and %v would do otherwise", who)
	}
	p.does("a score comes", 2)
	p.strong(.5)
	s.desk.Settle()
	for what, got := range map[string]string{
		"to a member": told(s.desk, member), "to a coach": told(s.desk, coach), "elsewhere": told(desk.New(s.day, s.store), member), "restored": told(p.restored(), member),
	} {
		if got != before {
			t.Errorf("%s the published day became\n%s, it was\n%s", what, got, before)
		}
	}
	if who := p.otherwise(coach); len(who) != 1 || who[0] != "mo" {
		t.Errorf("would do otherwise: %v, want mo", who)
	}

	p.does("somebody is sore", 0)
	sore := told(s.desk, member)
	if sore == before || !strings.Contains(sore, `"option"`) {
		t.Errorf("Mo is sore, and the day is\n%s", sore)
	}
	would := told(s.desk, anew)
	if would == sore {
		t.Error("given out anew it would be the same: nothing is tested")
	}
	p.does("the sheet is published", 0)
	if got := told(s.desk, member); got != would {
		t.Errorf("published again it is\n%s, not\n%s", got, would)
	}
	if who := p.otherwise(coach); len(who) > 0 {
		t.Errorf("published again, and %v would do otherwise", who)
	}
}

// TestPublishedEnds lets a day go at the end of the day after it, and has nobody's typing
// rest on what was known before.
func TestPublishedEnds(t *testing.T) {
	s := newShop(t)
	p := s.published(t)
	a := p.asks()[0]
	before := told(s.desk, a)
	p.strong(.5)
	typed := a
	typed.Text, typed.Typist = drip, "coach"
	if told(s.desk, typed) == before {
		t.Error("what is typed rests on what was known when the day was published")
	}
	for range day4.Plus(1).Days(day3) { // to the day after
		p.does("a night passes", 0)
	}
	if got := told(s.desk, p.asks()[0]); got != before {
		t.Errorf("on the day after it is\n%s, not\n%s", got, before)
	}
	p.does("a night passes", 0)
	if got := told(s.desk, p.asks()[0]); got == before {
		t.Error("it stands for ever")
	}
}

// TestNewcomerOfPublished gives somebody who signs up after a day was published, and was
// learnt of in between, a version of what was known when it was.
func TestNewcomerOfPublished(t *testing.T) {
	s := newShop(t)
	with := func(learnt bool) string {
		p := s.open(t)
		p.does("all is learnt from", 0)
		p.change(func(b *store.Books) error { return b.Leave("c", "mo", store.Out) })
		p.does("the sheet is published", 0)
		if learnt {
			p.strong(.5)
		}
		p.change(func(b *store.Books) error { _, err := b.SignUp("c", "mo"); return err })
		return told(s.desk, p.asks()[4])
	}
	if got, want := with(true), with(false); got != want {
		t.Errorf("who comes new has\n%s, not\n%s", got, want)
	}
}

// TestOtherwiseLater leaves for later what is not at hand, makes it beside, and says nothing
// of a day that was not published.
func TestOtherwiseLater(t *testing.T) {
	s := newShop(t)
	p := s.published(t)
	p.strong(.5)
	a := p.asks()[0]
	if all, later, err := s.desk.Otherwise(ctx, a, false); len(all) > 0 || !later || err != nil {
		t.Errorf("at once %v, later %v, %v", all, later, err)
	}
	s.desk.Settle()
	if all, later, err := s.desk.Otherwise(ctx, a, false); len(all) != 1 || later || err != nil {
		t.Errorf("then %v, later %v, %v", all, later, err)
	}
	a.Sheet = "before"
	if all, later, err := s.desk.Otherwise(ctx, a, false); len(all) > 0 || later || err != nil {
		t.Errorf("of another day %v, later %v, %v", all, later, err)
	}
}

// restored is a desk over another store, to which the gym was brought in one file.
func (p *place) restored() *desk.Desk {
	p.t.Helper()
	other, err := sqlite.Open(ctx, p.t.TempDir())
	if err != nil {
		p.t.Fatal(err)
	}
	p.t.Cleanup(func() { other.Close() })
	var archive bytes.Buffer
	if err := p.store.View(ctx, func(tx *store.Tx) error { return tx.In(p.id).Archive(&archive) }); err != nil {
		p.t.Fatal(err)
	}
	if err := other.Update(ctx, store.By{At: p.now}, func(tx *store.Tx) error {
		_, err := tx.Restore(bytes.NewReader(archive.Bytes()), int64(archive.Len()))
		return err
	}); err != nil {
		p.t.Fatal(err)
	}
	return desk.New(p.day, other)
}

// TestAlike tells another option, movement, amount, load or share, and no other likelihood
// or words.
func TestAlike(t *testing.T) {
	told := roomful.Version{Option: "Weft", Work: roomful.Work{Round: []roomful.Task{{Movement: "deadlift", Amount: 12, Unit: roomful.Rep, Load: roomful.Kg(40)}}}}
	for what, c := range map[string]struct {
		change func(*roomful.Version)
		alike  bool
	}{
		"the same":           {func(v *roomful.Version) {}, true},
		"another likelihood": {func(v *roomful.Version) { v.Confidence = roomful.Low }, true},
		"other words":        {func(v *roomful.Version) { v.Dose.Say = "less of it" }, true},
		"another option":     {func(v *roomful.Version) { v.Option = "Warp" }, false},
		"another movement":   {func(v *roomful.Version) { v.Work.Round[0].Movement = "push-up" }, false},
		"another amount":     {func(v *roomful.Version) { v.Work.Round[0].Amount = 9 }, false},
		"another load":       {func(v *roomful.Version) { v.Work.Round[0].Load = roomful.Kg(35) }, false},
		"sent away":          {func(v *roomful.Version) { v.Stop = "see somebody first" }, false},
	} {
		now := told
		now.Work.Round = slices.Clone(told.Work.Round)
		c.change(&now)
		if desk.Alike(told, now) != c.alike {
			t.Errorf("%s: alike is %v", what, !c.alike)
		}
	}
}
