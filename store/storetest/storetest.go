// Package storetest is what every store has to do, whatever database is beneath.
package storetest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/store"
)

// Run holds a store against all that is asked of one. Each test gets an empty store from
// open.
func Run(t *testing.T, open func(*testing.T) *store.Store) {
	for _, c := range []struct {
		name string
		test func(*testing.T, *house)
	}{
		{"people", people}, {"limits", limits}, {"documents", documents}, {"editions", editions}, {"classes", classes},
		{"attempts", attempts}, {"latest", latest}, {"known", known}, {"learnt", learnt}, {"accounts", accounts}, {"changes", changes}, {"another gym", anotherGym},
		{"undone", undone}, {"many at once", manyAtOnce}, {"follow", follow}, {"behind", behind}, {"drop", drop}, {"archive", archive}, {"no archive", noArchive}, {"an older archive", olderArchive},
		{"order", order}, {"no text", noText}, {"as a model", asModel},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(t, newHouse(t, open(t), open)) })
	}
}

// Now is when everything happens, unless a test says otherwise.
var Now = time.Date(2027, 3, 4, 5, 6, 7, 8000, time.UTC)

// house is a store with two gyms.
type house struct {
	*store.Store
	t    *testing.T
	open func(*testing.T) *store.Store // another, empty
}

const ours, theirs = "gym-1", "gym-2"

func newHouse(t *testing.T, s *store.Store, open func(*testing.T) *store.Store) *house {
	h := &house{s, t, open}
	h.update(func(tx *store.Tx) error {
		return errors.Join(tx.MakeGym(store.Gym{ID: ours, Name: "The Drying Floor", Zone: "Europe/London", MadeAt: Now}),
			tx.MakeGym(store.Gym{ID: theirs, Name: "Another", Zone: "UTC", MadeAt: Now.Add(1)}))
	})
	return h
}

// update makes an update that must succeed.
func (h *house) update(f func(*store.Tx) error) {
	h.t.Helper()
	if err := h.Update(context.Background(), store.By{Account: "coach", At: Now}, f); err != nil {
		h.t.Fatal(err)
	}
}

// refuse makes an update that must fail for a reason.
func (h *house) refuse(want error, f func(*store.Tx) error) {
	h.t.Helper()
	err := h.Update(context.Background(), store.By{At: Now}, f)
	if err == nil || want != nil && !errors.Is(err, want) {
		h.t.Fatalf("%v, want %v", err, want)
	}
}

// look reads.
func look[T any](h *house, f func(*store.Books) (T, error)) T {
	h.t.Helper()
	var got T
	if err := h.View(context.Background(), func(tx *store.Tx) (err error) {
		got, err = f(tx.In(ours))
		return err
	}); err != nil {
		h.t.Fatal(err)
	}
	return got
}

// same compares what is kept with what was put.
func (h *house) same(what string, got, want any) {
	h.t.Helper()
	if diff := cmp.Diff(want, got, cmp.Comparer(func(a, b float64) bool { return a == b || a != a && b != b })); diff != "" {
		h.t.Errorf("%s (-want +got)\n%s", what, diff)
	}
}

// somebody puts a person in.
func (h *house) somebody(id string) {
	h.t.Helper()
	h.update(func(tx *store.Tx) error {
		return tx.In(ours).PutPerson(store.Person{Athlete: roomful.Athlete{ID: id, Name: id}})
	})
}

// sheet saves one.
func (h *house) sheet(id, text string) {
	h.t.Helper()
	h.update(func(tx *store.Tx) error {
		_, _, err := tx.In(ours).Save(store.Document{ID: id, Kind: store.Sheet, Name: id, Title: id, Day: roomful.Date{Year: 2027, Month: 3, Day: 4}, Text: text})
		return err
	})
}

