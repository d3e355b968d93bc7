package catalogue

import (
	"fmt"
	"maps"
	"slices"

	"github.com/goccy/go-yaml"

	"roomful"
)

// entry is a movement as a data file gives it. Lengths are in metres, times in
// seconds, heights of boxes and targets in cm, as the keys say.
type entry struct {
	ID        roomful.MovementID `yaml:"id"`
	Name      string             `yaml:"name"`
	Plural    string             `yaml:"plural"`
	Also      []string           `yaml:"also"`
	Patterns  []roomful.Pattern  `yaml:"patterns"`
	Modality  roomful.Modality   `yaml:"modality"`
	Stress    []roomful.Stress   `yaml:"stress"`
	Implement roomful.Implement  `yaml:"implement"`
	Pair      bool               `yaml:"pair"`
	Needs     []string           `yaml:"needs"`
	CeilingM  float64            `yaml:"ceiling_m"`
	LengthM   float64            `yaml:"length_m"`
	Noisy     bool               `yaml:"noisy"`
	Units     []string           `yaml:"units"`
	StrideM   float64            `yaml:"stride_m"`
	Travel    struct {
		LoadM      float64 `yaml:"load_m"`
		BodyM      float64 `yaml:"body_m"`
		JPerKg     float64 `yaml:"j_per_kg"`
		OverHeight bool    `yaml:"over_height"`
		Dropped    bool    `yaml:"dropped"`
	} `yaml:"travel"`
	HeightCm []float64 `yaml:"height_cm"`
	Pace     struct {
		SkilledS  float64 `yaml:"skilled_s"`
		OrdinaryS float64 `yaml:"ordinary_s"`
	} `yaml:"pace"`
	Bound    *boundEntry          `yaml:"bound"`
	Tires    map[string]float64   `yaml:"tires"`
	Skill    []string             `yaml:"skill"`
	Standard string               `yaml:"standard"`
	Cues     []string             `yaml:"cues"`
	Faults   []string             `yaml:"faults"`
	Easier   []roomful.MovementID `yaml:"easier"`
	Swaps    []swapEntry          `yaml:"swaps"`
}

type boundEntry struct {
	Lift     roomful.Lift       `yaml:"lift"`
	Own      roomful.MovementID `yaml:"own"`
	Share    float64            `yaml:"share"`
	Multiple float64            `yaml:"multiple"`
	Curve    float64            `yaml:"curve"`
	Most     []float64          `yaml:"most"`
	Growth   []float64          `yaml:"growth"`
	LogSD    float64            `yaml:"log_sd"`
}

type swapEntry struct {
	To        roomful.MovementID `yaml:"to"`
	For       []roomful.Reason   `yaml:"for"`
	Ratio     float64            `yaml:"ratio"`
	Neighbour string             `yaml:"neighbour"`
}

// decode reads a file strictly; its error shows the line at fault.
func decode(f file, into any) error {
	err := yaml.UnmarshalWithOptions(f.text, into, yaml.Strict())
	if err == nil {
		return nil
	}
	return &roomful.Error{
		Summary: fmt.Sprintf("reading %s: %v", f.name, yaml.FormatError(err, false, true)),
		Hint:    "the package comment of catalogue lists the keys of a movement",
	}
}

// parseFamily turns a family file into movements.
func parseFamily(f file) ([]*roomful.Movement, error) {
	entries, ok := quick(f.text)
	if !ok {
		entries = nil
		if err := decode(f, &entries); err != nil {
			return nil, err
		}
	}
	var out []*roomful.Movement
	for _, e := range entries {
		m, err := e.movement(f.family())
		if err != nil {
			return nil, err
		}
		out = append(out, m)
	}
	return out, nil
}

