package storetest

import (
	"fmt"
	"testing"

	"roomful"
	"roomful/store"
)

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
	if again, stale := save(bea); !stale || again.Revision != 2 {
		t.Errorf("the second, sent twice: %+v, stale %v", again, stale)
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
	first := store.Edition{ID: "e1", Document: "d1", Text: "as published", Read: read, Account: "coach", At: Now, Day: roomful.DateOf(Now), Seq: seqOf(h, "e1")}
	h.same("frozen", look(h, func(b *store.Books) ([]store.Edition, error) { return b.Editions("d1") }), []store.Edition{first})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).Publish("e2", "d9", read) })
	h.update(func(tx *store.Tx) error { return tx.In(ours).Publish("e3", "d1", read) })
	h.same("the last", look(h, func(b *store.Books) ([]store.Edition, error) { return b.LastEditions() }),
		[]store.Edition{{ID: "e3", Document: "d1", Text: "mended", Read: read, Account: "coach", At: Now, Day: roomful.DateOf(Now), Seq: seqOf(h, "e3")}})
}

// seqOf is the number of the last change of what has an id.
func seqOf(h *house, id string) (seq int64) {
	for _, c := range look(h, func(b *store.Books) ([]store.Change, error) { return b.Changes(0, 10_000) }) {
		if c.Subject == id {
			seq = c.Seq
		}
	}
	return seq
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

// library finds sheets by words, the latest first, and tells what became of each.
func library(t *testing.T, h *house) {
	on := roomful.Date{Year: 2027, Month: 3, Day: 4}
	for _, d := range []store.Document{
		{ID: "d1", Name: "drip", Title: "Drip", Day: on, Text: "Drip\n10 Burpees"},
		{ID: "d2", Name: "drip-again", Title: "Drip, Again", Day: on.Plus(7), Text: "Drip, Again\nAgain: Drip\n12 burpees"},
		{ID: "d3", Name: "percent", Title: "100% Rain_", Text: "rows"},
	} {
		d.Kind = store.Sheet
		h.update(func(tx *store.Tx) error { _, _, err := tx.In(ours).Save(d); return err })
	}
	find := func(f store.Find) (names []string) {
		t.Helper()
		if f.Limit == 0 {
			f.Limit = 50
		}
		for _, d := range look(h, func(b *store.Books) ([]store.Document, error) { return b.Library(f) }) {
			names = append(names, d.Name)
		}
		return names
	}
	h.same("all", find(store.Find{}), []string{"drip-again", "drip", "percent"})
	h.same("the second", find(store.Find{Skip: 1, Limit: 1}), []string{"drip"})
	h.same("by title in any case", find(store.Find{Words: []string{"rAIN"}}), []string{"percent"})
	h.same("by text", find(store.Find{Words: []string{"burpee", "nothing"}}), []string{"drip-again", "drip"})
	h.same("a sign of patterns is a letter", find(store.Find{Words: []string{"0% r"}}), []string{"percent"})
	h.same("no pattern", find(store.Find{Words: []string{"d_ip"}}), []string(nil))
	h.same("not published and to come", find(store.Find{Until: on}), []string{"drip"})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Publish("e1", "d2", store.Readers{}) })
	h.same("published and to come", find(store.Find{Until: on}), []string{"drip-again", "drip"})
	h.same("repeats", len(look(h, func(b *store.Books) ([]store.Document, error) { return b.Repeats() })), 1)
	h.same("what became of them", look(h, func(b *store.Books) (map[string]store.Use, error) { return b.Uses([]string{"d1", "d2"}) }), map[string]store.Use{"d1": {}, "d2": {Published: true}})
	h.somebody("mo")
	h.somebody("bo")
	for i, who := range []string{"mo", "bo", "bo", "mo"} {
		a := store.Attempt{ID: fmt.Sprint("a", i), Person: who, Document: "d1", Day: on.Plus(i), Text: "5", TypedAt: Now}
		h.update(func(tx *store.Tx) error { _, err := tx.In(ours).PutAttempt(a); return err })
	}
	h.update(func(tx *store.Tx) error { return tx.In(ours).Withdraw("a3") })
	h.same("done twice by one", look(h, func(b *store.Books) (map[string]store.Use, error) { return b.Uses([]string{"d1"}) }), map[string]store.Use{"d1": {People: 2, Last: on.Plus(2)}})
	h.same("who scored", look(h, func(b *store.Books) ([]string, error) { return b.Scorers("d1") }), []string{"bo", "mo"})
	by := func(people ...string) (ids []string) {
		for _, a := range look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfSheetBy("d1", people...) }) {
			ids = append(ids, a.ID)
		}
		return ids
	}
	h.same("what one scored", by("bo"), []string{"a1", "a2"})
	h.same("what two scored", by("mo", "bo"), []string{"a0", "a1", "a2"})
	h.same("what nobody scored", by(), []string(nil))
	seq := look(h, (*store.Books).Seq)
	h.same("nothing scored since", look(h, func(b *store.Books) ([]string, error) { return b.Scored(seq) }), []string(nil))
	h.same("taken back since", look(h, func(b *store.Books) ([]string, error) { return b.Scored(seq - 2) }), []string{"d1"})
	h.same("none", len(look(h, func(b *store.Books) (map[string]store.Use, error) { return b.Uses(nil) })), 0)
}
