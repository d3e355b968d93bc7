package web_test

import (
	"bytes"
	"strings"
	"testing"

	"roomful/store"
	"roomful/store/sqlite"
)

// TestBackupServed restores elsewhere what an owner takes along while the gym is served:
// the score is there, and who is no owner gets nothing.
func TestBackupServed(t *testing.T) {
	g := open(t)
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20"})
	status, file, header := g.ask("owner", "GET", "/backup", nil)
	if status != 200 || header.Get("Content-Type") != "application/zip" || !strings.Contains(header.Get("Content-Disposition"), "2027-03-04.zip") {
		t.Fatalf("%d %v", status, header)
	}
	for _, who := range []string{"coach", "mo", "screen", ""} {
		if status, text, _ := g.ask(who, "GET", "/backup", nil); status == 200 || strings.Contains(text, "attempts.jsonl") {
			t.Errorf("%q gets %d", who, status)
		}
	}
	elsewhere, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer elsewhere.Close()
	if err := elsewhere.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error {
		if _, err := tx.Restore(bytes.NewReader([]byte(file)), int64(len(file))); err != nil {
			return err
		}
		a, err := tx.In("ours").Attempt("s1")
		if err == nil && a.Text != "5+20" {
			t.Errorf("the score is %+v", a)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
}
