package web

import (
	"net/http"

	"roomful/account"
	"roomful/desk"
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
	Edition  string `json:"edition"` // whose text it is; empty for what was never published
	Shown    bool   `json:"shown"`   // members see it, or an edition of it
}

func sheetOf(p desk.Page) sheet {
	return sheet{p.Name, p.Title, p.Day.String(), p.Revision, p.Text, p.Edition, p.Shown}
}

// writes reports whether the visitor sees sheets as they are written. Everybody else sees
// what was published, and what the day has brought.
func (v visit) writes() bool { return v.May(account.EditSheets) }

// seen finds a sheet by its name as the visitor may see it.
func (s *Server) seen(b *store.Books, v visit, name string) (desk.Page, error) {
	g, err := s.Desk.Open(b, s.Now())
	if err != nil {
		return desk.Page{}, err
	}
	return g.Seen(name, v.writes())
}

// allSeen are all sheets that the visitor may see, as they may see them.
func (s *Server) allSeen(b *store.Books, v visit) ([]desk.Page, error) {
	g, err := s.Desk.Open(b, s.Now())
	if err != nil {
		return nil, err
	}
	return g.Sheets(v.writes())
}

// sheets lists the days without their texts.
func (s *Server) sheets(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		Sheets []sheet `json:"sheets"`
	}{[]sheet{}}
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		all, err := s.allSeen(tx.In(v.Gym), v)
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
	var d desk.Page
	if err := s.Store.View(q.Context(), func(tx *store.Tx) (err error) {
		d, err = s.seen(tx.In(v.Gym), v, q.PathValue("name"))
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
	d, stale, err := s.keepSheet(q, v, q.PathValue("name"), sent.Text, sent.Revision)
	if err != nil {
		return err
	}
	_, ds := notation.Read(sent.Text, s.Lexicon)
	out := saved{Stale: stale, Diagnostics: exchange.DiagnosticsOf(d.Name, ds)}
	out.Sheet = sheetOf(desk.Page{Document: d})
	if err := s.view(q, v, func(b *store.Books) error {
		now, err := s.seen(b, v, d.Name)
		if err == nil && now.Text == d.Text {
			out.Sheet = sheetOf(now)
		}
		return err
	}); err != nil {
		return err
	}
	if out.Stale {
		return answerWith(w, http.StatusConflict, out)
	}
	return answer(w, out)
}
