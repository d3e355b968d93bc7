package version

import (
	"cmp"
	"math"
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
	attendSore
	attendReturning
	attendNew
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
			of := why
			switch rank {
			case attendWindow, attendUnknown, attendKit:
				of = ""
			case attendSore:
				head, _, _ := strings.Cut(why, askFirst)
				of = head + askFirst
			case attendReturning, attendNew:
				head, _, _ := strings.Cut(why, theVolume)
				of = head + theVolume
			}
			calls = append(calls, call{rank, roomful.Attention{Athlete: p.id, Name: p.Athlete.Name, Why: why, Person: of}})
		}
		if p.care.Stop != nil {
			add(attendStop, care.StopWords(*p.care.Stop)+".")
		}
		if p.care.Young {
			add(attendYouth, sayYoung)
		}
		if p.care.Expecting {
			add(attendPregnant, sayPregnant)
		}
		if p.care.Stop == nil {
			c.attendDose(p, add)
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

// attendDose adds what hurts and how much less of the piece is theirs.
func (c *class) attendDose(p *person, add func(int, string)) {
	if sore := p.care.Sore(); len(sore) > 0 {
		add(attendSore, c.sore(p, sore))
	}
	how := ""
	switch d := p.plans[0].dose; {
	case d.StopAt > 0:
		how = ", stop at " + roomful.Clock(d.StopAt.Seconds())
	case d.Say != "":
		how = ", " + strings.TrimSuffix(d.Say, " today")
	case p.amounts < 1:
		how = ", in every amount"
	case c.Piece.Team.Size > 1:
		how = ", so their partner takes more of the turns"
	}
	if p.care.Returning {
		add(attendReturning, "First week back after two weeks or more away: half"+theVolume+how+".")
	} else if p.care.New {
		add(attendNew, "First months of training: three quarters of"+theVolume+how+".")
	}
}

// askFirst ends what is said of somebody who is sore before what is done about it.
const askFirst = ": ask before the ramp."

// theVolume ends what is said of somebody who does less of a piece before how much less.
const theVolume = " the volume"

// sore says what hurts, to ask before the ramp, and what is done about it.
func (c *class) sore(p *person, limits []roomful.Limit) string {
	var told []string
	for _, l := range limits {
		told = append(told, care.Told(l))
	}
	var done []string
	q := p.plans[0]
	for li, f := range q.fits {
		behind := c.behind(p, li, f)
		if behind.limit == nil || behind.limit.What == "pregnant" || f.stuck {
			continue
		}
		words := "two thirds of the " + say.Plural(c.lines[li].Movement)
		if behind.form == byLimit {
			words = say.Many(f.form.Movement, q.tasks[li]) + " instead of " + say.Many(c.lines[li].Movement, p.written[li])
		}
		if !slices.Contains(done, words) {
			done = append(done, words)
		}
	}
	out := capital(strings.Join(told, ", ")) + askFirst
	if len(done) == 0 {
		return out + " Nothing in this piece is changed for it."
	}
	for _, d := range done {
		out += " " + capital(d) + "."
	}
	return out
}

// capital begins a sentence.
func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// attendVersion adds what a person's version leaves open.
func (c *class) attendVersion(p *person, v roomful.Version, add func(int, string)) {
	q := p.plans[0]
	if miss := c.misses(q, v); miss != "" {
		add(attendWindow, miss)
	}
	for li, f := range q.fits {
		if f.why.load == byUnknown && f.form.Movement.Implement == roomful.Barbell {
			add(attendUnknown, "No maximum known for "+say.Plural(f.form.Movement)+": watch the proof set at "+say.Load(q.tasks[li].Load, p.Athlete.Unit)+".")
			break
		}
	}
	if c.Home && p.Athlete.Home == nil {
		add(attendKit, "Kit at home not told: nothing is assumed.")
	}
	for li, f := range q.fits {
		if f.stuck {
			add(attendKit, "Nothing replaces "+say.Plural(c.lines[li].Movement)+" for them: find something together.")
		}
	}
}

// How far the median may miss a window, as a share of its edge, before a coach is
// told (judgement): a little, since a score is no surer than that; and farther
// where little is known of somebody, or where it was not the sheet that set it.
const littleOff, farOff = 0.05, 0.25

// misses says that no version of a person lands in the window, and where the
// nearest does; nothing when one does or when the window is not what counts.
func (c *class) misses(q *plan, v roomful.Version) string {
	if c.free(q.p) {
		return ""
	}
	prob, in := c.met(v.Forecast)
	off := c.off(v.Forecast.Score.P50)
	if v.Forecast.OnIntent == nil {
		prob = q.prob
	}
	if c.Piece.Team.Size > 1 { // the score is the team's, the version their own
		in, off = q.medianIn, q.off
	}
	near := littleOff
	if c.Effort.Proposed || v.Confidence == roomful.Low {
		near = farOff
	}
	cannot := v.Forecast.Cannot >= 0.5
	early := c.Effort.Proposed && off > 0 // nobody asked for longer
	if in || q.medianIn && prob >= 0.5 || (early || math.Abs(off) <= near) && !cannot {
		return ""
	}
	side := "too easy"
	if off < 0 {
		side = "too hard"
	}
	out := "No version lands in " + c.aim() + ": the nearest is " + side
	if c.Effort.Proposed {
		out = "The piece is far from what was proposed for the room: the nearest version is " + side
	}
	switch {
	case cannot:
		return out + " at something they cannot do yet."
	case c.Piece.Team.Size <= 1 && v.Forecast.Text != "":
		return out + ", about " + v.Forecast.Text + "."
	}
	return out + "."
}
