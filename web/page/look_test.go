package page_test

import (
	"os"
	"testing"

	"roomful/web/browser"
)

// TestContrast holds every pair of tokens that meet on a page against what WCAG 2.2 asks:
// 4.5 of text (1.4.3), 3 of lines that tell where a field is and of shapes (1.4.11).
// Rules between rows only part what white space parts too, and are asked for nothing.
func TestContrast(t *testing.T) {
	css, err := os.ReadFile("assets/look.css")
	if err != nil {
		t.Fatal(err)
	}
	light, dark := browser.Tokens(string(css))
	if len(light) < 10 || len(dark) < 10 || light["paper"] == dark["paper"] {
		t.Fatalf("read as tokens: %v and %v", light, dark)
	}
	for _, c := range []struct {
		over  string
		inks  []string
		least float64
	}{
		{"paper", []string{"ink", "soft", "kelp", "amber", "brick"}, browser.OfText},
		{"surface", []string{"ink", "soft", "kelp", "amber", "brick"}, browser.OfText},
		{"kelp-wash", []string{"ink", "kelp"}, browser.OfText},
		{"amber-wash", []string{"ink", "amber"}, browser.OfText},
		{"brick-wash", []string{"ink", "brick"}, browser.OfText},
		{"kelp", []string{"on-kelp"}, browser.OfText},
		{"paper", []string{"soft", "kelp", "amber", "brick"}, browser.OfShapes}, // borders of fields, shapes of options
	} {
		for _, ink := range c.inks {
			for theme, tokens := range map[string]map[string]string{"light": light, "dark": dark} {
				got, err := browser.Contrast(tokens[ink], tokens[c.over])
				if err != nil || got < c.least {
					t.Errorf("%s on %s, %s: %.2f, %v; it has to be %.1f", ink, c.over, theme, got, err, c.least)
				}
			}
		}
	}
}
