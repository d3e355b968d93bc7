package web

import (
	"net/http"

	"roomful"
	"roomful/day"
	"roomful/desk"
	"roomful/exchange"
)

// load says how heavy somebody goes in one line of a day, to them and to coaches.
func (s *Server) load(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	of, got, err := s.ownLoad(q, v, who)
	if err != nil {
		return err
	}
	return answer(w, exchange.OwnLoadOf(got.Piece, got.OwnLoad, of.Unit))
}

// ownLoad works out how heavy somebody goes, and tells who that is.
func (s *Server) ownLoad(q *http.Request, v visit, who string) (roomful.Athlete, day.OwnLoad, error) {
	of := desk.HowHeavy{Who: who, Movement: roomful.MovementID(q.FormValue("movement")), Set: q.FormValue("set")}
	if of.Movement != "" && s.Lexicon.Movement(of.Movement) == nil {
		return roomful.Athlete{}, day.OwnLoad{}, &roomful.Error{Summary: "asking how heavy: there is no such movement", Hint: "leave movement out for the one that the day is about"}
	}
	return s.Desk.OwnLoad(q.Context(), s.askAlone(q, v, who), of)
}
