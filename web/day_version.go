package web

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/desk"
	"roomful/picture"
	"roomful/store"
	"roomful/web/page"
)

// versionPart is somebody's version in its place on the day.
func (s *Server) versionPart(w http.ResponseWriter, q *http.Request, v visit) error {
	who := q.PathValue("person")
	if err := s.view(q, v, func(b *store.Books) error {
		_, _, err := overridden(b, q)
		return err
	}); err != nil {
		return err
	}
	if q.Header.Get("HX-Request") != "true" { // a link that was opened on its own
		return next(w, q, dayPath(q, "open", who)+"#p-"+who)
	}
	body, err := s.versionOf(q, v, s.askAbout(q, v, q.PathValue("name")), who)
	if err != nil {
		return err
	}
	return s.showPart(w, body)
}

// versionOf is what somebody does of a day, for a coach.
func (s *Server) versionOf(q *http.Request, v visit, ask desk.Ask, who string) (*page.DayVersion, error) {
	got, err := s.Desk.Versions(q.Context(), ask)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(got.Lineup.Versions, func(o roomful.Version) bool { return o.Athlete == who })
	if at < 0 {
		return nil, store.ErrMissing
	}
	c := coachDay{lexicon: s.Lexicon, got: got, people: map[string]roomful.Athlete{}}
	for _, a := range got.Question.People {
		c.people[a.ID] = a
	}
	out := c.version(got.Lineup.Versions[at])
	out.Name, out.Query = ask.Sheet, queryOf(ask.Class, ask.Piece)
	if out.Others, err = s.others(q, v, who, ask.Piece); err != nil {
		return nil, err
	}
	if out.Word, err = s.wordOn(q, v, got, ask.Sheet, who); err != nil || out.Word == nil {
		return out, err
	}
	for i := range out.Lines {
		if out.Lines[i].Private == out.Word.Reason { // which stands above them
			out.Lines[i].Private = ""
		}
	}
	return out, nil
}

// wordOn is what was set by hand for somebody of the piece that is looked at; nil for
// nothing.
func (s *Server) wordOn(q *http.Request, v visit, got *desk.Worked, sheet, who string) (out *page.DayWord, err error) {
	err = s.view(q, v, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, sheet)
		if err != nil {
			return err
		}
		gym, err := b.Gym()
		if err != nil {
			return err
		}
		o, by, err := setFor(b, d, got.Question.Session, got.Piece, who)
		if err != nil || o == nil {
			return err
		}
		words, err := whoseWords(b, d.ID, v, map[string]store.Account{by.ID: by})
		out = &page.DayWord{Says: capital(words[who]) + ", " + gym.Clock(o.At).Format("2 January 15:04") + ".", Reason: asSentence(o.Reason)}
		return err
	})
	return out, err
}

// version is what somebody does, line by line.
func (c coachDay) version(v roomful.Version) *page.DayVersion {
	out := &page.DayVersion{ID: v.Athlete, Who: v.Name, Option: capital(v.Option), Stop: asSentence(v.Stop), Cautions: v.Cautions}
	if v.Stop != "" {
		return out
	}
	out.Shape = max(slices.IndexFunc(c.got.Options, func(o roomful.Option) bool { return o.Name == v.Option }), 0)
	out.Sure = c.sure(v)
	if len(v.WorkedOut) > 0 {
		out.WorkedOut = "Worked out it would be " + enumerated(v.WorkedOut) + "."
	}
	if !v.Dose.Whole() {
		out.Dose, out.DoseBy = asSentence(v.Dose.Say), asSentence(v.Dose.Private)
		if v.Dose.StopAt > 0 {
			out.Dose = asSentence(v.Dose.Say + ": stop at " + roomful.Clock(v.Dose.StopAt.Seconds()))
		}
	}
	w := wording{c.lexicon, c.people[v.Athlete].Unit}
	for i, ch := range v.Choices {
		out.Lines = append(out.Lines, c.done(w, v, i, ch))
	}
	if v.Proof != nil {
		out.Proof = asSentence(v.Proof.Say)
	}
	f := picture.Forecasts{Piece: c.got.Piece.Name(), Kind: roomful.KindOf(c.got.Piece, c.lexicon), Effort: c.got.Effort,
		Groups: []picture.ForecastGroup{{People: []picture.ForecastRow{{Name: v.Name, Score: v.Forecast.Score, PerRound: perRound(v.Work)}}}}}
	if f.Effort.Proposed {
		f.Effort = roomful.Effort{}
	}
	out.Strip = picture.Forecast(f).SVG("strip-" + v.Athlete)
	return out
}

// sure says how it is likely to go, and how much that rests on.
func (c coachDay) sure(v roomful.Version) string {
	rests := howKnown(c.people[v.Athlete], v.Confidence)
	if v.Forecast.Text == "" {
		return rests
	}
	kind, per := roomful.KindOf(c.got.Piece, c.lexicon), perRound(v.Work)
	score := v.Forecast.Score
	return fmt.Sprintf("Likely %s, from %s to %s. %s", v.Forecast.Text, kind.Text(score.P05, per), kind.Text(score.P95, per), rests)
}

// howKnown says how much of somebody is known. Who has told nothing and is said to be like
// somebody is known no better than that.
func howKnown(a roomful.Athlete, sure roomful.Confidence) string {
	switch {
	case sure == roomful.Low:
		return "Nothing is known that bounds it."
	case a.Like != "" && len(a.Known) == 0:
		return "It takes them to be much like " + a.Like + ": the first score tells more."
	case sure == roomful.Fair:
		return "Some of it is a guess."
	}
	return "Much is known."
}

// done is a line of somebody's version.
func (c coachDay) done(w wording, v roomful.Version, i int, ch roomful.Choice) page.DayDone {
	out := page.DayDone{N: i, Amount: w.amount(ch.Task, c.got.Piece.Format), Words: w.name(ch.Task), Why: asSentence(strings.ReplaceAll(ch.Why, "'s word", "’s word")), Private: asSentence(ch.Private), Typed: typedLine(w, ch.Task)}
	if out.Amount == "max" {
		out.Amount = ""
	}
	out.Load, out.Other = w.load(ch.Task)
	if ch.Low.Value > 0 && ch.High.Value > 0 && ch.Low != ch.High {
		low, _ := w.mass(ch.Low)
		high, _ := w.mass(ch.High)
		out.Band = low + " to " + high + " would do."
	}
	if at := slices.IndexFunc(v.Plates, func(p roomful.SideLoad) bool { return p.Movement == ch.Movement }); at >= 0 && ch.Load.Value > 0 {
		out.Bar, out.BarSays = picture.Bar(v.Plates[at]).SVG(fmt.Sprintf("bar-%s-%d", v.Athlete, i)), barWords(v.Plates[at])
	}
	return out
}

// typedLine is a line as it would be written in a sheet, in the unit of the implement.
func typedLine(w wording, t roomful.Task) string {
	var words []string
	if t.Amount > 0 {
		words = append(words, w.amount(t, nil))
	}
	words = append(words, w.name(t))
	plain := wording{w.lexicon, t.Load.Unit}
	if load, _ := plain.load(t); load != "" && t.Fresh == 0 {
		words = append(words, strings.ReplaceAll(load, "×", "x"))
	}
	return strings.Join(words, " ")
}
