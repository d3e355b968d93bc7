package catalogue

import (
	"errors"
	"fmt"
	"regexp"
	"slices"

	"roomful"
)

// check holds every movement to the rules of this file and returns all faults
// at once, each naming its movement.
func (c *Catalogue) check() error {
	var faults []error
	for _, m := range c.all {
		for _, rule := range rules {
			if what := rule(c, m); what != "" {
				faults = append(faults, fault(m, what))
				break // what follows may build on it
			}
		}
	}
	if len(faults) > 0 {
		return errors.Join(faults...)
	}
	for _, r := range roomful.Reasons {
		if loop := c.loop(swapsFor(r)); loop != nil {
			return fault(loop, "its swaps for "+string(r)+" lead back to it")
		}
	}
	if loop := c.loop(easier); loop != nil {
		return fault(loop, "its easier forms lead back to it")
	}
	return nil
}

// rules each say what is wrong with a movement, or "".
var rules = []func(*Catalogue, *roomful.Movement) string{
	naming, words, kinds, space, amounts, travel, pace, bound, demand, ownsUp, easierForms, swapTargets, swapReasons, swapCover,
}

var kebab = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

func naming(_ *Catalogue, m *roomful.Movement) string {
	switch {
	case !kebab.MatchString(string(m.ID)):
		return "the id is not in kebab-case"
	case m.Name == "" || m.Plural == "":
		return "the name is missing"
	}
	return ""
}

func words(_ *Catalogue, m *roomful.Movement) string {
	switch {
	case m.Standard == "":
		return "the standard is missing"
	case len(m.Cues) < 2 || len(m.Cues) > 3:
		return "there should be two or three cues"
	case len(m.Faults) < 2 || len(m.Faults) > 3:
		return "there should be two or three faults"
	}
	return ""
}

// Words that a data file may use.
var (
	patterns = []roomful.Pattern{roomful.Squat, roomful.Hinge, roomful.SingleLeg, roomful.PushHorizontal, roomful.PushVertical,
		roomful.PullHorizontal, roomful.PullVertical, roomful.Carry, roomful.Jump, roomful.Core, roomful.Cyclic, roomful.Invert, roomful.Mobilise}
	modalities = []roomful.Modality{roomful.Machine, roomful.Running, roomful.Body, roomful.Loaded, roomful.Hold,
		roomful.Carrying, roomful.Pause, roomful.Easy}
	stresses = []roomful.Stress{roomful.StressGrip, roomful.StressOverhead, roomful.StressImpact, roomful.StressEccentric,
		roomful.StressInversion, roomful.StressShoulder, roomful.StressElbow, roomful.StressWrist, roomful.StressNeck, roomful.StressHip,
		roomful.StressKnee, roomful.StressAnkle, roomful.StressSpine, roomful.StressBelly, roomful.StressSupine, roomful.StressFall}
	implements = []roomful.Implement{roomful.NoImplement, roomful.Barbell, roomful.Dumbbell, roomful.Kettlebell, roomful.Ball, roomful.Plate,
		roomful.Vest, roomful.Sled, roomful.RowMachine, roomful.SkiMachine, roomful.Bike, roomful.FanBike}
	needs = []string{"pull-up-bar", "box", "rope", "rings", "wall-target", "rack", "bench", "band", "climbing-rope", "sit-up-pad", "lane"}
)

// unknown returns the first word of got that is not allowed or comes twice.
func unknown[T comparable](what string, got, allowed []T) string {
	for i, w := range got {
		if !slices.Contains(allowed, w) {
			return fmt.Sprintf("%s %q is not known", what, fmt.Sprint(w))
		}
		if slices.Contains(got[:i], w) {
			return fmt.Sprintf("%s %q comes twice", what, fmt.Sprint(w))
		}
	}
	return ""
}

func kinds(_ *Catalogue, m *roomful.Movement) string {
	if len(m.Patterns) == 0 && m.Modality != roomful.Pause {
		return "the pattern is missing"
	}
	for _, what := range []string{
		unknown("pattern", m.Patterns, patterns),
		unknown("modality", []roomful.Modality{m.Modality}, modalities),
		unknown("stress", m.Stress, stresses),
		unknown("implement", []roomful.Implement{m.Implement}, implements),
		unknown("need", m.Needs, needs),
	} {
		if what != "" {
			return what
		}
	}
	return ""
}

func space(_ *Catalogue, m *roomful.Movement) string {
	if c := m.Space.CeilingM; c != 0 && (c < 2 || c > 8) {
		return fmt.Sprintf("a ceiling of %g m is not between 2 and 8", c)
	}
	if l := m.Space.LengthM; l < 0 || l > 50 {
		return fmt.Sprintf("a lane of %g m is not between 0 and 50", l)
	}
	return ""
}

func amounts(_ *Catalogue, m *roomful.Movement) string {
	if len(m.Units) == 0 {
		return "the units are missing"
	}
	both := slices.Contains(m.Units, roomful.Rep) && slices.Contains(m.Units, roomful.Metre)
	if both != (m.StrideM > 0) {
		return "stride_m belongs to a movement counted both in repetitions and in metres"
	}
	return ""
}

