package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/score"
	"roomful/store"
	"roomful/web/page"
)

// readScoresForm shows how many scores are read, before any is kept: to htmx one line of
// the class as it is typed, else the page with all of them.
func (s *Server) readScoresForm(w http.ResponseWriter, q *http.Request, v visit) error {
	form, err := sentForm(q)
	if err != nil {
		return err
	}
	if who := form.Get("one"); who != "" && q.Header.Get("HX-Request") == "true" {
		return s.readOneScore(w, q, v, who, form.Get("s."+who))
	}
	entry, _, err := s.typedEntry(q, v, form)
	if err != nil {
		return err
	}
	status := http.StatusOK
	if entry.Wrong != "" {
		status = http.StatusUnprocessableEntity
	}
	return s.showScores(w, q, v, status, entry)
}

// readOneScore shows how one score of the class is read.
func (s *Server) readOneScore(w http.ResponseWriter, q *http.Request, v visit, who, text string) error {
	out := page.ScoreHeard{}
	if strings.TrimSpace(text) != "" {
		one := heard{Line: 1, Said: who, Text: text}
		var a roomful.Athlete
		if err := s.view(q, v, func(b *store.Books) error {
			p, err := b.Person(who)
			a = p.Athlete
			return err
		}); err != nil {
			return err
		}
		if err := s.hear(q, v, "", &one, []roomful.Athlete{a}); err != nil {
			return err
		}
		out = heardOf(one, nil)
		out.Name, out.Fixes = "", nil // it is answered by typing on
	}
	return s.showPart(w, out)
}

// typedEntry reads what a coach has typed: a line to a score, and a field to a person of
// the class, which joins the lines.
func (s *Server) typedEntry(q *http.Request, v visit, form url.Values) (page.ScoreEntry, []heard, error) {
	entry := page.ScoreEntry{Batch: form.Get("batch")}
	if checkID("form", entry.Batch) != nil {
		entry.Batch = ""
	}
	lines := strings.Split(strings.ReplaceAll(form.Get("text"), "\r\n", "\n"), "\n")
	rows, err := s.typedRows(q, v, form)
	if err != nil {
		return entry, nil, err
	}
	entry.Text = strings.TrimRight(strings.Join(append(settled(lines, form.Get("fix")), rows...), "\n"), "\n")
	entry.Text = strings.TrimLeft(entry.Text, "\n")
	all, err := s.hearAll(q, v, dictated{Text: entry.Text, Class: form.Get("class")})
	var wrong *roomful.Error
	if errors.As(err, &wrong) {
		entry.Wrong = capital(wrong.Summary) + ". " + capital(wrong.Hint) + "."
		return entry, nil, nil
	}
	if err != nil {
		return entry, nil, err
	}
	has, err := s.scoresBefore(q, v)
	if err != nil {
		return entry, nil, err
	}
	for _, one := range all {
		line := heardOf(one, has)
		if one.Person != nil && one.Read != nil {
			entry.Ready++
		} else {
			entry.Open++
		}
		entry.Lines = append(entry.Lines, line)
	}
	return entry, all, nil
}

// typedRows are the fields of people that have something in them, as lines.
func (s *Server) typedRows(q *http.Request, v visit, form url.Values) (out []string, err error) {
	var ids []string
	for name := range form {
		if id, is := strings.CutPrefix(name, "s."); is && strings.TrimSpace(form.Get(name)) != "" {
			ids = append(ids, id)
		}
	}
	if len(ids) == 0 {
		return nil, nil
	}
	slices.Sort(ids)
	err = s.view(q, v, func(b *store.Books) error {
		all, err := b.People(false)
		for _, id := range ids {
			i := slices.IndexFunc(all, func(p store.Person) bool { return p.ID == id })
			if i < 0 {
				return store.ErrMissing
			}
			text := strings.Join(strings.Fields(form.Get("s."+id)), " ")
			out = append(out, lineName(toldApart(all[i], all), all[i].Name, id)+": "+text)
		}
		return err
	})
	return out, err
}

// settled are lines with one of them settled by a button: "3 name Ana Reed" says whose the
// third is, "3 add left" completes its text.
func settled(lines []string, fix string) []string {
	n, rest, _ := strings.Cut(fix, " ")
	what, value, _ := strings.Cut(rest, " ")
	at, err := strconv.Atoi(n)
	if err != nil || at < 1 || at > len(lines) || value == "" {
		return lines
	}
	switch line := lines[at-1]; what {
	case "name":
		_, text, found := strings.Cut(line, ":")
		if !found {
			text = line
		}
		lines[at-1] = value + ": " + strings.TrimSpace(text)
	case "add":
		lines[at-1] = strings.TrimRight(line, " ") + " " + value
	}
	return lines
}

