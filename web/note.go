package web

import (
	"errors"
	"net/http"
	"slices"
	"time"

	"roomful"
	"roomful/account"
	"roomful/desk"
	"roomful/store"
)

// note is something said under a day. A private one is for whose it is and for coaches.
type note struct {
	ID      string `json:"id"`
	Person  string `json:"person"` // whose it is; an answer is theirs who asked
	Name    string `json:"name"`
	Answers string `json:"answers"` // the id of another note; empty for none
	Text    string `json:"text"`
	Private bool   `json:"private"`
	At      string `json:"at"`
	By      string `json:"by"` // who typed it, the coach of an answer; empty when their account is gone
}

// notes lists what was said under a day, as far as the one who asks may read it.
func (s *Server) notes(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		Notes []note `json:"notes"`
	}{[]note{}}
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := s.seen(b, v, q.PathValue("name"))
		if err != nil {
			return err
		}
		all, err := s.notesFor(b, v, d.Document)
		for _, n := range all {
			out.Notes = append(out.Notes, n.note)
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// readable is a note that the visitor may read, and when it was said.
type readable struct {
	note
	at time.Time
}

// notesFor are the notes under a day that the visitor may read.
func (s *Server) notesFor(b *store.Books, v visit, d store.Document) (out []readable, err error) {
	all, err := b.Notes(d.ID)
	if err != nil {
		return nil, err
	}
	who := s.crowd(b)
	for _, n := range all {
		name, listed, err := who.find(n.Person)
		if err != nil {
			return nil, err
		}
		if v.is(n.Person) || v.May(account.SeeHealth) || !n.Private && listed {
			by, err := writer(b, n)
			if err != nil {
				return nil, err
			}
			out = append(out, readable{noteOf(n, name, by), n.At})
		}
	}
	return out, nil
}

// noteOf is a note as it is shown, with the names of whose it is and of who typed it.
func noteOf(n store.Note, name, by string) note {
	return note{n.ID, n.Person, name, n.Answers, n.Text, n.Private, instant(n.At), by}
}

// writer is the name of whoever typed a note: an answer is theirs who asked, and the
// coach's word.
func writer(b *store.Books, n store.Note) (string, error) {
	a, err := b.Account(n.Account)
	if errors.Is(err, store.ErrMissing) {
		return "", nil
	}
	return a.Name, err
}

// saying is something that somebody says under a day. Its id is made where it was typed:
// sent twice it is stored once.
type saying struct {
	ID      string `json:"id"`
	Text    string `json:"text"`
	Answers string `json:"answers"`
	Private bool   `json:"private"` // though every word of it is harmless
	// Open says that there is nothing of anybody's body in it: then words that are not
	// known keep it from nobody. Words that speak of the body do all the same.
	Open bool `json:"open"`
}

// say keeps what somebody says under a day.
func (s *Server) say(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent saying
	if err := read(q, &sent); err != nil {
		return err
	}
	out, err := s.keepSaying(q, v, q.PathValue("name"), sent)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// keepSaying keeps a note, or a coach's answer to one. A note is for everybody only when
// each of its words is known to be harmless, or its writer says so and none speaks of the
// body; an answer is as private as what it answers.
func (s *Server) keepSaying(q *http.Request, v visit, sheet string, sent saying) (out note, err error) {
	if err := checkID("note", sent.ID); err != nil {
		return out, err
	}
	if sent.Text == "" || len(sent.Text) > mostNote {
		return out, &roomful.Error{Summary: "saying something under a day: nothing, or too much", Hint: "a few sentences will do"}
	}
	var d desk.Page
	if err := s.view(q, v, func(b *store.Books) (err error) {
		d, err = s.seen(b, v, sheet)
		return err
	}); err != nil {
		return out, err
	}
	open := sent.Open && sent.Answers == "" // of somebody else's body a coach may not say so
	sent.Private = sent.Private || s.tells(d.Document, sent.Text).keeps(open)
	err = s.update(q, v, func(b *store.Books) error {
		n, err := noted(b, v, d.ID, sent)
		if err != nil {
			return err
		}
		if n, err = keepNote(b, n); err != nil {
			return err
		}
		who, err := b.Person(n.Person)
		if err != nil {
			return err
		}
		by, err := writer(b, n)
		out = noteOf(n, who.Name, by)
		return err
	})
	return out, err
}

// noted is a note as it will be kept.
func noted(b *store.Books, v visit, sheet string, sent saying) (store.Note, error) {
	n := store.Note{ID: sent.ID, Document: sheet, Person: v.Account.Person, Answers: sent.Answers, Text: sent.Text, Private: sent.Private}
	if sent.Answers == "" {
		if n.Person == "" {
			return n, &roomful.Error{Summary: "saying something under a day: this account is nobody of the people", Hint: "answer somebody's note, or have the owner invite you as one of the people"}
		}
		return n, nil
	}
	asked, err := findNote(b, sheet, sent.Answers)
	switch {
	case err != nil:
		return n, err
	case !v.May(account.SeeHealth) && !v.is(asked.Person):
		return n, errNotYours
	}
	n.Person, n.Private = asked.Person, n.Private || asked.Private
	return n, nil
}

// tale is what a note says that may not be for everybody.
type tale struct {
	body    bool   // it speaks of the body, or cannot be read
	unknown bool   // it has words that are not known to be harmless
	words   string // those of either
}

// keeps reports whether a note stays between its writer and the coaches, who may say that
// it is open to all.
func (t tale) keeps(open bool) bool { return t.body || t.unknown && !open }

// tells says what a text tells; what cannot be read may tell anything.
func (s *Server) tells(d store.Document, text string) (out tale) {
	got, err := s.read(d, roomful.Athlete{}, "", text)
	if err != nil || got == nil {
		return tale{body: true}
	}
	for _, r := range got.Readings {
		out.body = out.body || r.Body
		out.unknown = out.unknown || len(r.Private) > 0
		out.words = added(out.words, r.Private)
	}
	return out
}

// findNote finds a note under a day.
func findNote(b *store.Books, document, id string) (store.Note, error) {
	all, err := b.Notes(document)
	at := slices.IndexFunc(all, func(n store.Note) bool { return n.ID == id })
	switch {
	case err != nil:
		return store.Note{}, err
	case at < 0:
		return store.Note{}, store.ErrMissing
	}
	return all[at], nil
}

// keepNote writes a note down. The same note sent again changes nothing; another under
// its id is refused.
func keepNote(b *store.Books, n store.Note) (store.Note, error) {
	if err := b.PutNote(n); err != nil {
		return n, err
	}
	kept, err := findNote(b, n.Document, n.ID)
	if err == store.ErrMissing || err == nil && (kept.Text != n.Text || kept.Person != n.Person || kept.Answers != n.Answers) {
		err = store.ErrTaken
	}
	return kept, err
}
