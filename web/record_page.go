package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/desk"
	"roomful/store"
	"roomful/web/page"
)

// ownRecord leads to the visitor's own record.
func (s *Server) ownRecord(w http.ResponseWriter, q *http.Request, v visit) error {
	if v.Account.Person == "" {
		return next(w, q, "/people")
	}
	return next(w, q, "/record/"+url.PathEscape(v.Account.Person))
}

// recordPage is what somebody scored, to them and to coaches.
func (s *Server) recordPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	before, err := placeOf(q.FormValue("before"))
	if err != nil {
		return err
	}
	body := page.Record{Person: who, Own: v.is(who), Later: before != store.Place{}}
	var frame page.Frame
	if err := s.view(q, v, func(b *store.Books) error {
		p, err := b.Person(who)
		if err != nil {
			return err
		}
		body.Name = p.Name
		if frame, err = s.frame(b, q, v, "/record", recordTitle(body)); err != nil {
			return err
		}
		found, older, err := pageOfRecord(b, who, before)
		if err != nil {
			return err
		}
		if older != "" {
			body.Older = "?before=" + url.QueryEscape(older)
		}
		if body.Pieces, err = s.recordPieces(q, v, b, found, wording{s.Lexicon, p.Unit}); err != nil || body.Later {
			return err
		}
		body.Taught, err = s.lessons(b, who)
		return err
	}); err != nil {
		return err
	}
	if v.May(account.SeeHealth) {
		body.Abilities = "/people/" + url.PathEscape(who)
	}
	frame.Loads = []string{"my.css"}
	return s.show(w, http.StatusOK, frame, body)
}

// recordTitle is what a browser calls the page.
func recordTitle(r page.Record) string {
	if r.Own {
		return "My record"
	}
	return r.Name
}

// pageOfRecord is a page of somebody's scores, and where the one behind it begins.
func pageOfRecord(b *store.Books, who string, before store.Place) (found []store.Attempt, older string, err error) {
	found, err = b.Latest(who, before, pageOfScores+1)
	if len(found) > pageOfScores {
		found = found[:pageOfScores]
		last := found[pageOfScores-1].Place()
		older = fmt.Sprintf("%s.%d", last.Day, last.Seq)
	}
	return found, older, err
}

// recordPieces gathers scores by the sheet that was done, or done again, in the order of
// the latest.
func (s *Server) recordPieces(q *http.Request, v visit, b *store.Books, found []store.Attempt, w wording) (out []page.RecordPiece, err error) {
	gym, err := s.Desk.Open(b, s.Now())
	if err != nil {
		return nil, err
	}
	at := map[string]int{}
	titles := map[string]string{}
	for _, a := range found {
		family, known := titles[a.Document]
		if !known {
			d, err := titled(gym, v, a)
			if err != nil {
				return nil, err
			}
			family = strings.TrimSuffix(d.Title, ", Again")
			if session, _ := gym.Session(q.Context(), d); session.Again != "" {
				family = session.Again
			}
			titles[a.Document] = family
		}
		i, there := at[family]
		if !there {
			i = len(out)
			at[family] = i
			out = append(out, page.RecordPiece{Title: family, Path: "/sheets/" + url.PathEscape(a.Sheet)})
		}
		out[i].Tries = append(out[i].Tries, triesOf(a, w)...)
		if out[i].Times += "|"; len(out[i].Times) == 2 { // the latest knows which it repeats
			out[i].Story = "/record/" + url.PathEscape(a.Person) + strings.TrimPrefix(out[i].Path, "/sheets")
		}
	}
	for i := range out {
		out[i].Times = timesWords(len(out[i].Times))
		asBefore(out[i].Tries)
	}
	return out, nil
}

// titled is a sheet with the title and the text that the visitor may see of it, and under
// its name alone when it is not theirs to see any more.
func titled(gym *desk.Gym, v visit, a store.Attempt) (store.Document, error) {
	saved, err := gym.Sheet(a.Sheet)
	if err != nil {
		return saved.Document, err
	}
	seen, theirs, err := gym.Of(saved.Document, v.writes())
	if !theirs {
		return store.Document{ID: saved.ID, Name: saved.Name, Title: saved.Name}, err
	}
	return seen.Document, err
}

