package day

import (
	"math"
	"slices"
	"strings"

	"roomful"
	"roomful/prior"
	"roomful/score"
)

// mostWhy is how long a reason may get in characters: one line, after a word in
// front of it.
const mostWhy = 90

// why is the one line behind a load. Where the person is under bounds it is what
// anybody may read of their version and no more; else it says what happened last
// time, or what the load is meant to be, and what that rests on.
func (l *loading) why(out roomful.OwnLoad) string {
	if len(out.Cautions) > 0 || !l.version.Dose.Whole() {
		return out.Why
	}
	basis := ""
	if len(out.Rests) > 0 {
		basis = ", by " + out.Rests[0]
	}
	if t := out.Last; out.Found && t != nil {
		return fitting("no figure to hit: you built to "+t.Load.Near(l.Who.Unit).String()+" last time ("+t.On.String()+")"+missed(*t), "")
	} else if out.Found {
		return fitting("no figure to hit: the day decides", basis)
	}
	load := inBoth(out.Load, l.Who.Unit)
	if out.Last != nil {
		return l.whyLast(out, load, basis)
	}
	said := out.Why
	if share := l.share(); share > 0 && said == "as written" {
		said = roomful.Figure(share) + " % of what you lift once"
	}
	if n := l.fresh(); n > 0 && said == "as written" {
		who := "you"
		if basis == "" {
			who = "most"
		}
		said += ": " + who + " can move " + load + " " + roomful.Figure(float64(n)) + " times fresh"
	}
	if n := l.fresh(); n > 0 && strings.Contains(said, " is the nearest ") {
		said += "; " + roomful.Figure(float64(n)) + " fresh"
	}
	return fitting(said, basis)
}

// whyLast is the line where the piece was done before: the load, what it was then, and
// how that went.
func (l *loading) whyLast(out roomful.OwnLoad, load, basis string) string {
	t, when := *out.Last, "("+out.Last.On.String()+")"
	had, test := t.Load.Near(l.Who.Unit).String(), ""
	if n := l.fresh(); n > 0 && basis != "" {
		test = "; " + roomful.Figure(float64(n)) + " fresh" + basis
	}
	head := load + ": you had " + had + " last time "
	switch heavier := out.Load.Kg()*alike < t.Load.Kg() && out.High.Kg()*alike >= t.Load.Kg(); {
	case !t.Noted:
		head = load + ": no load noted last time "
	case heavier && !t.Sets:
		head = load + ", or the " + had + " of last time "
		test = ""
	}
	if t.Sets {
		return fitting(head+when+missed(t), test)
	}
	went := "when you " + l.went(t)
	return fitting(head+when+" "+went, test, head+went, test)
}

// fitting joins pairs of words, the second of each of which may be left out, and
// takes the first that is short enough to stay on a line; else the last first word.
func fitting(words ...string) string {
	for i := 0; i+1 < len(words); i += 2 {
		if s := words[i] + words[i+1]; len([]rune(s)) <= mostWhy {
			return s
		}
	}
	for i := 0; i < len(words); i += 2 {
		if len([]rune(words[i])) <= mostWhy {
			return words[i]
		}
	}
	return words[(len(words)-1)/2*2]
}

// fresh is the repetition test that the sheet has for the line, 0 for none.
func (l *loading) fresh() int {
	for _, e := range l.piece.All() {
		if n, ok := e.Load.(roomful.Fresh); ok && e.Movement == l.Movement {
			return int(n)
		}
	}
	return l.Session.Effort.FreshFor(l.Movement)
}

// share is the percentage of a maximum that the sheet asks for in the line, 0 for
// none.
func (l *loading) share() float64 {
	for _, e := range l.piece.All() {
		if p, ok := e.Load.(roomful.Percent); ok && e.Movement == l.Movement {
			return float64(p)
		}
	}
	return 0
}

// missed says that sets were not made.
func missed(t roomful.LastLoad) string {
	if t.Missed == 0 {
		return ""
	}
	return " and missed " + roomful.Figure(float64(t.Missed))
}

