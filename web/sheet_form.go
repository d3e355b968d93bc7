package web

import (
	"cmp"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/notation"
	"roomful/store"
	"roomful/web/page"
)

// mostSheet bounds the text of a sheet, in bytes: a long one has four thousand.
const mostSheet = 100_000

// addresses are names that no sheet can have: there stands something else.
var addresses = []string{"new", "check", "draft"}

// sheetText is the text that a form of a sheet sends, with line ends as they are kept, and
// why it cannot be taken.
func sheetText(q *http.Request) (text, wrong string) {
	text = strings.TrimRight(strings.ReplaceAll(q.PostFormValue("text"), "\r\n", "\n"), " \n") + "\n"
	switch {
	case strings.TrimSpace(text) == "":
		return text, "There is nothing to save. Write a title, a date and what is to be done."
	case len(text) > mostSheet:
		return text, fmt.Sprintf("That is more than a sheet holds. Shorten it to %d letters.", mostSheet)
	}
	return text, ""
}

// sheetForm saves a sheet, or shows it tidied or mended without saving it.
func (s *Server) sheetForm(w http.ResponseWriter, q *http.Request, v visit) error {
	text, wrong := sheetText(q)
	revision, err := strconv.ParseInt(q.PostFormValue("revision"), 10, 64)
	if err != nil || revision < 0 {
		return &roomful.Error{Summary: "saving a sheet: it is not said which revision it was written from", Hint: "copy what you wrote, open the day again and paste it there"}
	}
	mend := q.PostFormValue("mend")
	switch {
	case wrong != "":
		return s.coachPage(w, q, v, written{status: http.StatusBadRequest, text: &text, revision: &revision, wrong: wrong})
	case mend != "":
		text = mended(text, mend)
		return s.coachPage(w, q, v, written{text: &text, revision: &revision, told: "Mended, and not saved yet."})
	case q.PostFormValue("do") == "tidy":
		text = cmp.Or(s.said(text).Tidy, text)
		return s.coachPage(w, q, v, written{text: &text, revision: &revision, told: "Tidied, and not saved yet."})
	}
	return s.saveOrMerge(w, q, v, text, revision)
}

// saveOrMerge saves a text and shows the day, or both texts when somebody else was faster.
func (s *Server) saveOrMerge(w http.ResponseWriter, q *http.Request, v visit, text string, revision int64) error {
	got, stale, err := s.keepSheet(q, v, q.PathValue("name"), text, revision)
	switch {
	case err != nil:
		return err
	case stale:
		return s.mergePage(w, q, v, got, text, revision)
	case got.Revision == revision:
		return next(w, q, dayPath(q, "said", "same"))
	}
	return next(w, q, dayPath(q, "said", "saved"))
}

// keepSheet saves a text under a name, faults and all: what is written is never lost. A
// stale one is kept aside, and what holds comes back.
func (s *Server) keepSheet(q *http.Request, v visit, name, text string, revision int64) (got store.Document, stale bool, err error) {
	if err := checkID("sheet", name); err != nil {
		return got, false, err
	}
	switch {
	case slices.Contains(addresses, name):
		return got, false, &roomful.Error{Summary: "saving a sheet: " + name + " is an address of its own", Hint: "give the sheet another name"}
	case len(text) > mostSheet:
		return got, false, &roomful.Error{Summary: "saving a sheet: that is more than a sheet holds", Hint: fmt.Sprintf("shorten it to %d letters", mostSheet)}
	}
	id, err := s.NewID()
	if err != nil {
		return got, false, err
	}
	session, _ := notation.Read(text, s.Lexicon)
	err = s.Store.Update(q.Context(), s.by(v), func(tx *store.Tx) error {
		got, stale, err = save(tx.In(v.Gym), store.Document{ID: id, Kind: store.Sheet, Name: name, Title: session.Title, Day: session.Date, Text: text, Revision: revision})
		return err
	})
	return got, stale, err
}

// mended puts something in its place in a text: "11 6 11 15 kettlebell swings". What
// cannot be meant changes nothing.
func mended(text, mend string) string {
	var line, column, endLine, endColumn int
	if n, err := fmt.Sscan(mend, &line, &column, &endLine, &endColumn); n < 4 || err != nil {
		return text
	}
	words := strings.SplitN(mend, " ", 5)
	from, to, ok := span(text, line, column, endLine, endColumn)
	if !ok || len(words) < 5 {
		return text
	}
	return text[:from] + words[4] + text[to:]
}

// checkPart says what there is to say about a text that is being written.
func (s *Server) checkPart(w http.ResponseWriter, q *http.Request, _ visit) error {
	text, _ := sheetText(q)
	if len(text) > mostSheet {
		text = text[:mostSheet]
	}
	return s.showPart(w, page.DayCheck{DaySaid: s.said(text)})
}

// draftPart works a day out from a text that is not saved.
func (s *Server) draftPart(w http.ResponseWriter, q *http.Request, v visit) error {
	text, wrong := sheetText(q)
	if wrong != "" {
		return &roomful.Error{Summary: "working out a text", Hint: wrong}
	}
	ask := s.askAbout(q, v, q.PathValue("name"))
	ask.Text = text
	var words map[string]string
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, ask.Sheet)
		if err != nil {
			return err
		}
		accounts, err := accountsByID(b)
		if err == nil {
			words, err = whoseWords(b, d.ID, v, accounts)
		}
		return err
	}); err != nil {
		return err
	}
	out, err := s.dayWork(q.Context(), ask, words, waits(q))
	if err != nil {
		return err
	}
	out.Phone = onPhone(q)
	return s.showPart(w, page.DayDraft{DayWork: out})
}
