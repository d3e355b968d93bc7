package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"unicode/utf8"

	"roomful"
	"roomful/desk"
	"roomful/notation"
	"roomful/store"
	"roomful/web/page"
)

// refreshSeconds is how often a display without scripts asks again.
const refreshSeconds = "120"

// screenPage is the display in the room: today's title, what is to be done, the options
// with who is on each by first name, and the classes of the day. It knows of no limit, and
// of no load but those of the options.
func (s *Server) screenPage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.showScreen(w, q, v, q.PathValue("name"), q.FormValue("class"))
}

// screenToday is the display of whatever day and class are on: the same address all day.
func (s *Server) screenToday(w http.ResponseWriter, q *http.Request, v visit, at string) error {
	to, err := url.Parse(at)
	if err != nil {
		return err
	}
	return s.showScreen(w, q, v, strings.TrimPrefix(to.Path, "/sheets/"), to.Query().Get("class"))
}

// showScreen draws the display of a sheet and a class; with no name, that there is none.
func (s *Server) showScreen(w http.ResponseWriter, q *http.Request, v visit, name, class string) error {
	var frame page.Frame
	body := page.Screen{Here: q.URL.RequestURI()}
	var session roomful.Session
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/", "Today"); err != nil {
			return err
		}
		if body.Classes, body.Class, err = s.classesToday(b, v, class); err != nil || name == "" {
			return err
		}
		d, err := s.seen(b, v, name)
		if err != nil {
			return err
		}
		body.Title, frame.Title = titleOf(d.Document), titleOf(d.Document)
		session, _ = s.session(d.Document)
		return nil
	}); err != nil {
		return err
	}
	if name != "" {
		if err := s.fillScreen(q, v, &body, session, desk.Ask{Gym: v.Gym, Now: s.Now(), Sheet: name, Class: class, Shown: true}); err != nil {
			return err
		}
	}
	frame.Places, frame.Loads = nil, []string{"screen.css"}
	w.Header().Set("Refresh", refreshSeconds)
	return s.show(w, http.StatusOK, frame, body)
}

// classesToday says the classes of the day, and when the one that is shown begins.
func (s *Server) classesToday(b *store.Books, v visit, class string) (out []string, start string, err error) {
	today, err := s.today(b)
	if err != nil {
		return nil, "", err
	}
	all, err := s.timetable(b, v).between(today, today)
	for _, c := range all {
		if c.ID == class {
			start = c.Start
		}
		words := fmt.Sprintf("%s %d in", c.Start, c.in)
		switch {
		case c.CalledOff:
			words = c.Start + " called off"
		case c.Capacity > 0 && c.in >= c.Capacity:
			words += ", full"
		}
		out = append(out, words)
	}
	return out, start, err
}

// fillScreen adds what is to be done: the options and who is on them, or the lines as they
// are written where nothing is worked out.
func (s *Server) fillScreen(q *http.Request, v visit, body *page.Screen, session roomful.Session, ask desk.Ask) error {
	part, ok := session.Asked("")
	if !ok {
		return nil
	}
	heads := notation.Heads(session, s.Lexicon)
	for i, p := range session.Parts {
		if p.Name() == part.Name() && i < len(heads) {
			body.What = capital(heads[i])
		}
	}
	if e := session.Effort; e.Stated() && !e.Proposed {
		low, high := roomful.Figure(e.Low), roomful.Figure(e.High)
		if body.What += ". Aim for " + low; low != high {
			body.What += " to " + high
		}
		body.What += " " + e.Unit + "."
	}
	got, err := s.Desk.Versions(q.Context(), ask)
	if roomful.HintOf(err) != "" {
		body.Written = writtenLines(session, part, s.Lexicon)
		return nil
	}
	if err != nil {
		return err
	}
	plain := wording{s.Lexicon, got.Day.Gym.Unit}
	names := firstNames(got.Lineup.Versions)
	var first []string
	for i, o := range got.Options {
		one := page.ScreenOption{Shape: i, Name: capital(o.Name)}
		for k := range o.Elements {
			line := boardLine(plain.optionLine(o, k, got.Piece.Format))
			if same := i > 0 && len(o.Elements) == len(first) && line == first[k]; !same {
				one.Lines = append(one.Lines, line)
			}
		}
		if i == 0 {
			first = one.Lines
		}
		for _, version := range got.Lineup.Versions {
			if version.Stop == "" && slices.Contains(o.People, version.Athlete) {
				one.People = append(one.People, names[version.Athlete])
			}
		}
		body.Options = append(body.Options, one)
	}
	closeUp(body)
	return nil
}

// writtenLines are the lines of a piece as they are written.
func writtenLines(s roomful.Session, of roomful.Part, lex roomful.Lexicon) (out []string) {
	for _, line := range strings.Split(notation.Print(roomful.Session{Title: s.Title, Parts: []roomful.Part{of}}, lex), "\n") {
		if strings.HasPrefix(line, "  ") {
			out = append(out, strings.TrimSpace(line))
		}
	}
	return out
}

// boardLine is a line of an option as it stands on a board: what belongs together stays on
// one row.
func boardLine(l page.DayLine) string {
	if at := strings.LastIndex(l.Words, " "); at >= 0 {
		l.Words = l.Words[:at] + "\u00a0" + l.Words[at+1:]
	}
	return strings.TrimSpace(l.Amount + "\u00a0" + l.Words)
}

// firstNames are what people are called in the room: two of one first name have a letter
// of the next beside it.
func firstNames(all []roomful.Version) map[string]string {
	count, out := map[string]int{}, map[string]string{}
	for _, v := range all {
		first, _, _ := strings.Cut(v.Name, " ")
		count[first]++
	}
	for _, v := range all {
		first, rest, _ := strings.Cut(v.Name, " ")
		if _, size := utf8.DecodeRuneInString(rest); count[first] > 1 && size > 0 {
			first += " " + rest[:size]
		}
		out[v.Athlete] = first
	}
	return out
}

// The rows of letters that a display has beside the first option, at each closeness, and
// about how many letters each has.
var closeRows = []struct{ rows, letters, far int }{{9, 26, 21}, {11, 31, 26}, {13, 38, 34}}

// closeUp has the letters stand as close as all of it needs, and leaves names out when
// nothing else helps.
func closeUp(body *page.Screen) {
	for body.Close = 0; body.Close < len(closeRows)-1; body.Close++ {
		if fits(body, body.Close) {
			return
		}
	}
	for !fits(body, body.Close) {
		longest := 0
		for i, o := range body.Options {
			if len(o.People) > len(body.Options[longest].People) {
				longest = i
			}
		}
		o := &body.Options[longest]
		if len(o.People) == 0 {
			return
		}
		o.People, o.More = o.People[:len(o.People)-1], o.More+1
	}
}

// fits reports whether everything has room at a closeness.
func fits(body *page.Screen, at int) bool {
	c := closeRows[at]
	rows := func(letters, wide int) int { return (letters + wide - 1) / wide }
	first, others := 0, 0
	for i, o := range body.Options {
		n := 1 + rows(utf8.RuneCountInString(strings.Join(o.People, " · ")), c.letters)
		wide := c.letters
		if i == 0 {
			wide = c.far
		}
		for _, line := range o.Lines {
			n += rows(utf8.RuneCountInString(line), wide)
		}
		if i == 0 {
			first = n + len(o.Lines)/3 // its lines are larger
			continue
		}
		others += n
	}
	return first <= c.rows && others <= c.rows
}