func travel(_ *Catalogue, m *roomful.Movement) string {
	t := m.Travel
	heights := t.OverHeight || slices.Contains(m.Needs, "wall-target")
	switch {
	case t.LoadTravelM < 0 || t.LoadTravelM > 3, t.BodyTravelM < 0 || t.BodyTravelM > 6, t.JoulesPerKg < 0 || t.JoulesPerKg > 40:
		return "the travel is out of any reasonable range"
	case heights != (t.UsualHeight > 0 && t.UsualHigher > 0):
		return "height_cm belongs to a movement onto a box or at a target"
	case t.Dropped && !m.TakesLoad(), (t.LoadTravelM > 0) && !m.TakesLoad():
		return "only a load can be lifted or dropped"
	case powered(m) != (t == roomful.Travel{}) && m.Modality != roomful.Pause:
		return "machines and running have no travel, everything else has"
	}
	return ""
}

// powered reports whether power decides how fast the movement goes.
func powered(m *roomful.Movement) bool {
	return m.Modality == roomful.Machine || m.Modality == roomful.Running
}

func pace(_ *Catalogue, m *roomful.Movement) string {
	p := m.Pace
	switch {
	case powered(m) && p != roomful.Pace{}:
		return "machines and running have no pace"
	case !powered(m) && (p.Skilled <= 0 || p.Ordinary < p.Skilled || p.Ordinary > 60):
		return "the pace needs seconds for a skilled and for an ordinary person, the second no shorter"
	}
	return ""
}

func bound(c *Catalogue, m *roomful.Movement) string {
	b := m.Bound
	if b == nil {
		if m.TakesLoad() {
			return "what takes a load needs a bound"
		}
		return ""
	}
	self := b.Own == m.ID
	switch {
	case (b.Lift == "") == (b.Own == ""):
		return "a bound has either a lift or an own maximum"
	case b.Lift != "" && !slices.Contains(roomful.Lifts, b.Lift):
		return fmt.Sprintf("lift %q is not a reference lift", b.Lift)
	case b.Lift != "" && !m.TakesLoad():
		return "a lift bounds only what takes a load"
	case b.Share < 0.1 || b.Share > 4:
		return "the share of the bound is out of any reasonable range"
	case b.Curve < 20 || b.Curve > 60:
		return "the curve of the bound is not between 20 and 60"
	case self != (b.Most[0] > 0 && b.Most[1] > 0 && b.LogSD > 0):
		return "most, growth and log_sd stand with a movement that is its own reference, and only there"
	case self && b.Share != 1:
		return "a movement that is its own reference has share 1"
	}
	if b.Own == "" {
		return ""
	}
	if ref := c.byID[b.Own]; ref == nil || ref.Bound == nil || ref.Bound.Own != ref.ID {
		return fmt.Sprintf("%s is not a movement with an own maximum", b.Own)
	}
	return ""
}

func demand(_ *Catalogue, m *roomful.Movement) string {
	if (m.Bound == nil) != (len(m.Demand) == 0) {
		return "what is bounded tires something, and the other way round"
	}
	var most float64
	for _, d := range m.Demand {
		if d.Weight <= 0 || d.Weight > 1 {
			return "a demand is above 0 and at most 1"
		}
		most = max(most, d.Weight)
	}
	if m.Bound != nil && most != 1 {
		return "the limiting muscle group has 1"
	}
	return ""
}

// owning is what a movement cannot leave out about itself, since swaps are
// chosen by it.
type owning struct {
	when func(*roomful.Movement) bool
	must func(*roomful.Movement) bool
	what string
}

var ownings = []owning{
	{
		func(m *roomful.Movement) bool { return m.TakesLoad() && m.Loads(roomful.StressOverhead) },
		func(m *roomful.Movement) bool { return m.Loads(roomful.StressShoulder) && m.Space.CeilingM > 0 },
		"a load overhead is on the shoulder and takes a ceiling",
	}, {
		func(m *roomful.Movement) bool { return slices.Contains(m.Needs, "pull-up-bar") },
		func(m *roomful.Movement) bool { return m.Loads(roomful.StressGrip) && m.Space.CeilingM > 0 },
		"a high bar takes a grip and a ceiling",
	}, {
		func(m *roomful.Movement) bool { return m.Is(roomful.Invert) },
		func(m *roomful.Movement) bool {
			return m.Loads(roomful.StressInversion) && m.Loads(roomful.StressShoulder) && m.Loads(roomful.StressWrist)
		},
		"upside down is inversion, on shoulders and wrists",
	}, {
		func(m *roomful.Movement) bool {
			return m.Is(roomful.Jump) && (m.Travel.OverHeight || m.Travel.BodyTravelM > 0.5)
		},
		func(m *roomful.Movement) bool { return m.Loads(roomful.StressImpact) && m.Space.CeilingM > 0 },
		"a jump is an impact and takes a ceiling",
	}, {
		func(m *roomful.Movement) bool {
			return m.Travel.Dropped || m.Loads(roomful.StressImpact) && (m.Modality == roomful.Body || m.Modality == roomful.Loaded)
		},
		func(m *roomful.Movement) bool { return m.Noisy },
		"what is dropped or lands hard is noisy",
	}, {
		func(m *roomful.Movement) bool {
			return m.TakesLoad() && m.Is(roomful.Hinge) && m.Patterns[0] != roomful.SingleLeg
		},
		func(m *roomful.Movement) bool {
			return m.Loads(roomful.StressSpine) || m.Loads(roomful.StressSupine)
		},
		"a loaded hinge is on the back",
	},
}

// ownsUp holds that a movement says what it plainly loads and disturbs.
func ownsUp(_ *Catalogue, m *roomful.Movement) string {
	for _, o := range ownings {
		if o.when(m) && !o.must(m) {
			return o.what
		}
	}
	return ""
}
