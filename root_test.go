package roomful_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roomful"
)

// The pound and the inch are exact by definition (international yard and pound
// agreement, 1959); the bars are those of the international weightlifting
// rules and of common practice.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		got, want float64
		what      string
	}{
		{roomful.Lb(45).Kg(), 20.41165665, "a 45 lb bar in kg"},
		{roomful.Lb(135).Kg(), 61.23496995, "135 lb in kg"},
		{roomful.Kg(100).In(roomful.Pound).Value, 220.46226218, "100 kg in lb"},
		{roomful.Length{Value: 24, Unit: roomful.Inch}.Cm(), 60.96, "24 in in cm"},
		{roomful.Length{Value: 9, Unit: roomful.Foot}.Cm(), 274.32, "9 ft in cm"},
		{roomful.Mile.Size(), 1609.344, "a mile in m"},
	} {
		if d := c.got - c.want; d > 1e-7 || d < -1e-7 {
			t.Errorf("%s: got %v, want %v", c.what, c.got, c.want)
		}
	}
	if got := roomful.Lb(95).In(roomful.Kilogram).In(roomful.Pound).Value; got < 95-1e-9 || got > 95+1e-9 {
		t.Errorf("95 lb there and back: got %v", got)
	}
}

func TestWriting(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{roomful.Kg(42.5).String(), "42.5 kg"},
		{roomful.Lb(95).String(), "95 lb"},
		{roomful.Length{Value: 60, Unit: roomful.Centimetre}.String(), "60 cm"},
		{roomful.Figure(2.0000001), "2"},
		{roomful.Clock(59.6), "1:00"},
		{roomful.Clock(605), "10:05"},
		{roomful.Clock(3930), "1:05:30"},
		{roomful.RoundsScore.Text(5.5, 24), "5+12"},
		{roomful.RoundsScore.Text(6, 24), "6+0"},
		{roomful.RoundsScore.Text(6-1e-9, 24), "5+24"}, // all counted, the round not yet closed,
		{roomful.TimeScore.Text(337, 0), "5:37"},
		{roomful.LoadScore.Text(102.5, 0), "102.5 kg"},
		{roomful.DistanceScore.Text(1510.4, 0), "1510 m"},
		{roomful.Date{Year: 2027, Month: time.March, Day: 4}.String(), "2027-03-04"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestDivisions(t *testing.T) {
	pair := roomful.Amount{By: []float64{14, 11}, Unit: roomful.Calorie}
	one := roomful.Amount{By: []float64{1}, Unit: roomful.Kilometre}
	for _, c := range []struct {
		division  roomful.Division
		cal, km   float64
		what      string
		unchanged bool
	}{
		{roomful.DivisionA, 14, 1000, "a takes the first", true},
		{roomful.DivisionB, 11, 1000, "b takes the second", true},
		{roomful.AnyDivision, 11, 1000, "nobody is given the harder figure unasked", true},
	} {
		if got := pair.For(c.division); got != c.cal {
			t.Errorf("%s: got %v cal", c.what, got)
		}
		if got := one.For(c.division); got != c.km {
			t.Errorf("%s: got %v m", c.what, got)
		}
	}
}

// 4-6 rounds means at least 4 and fewer than 7.
func TestEffortWindow(t *testing.T) {
	rounds := roomful.Effort{Low: 4, High: 6, Unit: "rounds"}
	minutes := roomful.Effort{Low: 8, High: 11, Unit: "minutes"}
	for _, c := range []struct {
		e     roomful.Effort
		score float64
		want  bool
	}{
		{rounds, 3.99, false}, {rounds, 4, true}, {rounds, 6.97, true}, {rounds, 7, false},
		{minutes, 479, false}, {minutes, 480, true}, {minutes, 660, true}, {minutes, 662, false},
	} {
		if got := c.e.Holds(c.score); got != c.want {
			t.Errorf("%v-%v %s holds %v: got %v", c.e.Low, c.e.High, c.e.Unit, c.score, got)
		}
	}
}

func TestLadder(t *testing.T) {
	for _, c := range []struct {
		ladder roomful.Ladder
		want   []int
	}{
		{roomful.Ladder{Steps: []int{21, 15, 9}}, []int{21, 15, 9}},
		{roomful.Ladder{Steps: []int{3, 6, 9}, Open: true}, []int{3, 6, 9, 12, 15, 18}},
		{roomful.Ladder{Steps: []int{2}, Open: true}, []int{2, 4, 6, 8, 10, 12}},
		{roomful.Ladder{Steps: []int{5, 4}, Open: true}, []int{5, 4, 3, 2, 1}},
		{roomful.Ladder{}, nil},
	} {
		var got []int
		for n := range 6 {
			if k, ok := c.ladder.Step(n); ok {
				got = append(got, k)
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%+v (-want +got):\n%s", c.ladder, diff)
		}
	}
}

func TestLength(t *testing.T) {
	s := time.Second
	for _, c := range []struct {
		f        roomful.Format
		elements int
		want     time.Duration
		what     string
	}{
		{roomful.RoundsInTime{Window: 14 * 60 * s}, 3, 840 * s, "a window"},
		{roomful.Every{Interval: 150 * s, Count: 5}, 1, 750 * s, "every 2:30, five times"},
		{roomful.Intervals{Count: 8, Work: 20 * s, Rest: 10 * s}, 1, 240 * s, "eight times 20 and 10 is four minutes"},
		{roomful.Intervals{Count: 5, Rest: 120 * s}, 1, 0, "work that lasts until it is done"},
		{roomful.Stations{Rounds: 3, Work: 40 * s, Change: 20 * s, Resting: true}, 4, 720 * s, "rest after every station"},
		{roomful.Stations{Rounds: 3, Work: 60 * s, Rest: 60 * s}, 5, 17 * 60 * s, "rest between rounds only"},
		{roomful.Stations{Rounds: 2, Work: 60 * s, Change: 15 * s}, 3, 435 * s, "changes between stations, none at the end"},
		{roomful.ForTime{Rounds: 3, Cap: 600 * s}, 2, 0, "for time depends on the people"},
		{roomful.Unscored{Rounds: 2, Each: 30 * s}, 4, 240 * s, "a warm-up of rounds"},
	} {
		if got := c.f.Length(c.elements); got != c.want {
			t.Errorf("%s: got %v, want %v", c.what, got, c.want)
		}
	}
}

// 42.5 kg is a 20 kg bar with 10 and 1.25 a side (common practice, no source).
func TestLoadsOfKit(t *testing.T) {
	kit := &roomful.Kit{
		Bars:      []roomful.Stock{{Mass: roomful.Kg(20), Count: 2}},
		Plates:    []roomful.Stock{{Mass: roomful.Kg(10), Count: 2}, {Mass: roomful.Kg(1.25), Count: 3}},
		Dumbbells: []roomful.Stock{{Mass: roomful.Kg(15), Count: 2}, {Mass: roomful.Lb(20), Count: 2}},
	}
	if diff := cmp.Diff([]roomful.Mass{roomful.Kg(20), roomful.Kg(22.5), roomful.Kg(40), roomful.Kg(42.5)}, kit.Loads(roomful.Barbell)); diff != "" {
		t.Errorf("bar (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]roomful.Mass{roomful.Lb(20), roomful.Kg(15)}, kit.Loads(roomful.Dumbbell)); diff != "" {
		t.Errorf("dumbbells (-want +got):\n%s", diff)
	}
	if got := kit.Loads(roomful.Kettlebell); got != nil {
		t.Errorf("kettlebells: got %v from a kit without", got)
	}
}

// Every load a kit offers is a bar with equal sleeves.
func TestLoadsAreSymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plates := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) roomful.Stock {
			return roomful.Stock{Mass: roomful.Kg(rapid.SampledFrom([]float64{0.5, 1.25, 2.5, 5, 10, 20}).Draw(t, "mass")), Count: rapid.IntRange(0, 6).Draw(t, "count")}
		}), 0, 5).Draw(t, "plates")
		kit := &roomful.Kit{Bars: []roomful.Stock{{Mass: roomful.Kg(15), Count: 1}}, Plates: plates}
		var most float64
		for _, p := range plates {
			most += float64(p.Count/2*2) * p.Mass.Kg()
		}
		loads := kit.Loads(roomful.Barbell)
		if loads[0] != roomful.Kg(15) {
			t.Fatalf("the bare bar is missing: %v", loads)
		}
		if top := loads[len(loads)-1].Kg(); top > 15+most+1e-6 {
			t.Fatalf("%v kg from a bar of 15 and %v of paired plates", top, most)
		}
	})
}

