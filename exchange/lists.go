package exchange

import (
	"slices"
	"strconv"
	"strings"

	"roomful"
)

// item is one entry of a list with its place.
type item struct {
	text string
	at   roomful.Range
}

// list splits a cell at its semicolons, and at commas too where they cannot be
// decimal.
func list(c cell, commas bool) []item {
	var items []item
	from := 0
	add := func(to int) {
		i, j := from, to
		for i < j && c.text[i] <= ' ' {
			i++
		}
		for i < j && c.text[j-1] <= ' ' {
			j--
		}
		if i < j {
			items = append(items, item{c.text[i:j], c.part(i, j)})
		}
		from = to + 1
	}
	for i := range len(c.text) {
		if c.text[i] == ';' || commas && c.text[i] == ',' {
			add(i)
		}
	}
	add(len(c.text))
	return items
}

// colon splits "word:value" and trims both.
func (it item) colon() (word, value string, has bool) {
	word, value, has = strings.Cut(it.text, ":")
	return strings.TrimSpace(word), strings.TrimSpace(value), has
}

// nothing reports whether a cell says in a word that its list is empty.
func nothing(c cell) bool {
	switch strings.ToLower(c.text) {
	case "none", "nothing", "no", "-":
		return true
	}
	return false
}

// levelWords are what may follow a skill.
var levelWords = []string{"none", "some", "solid"}

// skills reads movements with an optional level.
func (p *people) skills() []roomful.SkillLevel {
	c, ok := p.get("skills")
	if !ok {
		return nil
	}
	var out []roomful.SkillLevel
	for _, it := range list(c, true) {
		word, value, has := it.colon()
		id, ok := p.movement(word, it.at)
		if !ok {
			continue
		}
		level := roomful.SolidSkill
		if has {
			i := slices.Index(levelWords, strings.ToLower(value))
			if i < 0 {
				p.fault(it.at, didYouMean(value, levelWords, "write none, some or solid"), "level %q of %s is not known", value, word)
				continue
			}
			level = roomful.NoSkill + roomful.Level(i)
		}
		i := slices.IndexFunc(out, func(s roomful.SkillLevel) bool { return s.Movement == id })
		switch {
		case i < 0:
			out = append(out, roomful.SkillLevel{Movement: id, Level: level})
		case out[i].Level != level:
			p.fault(it.at, "keep one of the two", "%s is both %s and %s", id, out[i].Level, level)
		}
	}
	return out
}

// movement resolves a movement's name.
func (p *people) movement(word string, at roomful.Range) (roomful.MovementID, bool) {
	m, hint := movementCalled(word, p.lexicon)
	if m == nil {
		p.fault(at, hint, "skill %q is not a movement", word)
		return "", false
	}
	return m.ID, true
}

// movementCalled finds a movement by its id or any of its names; the hint says
// what may have been meant when there is none.
func movementCalled(word string, lex roomful.Lexicon) (m *roomful.Movement, hint string) {
	if m := lex.Movement(roomful.MovementID(strings.ToLower(word))); m != nil {
		return m, ""
	}
	words := strings.Fields(word)
	if m, n := lex.Match(words); m != nil && n == len(words) {
		return m, ""
	}
	if near := lex.Suggest(word); len(near) > 0 {
		return nil, "did you mean " + string(near[0].ID) + "?"
	}
	return nil, "write a movement's name, such as pull-up"
}

// limits reads limits with an optional pain figure.
func (p *people) limits() []roomful.Limit {
	c, ok := p.get("limits")
	if !ok || nothing(c) {
		return nil
	}
	var out []roomful.Limit
	for _, it := range list(c, true) {
		word, value, has := it.pain()
		what := strings.TrimPrefix(strings.ToLower(word), "lower ")
		if !slices.Contains(roomful.LimitWords, what) {
			what = strings.TrimSuffix(what, "s")
		}
		if !slices.Contains(roomful.LimitWords, what) {
			p.fault(it.at, didYouMean(what, roomful.LimitWords, "limits are "+oneOf(roomful.LimitWords)), "limit %q is not known", word)
			continue
		}
		l := roomful.Limit{What: what, Pain: -1}
		if has {
			n, err := strconv.Atoi(value)
			if err != nil || n < 0 || n > 10 {
				p.fault(it.at, "pain runs from 0 to 10, back:4", "pain %q of %s is not a figure from 0 to 10", value, word)
			} else {
				l.Pain = n
			}
		}
		out = append(out, l)
	}
	return out
}

// pain splits "back:4", and "back 4" as people write it.
func (it item) pain() (word, value string, has bool) {
	if word, value, has = it.colon(); has {
		return word, value, has
	}
	if at := strings.LastIndexByte(it.text, ' '); at > 0 {
		if _, err := strconv.Atoi(it.text[at+1:]); err == nil {
			return strings.TrimSpace(it.text[:at]), it.text[at+1:], true
		}
	}
	return word, value, has
}

// several is a number of repetitions that nobody does by luck.
const several = 3

// contradictions says where two columns of one person cannot both be true.
func (p *people) contradictions(a roomful.Athlete) {
	if a.Months != nil && a.Born.Year > 0 && !p.today.IsZero() {
		if lived := float64(p.today.Year-a.Born.Year+1) * 12; *a.Months > lived {
			c, _ := p.get("months")
			p.fault(c.at, "check months and born", "%s has trained for longer than they have lived", a.Name)
		}
	}
	for _, t := range []struct {
		column string
		test   roomful.Test
		skill  roomful.MovementID
	}{{"pullups", roomful.TestPullUps, "pull-up"}, {"double_unders", roomful.TestDoubleUnders, "double-under"}} {
		n, told := a.Measured(t.test)
		level := a.Skill(t.skill)
		if told && (n >= several && level == roomful.NoSkill || n == 0 && level == roomful.SolidSkill) {
			c, _ := p.get("skills")
			p.fault(c.at, "keep the right one", "%s %s and skill %s:%s contradict each other", t.column, roomful.Figure(n), t.skill, level)
		}
	}
	p.order(a, roomful.TestClean, roomful.TestSnatch)
	p.order(a, roomful.TestDeadlift, roomful.TestClean)
	p.order(a, roomful.TestBench, roomful.TestPress)
}

// order warns when a lift that is always the lighter one is the heavier.
func (p *people) order(a roomful.Athlete, heavy, light roomful.Test) {
	h, ok := a.Measured(heavy)
	l, also := a.Measured(light)
	if !ok || !also || l <= h {
		return
	}
	c, found := p.get(string(light))
	if !found {
		c, _ = p.get(strings.TrimSuffix(string(light), "_kg") + "_lb")
	}
	p.warn(c.at, "are the two columns the right way round?", "%s is more than %s", light, heavy)
}
