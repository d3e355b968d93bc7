package web

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// mostShown is how many scores My data shows; the record has all of them.
const mostShown = 20

// mePage is My data: how one comes in, and what is kept of one.
func (s *Server) mePage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.showMe(w, q, v, http.StatusOK, "", "")
}

// showMe draws it, with the name that was typed to be erased and what is wrong with it.
func (s *Server) showMe(w http.ResponseWriter, q *http.Request, v visit, status int, typed, wrong string) error {
	var frame page.Frame
	body := page.Me{Name: v.Account.Name, Role: v.Account.Role, Since: dayOf(v.Account.MadeAt),
		Passkeys: v.May(account.AddPasskey) && s.passkeysWork(q), Password: v.May(account.SetPassword), Person: v.Account.Person,
		Erase: page.Input{Name: "name", Label: "Your name, to be sure", Small: "as it stands at the top of this page", Value: typed, Wrong: wrong, Needed: true, Most: 200}}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/me", "My data"); err != nil {
			return err
		}
		mine, err := s.ownOf(b, v)
		if err != nil {
			return err
		}
		s.ownInWords(mine, &body)
		if v.Account.Person == "" {
			return nil
		}
		p, err := b.Person(v.Account.Person)
		if err != nil {
			return err
		}
		body.Facts = factsOf(toldNow(v, p), s.Lexicon)
		return s.believedInWords(b, p, &body)
	}); err != nil {
		return err
	}
	return s.show(w, status, frame, body)
}

// ownInWords puts what is kept of somebody into sentences.
func (s *Server) ownInWords(mine own, body *page.Me) {
	for _, d := range mine.Devices {
		body.Devices = append(body.Devices, page.DeviceRow{Name: deviceName(d.Name), Seen: "last seen " + momentOf(d.SeenAt), This: d.This})
	}
	for _, k := range mine.Passkeys {
		body.Keys = append(body.Keys, page.KeyRow{ID: k.ID, Made: momentOf(k.MadeAt)})
	}
	for _, l := range mine.Limits {
		body.Limits = append(body.Limits, inSentences(limitTold(l)))
	}
	scores := slices.Clone(mine.Scores)
	slices.Reverse(scores)
	body.More = max(len(scores)-mostShown, 0)
	for _, one := range scores[:min(len(scores), mostShown)] {
		body.Scores = append(body.Scores, dayWritten(one.Day)+", "+sheetNamed(one.Sheet)+": "+orWords(ifAny(one.Text), one.Score))
	}
	for _, c := range mine.Classes {
		body.Classes = append(body.Classes, dayWritten(c.Day)+", "+c.Start+": "+placeNames[c.State])
	}
	for _, n := range mine.Notes {
		by := "you"
		if n.Answers != "" {
			by = orWords(n.By, "a coach") + " answered"
		}
		body.Notes = append(body.Notes, momentOf(n.At)+", "+by+": "+n.Text)
	}
	for _, o := range mine.Versions {
		body.Versions = append(body.Versions, inSentences("set on "+momentOf(o.At), o.Reason))
	}
}

// sheetNamed is a sheet by its address in words: "the-tall-gamp" is The Tall Gamp.
func sheetNamed(sheet string) string {
	words := strings.Split(sheet, "-")
	for i, word := range words {
		if word != "" {
			words[i] = capital(word)
		}
	}
	return strings.Join(words, " ")
}

// placeNames say in words how it stands with a place.
var placeNames = map[string]string{store.In: "a place", store.Waiting: "waiting for a place", store.Out: "given back", store.Missed: "did not come"}

// dayWritten says a day in short that stands as 2027-04-05; anything else as it stands.
func dayWritten(text string) string {
	var d roomful.Date
	if d.UnmarshalText([]byte(text)) != nil {
		return text
	}
	return dayWords(d)
}

// limitTold is a limit in a sentence.
func limitTold(l limit) string {
	text := capital(l.What)
	if l.Pain != nil {
		text += fmt.Sprintf(" %d of 10", *l.Pain)
	}
	text += ", since " + dayWritten(l.Since)
	if l.Until != "" {
		text += " until " + dayWritten(l.Until)
	}
	if l.Note != "" {
		text += ": " + l.Note
	}
	return text
}

// believedInWords adds what is believed of somebody after their scores.
func (s *Server) believedInWords(b *store.Books, p store.Person, body *page.Me) error {
	learnt, err := b.Learnt(p.ID)
	if err != nil || len(learnt) == 0 {
		return err
	}
	able, ways := abilityRows(p.Athlete, &learnt[0].Abilities, s.Lexicon)
	for _, row := range slices.Concat(able, ways) {
		body.Learnt = append(body.Learnt, page.Fact{Name: row.Name, Value: row.From + " to " + strings.TrimSpace(row.To+" "+row.Unit)})
	}
	return nil
}

// dayOf is the day of a moment, empty for none.
func dayOf(at time.Time) string {
	if at.IsZero() {
		return ""
	}
	return dayWords(roomful.DateOf(at))
}

// momentOf is a moment as an answer has it, by its day.
func momentOf(text string) string {
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return text
	}
	return dayOf(at)
}

// erasePage erases all that is kept of the visitor, when they have typed their name.
func (s *Server) erasePage(w http.ResponseWriter, q *http.Request, v visit) error {
	if _, err := formed(q); err != nil {
		return err
	}
	typed := q.PostForm.Get("name")
	err := s.eraseOwn(q, v, typed)
	var wrong *amiss
	if errors.As(err, &wrong) {
		return s.showMe(w, q, v, http.StatusUnprocessableEntity, typed, wrong.sentence())
	}
	if err != nil {
		return err
	}
	s.forget(w, q)
	return next(w, q, "/enter?said=erased")
}

// dropPasskeyPage takes one of the visitor's passkeys away.
func (s *Server) dropPasskeyPage(w http.ResponseWriter, q *http.Request, v visit) error {
	err := s.update(q, v, func(b *store.Books) error { return b.DropPasskey(v.Account.ID, q.PathValue("passkey")) })
	if err != nil && !errors.Is(err, store.ErrMissing) { // sent twice it is gone all the same
		return err
	}
	return next(w, q, "/me?said=passkey-gone")
}
