package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"roomful"
	"roomful/picture"
	"roomful/web/page"
)

// loadPage answers how heavy somebody goes in a line of a day, with a set that they
// remember when they tell one.
func (s *Server) loadPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	head, query, frame, err := s.sheetHead(q, v, "/", "How heavy?")
	if err != nil {
		return err
	}
	body := page.MyLoad{DayHead: head, Person: who, Query: query, Class: q.FormValue("class"), Set: strings.TrimSpace(q.FormValue("set"))}
	of, got, err := s.ownLoad(q, v, who)
	status := http.StatusOK
	var wrong *roomful.Error
	var refused *refusal
	if errors.As(err, &wrong) && !errors.As(err, &refused) {
		body.Wrong, status = said2(wrong), http.StatusBadRequest
		q.Form.Set("set", "")
		q.Form.Set("movement", "")
		of, got, err = s.ownLoad(q, v, who)
	}
	if err != nil {
		return err
	}
	body.Whose, body.Movement = otherName(v, who, of.Name), string(got.Movement)
	s.fillLoad(&body, got.OwnLoad, of.Unit)
	if body.Differs, err = s.besideDay(q, v, who, got.OwnLoad, wording{s.Lexicon, of.Unit}); err != nil {
		return err
	}
	for _, e := range got.Piece.All() {
		if m := s.Lexicon.Movement(e.Movement); m != nil && m.TakesLoad() && e.Load != nil {
			path := "/sheets/" + url.PathEscape(head.Name) + "/load/" + url.PathEscape(who) + "?movement=" + url.QueryEscape(string(m.ID)) + strings.Replace(query, "?", "&", 1)
			body.Others = append(body.Others, page.MyOther{Name: m.Plural, Path: path, Here: m.ID == got.Movement})
		}
	}
	return s.show(w, status, frame, body)
}

// besideDay says so when the day has another load for the same line: it rests on everybody's
// scores together, and the answer on one's own last ones.
func (s *Server) besideDay(q *http.Request, v visit, who string, l roomful.OwnLoad, w wording) (string, error) {
	got, err := s.Desk.Versions(q.Context(), s.askAlone(q, v, who))
	if roomful.HintOf(err) != "" || l.Load.Value == 0 {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	for _, o := range got.Lineup.Versions {
		for _, c := range o.Choices {
			if o.Athlete != who || c.Movement != l.Movement || c.Load == l.Load || c.Load.Value == 0 {
				continue
			}
			own, _ := w.mass(c.Load)
			return fmt.Sprintf("The day has %s, by everybody’s scores together. This goes by the last scores of one alone. The proof set decides.", own), nil
		}
	}
	return "", nil
}

// fillLoad writes the answer.
func (s *Server) fillLoad(body *page.MyLoad, l roomful.OwnLoad, unit roomful.MassUnit) {
	w := wording{s.Lexicon, unit}
	m := mine{wording: w}
	body.Of, body.Stop, body.Caution, body.None = capital(w.called(l.Movement)), l.Refer, l.Cautions, asSentence(l.None)
	if l.Refer != "" {
		return
	}
	if l.Found {
		body.Found = "There is no weight to aim at: build up to today’s. " + asSentence(l.StopRule)
	} else if l.None == "" {
		body.Load, body.Other = w.load(l.Task)
		body.Band = w.band(l.Choice)
	}
	if l.Bar != nil {
		side := roomful.SideLoad{Movement: l.Movement, Bar: l.Bar.Bar, PerSide: l.Bar.PerSide}
		body.Bar, body.BarSays = picture.Bar(side).SVG("bar"), barWords(side)
	}
	if l.Proof != nil {
		body.Proof = asSentence(l.Proof.Say)
	}
	if l.BuildUp != nil {
		body.Ramp = m.ramp(l.BuildUp)
	}
	body.Why, body.Private = asSentence(l.Why), asSentence(l.Private)
	switch l.Confidence {
	case roomful.High:
		body.Sure = "This is well known of you."
	case roomful.Fair:
		body.Sure = "This is fairly well known of you."
	case roomful.Low:
		body.Sure = "Little is known of you here: start light, and let the proof set decide."
	}
	if l.Surer != "" {
		body.Sure += " It would be surer with " + strings.TrimSuffix(l.Surer, ".") + "."
	}
	body.Last = w.last(l.Last)
}

// band says which other loads would do, in the unit that they think in.
func (w wording) band(c roomful.Choice) string {
	if c.Low.Value == 0 || c.High.Value == 0 || c.Low == c.High {
		return ""
	}
	low, _ := w.mass(c.Low)
	high, _ := w.mass(c.High)
	return fmt.Sprintf("Anything from %s to %s would do.", low, high)
}

// last says what they lifted the last time, and how it went.
func (w wording) last(l *roomful.LastLoad) string {
	if l == nil || l.Load.Value == 0 {
		return ""
	}
	own, _ := w.mass(l.Load)
	words := fmt.Sprintf("The last time, on %s, you had %s and scored %s", inWords(l.On), own, l.Score)
	switch {
	case l.Off < 0:
		words += ", which was harder than meant"
	case l.Off > 0:
		words += ", which was easier than meant"
	}
	return words + "."
}