func people(t *testing.T, h *house) {
	months := 0.0
	mo := store.Person{Athlete: roomful.Athlete{ID: "mo", Name: "Mo 雨", Division: roomful.DivisionB, Born: roomful.Date{Year: 1990}, MassKg: 71.5, Months: &months,
		Known: []roomful.Known{{Test: roomful.TestSquat, Value: 80}}, Skills: []roomful.SkillLevel{{Movement: "pull-up", Level: roomful.SomeSkill}},
		Home: &roomful.Kit{Home: true, Stations: map[string]int{"bike": 1}}, Like: "Ann"}}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutPerson(mo) })
	mo.Revision = 1
	h.same("somebody", look(h, func(b *store.Books) (store.Person, error) { return b.Person("mo") }), mo)
	h.refuse(store.ErrStale, func(tx *store.Tx) error { return tx.In(ours).PutPerson(store.Person{Athlete: mo.Athlete}) })
	mo.Name, mo.LeftAt = "Moe", Now
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutPerson(mo) })
	mo.Revision = 2
	h.same("who comes", len(look(h, func(b *store.Books) ([]store.Person, error) { return b.People(false) })), 0)
	h.same("who came", look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) }), []store.Person{mo})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Erase("mo") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).Erase("mo") })
	h.same("erased", len(look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) })), 0)
}

func limits(t *testing.T, h *house) {
	h.somebody("mo")
	h.somebody("bo")
	l := store.Limit{ID: "l1", Person: "mo", Limit: roomful.Limit{What: "back", Pain: 3}, Since: roomful.Date{Year: 2027, Month: 3, Day: 1}, Word: "theirs", Note: "since the move"}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutLimit(l) })
	l.Until, l.Review = roomful.Date{Year: 2027, Month: 3, Day: 9}, roomful.Date{Year: 2027, Month: 3, Day: 8}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutLimit(l) })
	h.same("a limit", look(h, func(b *store.Books) ([]store.Limit, error) { return b.Limits("mo") }), []store.Limit{l})
	stolen := l
	stolen.Person = "bo"
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).PutLimit(stolen) })
	for day, on := range map[int]bool{28 - 31: false, 1: true, 9: true, 10: false} {
		if got := l.On(roomful.Date{Year: 2027, Month: 3, Day: day}); got != on {
			t.Errorf("on March %d: %v", day, got)
		}
	}
	h.update(func(tx *store.Tx) error { return tx.In(ours).DropLimit("mo", "l1") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).DropLimit("mo", "l1") })
}

func documents(t *testing.T, h *house) {
	save := func(d store.Document) (out store.Document, stale bool) {
		t.Helper()
		h.update(func(tx *store.Tx) (err error) {
			out, stale, err = tx.In(ours).Save(d)
			return err
		})
		return out, stale
	}
	first, _ := save(store.Document{ID: "d1", Kind: store.Sheet, Name: "long-drizzle", Title: "The Long Drizzle", Text: "one"})
	ann, bea := first, first
	ann.Text, bea.Text = "ann's", "bea's"
	if got, stale := save(ann); stale || got.Revision != 2 {
		t.Errorf("the first to save: revision %d, stale %v", got.Revision, stale)
	}
	got, stale := save(bea)
	if !stale || got.Text != "ann's" || got.Revision != 2 {
		t.Errorf("the second: %+v, stale %v", got, stale)
	}
	h.same("what holds", look(h, func(b *store.Books) (store.Document, error) { return b.Named(store.Sheet, "long-drizzle") }).Text, "ann's")
	var texts []string
	for _, r := range look(h, func(b *store.Books) ([]store.Revision, error) { return b.Revisions("d1") }) {
		texts = append(texts, fmt.Sprint(r.N, r.Base, r.Aside, " ", r.Text))
	}
	h.same("all that was typed", texts, []string{"1 0 false one", "2 1 false ann's", "3 1 true bea's"})
	merged := got
	merged.Text = "both"
	if got, stale := save(merged); stale || got.Revision != 4 {
		t.Errorf("merged: revision %d, stale %v", got.Revision, stale)
	}
	if again, stale := save(merged); stale || again.Revision != 4 {
		t.Errorf("the same saved twice: revision %d, stale %v", again.Revision, stale)
	}
	h.refuse(store.ErrTaken, func(tx *store.Tx) error {
		_, _, err := tx.In(ours).Save(store.Document{ID: "d2", Kind: store.Sheet, Name: "long-drizzle"})
		return err
	})
	save(store.Document{ID: "d2", Kind: store.Sheet, Name: "drip"})
	h.refuse(store.ErrTaken, func(tx *store.Tx) error {
		_, _, err := tx.In(ours).Save(store.Document{ID: "d2", Kind: store.Sheet, Name: "long-drizzle", Revision: 1, Text: "x"})
		return err
	})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error {
		_, _, err := tx.In(ours).Save(store.Document{ID: "d9", Kind: store.Sheet, Revision: 3})
		return err
	})
	h.same("sheets", len(look(h, func(b *store.Books) ([]store.Document, error) { return b.Documents(store.Sheet) })), 2)
	h.same("kits", len(look(h, func(b *store.Books) ([]store.Document, error) { return b.Documents(store.Kit) })), 0)
}

