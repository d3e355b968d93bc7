package version_test

import (
	"strings"
	"testing"

	"roomful"
	"roomful/version"
)

// TestCare: what holds for somebody, by what they told. The shares and repetitions are
// those of package care, where their sources stand.
func TestCare(t *testing.T) {
	on, one, long := roomful.Date{Year: 2027, Month: 3, Day: 4}, 1.0, 40.0
	for _, c := range []struct {
		name string
		who  roomful.Athlete
		says []string // each in one of the sentences, in this order
		stop bool
	}{
		{"nobody in particular", roomful.Athlete{Months: &long}, nil, false},
		{"new", roomful.Athlete{Months: &one}, []string{"First months", "three quarters of the volume", "12 times fresh"}, false},
		{"back", roomful.Athlete{Limits: []roomful.Limit{{What: "returning", Pain: -1}}}, []string{"First week back", "half the volume", "12 times fresh"}, false},
		{"young", roomful.Athlete{Born: roomful.Date{Year: 2012}}, []string{"Under 18", "6 times fresh"}, false},
		{"pregnant", roomful.Athlete{Limits: []roomful.Limit{{What: "pregnant", Pain: -1}}}, []string{"own clinician", "12 times fresh", "upside down"}, false},
		{"sore", roomful.Athlete{Limits: []roomful.Limit{{What: "knee", Pain: 4}, {What: "wrist", Pain: 1}}}, []string{"Knee 4 of 10", "Wrist 1 of 10 today: go ahead"}, false},
		{"beyond a coach", roomful.Athlete{Limits: []roomful.Limit{{What: "back", Pain: 7}}}, []string{"see a professional"}, true},
	} {
		got := version.CareFor(c.who, on, roomful.HouseCautions{})
		if got.Stop != c.stop || len(got.Say) != len(c.says) {
			t.Errorf("%s: %+v", c.name, got)
			continue
		}
		for i, want := range c.says {
			if !strings.Contains(got.Say[i], want) {
				t.Errorf("%s: %q, want %q", c.name, got.Say[i], want)
			}
		}
		if (len(got.Cautions) > 0) != (len(c.says) > 0) {
			t.Errorf("%s: cautions %q", c.name, got.Cautions)
		}
	}
}
