package deal_test

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roomful/room/internal/deal"
)

// one is an option that takes so many of one thing.
func one(thing, count, loss int) deal.Option {
	return deal.Option{Takes: []deal.Take{{Thing: thing, Count: count}}, Loss: loss}
}

// TestOut works small deals by hand.
func TestOut(t *testing.T) {
	for _, c := range []struct {
		what   string
		have   []int
		people [][]deal.Option
		want   int
	}{
		{"nobody", []int{1}, nil, 0},
		{"enough for all", []int{4}, [][]deal.Option{{one(0, 2, 0)}, {one(0, 2, 0), {Loss: 9}}}, 0},
		{"one pair for two: who loses less gives way", []int{2, 2},
			[][]deal.Option{{one(0, 2, 0), one(1, 2, 4)}, {one(0, 2, 0), one(1, 2, 1)}}, 1},
		{"a chain: the second moves so that the first can", []int{1, 1, 1},
			[][]deal.Option{{one(0, 1, 0), one(1, 1, 1)}, {one(1, 1, 0), one(2, 1, 1)}, {one(0, 1, 0), {Loss: 100}}}, 2},
		{"half a pair is no pair", []int{3}, [][]deal.Option{{one(0, 2, 0), {Loss: 7}}, {one(0, 2, 0), {Loss: 8}}}, 7},
	} {
		if got := deal.Out(c.have, c.people); got.Loss != c.want || got.Bound != c.want || len(got.Chosen) != len(c.people) {
			t.Errorf("%s: %+v, want a loss of %d", c.what, got, c.want)
		}
	}
}

// some draws a deal in which everybody has an option that takes nothing.
func some(t *rapid.T, most int) ([]int, [][]deal.Option) {
	have := rapid.SliceOfN(rapid.IntRange(0, 6), 1, 4).Draw(t, "have")
	people := make([][]deal.Option, rapid.IntRange(0, most).Draw(t, "people"))
	for i := range people {
		for range rapid.IntRange(0, 3).Draw(t, "options") {
			o := one(rapid.IntRange(0, len(have)-1).Draw(t, "thing"), rapid.IntRange(1, 2).Draw(t, "count"), rapid.IntRange(0, 20).Draw(t, "loss"))
			if other := rapid.IntRange(0, len(have)).Draw(t, "and"); other < len(have) && other != o.Takes[0].Thing {
				o.Takes = append(o.Takes, deal.Take{Thing: other, Count: 1})
			}
			people[i] = append(people[i], o)
		}
		people[i] = append(people[i], deal.Option{Loss: 100})
	}
	return have, people
}

// least tries every deal.
func least(left []int, people [][]deal.Option) int {
	if len(people) == 0 {
		return 0
	}
	best := math.MaxInt / 2
	for _, o := range people[0] {
		rest, ok := make([]int, len(left)), true
		copy(rest, left)
		for _, t := range o.Takes {
			rest[t.Thing] -= t.Count
			ok = ok && rest[t.Thing] >= 0
		}
		if ok {
			best = min(best, o.Loss+least(rest, people[1:]))
		}
	}
	return best
}

// TestAgainstEveryDeal: the loss is the least of all deals, what is chosen is
// there and adds up to it.
func TestAgainstEveryDeal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		have, people := some(t, 6)
		got := deal.Out(have, people)
		if want := least(have, people); got.Loss != want || got.Bound != want {
			t.Fatalf("loss %d, bound %d, want %d", got.Loss, got.Bound, want)
		}
		loss := 0
		for i, j := range got.Chosen {
			loss += people[i][j].Loss
			for _, one := range people[i][j].Takes {
				if have[one.Thing] -= one.Count; have[one.Thing] < 0 {
					t.Fatalf("more than there is of thing %d", one.Thing)
				}
			}
		}
		if loss != got.Loss {
			t.Fatalf("chosen adds up to %d, said %d", loss, got.Loss)
		}
	})
}

// TestAgainstSolver solves classes of 26 with the GNU linear programming kit too.
func TestAgainstSolver(t *testing.T) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		t.Skip("glpsol is not installed: apt-get install glpk-utils")
	}
	for seed := range 12 {
		have, people := rack(seed)
		got := deal.Out(have, people)
		if want := glpsol(t, have, people); got.Loss != want || got.Bound != want {
			t.Errorf("class %d: loss %d, bound %d, the solver says %d", seed, got.Loss, got.Bound, want)
		}
	}
}

// rack is 26 people who want pairs of eight weights, three of each, in bands about
// the middle: more than there are.
func rack(seed int) (have []int, people [][]deal.Option) {
	for i := range 8 {
		have = append(have, 2*(2+(seed+i)%3))
	}
	for i := range 26 {
		want := 2 + (i*7+seed*3)%5
		var options []deal.Option
		for d := range 1 + (i+seed)%4 {
			if want-d >= 0 {
				options = append(options, one(want-d, 1+(i+seed/2)%2, d*d))
			}
		}
		people = append(people, append(options, deal.Option{Loss: 1000}))
	}
	return have, people
}

var objective = regexp.MustCompile(`Objective: +\S+ = (\d+)`)

// glpsol solves a deal with a general solver for whole numbers.
func glpsol(t *testing.T, have []int, people [][]deal.Option) int {
	t.Helper()
	var goal, rows, names strings.Builder
	uses := make([]string, len(have))
	for i, options := range people {
		fmt.Fprintf(&rows, "p%d:", i)
		for j, o := range options {
			fmt.Fprintf(&goal, " + %d x%d_%d", o.Loss, i, j)
			fmt.Fprintf(&rows, " + x%d_%d", i, j)
			fmt.Fprintf(&names, " x%d_%d\n", i, j)
			for _, one := range o.Takes {
				uses[one.Thing] += fmt.Sprintf(" + %d x%d_%d", one.Count, i, j)
			}
		}
		rows.WriteString(" = 1\n")
	}
	for n, use := range uses {
		if use != "" {
			fmt.Fprintf(&rows, "h%d:%s <= %d\n", n, use, have[n])
		}
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "deal.lp"), filepath.Join(dir, "deal.txt")
	text := "Minimize\n obj:" + goal.String() + "\nSubject To\n" + rows.String() + "Binary\n" + names.String() + "End\n"
	if err := os.WriteFile(in, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command("glpsol", "--lp", in, "-o", out).CombinedOutput(); err != nil {
		t.Fatalf("glpsol: %v\n%s", err, said)
	}
	answer, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	m := objective.FindSubmatch(answer)
	if m == nil {
		t.Fatalf("glpsol says no objective:\n%s", answer)
	}
	n, _ := strconv.Atoi(string(m[1]))
	return n
}

// BenchmarkOut deals out eight weights to 26 people.
func BenchmarkOut(b *testing.B) {
	have, people := rack(1)
	for b.Loop() {
		deal.Out(have, people)
	}
}
