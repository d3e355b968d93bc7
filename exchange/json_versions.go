package exchange

import "roomful"

// Lineup is everybody's version of the day.
type Lineup struct {
	Piece       string       `json:"piece"`
	Effort      Effort       `json:"effort"`
	Options     []Option     `json:"options"`
	Athletes    []Version    `json:"athletes"`
	Attention   []Attention  `json:"attention"`
	Bars        *Bars        `json:"bars"`        // everybody's bar from the discs of the kit; null without one
	Diagnostics []Diagnostic `json:"diagnostics"` // warnings about the files
}

// Option is one rung a coach briefs.
type Option struct {
	Name     string   `json:"name"`
	Elements []Task   `json:"elements"`
	Second   []Task   `json:"elements_b"` // for division b; null when both do the same
	People   []string `json:"people"`     // by name
}

// Task is what is done of one movement; the load in kg is per implement.
type Task struct {
	Movement   roomful.MovementID `json:"movement"`
	Amount     *float64           `json:"amount"` // null is as much as the window allows
	Unit       string             `json:"unit"`
	LoadKg     *float64           `json:"load_kg"`
	Load       *Mass              `json:"load"` // as it is written on the implement
	Implements *int               `json:"implements"`
	HeightCm   *float64           `json:"height_cm"`
	RPE        *float64           `json:"rpe"`
	Percent1RM *float64           `json:"percent_1rm"`
	Fresh      *int               `json:"fresh"`
	Slot       *int               `json:"slot"`
	Tempo      *Tempo             `json:"tempo"`
}

// Mass is a mass in its own unit.
type Mass struct {
	Mass float64 `json:"mass"`
	Unit string  `json:"unit"`
}

// Version is what one person does. Only the why of an element may be shown to
// others.
type Version struct {
	Name       string           `json:"name"`
	ID         string           `json:"id"`
	Option     *string          `json:"option"`
	AsWritten  bool             `json:"as_written"`
	OneOff     bool             `json:"one_off"`
	ByHand     bool             `json:"by_hand"` // a coach or they themselves have set it
	Elements   []Choice         `json:"elements"`
	StopAt     *float64         `json:"stop_at_seconds"` // on the piece's clock; null when they do not stop before it ends
	Dose       *Dose            `json:"dose"`            // null for all of the piece
	Proof      *Proof           `json:"proof_set"`
	Confidence *string          `json:"confidence"` // null for who is referred out
	Forecast   *AthleteForecast `json:"forecast"`   // null for who is referred out
	Plates     []SideLoad       `json:"plates"`
	Cautions   []string         `json:"cautions"`
	Stop       *string          `json:"stop"`
	Day        []Stage          `json:"day"` // every part of the day, in order; empty for who is referred out
}

// Dose is how much of the piece somebody does who does not do all of it; say
// may be shown to others.
type Dose struct {
	Rounds     *int     `json:"rounds"` // so many rounds, bouts or sets
	Ladder     []int    `json:"ladder"` // steps instead of the sheet's
	Work       *float64 `json:"work_seconds"`
	Steady     bool     `json:"steady"`
	Say        string   `json:"say"`
	WhyPrivate *string  `json:"why_private"`
}

// Choice is one task of a version with its reasons.
type Choice struct {
	Task
	LoadLowKg  *float64 `json:"load_low_kg"`
	LoadHighKg *float64 `json:"load_high_kg"`
	Changed    bool     `json:"changed"`
	Why        string   `json:"why"`
	WhyPrivate *string  `json:"why_private"`
}

// Proof is the set in the ramp that shows that a load is right.
type Proof struct {
	Movement roomful.MovementID `json:"movement"`
	Reps     int                `json:"reps"`
	LoadKg   *float64           `json:"load_kg"`
	Load     *Mass              `json:"load"`
	Say      string             `json:"say"`
}

// SideLoad is what goes on each side of a bar, innermost first.
type SideLoad struct {
	Movement roomful.MovementID `json:"movement"`
	Bar      *Mass              `json:"bar"`
	PerSide  []Mass             `json:"per_side"`
}

// Attention is a person whom the coach should see.
type Attention struct {
	Name string `json:"name"`
	Why  string `json:"why"`
}

