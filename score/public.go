package score

import (
	"slices"
	"unicode"
	"unicode/utf8"
)

// publicWords are all the words that others may read in a note, beside movements, units
// and the words of scores. Who lists illnesses forgets one; who lists what people say of
// a session forgets nothing that hurts. No word may stand here that names or hints at a
// body, an absence, a mood beyond the session, or a person.
var publicWords = wordSet(`i me my mine we us our you your it its this that these those there here a an the of to in on at by from for with without w/o into over under except alternating alternate subbed scaled scale minus plus result everything quite may might been repped full complete guess approx approximately roughly probably finally attempt attempts place shared belt misses others horrible awful hit reached bang drop dropping worked built top triple triples strength main amrap emom across through finishing managed into inch inches
 up off out and or but so because bc if as than then also too not no yes am is are was were be been do did does done had have has got get
 would could should will can went go going said told say like felt feels made make making took take tried try started start finished finish
 ended stopped stop kept keep held hold broke break breaks paused pause rested rest counted count forgot lost missed failed fail dropped
 switched swapped changed used use using walked walking ran running rowed biked skied stepped carried talking laughed loved love enjoyed
 liked hated see saw think thought know knew all both each every whole half part most more less much many few some any only just even still
 again almost nearly about around otherwise instead same other another first last next one two three four five six seven eight nine ten sixes
 fives fours tens dozen time times once twice today yesterday now before after later since until while when always never day morning evening
 noon lunch class session way long longer short shorter fast faster slow slower slowly quick quicker early late hard harder easy easier heavy
 heavier light lighter big bigger small smaller good great better best nice fun brilliant lovely awesome cool ok okay fine well perfect clean
 strong solid smooth steady steadily wild brutal spicy savage tough ugly pb pr max new equal split negative unbroken ub sets set reps rep
 round rounds rung rungs interval intervals minute minutes min mins sec secs seconds pace paced pacing strategy plan goal target slowest
 fastest score total cap capped dnf gave quit left rpe no-rep norep no-reps nr ish coach everybody everyone nobody team partner mate bar bars barbell
 barbells empty rack plate plates disc discs collar collars bench box boxes band bands ring rings rope ropes ball balls wall bell bells kb
 kbs db dbs wb rower rowers bike bikes ski machine machines sled mat pad pads floor door clock watch timer chalk music playlist song speakers
 board home garage park outside inside room lane spot full free busy wind windy rain raining rainy sun sunny snow snowy lower higher thicker
 thinner red green blue black purple orange yellow grey arm hands side sides right across strict kipping kip tempo depth lockout stance
 singles doubles dubs cals cal kg lb lbs km m metres standards standard splits lap laps form technique mistake wrong miscounted counting sorry thanks thank
 cheers lol haha wow yay woohoo phew ugh argh mit ohne und oder ab bis dem den der die das ein eine im zu von für noch nur alle heute super
 gut schnell langsam schwer leicht satz sätze avec sans et ou le la les un une de du des en pour plus moins bien très aujourd'hui dur facile
 con sin y o el los las una por muy hoy duro fácil s bez ili danas dobro teško gotove gotovo sve second third st nd rd th fourth fifth sixth
 window windows open opened closed close shut fan fans breeze water bottle tea coffee breakfast parking bus tram traffic key keys
 shoes socks gloves shirt jacket lights lamp mirror ceiling queue space crowd crowded group folk six seven o'clock tonight tomorrow 
 monday tuesday wednesday thursday friday saturday sunday please maybe perhaps really very pretty rather such own among along away behind beside between above below onto 
 how what which who why where whether about because though although unless idea question answer video demo briefing explained explain explains showed shown show watch watching
 watched noise noisy quiet loud louder volume moved move moving sharing swap swaps planned plans wish hope hoped hoping wonder wondered bring brought found find finding left
 please sheet sheets option options version versions written write wrote read reading typed number numbers figure figures screen page line lines word words sentence story title
 warm-up cool-down warmup cooldown mobility stretch stretches practice practise skill skills drill drills move moves movement movements weight weights load loads loaded loading
 opener opening ending beginning middle corner corners turn turns turned waiting waited wait waits
 share shares trade traded partners pair pairs pairing works working figured surprised surprise surprising proper properly exactly simply quickly
 smoothly proud pleased grateful welcome hello hi bye morning mornings evenings afternoon afternoons everytime everywhere somewhere nowhere anything something
 nothing anyone someone else lots lot bit bits plenty enough couple added add adds adding extra missing spare cleaned cleaning
 skipped thing things carry carries swing swings runs squats cleans presses snatches jumps ups didn't didn’t don't don’t couldn't couldn’t
 wasn't wasn’t mal zeit klimmzug klimmzüge kniebeugen kreuzheben locker dreimal geteilt station stations hasta vista serie séries tour tours tractions pompes`)

// publicSigns are the pictures that others may read.
var publicSigns = []rune("👌✅⚡🎯🔥💪🎉🥳👏🙌😅😂🤣😎💯🌧☀❄⛈🌞☔👍👊✌🏆🥇🚀✨🥵💦🚣🚴🏃🏋♀♂\ufe0f\u200d")

// audience is who may read what nothing was made of.
type audience uint8

// Everybody; the person and coaches, since it makes no sense to others; and they alone,
// since it may speak of the body.
const (
	forAll audience = iota
	forNobody
	forCoaches
)

// audience says who may read token i when nothing was made of it.
func (p *parser) audience(i int) audience {
	t := &p.toks[i]
	public := false
	switch {
	case p.named.inside(i), p.inTag(i):
		public = true
	case isDigit(p.raw[t.start]):
		if len(digitsOf(p.raw[t.start:t.end])) > longestDigits {
			return forNobody
		}
		public = true
	case t.kind == wordToken:
		public = publicWords[t.text] || linkWords[t.text] || bandWords[t.text] || choiceWords[t.text] || scoreWord(t.text)
	case t.kind == numberToken:
		public = true
	default:
		r, _ := utf8.DecodeRuneInString(p.raw[t.start:t.end])
		if r == '<' || r == '>' {
			return forNobody
		}
		public = r < unicode.MaxASCII || !unicode.IsSymbol(r) && unicode.IsPunct(r) || slices.Contains(publicSigns, r) || r >= '🏻' && r <= '🏿'
	}
	if public {
		return forAll
	}
	return forCoaches
}

// inTag reports whether a word is the name of a tag, "<b>" and "</b>".
func (p *parser) inTag(i int) bool {
	t := &p.toks[i]
	return t.kind == wordToken && t.glued && tags[t.text] && (p.word(i-1) == "<" || p.word(i-1) == "/" && p.word(i-2) == "<")
}

// tags are the usual ones of markup.
var tags = wordSet("a b i u p br em strong div span script style img h1 h2 li ul td tr table")

// longestDigits is how long a figure may be that others read: longer ones are telephone
// numbers and the like.
const longestDigits = 5

// scoreWord reports whether a word belongs to what scores are made of.
func scoreWord(w string) bool {
	if _, ok := measureUnits[w]; ok || implementWords[w] != "" || isSecond(w) {
		return true
	}
	for _, words := range [][]string{aboutWords, ishWords, roundWords, repWords, joinWords, kgWords, lbWords, missWords, finishWords, fromWords, swingWords} {
		if slices.Contains(words, w) {
			return true
		}
	}
	return false
}
