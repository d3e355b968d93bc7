package web

import (
	"net/http"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"roomful"
	"roomful/store"
)

// mostScores is how many scores come at once: a class, or two.
const mostScores = 60

// dictated is what a coach types after a class: a line to a score, "Ana: 5+20".
type dictated struct {
	Text  string `json:"text"`
	Class string `json:"class"` // whose people are looked for first; empty for everybody
	Piece string `json:"piece"`
}

// heard is one such line as it was understood. Person is null where the name is nobody's,
// or may be several people's: then these are among.
type heard struct {
	Line   int      `json:"line"` // from 1
	Said   string   `json:"said"` // the name as it was typed
	Person *person  `json:"person"`
	Among  []person `json:"among"`
	Text   string   `json:"text"`
	Read   *typed   `json:"read"` // null where nothing was read
	Ask    *string  `json:"ask"`  // what is to be settled first; null for nothing

	answers []string // words that would settle it, behind the text
	private []string // what it says of the body
}

// readScores reads many scores as a coach types them, and keeps none.
func (s *Server) readScores(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent dictated
	if err := read(q, &sent); err != nil {
		return err
	}
	out := struct {
		Lines []heard `json:"lines"`
	}{[]heard{}}
	var err error
	if out.Lines, err = s.hearAll(q, v, sent); err != nil {
		return err
	}
	return answer(w, out)
}

// hearAll reads many scores with their names.
func (s *Server) hearAll(q *http.Request, v visit, sent dictated) ([]heard, error) {
	lines := linesOf(sent.Text)
	if len(lines) == 0 || len(lines) > mostScores {
		return nil, &roomful.Error{Summary: "reading scores: there is no line, or too many", Hint: `send a line to a score, "Ana: 5+20", up to 60`}
	}
	var people, here []roomful.Athlete
	if err := s.view(q, v, func(b *store.Books) error {
		if _, err := b.Named(store.Sheet, q.PathValue("name")); err != nil {
			return err
		}
		gym, err := s.Desk.Open(b, s.Now())
		if err != nil {
			return err
		}
		if people = gym.People; sent.Class != "" {
			here, _, err = gym.InClass(sent.Class)
		}
		return err
	}); err != nil {
		return nil, err
	}
	for i := range lines {
		found := matched(lines[i].Said, here)
		if len(found) == 0 {
			found = matched(lines[i].Said, people)
		}
		if err := s.hear(q, v, sent.Piece, &lines[i], found); err != nil {
			return nil, err
		}
	}
	return lines, nil
}

// hear fills in who a line is of and what it says.
func (s *Server) hear(q *http.Request, v visit, piece string, one *heard, found []roomful.Athlete) error {
	ask := func(words string) { one.Ask = &words }
	switch {
	case one.Said == "":
		ask("whose is it? write a name and a colon before it")
		return nil
	case len(found) == 0:
		ask("who is " + one.Said + "? nobody here is called that")
		return nil
	case len(found) > 1:
		for _, a := range found {
			one.Among = append(one.Among, person{a.ID, a.Name, a.DropIn})
		}
		ask("which " + one.Said + "?")
		return nil
	}
	a := found[0]
	one.Person = &person{a.ID, a.Name, a.DropIn}
	if len(one.Text) > mostScore {
		return errLongScore
	}
	g, of, err := s.typedQuestion(q, v, a.ID)
	if err != nil {
		return err
	}
	of.Piece, of.Text = piece, one.Text
	got, err := g.Typed(q.Context(), of)
	if err != nil {
		if roomful.HintOf(err) == "" {
			return err
		}
		ask(err.Error())
		return nil
	}
	t := typedOf(got)
	one.Read, one.Ask = &t, t.Question
	for _, p := range got.Pieces {
		one.private = append(one.private, p.Reading.Private...)
		if ask := p.Reading.Question; ask != nil && one.answers == nil {
			one.answers = ask.Answers[:]
		}
	}
	return nil
}

// linesOf splits what was typed into names and scores; empty lines are left out.
func linesOf(text string) (out []heard) {
	n := 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		name, score, found := strings.Cut(line, ":")
		if !found || ofTime(name, score) {
			name, score = "", line
		}
		out = append(out, heard{Line: n, Said: strings.TrimSpace(name), Text: strings.TrimSpace(score), Among: []person{}})
	}
	return out
}

// ofTime reports whether a colon between two texts is that of a time, "Ana 12:40". A name
// may end in a digit too, "Ana 7: 12:40": a space tells them apart.
func ofTime(before, behind string) bool {
	last, _ := utf8.DecodeLastRuneInString(before)
	next, _ := utf8.DecodeRuneInString(behind)
	return unicode.IsDigit(last) && unicode.IsDigit(next)
}

// matched are those of some people whom a name may mean: those called so, else those whose
// first name it is, else those whose name begins with it.
func matched(said string, people []roomful.Athlete) []roomful.Athlete {
	if said == "" {
		return nil
	}
	if at := strings.LastIndex(said, " ("); at >= 0 && strings.HasSuffix(said, ")") { // of several of one name: [byID]
		id := said[at+2 : len(said)-1]
		if i := slices.IndexFunc(people, func(a roomful.Athlete) bool { return a.ID == id }); i >= 0 {
			return people[i : i+1]
		}
	}
	for _, is := range []func(name string) bool{
		func(name string) bool { return strings.EqualFold(name, said) },
		func(name string) bool {
			first, _, _ := strings.Cut(name, " ")
			return strings.EqualFold(first, said)
		},
		func(name string) bool { return strings.HasPrefix(strings.ToLower(name), strings.ToLower(said)) },
	} {
		var found []roomful.Athlete
		for _, a := range people {
			if is(a.Name) {
				found = append(found, a)
			}
		}
		if len(found) > 0 {
			return found
		}
	}
	return nil
}
