package web

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"roomful"
	"roomful/desk"
	"roomful/notation"
	"roomful/picture"
	"roomful/web/page"
)

// coachDay is a day that was worked out, on its way to a coach's page.
type coachDay struct {
	lexicon roomful.Lexicon
	got     *desk.Worked
	hour    *roomful.Hour // nil when it could not be laid out
	people  map[string]roomful.Athlete
	later   bool              // it takes longer than anybody should wait for
	words   map[string]string // whose word a version is, by person
}

// soon is how long a page waits for the hour before it is shown without it: what takes
// longer follows (judgement: a page that comes at once feels at hand).
const soon = 150 * time.Millisecond

// dayWork works a day out and draws what a coach should know of it. The hour takes longer
// than everybody's version: without wait it may be left for later. Where nothing can be
// worked out it says why and what to do; only what nobody can mend is an error.
func (s *Server) dayWork(ctx context.Context, ask desk.Ask, words map[string]string, wait bool) (page.DayWork, error) {
	out := page.DayWork{Name: ask.Sheet, Query: queryOf(ask.Class, ask.Piece), Draft: ask.Text != ""}
	if ask.Text != "" {
		if _, ds := notation.Read(ask.Text, s.Lexicon); faulty(ds) {
			out.Not, out.Next = "There are lines to mend first.", "They are named under the sheet."
			return out, nil
		}
	}
	got, err := s.Desk.Versions(ctx, ask)
	var plain *roomful.Error
	if errors.As(err, &plain) {
		out.Not, out.Next = asSentence(plain.Summary), asSentence(plain.Hint)
		return out, nil
	}
	if err != nil {
		return out, err
	}
	c := coachDay{lexicon: s.Lexicon, got: got, people: map[string]roomful.Athlete{}, words: words}
	for _, a := range got.Question.People {
		c.people[a.ID] = a
	}
	if err := s.hourFor(ctx, ask, &c, wait); err != nil {
		return out, err
	}
	out.Later = c.later
	c.draw(&out, ask)
	return out, s.moved(ctx, ask, c, &out, wait)
}

// hourFor lays the hour of a day out, or leaves it for later when that takes long.
func (s *Server) hourFor(ctx context.Context, ask desk.Ask, c *coachDay, wait bool) error {
	within, end := ctx, func() {}
	if !wait && ask.Text != "" { // while somebody types, who does what comes first
		c.later = true
		return nil
	}
	if !wait {
		within, end = context.WithTimeout(ctx, soon)
	}
	defer end()
	_, hour, err := s.Desk.Hour(within, ask)
	var plain *roomful.Error
	switch {
	case err == nil:
		c.hour = &hour
	case ctx.Err() == nil && errors.Is(err, context.DeadlineExceeded):
		c.later = true
	case errors.As(err, &plain): // the versions stand without it
	default:
		return err
	}
	return nil
}

// queryOf is what stands behind the question mark for a class and a piece.
func queryOf(class, piece string) string {
	q := url.Values{}
	if class != "" {
		q.Set("class", class)
	}
	if piece != "" {
		q.Set("piece", piece)
	}
	if len(q) == 0 {
		return ""
	}
	return "?" + q.Encode()
}

// draw fills in all parts.
func (c coachDay) draw(out *page.DayWork, ask desk.Ask) {
	c.needs(out)
	out.Options = c.options()
	out.Room = c.room()
	out.Verdicts = c.verdicts(out)
	if c.hour != nil {
		out.Ribbon, out.RibbonSays = picture.Hour(c.hour, nil).SVG("hour"), picture.HourWords(c.hour)
	}
	if len(out.Options) > 0 {
		out.Strips = c.strips().Figure("strips")
	}
	if pieces := c.got.Question.Session.Pieces(); len(pieces) > 1 {
		for _, p := range pieces {
			out.Pieces = append(out.Pieces, page.DayClass{Path: "/sheets/" + url.PathEscape(ask.Sheet) + queryOf(ask.Class, p.Name()), Words: p.Name(), Here: p.Name() == c.got.Piece.Name()})
		}
	}
}

