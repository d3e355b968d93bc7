package version_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/version"
)

// TestDoses bounds the volume of people back after two weeks or more (half in
// the first week, Caterisano et al. 2019, the half from memory) and in their
// first months (three quarters; common practice, no source): the time of a
// window, since halving its repetitions would only double its rounds; else
// rounds, sets or steps, or the amounts where those do not divide.
func TestDoses(t *testing.T) {
	const s, m = time.Second, time.Minute
	squats := reps("front-squat", 10, roomful.Masses{roomful.Kg(30)})
	open := roomful.Element{Movement: "pull-up"}
	steps := func(n ...int) roomful.ForTime {
		return roomful.ForTime{Rounds: len(n), Ladder: roomful.Ladder{Steps: n}}
	}
	for _, c := range []struct {
		name   string
		format roomful.Format
		e      roomful.Element
		who    func(*version.Person)
		want   roomful.Dose
		amount float64 // of the element
	}{
		{"back, a window", roomful.RoundsInTime{Window: 16 * m}, squats, limit("returning", -1), roomful.Dose{StopAt: 8 * m, Say: "8 minutes of 16 today"}, 10},
		{"new, a window", roomful.RoundsInTime{Window: 14 * m}, squats, newcomer, roomful.Dose{StopAt: 10*m + 30*s, Say: "10:30 of 14 today"}, 10},
		{"back, every minute", roomful.Every{Interval: m, Count: 15}, squats, limit("returning", -1), roomful.Dose{StopAt: 7 * m, Say: "7 minutes of 15 today"}, 10},
		{"back, as many as possible", roomful.AmountInTime{Window: 3 * m}, open, limit("returning", -1), roomful.Dose{StopAt: 90 * s, Say: "1:30 of 3 today"}, 0},
		{"back, bouts", roomful.Intervals{Count: 8, Work: 20 * s, Rest: 10 * s}, open, limit("returning", -1), roomful.Dose{Rounds: 4, Say: "4 of 8 bouts today"}, 0},
		{"back, three rounds of stations", roomful.Stations{Rounds: 3, Work: m}, open, limit("returning", -1), roomful.Dose{Work: 30 * s, Say: "30 s of every 60 today"}, 0},
		{"back, four rounds", roomful.ForTime{Rounds: 4}, squats, limit("returning", -1), roomful.Dose{Rounds: 2, Say: "2 of 4 rounds today"}, 10},
		{"new, five rounds", roomful.ForTime{Rounds: 5}, squats, newcomer, roomful.Dose{Rounds: 4, Say: "4 of 5 rounds today"}, 10},
		{"back, three rounds do not halve", roomful.ForTime{Rounds: 3}, squats, limit("returning", -1), roomful.Dose{}, 5},
		{"back, a chipper", roomful.ForTime{Rounds: 1}, squats, limit("returning", -1), roomful.Dose{}, 5},
		{"back, ten steps: 10+9+8 is 27 of 55", steps(10, 9, 8, 7, 6, 5, 4, 3, 2, 1), open, limit("returning", -1), roomful.Dose{Ladder: []int{10, 9, 8}, Say: "10-9-8 today"}, 0},
		{"new, 21-15 is 36 of 45", steps(21, 15, 9), open, newcomer, roomful.Dose{Ladder: []int{21, 15}, Say: "21-15 today"}, 0},
		{"back, steps that do not divide are halved", steps(27, 21, 15, 9), open, limit("returning", -1), roomful.Dose{Ladder: []int{13, 10, 7, 4}, Say: "13-10-7-4 today"}, 0},
		{"back, sets", roomful.Sets{Count: 5}, squats, limit("returning", -1), roomful.Dose{Rounds: 2, Say: "2 of 5 sets today"}, 10},
		{"back, one set stays", roomful.Sets{Count: 1}, squats, limit("returning", -1), roomful.Dose{}, 5},
		{"nobody in particular", roomful.RoundsInTime{Window: 16 * m}, squats, nil, roomful.Dose{}, 10},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := day(somebody("Ada", c.who))
			q.Piece = roomful.Part{Kind: roomful.Main, Scored: true, Format: c.format, Round: []roomful.Element{c.e}}
			q.Effort = roomful.Effort{}
			got := propose(t, q)
			v := got.Versions[0]
			private := v.Dose.Private
			if c.want.Say != "" && !strings.Contains(private, "the volume") {
				t.Errorf("the coach is not told why: %q", private)
			}
			v.Dose.Private = ""
			if diff := cmp.Diff(c.want, v.Dose); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			if v.Choices[0].Amount != c.amount {
				t.Errorf("%v of them, want %v", v.Choices[0].Amount, c.amount)
			}
			if v.AsWritten != (c.who == nil) || !v.Dose.Whole() && !v.OneOff {
				t.Errorf("as written %v, one-off %v", v.AsWritten, v.OneOff)
			}
			if c.who != nil && (len(got.Attention) == 0 || !strings.Contains(got.Attention[0].Why, "of the volume") && !strings.Contains(got.Attention[0].Why, "half the volume")) {
				t.Errorf("attention %v", got.Attention)
			}
		})
	}
}

