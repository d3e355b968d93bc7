package storetest

import (
	"errors"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

func known(t *testing.T, h *house) {
	h.somebody("mo")
	h.sheet("d1", "text")
	o := store.Override{Document: "d1", Piece: "main", Person: "mo", Work: Filled[roomful.Work](), Account: "coach", At: Now,
		Written: Filled[roomful.Work](), Option: "Lighter", Reason: "a cold", Segments: Filled[[]roomful.Segment]()}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutOverride(o) })
	h.same("by hand", look(h, func(b *store.Books) ([]store.Override, error) { return b.Overrides("d1") }), []store.Override{o})
	over := o
	o.Account, o.At = "another coach", Now.Add(-time.Hour)
	over.Beneath, over.Reason = &o, "a knee"
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutOverride(over) })
	kept := look(h, func(b *store.Books) ([]store.Override, error) { return b.Overrides("d1") })
	h.same("over another", kept, []store.Override{over})
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutBack(*kept[0].Beneath) })
	h.same("back, as it was set", look(h, func(b *store.Books) ([]store.Override, error) { return b.Overrides("d1") }), []store.Override{o})
	h.update(func(tx *store.Tx) error { return tx.In(ours).DropOverride("d1", "main", "mo") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).DropOverride("d1", "main", "mo") })
	n := store.Note{ID: "n1", Document: "d1", Person: "mo", Text: "well", Private: true, Account: "coach", At: Now}
	h.update(func(tx *store.Tx) error { return errors.Join(tx.In(ours).PutNote(n), tx.In(ours).PutNote(n)) })
	h.same("notes", look(h, func(b *store.Books) ([]store.Note, error) { return b.Notes("d1") }), []store.Note{n})
}
