package web

import (
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/day"
	"roomful/exchange"
	"roomful/notation"
	"roomful/store"
	"roomful/web/page"
)

// setForm sets what somebody does by a coach's word: another option of the day, other
// lines, or what is worked out for them again.
func (s *Server) setForm(w http.ResponseWriter, q *http.Request, v visit) error {
	who := q.PathValue("person")
	done, err := s.setByForm(q, v, who)
	var plain *roomful.Error
	if errors.As(err, &plain) {
		return s.setAgain(w, q, v, who, asSentence(plain.Summary)+" "+asSentence(plain.Hint))
	}
	if err != nil {
		return err
	}
	return next(w, q, dayPath(q, "open", who, "said", done)+"#p-"+url.PathEscape(who))
}

// setByForm does what the form says, and returns the word for it.
func (s *Server) setByForm(q *http.Request, v visit, who string) (done string, err error) {
	if q.PostFormValue("do") == "back" {
		return s.takeWordBack(q, v, who)
	}
	reason := strings.TrimSpace(q.PostFormValue("reason"))
	if err := checkReason(reason); err != nil {
		return "", err
	}
	got, err := s.choosing(q, v, chooser{who: who, piece: q.FormValue("piece")})
	if err != nil {
		return "", err
	}
	now := got.version()
	o := store.Override{Person: who, Option: now.Option, Reason: reason}
	if option := q.PostFormValue("option"); option != "" {
		o.Work, o.Option, err = got.pick(picking{Option: option}, true)
	} else {
		o.Work, err = s.typedWork(got, now, q.PostForm["line[]"])
	}
	if err != nil {
		return "", err
	}
	return "word", s.setBy(q, v, got, o)
}

// takeWordBack has somebody do again what is worked out for them, or what a coach had set
// beneath it, and returns the word for which. Taken back twice is taken back.
func (s *Server) takeWordBack(q *http.Request, v visit, who string) (done string, err error) {
	done = "given"
	err = s.update(q, v, func(b *store.Books) error {
		again, err := s.dropOverridden(b, q)
		if again != nil {
			done = "beneath"
		}
		if errors.Is(err, errNoWord) {
			return nil
		}
		return err
	})
	return done, err
}

// setAgain shows the day with somebody's version open and what was typed of it.
func (s *Server) setAgain(w http.ResponseWriter, q *http.Request, v visit, who, wrong string) error {
	open, err := s.versionOf(q, v, s.askAbout(q, v, q.PathValue("name")), who)
	if err != nil {
		return err
	}
	open.Wrong, open.Reason = wrong, strings.TrimSpace(q.PostFormValue("reason"))
	for i, line := range q.PostForm["line[]"] {
		if i < len(open.Lines) {
			open.Lines[i].Typed = line
		}
	}
	return s.coachPage(w, q, v, written{status: http.StatusBadRequest, version: open})
}

// typedWork is what somebody does now with the lines that were typed.
func (s *Server) typedWork(got chosen, now roomful.Version, lines []string) (roomful.Work, error) {
	if now.Stop != "" {
		return roomful.Work{}, &roomful.Error{Summary: "setting a version: there is none today", Hint: now.Stop}
	}
	all := now.Work.All()
	if len(lines) != len(all) {
		return roomful.Work{}, &roomful.Error{Summary: "setting a version: the piece has other lines now", Hint: "look at them below, and send them again"}
	}
	at := slices.IndexFunc(got.Question.People, func(a roomful.Athlete) bool { return a.ID == now.Athlete })
	if at < 0 {
		return roomful.Work{}, store.ErrMissing
	}
	work, changed := now.Work, false
	for i, line := range lines {
		line = strings.Join(strings.Fields(line), " ")
		if line == typedLine(wording{lexicon: s.Lexicon}, all[i]) {
			continue
		}
		task, err := s.typedTask(line, all[i], got.Question.People[at].Division)
		if err != nil {
			return work, err
		}
		work, changed = work.With(i, task), true
	}
	if !changed {
		return work, &roomful.Error{Summary: "setting a version: nothing was changed", Hint: "write another load, amount or movement on a line"}
	}
	return exchange.WorkOf(work).Read(s.Lexicon)
}

// mostLine bounds a line of a version, in letters.
const mostLine = 120

// typedTask reads a line as it would stand in a sheet. An amount that is not said stays.
func (s *Server) typedTask(line string, was roomful.Task, division roomful.Division) (roomful.Task, error) {
	if line == "" || len(line) > mostLine {
		return was, &roomful.Error{Summary: "setting a version: a line is empty or too long", Hint: "write it as in a sheet, such as 9 front squats 40 kg"}
	}
	session, ds := notation.Read("A line\n\nmain: as many rounds as possible in 10 min\n  "+line+"\n", s.Lexicon)
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			return was, &roomful.Error{Summary: "setting a version: " + curly(d.Summary), Hint: curly(d.Hint)}
		}
	}
	pieces := session.Pieces()
	if len(pieces) != 1 || len(pieces[0].All()) != 1 || len(pieces[0].Round) != 1 || pieces[0].Round[0].Movement == "" {
		return was, &roomful.Error{Summary: "setting a version: “" + line + "” is not one line of a sheet", Hint: "write how much, of what and with what, such as 9 front squats 40 kg"}
	}
	e := pieces[0].Round[0]
	t := day.Stated(pieces[0], division).Round[0]
	if !e.Amount.Stated() {
		t.Amount, t.Unit = was.Amount, was.Unit
	}
	t.Slot, t.Tempo = was.Slot, e.Tempo
	return t, nil
}

// toCoach turns what is said to somebody of themselves into what is said of them.
func toCoach(words string) string {
	return strings.NewReplacer("you may", "they may", "you would", "they would", "known of you yet", "known of them yet").Replace(words)
}

// others are the options that somebody could be put on.
func (s *Server) others(q *http.Request, v visit, who, piece string) (out []page.DayOther, err error) {
	got, err := s.choosing(q, v, chooser{who: who, piece: piece})
	switch {
	case err != nil && !expected(err):
		return nil, err
	case err != nil || !v.May(account.Override):
		return nil, nil // the version stands without them
	}
	now := got.version()
	for i, a := range got.all.Alternatives {
		if a.Name == now.Option || a.Version == nil {
			continue
		}
		other := page.DayOther{Shape: i, Name: a.Name, Words: capital(a.Name), Not: asSentence(toCoach(a.Not))}
		if h := heaviest(*a.Version); h != nil {
			at := slices.IndexFunc(got.Question.People, func(p roomful.Athlete) bool { return p.ID == who })
			other.Load, _ = wording{s.Lexicon, got.Question.People[at].Unit}.load(h.Task)
		}
		out = append(out, other)
	}
	return out, nil
}
