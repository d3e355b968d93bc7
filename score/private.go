package score

import (
	"slices"
	"strings"
)

// bodyWords name a part of the body or how it feels. They are private with all
// that stands in the same clause and is no score and no change.
var bodyWords = wordSet(`shoulder shoulders elbow elbows wrist wrists neck hip hips ankle ankles hamstring hamstrings quad quads groin
 achilles shin shins chest rib ribs stomach tummy belly finger fingers thumb thumbs head heart hurt hurts hurting pain pains painful sore
 soreness tight tightness stiff ache aches aching achy injured injury niggle tweak tweaked twinge strain strained sprain sprained cramp cramps cramped
 dizzy nausea nauseous sick ill unwell migraine headache asthma pregnant pregnancy postpartum period fever flu cold vomited puked faint fainted
 numb tingling bleeding blister blisters surgery physio grip knackered hungover lungs breath breathless sciatica hernia disc meniscus acl ligament muscle bicep biceps tricep triceps
 forearm forearms glute glutes pec abs leg legs collarbone eye eyes tendon tendonitis
 schulter knie rücken handgelenk weh genou épaule boli bole ont meds pills virus jab vaccine adhd pcos ivf hrt ibs uti ptsd gp carpal plantar spine spinal
 seizure seizures blood bloody urine hospital rotator cuff anorexia bulimia mri xray baby babies ambulance emergency stitches therapist nurse clinic rehab
 overdose drunk sober symptom symptoms disease chronic kidney kidneys liver lung bone bones joint joints nerve nerves ear ears skin rash tooth teeth dentist jaw
 gut guts vein veins hormone hormones testosterone miscarriage abortion fertility crohn crohns coeliac celiac lupus trauma concussed unconscious swelling
 operation op biopsy scan ward icu diet suicidal selfharm self-harm counsellor psychiatrist tremor tremors
 leaked leaking peed pee bladder bowel blockers dor dores syk syg chory chora regla règles`)

// bodyStems begin words of the body, of illness and of medicine in the languages that
// members write in. Where a stem would also begin a movement or a plate ("Kreuzheben",
// "Bänder"), it goes on until it no longer does.
var bodyStems = strings.Fields(`schmerz rückens kopfschm knies schulters krank grippe fieber verletz schwanger muskel zerr medikament
 bandscheib erkält kreuzweh kreuzschm hüfte nacken ellbogen ellenbogen zyklus periode übelk schwindl schwindel operiert arzt stillend gelenk
 douleur fièvre blessé blessure enceinte malade fatigu crampe médicament genou épaul cheville poignet hanche enrhum grossesse accouch allait lombaire nausé vertige dépress
 dolor espalda rodilla hombro enferm embaraz fiebre lesión lesion calambre pastilla resfri muñeca tobillo cadera náusea mareo maread vómit gripe ansied
 bolov leđa koljen ramen trudn bolest boles prehlad temperatur ozljed lijek
 ryggen ryggont knäna knät axeln sjuk förkyl gravid skada feber medicin vondt ondt
 grávid costas joelho tornozelo pescoço constipad doente remédio
 incint schiena ginocchi spalla caviglia raffredd febbre influenz malat mestru farmac infortun
 zwanger schouder griep ziek verkouden koorts ongesteld misselijk duizelig
 ciąż ból pleców kolan gorącz przezięb kontuzj hamile ağrı sakat terhes fáj raskaa kipu kipeä
 беремен болит болить боль болел болезн спин колен травм температур простуд простыл заболел лекарств таблет тошн месячн вагітн біль حامل ألم وجع
 antibiot ibuprof paracet painkill medicat medicine inhaler insulin tablet cortis steroid antidepress chemo concuss bronch
 doctor predniso sertralin metformin statin warfarin thyroid betablock infect incontinen
 pregnan prego pregg miscarr menstru menopaus perimenop postnatal partum trimester endometrio ovulat caesar cesar breastf lactat pelvi
 inflam arthrit tendin sprain migra migrä asthma allerg diabet epilep covid injur sciati herni lumba spasm fractur swollen swell bruis numb palpit arrhythm vertigo cancer tumour tumor anxi depress panic bipolar hangover diarrh`)

// bodyInside stand anywhere in a word of pain or illness: at the end of a compound
// ("Bauchschmerzen", "rugpijn", "fasciitis"), and in scripts that set no spaces.
var bodyInside = strings.Fields("schmerz entzünd pijn värk smerte itis 疼 痛 孕 病 伤 傷 妊娠 生理 月经 感冒 膝 腰 药 薬")

