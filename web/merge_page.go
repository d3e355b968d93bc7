package web

import (
	"cmp"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/store"
	"roomful/web/page"
)

// mergePage shows a text beside the one that somebody else has saved meanwhile, line by
// line, with what each has changed. What only one of them changed is chosen already.
func (s *Server) mergePage(w http.ResponseWriter, q *http.Request, v visit, now store.Document, mine string, base int64) error {
	var frame page.Frame
	body := page.Merge{Name: now.Name, Title: cmp.Or(now.Title, now.Name), Mine: mine, Base: base, Revision: now.Revision, Query: queryOf(q.FormValue("class"), q.FormValue("piece"))}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/", body.Title); err != nil {
			return err
		}
		gym, err := b.Gym()
		if err != nil {
			return err
		}
		names, err := accountNames(b)
		if err != nil {
			return err
		}
		body.Who, body.When = cmp.Or(names[now.Account], "Somebody"), gym.Clock(now.At).Format("15:04")
		from, err := textOf(b, now.ID, base)
		if err != nil {
			return err
		}
		for i, h := range merge(textLines(from), textLines(mine), textLines(now.Text)) {
			body.Hunks = append(body.Hunks, hunkOf(i, h))
		}
		return nil
	}); err != nil {
		return err
	}
	frame.Loads = []string{"day.css"}
	return s.show(w, http.StatusConflict, frame, body)
}

// hunkOf is a stretch as it is shown.
func hunkOf(n int, h hunk) page.MergeHunk {
	return page.MergeHunk{N: n, Same: h.same, Mine: h.mine, Theirs: h.theirs, Asked: h.changed == byBoth, TakeTheirs: h.changed == byThem}
}

// textLines are the lines of a text.
func textLines(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(strings.TrimSuffix(text, "\n"), "\n")
}

// textOf is what a document was at a revision; empty when it was not there yet.
func textOf(b *store.Books, document string, n int64) (string, error) {
	all, err := b.Revisions(document)
	if at := slices.IndexFunc(all, func(r store.Revision) bool { return r.N == n }); at >= 0 {
		return all[at].Text, err
	}
	return "", err
}

// mergeForm puts the chosen lines together, and saves them or shows them to be looked over.
func (s *Server) mergeForm(w http.ResponseWriter, q *http.Request, v visit) error {
	mine, wrong := sheetText(q)
	base, errBase := strconv.ParseInt(q.PostFormValue("base"), 10, 64)
	revision, err := strconv.ParseInt(q.PostFormValue("revision"), 10, 64)
	if wrong != "" || errBase != nil || err != nil {
		return &roomful.Error{Summary: "putting two texts together: something of them is missing", Hint: "copy what you wrote from below, open the day again and paste it there"}
	}
	var from, theirs string
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, q.PathValue("name"))
		if err == nil {
			from, err = textOf(b, d.ID, base)
		}
		if err == nil {
			theirs, err = textOf(b, d.ID, revision)
		}
		return err
	}); err != nil {
		return err
	}
	text := chosenText(merge(textLines(from), textLines(mine), textLines(theirs)), func(n int) string { return q.PostFormValue(fmt.Sprint("take-", n)) })
	if q.PostFormValue("do") == "look" {
		return s.coachPage(w, q, v, written{text: &text, revision: &revision, told: "Put together, and not saved yet. Look it over."})
	}
	return s.saveOrMerge(w, q, v, text, revision)
}

// chosenText is a text put together of stretches: mine unless theirs or both are taken.
func chosenText(all []hunk, take func(n int) string) string {
	var lines []string
	for n, h := range all {
		switch {
		case h.changed == nobody:
			lines = append(lines, h.same...)
		case take(n) == "theirs":
			lines = append(lines, h.theirs...)
		case take(n) == "both":
			lines = append(append(lines, h.theirs...), h.mine...)
		default:
			lines = append(lines, h.mine...)
		}
	}
	return strings.Join(lines, "\n") + "\n"
}
