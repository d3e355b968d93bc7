package exchange_test

import (
	"encoding/csv"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roomful"
	"roomful/exchange"
)

// TestQuoting holds the reader to RFC 4180 as the standard library writes it:
// whatever stands in a field comes back, quotes, separators and line ends too.
func TestQuoting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-z",;\n é]{0,8}x`), 1, 6, strings.TrimSpace).Draw(t, "ids")
		comma := rapid.SampledFrom([]rune{',', ';', '\t'}).Draw(t, "separator")
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.Comma, w.UseCRLF = comma, rapid.Bool().Draw(t, "crlf")
		if err := w.Write([]string{"id", "name"}); err != nil {
			t.Fatal(err)
		}
		for _, id := range ids {
			if err := w.Write([]string{id, "Oda"}); err != nil {
				t.Fatal(err)
			}
		}
		w.Flush()
		people, ds := exchange.ReadPeople(strings.NewReader(b.String()), newToy(), today)
		if len(ds) > 0 {
			t.Fatalf("%q: %v", b.String(), spots(ds))
		}
		var got, want []string
		for i, a := range people {
			got, want = append(got, a.ID), append(want, strings.TrimSpace(ids[i]))
		}
		if diff := cmp.Diff(want, got); diff != "" || len(people) != len(ids) {
			t.Fatalf("%q: %s", b.String(), diff)
		}
	})
}

// TestColumnOrderDoesNotMatter reads one person with the columns in any order.
func TestColumnOrderDoesNotMatter(t *testing.T) {
	columns := [][2]string{{"name", "Oda"}, {"division", "b"}, {"mass_lb", "150"}, {"squat_lb", "200"}, {"row_2k", "8:10"},
		{"skills", "pull-up;double-under:some"}, {"limits", "knee:2"}, {"home", "rope; dumbbell 10"}, {"months", "12.5"}}
	var first []roomful.Athlete
	for n := range 50 {
		rand.New(rand.NewPCG(uint64(n), 1)).Shuffle(len(columns), func(i, j int) { columns[i], columns[j] = columns[j], columns[i] })
		var head, row []string
		for _, c := range columns {
			head, row = append(head, c[0]), append(row, c[1])
		}
		got, ds := read(strings.Join(head, ",") + "\n" + strings.Join(row, ",") + "\n")
		if len(ds) > 0 {
			t.Fatal(spots(ds))
		}
		if first == nil {
			first = got
		}
		if diff := cmp.Diff(first, got); diff != "" {
			t.Fatalf("%v: %s", head, diff)
		}
	}
}
