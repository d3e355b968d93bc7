package version

import (
	"slices"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/piece"
	"roomful/version/internal/rack"
	"roomful/version/internal/rung"
	"roomful/version/internal/say"
)

// cause says why something differs from what is asked.
type cause uint8

const (
	byNothing  cause = iota
	byOption         // the option asks it
	bySkill          // the movement has still to be learnt
	byStrength       // too few repetitions in one go
	byKit
	byLimit
	byState  // age, pregnancy, first months, first week back
	byEase   // a lighter load in the first week back
	byFresh  // a repetition test
	byWindow // the effort
	byOwned  // the nearest load there is
	byUnknown
	byLoadLost // more repetitions for a load that is missing
)

// fitted is one line made fit for one person.
type fitted struct {
	task     roomful.Task // its load is the heaviest that the bounds allow
	form     piece.Form
	basis    roomful.Basis // what the amount of another form rests on
	need     float64       // repetitions the load must allow
	why      reasons
	oneOff   bool // differs from the option for a limit, kit or skill
	lowered  bool // the load is under what is asked for a bound
	fixed    bool // the load is not to be varied
	measured bool // the load is bounded by a maximum
	stuck    bool // nothing fits
	sided    bool // the amount is of both sides together, one after the other
}

// tool is what a fitted line is held with.
func (f *fitted) tool() rack.Tool { return rack.ToolOf(f.form.Movement, f.task) }

// reasons are the causes behind a fitted line.
type reasons struct {
	form, amount, load cause
	height             bool
	limit              *roomful.Limit // behind a cause byLimit
	lacks              string         // the word of what is missing, behind byKit
	fresh              int            // repetitions, behind byFresh
	private            []string
}

// lineOf remembers a person's fitted forms of one line.
type lineOf struct {
	fits   map[rung.Pick]*fitted
	others map[rung.Pick][]*fitted
}

// fit makes a line of the piece fit for a person, as an option asks it, or with
// the nearest thing they can do.
func (c *class) fit(p *person, li int, k rung.Pick) *fitted {
	memo := p.lines[li]
	if f, ok := memo.fits[k]; ok {
		return f
	}
	f := (&fitter{class: c, p: p, li: li, line: &c.lines[li], pick: k}).run()
	memo.fits[k] = f
	return f
}

// mostOthers is how many other forms of a line are tried for somebody whom it
// would hurt.
const mostOthers = 3

// others lists what else may stand in for a line that hurts: two thirds of the
// line itself where the limit allows it, and further swaps for the reason, loaded
// ones among them.
func (c *class) others(p *person, li int, k rung.Pick) []*fitted {
	first, memo := c.fit(p, li, k), p.lines[li]
	if first.why.form != byLimit {
		return nil
	}
	if fs, ok := memo.others[k]; ok {
		return fs
	}
	f := &fitter{class: c, p: p, li: li, line: &c.lines[li], pick: k}
	asked, why := f.line.Forms[k.Form], first.why
	why.private = []string{care.Avoid(*why.limit)}
	var out []*fitted
	if m := asked.Movement; care.MayCut(*why.limit) && m == f.line.Movement && m.TakesLoad() && f.able(m) {
		if cut := f.cut(asked, why); f.eased(cut) {
			out = append(out, cut)
		}
	}
	seen := map[*roomful.Movement]bool{asked.Movement: true, first.form.Movement: true}
	for _, g := range f.listed(asked.Movement, why) {
		if len(out) == mostOthers {
			break
		}
		if seen[g.Movement] || g.Movement == nil {
			continue
		}
		seen[g.Movement] = true
		if fit, w := f.try(g); w.form == byNothing {
			out = append(out, fit.instead(why))
		}
	}
	memo.others[k] = out
	return out
}

// able reports whether a person has the kit and the skill for a movement.
func (f *fitter) able(m *roomful.Movement) bool {
	return f.p.stock.Lacks(m) == "" && !f.p.lacksSkill(m)
}

// listed are the forms that the sheet and the catalogue give for a reason.
func (f *fitter) listed(m *roomful.Movement, why reasons) []piece.Form {
	out := slices.Clone(f.line.Instead)
	for _, r := range care.Reasons(*why.limit) {
		for _, s := range m.SwapsFor(r) {
			if e := f.Lexicon.Movement(s.To); e != nil {
				out = append(out, f.swapped(m, e, s))
			}
		}
	}
	return out
}

