package main

import (
	"archive/zip"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful/store"
	"roomful/store/postgres/pgtest"
	"roomful/store/sqlite"
)

// places are the databases that a gym may be kept in, as the flags that say so.
var places = map[string]func(*testing.T) []string{
	"a file":   func(t *testing.T) []string { return []string{"--data", filepath.Join(t.TempDir(), "gym")} },
	"a server": func(t *testing.T) []string { return []string{"--database", pgtest.Database(t)} },
}

// TestGym makes a gym by script in each database: brought in from files, its owner and a
// member let in, a score sent twice and read back, all of it backed up. Restored into
// either database it is the same gym, to the row, to the file and to whoever is still
// signed in.
func TestGym(t *testing.T) {
	for _, from := range slices.Sorted(maps.Keys(places)) {
		t.Run("in "+from, func(t *testing.T) {
			at := places[from](t)
			archive := filepath.Join(t.TempDir(), "gym.zip")
			r, seen := liveADay(t, at)
			do(t, append([]string{"backup", archive}, at...)...)
			for _, to := range slices.Sorted(maps.Keys(places)) {
				t.Run("restored into "+to, func(t *testing.T) { sameElsewhere(t, r, seen, archive, at, places[to](t)) })
			}
		})
	}
}

// liveADay is the script. It returns the server, which has ended, and what the owner saw
// of the day's scores.
func liveADay(t *testing.T, at []string) (r *running, seen map[string]any) {
	t.Helper()
	do(t, append([]string{"import", "../../demo"}, at...)...)
	r = serving(t, append([]string{"serve"}, at...)...)
	if len(r.said.Links) != 1 {
		t.Fatalf("links %v", r.said.Links)
	}
	r.comeIn("owner", r.said.Links["the owner of The Drying Floor"])
	link := r.ask("owner", "POST", "/invitations", `{"role":"member","person":"rhona"}`)["link"].(string)
	r.comeIn("rhona", r.said.Address+link)
	r.ask("owner", "POST", "/sheets/drip-drop/editions", `{}`) // it lies ahead: published, a member may see it
	score := `{"id":"01930000-0000-7000-8000-000000000001","sheet":"drip-drop","day":"2027-02-03","text":"14+20, shoulder grumpy"}`
	first := r.ask("rhona", "POST", "/scores", score)
	if second := r.ask("rhona", "POST", "/scores", score); fmt.Sprint(first) != fmt.Sprint(second) {
		t.Errorf("sent twice: %v", second)
	}
	typed, err := os.ReadFile("../../demo/attempts.csv")
	if err != nil {
		t.Fatal(err)
	}
	if all, want := r.ask("rhona", "GET", "/record/rhona", "")["scores"].([]any), strings.Count(string(typed), "\nRhona,")+1; len(all) != want {
		t.Errorf("%d scores of Rhona's, want %d", len(all), want)
	}
	seen = r.ask("owner", "GET", "/sheets/drip-drop/scores", "")
	r.end()
	for _, word := range []string{"grumpy", "Rhona", "rhona", strings.TrimPrefix(link, "/in/")} {
		if strings.Contains(r.stderr.String(), word) {
			t.Errorf("the log says %q", word)
		}
	}
	return r, seen
}

// sameElsewhere restores a gym and holds it against the one it came from.
func sameElsewhere(t *testing.T, r *running, seen map[string]any, archive string, from, to []string) {
	t.Helper()
	do(t, append([]string{"restore", archive}, to...)...)
	again := filepath.Join(t.TempDir(), "again.zip")
	do(t, append([]string{"backup", again}, to...)...)
	a, b := unpacked(t, archive), unpacked(t, again)
	for _, name := range slices.Sorted(maps.Keys(a)) {
		if a[name] != b[name] {
			t.Errorf("%s is not the same elsewhere", name)
		}
	}
	if len(a) != len(b) || strings.Count(a["attempts.jsonl"], "shoulder grumpy") == 0 {
		t.Errorf("%d and %d files", len(a), len(b))
	}
	one, other := filepath.Join(t.TempDir(), "one"), filepath.Join(t.TempDir(), "other")
	do(t, append([]string{"export", one}, from...)...)
	do(t, append([]string{"export", other}, to...)...)
	if a, b := written(t, one), written(t, other); !maps.Equal(a, b) || len(a) < 10 {
		t.Errorf("files are not the same elsewhere: %d and %d", len(a), len(b))
	} else if strings.Count(a["attempts.csv"], "shoulder grumpy") != 1 {
		t.Error("the score is not there once")
	}
	if said := do(t, append([]string{"doctor"}, to...)...); !strings.Contains(said, "no damage found") {
		t.Errorf("doctor: %s", said)
	}
	there := serving(t, append([]string{"serve"}, to...)...)
	if len(there.said.Links) != 0 {
		t.Errorf("a second first owner: %v", there.said.Links)
	}
	there.keep("owner", r)
	if got := there.ask("owner", "GET", "/sheets/drip-drop/scores", ""); fmt.Sprint(got) != fmt.Sprint(seen) {
		t.Errorf("the owner, still signed in, sees %v", got)
	}
	there.end()
}

// unpacked is what is in an archive, by name.
func unpacked(t *testing.T, name string) map[string]string {
	t.Helper()
	z, err := zip.OpenReader(name)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	out := map[string]string{}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name] = string(text)
	}
	return out
}

// written is what is in a folder, by name.
func written(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		out[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestExportStaysInside: a sheet whose name is a path, as an archive of somebody else's
// making may have it, is written nowhere else.
func TestExportStaysInside(t *testing.T) {
	dir := t.TempDir()
	data, out := filepath.Join(dir, "gym"), filepath.Join(dir, "a", "b")
	do(t, "import", "../../demo", "--data", data)
	s, err := sqlite.Open(t.Context(), data)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Update(t.Context(), store.By{At: time.Now()}, func(tx *store.Tx) error {
		gyms, err := tx.Gyms()
		if err != nil {
			return err
		}
		_, _, err = tx.In(gyms[0].ID).Save(store.Document{ID: "evil", Kind: store.Sheet, Name: "../../../evil", Text: "x"})
		return err
	}); err != nil {
		t.Fatal(err)
	}
	s.Close()
	m := &Main{Args: []string{"export", out, "--data", data}, Stdin: strings.NewReader(""), Stdout: io.Discard, Stderr: io.Discard, Now: time.Now}
	if code := m.Run(t.Context()); code != exitOutside {
		t.Errorf("ended with %d", code)
	}
	for name := range written(t, dir) {
		if strings.Contains(name, "evil") {
			t.Errorf("%s is written", name)
		}
	}
}