// asBefore writes out what was the same as the last time, where that is on the page.
func asBefore(tries []page.RecordTry) {
	for i := len(tries) - 1; i >= 0; i-- {
		if tries[i].Score != "same as last time" {
			continue
		}
		for _, earlier := range tries[i+1:] {
			if earlier.Piece == tries[i].Piece {
				tries[i].Score = earlier.Score
				tries[i].Changed = strings.TrimPrefix(tries[i].Changed+", the same as the time before", ", ")
				break
			}
		}
	}
}

// timesWords says how often; nothing for once.
func timesWords(n int) string {
	switch n {
	case 1:
		return ""
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

// triesOf is a score, a line to each piece of it.
func triesOf(a store.Attempt, w wording) (out []page.RecordTry) {
	if a.Read == nil {
		return []page.RecordTry{{When: dayWords(a.Day), Score: a.Text}}
	}
	for _, r := range a.Read.Readings {
		one := page.RecordTry{When: dayWords(a.Day), Score: w.scored(r), Changed: capital(w.changes(r)), Private: strings.Join(r.Private, "; ")}
		if len(a.Read.Readings) > 1 || r.Piece != "" && r.Piece != roomful.Main.String() {
			one.Piece = capital(r.Piece)
		}
		if r.Question != nil {
			one.Ask = asSentence(r.Question.Ask)
		}
		out = append(out, one)
	}
	return out
}

// dayWords says a day in short, "5 April 2027".
func dayWords(d roomful.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.Format("2 January 2006")
}

// mostLessons is how many scores are named for what they taught.
const mostLessons = 8

// lessons is what somebody's scores have taught, the latest first, in words.
func (s *Server) lessons(b *store.Books, who string) (out []page.RecordLesson, err error) {
	learnt, err := b.Learnt(who)
	if err != nil || len(learnt) == 0 {
		return nil, err
	}
	told := map[string][]string{}
	for _, dim := range learnt[0].Abilities.Dims {
		words := s.abilityWords(dim.Capacity)
		for _, from := range dim.Informed {
			if score := scoreNamed(from); score != "" && words != "" && !slices.Contains(told[score], words) {
				told[score] = append(told[score], words)
			}
		}
	}
	var from []string
	for score := range told {
		from = append(from, score)
	}
	slices.SortFunc(from, func(a, b string) int { return strings.Compare(b, a) })
	for _, score := range from[:min(len(from), mostLessons)] {
		on, title, _ := strings.Cut(score, " ")
		var day date
		if day.UnmarshalText([]byte(on)) != nil {
			continue
		}
		of := told[score]
		out = append(out, page.RecordLesson{From: title + ", " + dayWords(day.Date), Of: enumerated(of[:min(len(of), 4)])})
	}
	return out, nil
}

// scoreNamed is the score that something was learnt from, its day first so that it can be
// put in order; empty when it came from elsewhere.
func scoreNamed(from string) string {
	i := strings.LastIndex(from, ", ")
	if i < 0 || len(from)-i-2 != len("2027-03-04") {
		return ""
	}
	return from[i+2:] + " " + from[:i]
}

// abilityWords is what a capacity is called to the person whose it is.
func (s *Server) abilityWords(c roomful.Capacity) string {
	kind, of, _ := strings.Cut(string(c), " ")
	name := of
	if m := s.Lexicon.Movement(roomful.MovementID(of)); m != nil {
		name = m.Plural
	}
	switch {
	case c == roomful.CapVO2max:
		return "how long you can keep going"
	case c == roomful.CapReserve:
		return "how hard you can go for a short while"
	case c == roomful.CapSpeed:
		return "how quick you are from one repetition to the next"
	case c == roomful.CapPacing:
		return "how you pace yourself"
	case c == roomful.CapBreaks:
		return "how you break up your sets"
	case c == roomful.CapRecovery:
		return "how soon your muscles come back"
	case kind == "1rm":
		return "what you lift in " + name
	case kind == "max":
		return "how many " + name + " you do in one go"
	case kind == "endurance":
		return "how long you last in " + name
	case kind == "trips":
		return "how sure your " + name + " are"
	}
	return ""
}
