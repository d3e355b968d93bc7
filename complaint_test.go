package roomful_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"roomful"
)

func pain(n int) *int { return &n }

// TestComplaint refuses what cannot be answered, each with the next step, and
// nothing else. A red flag needs no figure.
func TestComplaint(t *testing.T) {
	for _, c := range []struct {
		name string
		said roomful.Complaint
		want string // in the refusal, empty for none
		hint string
	}{
		{"nothing to speak of", roomful.Complaint{Area: "knee", Pain: pain(0)}, "", ""},
		{"the worst", roomful.Complaint{Area: "knee", Pain: pain(10)}, "", ""},
		{"below the scale", roomful.Complaint{Area: "knee", Pain: pain(-1)}, "pain of -1 is not on the scale", "from 0"},
		{"above the scale", roomful.Complaint{Area: "knee", Pain: pain(11)}, "pain of 11 is not on the scale", "to 10"},
		{"not asked", roomful.Complaint{Area: "knee"}, "how much it hurts is not said", "ask them"},
		{"a red flag", roomful.Complaint{Area: "back", Flags: []string{"saddle"}}, "", ""},
		{"a red flag and no area", roomful.Complaint{Flags: []string{"chest"}}, "", ""},
		{"no such question", roomful.Complaint{Area: "back", Flags: []string{"sadle"}}, `no question is called "sadle"`, "saddle"},
		{"no such area", roomful.Complaint{Area: "thumb", Pain: pain(3)}, `no area is called "thumb"`, "wrist"},
	} {
		err := c.said.Check()
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%s: refused: %v", c.name, err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(roomful.HintOf(err), c.hint)):
			t.Errorf("%s: %v (%s)", c.name, err, roomful.HintOf(err))
		}
	}
}

// TestAreas holds that a person may have each area as a limit.
func TestAreas(t *testing.T) {
	for _, a := range roomful.Areas {
		if !slices.Contains(roomful.LimitWords, a) {
			t.Errorf("%s is no limit", a)
		}
	}
}

// TestRedFlags holds that every question can be asked, answered and traced, that
// the signs of their area are among them, and that nobody is asked
// what is not for them.
func TestRedFlags(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range roomful.RedFlags {
		if seen[f.ID] || f.ID == "" || !strings.HasSuffix(f.Ask, "?") || f.Source == "" {
			t.Errorf("%+v", f)
		}
		seen[f.ID] = true
		for _, w := range f.For {
			if !slices.Contains(roomful.LimitWords, w) {
				t.Errorf("%s is asked for %q, which nobody has", f.ID, w)
			}
		}
	}
	ids := func(area string, limits ...roomful.Limit) (out []string) {
		for _, f := range roomful.FlagsFor(area, limits) {
			out = append(out, f.ID)
		}
		return out
	}
	for _, c := range []struct {
		got        []string
		asked, not string
	}{
		{ids("back"), "chest faint breath head saddle bladder urine numb night blow", "joint weight pregnancy"},
		{ids("ankle"), "chest faint breath head urine blow joint weight", "saddle bladder pregnancy"},
		{ids("wrist", roomful.Limit{What: "pregnant"}), "pregnancy joint", "weight saddle"},
	} {
		for _, id := range strings.Fields(c.asked) {
			if !slices.Contains(c.got, id) {
				t.Errorf("%s is not among %v", id, c.got)
			}
		}
		for _, id := range strings.Fields(c.not) {
			if slices.Contains(c.got, id) {
				t.Errorf("%s is among %v", id, c.got)
			}
		}
	}
}

// TestChange keeps what was done until a change, and lets a later word for the
// same time stand.
func TestChange(t *testing.T) {
	work := func(n float64) roomful.Work {
		return roomful.Work{Round: []roomful.Task{{Movement: "squat", Amount: n}}}
	}
	v := roomful.Version{Work: work(12)}
	v.Change(roomful.Segment{From: 6 * time.Minute, Work: work(8)})
	v.Change(roomful.Segment{From: 6 * time.Minute, Work: work(6)})
	v.Change(roomful.Segment{From: 9 * time.Minute, Work: work(4)})
	var got []float64
	for _, s := range v.Segments {
		got = append(got, s.From.Minutes(), s.Work.Round[0].Amount)
	}
	if want := []float64{0, 12, 6, 6, 9, 4}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	fresh := roomful.Version{Work: work(12)}
	fresh.Change(roomful.Segment{Work: work(8)})
	if len(fresh.Segments) != 1 || fresh.Segments[0].From != 0 {
		t.Errorf("changed before the start: %+v", fresh.Segments)
	}
}
