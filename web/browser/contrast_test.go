package browser_test

import (
	"math"
	"testing"

	"roomful/web/browser"
)

// TestContrast holds the formula against published values.
func TestContrast(t *testing.T) {
	for _, c := range []struct {
		a, b   string
		want   float64
		source string
	}{
		{"#000000", "#ffffff", 21, "WCAG 2.2, note 1 to the definition of contrast ratio: ratios range from 1 to 21"},
		{"#fff", "#fff", 1, "the same"},
		{"#777777", "#ffffff", 4.48, "WebAIM, Contrast and Color Accessibility, https://webaim.org/articles/contrast/: 4.47 to 4.48 and just short of 4.5, from memory"},
		{"#767676", "#ffffff", 4.54, "the lightest grey that passes on white, from memory"},
		{"#0000ff", "#ffffff", 8.59, "pure blue on white, from memory"},
		{"#ff0000", "#ffffff", 4.0, "pure red on white: 1.05 / (0.2126 + 0.05), by hand"},
	} {
		got, err := browser.Contrast(c.a, c.b)
		if err != nil || math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s: %.3f, %v; %.2f by %s", c.a, c.b, got, err, c.want, c.source)
		}
		if back, _ := browser.Contrast(c.b, c.a); back != got {
			t.Errorf("%s on %s is %v, and the other way round %v", c.a, c.b, got, back)
		}
	}
	for _, not := range []string{"", "red", "#12", "#12345", "#gggggg"} {
		if got, err := browser.Contrast(not, "#fff"); err == nil {
			t.Errorf("%q has a contrast of %v", not, got)
		}
	}
}

func TestTokens(t *testing.T) {
	light, dark := browser.Tokens(`:root { --paper: #fff; --ink: #000000; --gap: 4px; }
@media (prefers-color-scheme: dark) { :root { --paper: #111; } .x { color: red; } }
@media print { :root { --wax: #abc; } }`)
	for what, got := range map[string]string{"#fff": light["paper"], "#000000": light["ink"], "#111": dark["paper"], "#abc": light["wax"], "": light["gap"]} {
		if got != what {
			t.Errorf("%q is read as %q", what, got)
		}
	}
	if dark["ink"] != light["ink"] {
		t.Errorf("what dark does not say again is %q", dark["ink"])
	}
}
