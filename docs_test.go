package roomful_test

import (
	"errors"
	"flag"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write what the README's commands print into the README")

// consoleBlock is a fenced block whose lines after "$ " are commands and whose
// other lines are what they print.
var consoleBlock = regexp.MustCompile("(?ms)^```console\n(.*?)^```$")

// TestReadme runs every command in the README's console blocks and compares
// what it prints with what is shown. A paragraph "…" stands for what is left out.
func TestReadme(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("the README's figures are those of amd64: others round differently")
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
			b.WriteString("$ " + command + "\n" + excerpt(t, want, runShown(t, bin, command)) + "\n")
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

// skipped is the paragraph of a shown text that stands for any number of
// others.
const skipped = "…"

// excerpt brings what is shown of a command up to date with what it prints:
// all of it or, when paragraphs are skipped, those that begin like the ones
// shown.
func excerpt(t *testing.T, shown, printed string) string {
	t.Helper()
	want, rest := paragraphs(shown), paragraphs(printed)
	if !slices.Contains(want, skipped) {
		return strings.Join(rest, "\n\n")
	}
	for i, p := range want {
		if p == skipped {
			continue
		}
		at := slices.IndexFunc(rest, func(r string) bool { return head(r) == head(p) })
		if at < 0 {
			t.Errorf("the README shows what is printed no longer: %s", p)
			continue
		}
		want[i], rest = rest[at], rest[at+1:]
	}
	return strings.Join(want, "\n\n")
}

func paragraphs(s string) []string { return strings.Split(strings.Trim(s, "\n"), "\n\n") }

// head returns what a paragraph is known by: its first line up to a colon, or
// nothing when that is only figures, such as a scale.
func head(paragraph string) string {
	line, _, _ := strings.Cut(paragraph, "\n")
	if !strings.ContainsFunc(line, unicode.IsLetter) {
		return ""
	}
	line, _, _ = strings.Cut(line, ":")
	return line
}

func TestExcerpt(t *testing.T) {
	for _, c := range []struct{ shown, printed, want string }{
		{"old", "a\n\nb\n", "a\n\nb"},
		{"a\n\n…", "a\nnew\n\nb\n", "a\nnew\n\n…"},
		{"…\n\nb: 1\n\n…", "a\n\nb: 2\nc\n\nd\n", "…\n\nb: 2\nc\n\n…"},
		{"…\n\n 1  5:00\nb\n\n…", "a\n\n 2  7:30\nc\n\nd\n", "…\n\n 2  7:30\nc\n\n…"},
	} {
		if got := excerpt(t, c.shown, c.printed); got != c.want {
			t.Errorf("excerpt(%q, %q) = %q, want %q", c.shown, c.printed, got, c.want)
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
