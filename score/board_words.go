package score

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"roomful"
)

// EntryWords writes the score of an attempt as people say it, loads in the person's unit.
func EntryWords(e roomful.Entry) string {
	read := e.Reading
	if !math.IsNaN(e.Done.Score) {
		read.SameAs = ""
	}
	if read.Kind != roomful.LoadScore || len(read.LoadsKg) == 0 {
		return Words(read)
	}
	if n := len(read.LoadsKg); n > 1 && len(read.Misses) == 0 && slices.Min(read.LoadsKg) == slices.Max(read.LoadsKg) {
		return strconv.Itoa(n) + " × " + roomful.Kg(read.LoadsKg[0]).Near(e.Unit).String()
	}
	var words []string
	for i, kg := range read.LoadsKg {
		word := roomful.Figure(roomful.Kg(kg).Near(e.Unit).Value)
		if slices.Contains(read.Misses, i+1) {
			word = "(" + word + " missed)"
		}
		words = append(words, word)
	}
	return strings.Join(words, " ") + " " + e.Unit.String()
}

// EquivalentWords writes about what a changed attempt would have been as written.
func EquivalentWords(b roomful.Board, one roomful.Placed) string {
	size := 0
	if _, ok := b.Piece.Format.(roomful.RoundsInTime); ok {
		size = RoundSize(b.Piece, one.Division, int(one.Equivalent))
	}
	return b.Kind.Text(one.Equivalent, float64(size))
}

// OnLine are those who share a line of a board.
func OnLine(one roomful.Placed) string {
	if who := one.Reading.Partner; len(one.With) == 0 && who != "" && one.Done.Piece.Team.Size > 1 {
		return one.Name + " with " + who
	}
	return strings.Join(append([]string{one.Name}, one.With...), ", ")
}

// PlaceWord writes a place: "3", "3=" when others share it, nothing for who has none.
func PlaceWord(one roomful.Placed) string {
	switch {
	case one.Place == 0:
		return ""
	case one.Tied:
		return strconv.Itoa(one.Place) + "="
	}
	return strconv.Itoa(one.Place)
}

// OtherwiseWords says what somebody changed, and about what it would have been as written.
func OtherwiseWords(b roomful.Board, one roomful.Placed) string {
	words := one.Done.Otherwise()
	if len(words) == 0 {
		words = assumedOf(one.Done)
	}
	if !math.IsNaN(one.Equivalent) {
		words = append(words, "about "+EquivalentWords(b, one)+" as written")
	}
	return strings.Join(words, "; ")
}

// assumedOf says what was taken for granted of a score that says nothing of it: what is not
// as written, when something is not.
func assumedOf(d roomful.Done) []string {
	other := slices.DeleteFunc(slices.Clone(d.Assumed), func(a string) bool { return strings.HasPrefix(a, "as written:") })
	if len(other) > 0 {
		return other
	}
	return d.Assumed
}

// MiddleWords writes the middle score of a class; empty when there is none.
func MiddleWords(a roomful.After) string {
	if math.IsNaN(a.Middle) {
		return ""
	}
	if a.Kind == roomful.LoadScore {
		return roomful.Figure(roomful.PlainKg(a.Middle)) + " kg"
	}
	return a.Kind.Text(a.Middle, 0)
}

// AfterWords says what was meant beside what came of it.
func AfterWords(a roomful.After) string {
	switch {
	case a.Scored == 0:
		return "Nobody has a score that can be read yet."
	case !a.Effort.Stated() || !a.Effort.Counts(a.Kind):
		return fmt.Sprintf("No window was set for this. The middle of %d was %s.", a.Scored, MiddleWords(a))
	case a.Effort.Proposed:
		return fmt.Sprintf("You set no window; %s would be usual. The middle of %d was %s, and %s ended in it.", windowWords(a.Effort), a.Scored, MiddleWords(a), orNone(a.Within))
	default:
		return fmt.Sprintf("You said %s. The middle of %d was %s, and %s ended in it.", windowWords(a.Effort), a.Scored, MiddleWords(a), orNone(a.Within))
	}
}

// orNone writes a number of people.
func orNone(n int) string {
	if n == 0 {
		return "none"
	}
	return strconv.Itoa(n)
}

// windowWords writes a window, "5-7 rounds".
func windowWords(e roomful.Effort) string {
	if e.Low == e.High {
		return roomful.Figure(e.Low) + " " + e.Unit
	}
	return roomful.Figure(e.Low) + "-" + roomful.Figure(e.High) + " " + e.Unit
}
