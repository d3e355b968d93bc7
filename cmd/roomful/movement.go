package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/notation"
)

// caution goes with every list of other movements.
const caution = "These are habits of the trade, not medical advice (common practice, no source). Pain that is new, sharp or above 5 of 10 ends the movement. Local rules and licensed practice come first."

// movementVerb tells what the catalogue knows of a movement.
type movementVerb struct {
	Name   []string `arg:"" help:"The movement, in any usual form."`
	For    string   `help:"Only what is often done instead for this reason, with amounts. It is one of ${reasons}." placeholder:"REASON"`
	Amount string   `help:"How much of it is asked for, as on a sheet: 12, \"450 m\", \"30 s\"." placeholder:"AMOUNT"`
	Load   string   `help:"With what load, as on a sheet: 60kg, \"2 x 15 kg\"." placeholder:"LOAD"`
	People string   `help:"Who comes, as CSV." placeholder:"FILE"`
	Who    string   `help:"Whose amounts: a name among the people. Without it, those of somebody nothing is known of." placeholder:"NAME"`
	Kit    string   `help:"The kit file: what the room owns. Without it nothing is short." placeholder:"FILE"`
	Gym    string   `help:"The gym file: how the gym likes things. Without it all is usual." placeholder:"FILE"`
	Seed   uint64   `help:"The seed of the random numbers." default:"1" placeholder:"N"`
}

// Validate refuses an unknown reason and half a person.
func (v *movementVerb) Validate() error {
	if v.For != "" && !slices.Contains(roomful.Reasons, roomful.Reason(v.For)) {
		return fmt.Errorf("--for %s: reasons are %s", v.For, reasonList())
	}
	if (v.Who == "") != (v.People == "") {
		return errors.New("--people and --who go together: the file, and the name in it")
	}
	return nil
}

// reasonList writes every reason.
func reasonList() string {
	var words []string
	for _, r := range roomful.Reasons {
		words = append(words, string(r))
	}
	return strings.Join(words, ", ")
}

// Run does the verb.
func (v *movementVerb) Run(p *program) error {
	m, err := p.movement(strings.Join(v.Name, " "))
	if err != nil {
		return err
	}
	why := roomful.Reason(v.For)
	q := day.InsteadQuestion{Reason: why, Today: p.today(), Seed: v.Seed}
	if q.Of, err = p.element(m, v.Amount, v.Load); err != nil {
		return err
	}
	if why == "" && !p.json {
		return p.print(p.about(m))
	}
	var src sources
	files := append(p.gymInto(v.Gym), p.kitInto(&src, v.Kit)...)
	if v.People != "" {
		files = append(files, p.peopleInto(&src, v.People))
	}
	if err := p.readEach(&src, files); err != nil {
		return err
	}
	p.remarks(src)
	q.People, q.Kit = src.people, src.kit
	if v.Who != "" {
		if q.Who, err = person(src.people, v.Who); err != nil {
			return err
		}
	}
	got, err := p.day.Instead(q)
	if err != nil {
		return err
	}
	if p.json {
		return p.answer(exchange.MovementOf(m, p.lexicon, got, caution))
	}
	return p.print(p.instead(m, q, got))
}

// movement finds a movement by id or name.
func (p *program) movement(name string) (*roomful.Movement, error) {
	if m := p.lexicon.Movement(roomful.MovementID(name)); m != nil {
		return m, nil
	}
	words := strings.Fields(name)
	if m, n := p.lexicon.Match(words); m != nil && n == len(words) {
		return m, nil
	}
	hint := "write its name, such as front squat"
	if near := p.lexicon.Suggest(name); len(near) > 0 {
		hint = "did you mean " + near[0].Name + "?"
	}
	return nil, &roomful.Error{Summary: fmt.Sprintf("no movement is called %q", name), Hint: hint}
}

// usualAmounts are asked for when nobody says how much: a set or a stretch as
// coaches write them (common practice, no source).
var usualAmounts = map[roomful.Unit]string{roomful.Rep: "10", roomful.Metre: "400 m", roomful.Calorie: "15 cal", roomful.Second: "30 s"}

// element reads an amount and a load of a movement as a sheet would say them.
func (p *program) element(m *roomful.Movement, amount, load string) (roomful.Element, error) {
	if amount == "" && len(m.Units) > 0 {
		amount = usualAmounts[m.Units[0]]
	}
	line := strings.Join(strings.Fields(amount+" "+m.Name+" "+load), " ")
	s, ds := notation.Read("main: for time\n  "+line+"\n", p.lexicon)
	wrong := slices.ContainsFunc(ds, func(d roomful.Diagnostic) bool { return d.Severity == roomful.Fault })
	if piece, ok := s.Piece("main"); ok && !wrong && len(piece.Round) == 1 {
		e := piece.Round[0]
		if e.Movement == m.ID && e.Note == "" && e.Amount.Stated() {
			return e, nil
		}
	}
	return roomful.Element{}, &roomful.Error{Summary: fmt.Sprintf("cannot read %q as a line of a sheet", line),
		Hint: "write --amount 12, --amount \"450 m\" or --amount \"30 s\", and --load 60kg"}
}