func editions(t *testing.T, h *house) {
	h.sheet("d1", "as published")
	read := store.Readers{Notation: "1", Catalogue: "2", Model: "3"}
	h.update(func(tx *store.Tx) error { return tx.In(ours).Publish("e1", "d1", read) })
	h.update(func(tx *store.Tx) error {
		d, err := tx.In(ours).Document("d1")
		if err != nil {
			return err
		}
		d.Text = "mended"
		_, _, err = tx.In(ours).Save(d)
		return err
	})
	h.same("frozen", look(h, func(b *store.Books) ([]store.Edition, error) { return b.Editions("d1") }),
		[]store.Edition{{ID: "e1", Document: "d1", Text: "as published", Read: read, Account: "coach", At: Now}})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).Publish("e2", "d9", read) })
}

func classes(t *testing.T, h *house) {
	day := roomful.Date{Year: 2027, Month: 3, Day: 4}
	c := store.Class{ID: "c1", Day: day, Start: "17:30", Minutes: 60, Capacity: 2}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutClass(c) })
	for _, id := range []string{"a", "b", "c", "d"} {
		h.somebody(id)
		h.update(func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", id); return err })
	}
	h.update(func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", "a"); return err }) // twice: keeps the place
	states := func() (out []string) {
		for _, s := range look(h, func(b *store.Books) ([]store.SignUp, error) { return b.SignUps("c1") }) {
			out = append(out, s.Person+" "+s.State)
		}
		return out
	}
	h.same("full", states(), []string{"a in", "b in", "c waiting", "d waiting"})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Leave("c1", "a", store.Out) })
	h.same("one goes", states(), []string{"a out", "b in", "c in", "d waiting"})
	h.update(func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", "a"); return err })
	h.same("and asks again", states(), []string{"b in", "c in", "d waiting", "a waiting"})
	c.Capacity = 3
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutClass(c) })
	h.same("one place more", states(), []string{"b in", "c in", "d in", "a waiting"})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Leave("c1", "b", store.Missed) })
	h.same("who did not come leaves no place when it is over", states(), []string{"b missed", "c in", "d in", "a waiting"})
	c.Capacity = 0
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutClass(c) })
	h.same("room for all", states(), []string{"b missed", "c in", "d in", "a in"})
	h.same("the day", look(h, func(b *store.Books) ([]store.Class, error) { return b.Classes(day, day) }), []store.Class{c})
	h.same("theirs", len(look(h, func(b *store.Books) ([]store.SignUp, error) { return b.SignedUp("a") })), 1)
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c9", "a"); return err })
	h.refuse(nil, func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", "nobody"); return err })
}

func attempts(t *testing.T, h *house) {
	h.somebody("mo")
	h.sheet("d1", "text")
	a := store.Attempt{ID: "a1", Person: "mo", Document: "d1", Piece: "main b", Day: roomful.Date{Year: 2027, Month: 3, Day: 4}, Text: "5+20 w/ singles 🙂", TypedAt: Now}
	put := func(a store.Attempt) (stored bool) {
		t.Helper()
		h.update(func(tx *store.Tx) (err error) { stored, err = tx.In(ours).PutAttempt(a); return err })
		return stored
	}
	before := look(h, (*store.Books).Seq)
	if !put(a) || put(a) {
		t.Error("sent twice: stored once, and said so")
	}
	if after := look(h, (*store.Books).Seq); after != before+1 {
		t.Errorf("sent twice: %d changes", after-before)
	}
	other := a
	other.Text = "6+1"
	h.refuse(store.ErrTaken, func(tx *store.Tx) error { _, err := tx.In(ours).PutAttempt(other); return err })
	nobody := a
	nobody.ID, nobody.Person = "a2", "nobody"
	h.refuse(nil, func(tx *store.Tx) error { _, err := tx.In(ours).PutAttempt(nobody); return err })
	read := Filled[store.Read]()
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutRead("a1", read) })
	a.Account, a.Seq, a.Sheet, a.Read = "coach", before+1, "d1", &read
	h.same("a score", look(h, func(b *store.Books) (store.Attempt, error) { return b.Attempt("a1") }), a)
	h.same("theirs", look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") }), []store.Attempt{a})
	h.same("of the sheet", look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfSheet("d1") }), []store.Attempt{a})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Withdraw("a1") })
	h.same("withdrawn", len(look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") })), 0)
	a.WithdrawnAt = Now
	h.same("and kept", look(h, func(b *store.Books) ([]store.Attempt, error) { return b.Attempts(0, 9) }), []store.Attempt{a})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).Withdraw("a9") })
	atOnce := a
	atOnce.ID, atOnce.WithdrawnAt = "a3", time.Time{}
	put(atOnce)
	atOnce.Seq = look(h, (*store.Books).Seq)
	h.same("read when it came", look(h, func(b *store.Books) (store.Attempt, error) { return b.Attempt("a3") }), atOnce)
}

