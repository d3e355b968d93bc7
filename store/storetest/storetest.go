// Package storetest is what every store has to do, whatever database is beneath.
package storetest

import (
	"context"
	"errors"
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
		{"people", people}, {"limits", limits}, {"documents", documents}, {"editions", editions}, {"library", library}, {"classes", classes},
		{"attempts", attempts}, {"latest", latest}, {"known", known}, {"learnt", learnt}, {"learnt before", before}, {"accounts", accounts}, {"changes", changes}, {"another gym", anotherGym}, {"ended", ended},
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
