package bars

import (
	"fmt"
	"testing"
	"time"
)

func TestTry(t *testing.T) {
	for _, r := range []room{kilos, pounds, mixed} {
		for _, n := range []int{12, 24, 40} {
			for _, sc := range []float64{0.5, 0.8, 1.0, 1.3} {
				var times []time.Duration
				proven := 0
				worst, gap, early := time.Duration(0), 0.0, 0.0
				var sum time.Duration
				bad := ""
				for seed := range uint64(20) {
					p := r.problem(n, sc, seed)
					start := time.Now()
					a := Solve(p, 12_000_000)
					d := time.Since(start)
					times = append(times, d)
					sum += d
					worst = max(worst, d)
					e := Solve(p, 300_000)
					early = max(early, float64(e.Cost-a.Cost)/float64(a.Cost))
					if a.Proven {
						proven++
					} else {
						gap = max(gap, float64(a.Cost-a.Bound)/float64(a.Cost))
						bad += fmt.Sprint(" ", seed)
					}
				}
				fmt.Printf("%s n=%d scarce %.1f: proven %d/20, mean %v worst %v, gap %.2f%% early %.2f%% %s\n", r, n, sc, proven, sum/20, worst, gap*100, early*100, bad)
			}
		}
	}
}
