package version_test

import (
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/version"
)

// TestOddPieces gives pieces that are hardly pieces, and every format, to people
// of every state: each gets a version with a line of why for each element.
func TestOddPieces(t *testing.T) {
	squats := reps("front-squat", 9, roomful.Masses{roomful.Kg(60), roomful.Kg(42.5)})
	rest := roomful.Element{Movement: roomful.Rest, Amount: roomful.Amount{By: []float64{60}, Unit: roomful.Second}}
	for _, c := range []struct {
		name string
		part roomful.Part
	}{
		{"nothing at all", roomful.Part{Format: roomful.RoundsInTime{Window: time.Minute}}},
		{"a movement nobody knows", roomful.Part{Format: roomful.RoundsInTime{Window: 14 * time.Minute},
			Round: []roomful.Element{reps("heron-walk", 10, nil), squats, reps("", 5, roomful.Masses{})}}},
		{"rest", roomful.Part{Format: roomful.ForTime{Rounds: 3}, Round: []roomful.Element{squats, rest, reps("pull-up", 10, nil)}}},
		{"a ladder", roomful.Part{Format: roomful.ForTime{Rounds: 3, Ladder: roomful.Ladder{Steps: []int{21, 15, 9}}, Cap: 10 * time.Minute},
			Round: []roomful.Element{{Movement: "pull-up"}, {Movement: "front-squat", Load: roomful.Masses{roomful.Kg(40)}}}}},
		{"an open ladder", roomful.Part{Format: roomful.RoundsInTime{Window: 6 * time.Minute, Ladder: roomful.Ladder{Steps: []int{3, 6}, Open: true}},
			Round: []roomful.Element{{Movement: "pull-up"}}}},
		{"as many as possible", roomful.Part{Format: roomful.AmountInTime{Window: time.Minute}, Round: []roomful.Element{{Movement: "pull-up"}}}},
		{"every minute", roomful.Part{Format: roomful.Every{Interval: time.Minute, Count: 10}, Round: []roomful.Element{squats, reps("box-jump", 12, nil)}}},
		{"intervals", roomful.Part{Format: roomful.Intervals{Count: 5, Rest: time.Minute}, Round: []roomful.Element{metres("row", 250)}}},
		{"stations", roomful.Part{Format: roomful.Stations{Rounds: 3, Work: time.Minute}, Team: roomful.Team{Size: 2, Style: roomful.Shared},
			Round: []roomful.Element{{Movement: "row"}, {Movement: "box-jump"}}}},
		{"a build to a heavy three", roomful.Part{Kind: roomful.Strength, Format: roomful.Sets{Count: 5, Build: true}, Round: []roomful.Element{reps("deadlift", 3, nil)}}},
		{"a load of one's own", roomful.Part{Format: roomful.ForTime{Rounds: 3}, Round: []roomful.Element{reps("deadlift", 10, nil)}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := day(room()...)
			q.People = append(q.People, version.Person{Athlete: roomful.Athlete{Name: "zoe"}},
				version.Person{Athlete: roomful.Athlete{Name: "new", Months: months(1), Born: roomful.Date{Year: 2012}}})
			q.Piece = c.part
			for _, q.Home = range []bool{false, true} {
				got := propose(t, q)
				for _, v := range got.Versions {
					if want := len(c.part.Round); v.Stop == "" && len(v.Choices) != want {
						t.Errorf("%s: %d elements of %d", v.Name, len(v.Choices), want)
					}
					for _, ch := range v.Choices {
						if ch.Why == "" || ch.Amount < 0 {
							t.Errorf("%s: %s %v, %q", v.Name, ch.Movement, ch.Amount, ch.Why)
						}
					}
				}
			}
		})
	}
}

// TestOwnMaximum asks the young for no maximal load in a build.
func TestOwnMaximum(t *testing.T) {
	q := day(somebody("Lu", func(p *version.Person) { p.Athlete.Born = roomful.Date{Year: 2012} }))
	q.Effort = roomful.Effort{}
	q.Piece = roomful.Part{Kind: roomful.Strength, Scored: true, Format: roomful.Sets{Count: 5, Build: true},
		Round: []roomful.Element{reps("deadlift", 1, nil)}}
	c := propose(t, q).Versions[0].Choices[0]
	// 6 repetitions need 110/(1 + 5/30) = 94.3 at most.
	if c.Amount < 6 || c.Load.Kg() > 94.3 || c.Load.Value == 0 || !c.Changed || strings.Contains(c.Why, "18") {
		t.Errorf("a heavy single under 18: %v at %s, %q", c.Amount, c.Load, c.Why)
	}
}
