package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// myScore adds what the visitor scored on a day, and the form to say it.
func (s *Server) myScore(q *http.Request, v visit, d store.Document, body *page.MyDay, stages []roomful.Stage, again redrawn) error {
	if !mayTrain(v) {
		return nil
	}
	form := again.score
	if form == nil {
		form = &page.MyScore{}
	}
	form.Sheet, form.Class = d.Name, q.FormValue("class")
	known, can, err := s.pastOf(q, v)
	if err != nil {
		return err
	}
	var kept []store.Attempt
	if err := s.view(q, v, func(b *store.Books) (err error) {
		kept, err = b.OfSheetBy(d.ID, v.Account.Person)
		return err
	}); err != nil {
		return err
	}
	session, _ := s.session(d)
	for _, a := range kept {
		one, err := s.keptScore(q, a, known, can)
		if err != nil {
			return err
		}
		form.Kept = append(form.Kept, one)
		if a.ID == q.FormValue("change") && form.Text == "" {
			form.Text, form.Instead = a.Text, a.ID
		}
	}
	form.Hint, form.Optional = hintFor(session), len(kept) > 0
	form.Sent = q.FormValue("said") == "score"
	if form.ID == "" {
		if form.ID, err = s.NewID(); err != nil {
			return err
		}
	}
	body.Score = form
	if can && len(kept) == 0 && body.Stop == "" && !body.Home && !eased(known.of.Who, stages) {
		body.Beats, err = known.until(d.Day).beats(q, stages)
	}
	return err
}

// eased reports whether somebody does something else since it hurts: nothing is to be beaten
// then.
func eased(who roomful.Athlete, stages []roomful.Stage) bool {
	return slices.ContainsFunc(who.Limits, func(l roomful.Limit) bool { return l.Pain > 0 }) &&
		slices.ContainsFunc(stages, func(g roomful.Stage) bool { return g.Version != nil && g.Version.ByHand })
}

// keptScore is a score that is kept: what it was read as, how it stands beside the last
// time, and what there is to beat the next.
func (s *Server) keptScore(q *http.Request, a store.Attempt, known past, can bool) (page.MyKept, error) {
	out := page.MyKept{ID: a.ID, Text: a.Text, Reading: page.MyReading{Nothing: "It waits for your coach to read it."}}
	if !can {
		return out, nil
	}
	known = known.until(a.Day)
	got, typed, err := known.reading(q, a.Text)
	switch {
	case roomful.HintOf(err) != "":
		return out, nil
	case err != nil:
		return out, err
	}
	out.Reading = *got
	out.Reading.Answers = nil // they are given by changing it
	out.Beat, err = known.next(q, typed)
	return out, err
}

// hintFor shows what may be typed, by how the day's main piece is scored.
func hintFor(s roomful.Session) string {
	p, _ := s.Asked("")
	switch p.Format.(type) {
	case roomful.RoundsInTime:
		return "5+24"
	case roomful.ForTime:
		return "12:40"
	case roomful.Sets:
		return "60 60 62.5"
	}
	return "what you did, in your words"
}

// posting is a score as a form sends it.
func posting(q *http.Request, v visit) (sent posted, instead string) {
	text := strings.TrimSpace(q.PostFormValue("text"))
	if answer := q.PostFormValue("answer"); answer != "" {
		text += " " + answer
	}
	return posted{ID: q.PostFormValue("id"), Person: v.Account.Person, Sheet: q.PostFormValue("sheet"), Text: text}, q.PostFormValue("instead")
}

