package web

import (
	"net/http"

	"roomful/exchange"
	"roomful/notation"
	"roomful/store"
)

// sheet is a day as it is written.
type sheet struct {
	Name     string `json:"name"`
	Title    string `json:"title"`
	Date     string `json:"date"`
	Revision int64  `json:"revision"`
	Text     string `json:"text,omitempty"`
}

func sheetOf(d store.Document) sheet {
	return sheet{d.Name, d.Title, d.Day.String(), d.Revision, d.Text}
}

// sheets lists the days without their texts.
func (s *Server) sheets(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		Sheets []sheet `json:"sheets"`
	}{[]sheet{}}
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		all, err := tx.In(v.Gym).Documents(store.Sheet)
		for _, d := range all {
			d.Text = ""
			out.Sheets = append(out.Sheets, sheetOf(d))
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// sheet shows a day as it is written.
func (s *Server) sheet(w http.ResponseWriter, q *http.Request, v visit) error {
	var d store.Document
	if err := s.Store.View(q.Context(), func(tx *store.Tx) (err error) {
		d, err = tx.In(v.Gym).Named(store.Sheet, q.PathValue("name"))
		return err
	}); err != nil {
		return err
	}
	return answer(w, sheetOf(d))
}

// saved is what becomes of a text that somebody saves. A stale one is kept aside, and
// what holds comes back beside it, so that its writer can merge the two.
type saved struct {
	Sheet       sheet                 `json:"sheet"` // that holds
	Stale       bool                  `json:"stale"`
	Diagnostics []exchange.Diagnostic `json:"diagnostics"`
}

// saveSheet saves a text, faults and all: what is written is never lost.
func (s *Server) saveSheet(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent saving
	if err := read(q, &sent); err != nil {
		return err
	}
	if err := checkID("sheet", q.PathValue("name")); err != nil {
		return err
	}
	id, err := s.NewID()
	if err != nil {
		return err
	}
	session, ds := notation.Read(sent.Text, s.Lexicon)
	d := store.Document{ID: id, Kind: store.Sheet, Name: q.PathValue("name"), Title: session.Title, Day: session.Date, Text: sent.Text, Revision: sent.Revision}
	out := saved{Diagnostics: exchange.DiagnosticsOf(d.Name, ds)}
	if err := s.Store.Update(q.Context(), s.by(v), func(tx *store.Tx) error {
		got, stale, err := save(tx.In(v.Gym), d)
		out.Sheet, out.Stale = sheetOf(got), stale
		return err
	}); err != nil {
		return err
	}
	if out.Stale {
		return answerWith(w, http.StatusConflict, out)
	}
	return answer(w, out)
}
