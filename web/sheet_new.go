package web

import (
	"cmp"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"unicode"

	"roomful"
	"roomful/notation"
	"roomful/store"
	"roomful/web/page"
)

// newSheetPage begins a sheet: with an example to write over, or with an earlier one to be
// done again.
func (s *Server) newSheetPage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.newSheet(w, q, v, written{}, "")
}

// newSheet shows a sheet that is not saved yet, with what was typed of it.
func (s *Server) newSheet(w http.ResponseWriter, q *http.Request, v visit, again written, id string) error {
	var frame page.Frame
	body := page.NewSheet{}
	var text string
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/sheets", "A new sheet"); err != nil {
			return err
		}
		all, err := b.Documents(store.Sheet)
		if err != nil {
			return err
		}
		today, err := s.today(b)
		if err != nil {
			return err
		}
		var on roomful.Date
		if on.UnmarshalText([]byte(q.FormValue("day"))) != nil {
			on = freeDay(all, today)
		}
		text = skeleton(on)
		for _, d := range slices.Backward(all) {
			body.Earlier = append(body.Earlier, page.SheetRow{Name: d.Name, Title: cmp.Or(d.Title, d.Name), Day: inWords(d.Day)})
			if d.Name == q.FormValue("again") {
				text, body.Again = s.onceMore(d, on), d.Name
			}
		}
		return nil
	}); err != nil {
		return err
	}
	if id == "" {
		var err error
		if id, err = s.NewID(); err != nil {
			return err
		}
	}
	body.ID = id
	body.Sheet = page.DaySheet{Text: text, Wrong: again.wrong, Who: "Nothing is saved yet."}
	if again.text != nil {
		body.Sheet.Text = *again.text
	}
	body.Sheet.Said = s.said(body.Sheet.Text)
	frame.Said = cmp.Or(again.told, frame.Said)
	frame.Loads = []string{"day.css", "day.js"}
	return s.show(w, cmp.Or(again.status, http.StatusOK), frame, body)
}

// freeDay is the first day from today on for which there is no sheet.
func freeDay(all []store.Document, today roomful.Date) roomful.Date {
	for taken := true; taken; {
		taken = slices.ContainsFunc(all, func(d store.Document) bool { return d.Day == today })
		if taken {
			today = today.Plus(1)
		}
	}
	return today
}

// skeleton is a sheet to write over.
func skeleton(on roomful.Date) string {
	return "A title\n" + on.String() + `, 60 min

effort: 5-7 rounds, steady
  deadlift: fresh 15+

warm-up: 2 rounds, 40 s each
  easy row
  air squat
  hip hinge
  push-up

ramp: deadlift to working load, 8 min

main: as many rounds as possible in 14 min
  8 deadlifts 70/47.5 kg
  10 push-ups
  12 box step-ups 60/50 cm

mobility: 4 min
  hamstring stretch 60 s a side
`
}

// onceMore is an earlier sheet to be done on another day.
func (s *Server) onceMore(d store.Document, on roomful.Date) string {
	session, ds := notation.Read(d.Text, s.Lexicon)
	if faulty(ds) {
		return strings.Replace(d.Text, d.Day.String(), on.String(), 1)
	}
	session.Date, session.Again = on, cmp.Or(session.Again, session.Title)
	if session.Again != "" {
		session.Title = strings.TrimSuffix(session.Again, ", Again") + ", Again"
	}
	return notation.Print(session, s.Lexicon)
}

// newSheetForm saves a sheet that is new, under a name made of its title.
func (s *Server) newSheetForm(w http.ResponseWriter, q *http.Request, v visit) error {
	text, wrong := sheetText(q)
	id := q.PostFormValue("id")
	if err := checkID("sheet", id); err != nil {
		return err
	}
	mend := q.PostFormValue("mend")
	switch {
	case mend != "":
		text = mended(text, mend)
		return s.newSheet(w, q, v, written{text: &text, told: "Mended, and not saved yet."}, id)
	case wrong == "" && q.PostFormValue("do") == "tidy":
		text = cmp.Or(s.said(text).Tidy, text)
		return s.newSheet(w, q, v, written{text: &text, told: "Tidied, and not saved yet."}, id)
	}
	session, _ := notation.Read(text, s.Lexicon)
	if wrong == "" && session.Title == "" {
		wrong = "Give it a title on its first line. It is found by that later."
	}
	if wrong != "" {
		return s.newSheet(w, q, v, written{status: http.StatusBadRequest, text: &text, wrong: wrong}, id)
	}
	var kept store.Document
	var last string
	if err := s.update(q, v, func(b *store.Books) (err error) {
		if kept, err = keepNew(b, store.Document{ID: id, Kind: store.Sheet, Title: session.Title, Day: session.Date, Text: text}); err == nil {
			last, err = lastBy(b, kept.ID, v.Account.ID)
		}
		return err
	}); err != nil {
		return err
	}
	q.SetPathValue("name", kept.Name)
	if last != text { // it was sent before, no answer came, and they wrote on
		return s.saveOrMerge(w, q, v, text, 1)
	}
	return next(w, q, dayPath(q, "said", "saved"))
}

// keepNew saves a sheet under a name of its own, and gives what is kept. Sent twice it is
// saved once.
func keepNew(b *store.Books, d store.Document) (kept store.Document, err error) {
	if kept, err = b.Document(d.ID); err == nil && kept.Kind != store.Sheet {
		err = store.ErrTaken
	}
	if !errors.Is(err, store.ErrMissing) {
		return kept, err
	}
	of := slug(d.Title)
	for n := 1; ; n++ {
		d.Name = of
		if n > 1 {
			d.Name = fmt.Sprintf("%s-%d", of, n)
		}
		if _, err := b.Named(store.Sheet, d.Name); errors.Is(err, store.ErrMissing) {
			break
		} else if err != nil {
			return d, err
		}
	}
	_, _, err = b.Save(d)
	return d, err
}

// lastBy is the last text that an account has saved of a document, whatever others have made
// of it since; empty for none.
func lastBy(b *store.Books, id, account string) (text string, err error) {
	all, err := b.Revisions(id)
	for _, r := range all {
		if !r.Aside && r.Account == account {
			text = r.Text
		}
	}
	return text, err
}

// mostSlug bounds the name of a sheet.
const mostSlug = 60

// slug is a title as a name: "The Tall Gamp, Again" is the-tall-gamp-again.
func slug(title string) string {
	words := strings.FieldsFunc(strings.ToLower(strings.NewReplacer("’", "", "'", "").Replace(title)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	var out string
	for _, word := range words {
		if len(out)+1+len(word) > mostSlug {
			break
		}
		out = strings.TrimPrefix(out+"-"+word, "-")
	}
	if out == "" || slices.Contains(addresses, out) {
		return strings.TrimPrefix(out+"-sheet", "-")
	}
	return out
}

// draftNewPart works a day out from a text that is not a sheet yet.
func (s *Server) draftNewPart(w http.ResponseWriter, q *http.Request, v visit) error {
	text, wrong := sheetText(q)
	if wrong != "" {
		return &roomful.Error{Summary: "working out a text", Hint: wrong}
	}
	ask := s.askAbout(q, v, "")
	ask.Text = text
	out, err := s.dayWork(q.Context(), ask, nil, waits(q))
	if err != nil {
		return err
	}
	out.Phone = onPhone(q)
	return s.showPart(w, page.DayDraft{DayWork: out})
}
