package web

import (
	"net/http"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"roomful"
	"roomful/desk"
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

// many are scores that a coach keeps at once: each under an id of its own, so that sent
// twice they are kept once.
type many struct {
	Day    roomful.Date `json:"day"` // today when it is left out
	Piece  string       `json:"piece"`
	Scores []oneOfMany  `json:"scores"`

	form string // of the page that they were typed on, whose scores they replace; empty for a program's
}

// oneOfMany is one of them.
type oneOfMany struct {
	ID     string `json:"id"`
	Person string `json:"person"`
	Text   string `json:"text"`
}

// postScores keeps many scores of a day at once, all or none.
func (s *Server) postScores(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent many
	if err := read(q, &sent); err != nil {
		return err
	}
	out, err := s.keepAll(q, v, sent)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// keepAll keeps many scores of the sheet that a path names, all or none.
func (s *Server) keepAll(q *http.Request, v visit, sent many) (listed, error) {
	if n := len(sent.Scores); n == 0 || n > mostScores {
		return listed{}, &roomful.Error{Summary: "storing scores: there is none, or too many", Hint: "send up to 60 at once"}
	}
	name := q.PathValue("name")
	for i, one := range sent.Scores {
		if err := (posted{ID: one.ID, Person: one.Person, Sheet: name, Text: one.Text}).check(v); err != nil {
			return listed{}, err
		}
		if slices.ContainsFunc(sent.Scores[:i], func(o oneOfMany) bool { return o.ID == one.ID }) {
			return listed{}, store.ErrTaken
		}
	}
	var d desk.Page
	if err := s.view(q, v, func(b *store.Books) (err error) {
		d, err = s.scored(b, v, name)
		return err
	}); err != nil {
		return listed{}, err
	}
	out, seqs := listed{Scores: []stored{}}, map[string]int64{}
	if err := s.update(q, v, func(b *store.Books) (err error) {
		if sent.Day.IsZero() {
			if sent.Day, err = s.today(b); err != nil {
				return err
			}
		}
		var gone []string
		if sent.form != "" {
			if gone, err = sent.settle(b, d.ID); err != nil {
				return err
			}
		}
		for _, one := range sent.Scores {
			kept, seq, err := s.keepOne(b, d, sent, one)
			if err == nil && slices.Contains(gone, one.Person) {
				seq, err = b.Seq() // of them less is known now
			}
			if err != nil {
				return err
			}
			out.Scores, seqs[one.Person] = append(out.Scores, kept), seq
		}
		return nil
	}); err != nil {
		return listed{}, err
	}
	if s.Background != nil {
		for _, one := range out.Scores {
			s.Background.Arrived(v.Gym, one.Person, seqs[one.Person])
		}
	}
	return out, nil
}

// keepOne keeps one of many scores.
func (s *Server) keepOne(b *store.Books, d desk.Page, of many, one oneOfMany) (stored, int64, error) {
	who, err := b.Person(one.Person)
	if err != nil {
		return stored{}, 0, err
	}
	got, err := s.read(d.Document, who.Athlete, of.Piece, one.Text)
	if err != nil {
		return stored{}, 0, err
	}
	a := store.Attempt{ID: one.ID, Person: who.ID, Document: d.ID, Edition: d.Edition, Piece: of.Piece, Day: of.Day, Text: one.Text, TypedAt: s.Now(), Read: got}
	if _, err := b.PutAttempt(a); err != nil {
		return stored{}, 0, err
	}
	if a, err = b.Attempt(a.ID); err != nil {
		return stored{}, 0, err
	}
	out := shown(a, true)
	out.Name = who.Name
	return out, a.Seq, nil
}