// went says how a load went, against what was meant.
func (l *loading) went(t roomful.LastLoad) string {
	verb := "made "
	if l.effort.Unit == "minutes" {
		verb = "took "
	}
	switch {
	case !l.effort.Stated() || l.effort.Proposed:
		return verb + t.Score
	case t.Off == 0:
		return verb + t.Score + ", as meant"
	}
	low, high := roomful.Figure(l.effort.Low), roomful.Figure(l.effort.High)
	if low != high {
		low += "-" + high
	}
	return verb + t.Score + " where " + low + " " + l.effort.Unit + " were meant"
}

// last is the load of the latest attempt at the same piece; nil when there is none or
// it had none.
func (l *loading) last() *roomful.LastLoad {
	i := slices.IndexFunc(l.past, l.samePiece)
	if i < 0 {
		return nil
	}
	e := l.past[i]
	out := &roomful.LastLoad{On: e.On, Title: e.Title, Noted: l.noted(e), Score: score.Words(e.Reading)}
	if t := loaded(e.Done.Work, l.Movement); t != nil {
		out.Load, out.Implements = t.Load, t.Implements
	}
	if e.Reading.Kind == roomful.LoadScore && !math.IsNaN(e.Done.Score) {
		out.Load, out.Sets, out.Missed = roomful.Kg(e.Done.Score), true, len(e.Reading.Misses)
		out.Off = -min(out.Missed, 1)
		return out
	}
	if out.Load.Value == 0 {
		return nil
	}
	out.Off = l.off(e.Done)
	return out
}

// off says on which side of the effort something done was: under 0 too hard, over 0
// too easy, 0 when it was as meant or nothing was meant.
func (l *loading) off(d roomful.Done) int {
	low, high := l.effort.Window()
	switch {
	case !l.effort.Stated() || l.effort.Proposed || math.IsNaN(d.Score):
		return 0
	case d.Capped:
		return -1
	case l.effort.Unit == "minutes": // less is easier
		return -side(d.Score, low, high)
	}
	return side(d.Score, low, high)
}

// side says on which side of a half-open window a figure lies.
func side(v, low, high float64) int {
	switch {
	case v < low:
		return -1
	case v >= high:
		return 1
	}
	return 0
}

// rests names what the maximum that bounds a movement rests on: the set just told
// first, then its own figure, then others and scores.
func (l *loading) rests(m *roomful.Movement) []string {
	bound := boundOf(m)
	var own, out []string
	if l.Set != nil {
		own = []string{"your " + l.Set.String()}
	}
	for _, label := range informed(l.believed, m) {
		t, of, told := prior.Told(label)
		words := label
		switch {
		case l.Set != nil && label == l.Set.String():
			continue
		case label == prior.Likeness:
			words = "somebody like you"
		case told:
			words = "your " + label
			if v, ok := l.Who.Measured(t); ok && strings.HasSuffix(string(t), "_kg") {
				words += " of " + l.Who.Own(v)
			}
		}
		switch {
		case slices.Contains(own, words) || slices.Contains(out, words):
		case told && of == bound:
			own = append(own, words)
		default:
			out = append(out, words)
		}
	}
	return append(own, out...)
}

// surer says what would raise the confidence.
func (l *loading) surer(out roomful.OwnLoad, m *roomful.Movement) string {
	switch {
	case out.Confidence == roomful.High:
		return ""
	case out.Last != nil && !out.Last.Noted:
		return "the load noted with the score"
	case m.Bound == nil || l.Set != nil:
		return "today's score, noted with the load"
	}
	return "a set you remember just managing"
}

// inBoth writes a load as it stands on the implement, and in the person's own unit
// when that is another.
func inBoth(m roomful.Mass, own roomful.MassUnit) string {
	if m.Unit == own {
		return m.String()
	}
	return m.String() + " (" + roomful.Figure(math.Round(m.In(own).Value)) + " " + own.String() + ")"
}
