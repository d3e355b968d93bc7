package web

import (
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// toldPage is the form of what somebody told.
func (s *Server) toldPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	return s.showTold(w, q, v, who, http.StatusOK, told{}, nil)
}

// showTold draws the form. With something sent it shows that, what is wrong with it, and
// where what holds meanwhile differs.
func (s *Server) showTold(w http.ResponseWriter, q *http.Request, v visit, who string, status int, answered told, sent url.Values) error {
	var frame page.Frame
	var body page.Told
	if err := s.view(q, v, func(b *store.Books) error {
		p, err := b.Person(who)
		if err != nil {
			return err
		}
		if frame, err = s.frame(b, q, v, placeOfPerson(v, who), "What "+p.Name+" told"); err != nil {
			return err
		}
		body = page.Told{ID: p.ID, Name: p.Name, Mine: v.is(p.ID), Revision: p.Revision, Stale: answered.Stale, Groups: s.toldGroups(v, p)}
		return nil
	}); err != nil {
		return err
	}
	if sent != nil {
		wrong := faultsAt(answered.Diagnostics, answered.columns)
		for i, g := range body.Groups {
			is := filled(g.Fields, sent, wrong)
			for j := range is {
				if now := g.Fields[j].Value; answered.Stale && now != is[j].Value {
					is[j].Small = inSentences(is[j].Small, "now: "+orWords(now, "nothing"))
				}
			}
			body.Groups[i].Fields, body.Groups[i].More = is, filled(g.More, sent, wrong)
			body.Wrong = append(body.Wrong, wrongOnes(is)...)
		}
	}
	return s.show(w, status, frame, body)
}

// orWords is a text, or words in its place.
func orWords(text, or string) string {
	if text == "" {
		return or
	}
	return text
}

// toldGroups are the fields of somebody's form, as far as the visitor may fill them in.
func (s *Server) toldGroups(v visit, p store.Person) []page.Group {
	coach := v.May(account.EditPeople)
	has := toldNow(v, p)
	var out []page.Group
	for _, g := range columnGroups {
		group := page.Group{Legend: g.legend, Note: g.note}
		for _, c := range g.columns {
			if !c.may(v, p.ID, coach) {
				continue
			}
			value, unit := c.value(has, p.Unit.String())
			f := page.Input{Name: c.in(unit), Label: c.asks, Small: c.note, Value: value, Most: 100, Needed: c.name == "name"}
			switch c.name {
			case "division":
				f.Type, f.Choices = page.Pick, []page.Choice{{Value: "", Label: divisionNames[""]}, {Value: "a", Label: divisionNames["a"]}, {Value: "b", Label: divisionNames["b"]}}
			case "unit":
				f.Type, f.Choices = page.Pick, []page.Choice{{Value: "kg", Label: "kg"}, {Value: "lb", Label: "lb"}}
			case "unlisted", "drop_in":
				f.Type = page.Tick
			case "home":
				f.Type, f.Most = page.Area, 2000
			}
			if c.mass {
				f.Small = strings.TrimPrefix(f.Small+", in "+unit, ", ")
			}
			group.Fields = append(group.Fields, f)
		}
		out = append(out, group)
	}
	return append(out, s.skillGroup(p))
}

// skillGroup asks for the movements that have to be learnt.
func (s *Server) skillGroup(p store.Person) page.Group {
	out := page.Group{Legend: "Skills", Note: "Movements that have to be learnt. Not told is not the same as not yet."}
	for _, m := range skillsAsked(s.Lexicon) {
		f := page.Input{Name: skillField(m.ID), Label: capital(m.Name), Type: page.Pick, Value: p.Skill(m.ID).String()}
		for _, level := range []string{"", "none", "some", "solid"} {
			f.Choices = append(f.Choices, page.Choice{Value: level, Label: levelNames[level]})
		}
		if f.Value != "" || slices.Contains(oftenAsked, m.ID) {
			out.Fields = append(out.Fields, f)
		} else {
			out.More = append(out.More, f)
		}
	}
	return out
}

// oftenAsked are the skills that sheets ask for most (judgement); the others stand behind.
var oftenAsked = []roomful.MovementID{"pull-up", "chest-to-bar-pull-up", "toes-to-bar", "double-under", "handstand-push-up", "muscle-up", "rope-climb", "pistol-squat", "overhead-squat", "clean", "snatch", "push-jerk"}

// columnsSent are the columns that a form has changed. What it does not have stays.
func (s *Server) columnsSent(v visit, p store.Person, sent url.Values) map[string]string {
	has, out, coach := toldNow(v, p), map[string]string{}, v.May(account.EditPeople)
	for _, g := range columnGroups {
		for _, c := range g.columns {
			for _, name := range c.names() {
				value := strings.TrimSpace(sent.Get(name))
				ticked := (name == "unlisted" || name == "drop_in") && sent.Has("unit") // a tick that is taken away is not sent
				if !sent.Has(name) && !ticked || value == has[name] || !c.may(v, p.ID, coach) && (ticked || c.own) {
					continue
				}
				if name == "home" {
					value = homeSent(value)
				}
				out[name] = value
			}
		}
	}
	if skills := skillsSent(p.Skills, sent, s.Lexicon); skills != has["skills"] && slices.ContainsFunc(slices.Collect(maps.Keys(sent)), isSkillField) {
		out["skills"] = skills
	}
	return out
}

// toldNow is what somebody told, as the form has it.
func toldNow(v visit, p store.Person) map[string]string {
	has := toldOf(p, v).Told
	if p.Home != nil && has["home"] == "" {
		has["home"] = "nothing"
	}
	return has
}

// homeSent is the column of a home as somebody wrote it in a field: lines are things,
// nothing written is not told.
func homeSent(text string) string {
	var things []string
	for line := range strings.Lines(text) {
		if line = strings.Trim(line, " ;\r\n"); line != "" {
			things = append(things, line)
		}
	}
	if len(things) == 0 {
		return "?"
	}
	return strings.Join(things, "; ")
}

// tellPage keeps what somebody told in the form. Refused or stale, the form comes back as
// it was typed.
func (s *Server) tellPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	if _, err := formed(q); err != nil {
		return err
	}
	n, err := revisionOf(q)
	if err != nil {
		return err
	}
	var out told
	if err := s.update(q, v, func(b *store.Books) error {
		p, err := b.Person(who)
		if err != nil {
			return err
		}
		sent := telling{Revision: n, Told: s.columnsSent(v, p, q.PostForm), whole: "home"}
		if err := mayTell(v, who, sent); err != nil {
			return err
		}
		if len(sent.Told) == 0 {
			return nil
		}
		out, err = s.tell(b, v, who, sent)
		return err
	}); err != nil {
		return err
	}
	switch {
	case out.Stale:
		return s.showTold(w, q, v, who, http.StatusConflict, out, q.PostForm)
	case faults(out.Diagnostics):
		return s.showTold(w, q, v, who, http.StatusUnprocessableEntity, out, q.PostForm)
	}
	return next(w, q, "/people/"+url.PathEscape(who)+"?said=told")
}

// revisionOf is the revision that a form was drawn from.
func revisionOf(q *http.Request) (int64, error) {
	n, err := strconv.ParseInt(q.PostFormValue("revision"), 10, 64)
	if err != nil || n < 0 {
		return 0, &roomful.Error{Summary: "reading the form: it does not say what it was written from", Hint: "open the page again, and type it there"}
	}
	return n, nil
}
