package store

import (
	"time"

	"roomful"
)

// Override is a version that was set by hand, by a coach or by whose it is. It sticks until
// it is taken back.
type Override struct {
	Document, Piece, Person string
	Work                    roomful.Work
	Account                 string
	At                      time.Time
	// Written is what the sheet said for their division then: what is as it was written
	// follows the sheet when that is edited. The zero value is not known.
	Written roomful.Work
	Option  string // of the day that it was taken from; empty for none
	Reason  string // for the person and coaches; empty for none
	// Segments are what is done from when, when it changes on the way.
	Segments []roomful.Segment
	// Beneath is a coach's word that this was set over for what hurts, and that stands again
	// when this is taken back; nil for none.
	Beneath *Override
}

// set is what is kept of an override in JSON: the work first, which was alone once.
type set struct {
	Once, Round, Last []roomful.Task
	Written           roomful.Work
	Option, Reason    string
	Segments          []roomful.Segment
	Beneath           *covered
}

// covered is what is kept of an override that another was set over.
type covered struct {
	Set     set
	Account string
	At      int64
}

// setOf is an override as it is kept, with what is beneath it.
func setOf(o Override) set {
	out := set{o.Work.Once, o.Work.Round, o.Work.Last, o.Written, o.Option, o.Reason, o.Segments, nil}
	if under := o.Beneath; under != nil {
		out.Beneath = &covered{setOf(*under), under.Account, micro(under.At)}
	}
	return out
}

// fill adds what was kept to an override whose place is known.
func (kept set) fill(o *Override) {
	o.Work = roomful.Work{Once: kept.Once, Round: kept.Round, Last: kept.Last}
	o.Written, o.Option, o.Reason, o.Segments = kept.Written, kept.Option, kept.Reason, kept.Segments
	if under := kept.Beneath; under != nil {
		o.Beneath = &Override{Document: o.Document, Piece: o.Piece, Person: o.Person, Account: under.Account, At: instant(under.At)}
		under.Set.fill(o.Beneath)
	}
}

// Overrides lists the versions of a sheet that were set by hand.
func (b *Books) Overrides(document string) ([]Override, error) {
	return many(b.tx, func(r row) (o Override, err error) {
		var work string
		var at int64
		if err := r.Scan(&o.Document, &o.Piece, &o.Person, &work, &o.Account, &at); err != nil {
			return o, err
		}
		o.At = instant(at)
		var kept set
		err = decode(work, &kept)
		kept.fill(&o)
		return o, err
	}, `SELECT document_id, piece, person_id, work, account_id, at FROM overrides WHERE gym_id = $1 AND document_id = $2 ORDER BY piece, person_id`, b.gym, document)
}

// PutOverride sets somebody's version of a piece by hand.
func (b *Books) PutOverride(o Override) error { return b.putOverride(o, b.tx.by) }

// PutBack sets a version again that was kept beneath another, as set by whom and when it
// was.
func (b *Books) PutBack(o Override) error { return b.putOverride(o, By{o.Account, o.At}) }

// putOverride sets somebody's version of a piece as by an account.
func (b *Books) putOverride(o Override, by By) error {
	work, err := encode(setOf(o))
	if err != nil {
		return err
	}
	if _, err := b.change("override", o.Document); err != nil {
		return err
	}
	_, err = b.tx.do(`INSERT INTO overrides (gym_id, document_id, piece, person_id, work, account_id, at) VALUES ($1, $2, $3, $4, $5, $6, $7)
		ON CONFLICT (gym_id, document_id, piece, person_id) DO UPDATE SET work = excluded.work, account_id = excluded.account_id, at = excluded.at`,
		b.gym, o.Document, o.Piece, o.Person, work, by.Account, micro(by.At))
	return err
}

// DropOverride has somebody's version computed again.
func (b *Books) DropOverride(document, piece, person string) error {
	if _, err := b.change("override", document); err != nil {
		return err
	}
	return b.needed(b.tx.do(`DELETE FROM overrides WHERE gym_id = $1 AND document_id = $2 AND piece = $3 AND person_id = $4`, b.gym, document, piece, person))
}

// Note is something said under a day.
type Note struct {
	ID       string
	Document string // the sheet
	Person   string // whose it is; an answer is theirs who asked
	Answers  string // the id of another note, empty for none
	Text     string
	Private  bool // for the person and coaches alone
	Account  string
	At       time.Time
}

// Notes lists what was said under a sheet, the oldest first.
func (b *Books) Notes(document string) ([]Note, error) {
	return many(b.tx, func(r row) (n Note, err error) {
		var private, at int64
		err = r.Scan(&n.ID, &n.Document, &n.Person, &n.Answers, &n.Text, &private, &n.Account, &at)
		n.Private, n.At = private == 1, instant(at)
		return n, err
	}, `SELECT id, document_id, person_id, answers, text, private, account_id, at FROM notes WHERE gym_id = $1 AND document_id = $2 ORDER BY at, id`, b.gym, document)
}

// PutNote writes a note down; sent twice it is stored once.
func (b *Books) PutNote(n Note) error {
	if _, err := b.change("note", n.Document); err != nil {
		return err
	}
	_, err := b.tx.do(`INSERT INTO notes (gym_id, id, document_id, person_id, answers, text, private, account_id, at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)
		ON CONFLICT DO NOTHING`, b.gym, n.ID, n.Document, n.Person, n.Answers, n.Text, yes(n.Private), b.tx.by.Account, micro(b.tx.by.At))
	return err
}
