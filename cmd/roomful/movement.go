package main

import (
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/exchange"
)

// caution goes with every list of other movements.
const caution = "These are habits of the trade, not medical advice. Pain that is new, sharp or above 5 of 10 ends the movement. Local rules and licensed professionals come first."

// movementVerb tells what the catalogue knows of a movement.
type movementVerb struct {
	Name []string `arg:"" help:"The movement, in any usual form."`
	For  string   `help:"Only what is often done instead for this reason: ${reasons}." placeholder:"REASON"`
}

// Validate refuses an unknown reason.
func (v *movementVerb) Validate() error {
	if v.For != "" && !slices.Contains(roomful.Reasons, roomful.Reason(v.For)) {
		return fmt.Errorf("--for %s: reasons are %s", v.For, reasonList())
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
	name := strings.Join(v.Name, " ")
	m, err := p.movement(name)
	if err != nil {
		return err
	}
	if p.json {
		return p.answer(exchange.MovementOf(m, p.lexicon, roomful.Reason(v.For), caution))
	}
	return p.print(p.about(m, roomful.Reason(v.For)))
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

// about writes what is known of a movement.
func (p *program) about(m *roomful.Movement, why roomful.Reason) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n", m.Name, m.ID)
	if why == "" {
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
	}
	reasons := roomful.Reasons
	if why != "" {
		reasons = []roomful.Reason{why}
	}
	b.WriteString("  often done instead\n")
	for _, r := range reasons {
		if line := p.swaps(m, r); line != "" {
			b.WriteString(wrapped(fmt.Sprintf("    %-10s ", r), line))
		} else if why != "" {
			fmt.Fprintf(&b, "    nothing is listed for %s\n", why)
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

// named is a movement's name.
func (p *program) named(id roomful.MovementID) string {
	if m := p.lexicon.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}
