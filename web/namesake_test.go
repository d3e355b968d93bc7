package web_test

import (
	"regexp"
	"slices"
	"testing"
)

// onBars is a bar on a coach's page: what is on it and who lifts it.
var onBars = regexp.MustCompile(`<li><strong class="n">([^<]+)</strong> <span>[^<]*</span> <small>([^<]+)</small>`)

// TestNamesakes: two people of one name lift two bars, each their own, and the day is there
// for everybody.
func TestNamesakes(t *testing.T) {
	g := lifting(t)
	g.must("coach", "PUT", "/kit", map[string]any{"text": "stations: {rack: 4}\nbars:\n  - {mass: 20, count: 3}\nplates:\n  - {mass: 20, count: 8}\n  - {mass: 10, count: 8}\n  - {mass: 5, count: 8}\n  - {mass: 2.5, count: 8}\n"})
	if got, want := g.lifted(), []string{"60 kg Mo", "30 kg Bo"}; !slices.Equal(got, want) {
		t.Fatalf("the bars are %q, want %q", got, want)
	}
	g.must("coach", "PUT", "/people/bo", map[string]any{"revision": 2, "told": map[string]string{"name": "Mo"}})
	for _, who := range []string{"mo", "bo"} {
		g.must(who, "GET", "/sheets/bars/versions", nil)
	}
	if got, want := g.lifted(), []string{"60 kg Mo", "30 kg Mo"}; !slices.Equal(got, want) {
		t.Errorf("with two people of one name the bars are %q, want %q", got, want)
	}
}

// lifted is what is on the bars of the day on a coach's page, and who lifts it.
func (g *gym) lifted() (out []string) {
	g.t.Helper()
	_, text := g.page("coach", "/sheets/bars?wait=yes")
	for _, bar := range onBars.FindAllStringSubmatch(text, -1) {
		out = append(out, bar[1]+" "+bar[2])
	}
	return out
}
