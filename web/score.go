package web

import (
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/desk"
	"roomful/exchange"
	"roomful/notation"
	"roomful/score"
	"roomful/store"
)

// posted is a score as somebody sends it. Its id is made where it was typed: sent twice
// it is stored once.
type posted struct {
	ID, Person, Sheet, Piece, Text string
	Day                            roomful.Date
}

// stored is a score as it is kept, as far as the one who asks may see it: Text and what
// is private for whose it is and for coaches.
type stored struct {
	ID      string            `json:"id"`
	Person  string            `json:"person"`
	Name    string            `json:"name"`
	Sheet   string            `json:"sheet"`
	Piece   string            `json:"piece"` // empty for the main one
	Day     string            `json:"date"`
	Score   string            `json:"score"`
	Text    *string           `json:"text"`
	Reading *exchange.Reading `json:"reading"`
	// TakenBack: it had come before and was withdrawn, which it stays.
	TakenBack bool `json:"taken_back"`
}

// mostScore bounds the text of a score, which is kept for ever.
const mostScore = 100 << 10

// check refuses a score that is not the visitor's to send, or is none.
func (p posted) check(v visit) error {
	switch {
	case p.Person != v.Account.Person && !v.May(account.PostForOther):
		return errNotYours
	case p.ID == "" || p.Person == "" || p.Sheet == "":
		return &roomful.Error{Summary: "storing a score: whose, of which sheet and under which id", Hint: "send id, sheet and text, and person for somebody else"}
	}
	if len(p.Text) > mostScore {
		return &roomful.Error{Summary: "storing a score: the text is too long to be one", Hint: "say the score first, and the story under the day"}
	}
	return checkID("score", p.ID)
}

// postScore keeps a score, and answers with what it was read as.
func (s *Server) postScore(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent posted
	if err := read(q, &sent); err != nil {
		return err
	}
	if sent.Person == "" {
		sent.Person = v.Account.Person
	}
	if err := sent.check(v); err != nil {
		return err
	}
	out, err := s.keepScore(q, v, sent, "")
	if err != nil {
		return err
	}
	return answer(w, out)
}

// keepScore keeps a score, in the place of another when one is named, and says what it
// was read as.
func (s *Server) keepScore(q *http.Request, v visit, sent posted, instead string) (out stored, err error) {
	d, read, err := s.readEarly(q, v, sent)
	if err != nil {
		return out, err
	}
	var seq int64
	if err := s.update(q, v, func(b *store.Books) error {
		who, err := b.Person(sent.Person)
		if err != nil {
			return err
		}
		if sent.Day.IsZero() {
			if sent.Day, err = s.today(b); err != nil {
				return err
			}
		}
		if instead != "" {
			was, err := withdrawn(b, v, instead)
			if err == nil {
				err = mayReplace(b, was, sent.ID)
			}
			if err != nil {
				return err
			}
		}
		a := store.Attempt{ID: sent.ID, Person: who.ID, Document: d.ID, Edition: d.Edition, Piece: sent.Piece, Day: sent.Day, Text: sent.Text, TypedAt: s.Now(), Read: read}
		if _, err := b.PutAttempt(a); err != nil {
			return err
		}
		if a, err = b.Attempt(a.ID); err == nil {
			out, seq = shown(a, true), a.Seq
			out.Name = who.Name
		}
		return err
	}); err != nil {
		return out, err
	}
	if s.Background != nil {
		s.Background.Arrived(v.Gym, sent.Person, seq)
	}
	return out, nil
}

// readEarly reads a score before it is kept, against the sheet as it is shown: everybody's
// changes are made one after the other, and wait for none that reads.
func (s *Server) readEarly(q *http.Request, v visit, sent posted) (d desk.Page, read *store.Read, err error) {
	var who store.Person
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if who, err = b.Person(sent.Person); err == nil {
			d, err = s.scored(b, v, sent.Sheet)
		}
		return err
	}); err != nil {
		return d, nil, err
	}
	read, err = s.read(d.Document, who.Athlete, sent.Piece, sent.Text)
	return d, read, err
}

// scored finds a sheet by its name as scores of it are read. Of what lies ahead only those
// keep scores who write sheets.
func (s *Server) scored(b *store.Books, v visit, name string) (desk.Page, error) {
	g, err := s.Desk.Open(b, s.Now())
	if err != nil {
		return desk.Page{}, err
	}
	if v.writes() {
		return g.Scored(name)
	}
	return g.Shown(name)
}

// session reads a sheet; false when there is a fault in it.
func (s *Server) session(d store.Document) (roomful.Session, bool) {
	session, ds := notation.Read(d.Text, s.Lexicon)
	return session, !slices.ContainsFunc(ds, func(d roomful.Diagnostic) bool { return d.Severity == roomful.Fault })
}

// read reads a text against its sheet; nil when the sheet cannot be read.
func (s *Server) read(d store.Document, who roomful.Athlete, piece, text string) (*store.Read, error) {
	session, ok := s.session(d)
	if !ok {
		return nil, nil
	}
	if p, ok := session.Asked(piece); ok {
		piece = p.Name()
	}
	got, err := score.Read(score.Asked{Session: session, Piece: piece, Division: who.Division, Unit: who.Unit, Lexicon: s.Lexicon}, text)
	if err != nil {
		return nil, err
	}
	return &store.Read{Readings: got.Readings}, nil
}

// shown is a score as the one who asks may see it.
func shown(a store.Attempt, own bool) stored {
	out := stored{ID: a.ID, Person: a.Person, Sheet: a.Sheet, Piece: a.Piece, Day: a.Day.String(), TakenBack: !a.WithdrawnAt.IsZero()}
	if own {
		out.Text = &a.Text
	}
	if a.Read == nil {
		return out
	}
	readings := slices.Clone(a.Read.Readings)
	var words []string
	for i := range readings {
		if !own {
			readings[i] = readings[i].ForOthers()
		}
		words = append(words, score.Words(readings[i]))
	}
	out.Score = strings.Join(words, "; ")
	one := exchange.AttemptOf(roomful.Attempt{Readings: readings})
	out.Reading = &one
	return out
}