func TestKitLacks(t *testing.T) {
	gym := &roomful.Kit{Stations: map[string]int{"row": 6, "rig": 4}, CeilingM: 2.4, Boxes: []roomful.BoxStock{{HeightsCm: []float64{50}, Count: 1}}}
	home := &roomful.Kit{Home: true, Ropes: 1, Quiet: true, Other: []string{"band"}}
	for _, c := range []struct {
		kit  *roomful.Kit
		m    roomful.Movement
		want string
	}{
		{gym, roomful.Movement{Implement: roomful.RowMachine}, ""},
		{gym, roomful.Movement{Implement: roomful.SkiMachine}, "ski"},
		{gym, roomful.Movement{Needs: []string{"pull-up-bar"}}, ""},
		{gym, roomful.Movement{Needs: []string{"band"}}, ""},
		{gym, roomful.Movement{Needs: []string{"climbing-rope"}}, "climbing-rope"},
		{gym, roomful.Movement{Space: roomful.Space{CeilingM: 3}}, "ceiling"},
		{&roomful.Kit{Dumbbells: []roomful.Stock{{Mass: roomful.Kg(10)}}}, roomful.Movement{Implement: roomful.Dumbbell}, "dumbbell"},
		{home, roomful.Movement{Needs: []string{"band"}}, ""},
		{home, roomful.Movement{Needs: []string{"pull-up-bar"}}, "pull-up-bar"},
		{home, roomful.Movement{Needs: []string{"mat"}}, "mat"},
		{home, roomful.Movement{Needs: []string{"rope"}, Noisy: true}, "noise"},
	} {
		if got := c.kit.Lacks(&c.m); got != c.want {
			t.Errorf("%+v: lacks %q, want %q", c.m, got, c.want)
		}
	}
}

