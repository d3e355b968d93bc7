package roomful_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

const module = "roomful"

// arrow is one row of the tables of doc/architecture.md.
type arrow struct {
	imports []string // packages of this module, by folder, "root" for the root
	outside []string // modules, without the host when it is the usual one
	planned bool
}

// listed is what go list tells of a package.
type listed struct {
	ImportPath, Dir string
	Imports         []string
}

func TestArrows(t *testing.T) {
	arrows := readArrows(t)
	seen := map[string]bool{}
	for _, p := range listPackages(t) {
		name := folder(p.ImportPath)
		seen[name] = true
		a, ok := arrows[name]
		switch {
		case !ok:
			t.Errorf("package %s has no row in doc/architecture.md: add one that says what it may import and what for", name)
			continue
		case a.planned:
			t.Errorf("package %s exists: move its row from Planned to the table above it", name)
		}
		for _, imp := range p.Imports {
			if why := a.forbids(imp); why != "" {
				t.Errorf("%s imports %s: %s", name, imp, why)
			}
		}
	}
	for name, a := range arrows {
		if !seen[name] && !a.planned {
			t.Errorf("doc/architecture.md has a row for %s, which does not exist", name)
		}
	}
}

// forbids says why an import may not be, or "" when it may.
func (a arrow) forbids(path string) string {
	first, _, _ := strings.Cut(path, "/")
	switch {
	case first == module:
		if !slices.Contains(a.imports, folder(path)) {
			return "no such arrow in doc/architecture.md"
		}
	case strings.Contains(first, "."):
		for _, m := range a.outside {
			if path == m || strings.HasPrefix(path, m+"/") || strings.HasPrefix(path, "github.com/"+m) {
				return ""
			}
		}
		return "not among the modules its row allows; see also doc/dependencies.md"
	}
	return ""
}

// folder turns an import path of this module into the name used in the table.
func folder(path string) string {
	if path == module {
		return "root"
	}
	return strings.TrimPrefix(path, module+"/")
}

// readArrows reads both tables of doc/architecture.md.
func readArrows(t *testing.T) map[string]arrow {
	t.Helper()
	text, err := os.ReadFile("doc/architecture.md")
	if err != nil {
		t.Fatal(err)
	}
	arrows := map[string]arrow{}
	planned := false
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "#") {
			planned = strings.Contains(line, "Planned")
		}
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		if len(cells) != 4 || strings.HasPrefix(cells[0], "-") {
			continue
		}
		if name := strings.TrimSpace(cells[0]); name != "package" {
			arrows[name] = arrow{words(cells[1]), words(cells[2]), planned}
		}
	}
	if len(arrows) < 10 {
		t.Fatalf("found only %d rows in doc/architecture.md: has the table changed its shape?", len(arrows))
	}
	return arrows
}

// words splits a cell at its commas.
func words(cell string) []string {
	var out []string
	for w := range strings.SplitSeq(cell, ",") {
		if w = strings.TrimSpace(w); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// listPackages asks the go command for every package of the module. It also
// opens their folders, so that a cached result is not reused once they change.
func listPackages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-e", "-json=ImportPath,Dir,Imports", "./...").Output()
	if err != nil {
		t.Fatal(err)
	}
	var all []listed
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		if _, err := os.ReadDir(p.Dir); err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}
