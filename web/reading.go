package web

import (
	"net/http"
	"slices"

	"roomful"
	"roomful/account"
	"roomful/day"
	"roomful/exchange"
	"roomful/score"
	"roomful/store"
)

// typing is a score as it is being typed.
type typing struct {
	Piece  string `json:"piece"`
	Person string `json:"person"` // oneself when it is empty
	Text   string `json:"text"`
}

// typed is what a score says that is not kept yet, for whose it is and for coaches.
type typed struct {
	Reading  exchange.Reading `json:"reading"`
	Words    string           `json:"words"`    // "Read as: 5 rounds + 24"
	Question *string          `json:"question"` // null when nothing is to be asked
	Beside   []beside         `json:"beside"`   // the last attempt, piece by piece
}

// beside is how a score stands beside the last attempt, in words.
type beside struct {
	Piece    string   `json:"piece"`
	Tier     string   `json:"tier"` // same, one-change, different-work, not-comparable
	Sentence string   `json:"sentence"`
	Changed  []string `json:"changed"`
	Date     string   `json:"date"`  // of the last attempt
	Score    string   `json:"score"` // of the last attempt
}

// readTyped reads a score as it is being typed, and keeps nothing.
func (s *Server) readTyped(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent typing
	if err := read(q, &sent); err != nil {
		return err
	}
	if sent.Person == "" {
		sent.Person = v.Account.Person
	}
	if sent.Person != v.Account.Person && !v.May(account.PostForOther) {
		return errNotYours
	}
	if len(sent.Text) > mostScore {
		return errLongScore
	}
	g, of, err := s.typedQuestion(q, v, sent.Person)
	if err != nil {
		return err
	}
	of.Piece, of.Text = sent.Piece, sent.Text
	got, err := g.Typed(q.Context(), of)
	if err != nil {
		return err
	}
	return answer(w, typedOf(got))
}

// errLongScore refuses a text that is no score.
var errLongScore = &roomful.Error{Summary: "storing a score: the text is too long to be one", Hint: "say the score first, and the story under the day"}

// typedOf turns what was typed into JSON.
func typedOf(got day.Typed) typed {
	out := typed{Reading: exchange.AttemptOf(got.Attempt), Beside: []beside{}}
	for i, p := range got.Pieces {
		if out.Words += p.Words; i+1 < len(got.Pieces) {
			out.Words += "; "
		}
		if ask := p.Reading.Question; ask != nil && out.Question == nil {
			out.Question = &ask.Ask
		}
		if c := p.Compared; c != nil {
			out.Beside = append(out.Beside, beside{Piece: p.Done.Piece.Name(), Tier: string(c.Tier), Sentence: c.Sentence, Changed: append([]string{}, c.Changed...),
				Date: c.Earlier.On.String(), Score: score.Words(c.Earlier.Reading)})
		}
	}
	out.Words = "Read as: " + out.Words
	return out
}

// typedQuestion lays out what is known for a score of somebody on a sheet: the sheet, who
// they are and what they scored at the same piece before.
func (s *Server) typedQuestion(q *http.Request, v visit, who string) (g *day.Day, of day.TypedQuestion, err error) {
	err = s.view(q, v, func(b *store.Books) error {
		gym, err := s.Desk.Open(b, s.Now())
		if err != nil {
			return err
		}
		d, err := s.scored(b, v, q.PathValue("name"))
		if err != nil {
			return err
		}
		i := slices.IndexFunc(gym.People, func(a roomful.Athlete) bool { return a.ID == who })
		if i < 0 {
			return store.ErrMissing
		}
		session, faults := gym.Session(q.Context(), d.Document)
		if faults > 0 {
			return &roomful.Error{Summary: "reading a score: the sheet has faults", Hint: "it can be kept as it is typed, and is read when the sheet is mended"}
		}
		g, of = gym.Day, day.TypedQuestion{Session: session, Sheet: d.Name, Who: gym.People[i], People: gym.People, On: gym.Today, Seed: 1, Workers: 1}
		if of.Past, of.Believed, err = gym.Earlier(session, of.Who); err != nil {
			return err
		}
		of.ByHand, err = gym.ByHand(d.ID)
		return err
	})
	return g, of, err
}

// target is the number to match or beat on a piece.
type target struct {
	Person string         `json:"person"`
	Piece  string         `json:"piece"`
	Beat   *exchange.Beat `json:"beat"`  // null when there is no earlier score
	Date   *string        `json:"date"`  // of the last attempt
	Score  *string        `json:"score"` // of the last attempt
}

// beat says what there is to match or beat on a day, before any score of it.
func (s *Server) beat(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	g, of, err := s.typedQuestion(q, v, who)
	if err != nil {
		return err
	}
	of.Piece = q.FormValue("piece")
	last, t, known, err := g.Beat(q.Context(), of)
	if err != nil {
		return err
	}
	out := target{Person: who}
	if part, ok := of.Session.Asked(of.Piece); ok {
		out.Piece = part.Name()
	}
	if known {
		b, on, words := exchange.BeatOf(t), last.On.String(), score.Words(last.Reading)
		out.Beat, out.Date, out.Score = &b, &on, &words
	}
	return answer(w, out)
}