func newcomer(p *version.Person) { p.Athlete.Months = months(1) }

// TestDoseForecast forecasts what is done, not what the room does: in half the
// time about half the rounds, and no window to meet.
func TestDoseForecast(t *testing.T) {
	q := day(somebody("Ann", nil), somebody("Bea", func(p *version.Person) {
		p.Abilities = able(90, 130, 12, 44) // so strong that the lighter load hardly shows
		limit("returning", -1)(p)
	}))
	got := propose(t, q)
	whole, half := got.Versions[0], got.Versions[1]
	y := newToy()
	part := half.Dose.Of(q.Piece)
	want := y.score(part, roomful.Entrant{Abilities: q.People[1].Abilities, Work: half.Work}, 1)
	if half.Forecast.Score.P50 != want || half.Forecast.Score.P50 > 0.6*whole.Forecast.Score.P50 {
		t.Errorf("%.2f rounds in %v, want %.2f; all of it is %.2f", half.Forecast.Score.P50, half.Dose.StopAt, want, whole.Forecast.Score.P50)
	}
	if half.Forecast.OnIntent != nil || whole.Forecast.OnIntent == nil {
		t.Errorf("held to the window: %v, and %v", half.Forecast.OnIntent, whole.Forecast.OnIntent)
	}
}

// TestSteady asks nobody under bounds for a heaviest set, nor to build with
// something that weighs nothing, and forecasts the sets they do.
func TestSteady(t *testing.T) {
	young := func(p *version.Person) { p.Athlete.Born = roomful.Date{Year: 2012} }
	for _, c := range []struct {
		name    string
		who     func(*version.Person)
		steady  bool
		sets    int
		amount  float64
		most    float64 // kg
		nothing bool    // lifted
	}{
		{"anybody builds", nil, false, 0, 3, 0, false},
		// 1 + 30·(110/kg − 1) is at least 6, under 18 at least 6 and 4 in hand.
		{"under 18: sets of 6 to 15 (Faigenbaum et al. 2009)", young, true, 3, 6, 84.7, false},
		{"back: half of three sets, rounded up", limit("returning", -1), true, 2, 6, 94.3, false},
		{"pregnant", limit("pregnant", -1), true, 3, 6, 94.3, false},
		{"pain of 3: two thirds of 110/(1 + 2/30) = 103.1", limit("back", 3), true, 3, 3, 68.8, false},
		{"pain of 4: another movement, in sets of its own", limit("back", 4), true, 3, 12, 0, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := day(somebody("Lu", c.who))
			q.Effort = roomful.Effort{}
			q.Piece = roomful.Part{Kind: roomful.Strength, Scored: true, Format: roomful.Sets{Build: true}, Round: []roomful.Element{reps("deadlift", 3, nil)}}
			v := propose(t, q).Versions[0]
			got := v.Choices[0]
			if v.Dose.Steady != c.steady || v.Dose.Rounds != c.sets || got.Amount != c.amount {
				t.Errorf("%+v of %v", v.Dose, got.Amount)
			}
			if got.Load.Kg() > c.most || (got.Load.Value == 0) != (c.most == 0) || c.steady && strings.Contains(got.Why+v.Dose.Say, "18") {
				t.Errorf("%s, %q", got.Load, got.Why)
			}
			if lifted := v.Forecast.Score.P50 == v.Forecast.Score.P50; lifted == c.nothing { // NaN is no load
				t.Errorf("score %v", v.Forecast.Score)
			}
			if s := v.Dose.Of(q.Piece).Format.(roomful.Sets); s.Build == c.steady {
				t.Errorf("a build is forecast: %+v", s)
			}
		})
	}
}

