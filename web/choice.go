package web

import (
	"net/http"
	"slices"

	"roomful"
	"roomful/account"
	"roomful/day"
	"roomful/desk"
	"roomful/exchange"
	"roomful/store"
)

// choices are the options of a day as one person would do them, and what they do now.
type choices struct {
	Person string            `json:"person"`
	Name   string            `json:"name"`
	Piece  string            `json:"piece"`
	Now    *exchange.Version `json:"now"`     // null for who is referred out
	Expect *string           `json:"expect"`  // where that would end beside the effort, in words
	Set    *override         `json:"set"`     // null when nothing was set by hand
	SetBy  *string           `json:"set_by"`  // whose word that is, by name
	MaySet bool              `json:"may_set"` // the one who asks may change it
	// BeneathBy is whose word holds again when what was set is dropped, by name; null for
	// nobody's. MayDrop says that the one who asks may drop it.
	BeneathBy *string `json:"beneath_by"`
	MayDrop   bool    `json:"may_drop"`

	All []exchange.Alternative `json:"options"`
}

// choices shows what somebody would do on each option of a day, to them and to coaches.
func (s *Server) choices(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	got, err := s.choosing(q, v, chooser{who: who, piece: q.FormValue("piece"), home: q.FormValue("home") != ""})
	if err != nil {
		return err
	}
	out, err := s.choicesOf(q, v, got)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// chooser is who may choose of which piece.
type chooser struct {
	who, piece string
	home       bool
}

// chosen is what somebody may do of a day, and what they do now.
type chosen struct {
	*desk.Worked
	who string
	all day.Choices
}

// choosing works out what somebody may do.
func (s *Server) choosing(q *http.Request, v visit, of chooser) (c chosen, err error) {
	ask := s.askAlone(q, v, of.who)
	ask.Piece, ask.Home, c.who = of.piece, of.home, of.who
	c.Worked, c.all, err = s.Desk.Choices(q.Context(), ask, of.who)
	return c, err
}

// version is what they do now.
func (c chosen) version() roomful.Version {
	i := slices.IndexFunc(c.Lineup.Versions, func(o roomful.Version) bool { return o.Athlete == c.who })
	return c.Lineup.Versions[i]
}

// choicesOf is what may be chosen as the one who asks may see it: members in words, without
// forecasts.
func (s *Server) choicesOf(q *http.Request, v visit, c chosen) (choices, error) {
	now := c.version()
	out := choices{Person: c.who, Name: now.Name, Piece: c.all.Piece.Name(), MaySet: true, All: exchange.AlternativesOf(c.all.Piece, c.all.Alternatives, now.Option)}
	line := exchange.LineupOf(c.Piece, c.Effort, roomful.Lineup{Versions: []roomful.Version{now}})
	if now.Stop == "" {
		out.Now = &line.Athletes[0]
	}
	if words := c.Day.Expect(c.Versions, now); words != "" {
		out.Expect = &words
	}
	if !v.May(account.SeeHealth) {
		for i := range out.All {
			if of := out.All[i].Version; of != nil {
				of.Forecast = nil
			}
		}
		if out.Now != nil {
			out.Now.Forecast = nil
		}
	}
	err := s.view(q, v, func(b *store.Books) error {
		d, err := s.seen(b, v, q.PathValue("name"))
		if err != nil {
			return err
		}
		o, by, err := setFor(b, d.Document, c.Question.Session, c.all.Piece, c.who)
		if err != nil || o == nil {
			return err
		}
		one := overrideOf(*o, now.Name)
		out.Set, out.SetBy, out.MayDrop = &one, &by.Name, v.May(account.Override) || desk.OwnChoice(by, *o)
		holds, under, err := holding(b, o, by)
		if out.MaySet = out.MayDrop && coachesWord(v, under, holds) == nil; o.Beneath != nil {
			out.BeneathBy = &under.Name
		}
		return err
	})
	return out, err
}

// accountsByID are all accounts.
func accountsByID(b *store.Books) (map[string]store.Account, error) {
	all, err := b.Accounts()
	out := map[string]store.Account{}
	for _, a := range all {
		out[a.ID] = a
	}
	return out, err
}