// instead marks a fitted form as standing in for what is asked.
func (fit *fitted) instead(why reasons) *fitted {
	fit.why.form, fit.why.limit, fit.why.lacks = why.form, why.limit, why.lacks
	fit.why.private = append(slices.Clone(why.private), fit.why.private...)
	fit.oneOff = true
	return fit
}

// fitter looks for the form of one line that one person can do.
type fitter struct {
	*class
	p    *person
	li   int
	line *piece.Line
	pick rung.Pick

	weak  *fitted                     // the best form so far that is only too hard
	taken map[roomful.MovementID]bool // movements better left to other lines
}

// run tries what is asked, then what the sheet offers, easier forms and swaps
// by reason, one step further from each, and last any movement of the same
// pattern.
func (f *fitter) run() *fitted {
	asked := f.line.Forms[f.pick.Form]
	fit, why := f.try(asked)
	if why.form == byNothing {
		return f.alone(fit)
	}
	var first *fitted
	f.find(asked, why, func(g piece.Form) bool {
		if alt, w := f.try(g); w.form == byNothing {
			first = alt
		}
		return first != nil
	})
	if first == nil && why.form == byLimit && f.able(asked.Movement) {
		if cut := f.cut(asked, why); f.eased(cut) {
			return cut
		}
	}
	switch {
	case first != nil:
		fit = first
	case f.weak != nil:
		fit = f.weak
	default:
		fit = &fitted{task: roomful.Task{Movement: roomful.Rest, Amount: 30, Unit: roomful.Second, Slot: f.line.Element.Slot}, stuck: true}
	}
	return f.alone(fit.instead(why))
}

// eased reports whether a line that is cut is lighter by a third too; with nothing
// so light in the rack only a bare bar will do.
func (f *fitter) eased(cut *fitted) bool {
	w := f.p.written[f.li]
	return w.Load.Value == 0 || cut.form.Movement.Implement == roomful.Barbell || cut.task.Load.Kg() <= w.Load.Kg()*care.TwoThirds+tiny
}

// shortDose is the time of an element in seconds under which nobody is sent to a
// machine for it: getting on and off costs more than the work (judgement).
const shortDose = 25

// find visits the forms to try instead of the one asked, best first, until
// visit returns true.
func (f *fitter) find(asked piece.Form, why reasons, visit func(piece.Form) bool) {
	seen := map[roomful.MovementID]bool{asked.Element.Movement: true}
	done := false
	var late []piece.Form
	short := f.line.Movement != nil && f.line.Movement.Modality != roomful.Machine && f.line.Movement.Modality != roomful.Running
	see := func(g piece.Form) {
		if done || g.Movement == nil || seen[g.Movement.ID] {
			return
		}
		seen[g.Movement.ID] = true
		if !g.Offered && (short && f.briefMachine(g.Movement) || f.uncounted(g.Movement) || f.briefOuting(g.Movement) || f.taken[g.Movement.ID]) {
			late = append(late, g)
			return
		}
		done = visit(g)
	}
	defer func() {
		for _, g := range late {
			done = done || visit(g)
		}
	}()
	for _, g := range f.line.Instead {
		see(g)
	}
	if f.line.Movement == nil {
		return
	}
	from := []*roomful.Movement{f.line.Movement}
	if asked.Movement != f.line.Movement {
		from = []*roomful.Movement{asked.Movement, f.line.Movement}
	}
	for range 2 { // swaps, and the swaps of those
		var next []*roomful.Movement
		for _, m := range from {
			for _, g := range f.near(m, why) {
				next = append(next, g.Movement)
				see(g)
			}
		}
		from = next
	}
	for _, m := range f.Lexicon.All() {
		if say.Leads(m) == say.Leads(f.line.Movement) && m.Modality != roomful.Easy && m.Modality != roomful.Pause {
			see(f.line.Swapped(m, 0, ""))
		}
	}
}

