package care

import (
	"strings"

	"roomful"
)

// caution is a text that may be printed for a person, with its source.
type caution struct {
	text   string
	source string
}

// deference ends every caution.
const deference = "Local rules and licensed practice come first."

// with writes the caution with its source, the gym's words beside or in place of
// ours, and the deference, which nothing takes away.
func (c caution) with(add, replace string) string {
	if replace != "" {
		c = caution{strings.TrimSuffix(replace, "."), "the gym's own words"}
	}
	out := c.text + " (" + c.source + "). "
	if add != "" {
		out += strings.TrimSuffix(add, ".") + ". "
	}
	return out + deference
}

// The cautions, by the state they are for, in sentences short enough to be read
// out.
var (
	cautionStop = caution{"Seek medical help for chest pain, fainting or breathlessness out of proportion. " +
		"Seek it too for numbness in the saddle area, or loss of bladder or bowel control. " +
		"See a professional about a joint that locks or gives way, and about pain of 6 or more of 10",
		"common practice, the strictest of several thresholds"}
	cautionPain = caution{"Stop any movement that brings pain that is new, sharp or above 5 of 10, and tell the coach. " +
		"This is a list of what is often chosen, not a diagnosis",
		"common practice; thresholds differ and the strictest is used"}
	cautionYouth = caution{"Under 18: train with qualified supervision, and put technique first. " +
		"Train two or three days a week, not on days that follow each other. No maximal loads",
		"Faigenbaum et al. 2009, J Strength Cond Res 23(5):S60-S79; Lloyd et al. 2014, Br J Sports Med 48:498-505, pages from memory"}
	cautionPregnant = caution{"Pregnant: exercise is safe and desirable when nothing speaks against it. Follow your own clinician. " +
		"Avoid long lying on the back, overheating, falls and contact. " +
		"Stop and call them for bleeding, pain in the belly, regular painful contractions or leaking fluid. " +
		"Do the same for chest pain, short breath before any effort, dizziness, a headache, or weakness that upsets your balance. " +
		"Pain or swelling in the calf counts too",
		"ACOG Committee Opinion 804, 2020, doi 10.1097/AOG.0000000000003772; the list of signs from memory"}
	cautionReturning = caution{"After two weeks or more away: half the volume in the first week. Limits hold for the first two to four weeks",
		"Caterisano et al. 2019, Strength Cond J 41(3):1-23, doi 10.1519/SSC.0000000000000477; the half from memory"}
	cautionMuscle = caution{"Seek medical help at once for dark urine, marked swelling or weakness. They may come one to three days after hard new work",
		"Caterisano et al. 2019, Strength Cond J 41(3):1-23, doi 10.1519/SSC.0000000000000477"}
	cautionNew = caution{"New to training: ask about current activity, symptoms and known disease before the first hard day. " +
		"Ask too how hard it is meant to be",
		"Riebe et al. 2015, Med Sci Sports Exerc 47:2473-2479"}
	cautionAlone = caution{"Training alone: keep a phone within reach and lift nothing maximal. " +
		"Do nothing upside down without space and somebody near",
		"common practice, no source"}
	cautionTurns = caution{"The amounts of this piece are the partners' together. " +
		"Take at most three quarters of your share while new, and half in the first week back",
		"common practice, no source"}
)

// Alone is printed for somebody who trains without anybody beside them, with the
// gym's words.
func Alone(house roomful.HouseCautions) string { return cautionAlone.with(house.Add.Alone, "") }

// StopCautions are printed for somebody who is sent to a professional, with the
// gym's words.
func StopCautions(house roomful.HouseCautions) []string {
	return []string{cautionStop.with(house.Add.Stop, "")}
}

// Cautions lists what to print for somebody, the pressing first, with the gym's
// words; shared says that the piece has amounts that are not theirs alone to cut.
// What holds a red flag or a published bound can be added to and not replaced.
func (b *Bounds) Cautions(shared bool, house roomful.HouseCautions) []string {
	sore := len(b.Acting) + len(b.Noted)
	if b.Expecting {
		sore--
	}
	var out []string
	for _, w := range []struct {
		when         bool
		what         caution
		add, replace string
	}{
		{sore > 0, cautionPain, house.Add.Pain, ""},
		{b.Young, cautionYouth, house.Add.Youth, ""},
		{b.Expecting, cautionPregnant, house.Add.Pregnant, ""},
		{b.Returning, cautionReturning, house.Add.Returning, house.Replace.Returning},
		{b.New, cautionNew, house.Add.New, house.Replace.New},
		{b.Returning || b.New, cautionMuscle, house.Add.Muscle, ""},
		{b.Volume < 1 && shared, cautionTurns, house.Add.Shared, house.Replace.Shared},
	} {
		if w.when {
			out = append(out, w.what.with(w.add, w.replace))
		}
	}
	return out
}
