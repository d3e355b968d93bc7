package rung

import (
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/piece"
	"roomful/version/internal/say"
)

// Brief is a rung with what its people do of it, to be named.
type Brief struct {
	Rung
	Lines []piece.Line
	Tasks []roomful.Task // by line, as most people do it
	// Cut says, by line, that somebody's amount is not as written; Alike that it is
	// the same for everybody.
	Cut, Alike []bool
	Lighter    bool // most people lift less than written
}

// Name says in plain words what the rung changes.
func (b *Brief) Name() string {
	if b.Loads == Exact {
		return "As written"
	}
	var parts []string
	switch {
	case b.Loads == More:
		parts = append(parts, "heavier")
	case b.Lighter:
		parts = append(parts, "lighter")
	}
	parts = append(parts, b.forms()...)
	if cut := b.cut(); cut != "" {
		parts = append(parts, cut)
	}
	for li, k := range b.Picks {
		if k.Lower && k.Form == 0 {
			parts = append(parts, roomful.Figure(b.Tasks[li].HeightCm)+" cm "+say.Plural(b.Lines[li].Movement))
		}
	}
	if len(parts) == 0 {
		parts = []string{"own loads"}
	}
	name := strings.Join(parts, ", ")
	return strings.ToUpper(name[:1]) + name[1:]
}

// shares are the words for a common share of all amounts.
var shares = map[float64]string{
	0.75: "three quarters of the amounts", care.TwoThirds: "two thirds of the amounts", 0.5: "half the amounts",
	1.25: "a quarter more", 1.5: "half as much again", 2: "twice the amounts",
}

// unloaded are the words for a share of everything that is not lifted.
var unloaded = map[float64]string{care.TwoThirds: "two thirds of the unloaded work", 0.5: "half the unloaded work"}

// cut names a share that all amounts have in common.
func (b *Brief) cut() string {
	common := 0.0
	for li, k := range b.Picks {
		if !b.Lines[li].Cuttable() {
			continue
		}
		if common != 0 && k.Factor != common {
			return ""
		}
		common = k.Factor
	}
	if !slices.Contains(b.Cut, true) { // a single repetition stays one
		return ""
	}
	return shares[common]
}

// forms names the lines with another form or, if not all are cut alike, a smaller
// amount.
func (b *Brief) forms() []string {
	words := b.unloaded()
	cut := words == "" && b.cut() == ""
	var out []string
	for li, k := range b.Picks {
		name := say.Many(b.Lines[li].Forms[k.Form].Movement, b.Tasks[li])
		switch {
		case cut && k.Factor != 1 && b.Tasks[li].Amount > 0 && b.Cut[li]:
			name = b.few(li) + " " + name
		case k.Form == 0:
			continue
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	if words != "" {
		out = append(out, words)
	}
	return out
}

// few is the amount of a line in figures, if it is one for everybody.
func (b *Brief) few(li int) string {
	if !b.Alike[li] {
		return "fewer"
	}
	return say.Amount(b.Tasks[li].Amount, b.Tasks[li].Unit)
}

// unloaded names a share that three or more lines without a load have in common,
// which would be long to list.
func (b *Brief) unloaded() string {
	n, share := 0, 1.0
	for li, k := range b.Picks {
		m := b.Lines[li].Movement
		switch {
		case k.Factor == 1:
		case m == nil || m.Modality != roomful.Body:
			return ""
		default:
			n, share = n+1, k.Factor
		}
	}
	if n < 3 || b.cut() != "" {
		return ""
	}
	return unloaded[share]
}
