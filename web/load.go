package web

import (
	"net/http"

	"roomful"
	"roomful/day"
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
	return answer(w, exchange.OwnLoadOf(got.Piece, got.OwnLoad, of.Who.Unit))
}

// ownLoad works out how heavy somebody goes.
func (s *Server) ownLoad(q *http.Request, v visit, who string) (of day.LoadQuestion, got day.OwnLoad, err error) {
	end, err := s.Desk.Turn(q.Context())
	if err != nil {
		return of, got, err
	}
	defer end()
	ask, err := s.Desk.Asked(q.Context(), s.askAlone(q, v, who))
	if err != nil {
		return of, got, err
	}
	of = day.LoadQuestion{Question: ask.Question, Movement: roomful.MovementID(q.FormValue("movement"))}
	if of.Who, err = ask.Person(who); err != nil {
		return of, got, err
	}
	if of.Movement != "" && s.Lexicon.Movement(of.Movement) == nil {
		return of, got, &roomful.Error{Summary: "asking how heavy: there is no such movement", Hint: "leave movement out for the one that the day is about"}
	}
	if of.Set, err = roomful.ReadKnownSet(q.FormValue("set"), of.Who.Unit); err != nil {
		return of, got, err
	}
	got, err = ask.Day.OwnLoad(q.Context(), of)
	return of, got, err
}
