package bars

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

// written writes a problem as a mixed-integer program in the LP format that
// most solvers read. Masses and costs are divided by unit.
func written(p Problem, unit float64) string {
	var goal, rows, whole strings.Builder
	for i, b := range p.Bars {
		var sides, many strings.Builder
		for j, z := range p.Sizes {
			fmt.Fprintf(&sides, " + %.17g x%d_%d", 2*float64(z.Mass)/unit, i, j)
			fmt.Fprintf(&many, " + x%d_%d", i, j)
			fmt.Fprintf(&whole, " x%d_%d\n", i, j)
		}
		fmt.Fprintf(&rows, "s%d: %s <= %d\n", i, many.String(), p.Sleeve)
		fmt.Fprintf(&rows, "c%d: %s <= %.17g\n", i, sides.String(), float64(b.Ceiling-b.Bare)/unit)
		for k, w := range b.Wants {
			fmt.Fprintf(&goal, " + %d u%d_%d + %d o%d_%d", w.Weight, i, k, w.Weight, i, k)
			fmt.Fprintf(&rows, "d%d_%d: %s + u%d_%d - o%d_%d = %.17g\n", i, k, sides.String(), i, k, i, k, float64(w.Target-b.Bare)/unit)
		}
	}
	for j, z := range p.Sizes {
		fmt.Fprintf(&rows, "n%d:", j)
		for i := range p.Bars {
			fmt.Fprintf(&rows, " + x%d_%d", i, j)
		}
		fmt.Fprintf(&rows, " <= %d\n", z.Pairs)
	}
	return "Minimize\n obj:" + goal.String() + "\nSubject To\n" + rows.String() + "General\n" + whole.String() + "End\n"
}

var cbcSays = regexp.MustCompile(`(?m)^(Objective value|Lower bound): +([-\d.e+]+)$`)

// cbc solves a problem with the COIN-OR branch and cut solver.
func cbc(t *testing.T, p Problem, unit float64, limit time.Duration) (cost float64, optimal bool) {
	t.Helper()
	if _, err := exec.LookPath("cbc"); err != nil {
		t.Skip("cbc is not installed: apt-get install coinor-cbc")
	}
	file := filepath.Join(t.TempDir(), "bars.lp")
	if err := os.WriteFile(file, []byte(written(p, unit)), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("cbc", file, "sec", fmt.Sprint(limit.Seconds()), "ratio", "0", "allow", "1e-9", "solve").CombinedOutput()
	if err != nil {
		t.Fatalf("cbc: %v\n%s", err, out)
	}
	m := cbcSays.FindSubmatch(out)
	if m == nil {
		t.Fatalf("cbc says no objective:\n%s", out)
	}
	cost, err = strconv.ParseFloat(string(m[2]), 64)
	if err != nil {
		t.Fatal(err)
	}
	return cost, bytes.Contains(out, []byte("Optimal solution found"))
}
