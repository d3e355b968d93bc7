package prep

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"roomful"
)

// switchWords are how a note says that another movement takes over: at a round,
// "round 2 burpee", or within an interval, "at 15 s jumping lunge" and "halfway
// burpee".
var switchWords = regexp.MustCompile(`(?i)^(?:then )?(?:(?:from )?rounds? (\d+)(?: on)?|at (?::|0:)?(\d+) ?(?:s|sec|seconds)?|(half ?way)):? +(.+)$`)

// Lines reads the elements of a part as lines to lay out. A switch in an
// element's note makes a line of its own, and the note keeps what is left. Own
// tells how long an element with an amount takes one person.
func Lines(p roomful.Part, lex roomful.Lexicon, own func(roomful.Element) time.Duration) []Line {
	var out []Line
	each := eachOf(p.Format)
	add := func(es []roomful.Element, from, until int) {
		for i, e := range es {
			l := Line{Element: e, From: from, Until: until, Beside: i > 0 && e.Line > 0 && e.Line == es[i-1].Line && e.Slot == es[i-1].Slot}
			more := switches(&l, lex, each)
			for _, m := range append([]Line{l}, more...) {
				if m.Element.Amount.Stated() {
					m.Own = own(m.Element)
				}
				out = append(out, m)
			}
		}
	}
	add(p.Once, 0, 1)
	add(p.Round, 0, 0)
	add(p.Last, max(roundsOf(p.Format), 1), 0)
	return out
}

// switches takes the switches out of a line's note and returns the lines they
// ask for. A name that the lexicon does not know stays in the note.
func switches(l *Line, lex roomful.Lexicon, each time.Duration) []Line {
	var kept []string
	var out []Line
	until := l.Until
	ends := func(n int) { // the rounds of the one before end where the next begin
		for i := len(out) - 1; i >= 0; i-- {
			if out[i].From > l.From {
				out[i].Until = n - 1
				return
			}
		}
		l.Until = n - 1
	}
	for part := range strings.SplitSeq(l.Element.Note, ";") {
		part = strings.TrimSpace(part)
		m := switchWords.FindStringSubmatch(part)
		var to *roomful.Movement
		taken := 0
		words := []string(nil)
		if m != nil {
			words = strings.Fields(strings.ToLower(m[4]))
			to, taken = lex.Match(words)
		}
		if to == nil {
			if part != "" {
				kept = append(kept, part)
			}
			continue
		}
		e := l.Element
		e.Movement, e.Words = to.ID, strings.Join(words[:taken], " ")
		e.Amount, e.Load, e.Heights = roomful.Amount{}, nil, nil
		e.Note = strings.Join(words[taken:], " ")
		next := Line{Element: e, From: l.From, Until: until}
		switch n, _ := strconv.Atoi(m[1] + m[2]); {
		case m[1] != "":
			next.From, next.Beside = n, l.Beside
			ends(n)
		case m[2] != "":
			next.Beside, next.At = true, time.Duration(n)*time.Second
		default:
			next.Beside, next.At = true, each/2
		}
		out = append(out, next)
	}
	l.Element.Note = strings.Join(kept, "; ")
	return out
}

// eachOf is the length of one interval of a format, 0 when there is none.
func eachOf(f roomful.Format) time.Duration {
	switch f := f.(type) {
	case roomful.Unscored:
		return f.Each
	case roomful.Stations:
		return f.Work
	case roomful.Intervals:
		return f.Work
	case roomful.Every:
		return f.Interval
	}
	return 0
}

// roundsOf is how many rounds a format has, 0 when it does not say.
func roundsOf(f roomful.Format) int {
	switch f := f.(type) {
	case roomful.Unscored:
		return f.Rounds
	case roomful.Stations:
		return f.Rounds
	case roomful.ForTime:
		return f.Rounds
	}
	return 0
}