// latest: a record read in pages is the record, each score once, whatever the page ends
// on: many of a day, none of a day, one that has gone meanwhile.
func latest(t *testing.T, h *house) {
	h.somebody("mo")
	h.somebody("bo")
	h.sheet("d1", "text")
	var want []string
	for i, day := range []int{4, 2, 0, 4, 9, 4, 2, 0, 9} { // 0: not known
		on := roomful.Date{Year: 2027, Month: 3, Day: day}
		if day == 0 {
			on = roomful.Date{}
		}
		for _, person := range []string{"mo", "bo"} {
			h.update(func(tx *store.Tx) error {
				_, err := tx.In(ours).PutAttempt(store.Attempt{ID: fmt.Sprint(person, i), Person: person, Document: "d1", Day: on, Text: "5", TypedAt: Now})
				return err
			})
		}
	}
	h.update(func(tx *store.Tx) error { return tx.In(ours).Withdraw("mo3") })
	for _, a := range look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") }) {
		want = append([]string{a.ID}, want...)
	}
	h.same("by day", want, []string{"mo8", "mo4", "mo5", "mo0", "mo6", "mo1", "mo7", "mo2"})
	for limit := 1; limit < 10; limit++ {
		var got []string
		for before := (store.Place{}); ; {
			page := look(h, func(b *store.Books) ([]store.Attempt, error) { return b.Latest("mo", before, limit) })
			if len(page) == 0 {
				break
			}
			for _, a := range page {
				got = append(got, a.ID)
			}
			before = page[len(page)-1].Place()
		}
		h.same(fmt.Sprint("in pages of ", limit), got, want)
	}
}

func known(t *testing.T, h *house) {
	h.somebody("mo")
	h.sheet("d1", "text")
	o := store.Override{Document: "d1", Piece: "main", Person: "mo", Work: Filled[roomful.Work](), Account: "coach", At: Now}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutOverride(o) })
	h.same("by hand", look(h, func(b *store.Books) ([]store.Override, error) { return b.Overrides("d1") }), []store.Override{o})
	h.update(func(tx *store.Tx) error { return tx.In(ours).DropOverride("d1", "main", "mo") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).DropOverride("d1", "main", "mo") })
	n := store.Note{ID: "n1", Document: "d1", Person: "mo", Text: "well", Private: true, Account: "coach", At: Now}
	h.update(func(tx *store.Tx) error { return errors.Join(tx.In(ours).PutNote(n), tx.In(ours).PutNote(n)) })
	h.same("notes", look(h, func(b *store.Books) ([]store.Note, error) { return b.Notes("d1") }), []store.Note{n})
}

