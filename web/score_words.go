package web

import (
	"strconv"
	"strings"

	"roomful"
	"roomful/score"
	"roomful/web/page"
)

// readingOf is what a text was read as, for whoever typed it.
func (w wording) readingOf(readings []roomful.Reading, several bool) *page.MyReading {
	out := &page.MyReading{}
	for _, r := range readings {
		one := page.MyRead{Score: w.scored(r), Changes: w.changes(r)}
		if several {
			one.Piece = capital(r.Piece)
		}
		out.Lines = append(out.Lines, one)
		out.Private = added(out.Private, r.Private)
		out.Unread = added(out.Unread, r.Unread)
		if q := r.Question; q != nil && out.Ask == "" {
			out.Ask, out.Answers = asSentence(q.Ask), q.Answers[:]
		}
	}
	return out
}

// added adds words to others.
func added(to string, words []string) string {
	if to != "" {
		words = append([]string{to}, words...)
	}
	return strings.Join(words, "; ")
}

// scored writes the score of a reading as people say it.
func (w wording) scored(r roomful.Reading) string {
	if r.Kind == roomful.LoadScore && len(r.LoadsKg) > 0 && r.SameAs == "" {
		return w.loads(r)
	}
	if r.Capped || r.SameAs != "" || r.Rounds == nil || r.Reps == nil || len(r.EachSeconds) > 0 {
		return score.Words(r)
	}
	words := strconv.Itoa(*r.Rounds) + "\u00a0rounds" // which stay on one line
	if *r.Rounds == 1 {
		words = "1\u00a0round"
	}
	if *r.Reps > 0 {
		words += "\u00a0+\u00a0" + strconv.Itoa(*r.Reps)
	}
	if r.Approximate {
		words = "about " + words
	}
	return words
}

// loads writes the loads of sets in the unit that they think in: "5 × 70 kg", "70 70 67.5 kg".
func (w wording) loads(r roomful.Reading) string {
	var words []string
	same := true
	for _, kg := range r.LoadsKg {
		own, _ := w.mass(roomful.Kg(kg))
		words = append(words, strings.TrimSuffix(own, " "+w.unit.String()))
		same = same && words[0] == words[len(words)-1]
	}
	text := strings.Join(words, " ")
	if same && len(words) > 1 {
		text = strconv.Itoa(len(words)) + "\u00a0×\u00a0" + words[0]
	}
	text += "\u00a0" + w.unit.String()
	if r.Approximate {
		text = "about " + text
	}
	return text
}

// changes writes what was otherwise than the sheet has it.
func (w wording) changes(r roomful.Reading) string {
	var words []string
	for _, c := range roomful.Joined(r.Changes) {
		words = append(words, w.change(c))
	}
	if len(words) == 0 && r.AsWritten != nil && *r.AsWritten {
		return "as written"
	}
	if len(words) == 0 && r.Kind != roomful.LoadScore {
		for _, kg := range r.LoadsKg {
			own, _ := w.mass(roomful.Kg(kg))
			words = append(words, "with "+own)
		}
	}
	return enumerated(words)
}

// change writes one change: "knee raises for toes-to-bar", "7 deadlifts at 55 kg".
func (w wording) change(c roomful.Change) string {
	var with []string
	amount := ""
	if c.Amount > 0 {
		amount = strings.TrimSuffix(roomful.Figure(c.Amount)+" "+c.Unit.String(), " rep") + " "
	}
	called := func(id roomful.MovementID) string {
		m := w.lexicon.Movement(id)
		if m == nil || c.Amount == 1 && c.Unit == roomful.Rep {
			return w.called(id)
		}
		return m.Several()
	}
	if c.LoadKg > 0 {
		own, _ := w.mass(roomful.Kg(c.LoadKg))
		with = append(with, "at "+own)
	}
	if c.HeightCm > 0 {
		with = append(with, "at "+roomful.Figure(c.HeightCm)+" cm")
	}
	if c.Assist != "" {
		with = append(with, "with a "+c.Assist)
	}
	if c.AtSeconds > 0 {
		with = append(with, "from "+roomful.Clock(c.AtSeconds)+" on")
	}
	tail := strings.Join(with, ", ")
	switch {
	case c.To != "" && c.To == c.Of:
		return strings.TrimSpace(amount + called(c.Of) + " as written " + tail)
	case c.To != "" && c.Of != "":
		instead := "for " + w.called(c.Of)
		if m := w.lexicon.Movement(c.Of); m != nil {
			instead = m.For()
		}
		return strings.TrimSpace(amount + called(c.To) + " " + instead + " " + tail)
	case c.To != "":
		return strings.TrimSpace(amount + called(c.To) + " " + tail)
	case c.Of != "" && tail == "" && amount == "":
		return called(c.Of) + " left out"
	case c.Of != "":
		return strings.TrimSpace(amount + called(c.Of) + " " + tail)
	}
	return strings.TrimSpace(amount + tail)
}
