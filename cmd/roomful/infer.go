package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
)

// inferVerb shows what scores say of people.
type inferVerb struct {
	People string `required:"" help:"Whose scores they are, as CSV." placeholder:"FILE"`
	pastFiles
	Name  string       `help:"One person only." placeholder:"NAME"`
	Today roomful.Date `help:"Reckon as of a day. Without it the day of the last score." placeholder:"2027-04-10"`
	Gym   string       `help:"The gym file: how the gym likes things." placeholder:"FILE"`
	Seed  uint64       `help:"The seed of the random numbers." default:"1" placeholder:"N"`
}

// Help implements the long help.
func (inferVerb) Help() string {
	return "What is believed of each person after their scores, with how sure, and which scores told it. A score counts through the version that was done; it is never converted by a ratio. These figures are for coaches."
}

// Run does the verb.
func (v *inferVerb) Run(p *program) error {
	var src sources
	if err := p.readEach(&src, append(p.gymInto(v.Gym), p.peopleInto(&src, v.People))); err != nil {
		return err
	}
	if v.Attempts == "" {
		return usageError{fmt.Errorf("no scores to learn from: name a file of them with --attempts")}
	}
	people, err := those(src.people, v.Name)
	if err != nil {
		return err
	}
	got, err := p.learn(&src, v.pastFiles, v.Today, v.Seed)
	if err != nil {
		return err
	}
	if p.json {
		out := exchange.Learnt{Athletes: []exchange.LearntAthlete{}, Left: []exchange.LeftOut{}, Diagnostics: listed(src.files)}
		for _, a := range people {
			out.Athletes = append(out.Athletes, exchange.AbilitiesOf(a, got.Abilities[a.ID], p.lexicon))
		}
		for _, l := range got.Left {
			if slices.ContainsFunc(people, func(a roomful.Athlete) bool { return a.ID == l.Entry.Athlete }) {
				out.Left = append(out.Left, exchange.LeftOutOf(l.Entry, l.Why))
			}
		}
		return p.answer(out)
	}
	p.remarks(src)
	var b strings.Builder
	for _, a := range people {
		b.WriteString(p.abilityTable(a, got))
	}
	return p.print(b.String())
}

// learn reads a record and learns from it, as of a day or of the last score.
func (p *program) learn(s *sources, f pastFiles, today roomful.Date, seed uint64) (day.Learnt, error) {
	record, err := p.past(s, f, true)
	if err != nil {
		return day.Learnt{}, err
	}
	if today.IsZero() {
		for _, e := range record {
			today = later(today, e.On)
		}
	}
	return p.learnFrom(day.LearnQuestion{People: s.people, Record: record, Today: today, Seed: seed})
}

// learnFrom learns, with a bar when it takes long.
func (p *program) learnFrom(q day.LearnQuestion) (day.Learnt, error) {
	show, done := p.progress()
	defer done()
	q.Workers, q.Progress = p.workers, show
	return p.day.Learn(p.ctx, q)
}

// abilityTable writes what is believed of a person, what scores told first.
func (p *program) abilityTable(a roomful.Athlete, got day.Learnt) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", a.Name)
	rows := abilityRows(exchange.AbilitiesOf(a, got.Abilities[a.ID], p.lexicon).Abilities)
	for _, r := range rows {
		lead := fmt.Sprintf("  %-24s %6s %-9s %5s to %-5s  ", r.Name, brief(r.Mean), r.Unit, brief(r.P05), brief(r.P95))
		from := r.InformedBy[0]
		if more := len(r.InformedBy) - 1; more > 0 {
			from += fmt.Sprintf(" and %d more", more)
		}
		b.WriteString(lead + from + "\n")
	}
	if len(rows) == 0 {
		b.WriteString("  nothing is known but age, body mass and training\n")
	}
	for _, l := range got.Left {
		if l.Entry.Athlete == a.ID {
			b.WriteString(wrapped("  not learnt from "+l.Entry.Title+", "+l.Entry.On.String()+": ", l.Why))
		}
	}
	return b.String()
}

// abilityRows are the capacities that something was told of. Endurances that are alike,
// since they were told by one thing that holds for all, share a row.
func abilityRows(all []exchange.Ability) []exchange.Ability {
	const endurance = "endurance "
	var out []exchange.Ability
	alike := map[string]int{}
	count := map[int]int{}
	for _, c := range all {
		if len(c.InformedBy) == 0 {
			continue
		}
		key := fmt.Sprint(brief(c.P05), " ", brief(c.P95), c.InformedBy)
		if at, ok := alike[key]; ok && strings.HasPrefix(c.Name, endurance) {
			count[at]++
			continue
		}
		if strings.HasPrefix(c.Name, endurance) {
			alike[key] = len(out)
		}
		out = append(out, c)
	}
	for at, more := range count {
		out[at].Name = fmt.Sprintf("endurance, %d movements", more+1)
	}
	return out
}

// brief is a figure with three digits that count.
func brief(v *float64) string {
	if v == nil {
		return "-"
	}
	digits := 2 - int(math.Floor(math.Log10(max(math.Abs(*v), 1e-9))))
	scale := math.Pow10(min(max(digits, 0), 3))
	return roomful.Figure(math.Round(*v*scale) / scale)
}
