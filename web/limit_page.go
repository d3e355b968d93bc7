package web

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// limitForm is a limit as it is shown, with the form that changes it; "new" is the form of
// one that is not there yet.
func limitForm(l store.Limit, v visit, form string) page.LimitForm {
	coach, fresh := v.May(account.SeeHealth), form == "new"
	out := page.LimitForm{ID: l.ID, Person: l.Person, Note: l.Note, Out: !fresh && l.RefersOut(), May: fresh || coach || l.Word == store.Theirs}
	if !fresh {
		out.Words, out.When = capital(limitInWords(l.Limit)), limitWhen(l)
	}
	pain := ""
	if l.Pain >= 0 {
		pain = strconv.Itoa(l.Pain)
	}
	out.Fields = []page.Input{
		{Name: "what", Label: "What", Type: page.Pick, Value: l.What, Choices: limitChoices()},
		{Name: "pain", Label: "How much it hurts", Small: "0 for nothing, 10 for the worst there is", Type: page.Pick, Value: pain, Choices: painChoices()},
		{Name: "since", Label: "Since", Small: "left out: today", Type: page.OnDay, Value: l.Since.String()},
		{Name: "until", Label: "Until", Small: "the last day; left out while it is open", Type: page.OnDay, Value: l.Until.String()},
		{Name: "note", Label: "In a few words", Small: "left out is fine", Value: l.Note, Most: mostNote},
	}
	if coach {
		out.Fields = append(out.Fields,
			page.Input{Name: "word", Label: "Whose word it is", Type: page.Pick, Value: l.Word, Choices: []page.Choice{{Value: store.Theirs, Label: "Their own"}, {Value: store.ACoachs, Label: "A coach’s"}, {Value: store.AClinician, Label: "A clinician’s"}}},
			page.Input{Name: "review", Label: "Ask again on", Type: page.OnDay, Value: l.Review.String()})
	}
	for i := range out.Fields {
		out.Fields[i].Form = "limit-" + form
	}
	return out
}

// limitWhen says since when a limit holds, until when, and whose word it is.
func limitWhen(l store.Limit) string {
	parts := []string{"since " + dayWords(l.Since)}
	if !l.Until.IsZero() {
		parts = append(parts, "until "+dayWords(l.Until))
	}
	parts = append(parts, map[string]string{store.Theirs: "their own word", store.ACoachs: "a coach’s word", store.AClinician: "a clinician’s word"}[l.Word])
	if !l.Review.IsZero() {
		parts = append(parts, "ask again on "+dayWords(l.Review))
	}
	return strings.Join(parts, ", ")
}

// limitNames say of the limits that are no part of the body what they are.
var limitNames = map[string]string{"impact": "Jumping and landing", "overhead": "Anything overhead", "grip": "Hanging and gripping", "inversion": "Upside down",
	"returning": "Back after a break", "stop": "Stop: a professional first"}

// limitChoices are what may limit somebody.
func limitChoices() []page.Choice {
	out := []page.Choice{{Label: "choose"}}
	for _, word := range roomful.LimitWords {
		name := limitNames[word]
		if name == "" {
			name = capital(word)
		}
		out = append(out, page.Choice{Value: word, Label: name})
	}
	return out
}

// painChoices are the figures of pain.
func painChoices() []page.Choice {
	out := []page.Choice{{Label: "not told"}}
	for n := range roomful.MostPain + 1 {
		out = append(out, page.Choice{Value: strconv.Itoa(n), Label: strconv.Itoa(n)})
	}
	return out
}

// limitSent reads the form of a limit.
func limitSent(sent url.Values) (limiting, error) {
	out, pain := limiting{}, -1
	text := func(name string) *string { t := strings.TrimSpace(sent.Get(name)); return &t }
	out.What, out.Note, out.Pain = text("what"), text("note"), &pain
	if t := *text("pain"); t != "" {
		n, err := strconv.Atoi(t)
		if err != nil {
			return out, &amiss{"pain", roomful.Error{Summary: "writing a limit down: " + strconv.Quote(t) + " is no figure of pain", Hint: "choose from 0 to 10"}}
		}
		pain = n
	}
	for name, to := range map[string]**date{"since": &out.Since, "until": &out.Until, "review": &out.Review} {
		if _, asked := sent[name]; !asked || name == "since" && *text(name) == "" {
			continue
		}
		d := new(date)
		if err := d.UnmarshalText([]byte(*text(name))); err != nil {
			return out, &amiss{name, roomful.Error{Summary: "writing a limit down: " + strconv.Quote(*text(name)) + " is no day", Hint: "write it as 2027-03-04"}}
		}
		*to = d
	}
	if _, asked := sent["word"]; asked {
		out.Word = text("word")
	}
	return out, nil
}

// limitPage writes a limit down, ends it or takes it away, as the pressed button says.
func (s *Server) limitPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	if _, err := formed(q); err != nil {
		return err
	}
	id, do := q.PathValue("limit"), cmp.Or(q.FormValue("do"), "keep")
	sent, err := limitSent(q.PostForm)
	if err == nil || do != "keep" {
		err = s.update(q, v, func(b *store.Books) error {
			switch do {
			case "drop":
				return dropLimit(b, v, who, id)
			case "end":
				last, err := s.lastDay(b, who, id)
				if err != nil {
					return err
				}
				sent = limiting{Until: &date{last}}
			}
			_, err := s.writeLimit(b, v, who, id, sent)
			return err
		})
	}
	var wrong *amiss
	if errors.As(err, &wrong) {
		return s.showPerson(w, q, v, who, http.StatusUnprocessableEntity, &refusedLimit{id, q.PostForm, wrong})
	}
	if err != nil {
		return err
	}
	said := "limit"
	if do != "keep" {
		said += "-" + do
	}
	return next(w, q, "/people/"+url.PathEscape(who)+"?said="+said)
}

// lastDay is the last day of a limit that is over today: yesterday, unless it began later.
func (s *Server) lastDay(b *store.Books, who, id string) (roomful.Date, error) {
	l, err := findLimit(b, who, id)
	if err != nil {
		return roomful.Date{}, err
	}
	on, err := s.today(b)
	if on = on.Plus(-1); l.Since.Days(on) > 0 {
		on = l.Since
	}
	return on, err
}

// refusedLimit is a limit as it was typed, and what is wrong with it.
type refusedLimit struct {
	id    string
	sent  url.Values
	wrong *amiss
}

// into puts it into the form that it was typed in.
func (r *refusedLimit) into(p *page.Person) {
	if r == nil {
		return
	}
	form := &p.Add
	for _, all := range [][]page.LimitForm{p.Limits, p.Ended} {
		for i := range all {
			if all[i].ID == r.id {
				form = &all[i]
			}
		}
	}
	form.ID, form.Open = r.id, true
	says := cmp.Or(map[string]string{"what": "Choose what it is.", "pain": "Choose a figure from 0 to 10, or not told.", "word": "Choose whose word it is."}[r.wrong.field], r.wrong.sentence())
	form.Fields = filled(form.Fields, r.sent, map[string]string{r.wrong.field: says})
	form.Wrong = wrongOnes(form.Fields)
}
