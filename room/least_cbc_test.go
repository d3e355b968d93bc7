package room_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"roomful"
)

// TestTurnsCBC compares rooms too large to try everything with CBC of the COIN-OR
// project (Forrest and Lougee-Heimer 2005, doi 10.1287/educ.1053.0020). There the
// discs of a bar are all that any who share it put on, and stay with it.
func TestTurnsCBC(t *testing.T) {
	if _, err := exec.LookPath("cbc"); err != nil {
		t.Skip("cbc is not installed: apt-get install coinor-cbc")
	}
	closed := 0
	for seed := range uint64(6) {
		q := sharers(12, seed)
		a := answer(t, q)
		shared := slices.ContainsFunc(a.Bars, func(b roomful.LoadedBar) bool { return len(b.With) > 0 })
		if !shared || len(a.Short) > 0 && a.Short[0].What == "bar" {
			t.Fatalf("seed %d: nobody shares, or bars are short: %v", seed, a.Short)
		}
		best := cbc(t, sharedProgram(q, a))
		if a.Bound > best+1e-4 || a.Deviation < best-1e-4 || a.Proven != (a.Bound == a.Deviation) {
			t.Errorf("seed %d: %v off, bound %v, proven %v; cbc %v", seed, a.Deviation, a.Bound, a.Proven, best)
		}
		if a.Bound > best-1e-4 {
			closed++
		}
	}
	if closed == 0 {
		t.Error("no bound comes up to the best")
	}
}

// sharers makes up a class of n with three bars for every four people, who lift
// loads that can be shared, and fewer discs than they would like.
func sharers(n int, seed uint64) roomful.BarQuestion {
	rng := rand.New(rand.NewPCG(seed, 0))
	q := roomful.BarQuestion{SleevePlates: 6, Rack: []roomful.Stock{{Mass: roomful.Kg(20), Count: 3 * n / 4}}}
	for _, kg := range []float64{20, 15, 10, 5, 2.5, 1.25} {
		q.Plates = append(q.Plates, roomful.Stock{Mass: roomful.Kg(kg), Count: 2 * (1 + rng.IntN(n/2))})
	}
	for i := range n {
		w := wanted(strconv.Itoa(i), roomful.Kg(20), roomful.Kg(50+2.5*float64(rng.IntN(25))))
		w.MayShare, w.Weight = true, float64(1+rng.IntN(3))
		q.Wanted = append(q.Wanted, w)
	}
	return q
}

// sharedProgram writes the loading of an answer's bars as a mixed-integer program:
// x discs of a kind on a side for each person, y pairs with each bar.
func sharedProgram(q roomful.BarQuestion, a roomful.BarAnswer) string {
	var goal, rows, whole strings.Builder
	stock := make([]string, len(q.Plates))
	for i, b := range a.Bars {
		bar := slices.Min(append([]string{b.Name}, b.With...))
		load, many := "", ""
		for j, p := range q.Plates {
			load += fmt.Sprintf(" + %g x%d_%d", 2*p.Mass.Kg(), i, j)
			many += fmt.Sprintf(" + x%d_%d", i, j)
			fmt.Fprintf(&rows, "g%d_%d: y%s_%d - x%d_%d >= 0\n", i, j, bar, j, i, j)
			fmt.Fprintf(&whole, " x%d_%d\n", i, j)
			if bar == b.Name {
				stock[j] += fmt.Sprintf(" + y%s_%d", bar, j)
				fmt.Fprintf(&whole, " y%s_%d\n", bar, j)
			}
		}
		fmt.Fprintf(&goal, " + %g u%d + %g o%d", b.Weight, i, b.Weight, i)
		fmt.Fprintf(&rows, "d%d: %s + u%d - o%d = %g\n", i, load, i, i, b.Target.Kg()-b.Bar.Kg())
		fmt.Fprintf(&rows, "s%d: %s <= %d\n", i, many, q.SleevePlates)
	}
	for j, p := range q.Plates {
		fmt.Fprintf(&rows, "n%d: %s <= %d\n", j, stock[j], p.Count/2)
	}
	return "Minimize\n obj:" + goal.String() + "\nSubject To\n" + rows.String() + "General\n" + whole.String() + "End\n"
}

var cbcSays = regexp.MustCompile(`(?m)^Objective value: +([-\d.e+]+)$`)

// cbc solves a program to the end.
func cbc(t *testing.T, program string) float64 {
	t.Helper()
	file := filepath.Join(t.TempDir(), "shared.lp")
	if err := os.WriteFile(file, []byte(program), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("cbc", file, "sec", "20", "ratio", "0", "allow", "1e-9", "solve").CombinedOutput()
	m := cbcSays.FindSubmatch(out)
	if err != nil || m == nil || !bytes.Contains(out, []byte("Optimal solution found")) {
		t.Skipf("cbc does not prove its answer: %v\n%s", err, out)
	}
	v, err := strconv.ParseFloat(string(m[1]), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
