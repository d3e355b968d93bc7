package roomful_test

import (
	"errors"
	"flag"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write what the README's commands print into the README")

// consoleBlock is a fenced block whose lines after "$ " are commands and whose
// other lines are what they print.
var consoleBlock = regexp.MustCompile("(?ms)^```console\n(.*?)^```$")

// TestReadme runs every command in the README's console blocks and compares
// what it prints. A line "…" stands for any number of lines.
func TestReadme(t *testing.T) {
	if _, err := os.Stat("cmd/roomful"); errors.Is(err, fs.ErrNotExist) {
		t.Skip("there is no command yet")
	}
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	bin := filepath.Join(t.TempDir(), "roomful")
	if out, err := exec.Command("go", "build", "-o", bin, "./cmd/roomful").CombinedOutput(); err != nil {
		t.Fatalf("building the command: %v\n%s", err, out)
	}
	n := 0
	got := consoleBlock.ReplaceAllStringFunc(string(text), func(block string) string {
		var b strings.Builder
		b.WriteString("```console\n")
		body := strings.TrimSuffix(strings.TrimPrefix(block, "```console\n"), "```")
		for _, step := range strings.Split("\n"+body, "\n$ ")[1:] {
			n++
			command, want, _ := strings.Cut(step, "\n")
			printed := runShown(t, bin, command)
			if matches(textLines(want), textLines(printed)) {
				printed = want
			}
			b.WriteString("$ " + command + "\n" + strings.TrimSuffix(printed, "\n") + "\n")
		}
		return b.String() + "```"
	})
	if n == 0 {
		t.Error("the README shows no command with its output")
	}
	if *update {
		if err := os.WriteFile("README.md", []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(string(text), got); diff != "" {
		t.Errorf("README.md shows (-) what the commands no longer print (+); go test -run TestReadme -update . writes it:\n%s", diff)
	}
}

// runShown runs a command as the README shows it, with the command built once.
func runShown(t *testing.T, bin, command string) string {
	t.Helper()
	shell := exec.Command("sh", "-c", strings.ReplaceAll(command, "go run ./cmd/roomful", bin))
	out, err := shell.CombinedOutput()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) || exit != nil && exit.ExitCode() != 1 {
		t.Errorf("%s: %v\n%s", command, err, out)
	}
	return string(out)
}

// matches reports whether the lines printed are those shown, a line "…"
// standing for any number of them.
func matches(shown, printed []string) bool {
	switch {
	case len(shown) == 0:
		return len(printed) == 0
	case shown[0] != "…":
		return len(printed) > 0 && shown[0] == printed[0] && matches(shown[1:], printed[1:])
	}
	for i := range len(printed) + 1 {
		if matches(shown[1:], printed[i:]) {
			return true
		}
	}
	return false
}

func textLines(s string) []string { return strings.Split(strings.TrimSpace(s), "\n") }

func TestMatches(t *testing.T) {
	for _, c := range []struct {
		shown, printed string
		want           bool
	}{
		{"a\nb", "a\nb\n", true},
		{"a", "a\nb", false},
		{"b", "a\nb", false},
		{"a\n…\nd", "a\nb\nc\nd", true},
		{"a\n…\nd", "a\nb\nc\nd\ne", false},
		{"a\n…", "a\nb\nc", true},
		{"a\n…\nd", "a\nd", true},
		{"…\nd", "a\nbd", false},
		{"…\nc", "a\nb\nc", true},
		{"…\nc", "a\nb", false},
	} {
		if got := matches(textLines(c.shown), textLines(c.printed)); got != c.want {
			t.Errorf("matches(%q, %q) = %v", c.shown, c.printed, got)
		}
	}
}

var (
	link      = regexp.MustCompile(`\]\(([^)#:]+)(#[^)]*)?\)`)
	benchLine = regexp.MustCompile(`go test .*-bench (\w+).* \./(\S+?)[` + "`" + `\s]`)
)

// TestDocs checks that what the documents point at is there: files, and the
// benchmarks they name.
func TestDocs(t *testing.T) {
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".md" {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		for _, m := range link.FindAllStringSubmatch(string(text), -1) {
			if _, err := os.Stat(filepath.Join(filepath.Dir(path), m[1])); err != nil {
				t.Errorf("%s points at %s, which is not there", path, m[1])
			}
		}
		for _, m := range benchLine.FindAllStringSubmatch(string(text), -1) {
			if !hasBenchmark(t, m[2], m[1]) {
				t.Errorf("%s names a benchmark %s in ./%s, which is not there", path, m[1], m[2])
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// hasBenchmark reports whether a folder's tests have a benchmark whose name
// holds name.
func hasBenchmark(t *testing.T, dir, name string) bool {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	named := regexp.MustCompile(`(?m)^func Benchmark\w*` + name)
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if named.Match(text) {
			return true
		}
	}
	return false
}
