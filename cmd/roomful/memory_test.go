package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestTroubleIsOutside: when a gym can be opened and then not used, the file is at
// fault, and not what was asked: the exit code says so.
func TestTroubleIsOutside(t *testing.T) {
	dir := t.TempDir()
	ask(t, exitDone, "import", gymFolder(t), "--data", dir)
	ask(t, exitFaults, "export", filepath.Join(t.TempDir(), "out"), "--data", dir, "--gym", "another")
	file := filepath.Join(dir, "roomful.db")
	whole, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const page = 4096
	at := bytes.Index(whole, []byte("main: as many rounds")) / page * page // one that holds sheets
	if at <= 0 {
		t.Fatal("there is no sheet in the file")
	}
	copy(whole[at:at+page], bytes.Repeat([]byte{0xff}, page))
	if err := os.WriteFile(file, whole, 0o600); err != nil {
		t.Fatal(err)
	}
	got := ask(t, exitOutside, "export", filepath.Join(t.TempDir(), "out"), "--data", dir)
	said, _ := got["error"].(map[string]any)
	if text := strings.Join([]string{asText(said["summary"]), asText(said["hint"])}, "; "); !strings.Contains(text, "damaged") || !strings.Contains(text, "restore the last backup") {
		t.Errorf("%v, want that the file is damaged and what to do", got)
	}
}

// asText is a text in an answer.
func asText(v any) string {
	s, _ := v.(string)
	return s
}
