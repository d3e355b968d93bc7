package picture

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"
)

// look is where the pages keep their custom properties.
const look = "../web/page/assets/look.css"

// colour is red, green and blue from 0 to 1.
type colour [3]float64

// readTokens reads the properties of the light theme and of the dark one.
func readTokens(t *testing.T) [2]map[string]colour {
	t.Helper()
	text, err := os.ReadFile(look)
	if err != nil {
		t.Fatal(err)
	}
	var themes [2]map[string]colour
	for i := range themes {
		themes[i] = map[string]colour{}
	}
	for _, m := range regexp.MustCompile(`--([a-z-]+): #([0-9A-F]{6})`).FindAllStringSubmatch(string(text), -1) {
		n, _ := strconv.ParseUint(m[2], 16, 32)
		c := colour{float64(n>>16) / 255, float64(n>>8&255) / 255, float64(n&255) / 255}
		theme := themes[0]
		if _, ok := theme[m[1]]; ok { // the second of a name is that of the dark
			theme = themes[1]
		}
		theme[m[1]] = c
	}
	return themes
}

// over is a colour laid over another with an opacity.
func (c colour) over(ground colour, opacity float64) (out colour) {
	for i := range c {
		out[i] = c[i]*opacity + ground[i]*(1-opacity)
	}
	return out
}

// luminance is the relative luminance of WCAG 2.2.
func (c colour) luminance() float64 {
	linear := func(v float64) float64 {
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c[0]) + 0.7152*linear(c[1]) + 0.0722*linear(c[2])
}

// contrast is the contrast ratio of WCAG 2.2, from 1 to 21.
func contrast(a, b colour) float64 {
	la, lb := a.luminance(), b.luminance()
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// TestContrast holds words to 4.5 and what has to be seen of a drawing to 3, in both
// themes (WCAG 2.2, 1.4.3 and 1.4.11).
func TestContrast(t *testing.T) {
	if got := contrast(colour{0, 0, 0}, colour{1, 1, 1}); math.Abs(got-21) > 1e-9 {
		t.Fatalf("black on white is %v, which the formula gives as 21", got)
	}
	for i, theme := range readTokens(t) {
		paper := theme["paper"]
		meant := theme["kelp"].over(paper, opacity(t, "pic-meant"))
		for _, c := range []struct {
			what          string
			paint, ground colour
			least         float64
		}{
			{"words", theme["ink"], paper, 4.5},
			{"soft words", theme["soft"], paper, 4.5},
			{"amber words", theme["amber"], paper, 4.5},
			{"brick words", theme["brick"], paper, 4.5},
			{"a figure on the band", theme["ink"], meant, 4.5},
			{"a range on paper", theme["soft"].over(paper, opacity(t, "pic-range")), paper, 3},
			{"a range on the band", theme["soft"].over(meant, opacity(t, "pic-range")), meant, 3},
			{"a mark on the band", theme["ink"], meant, 3},
			{"the edge of the band", theme["kelp"], paper, 3},
			{"the number to beat", theme["kelp"], paper, 3},
			{"the over-run", theme["brick"], paper, 3},
			{"the edge of a disc", theme["ink"], paper, 3},
			{"the bar", theme["soft"], paper, 3},
		} {
			if got := contrast(c.paint, c.ground); got < c.least {
				t.Errorf("%s in the %s theme: %.2f, want %v", c.what, [2]string{"light", "dark"}[i], got, c.least)
			}
		}
	}
}

// opacity reads how opaque the stylesheet makes a class.
func opacity(t *testing.T, class string) float64 {
	t.Helper()
	m := regexp.MustCompile(`\.` + class + ` \{[^}]*fill-opacity: ([.0-9]+);`).FindStringSubmatch(Stylesheet)
	if m == nil {
		t.Fatalf("no opacity of .%s", class)
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