// movement converts an entry. It refuses words that name nothing; what the
// values must be is the business of check.
func (e *entry) movement(family string) (*roomful.Movement, error) {
	m := &roomful.Movement{
		ID: e.ID, Name: e.Name, Plural: e.Plural, Also: e.Also, Family: family,
		Patterns: e.Patterns, Modality: e.Modality, Stress: e.Stress,
		Implement: e.Implement, Pair: e.Pair, Needs: e.Needs, Noisy: e.Noisy, StrideM: e.StrideM,
		Space:    roomful.Space{CeilingM: e.CeilingM, LengthM: e.LengthM},
		Pace:     roomful.Pace{Skilled: e.Pace.SkilledS, Ordinary: e.Pace.OrdinaryS},
		Standard: e.Standard, Cues: e.Cues, Faults: e.Faults, Easier: e.Easier,
	}
	if m.Plural == "" {
		m.Plural = plural(m.Name)
	}
	for _, s := range e.Swaps {
		m.Swaps = append(m.Swaps, roomful.Swap(s))
	}
	for _, put := range []func(*roomful.Movement) error{e.putUnits, e.putTravel, e.putBound, e.putDemand, e.putSkill} {
		if err := put(m); err != nil {
			return nil, fault(m, err.Error())
		}
	}
	return m, nil
}

func (e *entry) putUnits(m *roomful.Movement) error {
	for _, w := range e.Units {
		i := slices.IndexFunc(baseUnits, func(u roomful.Unit) bool { return u.String() == w })
		if i < 0 {
			return fmt.Errorf("unit %q is not one of rep, m, cal, s", w)
		}
		m.Units = append(m.Units, baseUnits[i])
	}
	return nil
}

// baseUnits are the units that a movement may name.
var baseUnits = []roomful.Unit{roomful.Rep, roomful.Metre, roomful.Calorie, roomful.Second}

func (e *entry) putTravel(m *roomful.Movement) error {
	t := e.Travel
	m.Travel = roomful.Travel{LoadTravelM: t.LoadM, BodyTravelM: t.BodyM, JoulesPerKg: t.JPerKg,
		OverHeight: t.OverHeight, Dropped: t.Dropped}
	switch len(e.HeightCm) {
	case 0:
	case 2:
		m.Travel.UsualHeight, m.Travel.UsualHigher = e.HeightCm[0], e.HeightCm[1]
	default:
		return fmt.Errorf("height_cm takes two figures, one per division, not %d", len(e.HeightCm))
	}
	return nil
}

func (e *entry) putBound(m *roomful.Movement) error {
	b := e.Bound
	if b == nil {
		return nil
	}
	m.Bound = &roomful.Bound{Lift: b.Lift, Own: b.Own, Share: b.Share, Multiple: b.Multiple, Curve: b.Curve, LogSD: b.LogSD}
	if len(b.Most) == 0 && len(b.Growth) == 0 {
		return nil
	}
	if len(b.Most) != 2 || len(b.Growth) != 2 {
		return fmt.Errorf("most and growth take two figures each, one per division")
	}
	m.Bound.Most, m.Bound.Growth = [2]float64(b.Most), [2]float64(b.Growth)
	return nil
}

func (e *entry) putDemand(m *roomful.Movement) error {
	rest := maps.Clone(e.Tires)
	for g := range roomful.MuscleGroups {
		if w, ok := rest[g.String()]; ok {
			m.Demand = append(m.Demand, roomful.Demand{Muscles: g, Weight: w})
			delete(rest, g.String())
		}
	}
	for w := range rest {
		return fmt.Errorf("tires %q, which is no muscle group", w)
	}
	return nil
}

func (e *entry) putSkill(m *roomful.Movement) error {
	for _, w := range e.Skill {
		switch w {
		case "needed":
			m.Skill.Needed = true
		case "trips":
			m.Skill.Trips = true
		default:
			return fmt.Errorf("skill %q is neither needed nor trips", w)
		}
	}
	return nil
}

// fault says what is wrong with a movement.
func fault(m *roomful.Movement, what string) error {
	return &roomful.Error{
		Summary: fmt.Sprintf("catalogue, %s.yaml, movement %q: %s", m.Family, m.ID, what),
		Hint:    "see how a relative of it is written, and the package comment of catalogue",
	}
}
