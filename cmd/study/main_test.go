package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// calls runs the command and returns what it says.
func calls(args ...string) (code int, out, aside string) {
	var o, a bytes.Buffer
	code = run(context.Background(), args, &o, &a)
	return code, o.String(), a.String()
}

func TestExitCodes(t *testing.T) {
	for _, c := range []struct {
		args string
		code int
		says string // on either stream
	}{
		{"--help", exitKept, "refit"},
		{"--people 10 --set Sprint=90", exitBroken, "MISS"},
		{"--people 1", exitUsage, "--people 1"},
		{"--workers=-1", exitUsage, "--workers -1: ask"},
		{"--set Gumption=1", exitUsage, "hint: doc/constants.md names them all"},
		{"--set Sprint=fast", exitUsage, "hint: --help"},
		{"guess", exitUsage, "hint: --help"},
		{"--people 10 --write --document nowhere/else.md", exitOutside, "hint: run it where go.mod is"},
	} {
		code, out, aside := calls(strings.Fields(c.args)...)
		if code != c.code || !strings.Contains(out+aside, c.says) {
			t.Errorf("study %s exits with %d, says %q and %q", c.args, code, out, aside)
		}
	}
}

func TestJSON(t *testing.T) {
	code, out, aside := calls("--json", "--people", "10", "refit", "--quick")
	if !json.Valid([]byte(out)) || code != exitKept || !strings.Contains(aside, "without thomas-2004") {
		t.Errorf("study refit exits with %d, says %q and prints %.80q", code, aside, out)
	}
}

// The document is brought up to date between its marks and nowhere else.
func TestWrite(t *testing.T) {
	file := filepath.Join(t.TempDir(), "doc.md")
	const before, after = "kept\n<!-- comparison: written by go run ./cmd/study --write -->\n", "<!-- comparison: end -->\nkept\n"
	if err := os.WriteFile(file, []byte(before+"old\n"+after), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, aside := calls("--people", "10", "--write", "--document", file); code > exitBroken {
		t.Fatalf("exits with %d: %s", code, aside)
	}
	got, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	text := string(got)
	if !strings.HasPrefix(text, before) || !strings.HasSuffix(text, after) || strings.Contains(text, "\nold\n") {
		t.Errorf("the document reads %.200s", text)
	}
	if !strings.Contains(text, "10 people of each group; seed 1, and 4 more") {
		t.Error("the document does not say how many people and seeds")
	}
}