// heardOf is a line as a page shows it.
func heardOf(one heard, has map[string]string) page.ScoreHeard {
	out := page.ScoreHeard{N: one.Line, Name: one.Said}
	if one.Name() != "" {
		out.Name = one.Name()
	}
	if one.Read != nil {
		out.Words = capital(strings.TrimPrefix(one.Read.Words, "Read as: "))
		out.Private = strings.Join(one.private, "; ")
	}
	if one.Person != nil {
		out.Has = has[one.Person.ID]
	}
	if one.Ask != nil {
		out.Ask = asked(*one.Ask)
	}
	for _, p := range one.Among {
		label := p.Name
		if slices.ContainsFunc(one.Among, func(o person) bool { return o.ID != p.ID && strings.EqualFold(o.Name, p.Name) }) {
			label = byID(label, p.ID)
		}
		out.Fixes = append(out.Fixes, page.Choice{Value: fmt.Sprintf("%d name %s", one.Line, lineName(label, p.Name, p.ID)), Label: label})
	}
	for _, words := range one.answers {
		out.Fixes = append(out.Fixes, page.Choice{Value: fmt.Sprintf("%d add %s", one.Line, words), Label: words})
	}
	return out
}

// asked writes a question, and what stands behind it, as sentences.
func asked(text string) string {
	question, rest, more := strings.Cut(capital(text), "? ")
	if more {
		question += "? " + capital(rest)
	}
	if !strings.ContainsAny(question[max(len(question)-1, 0):], "?.") {
		question += "."
	}
	return question
}

// Name is what the person of a line is called; empty while it is not known.
func (h heard) Name() string {
	if h.Person == nil {
		return ""
	}
	return h.Person.Name
}

// scoresBefore are the scores that people have on the sheet already, by person.
func (s *Server) scoresBefore(q *http.Request, v visit) (map[string]string, error) {
	out := map[string]string{}
	return out, s.view(q, v, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, q.PathValue("name"))
		if err != nil {
			return err
		}
		all, err := b.OfSheet(d.ID)
		for _, a := range all {
			if a.Read != nil && len(a.Read.Readings) > 0 {
				out[a.Person] = score.Words(a.Read.Readings[0])
			}
		}
		return err
	})
}

// keepScoresForm keeps the scores that a coach has typed and seen read: all, or none while
// it is not known whose one is.
func (s *Server) keepScoresForm(w http.ResponseWriter, q *http.Request, v visit) error {
	form, err := sentForm(q)
	if err != nil {
		return err
	}
	entry, all, err := s.typedEntry(q, v, form)
	if err != nil {
		return err
	}
	if entry.Wrong != "" || entry.Open > 0 || entry.Batch == "" {
		return s.showScores(w, q, v, http.StatusUnprocessableEntity, entry)
	}
	sent := many{Scores: []oneOfMany{}}
	if sent.Day, err = s.dayOf(q, v, form.Get("class")); err != nil {
		return err
	}
	sent.form = entry.Batch
	for _, one := range all {
		o := oneOfMany{ID: idIn(entry.Batch, one.Person.ID, one.Text), Person: one.Person.ID, Text: one.Text}
		if !slices.Contains(sent.Scores, o) { // typed twice it is kept once
			sent.Scores = append(sent.Scores, o)
		}
	}
	kept, err := s.keepAll(q, v, sent)
	if err != nil {
		return err
	}
	said := "scores"
	if slices.ContainsFunc(kept.Scores, func(one stored) bool { return one.TakenBack }) {
		said = "scores-but-one"
	}
	to := "/sheets/" + url.PathEscape(q.PathValue("name")) + "/scores?said=" + said
	if class := form.Get("class"); class != "" {
		to += "&class=" + url.QueryEscape(class)
	}
	return next(w, q, to)
}

// dayOf is the day that scores are of: that of the class, else the sheet's own unless it
// is to come or was not written for one.
func (s *Server) dayOf(q *http.Request, v visit, class string) (on roomful.Date, err error) {
	err = s.view(q, v, func(b *store.Books) error {
		if class != "" {
			c, err := b.Class(class)
			on = c.Day
			return err
		}
		d, err := b.Named(store.Sheet, q.PathValue("name"))
		if err != nil {
			return err
		}
		today, err := s.today(b)
		if on = d.Day; on.IsZero() || on.Days(today) > 0 {
			on = today
		}
		return err
	})
	return on, err
}
