package picture

import (
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
)

var update = flag.Bool("update", false, "write down what the pictures are now")

// TestGoldens holds every example to what it was, one element a line.
func TestGoldens(t *testing.T) {
	for _, e := range examples() {
		t.Run(e.name, func(t *testing.T) {
			got := strings.ReplaceAll(string(e.picture.Figure(e.name)), "><", ">\n<") + "\n"
			path := filepath.Join("testdata", e.name+".golden")
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("the picture changed; look at it, then go test ./picture -run TestGoldens -update:\n%s", diff)
			}
		})
	}
}

// TestSpeaks holds every picture to what a screen reader needs (WAI-ARIA 1.2, role img
// with a name): a role, a title and a description that its ids lead to, and a table.
func TestSpeaks(t *testing.T) {
	ids := map[string]string{}
	for _, e := range examples() {
		figure := parse(t, string(e.picture.Figure(e.name)))
		byID := map[string]*node{}
		figure.walk(func(n *node) {
			if id := n.attrs["id"]; id != "" {
				if other, ok := ids[id]; ok {
					t.Errorf("%s and %s both have the id %s", e.name, other, id)
				}
				ids[id], byID[id] = e.name, n
			}
		})
		drawn := figure.find("pic")[0]
		if drawn.attrs["role"] != "img" {
			t.Errorf("%s: role is %q", e.name, drawn.attrs["role"])
		}
		for _, by := range []string{"aria-labelledby", "aria-describedby"} {
			if n := byID[drawn.attrs[by]]; n == nil || strings.TrimSpace(n.words) == "" {
				t.Errorf("%s: %s leads to nothing", e.name, by)
			}
		}
		table := e.picture.Table
		if table.Caption == "" || len(table.Head) == 0 {
			t.Errorf("%s: the table has no caption or no head", e.name)
		}
		for _, row := range table.Rows {
			if len(row) != len(table.Head) {
				t.Errorf("%s: a row of %d under a head of %d: %q", e.name, len(row), len(table.Head), row)
			}
		}
	}
}

// TestSameBytes draws everything twice.
func TestSameBytes(t *testing.T) {
	again := examples()
	for i, e := range examples() {
		if e.picture.Figure("x") != again[i].picture.Figure("x") {
			t.Errorf("%s differs from one time to the next", e.name)
		}
	}
}

// TestNoStyle holds drawings to a content security policy of style-src 'self' and to
// colours that the page decides.
func TestNoStyle(t *testing.T) {
	for _, e := range examples() {
		parse(t, string(e.picture.Figure(e.name))).walk(func(n *node) {
			for name, v := range n.attrs {
				if name == "style" || strings.HasPrefix(name, "on") {
					t.Errorf("%s: %s has %s", e.name, n.name, name)
				}
				if name == "stroke" || name == "fill" && !strings.HasPrefix(v, "url(#") {
					t.Errorf("%s: %s has %s=%q: classes say the colour", e.name, n.name, name, v)
				}
			}
		})
	}
}

// TestStylesheet holds the stylesheet to the drawings: each class drawn has a rule, every
// colour is a custom property of the page but those of discs, and every step is there.
func TestStylesheet(t *testing.T) {
	rules := regexp.MustCompile(`(?s)/\*.*?\*/`).ReplaceAllString(Stylesheet, "")
	// Places to find in a test or a page, drawn as their kin are.
	bare := []string{"pic-hour", "pic-plot", "pic-key", "pic-strips", "pic-after", "pic-record", "pic-figure-hour", "pic-figure-bar", "pic-spare", "pic-word", "pic-count", "pic-name"}
	for _, e := range examples() {
		parse(t, string(e.picture.Figure(e.name))).walk(func(n *node) {
			for _, class := range strings.Fields(n.attrs["class"]) {
				if class == "wide" || slices.Contains(bare, class) || strings.HasPrefix(class, "pic-from-") {
					continue
				}
				if !regexp.MustCompile(`\.` + class + `\b`).MatchString(rules) {
					t.Errorf("%s: no rule for .%s", e.name, class)
				}
			}
		})
	}
	for _, v := range regexp.MustCompile(`var\(--([a-z-]+)\)`).FindAllStringSubmatch(rules, -1) {
		if !slices.Contains(strings.Fields("paper surface ink soft line kelp amber brick"), v[1]) {
			t.Errorf("--%s is no property of the page", v[1])
		}
	}
	for line := range strings.Lines(rules) {
		if strings.Contains(line, ": #") && !strings.HasPrefix(line, ".pic-disc-") {
			t.Errorf("a colour that the page does not decide: %s", line)
		}
	}
	for _, s := range steps {
		want := fmt.Sprintf("@container (min-width: %dpx) { .pic-from-%d { display: inline; } .pic-to-%d { display: none; } }", s, s, s)
		if !strings.Contains(rules, want) {
			t.Errorf("no rule for the step at %d px", s)
		}
	}
}

