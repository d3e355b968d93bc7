package main

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestServedLearning serves a gym that was brought in: it learns from its scores by
// itself, from the next one once it is posted, and says so.
func TestServedLearning(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"gym.yaml":        "name: G\n",
		"people.csv":      "id,name,division,mass_kg\nmo,Mo,a,82\nbo,Bo,b,64\n",
		"sheets/drip.txt": "Drip\n2026-01-05, 60 min\n\nmain: 5 rounds for time\n  200 m run\n  10 burpees\n  15 air squats\n",
		"attempts.csv":    "name,date,sheet,text\nMo,2026-01-05,drip,11:30\nBo,2026-01-05,drip,13:05\n",
	} {
		path := filepath.Join(dir, "files", name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	data := filepath.Join(dir, "gym")
	do(t, "import", filepath.Join(dir, "files"), "--data", data)
	r := serving(t, "serve", "--data", data)
	for _, link := range r.said.Links {
		r.comeIn("owner", link)
	}
	wait := func(what string, so func() bool) {
		t.Helper()
		for end := time.Now().Add(time.Minute); !so(); time.Sleep(50 * time.Millisecond) {
			if time.Now().After(end) {
				t.Fatalf("waited in vain for %s: %s", what, r.stderr)
			}
		}
	}
	wait("the first night", func() bool {
		l := r.ask("owner", "GET", "/learning", "")
		return l["percent"] == 100.0 && l["done_at"] != nil && l["waiting"] == 0.0
	})
	told := func() string { return fmt.Sprint(r.ask("owner", "GET", "/abilities/mo", "")) }
	before := told()
	if !strings.Contains(before, "Drip, 2026-01-05") {
		t.Errorf("learnt from the files: %s", before)
	}
	today := time.Now().Format(time.DateOnly) // the gym's zone is the machine's
	text := "Today\n" + today + ", 60 min\n\nmain: as many rounds as possible in 12 min\n  10 burpees\n  15 air squats\n"
	sent, _ := json.Marshal(map[string]any{"text": text})
	r.ask("owner", "PUT", "/sheets/today", string(sent))
	r.ask("owner", "POST", "/sheets/today/editions", `{"revision":1}`)
	given := func() string { return fmt.Sprint(r.ask("owner", "GET", "/sheets/today/versions", "")) }
	published := given()
	r.ask("owner", "POST", "/scores", `{"id":"s1","person":"mo","sheet":"drip","day":"2026-02-02","text":"10:20"}`)
	wait("the score that was posted", func() bool { return strings.Contains(told(), "Drip, 2026-02-02") })
	if after := given(); after != published {
		t.Errorf("what was published became %s, was %s", after, published)
	}
	r.ask("owner", "POST", "/sheets/today/editions", `{"revision":1,"again":true}`)
	if after := given(); after == published {
		t.Errorf("published again after a score it is still %s", after)
	}
	got, err := http.Get(r.said.Address + "/metrics")
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	counted, _ := io.ReadAll(got.Body)
	for _, kind := range []string{"learn", "night", "round"} {
		if !strings.Contains(string(counted), `roomful_jobs_duration_seconds_count{ended="well",kind="`+kind+`"}`) {
			t.Errorf("nothing is told of %s: %s", kind, counted)
		}
	}
	r.end()
}
