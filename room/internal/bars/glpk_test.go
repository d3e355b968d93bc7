package bars

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
)

var glpkSays = regexp.MustCompile(`(?m)^Objective: +obj = ([-\d.e+]+)`)

// glpk solves a problem with the solver of the GNU Linear Programming Kit.
func glpk(t *testing.T, p Problem) (cost float64, optimal bool) {
	t.Helper()
	if _, err := exec.LookPath("glpsol"); err != nil {
		t.Skip("glpsol is not installed: apt-get install glpk-utils")
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "bars.lp"), filepath.Join(dir, "bars.txt")
	if err := os.WriteFile(in, []byte(written(p, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command("glpsol", "--lp", in, "-o", out, "--tmlim", "10").CombinedOutput(); err != nil {
		t.Fatalf("glpsol: %v\n%s", err, said)
	}
	answer, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	m := glpkSays.FindSubmatch(answer)
	if m == nil {
		t.Fatalf("glpsol says no objective:\n%s", answer)
	}
	if cost, err = strconv.ParseFloat(string(m[1]), 64); err != nil {
		t.Fatal(err)
	}
	return cost, bytes.Contains(answer, []byte("INTEGER OPTIMAL"))
}
