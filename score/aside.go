package score

import (
	"math"
	"slices"

	"roomful"
)

// aside takes figures that are no score out of the way: "5 a side", "1 min on 1 off",
// "only 4:". They stay in the note as typed.
func (p *parser) aside() {
	for i := range p.toks {
		if p.toks[i].value >= mostFigure { // behind a word of no score it is a telephone number
			p.toks[i].kind = wordToken
			p.huge = p.huge || i == 0 || p.toks[i-1].kind != wordToken || scoreWord(p.word(i-1))
		}
		if !p.isNumber(i) {
			continue
		}
		one, two := p.word(i+1), p.word(i+2)
		switch {
		case (one == "arm" || one == "leg") && oneSided[p.word(i)],
			slices.Contains([]string{"a", "each", "per", "pro"}, one) && slices.Contains([]string{"side", "arm", "leg", "hand", "seite"}, two),
			one == "on" && p.number(i+2) && p.word(i+3) == "off", one == "off" && p.word(i-1) == "on",
			(one == "min" || one == "mins" || one == "m" || isSecond(one)) && slices.Contains(swingWords, two),
			p.word(i-1) == "only" && one == ":",
			p.word(i-1) == "." && (p.word(i-2) == "no" || p.word(i-2) == "nr"),
			slices.Contains([]string{"bpm", "%", "am", "pm", "uhr"}, one),
			slices.Contains([]string{"hr", "rpe", "puls", "pulse", "damper"}, p.word(i-1)),
			p.word(i-1) == "@" && p.toks[i].value >= 5 && p.toks[i].value <= 10 && i > 1 && p.toks[i-2].value >= 20 && p.asked.kind == roomful.LoadScore && one != "kg" && one != "lb",
			p.word(i-1) == "a" && !isDigit(p.raw[p.toks[i].start]),
			one == "rm" && p.toks[i+1].glued, one == "plate", one == "plates",
			p.multi() && one == ")" && p.toks[i].value < 10 && !p.opened(i),
			p.paceOf(i):
			if p.paceOf(i) {
				p.toks[i-2].kind = wordToken
			}
			p.toks[i].kind = wordToken
		}
	}
}

// opened reports whether a bracket was opened before a token in its clause.
func (p *parser) opened(i int) bool {
	return p.says(stretch{p.clause(i).from, i}, "(")
}

// paceOf reports whether a distance stands behind the time for it, "2:05/500m".
func (p *parser) paceOf(i int) bool {
	return i > 1 && p.word(i-1) == "/" && p.toks[i].glued && p.toks[i-2].kind == clockToken && (p.word(i+1) == "m" || p.toks[i].value == 500 || p.toks[i].value == 1000)
}

// mostFigure is beyond what anybody scores, in any unit.
const mostFigure = 1e6

// swingWords go with the length of work and rest.
var swingWords = []string{"on", "off", "work", "rest"}

// number reports whether token i was typed as a number.
func (p *parser) number(i int) bool {
	return p.isNumber(i) || i >= 0 && i < len(p.toks) && isDigit(p.raw[p.toks[i].start])
}

// stopped reads "stopped at 8:00" and "out at 8 min" after a piece with a window; 0
// when nobody says so.
func (p *parser) stopped() float64 {
	for i := range p.toks {
		if !slices.Contains([]string{"stopped", "stop", "out", "quit"}, p.word(i)) || p.word(i+1) != "at" || i+2 >= len(p.toks) || p.used[i+2] {
			continue
		}
		switch t := p.toks[i+2]; {
		case t.kind == clockToken:
			p.use(i, i+3)
			return t.value
		case t.kind == numberToken && (p.word(i+3) == "min" || p.word(i+3) == "mins"):
			p.use(i, i+4)
			return minutes(t)
		}
	}
	return 0
}

// splits reads "rounds 1:38 1:42 1:50" and "splits 4:21/4:40": how long each round
// took, two at least. They are no score.
func (p *parser) splits() (out []float64, onClock bool) {
	for i := range p.toks {
		if !slices.Contains([]string{"rounds", "splits", "split", "laps", "rds", "runden", "tours"}, p.word(i)) || slices.Contains(roundWords, p.word(i)) && p.number(i-1) {
			continue
		}
		j, end, each := i+1, i, []float64(nil)
		onClock = p.word(j) == "at"
		if p.word(j) == ":" || onClock {
			j++
		}
		for j < len(p.toks) {
			t := p.toks[j]
			switch {
			case t.kind == clockToken && !p.used[j]:
				each = append(each, t.value)
			case !slices.Contains([]string{",", "/", "-", "and", "&"}, t.text):
				j = len(p.toks)
				continue
			}
			j++
			if len(each) > 0 {
				end = j
			}
		}
		if len(each) > 1 {
			p.use(i, end)
			return each, onClock
		}
	}
	return nil, false
}

// lengths are the times of rounds as how long each took. Times on the clock, "rounds at
// 2:10 4:25 6:50", grow, and are said to be at those times or come to more than the
// piece lasted.
func (r *reader) lengths(out *roomful.Reading) []float64 {
	each := r.said.splits
	whole, sum := math.Inf(1), 0.0
	switch f := r.p.asked.part.Format.(type) {
	case roomful.RoundsInTime:
		whole = f.Window.Seconds()
	case roomful.ForTime:
		if out.Seconds != nil {
			whole = *out.Seconds
		}
	}
	for _, s := range each {
		sum += s
	}
	if grows(each) && (r.said.onClock || sum > whole) {
		return apart(each, 0)
	}
	return each
}
