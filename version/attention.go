package version

import (
	"cmp"
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/say"
)

// The order in which people need the coach.
const (
	attendStop = iota
	attendYouth
	attendPregnant
	attendReturning
	attendWindow
	attendUnknown
	attendDoubt
	attendKit
)

// call is one reason to see somebody.
type call struct {
	rank int
	roomful.Attention
}

// attention lists who needs the coach and why, most pressing first.
func (c *class) attention(versions []roomful.Version) []roomful.Attention {
	var calls []call
	for i, p := range c.everyone {
		add := func(rank int, why string) {
			calls = append(calls, call{rank, roomful.Attention{Athlete: p.id, Name: p.Athlete.Name, Why: why}})
		}
		if p.care.Stop != nil {
			add(attendStop, care.StopWords(*p.care.Stop)+".")
		}
		if p.care.Young {
			add(attendYouth, "Under 18: stay close, technique first, no maximal loads.")
		}
		if p.care.Expecting {
			add(attendPregnant, "Pregnant: ask how they are and what their own clinician said.")
		}
		if p.care.Returning {
			add(attendReturning, "First week back after two weeks or more away: half the volume.")
		}
		if p.care.Stop == nil {
			c.attendVersion(p, versions[i], add)
		}
		if len(p.Doubts) > 0 {
			add(attendDoubt, "What was told does not agree: "+strings.Join(p.Doubts, "; ")+".")
		}
	}
	slices.SortStableFunc(calls, func(a, b call) int { return cmp.Compare(a.rank, b.rank) })
	var out []roomful.Attention
	for _, a := range calls {
		out = append(out, a.Attention)
	}
	return out
}

// attendVersion adds what a person's version leaves open.
func (c *class) attendVersion(p *person, v roomful.Version, add func(int, string)) {
	q := p.plans[0]
	prob, in := c.met(v.Forecast)
	if v.Forecast.OnIntent == nil {
		prob = q.prob
	}
	hard := v.Forecast.Cannot >= 0.5 || c.side(v.Forecast.Score.P50) <= 0
	aside := p.care.Volume < 1 || v.Confidence == roomful.Low || !hard && len(p.care.Acting) > 0 // the window is not what rules their day
	if c.Piece.Team.Size > 1 {                                                                   // the score is the team's, the version their own
		in = q.medianIn
	}
	if c.windowed && !in && !(q.medianIn && prob >= 0.5) && !aside {
		add(attendWindow, "No version lands in "+c.aim()+": the nearest is "+miss(v.Forecast, hard)+".")
	}
	for li, f := range q.fits {
		if f.why.load == byUnknown && f.form.movement.Implement == roomful.Barbell {
			add(attendUnknown, "No maximum known for "+say.Plural(f.form.movement)+": watch the proof set at "+q.tasks[li].Load.String()+".")
			break
		}
	}
	if c.Home && p.Athlete.Home == nil {
		add(attendKit, "Kit at home not told: nothing is assumed.")
	}
	for li, f := range q.fits {
		if f.stuck {
			add(attendKit, "Nothing replaces "+say.Plural(c.lines[li].movement)+" for them: find something together.")
		}
	}
}

// miss says on which side a forecast misses the window.
func miss(f roomful.AthleteForecast, hard bool) string {
	switch {
	case f.Cannot >= 0.5:
		return "too hard at something they cannot do yet"
	case hard:
		return "too hard"
	}
	return "too easy"
}
