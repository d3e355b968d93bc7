package roomful_test

import (
	"reflect"
	"testing"

	"roomful"
)

// TestJoined puts what was said of one line into one change, and leaves apart what was said
// of another line, from another time on, or otherwise.
func TestJoined(t *testing.T) {
	press := roomful.MovementID("push-press")
	seven, light := roomful.Change{Of: press, Amount: 7, Unit: roomful.Rep}, roomful.Change{Of: press, LoadKg: 25}
	later := roomful.Change{Of: press, LoadKg: 20, AtSeconds: 120}
	out := roomful.Change{Of: press}
	for _, c := range []struct{ all, want []roomful.Change }{
		{[]roomful.Change{seven, light}, []roomful.Change{{Of: press, Amount: 7, Unit: roomful.Rep, LoadKg: 25}}},
		{[]roomful.Change{light, seven}, []roomful.Change{{Of: press, Amount: 7, Unit: roomful.Rep, LoadKg: 25}}},
		{[]roomful.Change{light, later}, []roomful.Change{light, later}},
		{[]roomful.Change{light, {Of: press, LoadKg: 30}}, []roomful.Change{light, {Of: press, LoadKg: 30}}},
		{[]roomful.Change{light, {Of: "pull-up", Assist: "band"}}, []roomful.Change{light, {Of: "pull-up", Assist: "band"}}},
		{[]roomful.Change{light, out}, []roomful.Change{light, out}}, // left out is no load
		{nil, nil},
	} {
		if got := roomful.Joined(c.all); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%+v are joined to %+v, want %+v", c.all, got, c.want)
		}
	}
}

// TestPlainKg: loads of plates stand as they are, and pounds are not given to the gram; 135
// lb are 61.235 kg by the international pound of 0.45359237 kg.
func TestPlainKg(t *testing.T) {
	for kg, want := range map[float64]float64{61.25: 61.25, 61.235: 61.2, 92.986: 93, 0: 0, 20: 20, 1.25: 1.25} {
		if got := roomful.PlainKg(kg); got != want {
			t.Errorf("%v kg are said as %v, want %v", kg, got, want)
		}
	}
}

// TestAttentionOfVersion parts what is about a person from what is about their version.
func TestAttentionOfVersion(t *testing.T) {
	for _, c := range []struct{ why, person, version string }{
		{"Wrist: ask before the ramp. Ring rows.", "Wrist: ask before the ramp.", "Ring rows."},
		{"No version lands in 5-7 rounds.", "", "No version lands in 5-7 rounds."},
		{"First months.", "First months.", ""},
		{"First week back: half the volume, 2 of 4 rounds.", "First week back: half the volume", "2 of 4 rounds."},
	} {
		if got := (roomful.Attention{Why: c.why, Person: c.person}).OfVersion(); got != c.version {
			t.Errorf("%q of %q: %q", c.why, c.person, got)
		}
	}
}
