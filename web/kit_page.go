package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/exchange"
	"roomful/store"
	"roomful/web/page"
)

// kitPage shows what the gym owns, as a form or as its text.
func (s *Server) kitPage(w http.ResponseWriter, q *http.Request, v visit) error {
	if q.FormValue("as") == "text" {
		return s.plainPage(w, q, v, plains[store.Kit])
	}
	var d store.Document
	if err := s.view(q, v, func(b *store.Books) (err error) {
		d, err = textNow(b, store.Kit)
		return err
	}); err != nil {
		return err
	}
	k, ds := exchange.ReadKit(strings.NewReader(orWords(d.Text, "unit: kg")))
	if k == nil || faults(exchange.DiagnosticsOf("", ds)) { // a form would lose what it cannot read
		return s.plainPage(w, q, v, plains[store.Kit])
	}
	body := kitForm(kitValues(k), emptyLines, nil)
	body.Revision, body.Notes, body.None = d.Revision, strings.Contains(d.Text, "#"), d.Revision == 0
	return s.showIn(w, q, v, http.StatusOK, "/kit", "Kit", body)
}

// showIn draws a page that belongs to a word in the line at the top.
func (s *Server) showIn(w http.ResponseWriter, q *http.Request, v visit, status int, place, title string, body any) error {
	var frame page.Frame
	if err := s.view(q, v, func(b *store.Books) (err error) {
		frame, err = s.frame(b, q, v, place, title)
		return err
	}); err != nil {
		return err
	}
	return s.show(w, status, frame, body)
}

// keepKit keeps what the form or the text has. Refused or stale, it comes back as it was
// typed; asked for more lines, with more lines.
func (s *Server) keepKit(w http.ResponseWriter, q *http.Request, v visit) error {
	if q.FormValue("as") == "text" {
		return s.keepPlain(w, q, v, plains[store.Kit])
	}
	was, n, err := s.writtenFrom(q, v, store.Kit)
	if err != nil {
		return err
	}
	again := func(status, spare int, wrong map[string]string, theirs string, revision int64) error {
		body := kitForm(q.PostForm, spare, wrong)
		body.Revision, body.Notes, body.Theirs = revision, strings.Contains(was.Text, "#"), theirs
		return s.showIn(w, q, v, status, "/kit", "Kit", body)
	}
	if q.FormValue("do") == "more" {
		return again(http.StatusOK, 5*emptyLines, nil, "", n)
	}
	lines := kitLines(q.PostForm)
	if wrong := wrongLines(lines, s.checkOf(store.Kit)); len(wrong) > 0 {
		return again(http.StatusUnprocessableEntity, emptyLines, wrong, "", n)
	}
	out, err := s.keepText(q, v, store.Kit, saving{exchange.KeepComments(was.Text, joined(lines)), n}, s.checkOf(store.Kit))
	switch {
	case err != nil:
		return err
	case out.Stale:
		return again(http.StatusConflict, emptyLines, nil, out.Text, out.Revision)
	}
	return next(w, q, "/kit?said=kit")
}

// wrongLines are what is wrong with a text that a form has made, by its fields. A fault
// that stands at no field is said at the first.
func wrongLines(lines []textLine, check checked) map[string]string {
	out := map[string]string{}
	_, ds := check(joined(lines))
	for _, d := range ds {
		if d.Severity != roomful.Fault {
			continue
		}
		field := ""
		if len(lines) > 0 {
			field = lines[0].field
		}
		if n := d.Range.Start.Line; n >= 1 && n <= len(lines) && lines[n-1].field != "" {
			field = lines[n-1].field
		}
		out[field] = strings.TrimSpace(out[field] + " " + inSentences(d.Summary, d.Hint))
	}
	return out
}

// plain is a text that a gym has one of, for its page.
type plain struct{ kind, title, path, about string }

// plains are the two, by their kind.
var plains = map[string]plain{
	store.Kit:      {store.Kit, "Kit", "/kit", "one thing a line; what stands behind # is a note to yourselves"},
	store.Settings: {store.Settings, "Settings", "/settings", "what is not here is as usual; what stands behind # is a note to yourselves"},
}

// plainPage shows a text as it is written.
func (s *Server) plainPage(w http.ResponseWriter, q *http.Request, v visit, p plain) error {
	var d store.Document
	if err := s.view(q, v, func(b *store.Books) (err error) {
		d, err = textNow(b, p.kind)
		return err
	}); err != nil {
		return err
	}
	body := page.Plain{Title: p.title, Path: p.path, About: p.about, Text: d.Text, Revision: d.Revision}
	if d.Text != "" {
		_, ds := s.checkOf(p.kind)(d.Text)
		body.Faults, body.Doubts = linesSaid(d.Text, ds)
	}
	return s.showIn(w, q, v, http.StatusOK, p.path, p.title, body)
}

