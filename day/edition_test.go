package day_test

import (
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"hash"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"roomful"
	"roomful/day"
	"roomful/exchange"
)

// TestRecall leaves out an emulator that cannot be read: it can be made again.
func TestRecall(t *testing.T) {
	g := open(t)
	if got := g.Recall(map[string][]byte{"main": []byte("no emulator")}); len(got) != 0 {
		t.Errorf("recalled %v", got)
	}
}

var update = flag.Bool("update", false, "write down what the editions answer")

// TestEditions holds what is answered to the edition that it is kept under: a sheet read
// otherwise, a forecast or an ability that comes out otherwise, asks for the next one.
func TestEditions(t *testing.T) {
	const file = "testdata/editions.txt"
	g := open(t)
	read, model := sha256.New(), sha256.New()
	for _, name := range slices.Sorted(maps.Keys(g.sheets)) {
		session, ds := g.Check(t.Context(), g.sheets[name])
		if err := json.NewEncoder(read).Encode(exchange.CheckOf(session, ds, g.Lexicon)); err != nil {
			t.Fatal(err)
		}
		q := g.question(session)
		q.People, q.Runs = q.People[:3], 16
		f, err := g.Forecast(t.Context(), q, true)
		if err != nil {
			continue // a piece that nobody forecasts
		}
		for _, a := range f.Athletes {
			fmt.Fprintf(model, "%s %.3g %.3g %.3g\n", name, a.Score.P05, a.Score.P50, a.Score.P95)
		}
	}
	_, abilities := learnt(t, odo, roomful.Date{Year: 2027, Month: 3, Day: 10}, "10:30 as written", "10:05 with 16 kg")
	for _, d := range abilities.Dims {
		fmt.Fprintf(model, "%s %.3g %.3g\n", d.Capacity, d.Centre, d.SD())
	}
	sum := func(h hash.Hash) string { return fmt.Sprintf("%x", h.Sum(nil)[:8]) }
	now := fmt.Sprintf("notation %s %s\nmodel %s %s\n", day.NotationEdition, sum(read), day.ModelEdition, sum(model))
	if *update {
		if err := os.WriteFile(file, []byte(now), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	was, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(was) == now {
		return
	}
	next := "count the edition in day/edition.go up"
	for line := range strings.Lines(string(was)) {
		if f := strings.Fields(line); len(f) == 3 && (f[0] == "notation" && f[1] != day.NotationEdition || f[0] == "model" && f[1] != day.ModelEdition) {
			next = "write it down with go test ./day -run TestEditions -update"
		}
	}
	t.Errorf("the same questions have other answers: %s\nwas\n%snow\n%s", next, was, now)
}
