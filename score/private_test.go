package score_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roomful"
	"roomful/score"
)

// TestPrivateInManyLanguages types words of the body, of illness and of medicine as
// members do: none may stand in the note, which others read. The lines and their
// translations are from memory.
func TestPrivateInManyLanguages(t *testing.T) {
	for _, words := range []string{
		"w ciąży", "incinta", "zwanger", "grávida", "беременна", "妊娠中", "hamile", "mal di schiena", "mal au dos", "rugpijn",
		"ból pleców", "dor nas costas", "болит спина", "膝盖疼", "ryggen", "Kreuzweh", "Bandscheibe", "Bauchschmerzen",
		"erkältet", "enrhumé", "resfriado", "verkouden", "plantar fasciitis", "carpal tunnel", "6 weeks post partum",
		"postnatal", "prego lol", "bump is in the way", "my bump", "expecting", "pelvic floor", "leaked on the jumps",
		"panic attack", "anxious today", "migrane", "PCOS day", "IVF so", "beta blockers", "sertraline", "prednisolone",
		"vélo, genou douloureux", "doctor's orders", "back gone", "had a stroke", "passed out", "blood in my urine", "rotator cuff", "mri friday",
	} {
		for _, typed := range []string{"21:58 " + words, "21:58, " + words, "21:58 ring rows (" + words + ")"} {
			r := privateReading(t, typed)
			if *r.Seconds != 21*60+58 {
				t.Errorf("%q: %v s", typed, *r.Seconds)
			}
			last := words[strings.LastIndex(words, ", ")+1:]
			if len(r.Private) == 0 || strings.Contains(r.Note, strings.TrimSpace(last)) {
				t.Errorf("%q: private %q, note %q", typed, r.Private, r.Note)
			}
		}
	}
}

// TestNotOfTheBody types words that only look like those of the body: a load beside them
// is still read, which one behind a word of pain is not.
func TestNotOfTheBody(t *testing.T) {
	for _, words := range []string{"Kreuzheben locker", "dreimal geteilt", "mal langsam", "bump it up", "loved it", "station by station", "hasta la vista", "long strokes"} {
		if r := privateReading(t, "21:58, "+words+" 60"); len(r.LoadsKg) != 1 || r.LoadsKg[0] != 60 {
			t.Errorf("%q hides the load: %v", words, r.LoadsKg)
		}
	}
	if r := privateReading(t, "21:58, rücken 60"); len(r.LoadsKg) > 0 {
		t.Errorf("the figure of a pain is read as a load: %v", r.LoadsKg)
	}
}

// TestPublicByKind types notes: one of words that are said of sessions is for all, one
// with a word that is not known, or a picture that may mean a body, stays with coaches.
func TestPublicByKind(t *testing.T) {
	for words, public := range map[string]bool{
		"loved it": true, "forgot the watch": true, "swings unbroken": true, "🔥💪": true, "24 s better": true,
		"lupus today": false, "bump today": false, "mama called": false, "my Hashimoto": false, "🤰": false, "07700900123": false, "Wren was faster": false, "<i>fast</i>": false,
	} {
		r := privateReading(t, "21:58, "+words)
		if (r.Note != "" && len(r.Private) == 0) != public {
			t.Errorf("%q: note %q, private %q", words, r.Note, r.Private)
		}
	}
}

// TestPrivateAnywhere puts private words before, behind and inside scores, as people
// do: none may stand in what others see. The words are from memory.
func TestPrivateAnywhere(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		word := rapid.SampledFrom([]string{"sciatica", "pregnant", "ibuprofen", "shoulder", "Rückenschmerzen", "enceinte", "embarazada", "trudna", "gravid", "migraine", "insulin"}).Draw(rt, "word")
		shape := rapid.SampledFrom([]string{"21:58, W", "W, 21:58", "W so 21:58", "21:58 (W)", "21:58 w/ band, W again", "W! 21:58", "21:58\nW", "21:58 / W / 16", "21:58 because of W"}).Draw(rt, "shape")
		r := privateReading(t, strings.Replace(shape, "W", word, 1))
		said := r.Note + r.Partner + r.SameAs
		for _, c := range r.Changes {
			said += string(c.Of) + string(c.To) + c.Assist
		}
		if r.Question != nil {
			said += r.Question.Ask + strings.Join(r.Question.Answers[:], "")
		}
		if len(r.Private) == 0 || strings.Contains(strings.ToLower(said), strings.ToLower(word)) {
			rt.Fatalf("%q in %q: private %q, others see %q", word, shape, r.Private, said)
		}
	})
}

// privateReading reads a line against a piece of runs, deadlifts and pull-ups.
func privateReading(t *testing.T, typed string) roomful.Reading {
	t.Helper()
	lex := lexicon(t)
	s := specSheet(t, "main: for time, cap 28 min\n  800 m run\n  30 deadlifts 80/55 kg\n  20 pull-ups\n", lex)
	a, err := score.Read(score.Asked{Session: s, Piece: "main", Lexicon: lex}, typed)
	if err != nil || len(a.Readings) != 1 || a.Readings[0].Seconds == nil {
		t.Fatalf("%q: %+v, %v", typed, a, err)
	}
	return a.Readings[0]
}
