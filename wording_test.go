package roomful_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestWording holds every text of the tree to doc/voice.md where a machine
// can: names that belong to others, words that mean nothing outside somebody's
// own desk, and spelling.
func TestWording(t *testing.T) {
	w := wording{unsaid: readUnsaid(t), known: map[string]bool{}}
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		switch {
		case d.IsDir() && (d.Name() == ".git" || d.Name() == "bin"):
			return filepath.SkipDir
		case d.IsDir() || d.Name() == ".git": // a file in a second work tree
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil || !utf8.Valid(text) || path == "wording_test.go" || strings.HasPrefix(d.Name(), "go.") {
			return err
		}
		for _, fault := range w.faults(filepath.ToSlash(path), text) {
			t.Errorf("%s: %s", path, fault)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestWordingSees shows that each kind of fault is found.
func TestWordingSees(t *testing.T) {
	w := wording{unsaid: map[string]bool{unsaidHash("acme bike"): true}, known: map[string]bool{}}
	for _, c := range []struct{ path, text, want string }{
		{"a.md", "ten calories on the Acme-bike", "line 1: a name that belongs to others: Acme-bike"},
		{"a.md", "see\n/work/plan", `line 2: "/work" means nothing to a stranger`},
		{"a.md", "as in MODEL rule 4", `line 1: "MODEL" means nothing to a stranger`},
		{"a.md", "the colour, the color", "line 1: color: colour"},
		{"a.go", "package a\n\n// The favorite.\nvar color = 1\n", "line 3: favorite: favourite"},
		{"a/testdata/b.txt", "color", ""},
		{"a.md", "rest/work and model rules", ""},
	} {
		got := strings.Join(w.faults(c.path, []byte(c.text)), "; ")
		if got != c.want {
			t.Errorf("%s %q: got %q, want %q", c.path, c.text, got, c.want)
		}
	}
}

// strange matches what only somebody who was there would understand.
var strange = regexp.MustCompile(`(?:^|[\s"'(=])(/work)\b|\b(MODEL|REFERENCES|TRADE|DESIGN|STYLE)\b|(\.\./shared)\b|\b(issue \d+)\b`)

// american gives the British spelling of words that are easily written the
// other way. Words with a meaning of their own in code are left out.
var american = map[string]string{
	"analyze": "analyse", "behavior": "behaviour", "canceled": "cancelled", "catalog": "catalogue", "center": "centre",
	"centered": "centred", "color": "colour", "colored": "coloured", "colors": "colours", "defense": "defence",
	"favor": "favour", "favorite": "favourite", "fiber": "fibre", "gray": "grey", "honor": "honour", "labeled": "labelled",
	"labor": "labour", "liter": "litre", "modeled": "modelled", "modeling": "modelling", "neighbor": "neighbour",
	"neighbors": "neighbours", "skeptical": "sceptical", "traveled": "travelled", "traveling": "travelling",
}

var (
	word       = regexp.MustCompile(`[\pL\pN]+`)
	singleWord = regexp.MustCompile(`[a-z]+`)
)

// wording finds faults of wording in a text.
type wording struct {
	unsaid map[string]bool // hashes of names, see testdata/wording
	known  map[string]bool // names already looked up
}

// faults returns what is wrong with a file's text, by line.
func (w wording) faults(path string, text []byte) []string {
	var out []string
	for _, at := range w.names(text) {
		out = append(out, lineOf(text, at[0])+"a name that belongs to others: "+string(text[at[0]:at[1]]))
	}
	for _, m := range strange.FindAllSubmatchIndex(text, -1) {
		for i := 2; i < len(m); i += 2 {
			if m[i] >= 0 {
				out = append(out, lineOf(text, m[i])+`"`+string(text[m[i]:m[i+1]])+`" means nothing to a stranger`)
			}
		}
	}
	prose := text
	switch {
	case strings.Contains("/"+path, "/testdata/"):
		return out // input may be spelt as people spell
	case strings.HasSuffix(path, ".go"):
		prose = comments(text)
	case !strings.HasSuffix(path, ".md") && !strings.HasSuffix(path, ".txt") && !strings.HasSuffix(path, ".yaml"):
		return out
	}
	for _, at := range singleWord.FindAllIndex(bytes.ToLower(prose), -1) {
		got := strings.ToLower(string(prose[at[0]:at[1]]))
		if want := american[got]; want != "" {
			out = append(out, lineOf(prose, at[0])+got+": "+want)
		}
	}
	return out
}

// names finds unsaid names of up to three words, whatever stands between them.
func (w wording) names(text []byte) [][2]int {
	var found [][2]int
	words := word.FindAllIndex(text, -1)
	for i := range words {
		name := ""
		for n := i; n < len(words) && n < i+3; n++ {
			name = strings.TrimSpace(name + " " + strings.ToLower(string(text[words[n][0]:words[n][1]])))
			if w.isUnsaid(name) {
				found = append(found, [2]int{words[i][0], words[n][1]})
			}
		}
	}
	return found
}

func (w wording) isUnsaid(name string) bool {
	if len(name) > 24 {
		return false
	}
	unsaid, ok := w.known[name]
	if !ok {
		unsaid = w.unsaid[unsaidHash(name)]
		w.known[name] = unsaid
	}
	return unsaid
}

func unsaidHash(name string) string {
	sum := sha256.Sum256([]byte("say it plainly: " + name))
	return hex.EncodeToString(sum[:8])
}

func readUnsaid(t *testing.T) map[string]bool {
	t.Helper()
	text, err := os.ReadFile("testdata/wording/unsaid.txt")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]bool{}
	for line := range strings.Lines(string(text)) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			out[line] = true
		}
	}
	return out
}

// comments blanks everything in Go source but its comments, keeping lines.
func comments(src []byte) []byte {
	out := bytes.Repeat([]byte{' '}, len(src))
	for i, b := range src {
		if b == '\n' {
			out[i] = '\n'
		}
	}
	fset := token.NewFileSet()
	file := fset.AddFile("", fset.Base(), len(src))
	var s scanner.Scanner
	s.Init(file, src, nil, scanner.ScanComments)
	for {
		pos, tok, lit := s.Scan()
		if tok == token.EOF {
			return out
		}
		if tok == token.COMMENT {
			copy(out[file.Offset(pos):], lit)
		}
	}
}

// lineOf returns where an offset stands, "line 3: ".
func lineOf(text []byte, offset int) string {
	n := bytes.Count(text[:offset], []byte{'\n'}) + 1
	return "line " + strconv.Itoa(n) + ": "
}