// painBefore makes pain of the word "mal" before it, in French, Spanish and Italian:
// "mal au dos". Alone it is German for times.
var painBefore = wordSet("au aux à de di al")

// strokeAfter stand before a stroke that is none of an oar.
var strokeAfter = wordSet("a my your his her their mini had the")

// loneBody are body words that mean something else in other company: "first one
// back", "knees" for knee raises, "hands on a box", "bump it to 60".
var loneBody = wordSet("bump expecting back knee knees calf calves foot feet toe toes hand hands")

// backWords stand before a lone body word that is meant.
var backWords = wordSet("my lower low bad sore tight stiff left right dodgy torn ripped the because bc w/ with")

func wordSet(s string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(s) {
		out[w] = true
	}
	return out
}

// body reports whether token i speaks of the body. Movement names have been
// taken by then.
func (p *parser) body(i int) bool {
	w := p.word(i)
	if p.used[i] || p.toks[i].kind != wordToken {
		return false
	}
	if bodyWord(w) || w == "mal" && painBefore[p.word(i+1)] || w == "stroke" && strokeAfter[p.word(i-1)] || w == "passed" && p.word(i+1) == "out" {
		return true
	}
	if !loneBody[w] {
		return false
	}
	next := p.word(i + 1)
	if next == "on" && (w == "hands" || w == "hand" || w == "feet") {
		return false // "hands on a box"
	}
	return p.free[p.toks[i].clause] == 1 || backWords[p.word(i-1)] && next != "on" || bodyWords[next] || next == "was" || next == "is" || next == "felt" || next == "torn" || next == "ripped" || next == "says" || next == "gone"
}

// bodyWord reports whether a word by itself speaks of the body, in any language that is known.
func bodyWord(w string) bool {
	return bodyWords[w] ||
		slices.ContainsFunc(bodyStems, func(s string) bool { return strings.HasPrefix(w, s) }) ||
		slices.ContainsFunc(bodyInside, func(s string) bool { return strings.Contains(w, s) })
}

// hide finds the clauses that speak of the body and takes their words, and the
// plain figures behind the first body word, out of everything else. It returns
// what was hidden, as typed.
func (p *parser) hide() (clauses map[int]int) {
	p.countFree()
	clauses = map[int]int{}
	for i, t := range p.toks {
		if _, ok := clauses[t.clause]; !ok && p.body(i) {
			clauses[t.clause] = i
		}
	}
	for i, t := range p.toks {
		first, ok := clauses[t.clause]
		if !ok || p.used[i] || t.kind != numberToken || i < first || i > 0 && p.word(i-1) == "+" || p.word(i+1) == "+" {
			continue
		}
		p.used[i] = true // "6/10", "since set 3"
		t.kind = wordToken
		p.toks[i] = t
		p.used[i] = false
	}
	return clauses
}

// split writes what nothing was made of. A clause stands in the note when others may read
// each of its words; one that speaks of the body or has a word that is not known stays
// with the person and coaches, and so does one with figures or markup that nobody reads.
func (p *parser) split(clauses map[int]int) (private, unread []string, note string) {
	var notes []string
	for i := 0; i < len(p.toks); {
		j := i + 1
		for j < len(p.toks) && p.toks[j].clause == p.toks[i].clause {
			j++
		}
		words, of := p.leftOver(i, j)
		_, hidden := clauses[p.toks[i].clause]
		switch {
		case words == "":
		case hidden || of == forCoaches:
			private = append(private, words)
		case of == forNobody:
			unread = append(unread, words)
		default:
			notes = append(notes, words)
		}
		i = j
	}
	return private, unread, strings.Join(notes, ", ")
}

// linkWords say nothing when all else in a clause was understood.
var linkWords = wordSet("with then and for at @ + / - . , ; ( ) ! ? ~ | : # & -> in on the a as today w of to x i")

// leftOver returns the unused words from token i to j as typed, "" when only
// links are left, and who may read them.
func (p *parser) leftOver(i, j int) (words string, of audience) {
	var out strings.Builder
	says := false
	for k := i; k < j; k++ {
		if p.used[k] {
			continue
		}
		t := p.toks[k]
		says, of = says || !linkWords[t.text], max(of, p.audience(k))
		if out.Len() > 0 && !(t.glued && !p.used[k-1]) {
			out.WriteByte(' ')
		}
		out.WriteString(p.raw[t.start:t.end])
	}
	if !says {
		return "", forAll
	}
	return strings.Trim(out.String(), " ,.;()!|"), of
}
