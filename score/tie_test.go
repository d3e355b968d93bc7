package score_test

import (
	"testing"
	"time"

	"roomful"
	"roomful/score"
)

// TestTies tells equal scores apart by the rest of what was told (common practice, no
// source), and leaves them tied when somebody did not tell it.
func TestTies(t *testing.T) {
	bouts := roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.Intervals{Count: 3, Work: 20 * time.Second}, ScoreBy: "lowest"}
	lowest := func(name string, each ...int) roomful.Entry {
		e := on(name, roomful.RepsScore, 9)
		e.Done.Piece, e.Reading.EachReps = bouts, each
		return e
	}
	rows := roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.Intervals{Count: 3}, ScoreBy: "slowest"}
	slowest := func(name string, each ...float64) roomful.Entry {
		e := on(name, roomful.TimeScore, 62)
		e.Done.Piece, e.Reading.EachSeconds, e.Done.Splits = rows, each, each
		return e
	}
	// Three rounds of 20 for time: 45 done is two whole rounds and five.
	stopped := func(name string, splits ...float64) roomful.Entry {
		e := splitting(atCap(name, 45), splits...)
		e.Done.Work = roomful.Work{Round: []roomful.Task{{Movement: "push-up", Amount: 20, Unit: roomful.Rep}}}
		return e
	}
	for _, c := range []struct {
		name string
		q    score.Ranking
		want string
	}{
		{"lowest of bouts: all of them together", score.Ranking{Entries: roomful.Record{lowest("Ada", 9, 9, 12), lowest("Bo", 9, 12, 13), lowest("Cy", 10, 9, 11)}}, "1 Bo, 2= Ada, 2= Cy"},
		{"lowest of bouts, not all told", score.Ranking{Entries: roomful.Record{lowest("Ada", 9, 9, 12), lowest("Bo"), lowest("Cy", 9, 12, 13)}}, "1= Ada, 1= Bo, 1= Cy"},
		{"slowest of intervals: the least in all", score.Ranking{Entries: roomful.Record{slowest("Ada", 61, 61, 62), slowest("Bo", 58, 60, 62)}}, "1 Bo, 2 Ada"},
		{"slowest of intervals, one was left out", score.Ranking{Entries: roomful.Record{slowest("Ada", 61, 61, 62), slowest("Bo", 58, 62)}}, "1= Ada, 1= Bo"},
		{"at the cap: when the last full round was done", score.Ranking{Entries: roomful.Record{stopped("Ada", 300, 320), stopped("Bo", 290, 310)}}, "1 Bo, 2 Ada"},
		{"at the cap, the last full round not timed", score.Ranking{Entries: roomful.Record{stopped("Ada", 300, 320), stopped("Bo", 290)}}, "1= Ada, 1= Bo"},
		{"who is not ranked need not tell", score.Ranking{Unranked: map[string]bool{"Di": true}, Entries: roomful.Record{lowest("Di"), lowest("Ada", 9, 9, 12), lowest("Bo", 9, 12, 13)}}, "1 Bo, 2 Ada, - Di"},
	} {
		if got := places(ranked(t, c.q).Written); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}
