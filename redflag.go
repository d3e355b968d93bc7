package roomful

import "slices"

// RedFlag is a question that is asked before anybody who hurts goes on. A yes
// ends it: the answer is a referral, never an exercise and never a diagnosis.
type RedFlag struct {
	ID     string // kebab-case, for the command and JSON
	Ask    string // to be read aloud, answered with yes or no
	Source string
	Urgent bool // a yes calls for help now
	// For are the areas, or other limits of the person, that it is asked for; nil
	// is everybody.
	For []string
}

// Where the questions come from. That a single one of them tells little by itself
// is known; for a coach it is enough to stop.
const (
	sourceScreening = "signs that call for a doctor before exercise, Riebe et al. 2015, Med Sci Sports Exerc 47:2473-2479; the list from memory"
	sourceStroke    = "common practice in first aid; sudden weakness of one side, speech or sight is taught everywhere as an emergency"
	sourceMuscle    = "Caterisano et al. 2019, Strength Cond J 41(3):1-23, doi 10.1519/SSC.0000000000000477"
	sourceSpine     = "Finucane et al. 2020, J Orthop Sports Phys Ther 50:350-372, doi 10.2519/jospt.2020.9971; the wording is ours"
	sourceWeight    = "four steps as in Stiell et al. 1992, Ann Emerg Med 21:384-390, from memory"
	sourcePregnancy = "ACOG Committee Opinion 804, 2020, doi 10.1097/AOG.0000000000003772"
	sourceTrade     = "common practice, no source"
)

// RedFlags are all the questions, the pressing first.
var RedFlags = []RedFlag{
	{ID: "chest", Ask: "Any pain, pressure or tightness in your chest, or a heart that races or stumbles?", Source: sourceScreening, Urgent: true},
	{ID: "faint", Ask: "Did you faint or nearly, or are you dizzy or confused?", Source: sourceScreening, Urgent: true},
	{ID: "breath", Ask: "Are you far more out of breath than this work explains?", Source: sourceScreening, Urgent: true},
	{ID: "head", Ask: "A sudden severe headache, or one side weak, or trouble speaking or seeing?", Source: sourceStroke, Urgent: true},
	{ID: "saddle", Ask: "Any numbness where you would sit on a saddle?", Source: sourceSpine, Urgent: true, For: []string{"back", "hip"}},
	{ID: "bladder", Ask: "Any new trouble with bladder or bowel?", Source: sourceSpine, Urgent: true, For: []string{"back", "hip"}},
	{ID: "pregnancy", Ask: "Any bleeding, leaking fluid, regular painful tightening, or a sore, swollen calf?", Source: sourcePregnancy, Urgent: true, For: []string{"pregnant"}},
	{ID: "urine", Ask: "Dark urine, or marked swelling or weakness, in the days after hard new work?", Source: sourceMuscle, Urgent: true},
	{ID: "numb", Ask: "Does it shoot down an arm or a leg, or is one numb or weak?", Source: sourceSpine, For: []string{"back", "neck", "shoulder", "hip"}},
	{ID: "night", Ask: "Does it hurt at night or at rest and not let go?", Source: sourceSpine, For: []string{"back", "neck", "shoulder", "hip"}},
	{ID: "blow", Ask: "Did it begin with a fall, a blow, a pop or a snap?", Source: sourceTrade},
	{ID: "joint", Ask: "Does the joint lock or give way, or is it swollen or out of shape?", Source: sourceTrade, For: []string{"shoulder", "elbow", "wrist", "hip", "knee", "ankle"}},
	{ID: "weight", Ask: "Can you not put weight on it for four steps?", Source: sourceWeight, For: []string{"hip", "knee", "ankle"}},
}

// FlagsFor returns the questions for an area, and for whatever else limits a
// person.
func FlagsFor(area string, limits []Limit) []RedFlag {
	var out []RedFlag
	for _, f := range RedFlags {
		asked := len(f.For) == 0 || slices.Contains(f.For, area)
		for _, l := range limits {
			asked = asked || slices.Contains(f.For, l.What)
		}
		if asked {
			out = append(out, f)
		}
	}
	return out
}

// FlagByID finds a question.
func FlagByID(id string) (f RedFlag, ok bool) {
	i := slices.IndexFunc(RedFlags, func(f RedFlag) bool { return f.ID == id })
	if i < 0 {
		return RedFlag{}, false
	}
	return RedFlags[i], true
}

// flagIDs lists the ids of the questions.
func flagIDs() []string {
	var out []string
	for _, f := range RedFlags {
		out = append(out, f.ID)
	}
	return out
}