// keepPlain keeps a text as it is written, when it has no fault.
func (s *Server) keepPlain(w http.ResponseWriter, q *http.Request, v visit, p plain) error {
	if _, err := formed(q); err != nil {
		return err
	}
	n, err := revisionOf(q)
	if err != nil {
		return err
	}
	sent := saving{strings.ReplaceAll(q.PostForm.Get("text"), "\r\n", "\n"), n}
	body := page.Plain{Title: p.title, Path: p.path, About: p.about, Text: sent.Text, Revision: n}
	_, ds := s.checkOf(p.kind)(sent.Text)
	if body.Faults, body.Doubts = linesSaid(sent.Text, ds); len(body.Faults) > 0 {
		return s.showIn(w, q, v, http.StatusUnprocessableEntity, p.path, p.title, body)
	}
	out, err := s.keepText(q, v, p.kind, sent, s.checkOf(p.kind))
	switch {
	case err != nil:
		return err
	case out.Stale:
		body.Theirs, body.Revision = out.Text, out.Revision
		return s.showIn(w, q, v, http.StatusConflict, p.path, p.title, body)
	}
	return next(w, q, p.path+"?as=text&said="+url.QueryEscape(p.kind))
}

// linesSaid is what there is to say about a text, by its lines.
func linesSaid(text string, ds []roomful.Diagnostic) (faults, doubts []page.Line) {
	lines := strings.Split(text, "\n")
	for _, d := range ds {
		line := page.Line{N: max(d.Range.Start.Line, 1), Says: inSentences(d.Summary, d.Hint)}
		if line.N <= len(lines) {
			line.Text = strings.TrimSpace(lines[line.N-1])
		}
		if d.Severity == roomful.Fault {
			faults = append(faults, line)
		} else {
			doubts = append(doubts, line)
		}
	}
	return faults, doubts
}

// settingsPage shows how the gym likes things, in groups or as text.
func (s *Server) settingsPage(w http.ResponseWriter, q *http.Request, v visit) error {
	if q.FormValue("as") == "text" && v.May(account.EditSettings) {
		return s.plainPage(w, q, v, plains[store.Settings])
	}
	var d store.Document
	if err := s.view(q, v, func(b *store.Books) (err error) {
		d, err = textNow(b, store.Settings)
		return err
	}); err != nil {
		return err
	}
	gym, ds := exchange.ReadGym(strings.NewReader(orWords(d.Text, "unit: kg")), s.Lexicon)
	if faults(exchange.DiagnosticsOf("", ds)) && v.May(account.EditSettings) {
		return s.plainPage(w, q, v, plains[store.Settings])
	}
	body := settingsPage(v, gym, settingValues(gym), nil)
	body.Revision = d.Revision
	return s.showIn(w, q, v, http.StatusOK, "/settings", "Settings", body)
}

// keepSettings keeps how the gym likes things, as the form or the text has it.
func (s *Server) keepSettings(w http.ResponseWriter, q *http.Request, v visit) error {
	if q.FormValue("as") == "text" {
		return s.keepPlain(w, q, v, plains[store.Settings])
	}
	was, n, err := s.writtenFrom(q, v, store.Settings)
	if err != nil {
		return err
	}
	again := func(status int, wrong map[string]string, theirs string, revision int64) error {
		gym, _ := exchange.ReadGym(strings.NewReader(orWords(was.Text, "unit: kg")), s.Lexicon)
		body := settingsPage(v, gym, q.PostForm, wrong)
		body.Revision, body.Theirs = revision, theirs
		return s.showIn(w, q, v, status, "/settings", "Settings", body)
	}
	lines := settingLines(q.PostForm)
	if wrong := wrongLines(lines, s.checkOf(store.Settings)); len(wrong) > 0 {
		return again(http.StatusUnprocessableEntity, wrong, "", n)
	}
	out, err := s.keepText(q, v, store.Settings, saving{exchange.KeepComments(was.Text, joined(lines)), n}, s.checkOf(store.Settings))
	switch {
	case err != nil:
		return err
	case out.Stale:
		return again(http.StatusConflict, nil, out.Text, out.Revision)
	}
	return next(w, q, "/settings?said=settings")
}

// writtenFrom is the text that a form was filled in from, and its revision.
func (s *Server) writtenFrom(q *http.Request, v visit, kind string) (was store.Document, n int64, err error) {
	if _, err := formed(q); err != nil {
		return was, 0, err
	}
	if n, err = revisionOf(q); err != nil {
		return was, 0, err
	}
	err = s.view(q, v, func(b *store.Books) (err error) {
		was, err = baseOf(b, kind, n)
		return err
	})
	return was, n, err
}

// baseOf is a text as it was at a revision; an empty one where it was none.
func baseOf(b *store.Books, kind string, n int64) (store.Document, error) {
	d, err := textNow(b, kind)
	if err != nil || d.Revision == n || n == 0 {
		return d, err
	}
	all, err := b.Revisions(d.ID)
	if i := slices.IndexFunc(all, func(r store.Revision) bool { return r.N == n }); i >= 0 {
		d.Text = all[i].Text
	}
	return d, err
}
