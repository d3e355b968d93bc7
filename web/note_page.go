package web

import (
	"errors"
	"net/http"
	"net/url"
	"strings"
	"time"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// notesOf is what was said under a day as far as the visitor may read it, with a form to
// say more.
func (s *Server) notesOf(b *store.Books, v visit, d store.Document) (*page.MyNotes, error) {
	out := &page.MyNotes{Sheet: d.Name, May: v.Account.Person != "" && v.May(account.SayNote)}
	var err error
	if out.ID, err = s.NewID(); err != nil {
		return nil, err
	}
	gym, err := b.Gym()
	if err != nil {
		return nil, err
	}
	all, err := s.notesFor(b, v, d)
	if err != nil {
		return nil, err
	}
	at := map[string]int{} // of a thread, by the id of what began it
	for _, n := range all {
		one := page.MyNote{By: n.Name, When: clockWords(gym.Clock(n.at)), Text: n.Text, Private: n.Private}
		if i, answers := at[n.Answers]; answers && n.Answers != "" {
			one.By = n.By
			out.Threads[i].Answers = append(out.Threads[i].Answers, one)
			at[n.ID] = i
			continue
		}
		at[n.ID] = len(out.Threads)
		out.Threads = append(out.Threads, page.MyThread{MyNote: one})
	}
	return out, nil
}

// clockWords says when something was, "5 April, 07:12".
func clockWords(at time.Time) string { return at.Format("2 January, 15:04") }

// noteForm says something under a day.
func (s *Server) noteForm(w http.ResponseWriter, q *http.Request, v visit) error {
	sent := saying{ID: q.PostFormValue("id"), Text: strings.TrimSpace(q.PostFormValue("text")), Answers: q.PostFormValue("answers"), Private: q.PostFormValue("private") != "", Open: q.PostFormValue("open") != ""}
	err := s.keepTyped(q, v, sent)
	var wrong *roomful.Error
	if errors.As(err, &wrong) && mayTrain(v) && !v.May(account.EditSheets) {
		return s.myDay(w, q, v, redrawn{status: http.StatusBadRequest, note: &page.MyNotes{ID: sent.ID, Text: sent.Text, Private: sent.Private, Wrong: said2(wrong)}})
	}
	if err != nil {
		return err
	}
	return next(w, q, backTo(q, q.PathValue("name"), "note", "notes"))
}

// keepTyped keeps what a form says under a day. What came from the same form before, whose
// answer was lost on the way, was other words when it says something else now: both stay.
func (s *Server) keepTyped(q *http.Request, v visit, sent saying) error {
	_, err := s.keepSaying(q, v, q.PathValue("name"), sent)
	if !errors.Is(err, store.ErrTaken) {
		return err
	}
	sent.ID = idIn(sent.ID, v.Account.ID, sent.Text)
	_, err = s.keepSaying(q, v, q.PathValue("name"), sent)
	return err
}

// noteLook says who would read a note that is being written.
func (s *Server) noteLook(w http.ResponseWriter, q *http.Request, v visit) error {
	var d store.Document
	if err := s.view(q, v, func(b *store.Books) (err error) {
		seen, err := s.seen(b, v, q.PathValue("name"))
		d = seen.Document
		return err
	}); err != nil {
		return err
	}
	text := strings.TrimSpace(q.PostFormValue("text"))
	look := page.MyNoteLook{Private: q.PostFormValue("private") != "", Open: q.PostFormValue("open") != ""}
	if text != "" && !look.Private {
		t := s.tells(d, text)
		look.Private, look.Body, look.Unsure, look.Words = t.keeps(look.Open), t.body, t.unknown && !t.body, t.words
	}
	return s.showPart(w, look)
}

// said2 is what was wrong and the next step, in two sentences.
func said2(e *roomful.Error) string { return asSentence(e.Summary) + " " + asSentence(e.Hint) }

// backTo is the address of a day after a form, with what was done and where to look.
func backTo(q *http.Request, sheet, said, part string) string {
	to := "/sheets/" + url.PathEscape(sheet) + "?said=" + said
	if class := q.PostFormValue("class"); class != "" {
		to += "&class=" + url.QueryEscape(class)
	}
	return to + "#" + part
}
