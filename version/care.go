package version

import (
	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/say"
)

// Care is how far somebody is held back on a day, whatever is on the sheet, in words for
// them and for coaches. It diagnoses nothing.
type Care struct {
	States   []string // "first months", "under 18"
	Stop     bool     // they are sent to a professional
	Say      []string // what holds for them, the pressing first
	Cautions []string // to read out or to hand over
}

// CareFor says how far somebody is held back on a day, with the gym's own words.
func CareFor(a roomful.Athlete, on roomful.Date, house roomful.HouseCautions) Care {
	b := care.Of(a, on)
	var out Care
	if b.Stop != nil {
		out.Stop = true
		out.Say = append(out.Say, care.StopWords(*b.Stop)+".")
		out.Cautions = care.StopCautions(house)
	}
	for _, s := range []struct {
		is          bool
		state, says string
	}{
		{b.Young, "under 18", sayYoung},
		{b.Expecting, "pregnant", sayPregnant},
		{b.Returning, "first week back", sayReturning},
		{b.New, "first months", sayNew},
	} {
		if s.is {
			out.States, out.Say = append(out.States, s.state), append(out.Say, s.says)
		}
	}
	if b.Volume < 1 {
		out.Say = append(out.Say, "At most "+say.Share(b.Volume)+" the volume that is written.")
	}
	if b.LeastReps > 0 {
		out.Say = append(out.Say, "Loads they could move "+say.Count(b.LeastReps, "time")+" fresh, or lighter.")
	}
	for _, l := range b.Acting {
		out.Say = append(out.Say, capital(care.Avoid(l))+".")
	}
	for _, l := range b.Noted {
		out.Say = append(out.Say, capital(care.Told(l))+": go ahead, stop if it grows.")
	}
	out.Cautions = append(out.Cautions, b.Cautions(false, house)...)
	return out
}

// What the states ask of a coach.
const (
	sayYoung     = "Under 18: stay close, technique first, no maximal loads."
	sayPregnant  = "Pregnant: ask how they are and what their own clinician said."
	sayReturning = "First week back after two weeks or more away."
	sayNew       = "First months of training: ask about current activity, symptoms and known disease before the first hard day."
)
