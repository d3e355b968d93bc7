package storetest

import (
	"fmt"
	"testing"

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
	h.update(func(tx *store.Tx) error { return tx.In(ours).Publish("e3", "d1", read) })
	h.same("the last", look(h, func(b *store.Books) ([]store.Edition, error) { return b.LastEditions() }),
		[]store.Edition{{ID: "e3", Document: "d1", Text: "mended", Read: read, Account: "coach", At: Now}})
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
