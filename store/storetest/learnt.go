package storetest

import (
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

// learnt keeps what was done by scores, what was learnt from them, and what it takes to
// learn from the next.
func learnt(t *testing.T, h *house) {
	h.somebody("mo")
	h.somebody("bo")
	h.sheet("d1", "text")
	put := func(id, person string) (seq int64) {
		t.Helper()
		h.update(func(tx *store.Tx) error {
			_, err := tx.In(ours).PutAttempt(store.Attempt{ID: id, Person: person, Document: "d1", Text: "5+20", TypedAt: Now})
			return err
		})
		return look(h, (*store.Books).Seq)
	}
	put("a1", "mo")
	second := put("a2", "mo")
	third := put("a3", "bo")
	unlearnt := func(after int64) []store.Unlearnt {
		return look(h, func(b *store.Books) ([]store.Unlearnt, error) { return b.Unlearnt(after) })
	}
	h.same("one came later", unlearnt(second), []store.Unlearnt{{Person: "bo", Seq: third}})
	h.same("nothing learnt", unlearnt(0), []store.Unlearnt{{Person: "bo", Seq: third}, {Person: "mo", Seq: second}})

	first, other := Filled[roomful.Done](), roomful.Done{Score: 5}
	h.update(func(tx *store.Tx) error {
		return tx.In(ours).PutResolved("mo", map[string]store.Resolved{"a1": {Done: []roomful.Done{first, other}}, "a2": {Done: []roomful.Done{other}}})
	})
	h.update(func(tx *store.Tx) error {
		return tx.In(ours).PutResolved("mo", map[string]store.Resolved{"a1": {Done: []roomful.Done{other}}})
	})
	want := map[string][]roomful.Done{"a1": {first, other}, "a2": {other}}
	h.same("done", look(h, func(b *store.Books) (map[string][]roomful.Done, error) { return b.DoneBy("mo") }), want)
	h.same("done on the sheet", look(h, func(b *store.Books) (map[string][]roomful.Done, error) { return b.DoneOn("d1") }), want)
	h.refuse(nil, func(tx *store.Tx) error {
		return tx.In(ours).PutResolved("mo", map[string]store.Resolved{"a9": {Done: []roomful.Done{other}}})
	})

	l := store.Learnt{Person: "mo", Abilities: Filled[roomful.Abilities](), Shift: store.Shift{roomful.CapVO2max: 0.25}, Seq: second, Model: "3", At: Now}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutLearnt(l) })
	older := l
	older.Seq, older.Model = second-1, "old"
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutLearnt(older) })
	h.same("learnt", look(h, func(b *store.Books) ([]store.Learnt, error) { return b.Learnt("") }), []store.Learnt{l})
	h.same("learnt of one", look(h, func(b *store.Books) ([]store.Learnt, error) { return b.Learnt("bo") }), []store.Learnt(nil))
	h.same("one waits", unlearnt(0), []store.Unlearnt{{Person: "bo", Seq: third}})

	h.same("never begun", look(h, (*store.Books).Learning), store.Learning{})
	way := store.Learning{Percent: 40, Run: "r1", BeganAt: Now, TouchedAt: Now.Add(time.Second), Seq: 7, Model: "3", Shift: store.Shift{roomful.CapVO2max: -0.5}}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutLearning(way) })
	h.same("under way", look(h, (*store.Books).Learning), way)
	way.Percent, way.DoneAt = 100, Now
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutLearning(way) })
	h.same("at its end", look(h, (*store.Books).Learning), way)

	all := []store.Emulator{{Structure: "aa", Model: "3", Kept: []byte{0, 255, 7}}, {Structure: "bb", Model: "3", Kept: []byte("x")}}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutEmulators(all) })
	h.same("emulators", look(h, (*store.Books).Emulators), all)
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutEmulators(all[1:]) })
	h.same("in their place", look(h, (*store.Books).Emulators), all[1:])
}
