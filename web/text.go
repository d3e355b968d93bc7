package web

import (
	"errors"
	"net/http"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/store"
)

// text is one of the texts that a gym has one of: its kit, its settings.
type text struct {
	Revision    int64                 `json:"revision"`
	Text        string                `json:"text"` // that holds
	Stale       bool                  `json:"stale"`
	Diagnostics []exchange.Diagnostic `json:"diagnostics"`
}

// saving is a text that somebody saves, and the revision that it was written from.
type saving struct {
	Text     string `json:"text"`
	Revision int64  `json:"revision"`
}

// kit shows what the gym owns.
func (s *Server) kit(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.text(w, q, v, store.Kit)
}

// settings shows how the gym likes things.
func (s *Server) settings(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.text(w, q, v, store.Settings)
}

// text shows a text that a gym has one of; an empty one while it has none.
func (s *Server) text(w http.ResponseWriter, q *http.Request, v visit, kind string) error {
	out := text{Diagnostics: []exchange.Diagnostic{}}
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := textNow(b, kind)
		out.Revision, out.Text = d.Revision, d.Text
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// textNow is a text as it holds; an empty one while there is none.
func textNow(b *store.Books, kind string) (store.Document, error) {
	d, err := b.Named(kind, kind)
	if errors.Is(err, store.ErrMissing) {
		err = nil
	}
	return d, err
}

// saveKit saves what the gym owns.
func (s *Server) saveKit(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.saveText(w, q, v, store.Kit, s.checkOf(store.Kit))
}

// saveSettings saves how the gym likes things; a zone that they name is the gym's.
func (s *Server) saveSettings(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.saveText(w, q, v, store.Settings, s.checkOf(store.Settings))
}

// checkOf is how a text of a kind is read.
func (s *Server) checkOf(kind string) checked {
	return func(text string) (zone string, ds []roomful.Diagnostic) {
		if kind == store.Kit {
			_, ds = exchange.ReadKit(strings.NewReader(text))
			return "", ds
		}
		gym, ds := exchange.ReadGym(strings.NewReader(text), s.Lexicon)
		return string(gym.Zone), ds
	}
}

// checked reads a text: the zone that it names, and what is wrong with it.
type checked func(text string) (zone string, ds []roomful.Diagnostic)

// saveText saves a text when there is no fault in it. A stale one is kept aside, and what
// holds comes back, so that its writer can merge the two.
func (s *Server) saveText(w http.ResponseWriter, q *http.Request, v visit, kind string, check checked) error {
	var sent saving
	if err := read(q, &sent); err != nil {
		return err
	}
	out, err := s.keepText(q, v, kind, sent, check)
	switch {
	case err != nil:
		return err
	case faults(out.Diagnostics):
		return answerWith(w, http.StatusUnprocessableEntity, out)
	case out.Stale:
		return answerWith(w, http.StatusConflict, out)
	}
	return answer(w, out)
}

// keepText is saveText without its answer.
func (s *Server) keepText(q *http.Request, v visit, kind string, sent saving, check checked) (text, error) {
	zone, ds := check(sent.Text)
	out := text{Revision: sent.Revision, Text: sent.Text, Diagnostics: exchange.DiagnosticsOf(kind, ds)}
	if faults(out.Diagnostics) {
		return out, nil
	}
	id, err := s.NewID()
	if err != nil {
		return out, err
	}
	err = s.update(q, v, func(b *store.Books) error {
		if now, err := textNow(b, kind); err != nil || now.Revision > sent.Revision && now.Text == sent.Text {
			out.Revision = now.Revision // sent twice, or two have written the same
			return err
		}
		d, stale, err := save(b, store.Document{ID: id, Kind: kind, Name: kind, Text: sent.Text, Revision: sent.Revision})
		if err != nil {
			return err
		}
		out.Revision, out.Text, out.Stale = d.Revision, d.Text, stale
		gym, err := b.Gym()
		if err != nil || stale || zone == "" || zone == gym.Zone {
			return err
		}
		return b.Rename(gym.Name, zone)
	})
	return out, err
}

// save saves a document under its name, whichever id it has.
func save(b *store.Books, d store.Document) (store.Document, bool, error) {
	if now, err := b.Named(d.Kind, d.Name); err == nil {
		d.ID = now.ID
	} else if !errors.Is(err, store.ErrMissing) {
		return d, false, err
	}
	return b.Save(d)
}

// revision is something that a sheet was, or that waits beside it.
type revision struct {
	N       int64  `json:"n"`
	Base    int64  `json:"base"`  // that it was written from
	Aside   bool   `json:"aside"` // somebody else was faster: to be merged
	Account string `json:"account"`
	At      string `json:"at"`
	Text    string `json:"text"`
}

// revisions lists all that a sheet was.
func (s *Server) revisions(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		Revisions []revision `json:"revisions"`
	}{[]revision{}}
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, q.PathValue("name"))
		if err != nil {
			return err
		}
		all, err := b.Revisions(d.ID)
		for _, r := range all {
			out.Revisions = append(out.Revisions, revision{r.N, r.Base, r.Aside, r.Account, instant(r.At), r.Text})
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}