func accounts(t *testing.T, h *house) {
	h.somebody("mo")
	a := store.Account{ID: "a1", Person: "mo", Name: "Mo", Role: store.Member, MadeAt: Now}
	i := store.Invitation{Hash: "h1", Person: "mo", Role: store.Member, Until: Now.Add(time.Hour)}
	h.update(func(tx *store.Tx) error {
		b := tx.In(ours)
		return errors.Join(b.PutAccount(a), b.PutInvitation(i))
	})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(theirs).UseInvitation("h1") })
	h.update(func(tx *store.Tx) error { return tx.In(ours).UseInvitation("h1") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).UseInvitation("h1") })
	late := i
	late.Hash, late.Until = "h2", Now.Add(-time.Second)
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutInvitation(late) })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).UseInvitation("h2") })
	s := store.SignIn{Hash: "s1", Gym: ours, Account: "a1", Device: "phone", MadeAt: Now, SeenAt: Now, Until: Now.Add(time.Hour)}
	k := store.Passkey{ID: "k1", Gym: ours, Account: "a1", Credential: "{}", MadeAt: Now}
	h.update(func(tx *store.Tx) error { return errors.Join(tx.In(ours).PutSignIn(s), tx.In(ours).PutPasskey(k)) })
	h.same("signed in", look(h, func(b *store.Books) ([]store.SignIn, error) { return b.SignIns("a1") }), []store.SignIn{s})
	h.same("keys", look(h, func(b *store.Books) ([]store.Passkey, error) { return b.Passkeys("a1") }), []store.Passkey{k})
	a.ClosedAt = Now
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutAccount(a) })
	h.same("closed", look(h, func(b *store.Books) ([]store.SignIn, error) { return b.SignIns("a1") }), []store.SignIn(nil))
	h.same("accounts", look(h, (*store.Books).Accounts), []store.Account{a})
}

func changes(t *testing.T, h *house) {
	h.somebody("mo")
	got := look(h, func(b *store.Books) ([]store.Change, error) { return b.Changes(0, 9) })
	h.same("changes", got, []store.Change{{Seq: 1, At: Now, Account: "coach", Kind: "gym", Subject: ours}, {Seq: 2, At: Now, Account: "coach", Kind: "person", Subject: "mo"}})
}

// anotherGym: nothing of one gym is seen or changed from the books of another.
func anotherGym(t *testing.T, h *house) {
	h.somebody("mo")
	h.sheet("d1", "text")
	h.update(func(tx *store.Tx) error {
		_, err := tx.In(ours).PutAttempt(store.Attempt{ID: "a1", Person: "mo", Document: "d1", Text: "5", TypedAt: Now})
		return err
	})
	for what, f := range map[string]func(*store.Books) error{
		"person":   func(b *store.Books) error { _, err := b.Person("mo"); return err },
		"document": func(b *store.Books) error { _, err := b.Document("d1"); return err },
		"attempt":  func(b *store.Books) error { _, err := b.Attempt("a1"); return err },
		"erase":    func(b *store.Books) error { return b.Erase("mo") },
		"withdraw": func(b *store.Books) error { return b.Withdraw("a1") },
		"read":     func(b *store.Books) error { return b.PutRead("a1", store.Read{}) },
		"publish":  func(b *store.Books) error { return b.Publish("e1", "d1", store.Readers{}) },
	} {
		if err := h.Update(context.Background(), store.By{At: Now}, func(tx *store.Tx) error { return f(tx.In(theirs)) }); !errors.Is(err, store.ErrMissing) {
			t.Errorf("%s from another gym: %v", what, err)
		}
	}
	h.refuse(nil, func(tx *store.Tx) error {
		_, err := tx.In(theirs).PutAttempt(store.Attempt{ID: "a2", Person: "mo", Document: "d1", Text: "5", TypedAt: Now})
		return err
	})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error {
		return tx.In("no gym").PutPerson(store.Person{Athlete: roomful.Athlete{ID: "x"}})
	})
}

// undone: an update that fails leaves nothing, though others are committed beside it.
func undone(t *testing.T, h *house) {
	oops := errors.New("oops")
	var wait sync.WaitGroup
	for i := range 20 {
		wait.Go(func() {
			err := h.Update(context.Background(), store.By{At: Now}, func(tx *store.Tx) error {
				if err := tx.In(ours).PutPerson(store.Person{Athlete: roomful.Athlete{ID: fmt.Sprintf("p%02d", i)}}); err != nil {
					return err
				}
				if i%2 == 1 {
					return oops
				}
				if i == 4 {
					panic("four")
				}
				return nil
			})
			if (err != nil) != (i%2 == 1 || i == 4) {
				t.Errorf("update %d: %v", i, err)
			}
		})
	}
	wait.Wait()
	var ids []string
	for _, p := range look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) }) {
		ids = append(ids, p.ID)
	}
	h.same("who is there", ids, []string{"p00", "p02", "p06", "p08", "p10", "p12", "p14", "p16", "p18"})
	seqs(h, 10)
}

