package web

import (
	"errors"
	"net/http"
	"net/url"
	"strings"

	"roomful"
	"roomful/store"
	"roomful/web/page"
)

// coachNotes are the notes under a day with their answers, each with a form for another;
// typed is what was written into one of them and not taken.
func (s *Server) coachNotes(b *store.Books, v visit, d opened, typed *page.DayNote) (out []page.DayNote, err error) {
	all, err := s.notesFor(b, v, d.Document)
	if err != nil {
		return nil, err
	}
	at := map[string]int{} // of what is answered, by the id of each note beneath it
	for _, n := range all {
		one := page.DayNote{ID: n.ID, Name: n.Name, When: d.clock(n.at), Text: n.Text, Private: n.Private}
		if n.Answers == "" {
			if one.NewID, err = s.NewID(); err != nil {
				return nil, err
			}
			if typed != nil && typed.ID == n.ID {
				one.NewID, one.Typed, one.Wrong = typed.NewID, typed.Typed, typed.Wrong
			}
			at[n.ID] = len(out)
			out = append(out, one)
			continue
		}
		one.Name = n.By
		if i, ok := at[n.Answers]; ok {
			at[n.ID] = i
			out[i].Answers = append(out[i].Answers, one)
		}
	}
	return out, nil
}

// answerForm keeps a coach's answer to a note.
func (s *Server) answerForm(w http.ResponseWriter, q *http.Request, v visit) error {
	sent := saying{ID: q.PostFormValue("id"), Text: strings.TrimSpace(q.PostFormValue("text")), Answers: q.PostFormValue("answers"), Open: q.PostFormValue("open") != ""}
	err := s.keepTyped(q, v, sent)
	var plain *roomful.Error
	if errors.As(err, &plain) {
		return s.coachPage(w, q, v, written{status: http.StatusBadRequest, note: &page.DayNote{ID: sent.Answers, NewID: sent.ID, Typed: sent.Text, Wrong: asSentence(plain.Summary) + " " + asSentence(plain.Hint)}})
	}
	if err != nil {
		return err
	}
	return next(w, q, dayPath(q, "said", "answer", "answered", sent.Answers)+"#note-"+url.PathEscape(sent.Answers))
}

// dayPath is the address of the day that a request is about, with the class and the piece
// that are looked at and pairs of what else should stand behind the question mark.
func dayPath(q *http.Request, more ...string) string {
	query := url.Values{}
	for _, name := range []string{"class", "piece"} {
		if value := q.FormValue(name); value != "" {
			query.Set(name, value)
		}
	}
	for i := 0; i+1 < len(more); i += 2 {
		query.Set(more[i], more[i+1])
	}
	path := "/sheets/" + url.PathEscape(q.PathValue("name"))
	if len(query) == 0 {
		return path
	}
	return path + "?" + query.Encode()
}
