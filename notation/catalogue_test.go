package notation_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful/catalogue"
	"roomful/notation"
)

// TestSpecWithCatalogue runs the suite with the real movements. What they are
// called is theirs to say, so the diagnostics and the meaning are compared, not
// the names printed, and a case about an unknown word is left out where the
// catalogue happens to know it.
func TestSpecWithCatalogue(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	small := newToy()
	files, _ := filepath.Glob("testdata/spec/*.txt")
	for _, file := range files {
		for _, c := range readCases(t, file) {
			t.Run(strings.TrimSuffix(filepath.Base(file), ".txt")+"/"+c.name, func(t *testing.T) {
				session, _ := notation.Read(c.source, lex)
				printed := notation.Print(session, lex)
				again, _ := notation.Read(printed, lex)
				if diff := cmp.Diff(printed, notation.Print(again, lex)); diff != "" {
					t.Errorf("no fixed point (-printed +printed again):\n%s", diff)
				}
				expected, _ := notation.Read(c.source, small)
				if diff := cmp.Diff(dump(expected, small), dump(session, lex)); diff != "" {
					t.Errorf("the two lexicons differ (-toy +catalogue):\n%s", diff)
				}
			})
		}
	}
}