// TestListed leaves out of others' lists whoever asked for it, and children until the
// day they are eighteen.
func TestListed(t *testing.T) {
	on := roomful.Date{Year: 2027, Month: 3, Day: 4}
	for _, c := range []struct {
		who  roomful.Athlete
		want bool
	}{
		{roomful.Athlete{}, true},
		{roomful.Athlete{Unlisted: true}, false},
		{roomful.Athlete{Born: roomful.Date{Year: 2009, Month: 3, Day: 4}}, true},
		{roomful.Athlete{Born: roomful.Date{Year: 2009, Month: 3, Day: 5}}, false},
		{roomful.Athlete{Born: roomful.Date{Year: 2009}}, false},
		{roomful.Athlete{Born: roomful.Date{Year: 1980}}, true},
		{roomful.Athlete{Born: roomful.Date{Year: 1980}, Unlisted: true}, false},
	} {
		if got := c.who.Listed(on); got != c.want {
			t.Errorf("born %v, unlisted %v: %v", c.who.Born, c.who.Unlisted, got)
		}
	}
}

func TestAge(t *testing.T) {
	on := roomful.Date{Year: 2027, Month: time.March, Day: 4}
	for _, c := range []struct {
		born roomful.Date
		want int
	}{
		{roomful.Date{Year: 2009, Month: time.March, Day: 4}, 18},
		{roomful.Date{Year: 2009, Month: time.March, Day: 5}, 17},
		{roomful.Date{Year: 2009}, 17},
	} {
		if got, ok := (roomful.Athlete{Born: c.born}).Age(on); !ok || got != c.want {
			t.Errorf("born %+v: got %d, want %d", c.born, got, c.want)
		}
	}
}

// TestKitLess takes things out of a kit, and leaves the kit itself alone.
func TestKitLess(t *testing.T) {
	kit := &roomful.Kit{Stations: map[string]int{"row": 5}, Rings: 6, Ropes: 3, Boxes: []roomful.BoxStock{{Count: 2}, {Count: 3}},
		Dumbbells: []roomful.Stock{{Mass: roomful.Kg(15), Count: 6}}, Balls: []roomful.Stock{{Mass: roomful.Kg(9), Count: 4}}}
	for _, c := range []struct {
		word    string
		n, want int
	}{{"row", 2, 3}, {"row", 0, 0}, {"row", 9, 0}, {"box", 3, 2}, {"rings", 1, 5}, {"rope", 0, 0}, {"dumbbell 15 kg", 2, 4}, {"ball 9 kg", 0, 0}} {
		had := kit.Count(c.word)
		less, ok := kit.Less(c.word, c.n)
		if !ok || less.Count(c.word) != c.want || kit.Count(c.word) != had {
			t.Errorf("%d %s less: %d left, want %d, and %d before", c.n, c.word, less.Count(c.word), c.want, had)
		}
	}
	if _, ok := kit.Less("ski", 1); ok {
		t.Error("a ski machine less of none")
	}
	if got, want := strings.Join(kit.Words(), ", "), "row, box, rings, rope, dumbbell 15 kg, ball 9 kg"; got != want {
		t.Errorf("the kit counts %s, want %s", got, want)
	}
}