// TestSpare leaves some in hand where a set goes to the last repetition: two
// repetitions, or a third of many (common practice, no source).
func TestSpare(t *testing.T) {
	q := day(somebody("Mo", func(p *version.Person) { p.Athlete.Born = roomful.Date{Year: 2012} }), somebody("No", nil))
	q.Effort = roomful.Effort{}
	q.Piece = roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.AmountInTime{Window: 2 * time.Minute, Unbroken: true},
		Round: []roomful.Element{{Movement: "pull-up"}}}
	got := propose(t, q).Versions
	// 12 pull-ups at 1.28 x 0.1 down are 10.6; two less, and two thirds, are 7.
	if got[0].Choices[0].Amount != 7 || !got[0].Dose.Steady || got[0].Choices[0].Why != "7 today" {
		t.Errorf("%v, %+v, %q", got[0].Choices[0].Amount, got[0].Dose, got[0].Choices[0].Why)
	}
	if got[1].Choices[0].Amount != 0 || !got[1].Dose.Whole() {
		t.Errorf("somebody else: %v, %+v", got[1].Choices[0].Amount, got[1].Dose)
	}
}

// TestSpareInTime asks for no more in hand than there is time for: an easy set of
// hundreds ends at two thirds of what two minutes hold.
func TestSpareInTime(t *testing.T) {
	q := day(somebody("Mo", func(p *version.Person) { p.Athlete.Born = roomful.Date{Year: 2012} }))
	q.People[0].Abilities = able(900, 900, 900, 44)
	q.Effort = roomful.Effort{}
	q.Piece = roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.AmountInTime{Window: 2 * time.Minute, Unbroken: true},
		Round: []roomful.Element{{Movement: "pull-up"}}}
	pace := q.Lexicon.Movement("pull-up").Pace.Ordinary
	if n, most := propose(t, q).Versions[0].Choices[0].Amount, 120/pace; n > most || n < most/3 {
		t.Errorf("%v pull-ups in two minutes at %v s each", n, pace)
	}
}

// TestPartnersShare cuts nobody's amounts that are a team's.
func TestPartnersShare(t *testing.T) {
	q := day(somebody("Ann", limit("returning", -1)), somebody("Bea", nil))
	q.Piece.Team = roomful.Team{Size: 2, Style: roomful.Shared}
	q.Piece.Format = roomful.ForTime{Rounds: 1}
	q.Effort = roomful.Effort{Low: 1, High: 3, Unit: "minutes"}
	got := propose(t, q)
	for _, v := range got.Versions {
		for i, c := range v.Choices {
			if want := []float64{1000, 9, 12, 15}[i]; c.Amount != want {
				t.Errorf("%s: %s %v, want %v", v.Name, c.Movement, c.Amount, want)
			}
		}
	}
	if !strings.Contains(got.Attention[0].Why, "partner takes more") {
		t.Errorf("attention %v", got.Attention)
	}
}
