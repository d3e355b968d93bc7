package web

import (
	"context"
	"fmt"
	"net/http"
	"runtime"
	"slices"
	"time"

	"roomful"
	"roomful/account"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
)

// mostAsked is for how many people a day is worked out at once: a class, or two that
// come together. A whole gym never stands in one room.
const mostAsked = 60

// mostLines is how long a piece may be for its day to be worked out: three times as many
// take twenty times as long. A day has a dozen.
const mostLines = 100

// atWork are the days that are worked out at once, as many as there are processors for:
// others wait their turn, with nothing at hand yet.
var atWork = make(chan struct{}, runtime.GOMAXPROCS(0))

// turn waits until a day can be worked out, and returns what ends it.
func turn(ctx context.Context) (end func(), err error) {
	select {
	case atWork <- struct{}{}:
		return func() { <-atWork }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// asked is a question about a day that somebody asks.
type asked struct {
	day.Question
	*day.Day
	start time.Duration  // of the class, since midnight
	sheet store.Document // that it is about
}

// ask makes a question of a request: the sheet by its name, the piece and the class by
// "piece" and "class". Without a class it is about everybody who comes.
func (s *Server) ask(q *http.Request, v visit) (asked, error) {
	alone := ""
	if !v.May(account.SeeHealth) {
		alone = v.Account.Person
	}
	return s.askOf(q, v, alone)
}

// askOf is ask, about somebody alone when more would come than a day is worked out for.
func (s *Server) askOf(q *http.Request, v visit, alone string) (asked, error) {
	var out asked
	err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		b := tx.In(v.Gym)
		g, err := s.Desk.Open(b, s.Now())
		if err != nil {
			return err
		}
		sheet, err := b.Named(store.Sheet, q.PathValue("name"))
		if err != nil {
			return err
		}
		people := g.People
		if id := q.FormValue("class"); id != "" {
			if people, out.start, err = inClass(b, id, g.People); err != nil {
				return err
			}
		}
		if alone != "" && len(people) > mostAsked {
			people = slices.DeleteFunc(slices.Clone(people), func(a roomful.Athlete) bool { return a.ID != alone })
		}
		if len(people) > mostAsked {
			return &roomful.Error{Summary: fmt.Sprintf("working a day out for %d people", len(people)), Hint: fmt.Sprintf("name a class: up to %d fit into one answer", mostAsked)}
		}
		out.Day, out.sheet = g.Day, sheet
		session, faults := g.Session(q.Context(), sheet)
		if faults > 0 {
			return &roomful.Error{Summary: "working out " + sheet.Name + ": the sheet has faults", Hint: "save it once more: the answer lists them"}
		}
		for _, p := range session.Pieces() {
			if n := len(p.Once) + len(p.Round) + len(p.Last); n > mostLines {
				return &roomful.Error{Summary: fmt.Sprintf("working out %s: %s has %d lines", sheet.Name, p.Name(), n), Hint: fmt.Sprintf("write it in up to %d", mostLines)}
			}
		}
		if out.Question, err = g.Question(session, people); err != nil {
			return err
		}
		out.Piece = q.FormValue("piece")
		out.ByHand, err = byHand(b, sheet.ID)
		return err
	})
	return out, err
}

// inClass are those who have a place in a class, and when it begins.
func inClass(b *store.Books, id string, people []roomful.Athlete) (in []roomful.Athlete, start time.Duration, err error) {
	class, err := b.Class(id)
	if err != nil {
		return nil, 0, err
	}
	places, err := b.SignUps(id)
	if err != nil {
		return nil, 0, err
	}
	for _, a := range people {
		if slices.ContainsFunc(places, func(p store.SignUp) bool { return p.Person == a.ID && p.State == store.In }) {
			in = append(in, a)
		}
	}
	if len(in) == 0 {
		return nil, 0, &roomful.Error{Summary: "nobody has a place in that class yet", Hint: "ask again when somebody has, or about everybody"}
	}
	at, err := time.Parse("15:04", class.Start)
	return in, time.Duration(at.Hour())*time.Hour + time.Duration(at.Minute())*time.Minute, err
}

// versions shows what everybody does of a day: to coaches all of it, to anybody else the
// options and their own.
func (s *Server) versions(w http.ResponseWriter, q *http.Request, v visit) error {
	end, err := turn(q.Context())
	if err != nil {
		return err
	}
	defer end()
	ask, err := s.ask(q, v)
	if err != nil {
		return err
	}
	got, err := ask.Versions(q.Context(), ask.Question, q.FormValue("home") != "")
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
	end, err := turn(q.Context())
	if err != nil {
		return err
	}
	defer end()
	ask, err := s.ask(q, v)
	if err != nil {
		return err
	}
	got, err := ask.Hour(q.Context(), day.HourQuestion{Question: ask.Question})
	if err != nil {
		return err
	}
	names := map[string]string{}
	for _, a := range ask.People {
		names[a.ID] = a.Name
	}
	return answer(w, exchange.HourOf(got, ask.start, func(id string) string { return names[id] }))
}
