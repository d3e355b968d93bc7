package browser

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Least contrasts that WCAG 2.2 asks at level AA: of text (1.4.3), and of large text
// (1.4.3) and shapes (1.4.11).
const (
	OfText   = 4.5
	OfShapes = 3.0
)

// Contrast is the contrast of two colours written as #rrggbb: (lighter + 0.05) over
// (darker + 0.05), https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio.
func Contrast(a, b string) (float64, error) {
	x, err := luminance(a)
	if err != nil {
		return 0, err
	}
	y, err := luminance(b)
	if err != nil {
		return 0, err
	}
	return (max(x, y) + 0.05) / (min(x, y) + 0.05), nil
}

// luminance is relative luminance, 0 for black and 1 for white:
// https://www.w3.org/TR/WCAG22/#dfn-relative-luminance.
func luminance(colour string) (float64, error) {
	digits := strings.TrimPrefix(colour, "#")
	if len(digits) == 3 {
		digits = string([]byte{digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]})
	}
	v, err := strconv.ParseUint(digits, 16, 32)
	if err != nil || len(digits) != 6 {
		return 0, fmt.Errorf("reading the colour %q: write it as #rrggbb", colour)
	}
	linear := func(part uint64) float64 {
		s := float64(part&255) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(v>>16) + 0.7152*linear(v>>8) + 0.0722*linear(v), nil
}

// token is a custom property that is one colour.
var token = regexp.MustCompile(`--([a-z0-9-]+):\s*(#[0-9A-Fa-f]{3,6})\s*;`)

// Tokens reads the colours of a style sheet that are custom properties, without their
// dashes: for light, and for dark, where the block that asks for a dark scheme has
// the last word.
func Tokens(css string) (light, dark map[string]string) {
	light, dark = map[string]string{}, map[string]string{}
	inDark := darkBlock(css)
	for _, m := range token.FindAllStringSubmatch(strings.ReplaceAll(css, inDark, ""), -1) {
		light[m[1]], dark[m[1]] = m[2], m[2]
	}
	for _, m := range token.FindAllStringSubmatch(inDark, -1) {
		dark[m[1]] = m[2]
	}
	return light, dark
}

// darkBlock is what stands between the braces after the query for a dark theme, or what
// cannot be in a style sheet when there is none.
func darkBlock(css string) string {
	_, after, ok := strings.Cut(css, "(prefers-color-scheme: dark)")
	if !ok {
		return "\x00"
	}
	depth := 0
	for i, r := range after {
		switch r {
		case '{':
			depth++
		case '}':
			if depth--; depth == 0 {
				return after[:i]
			}
		}
	}
	return after
}
