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

// turn is a switch once read: what takes over, and from when.
type turn struct {
	to    *roomful.Movement
	words string        // its name as typed
	note  string        // what follows the name
	round int           // from which round; 0 within the interval
	at    time.Duration // of the interval
}

// turnOf reads one clause of a note; ok is false when it is no switch to a
// movement that the lexicon knows.
func turnOf(clause string, lex roomful.Lexicon, each time.Duration) (t turn, ok bool) {
	m := switchWords.FindStringSubmatch(clause)
	if m == nil {
		return turn{}, false
	}
	words := strings.Fields(strings.ToLower(m[4]))
	to, n := lex.Match(words)
	if to == nil {
		return turn{}, false
	}
	t = turn{to: to, words: strings.Join(words[:n], " "), note: strings.Join(words[n:], " "), at: each / 2}
	switch n, _ := strconv.Atoi(m[1] + m[2]); {
	case m[1] != "":
		t.round = n
	case m[2] != "":
		t.at = time.Duration(n) * time.Second
	}
	return t, true
}

// switches takes the switches out of a line's note and returns the lines they
// ask for. A name that the lexicon does not know stays in the note.
func switches(l *Line, lex roomful.Lexicon, each time.Duration) []Line {
	var kept []string
	var out []Line
	until := l.Until
	for clause := range strings.SplitSeq(l.Element.Note, ";") {
		clause = strings.TrimSpace(clause)
		t, ok := turnOf(clause, lex, each)
		if !ok {
			if clause != "" {
				kept = append(kept, clause)
			}
			continue
		}
		e := l.Element
		e.Movement, e.Words, e.Note = t.to.ID, t.words, t.note
		e.Amount, e.Load, e.Heights = roomful.Amount{}, nil, nil
		next := Line{Element: e, From: l.From, Until: until, Beside: true, At: t.at}
		if t.round > 0 {
			next.From, next.Beside, next.At = t.round, l.Beside, 0
			endBefore(l, out, t.round)
		}
		out = append(out, next)
	}
	l.Element.Note = strings.Join(kept, "; ")
	return out
}

// endBefore ends the line that a round's switch takes over from: the last one
// that a round began, or the first.
func endBefore(l *Line, turns []Line, round int) {
	for i := len(turns) - 1; i >= 0; i-- {
		if turns[i].From > l.From {
			turns[i].Until = round - 1
			return
		}
	}
	l.Until = round - 1
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
