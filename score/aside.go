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
		if !p.isNumber(i) {
			continue
		}
		one, two := p.word(i+1), p.word(i+2)
		switch {
		case slices.Contains([]string{"a", "each", "per", "pro"}, one) && slices.Contains([]string{"side", "arm", "leg", "hand", "seite"}, two),
			one == "on" && p.number(i+2) && p.word(i+3) == "off", one == "off" && p.word(i-1) == "on",
			(one == "min" || one == "mins" || one == "m" || isSecond(one)) && slices.Contains(swingWords, two),
			p.word(i-1) == "only" && one == ":":
			p.toks[i].kind = wordToken
		}
	}
}

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
func (p *parser) splits() (out []float64) {
	for i := range p.toks {
		if !slices.Contains([]string{"rounds", "splits", "split", "laps", "rds", "runden", "tours"}, p.word(i)) || p.number(i-1) {
			continue
		}
		j, end, each := i+1, i, []float64(nil)
		if p.word(j) == ":" || p.word(j) == "at" {
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
			return each
		}
	}
	return nil
}

// moment is a point of a piece in words: from a time, a round or half way on.
type moment struct {
	seconds float64
	round   int // from the start of this one
	half    bool
	last    int // from the start of the last so many
}

// momentIn reads from when on the clause of token at speaks: "from rd 3", "after 10",
// "from about halfway", "last 2 rounds", "from 10:00 on". It uses what it reads.
func (p *parser) momentIn(at int) (m moment, ok bool) {
	clause := p.toks[at].clause
	for i := range p.toks {
		if p.toks[i].clause != clause || p.used[i] {
			continue
		}
		w, j := p.word(i), i+1
		if p.word(j) == "about" || p.word(j) == "the" {
			j++
		}
		switch {
		case slices.Contains([]string{"from", "after", "since", "ab", "at", "until", "to"}, w) && slices.Contains([]string{"halfway", "half", "half-way"}, p.word(j)), slices.Contains([]string{"halfway", "half-way"}, w):
			p.use(i, max(j+1, i+1))
			return moment{half: true}, w != "until" && w != "to"
		case (w == "from" || w == "after" || w == "since") && j < len(p.toks) && p.toks[j].kind == clockToken:
			p.use(i, j+1+b2i(p.word(j+1) == "on"))
			return moment{seconds: p.toks[j].value}, true
		case (w == "from" || w == "after" || w == "since" || w == "ab") && slices.Contains(roundWords, p.word(j)) && p.isNumber(j+1):
			p.use(i, j+2+b2i(p.word(j+2) == "on"))
			return moment{round: int(p.toks[j+1].value) + b2i(w == "after")}, true
		case w == "after" && p.isNumber(j) && p.toks[j].decimals == 0:
			p.use(i, j+1+b2i(slices.Contains(roundWords, p.word(j+1))))
			return moment{round: int(p.toks[j].value) + 1}, true
		case w == "last" && slices.Contains(roundWords, p.word(j)):
			p.use(i, j+1)
			return moment{last: 1}, true
		case w == "last" && p.isNumber(j) && slices.Contains(roundWords, p.word(j+1)):
			p.use(i, j+2)
			return moment{last: int(p.toks[j].value)}, true
		}
	}
	return moment{}, false
}

// clock is a moment in s on the clock of a piece with this reading, to five seconds,
// as if all rounds were of one length; 0 when it cannot be known.
func (m moment) clock(part roomful.Part, r roomful.Reading) float64 {
	if m.seconds > 0 {
		return m.seconds
	}
	var whole, rounds float64
	if r.Rounds != nil {
		rounds = float64(*r.Rounds)
		if size := RoundSize(part, roomful.AnyDivision, *r.Rounds); r.Reps != nil && size > 0 {
			rounds += float64(*r.Reps) / float64(size)
		}
	}
	switch f := part.Format.(type) {
	case roomful.RoundsInTime:
		whole = f.Window.Seconds()
	case roomful.ForTime:
		rounds = float64(max(f.Rounds, len(f.Ladder.Steps)))
		if r.Seconds != nil {
			whole = *r.Seconds
		}
	case roomful.Every:
		whole, rounds = f.Interval.Seconds()*float64(f.Count), float64(f.Count)
	}
	at := 0.0
	switch {
	case m.half:
		at = whole / 2
	case rounds < 1:
	case m.last > 0:
		at = whole * max(0, rounds-float64(m.last)) / rounds
	case m.round > 1 && float64(m.round-1) < rounds:
		at = whole * float64(m.round-1) / rounds
	}
	return math.Round(at/5) * 5
}