// briefMachine reports whether a movement would send somebody to a machine for
// too little.
func (f *fitter) briefMachine(m *roomful.Movement) bool {
	w := f.p.written[f.li]
	return m.Modality == roomful.Machine && w.Amount > 0 && f.seconds(f.p, w) < shortDose
}

// uncounted reports whether a movement adds nothing to a score of repetitions
// that the line as written adds to: metres of a run for calories.
func (f *fitter) uncounted(m *roomful.Movement) bool {
	counts := func(us []roomful.Unit) bool {
		return len(us) == 0 || slices.Contains(us, roomful.Rep) || slices.Contains(us, roomful.Calorie)
	}
	return f.kind == roomful.RepsScore && counts([]roomful.Unit{f.p.written[f.li].Unit}) && !counts(m.Units)
}

// near lists the easier forms and swaps of a movement, in the order that suits
// the reason.
func (f *fitter) near(m *roomful.Movement, why reasons) []piece.Form {
	var easier, swaps []piece.Form
	for _, id := range m.Easier {
		if e := f.Lexicon.Movement(id); e != nil {
			easier = append(easier, f.line.Easier(m, e))
		}
	}
	if why.form == byKit {
		swaps = f.siblings(m)
	}
	add := func(ss []roomful.Swap) {
		for _, s := range ss {
			if e := f.Lexicon.Movement(s.To); e != nil {
				swaps = append(swaps, f.swapped(m, e, s))
			}
		}
	}
	for _, r := range swapReasons(why) {
		add(m.SwapsFor(r))
	}
	add(m.Swaps)
	if why.form == bySkill || why.form == byStrength {
		return append(easier, swaps...)
	}
	return append(swaps, easier...)
}

// swapped is what a movement becomes, as a form of the line. The ratio and the
// words of a swap hold for that movement alone: a step further on, the time of the
// line decides and its own pattern is named.
func (f *fitter) swapped(m, to *roomful.Movement, s roomful.Swap) piece.Form {
	if m != f.line.Movement {
		return f.line.Swapped(to, 0, "")
	}
	return f.line.Swapped(to, s.Ratio, s.Neighbour)
}

// swapReasons are the catalogue's words for a cause.
func swapReasons(why reasons) []roomful.Reason {
	switch why.form {
	case bySkill, byStrength:
		return []roomful.Reason{roomful.ForSkill}
	case byLimit:
		return care.Reasons(*why.limit)
	case byKit:
		switch roomful.Implement(why.lacks) {
		case "ceiling", noSpace:
			return []roomful.Reason{roomful.ForCeiling, roomful.ForNoKit}
		case "noise":
			return []roomful.Reason{roomful.ForNoise, roomful.ForImpact, roomful.ForNoKit}
		case roomful.RowMachine, roomful.SkiMachine, roomful.Bike, roomful.FanBike:
			return []roomful.Reason{roomful.ForNoMachine, roomful.ForNoKit}
		}
		return []roomful.Reason{roomful.ForNoKit}
	}
	return nil
}

// try makes one form fit; why.form is byNothing when it does.
func (f *fitter) try(g piece.Form) (*fitted, reasons) {
	m := g.Movement
	if m == nil {
		t := f.p.written[f.li]
		return &fitted{task: t, form: g}, reasons{}
	}
	if why := f.barred(m); why.form != byNothing {
		return nil, why
	}
	fit := f.base(g)
	if why := f.lift(fit); why.form != byNothing {
		return nil, why
	}
	return fit, reasons{}
}

// barred returns why a person may not or cannot do a movement at all.
func (f *fitter) barred(m *roomful.Movement) reasons {
	if l := f.p.care.HeldBy(m); l != nil {
		return reasons{form: byLimit, limit: l, private: []string{care.Avoid(*l)}}
	}
	if w := f.p.stock.Lacks(m); w != "" {
		return reasons{form: byKit, lacks: w}
	}
	if f.upsideDownAlone(m) {
		return reasons{form: byKit, lacks: noSpace}
	}
	if f.p.lacksSkill(m) {
		return reasons{form: bySkill}
	}
	return reasons{}
}

