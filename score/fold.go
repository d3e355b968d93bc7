package score

import (
	"regexp"
	"strings"
	"unicode"
)

// folded writes digits of other scripts, wide signs and dashes as those that scores are made
// of: "１８：４２", "٥+٢٠", "60–65–70".
func folded(text string) string {
	text = nought.ReplaceAllStringFunc(text, func(s string) string { return strings.Map(zero, s) })
	if strings.IndexFunc(text, func(r rune) bool { return fold(r) != r }) < 0 {
		return text
	}
	return strings.Map(fold, text)
}

// nought is a letter that was typed for the digit, "8O kg".
var nought = regexp.MustCompile(`\d[oO]+\b`)

// zero is the digit for that letter.
func zero(r rune) rune {
	if r == 'o' || r == 'O' {
		return '0'
	}
	return r
}

// fold is folded for one character.
func fold(r rune) rune {
	switch {
	case r < unicode.MaxLatin1:
		return r
	case r >= '！' && r <= '～': // the wide forms of ASCII, in its order (Unicode, Halfwidth and Fullwidth Forms)
		return r - '！' + '!'
	case r == '‐' || r == '‑' || r == '‒' || r == '–' || r == '—' || r == '−':
		return '-'
	case unicode.Is(unicode.Nd, r):
		return '0' + digitOf(r)
	}
	return r
}

// digitOf is the value of a decimal digit of any script: each has its ten in a row from nought
// (Unicode, chapter 4.6).
func digitOf(r rune) rune {
	for _, t := range unicode.Nd.R16 {
		if rune(t.Lo) <= r && r <= rune(t.Hi) {
			return (r - rune(t.Lo)) % 10
		}
	}
	for _, t := range unicode.Nd.R32 {
		if rune(t.Lo) <= r && r <= rune(t.Hi) {
			return (r - rune(t.Lo)) % 10
		}
	}
	return 0
}
