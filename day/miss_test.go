package day_test

import (
	"strings"
	"testing"

	"roomful"
)

// TestMissesAreTold looks through days of the demo: whoever is forecast to end more than a
// twentieth beside the window of the sheet, and is known well enough to say so, stands in
// who needs the coach, sore or not.
func TestMissesAreTold(t *testing.T) {
	g := open(t)
	sore, n := 0, 0
	for _, sheet := range []string{"eight-ribs", "ferrule", "the-tall-gamp"} {
		q := g.question(g.session(t, g.sheets[sheet]))
		got, err := g.Versions(t.Context(), q, false)
		if err != nil {
			t.Fatal(err)
		}
		told := map[string]string{}
		for _, a := range got.Attention {
			told[a.Athlete] += a.Why
		}
		low, high := got.Effort.Window()
		for i, v := range got.Versions {
			median := v.Forecast.Score.P50
			if v.Stop != "" || !v.Dose.Whole() || v.Confidence == roomful.Low || got.Effort.Proposed || v.Forecast.OnIntent == nil || median >= low*0.95 && median < high*1.05 {
				continue
			}
			n++
			if len(q.People[i].Limits) > 0 {
				sore++
			}
			if !strings.Contains(told[v.Athlete], "No version lands in") {
				t.Errorf("%s: %s ends at %s, and the coach reads %q", sheet, v.Name, v.Forecast.Text, told[v.Athlete])
			}
		}
	}
	if n < 3 || sore == 0 {
		t.Errorf("only %d miss, of them %d sore: too few to prove anything", n, sore)
	}
}
