package prior_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/prior"
)

// What was filled in is said, one short line each.
func TestAssumed(t *testing.T) {
	got := of(roomful.Athlete{Name: "Wren"}).Assumed
	want := []string{
		"division: not told, reckoned between the two",
		"age: 32 assumed",
		"body mass: 73 kg assumed",
		"training: 12 months assumed",
		"squat: from age, body mass and training",
		"deadlift: from age, body mass and training",
		"bench press: from age, body mass and training",
		"press: from age, body mass and training",
		"clean: from age, body mass and training",
		"snatch: from age, body mass and training",
		"pull-ups: from age, body mass and training",
		"push-ups in 2 min: from age, body mass and training",
		"sit-ups in 2 min: from age, body mass and training",
		"burpees in 3 min: from age, body mass and training",
		"double-unders: from age, body mass and training",
		"VO2max: from age, body mass and training",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	got = of(person(b, 30, 62, 20, everything()...)).Assumed
	if len(got) > 0 {
		t.Errorf("everything was told, yet assumed: %q", got)
	}
	got = of(person(b, 30, 62, 20, everything()[1:11]...)).Assumed
	want = []string{"squat: from deadlift, bench press, press, clean, snatch", "VO2max: from age, body mass and training"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestDoubts(t *testing.T) {
	plain := person(a, 30, 80, 12)
	with := func(known ...roomful.Known) roomful.Athlete {
		p := plain
		p.Known = known
		return p
	}
	months, backwards := 300.0, -3.0
	inPounds := with(kg(roomful.TestBench, 260/2.2046226), kg(roomful.TestDeadlift, 100))
	inPounds.Unit = roomful.Pound
	for name, c := range map[string]struct {
		who  roomful.Athlete
		want []string
	}{
		"an ordinary member":    {with(everything()...), nil},
		"nothing known":         {roomful.Athlete{}, nil},
		"bench above deadlift":  {with(kg(roomful.TestBench, 120), kg(roomful.TestDeadlift, 100)), []string{"bench press 120 kg is above deadlift 100 kg, which is rare: check both."}},
		"in their own unit":     {inPounds, []string{"bench press 260 lb is above deadlift 220.5 lb, which is rare: check both."}},
		"pounds typed as kilos": {with(kg(roomful.TestSquat, 275)), []string{"squat 275 kg: age, body mass and training suggest about 102.5 kg, check it."}},
		"one lift off": {with(kg(roomful.TestSquat, 110), kg(roomful.TestDeadlift, 300), kg(roomful.TestBench, 85)),
			[]string{"deadlift 300 kg: the other figures suggest about 130 kg, check it."}},
		"a run too quick": {with(kg(roomful.TestRun5k, 800), kg(roomful.TestVO2max, 38)),
			[]string{"5 km run 13:20: the other figures suggest about 29:03, check it."}},
		"a row too quick":       {with(kg(roomful.TestRow2k, 330)), []string{"2 km row 5:30: age, body mass and training suggest about 7:39, check it."}},
		"no such time":          {with(kg(roomful.TestRow2k, 30)), []string{"2 km row: 0:30 is not a figure to reckon with, and was left out."}},
		"no such load":          {with(kg(roomful.TestPress, -20)), []string{"press: -20 kg is not a figure to reckon with, and was left out."}},
		"born tomorrow":         {roomful.Athlete{Born: roomful.Date{Year: 2040}}, []string{"born in 2040 lies ahead: check the year."}},
		"born long ago":         {roomful.Athlete{Born: roomful.Date{Year: 1890}}, []string{"born in 1890 makes them 136: check the year."}},
		"trained before birth":  {roomful.Athlete{Born: roomful.Date{Year: 2008}, Months: &months}, []string{"300 months of training is more than fits into 18 years of age: check both."}},
		"training backwards":    {roomful.Athlete{Months: &backwards}, []string{"-3 months of training is not a figure to reckon with, and was left out."}},
		"a mass in other units": {roomful.Athlete{MassKg: 800}, []string{"a body mass of 800 kg was left out: check the figure and its unit."}},
		"a height in metres":    {roomful.Athlete{HeightCm: 1.8}, []string{"a height of 1.8 cm: check the figure and its unit."}},
	} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, prior.Doubts(c.who, few(), day)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Somebody like a friend takes the friend's medians and stays as wide as they
// were; what they told themselves stands, with the lifts it tells of.
func TestLike(t *testing.T) {
	friend := of(person(b, 27, 61, 50, everything()...))
	guest := of(roomful.Athlete{Name: "Guest"})
	like := prior.Like(guest, friend)
	for i, d := range like.Dims {
		near(t, string(d.Capacity), d.Centre, friend.Dims[i].Centre, 1e-12)
		near(t, "spread of "+string(d.Capacity), d.SD(), guest.Dims[i].SD(), 1e-12)
	}
	for _, line := range like.Assumed[4:] {
		if !strings.HasSuffix(line, ": from somebody like them") {
			t.Errorf("assumed: %q", line)
		}
	}
	told := of(person(b, 27, 61, 12, kg(roomful.TestSquat, 140)))
	like = prior.Like(told, friend)
	for _, l := range []roomful.Lift{roomful.BackSquat, roomful.Deadlift} {
		near(t, string(l), median(t, like, roomful.OneRM(l)), median(t, told, roomful.OneRM(l)), 1e-9)
	}
	near(t, "VO2max", median(t, like, roomful.CapVO2max), median(t, friend, roomful.CapVO2max), 1e-9)
}
