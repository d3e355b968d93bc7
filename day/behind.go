package day

import (
	"context"
	"fmt"
	"slices"
	"time"

	"roomful"
	"roomful/version"
)

// CutBack is the answer about somebody in the middle of a piece.
type CutBack struct {
	Piece  roomful.Part
	Effort roomful.Effort
	roomful.CutBack
}

// Progress is how far somebody has come: whole rounds and repetitions of the next,
// or repetitions in all when there are no rounds to count.
type Progress struct {
	At     time.Duration // on the piece's clock
	Rounds int
	Extra  float64
	Plain  bool // Extra is the count in all
}

// CutBack says where somebody ends who has come so far, and what to cut now.
func (d *Day) CutBack(ctx context.Context, q Question, who roomful.Athlete, p Progress) (CutBack, error) {
	of, err := d.class(q)
	if err != nil {
		return CutBack{}, err
	}
	of.Runs = fewestRuns
	r := d.versionRequest(ctx, &of, false)
	l, err := version.Propose(ctx, r)
	if err != nil {
		return CutBack{}, err
	}
	i := slices.IndexFunc(l.Versions, func(v roomful.Version) bool { return v.Athlete == who.ID })
	if i < 0 {
		return CutBack{}, &roomful.Error{Summary: who.Name + " is not among the people", Hint: "add them to the file of people"}
	}
	done, err := d.counted(of.piece, l.Versions[i], p)
	if err != nil {
		return CutBack{}, err
	}
	got, err := version.CutBack(ctx, version.BehindQuestion{Request: r, Version: l.Versions[i], At: p.At, Done: done})
	if err != nil {
		return CutBack{}, err
	}
	if whole := got.Ends.TotalReps; done > whole.P95 {
		return CutBack{}, pastTheEnd(got, done)
	}
	return CutBack{of.piece, of.effort, got}, nil
}

// pastTheEnd refuses what is more than the whole piece is forecast to hold: an
// ending below what is already done would answer a slip of the finger in earnest.
func pastTheEnd(c roomful.CutBack, done float64) error {
	return &roomful.Error{
		Summary: fmt.Sprintf("%s done at %s is more than %s is forecast for the whole piece, about %s",
			roomful.Figure(done), roomful.Clock(c.At.Seconds()), c.Name, roomful.Figure(float64(int(c.Ends.TotalReps.P50)))),
		Hint: "check the figure; if it is right, there is nothing to cut",
	}
}

// counted returns what somebody has done in repetitions and calories.
func (d *Day) counted(piece roomful.Part, v roomful.Version, p Progress) (float64, error) {
	if p.Plain {
		return p.Extra, nil
	}
	var ladder roomful.Ladder
	most := int(^uint(0) >> 1)
	switch f := v.Dose.Of(piece).Format.(type) {
	case roomful.RoundsInTime:
		ladder = f.Ladder
	case roomful.ForTime:
		ladder, most = f.Ladder, max(1, f.Rounds)
	}
	if p.Rounds > most {
		return 0, &roomful.Error{Summary: fmt.Sprintf("%d rounds done of %d", p.Rounds, most), Hint: "give whole rounds and repetitions of the next, such as 1+12"}
	}
	if whole := v.Work.Counted(ladder, p.Rounds+1, 0) - v.Work.Counted(ladder, p.Rounds, 0); p.Extra > whole {
		return 0, &roomful.Error{Summary: fmt.Sprintf("%s repetitions of a round of %s", roomful.Figure(p.Extra), roomful.Figure(whole)), Hint: "give whole rounds and repetitions of the next, such as 1+12"}
	}
	return v.Work.Counted(ladder, p.Rounds, p.Extra), nil
}
