package web

import (
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/store"
	"roomful/transfer"
	"roomful/web/page"
)

// importPage asks for a file of people.
func (s *Server) importPage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.showImport(w, q, v, http.StatusOK, page.Import{})
}

// showImport draws the page.
func (s *Server) showImport(w http.ResponseWriter, q *http.Request, v visit, status int, body page.Import) error {
	return s.showIn(w, q, v, status, "/people", "Import people", body)
}

// importPeople shows how a file of people is read, which writes nothing, and with the word
// for it keeps them. A file with faults is kept by no word.
func (s *Server) importPeople(w http.ResponseWriter, q *http.Request, v visit) error {
	text, err := fileSent(q)
	if err != nil {
		return err
	}
	keep := q.FormValue("keep") == "yes"
	if strings.TrimSpace(text) == "" {
		return s.showImport(w, q, v, http.StatusUnprocessableEntity, page.Import{Asked: true, Faults: []page.Line{{N: 1, Says: "There is nothing in it. Start with a line such as name,division,squat_kg and one line for each person."}}})
	}
	if n := strings.Count(text, "\n"); n > mostImported {
		return &roomful.Error{Summary: fmt.Sprintf("importing people: %d lines are too many for a page", n), Hint: fmt.Sprintf("send up to %d at a time, or bring them in by the import command", mostImported)}
	}
	var report transfer.Report
	people := transfer.File{Name: "people.csv", Text: text}
	err = s.view(q, v, func(b *store.Books) (err error) {
		report, err = transfer.Look(b, people, s.Lexicon, s.Now())
		return err
	})
	if err == nil && keep {
		err = s.update(q, v, func(b *store.Books) (err error) {
			report, err = transfer.Import(b, transfer.Folder{People: &people}, s.Lexicon, s.Now())
			return err
		})
		if err == nil {
			return next(w, q, "/people?said=imported")
		}
	}
	if err != nil && !errors.Is(err, transfer.ErrFaults) {
		return err
	}
	body, status := s.importRead(text, report), http.StatusOK
	if len(body.Faults) > 0 {
		status = http.StatusUnprocessableEntity
	}
	return s.showImport(w, q, v, status, body)
}

// mostImported is how many lines a page brings in of people: others wait for whoever writes.
// A gym has some hundreds (judgement).
const mostImported = 3000

// mostLooked is how many of them are shown before they are kept.
const mostLooked = 200

// fileSent is a text that somebody sends as a file or pasted; the file goes first.
func fileSent(q *http.Request) (string, error) {
	kind, _, _ := mime.ParseMediaType(q.Header.Get("Content-Type"))
	if kind != "multipart/form-data" {
		_, err := formed(q)
		return q.PostFormValue("text"), err
	}
	if err := q.ParseMultipartForm(mostBody); err != nil {
		return "", &refusal{http.StatusBadRequest, roomful.Error{Summary: "reading the file: it is larger than a megabyte, or broken off", Hint: "send it in parts"}}
	}
	file, _, err := q.FormFile("file")
	if errors.Is(err, http.ErrMissingFile) {
		return q.FormValue("text"), nil
	}
	if err != nil {
		return "", err
	}
	defer file.Close()
	text, err := io.ReadAll(file)
	if err == nil && len(text) == 0 {
		return q.FormValue("text"), nil
	}
	return string(text), err
}

// importRead is a file as it was read, with what there is to say about its lines.
func (s *Server) importRead(text string, report transfer.Report) page.Import {
	out := page.Import{Asked: true, Text: text}
	for _, told := range report.Told {
		faults, doubts := linesSaid(text, told.Diagnostics)
		out.Faults, out.Doubts = append(out.Faults, faults...), append(out.Doubts, doubts...)
	}
	people, _ := exchange.ReadPeople(strings.NewReader(text), s.Lexicon, roomful.Date{})
	for i, step := range report.Steps[:min(len(report.Steps), mostLooked)] {
		row := page.ImportRow{Name: step.Name, Do: step.Do}
		if i < len(people) {
			row.Told = s.toldInLine(people[i])
		}
		out.Rows = append(out.Rows, row)
	}
	out.More = len(report.Steps) - len(out.Rows)
	out.Summary = fmt.Sprintf("%d new, %d changed, %d as they were", report.Count("person", transfer.Added), report.Count("person", transfer.Changed), report.Count("person", transfer.Same))
	return out
}

// toldInLine says in a line what a file tells of somebody, body mass apart.
func (s *Server) toldInLine(a roomful.Athlete) string {
	has := exchange.ToldOf(a)
	for _, column := range massColumns {
		delete(has, column)
	}
	var out []string
	for _, f := range factsOf(has, s.Lexicon) {
		out = append(out, f.Name+" "+f.Value)
	}
	for _, l := range a.Limits {
		out = append(out, "limit: "+limitInWords(l))
	}
	return strings.Join(out, "; ")
}

// peopleFile gives everybody who comes as a file. Nobody's body mass is in it: that is for
// themselves.
func (s *Server) peopleFile(w http.ResponseWriter, q *http.Request, v visit) error {
	var people []roomful.Athlete
	var on roomful.Date
	if err := s.view(q, v, func(b *store.Books) error {
		laid, err := s.Desk.Open(b, s.Now())
		if err == nil {
			people, on = laid.People, laid.Today
		}
		return err
	}); err != nil {
		return err
	}
	for i := range people {
		people[i].MassKg = 0
	}
	w.Header().Set("Content-Type", "text/csv; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="people-`+on.String()+`.csv"`)
	return exchange.WritePeople(w, people)
}