// base sets a form's amount and height, within the person's volume.
func (f *fitter) base(g piece.Form) *fitted {
	w := f.p.written[f.li]
	fit := &fitted{form: g, task: w}
	t := &fit.task
	asked := f.line.Forms[f.pick.Form].Movement
	if g.Movement != f.line.Movement {
		*t, fit.basis = f.converted(g, w)
	}
	switch share := f.pick.Factor; {
	case t.Amount == 0 || t.Movement == roomful.Rest:
	case f.p.amounts < min(share, 1):
		t.Amount = say.Trim(t.Amount*f.p.amounts, t.Unit)
		fit.why.amount, fit.oneOff = byState, true
		fit.why.private = append(fit.why.private, f.p.care.Because()+": "+say.Share(f.p.care.Volume)+" the volume")
	case share != 1:
		if cut := say.Trim(t.Amount*share, t.Unit); cut != t.Amount {
			t.Amount, fit.why.amount = cut, byOption
		}
	}
	if f.spare(f.p, g.Movement) {
		t.Amount = f.inHand(*t)
		fit.why.amount, fit.oneOff = byState, true
	}
	if g.Movement == asked && g.Movement != f.line.Movement {
		fit.why.form = byOption
	}
	t.HeightCm = f.p.stock.Height(g.Movement, t.HeightCm)
	if low := f.p.stock.Lower(g.Movement, t.HeightCm); f.pick.Lower && low < t.HeightCm {
		t.HeightCm, fit.why.height = low, true
	}
	fit.why.private = append(fit.why.private, f.p.care.Notes(g.Movement)...)
	return fit
}

// converted returns the line's task done as another form: with its own figures
// where the sheet gives them, else as many as keep the time; and what its amount
// rests on.
func (f *fitter) converted(g piece.Form, w roomful.Task) (roomful.Task, roomful.Basis) {
	r := f.reader(f.p)
	e := g.Element
	load := e.Load
	e.Load = nil
	t := r.Task(e)
	t.Load, t.Slot = roomful.Mass{}, w.Slot
	if load != nil {
		e.Load = load
		t = r.Task(e)
	} else {
		t.Implements = held(g.Movement)
	}
	on := roomful.BySheet
	if !g.Element.Amount.Stated() {
		t.Amount, t.Unit, on = f.convert(f.p, w, f.line.Movement, g)
	}
	return t, on
}

// held is how many implements a form is held with: a pair where that is usual,
// else one.
func held(m *roomful.Movement) int {
	if m.Pair {
		return 2
	}
	return 0
}

// cut is at most two thirds of a line that hurts, in load too.
func (f *fitter) cut(asked piece.Form, why reasons) *fitted {
	fit := f.base(asked)
	t, w := &fit.task, f.p.written[f.li]
	if t.Amount > 0 {
		t.Amount = min(t.Amount, say.Trim(w.Amount*care.TwoThirds, t.Unit))
	}
	written := w.Load.Kg()
	if f.builds(fit) { // two thirds of what it would be built to
		t.Amount = w.Amount
		written = f.mostKg(f.p.Abilities, w, max(w.Amount, 1))
	}
	if written > 0 {
		fit.need = f.need(asked.Movement, *t)
		kg := written * care.TwoThirds
		if asked.Movement.Bound != nil {
			kg = min(kg, f.mostKg(f.p.Abilities, *t, fit.need))
		}
		if to, unknown := f.unknown(fit, roomful.Kg(written)); unknown {
			kg = min(kg, to*care.TwoThirds)
		}
		t.Load = f.atMost(rack.ToolOf(asked.Movement, *t), kg)
		t.RPE, t.Fresh, t.Percent = 0, 0, 0
	}
	t.HeightCm = f.p.stock.Lower(asked.Movement, t.HeightCm)
	fit.why.amount, fit.why.load, fit.why.limit = byLimit, byLimit, why.limit
	fit.why.private = append(fit.why.private, care.Told(*why.limit)+": two thirds of what is written, less if it grows")
	fit.oneOff, fit.fixed = true, true
	return fit
}

// atMost is the greatest mass of at most kg, the lightest when all are heavier.
func (f *fitter) atMost(tool rack.Tool, kg float64) roomful.Mass {
	load, ok := f.p.stock.Below(tool, kg)
	if !ok {
		load, _ = f.p.stock.Lightest(tool)
	}
	return load
}