// verdicts are the four sentences that a coach reads first.
func (c coachDay) verdicts(w *page.DayWork) []page.DayVerdict {
	needs, unknown := len(w.Needs)+len(w.Stopped), len(w.Unknown)
	out := []page.DayVerdict{c.fits(), c.isShort(w.Room)}
	switch needs {
	case 0:
		out = append(out, page.DayVerdict{Says: "Nobody needs you", Figure: "the briefing is enough for everybody"})
	case 1:
		out = append(out, page.DayVerdict{Says: "1 needs you", Figure: "below, with why", Grade: "look", To: "needs"})
	default:
		out = append(out, page.DayVerdict{Says: fmt.Sprintf("%d need you", needs), Figure: "listed below, with why", Grade: "look", To: "needs"})
	}
	if unknown == 0 {
		return append(out, page.DayVerdict{Says: "Everybody is known", Figure: "each load rests on something told or scored"})
	}
	return append(out, page.DayVerdict{Says: fmt.Sprintf("%d unknown", unknown), Figure: "start light, the proof set decides", To: "unknown"})
}

// fits says whether the hour does.
func (c coachDay) fits() page.DayVerdict {
	if c.later {
		return page.DayVerdict{Says: "The hour follows", Figure: "it is being laid out, minute by minute"}
	}
	if c.hour == nil {
		return page.DayVerdict{Says: "No hour yet", Figure: "it cannot be laid out as it stands", Grade: "look"}
	}
	figure := fmt.Sprintf("%d of %d minutes", fullMinutes(c.hour.Ends()), fullMinutes(c.hour.Length))
	switch c.hour.Verdict() {
	case roomful.Over:
		return page.DayVerdict{Says: "Runs over", Figure: figure + ", see what would help", Grade: "stop", To: "room"}
	case roomful.Tight:
		return page.DayVerdict{Says: "Just fits the hour", Figure: figure + ", little to spare", Grade: "look", To: "room"}
	}
	return page.DayVerdict{Says: "Fits the hour", Figure: figure}
}

// fullMinutes counts minutes, one that is begun as a whole one.
func fullMinutes(d time.Duration) int { return int((d + time.Minute - 1) / time.Minute) }

// isShort says whether anything is.
func (c coachDay) isShort(room page.DayRoom) page.DayVerdict {
	var short []page.DayShort
	for _, s := range room.Short {
		if s.Look {
			short = append(short, s)
		}
	}
	if len(short) == 0 && c.later {
		return page.DayVerdict{Says: "The room follows", Figure: "who waits for what comes with the hour"}
	}
	if len(short) == 0 {
		figure := "everybody has what they need"
		if len(room.Short) > 0 {
			figure = "what is shared is free in time"
		}
		return page.DayVerdict{Says: "Nothing short", Figure: figure}
	}
	says := capital(short[0].What) + " short"
	if len(short) > 1 {
		says = fmt.Sprintf("%d things short", len(short))
	}
	return page.DayVerdict{Says: says, Figure: short[0].What + ": " + short[0].Says, Grade: "look", To: "room"}
}