// TestDrawnElsewhere has another program draw every picture, at the width of a phone and
// of a wide page. It draws without the stylesheet: what counts is that it takes all of it.
func TestDrawnElsewhere(t *testing.T) {
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		t.Skip("rsvg-convert is not installed: apt-get install librsvg2-bin")
	}
	dir := t.TempDir()
	for _, e := range examples() {
		for _, wide := range []int{320, 1240} {
			page := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="600">%s</svg>`, wide, e.picture.SVG("p"))
			in, out := filepath.Join(dir, "in.svg"), filepath.Join(dir, "out.png")
			if err := os.WriteFile(in, []byte(page), 0o600); err != nil {
				t.Fatal(err)
			}
			said, err := exec.Command("rsvg-convert", in, "-o", out).CombinedOutput()
			if err != nil || len(said) > 0 {
				t.Errorf("%s at %d px: %v %s", e.name, wide, err, said)
			}
		}
	}
}

// hostile are names that somebody may type.
var hostile = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onload='x`, "]]>", "&amp;", "url(#p-hatch)",
	strings.Repeat("Umbrella", 60), "אוהל של גשם", "\u202eevil", "a\x00b\xffc", "山田花子山田花子山田花子", "",
}

// TestHostileNames draws them everywhere that words are taken, and reads them back whole
// from the table: nothing of them became an element or an attribute.
func TestHostileNames(t *testing.T) {
	for _, name := range hostile {
		plain := withWords("Adaeze")
		for i, p := range withWords(name) {
			want := shapeOf(parse(t, string(plain[i].Figure("p"))))
			got := parse(t, string(p.Figure(name)))
			if g := shapeOf(got); g != want {
				t.Errorf("%q in %s: elements outside the words changed:\n%s\n%s", name, p.Title, want, g)
			}
			if !strings.Contains(allWords(got), strings.ToValidUTF8(strings.ReplaceAll(name, "\x00", "\ufffd"), "\ufffd")) {
				t.Errorf("%q in %s is not in its table", name, p.Title)
			}
		}
	}
}

// withWords draws every picture with a name wherever it takes words.
func withWords(name string) []Picture {
	h := usualHour()
	h.Lines[4].Part, h.Lines[4].What = name, name
	return []Picture{
		Hour(h, nil),
		Forecast(Forecasts{Piece: name, Kind: roomful.RoundsScore, Effort: roomful.Effort{Low: 1, High: 2, Unit: "rounds", Feel: name},
			Groups: []ForecastGroup{{Disc, name, []ForecastRow{{name, q(1, 2, 3), 10}}}}}),
		Record(Attempts{Piece: name, Kind: roomful.LoadScore, Beat: math.NaN(), Scores: []Attempt{{On: on(2027, 1, 1), Score: 5, Changed: name + "."}}}),
		After(Outcome{Piece: name, Kind: roomful.LoadScore, Groups: []OutcomeGroup{{Disc, name, []Scored{{name, 5, 0, false}}}}}),
	}
}

// shapeOf lists which elements and attributes there are, those for words aside, of which
// there are as many as fit.
func shapeOf(n *node) string {
	seen := map[string]bool{}
	n.walk(func(n *node) {
		var names []string
		for a := range n.attrs {
			if a != "dx" { // of words that may be left out
				names = append(names, a)
			}
		}
		slices.Sort(names)
		seen[n.name+" "+strings.Join(names, ",")] = true
	})
	var all []string
	for s := range seen {
		all = append(all, s)
	}
	slices.Sort(all)
	return strings.Join(all, "\n")
}

// allWords gathers the words of a tree.
func allWords(n *node) string {
	var b strings.Builder
	n.walk(func(n *node) { b.WriteString(n.words + "\n") })
	return b.String()
}

// TestIDs keeps ids plain.
func TestIDs(t *testing.T) {
	for _, c := range []struct{ prefix, want string }{
		{"hour", "hour"}, {"", "pic"}, {"7-main", "pic7-main"}, {`a"b c`, "a-b-c"}, {"-x", "pic-x"}, {"é", "pic-"},
	} {
		if got := safeID(c.prefix); got != c.want {
			t.Errorf("safeID(%q) = %q, want %q", c.prefix, got, c.want)
		}
	}
}

// TestShapes gives each option a shape and a word, and none to a fifth.
func TestShapes(t *testing.T) {
	for option, want := range map[int]string{-1: "no option", 0: "disc", 1: "triangle", 2: "square", 3: "lozenge", 4: "no option"} {
		s := ShapeOf(option)
		if s.String() != want {
			t.Errorf("option %d is a %s, want %s", option, s, want)
		}
		n := parse(t, string(s.SVG())).kids[0]
		if n.attrs["role"] != "img" || n.attrs["aria-label"] != want {
			t.Errorf("the %s says %q as %q", want, n.attrs["aria-label"], n.attrs["role"])
		}
	}
	if got := Shape(200).String(); got != "no option" {
		t.Errorf("a shape that is none is called %q", got)
	}
}