// scoreForm keeps a score that a form sends, and leads back to the day.
func (s *Server) scoreForm(w http.ResponseWriter, q *http.Request, v visit) error {
	sent, instead := posting(q, v)
	var kept stored
	err := sent.check(v)
	if err == nil {
		kept, err = s.keepScore(q, v, sent, instead)
	}
	if errors.Is(err, store.ErrTaken) || err == nil && kept.TakenBack {
		kept, err = s.correctScore(q, v, sent, kept)
	}
	var wrong *roomful.Error
	if errors.As(err, &wrong) && !errors.Is(err, errNotYours) && !errors.Is(err, errNoScore) && mayTrain(v) && !v.May(account.EditSheets) {
		q.SetPathValue("name", sent.Sheet)
		return s.myDay(w, q, v, redrawn{status: http.StatusBadRequest, score: &page.MyScore{ID: sent.ID, Text: sent.Text, Instead: instead, Wrong: said2(wrong)}})
	}
	if err != nil {
		return err
	}
	said := "score"
	if kept.TakenBack {
		said = "score-was-back"
	}
	return next(w, q, backTo(q, sent.Sheet, said, "score"))
}

// correctScore keeps a score in the place of what stands from the same form: its answer was
// lost on the way, and the text was changed meanwhile, maybe several times. Where nothing of
// the form stands any more, what was taken back stays so.
func (s *Server) correctScore(q *http.Request, v visit, sent posted, back stored) (kept stored, err error) {
	var before []store.Attempt
	form, id := sent.ID, idIn(sent.ID, sent.Person, sent.Text)
	if err := s.view(q, v, func(b *store.Books) error {
		was, err := b.Attempt(form)
		if err != nil {
			return err
		}
		of, err := b.Document(was.Document)
		if err == nil && (!v.is(was.Person) || of.Name != sent.Sheet) {
			err = store.ErrTaken
		}
		if err != nil {
			return err
		}
		if before, err = standing(b, form, was.Document, was.Person); err != nil {
			return err
		}
		id, err = idAfter(b, form, before, oneOfMany{ID: id, Person: sent.Person, Text: sent.Text})
		return err
	}); err != nil {
		return kept, err
	}
	if len(before) == 0 && back.TakenBack {
		return back, nil
	}
	instead := form
	if n := len(before); n > 0 {
		instead = before[n-1].ID
	}
	if sent.ID = id; instead == id { // it stands already
		instead = ""
	}
	return s.keepScore(q, v, sent, instead)
}

// withdrawForm takes a score back, and leads back to its day.
func (s *Server) withdrawForm(w http.ResponseWriter, q *http.Request, v visit) error {
	a, err := s.takeBack(q, v, q.PathValue("score"))
	if err != nil {
		return err
	}
	return next(w, q, backTo(q, a.Sheet, "back", "score"))
}

// readingPart shows what a score would be read as: to htmx as a piece of the page, else as
// the day with it.
func (s *Server) readingPart(w http.ResponseWriter, q *http.Request, v visit) error {
	sent, instead := posting(q, v)
	if len(sent.Text) > mostScore {
		return &roomful.Error{Summary: "reading a score: the text is too long to be one", Hint: "say the score first, and the story under the day"}
	}
	got := &page.MyReading{Nothing: "Here stands what it is read as, before you save it."}
	if sent.Text != "" {
		known, can, err := s.pastOf(q, v)
		switch {
		case err != nil:
			return err
		case !can:
			got.Nothing = "The sheet cannot be read just now. Save it all the same: it is kept as you type it."
		default:
			if got, _, err = known.reading(q, sent.Text); roomful.HintOf(err) != "" {
				got = &page.MyReading{Nothing: "Nothing is read from that yet. " + asSentence(roomful.HintOf(err))}
			} else if err != nil {
				return err
			}
		}
	}
	got.Sheet = q.PathValue("name")
	if q.Header.Get("HX-Request") == "true" {
		if q.PostFormValue("answer") != "" {
			got.Said = &page.MyScore{Sheet: got.Sheet, Text: sent.Text, Instead: instead, Answered: true}
		}
		return s.showPart(w, *got)
	}
	return s.myDay(w, q, v, redrawn{score: &page.MyScore{ID: sent.ID, Text: sent.Text, Instead: instead, Reading: got}})
}