// needs sorts out who needs the coach: who does not train today, who should be seen at any
// piece of the day, and of whom too little is known.
func (c coachDay) needs(w *page.DayWork) {
	unknown := map[string]bool{}
	for _, v := range c.got.Lineup.Versions {
		switch {
		case v.Stop != "":
			w.Stopped = append(w.Stopped, page.DayNeed{ID: v.Athlete, Name: v.Name, Why: []string{asSentence(v.Stop)}})
		case v.Confidence == roomful.Low && !v.ByHand:
			unknown[v.Athlete] = true
			why := "Nothing known that bounds a load here. Start light and watch."
			if v.Proof != nil {
				why = asSentence(v.Proof.Say)
			}
			w.Unknown = append(w.Unknown, page.DayNeed{ID: v.Athlete, Name: v.Name, Why: []string{why}})
		}
	}
	for _, a := range c.got.Attention {
		if unknown[a.Athlete] && strings.Contains(a.Why, "proof set") { // stands there with the set itself
			continue
		}
		c.need(w, a, asSentence(a.Why))
	}
	for _, p := range c.got.Pieces {
		if p.Piece.Name() == c.got.Piece.Name() {
			continue
		}
		for _, a := range p.Attention {
			if a.Person != "" {
				c.need(w, a, asSentence(a.Person))
			}
			if at := slices.IndexFunc(w.Unknown, func(n page.DayNeed) bool { return n.ID == a.Athlete }); at >= 0 && strings.Contains(a.Why, "proof set") {
				w.Unknown[at].Why = append(w.Unknown[at].Why, inPiece(p.Piece, a.Why))
				continue
			}
			// of another piece it is worth a word what is otherwise in it, not that nothing is
			if of := a.OfVersion(); of != "" && !(a.Person != "" && strings.HasPrefix(of, "Nothing")) {
				c.need(w, a, inPiece(p.Piece, of))
			}
		}
	}
}

// inPiece says something of another piece than the one that is looked at.
func inPiece(p roomful.Part, words string) string {
	first, size := utf8.DecodeRuneInString(words)
	return capital(p.Name()) + ": " + string(unicode.ToLower(first)) + strings.TrimSuffix(words[size:], ".") + "."
}

// need adds a reason to see somebody, once; who does not train today needs no other.
func (c coachDay) need(w *page.DayWork, a roomful.Attention, why string) {
	of := func(n page.DayNeed) bool { return n.ID == a.Athlete }
	if slices.ContainsFunc(w.Stopped, of) {
		return
	}
	i := slices.IndexFunc(w.Needs, of)
	if i < 0 {
		i = len(w.Needs)
		w.Needs = append(w.Needs, page.DayNeed{ID: a.Athlete, Name: a.Name})
	}
	if !slices.ContainsFunc(w.Needs[i].Why, func(said string) bool { return strings.HasPrefix(said, strings.TrimSuffix(why, ".")) }) {
		w.Needs[i].Why = append(w.Needs[i].Why, why)
	}
}

// strips are the forecasts of everybody over what is meant.
func (c coachDay) strips() picture.Picture {
	f := picture.Forecasts{Piece: c.got.Piece.Name(), Kind: roomful.KindOf(c.got.Piece, c.lexicon), Effort: c.got.Effort}
	if f.Effort.Proposed {
		f.Effort = roomful.Effort{}
	}
	for i, o := range c.got.Options {
		group := picture.ForecastGroup{Shape: picture.ShapeOf(i), Option: o.Name}
		for _, v := range c.on(o) {
			group.People = append(group.People, picture.ForecastRow{Name: v.Name, Score: v.Forecast.Score, PerRound: perRound(v.Work)})
		}
		if len(group.People) > 0 {
			f.Groups = append(f.Groups, group)
		}
	}
	return picture.Forecast(f)
}

// perRound counts the repetitions and calories of a round.
func perRound(w roomful.Work) (sum float64) {
	for _, t := range w.Round {
		if t.Unit == roomful.Rep || t.Unit == roomful.Calorie {
			sum += t.Amount
		}
	}
	return sum
}

// askAbout is the question that a request asks about a day.
func (s *Server) askAbout(q *http.Request, v visit, sheet string) desk.Ask {
	return desk.Ask{Gym: v.Gym, Now: s.Now(), Sheet: sheet, Class: q.FormValue("class"), Piece: q.FormValue("piece"), Typist: cmp.Or(v.Account.ID, "nobody") + " " + sheet}
}
