package web

import (
	"context"
	"errors"
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/desk"
	"roomful/exchange"
	"roomful/web/page"
)

// otherwise tells who would do otherwise of a published day.
func (s *Server) otherwise(w http.ResponseWriter, q *http.Request, v visit) error {
	all, _, err := s.Desk.Otherwise(q.Context(), s.ask(q, v), true)
	if err != nil {
		return err
	}
	out := exchange.OtherwiseDay{Otherwise: []exchange.Otherwise{}}
	for _, o := range all {
		out.Otherwise = append(out.Otherwise, exchange.OtherwiseOf(o.Piece, o.Then, o.Now))
	}
	return answer(w, out)
}

// moved adds who would do otherwise of a published day; what is not at hand follows, unless
// the page waits for it.
func (s *Server) moved(ctx context.Context, ask desk.Ask, c coachDay, out *page.DayWork, wait bool) error {
	if ask.Text != "" {
		return nil
	}
	all, later, err := s.Desk.Otherwise(ctx, ask, wait)
	var plain *roomful.Error
	if errors.As(err, &plain) { // the day stands without it
		return nil
	}
	out.Looking = later
	several := len(c.got.Question.Session.Pieces()) > 1
	for _, o := range all {
		i := slices.IndexFunc(out.Otherwise, func(n page.DayNeed) bool { return n.ID == o.Then.Athlete })
		if i < 0 {
			i = len(out.Otherwise)
			out.Otherwise = append(out.Otherwise, page.DayNeed{ID: o.Then.Athlete, Name: o.Then.Name})
		}
		says := c.instead(o)
		if several {
			says = o.Piece.Name() + ": " + says
		}
		out.Otherwise[i].Why = append(out.Otherwise[i].Why, asSentence(says))
	}
	return err
}

// instead says what somebody would do now, and instead of what.
func (c coachDay) instead(o desk.Otherwise) string {
	w := wording{c.lexicon, c.people[o.Then.Athlete].Unit}
	then, now := o.Then.Work.All(), o.Now.Work.All()
	var says []string
	for i := range now {
		switch {
		case i >= len(then):
			says = append(says, w.line(now[i], o.Piece.Format)+" too")
		case w.line(now[i], o.Piece.Format) != w.line(then[i], o.Piece.Format):
			says = append(says, w.insteadOf(now[i], then[i], o.Piece.Format))
		}
	}
	for i := len(now); i < len(then); i++ {
		says = append(says, "no "+w.called(then[i].Movement))
	}
	if o.Now.Dose.Say != o.Then.Dose.Say {
		says = append(says, capital(o.Now.Dose.Say))
	}
	if o.Now.Option != o.Then.Option {
		says = append([]string{"on “" + o.Now.Option + "” instead of “" + o.Then.Option + "”"}, says...)
	}
	if len(says) == 0 {
		return "the same, done otherwise"
	}
	return strings.Join(says, "; ")
}

// insteadOf writes a line that would be done, and what it would be done instead of, as
// short as the two allow.
func (w wording) insteadOf(now, then roomful.Task, f roomful.Format) string {
	load, _ := w.load(now)
	was, _ := w.load(then)
	switch {
	case now.Movement == then.Movement && load == was && now.Amount != then.Amount:
		return w.amount(now, f) + " " + w.name(now) + " instead of " + w.amount(then, f)
	case now.Movement == then.Movement && now.Amount == then.Amount && load != "" && was != "":
		return w.called(now.Movement) + " " + load + " instead of " + was
	}
	return w.line(now, f) + " instead of " + w.line(then, f)
}
