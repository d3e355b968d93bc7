package web

import (
	"net/http"
	"slices"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
)

// load says how heavy somebody goes in one line of a day, to them and to coaches.
func (s *Server) load(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	end, err := turn(q.Context())
	if err != nil {
		return err
	}
	defer end()
	ask, err := s.askOf(q, v, who)
	if err != nil {
		return err
	}
	of := day.LoadQuestion{Question: ask.Question, Movement: roomful.MovementID(q.FormValue("movement"))}
	if of.Who, err = ask.athlete(who); err != nil {
		return err
	}
	if of.Movement != "" && s.Lexicon.Movement(of.Movement) == nil {
		return &roomful.Error{Summary: "asking how heavy: there is no such movement", Hint: "leave movement out for the one that the day is about"}
	}
	if of.Set, err = roomful.ReadKnownSet(q.FormValue("set"), of.Who.Unit); err != nil {
		return err
	}
	got, err := ask.OwnLoad(q.Context(), of)
	if err != nil {
		return err
	}
	return answer(w, exchange.OwnLoadOf(got.Piece, got.OwnLoad, of.Who.Unit))
}

// athlete is one of those whom a question is about.
func (a asked) athlete(id string) (roomful.Athlete, error) {
	i := slices.IndexFunc(a.People, func(one roomful.Athlete) bool { return one.ID == id })
	if i < 0 {
		return roomful.Athlete{}, store.ErrMissing
	}
	return a.People[i], nil
}
