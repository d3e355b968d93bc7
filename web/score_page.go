package web

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/desk"
	"roomful/score"
	"roomful/store"
	"roomful/web/page"
)

// scorePage is one score, for a coach to correct or to take out.
func (s *Server) scorePage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.showScore(w, q, v, http.StatusOK, "", "")
}

// scoreOf finds the score that a path names, with its sheet as it is saved.
func scoreOf(b *store.Books, q *http.Request) (store.Attempt, store.Document, error) {
	d, err := b.Named(store.Sheet, q.PathValue("name"))
	if err != nil {
		return store.Attempt{}, d, err
	}
	a, err := b.Attempt(q.PathValue("score"))
	if err == nil && a.Document != d.ID {
		err = store.ErrMissing
	}
	return a, d, err
}

// showScore draws a score, with a text that was typed and not taken.
func (s *Server) showScore(w http.ResponseWriter, q *http.Request, v visit, status int, text, wrong string) error {
	var frame page.Frame
	var body page.Score
	if err := s.view(q, v, func(b *store.Books) error {
		a, d, err := scoreOf(b, q)
		if err != nil {
			return err
		}
		if !a.WithdrawnAt.IsZero() {
			return store.ErrMissing
		}
		name, _, err := s.crowd(b).find(a.Person)
		if err != nil {
			return err
		}
		body = page.Score{Sheet: d.Name, Title: titleOf(d), When: inWords(a.Day), ID: a.ID, Name: name, Words: "not read yet",
			Text: page.Input{Name: "text", Label: "What they scored", Small: "as they say it", Value: a.Text, Needed: true, Most: 4000}}
		if a.Read != nil {
			body.Words = readingWords(a.Read.Readings)
		}
		frame, err = s.frame(b, q, v, "/scores", "A score of "+name)
		return err
	}); err != nil {
		return err
	}
	if wrong != "" {
		body.Text.Value, body.Text.Wrong = text, wrong
	}
	var err error
	if body.New, err = s.NewID(); err != nil {
		return err
	}
	return s.show(w, status, frame, body)
}

// readingWords are readings in words.
func readingWords(readings []roomful.Reading) string {
	var words []string
	for _, r := range readings {
		if n := len(r.LoadsKg); r.Kind == roomful.LoadScore && r.SameAs == "" && !r.Approximate && len(r.Misses) == 0 && n > 1 && slices.Min(r.LoadsKg) == slices.Max(r.LoadsKg) {
			r.LoadsKg = r.LoadsKg[:1]
			words = append(words, strconv.Itoa(n)+" × "+score.Words(r))
			continue
		}
		words = append(words, score.Words(r))
	}
	return strings.Join(words, "; ")
}

// changeScore corrects a score, or takes it out of every list. A correction is a score of
// its own under the id that was made with the form, of the same day: sent twice it is kept
// once, and the text that it stands for stays aside.
func (s *Server) changeScore(w http.ResponseWriter, q *http.Request, v visit) error {
	form, err := sentForm(q)
	if err != nil {
		return err
	}
	if form.Get("do") == "withdraw" {
		return s.dropScore(w, q, v)
	}
	text := strings.TrimSpace(form.Get("text"))
	var wrong string
	var person string
	var seq int64
	var sheet desk.Page
	if err := s.view(q, v, func(b *store.Books) (err error) {
		sheet, err = s.scored(b, v, q.PathValue("name"))
		return err
	}); err != nil {
		return err
	}
	if err := s.update(q, v, func(b *store.Books) error {
		a, _, err := scoreOf(b, q)
		if err != nil {
			return err
		}
		person = a.Person
		wrong, seq, err = s.correct(b, v, sheet, a, form.Get("new"), text)
		if err != nil || wrong != "" || seq == 0 {
			return err
		}
		_, err = withdrawn(b, v, a.ID)
		return err
	}); err != nil {
		return err
	}
	if wrong != "" {
		return s.showScore(w, q, v, http.StatusUnprocessableEntity, text, wrong)
	}
	if s.Background != nil {
		s.Background.Arrived(v.Gym, person, seq)
	}
	return next(w, q, "/sheets/"+url.PathEscape(q.PathValue("name"))+"/scores?said=score-corrected")
}

// dropScore takes a score of a sheet back, and leads to the others.
func (s *Server) dropScore(w http.ResponseWriter, q *http.Request, v visit) error {
	if err := s.view(q, v, func(b *store.Books) error {
		_, _, err := scoreOf(b, q)
		return err
	}); err != nil {
		return err
	}
	if _, err := s.takeBack(q, v, q.PathValue("score")); err != nil {
		return err
	}
	return next(w, q, "/sheets/"+url.PathEscape(q.PathValue("name"))+"/scores?said=score-out")
}

// correct keeps a text in the place of a score, and says what is wrong with it if
// anything is. It answers with the change that brought it, nought when it is the same.
func (s *Server) correct(b *store.Books, v visit, d desk.Page, a store.Attempt, id, text string) (wrong string, seq int64, err error) {
	if err := mayReplace(b, a, id); err != nil || text == a.Text && a.WithdrawnAt.IsZero() {
		return "", 0, err
	}
	if id, err = instead(b, d.ID, a, id, text); err != nil {
		return "", 0, err
	}
	sent := posted{ID: id, Person: a.Person, Sheet: d.Name, Text: text}
	if err := sent.check(v); err != nil {
		return "", 0, err
	}
	kept, seq, err := s.keepOne(b, d, many{Day: a.Day, Piece: a.Piece}, oneOfMany{ID: id, Person: a.Person, Text: text})
	if hint := roomful.HintOf(err); hint != "" {
		return "That cannot be read as a score. " + capital(hint) + ".", 0, nil
	}
	if kept.TakenBack {
		return "", 0, errNoScore
	}
	return "", seq, err
}

// instead takes back what a form had put in the place of a score before its text was changed
// and it was sent again, since no answer had come. It answers with the id for the text.
func instead(b *store.Books, sheet string, a store.Attempt, id, text string) (string, error) {
	before, err := standing(b, id, sheet, a.Person)
	if err != nil || len(before) == 0 {
		return id, err
	}
	last := before[len(before)-1]
	if last.Text == text {
		return last.ID, nil
	}
	if err := b.Withdraw(last.ID); err != nil {
		return "", err
	}
	return idAfter(b, id, before, oneOfMany{ID: idIn(id, a.Person, text), Person: a.Person, Text: text})
}