// LineupOf turns the versions of a piece into JSON.
func LineupOf(p roomful.Part, effort roomful.Effort, l roomful.Lineup) Lineup {
	out := Lineup{Piece: p.Name(), Effort: effortOf(effort), Options: []Option{}, Athletes: []Version{}, Attention: []Attention{}, Diagnostics: []Diagnostic{}}
	stepped := laddered(p)
	names := map[string]string{}
	for _, v := range l.Versions {
		names[v.Athlete] = v.Name
	}
	for _, o := range l.Options {
		option := Option{Name: o.Name, Elements: []Task{}, People: []string{}}
		for _, id := range o.People {
			option.People = append(option.People, names[id])
		}
		for _, t := range o.Elements {
			option.Elements = append(option.Elements, taskOf(t, stepped))
		}
		for _, t := range o.Second {
			option.Second = append(option.Second, taskOf(t, stepped))
		}
		out.Options = append(out.Options, option)
	}
	for _, v := range l.Versions {
		out.Athletes = append(out.Athletes, versionOf(v, stepped))
	}
	for _, a := range l.Attention {
		out.Attention = append(out.Attention, Attention{a.Name, a.Why})
	}
	return out
}

// laddered reports whether the steps of a ladder say the amounts.
func laddered(p roomful.Part) bool {
	switch f := p.Format.(type) {
	case roomful.RoundsInTime:
		return len(f.Ladder.Steps) > 0
	case roomful.ForTime:
		return len(f.Ladder.Steps) > 0
	}
	return false
}

func versionOf(v roomful.Version, stepped bool) Version {
	out := Version{
		Name: v.Name, ID: v.Athlete, Option: word(v.Option), AsWritten: v.AsWritten, OneOff: v.OneOff, ByHand: v.ByHand,
		Elements: []Choice{}, Confidence: word(string(v.Confidence)), Plates: []SideLoad{}, Day: []Stage{}, Cautions: listed(v.Cautions), Stop: word(v.Stop),
	}
	if !v.Dose.Whole() {
		d := v.Dose
		out.StopAt = some(d.StopAt.Seconds())
		out.Dose = &Dose{Rounds: known(d.Rounds), Ladder: d.Ladder, Work: some(d.Work.Seconds()), Steady: d.Steady, Say: d.Say, WhyPrivate: word(d.Private)}
	}
	for _, c := range v.Choices {
		out.Elements = append(out.Elements, choiceOf(c, stepped))
	}
	if v.Proof != nil {
		out.Proof = proofOf(v.Proof)
	}
	if v.Stop == "" {
		f := athleteForecastOf(v.Forecast)
		out.Forecast = &f
	}
	for _, p := range v.Plates {
		side := SideLoad{Movement: p.Movement, Bar: massOf(p.Bar), PerSide: []Mass{}}
		for _, m := range p.PerSide {
			side.PerSide = append(side.PerSide, *massOf(m))
		}
		out.Plates = append(out.Plates, side)
	}
	return out
}

func proofOf(p *roomful.Proof) *Proof {
	return &Proof{p.Movement, p.Reps, some(p.Load.Kg()), massOf(p.Load), p.Say}
}

func choiceOf(c roomful.Choice, stepped bool) Choice {
	return Choice{
		Task: taskOf(c.Task, stepped), LoadLowKg: some(c.Low.Kg()), LoadHighKg: some(c.High.Kg()),
		Changed: c.Changed, Why: c.Why, WhyPrivate: word(c.Private),
	}
}

func taskOf(t roomful.Task, stepped bool) Task {
	out := Task{
		Movement: t.Movement, Amount: some(t.Amount), Unit: t.Unit.String(),
		LoadKg: some(t.Load.Kg()), Load: massOf(t.Load), Implements: known(t.Implements), HeightCm: some(t.HeightCm),
		RPE: known(t.RPE), Percent1RM: known(t.Percent), Fresh: known(t.Fresh), Slot: known(t.Slot),
	}
	out.Tempo = tempoOf(t.Tempo)
	if stepped && out.Amount == nil {
		out.Amount = figure(0)
	}
	return out
}

// massOf is null for no mass.
func massOf(m roomful.Mass) *Mass {
	if m.Value == 0 {
		return nil
	}
	return &Mass{rounded(m.Value), m.Unit.String()}
}
