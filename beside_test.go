package roomful_test

import (
	"math"
	"testing"

	"roomful"
)

// TestExpect puts ends beside windows: 10-14 minutes are 600 s up to 841, and 5-7 rounds
// hold 5 up to 8. A fifth outside is far.
func TestExpect(t *testing.T) {
	minutes, rounds, kg := roomful.Effort{Low: 10, High: 14, Unit: "minutes"}, roomful.Effort{Low: 5, High: 7, Unit: "rounds"}, roomful.Effort{Low: 80, High: 100, Unit: "kg"}
	for _, c := range []struct {
		effort               roomful.Effort
		kind                 roomful.ScoreKind
		median, sure, capped float64
		cannot               float64
		want                 string
	}{
		{minutes, roomful.TimeScore, 700, 0.8, 0, 0, "likely as meant"},
		{minutes, roomful.TimeScore, 700, 0.3, 0, 0, "as meant on a usual day, not surely"},
		{minutes, roomful.TimeScore, 552, 0.2, 0, 0, "likely on the quick side"}, // 9:12
		{minutes, roomful.TimeScore, 470, 0, 0, 0, "likely far on the quick side"},
		{minutes, roomful.TimeScore, 900, 0, 0, 0, "likely on the slow side"},
		{minutes, roomful.TimeScore, 840, 0.4, 0.6, 0, "likely not done by the cap"},
		{minutes, roomful.TimeScore, 700, 0.8, 0, 0.7, "something in it is still too hard"},
		{rounds, roomful.RoundsScore, 7.9, 0.6, 0, 0, "likely as meant"},
		{rounds, roomful.RoundsScore, 8, 0.4, 0, 0, "likely on the quick side"},
		{rounds, roomful.RoundsScore, 4.5, 0.4, 0, 0, "likely on the slow side"},
		{rounds, roomful.RoundsScore, 3, 0, 0, 0, "likely far on the slow side"},
		{kg, roomful.LoadScore, 70, 0, 0, 0, "likely on the light side"},
		{kg, roomful.LoadScore, 130, 0, 0, 0, "likely far on the heavy side"},
		{rounds, roomful.RoundsScore, math.NaN(), 0, 0, 0, "likely far on the slow side"},
	} {
		f := roomful.AthleteForecast{Score: roomful.Quantiles{P50: c.median}, Capped: c.capped, Cannot: c.cannot}
		if got := c.effort.Expect(c.kind, f, c.sure); got != c.want {
			t.Errorf("%v of %v-%v %s: %q, want %q", c.median, c.effort.Low, c.effort.High, c.effort.Unit, got, c.want)
		}
	}
}
