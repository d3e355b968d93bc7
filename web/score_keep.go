package web

import (
	"net/http"
	"slices"

	"roomful"
	"roomful/desk"
	"roomful/store"
)

// many are scores that a coach keeps at once: each under an id of its own, so that sent
// twice they are kept once.
type many struct {
	Day    roomful.Date `json:"day"` // today when it is left out
	Piece  string       `json:"piece"`
	Scores []oneOfMany  `json:"scores"`

	form string // of the page that they were typed on, whose scores they replace; empty for a program's
}

// oneOfMany is one of them.
type oneOfMany struct {
	ID     string `json:"id"`
	Person string `json:"person"`
	Text   string `json:"text"`
}

// postScores keeps many scores of a day at once, all or none.
func (s *Server) postScores(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent many
	if err := read(q, &sent); err != nil {
		return err
	}
	out, err := s.keepAll(q, v, sent)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// keepAll keeps many scores of the sheet that a path names, all or none.
func (s *Server) keepAll(q *http.Request, v visit, sent many) (listed, error) {
	if n := len(sent.Scores); n == 0 || n > mostScores {
		return listed{}, &roomful.Error{Summary: "storing scores: there is none, or too many", Hint: "send up to 60 at once"}
	}
	name := q.PathValue("name")
	for i, one := range sent.Scores {
		if err := (posted{ID: one.ID, Person: one.Person, Sheet: name, Text: one.Text}).check(v); err != nil {
			return listed{}, err
		}
		if slices.ContainsFunc(sent.Scores[:i], func(o oneOfMany) bool { return o.ID == one.ID }) {
			return listed{}, store.ErrTaken
		}
	}
	var d desk.Page
	if err := s.view(q, v, func(b *store.Books) (err error) {
		d, err = s.scored(b, v, name)
		return err
	}); err != nil {
		return listed{}, err
	}
	out, seqs := listed{Scores: []stored{}}, map[string]int64{}
	if err := s.update(q, v, func(b *store.Books) (err error) {
		if sent.Day.IsZero() {
			if sent.Day, err = s.today(b); err != nil {
				return err
			}
		}
		var gone []string
		if sent.form != "" {
			if gone, err = sent.settle(b, d.ID); err != nil {
				return err
			}
		}
		for _, one := range sent.Scores {
			kept, seq, err := s.keepOne(b, d, sent, one)
			if err == nil && slices.Contains(gone, one.Person) {
				seq, err = b.Seq() // of them less is known now
			}
			if err != nil {
				return err
			}
			out.Scores, seqs[one.Person] = append(out.Scores, kept), seq
		}
		return nil
	}); err != nil {
		return listed{}, err
	}
	if s.Background != nil {
		for _, one := range out.Scores {
			s.Background.Arrived(v.Gym, one.Person, seqs[one.Person])
		}
	}
	return out, nil
}

// keepOne keeps one of many scores.
func (s *Server) keepOne(b *store.Books, d desk.Page, of many, one oneOfMany) (stored, int64, error) {
	who, err := b.Person(one.Person)
	if err != nil {
		return stored{}, 0, err
	}
	got, err := s.read(d.Document, who.Athlete, of.Piece, one.Text)
	if err != nil {
		return stored{}, 0, err
	}
	a := store.Attempt{ID: one.ID, Person: who.ID, Document: d.ID, Edition: d.Edition, Piece: of.Piece, Day: of.Day, Text: one.Text, TypedAt: s.Now(), Read: got}
	if _, err := b.PutAttempt(a); err != nil {
		return stored{}, 0, err
	}
	if a, err = b.Attempt(a.ID); err != nil {
		return stored{}, 0, err
	}
	out := shown(a, true)
	out.Name = who.Name
	return out, a.Seq, nil
}
