package care_test

import (
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/version/internal/care"
)

func months(n float64) *float64 { return &n }

// TestOf reads the bounds of people. Shares and repetitions are those of the
// sources named in the package.
func TestOf(t *testing.T) {
	on := roomful.Date{Year: 2027, Month: time.March, Day: 4}
	limit := func(what string, pain int) roomful.Athlete {
		return roomful.Athlete{Limits: []roomful.Limit{{What: what, Pain: pain}}}
	}
	for _, c := range []struct {
		name          string
		who           roomful.Athlete
		volume        float64
		least         int
		acting, noted int
		stop          bool
	}{
		{"nobody in particular", roomful.Athlete{}, 1, 0, 0, 0, false},
		{"eighteen tomorrow", roomful.Athlete{Born: roomful.Date{Year: 2009, Month: time.March, Day: 5}}, 1, 6, 0, 0, false},
		{"eighteen today", roomful.Athlete{Born: roomful.Date{Year: 2009, Month: time.March, Day: 4}}, 1, 0, 0, 0, false},
		{"two months in", roomful.Athlete{Months: months(2)}, 0.75, 12, 0, 0, false},
		{"three months in", roomful.Athlete{Months: months(3)}, 1, 0, 0, 0, false},
		{"first week back", limit("returning", -1), 0.5, 12, 0, 0, false},
		{"pregnant, whatever the figure", limit("pregnant", 0), 1, 12, 1, 0, false},
		{"pain of 2", limit("back", 2), 1, 0, 0, 1, false},
		{"pain of 3", limit("back", 3), 1, 0, 1, 0, false},
		{"pain of 5", limit("back", 5), 1, 0, 1, 0, false},
		{"pain of 6", limit("back", 6), 1, 0, 0, 0, true},
		{"no figure", limit("back", -1), 1, 0, 1, 0, false},
		{"a red flag", limit("stop", -1), 1, 0, 0, 0, true},
	} {
		b := care.Of(c.who, on)
		if b.Volume != c.volume || b.LeastReps != c.least || len(b.Acting) != c.acting || len(b.Noted) != c.noted || (b.Stop != nil) != c.stop {
			t.Errorf("%s: %+v", c.name, b)
		}
	}
}

// TestEveryLimit holds that each limit a person may tell of either rules
// something out, bounds their day or ends it.
func TestEveryLimit(t *testing.T) {
	all := []roomful.Stress{roomful.StressGrip, roomful.StressOverhead, roomful.StressImpact, roomful.StressEccentric, roomful.StressInversion,
		roomful.StressShoulder, roomful.StressElbow, roomful.StressWrist, roomful.StressNeck, roomful.StressHip, roomful.StressKnee,
		roomful.StressAnkle, roomful.StressSpine, roomful.StressBelly, roomful.StressSupine, roomful.StressFall}
	everything := &roomful.Movement{Stress: all}
	for _, w := range roomful.LimitWords {
		b := care.Of(roomful.Athlete{Limits: []roomful.Limit{{What: w, Pain: -1}}}, roomful.Date{})
		held := b.HeldBy(everything)
		if held == nil && b.Stop == nil && !b.Any() {
			t.Errorf("%s changes nothing", w)
		}
		if held != nil && (len(care.Reasons(*held)) == 0 || !strings.Contains(care.Avoid(*held), w)) {
			t.Errorf("%s: reasons %v, %q", w, care.Reasons(*held), care.Avoid(*held))
		}
	}
}

// TestMayCut keeps two thirds of a load beside a swap up to a pain of 3, and when
// no figure is told; never in pregnancy.
func TestMayCut(t *testing.T) {
	for _, c := range []struct {
		what string
		pain int
		want bool
	}{{"back", 3, true}, {"back", -1, true}, {"back", 4, false}, {"knee", 5, false}, {"pregnant", -1, false}} {
		if got := care.MayCut(roomful.Limit{What: c.what, Pain: c.pain}); got != c.want {
			t.Errorf("%s %d: %v", c.what, c.pain, got)
		}
	}
}

// TestAvoid says no more than is done: up to a pain of 3 a line may be kept at two thirds
// where another is swapped, so it is less of both; from 4 on it is none.
func TestAvoid(t *testing.T) {
	for _, c := range []struct {
		what string
		pain int
		want string
	}{
		{"shoulder", 3, "shoulder 3 of 10 today: less overhead, less hard pull on the shoulder"},
		{"shoulder", 4, "shoulder 4 of 10 today: nothing overhead, no hard pull on the shoulder"},
		{"wrist", -1, "wrist, no figure told: less load on a bent wrist"},
		{"pregnant", -1, "pregnant: nothing on the belly, lying long on the back, upside down, or with a risk of falling"},
	} {
		if got := care.Avoid(roomful.Limit{What: c.what, Pain: c.pain}); got != c.want {
			t.Errorf("%s %d: %q", c.what, c.pain, got)
		}
	}
}

// TestBecause names the states in private words, limits that hurt apart.
func TestBecause(t *testing.T) {
	b := care.Of(roomful.Athlete{Months: months(1), Limits: []roomful.Limit{{What: "returning", Pain: -1}, {What: "pregnant", Pain: -1}, {What: "back", Pain: 4}}},
		roomful.Date{Year: 2027, Month: time.March, Day: 4})
	if got, want := b.Because(), "first week back, first months, pregnant"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if s := b.Sore(); len(s) != 1 || s[0].What != "back" || b.Volume != 0.5 || b.Load >= 1 {
		t.Errorf("sore %v, volume %v, load %v", s, b.Volume, b.Load)
	}
}

// TestHouseCautions says the gym's words beside ours, or in place of ours where
// no red flag stands, and always defers.
func TestHouseCautions(t *testing.T) {
	var house roomful.HouseCautions
	house.Add.Pain, house.Add.Stop, house.Add.Muscle = "The blue notebook is by the door.", "Somebody walks out with you", "Ring Una."
	house.Add.New, house.Replace.New, house.Replace.Returning = "Ask anything.", "Three visits with a coach beside you first.", "Half of everything, and tea."
	on := roomful.Date{Year: 2027, Month: time.March, Day: 4}
	told := []roomful.Limit{{What: "back", Pain: 4}, {What: "returning", Pain: -1}}
	b := care.Of(roomful.Athlete{Months: months(1), Limits: told}, on)
	ours, theirs := b.Cautions(false, roomful.HouseCautions{}), b.Cautions(false, house)
	if len(ours) != 4 || len(theirs) != 4 {
		t.Fatalf("%d cautions of ours, %d with theirs", len(ours), len(theirs))
	}
	const deference = "Local rules and licensed practice come first."
	for i, want := range []string{
		strings.Replace(ours[0], deference, house.Add.Pain+" "+deference, 1),
		"Half of everything, and tea (the gym's own words). " + deference,
		"Three visits with a coach beside you first (the gym's own words). Ask anything. " + deference,
		strings.Replace(ours[3], deference, house.Add.Muscle+" "+deference, 1),
	} {
		if theirs[i] != want {
			t.Errorf("got  %q\nwant %q", theirs[i], want)
		}
	}
	stop := care.StopCautions(house)[0]
	if !strings.HasPrefix(stop, "Seek medical help for chest pain") || !strings.HasSuffix(stop, "Somebody walks out with you. "+deference) {
		t.Errorf("a red flag became %q", stop)
	}
}