// person finds somebody by name or id.
func person(people []roomful.Athlete, name string) (roomful.Athlete, error) {
	var names []string
	for _, a := range people {
		if strings.EqualFold(a.Name, name) || a.ID == name {
			return a, nil
		}
		names = append(names, a.Name)
	}
	return roomful.Athlete{}, &roomful.Error{Summary: fmt.Sprintf("nobody is called %q", name), Hint: "the people are " + strings.Join(names, ", ")}
}

// those are the people of a name or an id, or everybody when it is empty.
func those(people []roomful.Athlete, name string) ([]roomful.Athlete, error) {
	if _, err := person(people, name); name != "" && err != nil {
		return nil, err
	}
	return slices.DeleteFunc(slices.Clone(people), func(a roomful.Athlete) bool {
		return name != "" && !strings.EqualFold(a.Name, name) && a.ID != name
	}), nil
}

// about writes what is known of a movement.
func (p *program) about(m *roomful.Movement) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n", m.Name, m.ID)
	b.WriteString(wrapped("  what counts: ", m.Standard))
	for _, c := range m.Cues {
		b.WriteString(wrapped("  say: ", c))
	}
	for _, f := range m.Faults {
		b.WriteString(wrapped("  look for: ", f))
	}
	if len(m.Easier) > 0 {
		var easier []string
		for _, id := range m.Easier {
			easier = append(easier, p.named(id))
		}
		b.WriteString(wrapped("  easier: ", strings.Join(easier, ", ")))
	}
	b.WriteString("  often done instead (--for REASON gives amounts)\n")
	for _, r := range roomful.Reasons {
		if line := p.swaps(m, r); line != "" {
			b.WriteString(wrapped(fmt.Sprintf("    %-11s ", r), line))
		}
	}
	return b.String() + wrapped("", caution)
}

// swaps lists what is done instead for a reason.
func (p *program) swaps(m *roomful.Movement, r roomful.Reason) string {
	var words []string
	for _, s := range m.SwapsFor(r) {
		w := p.named(s.To)
		if s.Ratio > 0 {
			w += fmt.Sprintf(" (%s for one)", roomful.Figure(s.Ratio))
		}
		if s.Neighbour != "" {
			w += " (" + s.Neighbour + ")"
		}
		words = append(words, w)
	}
	return strings.Join(words, "; ")
}

// basisWords say what an amount rests on.
var basisWords = map[roomful.Basis]string{
	roomful.BySheet: "as stated", roomful.ByGym: "by your gym's ratio", roomful.ByCatalogue: "by the catalogue's ratio", roomful.ByTime: "the same time", roomful.ByCount: "the same count",
	roomful.ByCalories: "the machines' calories", roomful.ByLostLoad: "more, for the load taken away", roomful.BySet: "a usual set",
}

// instead lists what is often done instead for one reason, with amounts.
func (p *program) instead(m *roomful.Movement, q day.InsteadQuestion, got []roomful.StandIn) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n", m.Name, m.ID)
	who := "somebody nothing is known of"
	if q.Who.Name != "" {
		who = q.Who.Name
	}
	b.WriteString(wrapped("  ", fmt.Sprintf("often done instead of %s, for %s (%s)", p.elementWords(q.Of, q.Who.Division), who, q.Reason)))
	n := 0
	for _, s := range got {
		n = max(n, width(p.taskWords(s.Task)))
	}
	for _, s := range got {
		first := pad(p.taskWords(s.Task), n)
		if !s.Possible {
			b.WriteString(wrapped("    "+pad(p.named(s.Movement), n)+"  ", s.Why))
			continue
		}
		b.WriteString(wrapped("    "+first+"  ", s.Why+" ("+basisWords[s.Basis]+")"))
		if s.Private != "" {
			b.WriteString(wrapped("      private: ", s.Private))
		}
	}
	if len(got) == 0 {
		fmt.Fprintf(&b, "    nothing is listed for %s\n", q.Reason)
	}
	return b.String() + wrapped("", caution)
}

// elementWords writes an element with the figures of a division.
func (p *program) elementWords(e roomful.Element, d roomful.Division) string {
	t := roomful.Task{Movement: e.Movement, Amount: e.Amount.For(d), Unit: e.Amount.Unit.Base(), Implements: e.Implements, HeightCm: e.HeightCm(d)}
	if ms, ok := e.Load.(roomful.Masses); ok && len(ms) > 0 {
		t.Load = ms.For(d)
	}
	return p.taskWords(t)
}

// named is a movement's name.
func (p *program) named(id roomful.MovementID) string {
	if m := p.lexicon.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}