// seqs fails unless the changes are numbered from 1 without gaps.
func seqs(h *house, want int) {
	h.t.Helper()
	got := look(h, func(b *store.Books) ([]store.Change, error) { return b.Changes(0, want+10) })
	if len(got) != want || !slices.IsSortedFunc(got, func(a, b store.Change) int { return int(a.Seq - b.Seq) }) || want > 0 && got[want-1].Seq != int64(want) {
		h.t.Errorf("%d changes, the last %+v, want %d without gaps", len(got), got[len(got)-1:], want)
	}
}

// manyAtOnce: scores sent by many at once are all there when they were acknowledged.
func manyAtOnce(t *testing.T, h *house) {
	h.somebody("mo")
	h.sheet("d1", "text")
	var wait sync.WaitGroup
	for i := range 8 {
		wait.Go(func() {
			for k := range 25 {
				a := store.Attempt{ID: fmt.Sprintf("a%d-%d", i, k), Person: "mo", Document: "d1", Text: "5", TypedAt: Now}
				if err := h.Update(context.Background(), store.By{At: Now}, func(tx *store.Tx) error { _, err := tx.In(ours).PutAttempt(a); return err }); err != nil {
					t.Error(err)
				}
				if err := h.View(context.Background(), func(tx *store.Tx) error { _, err := tx.In(ours).Attempt(a.ID); return err }); err != nil {
					t.Errorf("just stored: %v", err)
				}
			}
		})
	}
	wait.Wait()
	h.same("scores", len(look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") })), 200)
	seqs(h, 203)
}

// follow: who follows hears of every change once, in order, those before included.
func follow(t *testing.T, h *house) {
	h.somebody("p00")
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	var heard []int64
	done := make(chan error)
	go func() {
		done <- h.Follow(ctx, ours, 0, func(cs []store.Change) error {
			for _, c := range cs {
				if heard = append(heard, c.Seq); c.Subject == "p20" {
					return context.Canceled
				}
			}
			return nil
		})
	}()
	for i := range 20 {
		h.somebody(fmt.Sprintf("p%02d", i+1))
	}
	if err := <-done; !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	for i, seq := range heard {
		if seq != int64(i+1) {
			t.Fatalf("heard %v", heard)
		}
	}
}

// behind: who is far behind is told to read all anew.
func behind(t *testing.T, h *house) {
	h.update(func(tx *store.Tx) error {
		for i := range 600 {
			if err := tx.In(ours).PutPerson(store.Person{Athlete: roomful.Athlete{ID: fmt.Sprint(i)}}); err != nil {
				return err
			}
		}
		return nil
	})
	err := h.Follow(context.Background(), ours, 0, func([]store.Change) error { return nil })
	if !errors.Is(err, store.ErrBehind) {
		t.Errorf("%v, want %v", err, store.ErrBehind)
	}
}

// drop: a gym goes with all that was kept of it, and no other does.
func drop(t *testing.T, h *house) {
	anotherGym(t, h)
	h.update(func(tx *store.Tx) error {
		return tx.In(theirs).PutPerson(store.Person{Athlete: roomful.Athlete{ID: "bo", Name: "Bo"}})
	})
	h.update(func(tx *store.Tx) error { return tx.DropGym(ours) })
	h.same("ours", len(look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) })), 0)
	if err := h.View(context.Background(), func(tx *store.Tx) error {
		gyms, err := tx.Gyms()
		if err == nil && (len(gyms) != 1 || gyms[0].ID != theirs) {
			t.Errorf("gyms %+v", gyms)
		}
		_, other := tx.In(theirs).Person("bo")
		return errors.Join(err, other)
	}); err != nil {
		t.Error(err)
	}
}

// order: words come in the order of their bytes, whatever language the server speaks.
func order(t *testing.T, h *house) {
	for _, id := range []string{"é", "b", "B", "a-b", "aa", "A"} {
		h.somebody(id)
	}
	var ids []string
	for _, p := range look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) }) {
		ids = append(ids, p.ID)
	}
	h.same("order", ids, []string{"A", "B", "a-b", "aa", "b", "é"})
}

// noText: bytes that are no letters are refused by each database alike.
func noText(t *testing.T, h *house) {
	for _, text := range []string{"a\x00b", "a\xffb"} {
		h.refuse(store.ErrText, func(tx *store.Tx) error {
			_, _, err := tx.In(ours).Save(store.Document{ID: "d1", Kind: store.Sheet, Name: "d1", Text: text})
			return err
		})
	}
	seqs(h, 1)
}
