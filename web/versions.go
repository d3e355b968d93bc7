package web

import (
	"net/http"
	"slices"

	"roomful/account"
	"roomful/desk"
	"roomful/exchange"
)

// ask makes a question of a request: the sheet by its name, the piece and the class by
// "piece" and "class". Without a class it is about everybody who comes; of more than fit
// into one answer a member gets their own.
func (s *Server) ask(q *http.Request, v visit) desk.Ask {
	out := desk.Ask{Gym: v.Gym, Now: s.Now(), Sheet: q.PathValue("name"), Class: q.FormValue("class"), Piece: q.FormValue("piece"), Home: q.FormValue("home") != "", Shown: !v.writes()}
	if !v.May(account.SeeHealth) {
		out.Alone = v.Account.Person
	}
	return out
}

// askAlone is ask about one of the people, alone where there are more than fit.
func (s *Server) askAlone(q *http.Request, v visit, who string) desk.Ask {
	out := s.ask(q, v)
	out.Alone = who
	return out
}

// versions shows what everybody does of a day: to coaches all of it, to anybody else the
// options and their own.
func (s *Server) versions(w http.ResponseWriter, q *http.Request, v visit) error {
	got, err := s.Desk.Versions(q.Context(), s.ask(q, v))
	if err != nil {
		return err
	}
	out := exchange.LineupOf(got.Piece, got.Effort, got.Lineup)
	if !v.May(account.SeeHealth) {
		forOne(&out, v.Account.Person)
	}
	return answer(w, out)
}

// forOne leaves of an answer what one of the people may see: the options without who does
// them, and their own version in words, without probabilities.
func forOne(out *exchange.Lineup, person string) {
	out.Attention = []exchange.Attention{}
	for i := range out.Options {
		out.Options[i].People = []string{}
	}
	out.Athletes = slices.DeleteFunc(out.Athletes, func(a exchange.Version) bool { return a.ID != person })
	for i := range out.Athletes {
		out.Athletes[i].Forecast = nil
	}
}

// hour shows the class minute by minute.
func (s *Server) hour(w http.ResponseWriter, q *http.Request, v visit) error {
	got, hour, err := s.Desk.Hour(q.Context(), s.ask(q, v))
	if err != nil {
		return err
	}
	names := map[string]string{}
	for _, a := range got.Question.People {
		names[a.ID] = a.Name
	}
	return answer(w, exchange.HourOf(hour, got.Start, func(id string) string { return names[id] }))
}
