package care

import (
	"fmt"

	"roomful"
)

// restriction says what a limit rules out, the reasons for which swaps are then
// looked up, in order, and the private words for it.
type restriction struct {
	stresses []roomful.Stress
	reasons  []roomful.Reason
	avoid    string
	ease     string // the same where two thirds of a load may do instead
}

// restrictions by limit word. Which movement loads what is the catalogue's;
// what a limit rules out is a habit of the trade (common practice, no source),
// not medical advice. For pregnancy: lying on the back, falls, contact and
// being upside down (ACOG Committee Opinion 804, 2020), and landing hard
// (common practice, no source).
var restrictions = map[string]restriction{
	"back":      {[]roomful.Stress{roomful.StressSpine}, []roomful.Reason{roomful.ForBack}, "no loaded bending", "less loaded bending"},
	"shoulder":  {[]roomful.Stress{roomful.StressShoulder, roomful.StressOverhead}, []roomful.Reason{roomful.ForShoulder}, "nothing overhead, no hard pull on the shoulder", "less overhead, less hard pull on the shoulder"},
	"elbow":     {[]roomful.Stress{roomful.StressElbow}, []roomful.Reason{roomful.ForShoulder, roomful.ForWrist}, "no hard bending of the elbow", "less hard bending of the elbow"},
	"wrist":     {[]roomful.Stress{roomful.StressWrist}, []roomful.Reason{roomful.ForWrist}, "no load on a bent wrist", "less load on a bent wrist"},
	"neck":      {[]roomful.Stress{roomful.StressNeck, roomful.StressInversion}, []roomful.Reason{roomful.ForShoulder}, "nothing on the neck, nothing upside down", "less on the neck, less upside down"},
	"hip":       {[]roomful.Stress{roomful.StressHip}, []roomful.Reason{roomful.ForKnee, roomful.ForBack}, "no deep or fast bending of the hip", "less deep or fast bending of the hip"},
	"knee":      {[]roomful.Stress{roomful.StressKnee}, []roomful.Reason{roomful.ForKnee}, "no deep or fast bending of the knee", "less deep or fast bending of the knee"},
	"ankle":     {[]roomful.Stress{roomful.StressAnkle, roomful.StressImpact}, []roomful.Reason{roomful.ForImpact, roomful.ForKnee}, "no jumping or landing", "less jumping and landing"},
	"impact":    {[]roomful.Stress{roomful.StressImpact}, []roomful.Reason{roomful.ForImpact}, "no jumping or landing", "less jumping and landing"},
	"overhead":  {[]roomful.Stress{roomful.StressOverhead}, []roomful.Reason{roomful.ForShoulder}, "nothing overhead", "less overhead"},
	"grip":      {[]roomful.Stress{roomful.StressGrip}, []roomful.Reason{roomful.ForWrist, roomful.ForShoulder}, "nothing that hangs on the grip", "less that hangs on the grip"},
	"inversion": {[]roomful.Stress{roomful.StressInversion}, []roomful.Reason{roomful.ForShoulder}, "nothing upside down", "less upside down"},
	"pregnant": {[]roomful.Stress{roomful.StressBelly, roomful.StressSupine, roomful.StressFall, roomful.StressInversion, roomful.StressImpact},
		[]roomful.Reason{roomful.ForPregnancy}, "nothing on the belly, lying long on the back, upside down, or with a risk of falling", ""},
}

// PainActs is the pain of 10 from which an element is swapped or cut to two
// thirds; below, it goes ahead with a note (common practice; thresholds differ
// and the strictest is used).
const PainActs = 3

// TwoThirds is what is left of an element that hurts and has no swap.
const TwoThirds = 2.0 / 3

// mayCut is the greatest pain of 10 with which two thirds of a load is offered
// beside a swap (common practice, no source: the strictest swaps from 4).
const mayCut = 3

// MayCut reports whether two thirds of a loaded element may stand beside a swap;
// with more pain it is the last resort.
func MayCut(l roomful.Limit) bool { return l.Pain <= mayCut && l.What != "pregnant" }

// acts reports whether a limit changes what a person does. A limit told
// without a figure is treated as one that hurts.
func acts(l roomful.Limit) bool {
	_, known := restrictions[l.What]
	return known && (l.Pain < 0 || l.Pain >= PainActs || l.What == "pregnant")
}

// Forbids reports whether a limit rules a movement out.
func Forbids(l roomful.Limit, m *roomful.Movement) bool {
	for _, s := range restrictions[l.What].stresses {
		if m.Loads(s) {
			return true
		}
	}
	return false
}

// Told writes a limit as the person and coaches may read it.
func Told(l roomful.Limit) string {
	switch {
	case l.What == "pregnant":
		return "pregnant"
	case l.Pain < 0:
		return l.What + ", no figure told"
	default:
		return fmt.Sprintf("%s %d of 10 today", l.What, l.Pain)
	}
}

// StopWords is what a person is told who is sent to a professional, and what their coach
// reads of them.
func StopWords(l roomful.Limit) string {
	what := "by what was told"
	if l.What != "stop" {
		what = Told(l)
	}
	return what + ": no exercise here today; stop and see a professional before training again"
}

// Avoid says in private words what a limit rules out. Where two thirds of a load may stand
// beside swaps it says less and not none: one line of a piece may be swapped for it and
// another kept lighter, and the sentence holds for both.
func Avoid(l roomful.Limit) string {
	r := restrictions[l.What]
	if MayCut(l) && r.ease != "" {
		return Told(l) + ": " + r.ease
	}
	return Told(l) + ": " + r.avoid
}

// Reasons returns the catalogue's reasons to look up swaps for, in order.
func Reasons(l roomful.Limit) []roomful.Reason { return restrictions[l.What].reasons }
