package picture

import (
	"strconv"
	"unicode"
)

// narrowest is the least width in px that a drawing is made for: a phone of 320 px less
// the margins of the page.
const narrowest = 280

// steps are the widths in px of a figure at which more words come out. Stylesheet has a
// rule for each.
var steps = [...]int{360, 480, 600, 720, 840, 960, 1080, 1200}

// glyphPx is about what a letter takes at 13 px, bold; wide scripts take a whole square.
const glyphPx = 7.3

// widthPx guesses how wide words come out at 13 px.
func widthPx(words string) float64 {
	sum := 0.0
	for _, r := range words {
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case r >= 0x1100:
			sum += 13
		default:
			sum += glyphPx
		}
	}
	return sum
}

// room is a share of the width less some px that other things take.
type room struct{ percent, lessPx float64 }

// step returns the width in px from which the room holds words: 0 when it does
// everywhere. ok is false when no step is wide enough.
func (r room) step(words string) (step int, ok bool) {
	if widthPx(words) <= r.at(narrowest) {
		return 0, true
	}
	for _, s := range steps {
		if widthPx(words) <= r.at(s) {
			return s, true
		}
	}
	return steps[len(steps)-1], false
}

// at is how much room there is in px in a drawing of a width.
func (r room) at(wide int) float64 { return float64(wide)*r.percent/100 - r.lessPx }

// from is the class of what comes out from a step on.
func from(step int) string {
	if step == 0 {
		return ""
	}
	return " pic-from-" + strconv.Itoa(step)
}

// until is the class of what stands there before a step.
func until(step int) string { return " pic-to-" + strconv.Itoa(step) }

// shorten cuts words to a width at 13 px, with a mark where something is missing.
func shorten(words string, widthMost float64) string {
	if widthPx(words) <= widthMost {
		return words
	}
	sum := widthPx("…")
	for i, r := range words {
		if sum += widthPx(string(r)); sum > widthMost {
			return words[:i] + "…"
		}
	}
	return words
}

// when writes words where their room holds them, and nothing where not.
func (d *drawing) when(words string, in room, class string, attributes ...string) {
	if step, ok := in.step(words); ok {
		d.text(words, class+from(step), attributes)
	}
}

// whole writes words that have to be there at any width: whole where there is room, cut
// where there is not.
func (d *drawing) whole(words string, in room, class string, attributes ...string) {
	step, _ := in.step(words)
	if step == 0 {
		d.text(words, class, attributes)
		return
	}
	d.text(shorten(words, in.at(step)), class+from(step), attributes)
	d.text(shorten(words, in.at(narrowest)), class+until(step), attributes)
}

// either writes words where their room holds them, and before that brief ones where it
// holds those.
func (d *drawing) either(words, brief string, in room, class string, attributes ...string) {
	step, ok := in.step(words)
	early, fits := in.step(brief)
	if !ok || step == 0 || !fits || early >= step || brief == words {
		d.when(words, in, class, attributes...)
		return
	}
	d.text(words, class+from(step), attributes)
	d.text(brief, class+from(early)+until(step), attributes)
}

// text writes words.
func (d *drawing) text(words, class string, attributes []string) {
	d.words("text", words, append([]string{"class", class}, attributes...)...)
}
