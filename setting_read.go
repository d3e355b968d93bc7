package roomful

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Set reads a text into the setting's field of g. It leaves g alone when the
// text cannot be used; the error is an [*Error] with the next step. Masses are
// read in the gym's unit.
func (s Setting) Set(g *Gym, text string) error {
	text = strings.TrimSpace(text)
	switch at := s.in(g).(type) {
	case *string:
		*at = text
		return nil
	case *Zone:
		return s.setZone(at, text)
	case *MassUnit:
		return s.setUnit(at, text)
	case *CapPolicy:
		return s.setPolicy(at, text)
	case *Ratios:
		return s.refuse(text, "is no list of ratios", "write row: {ski: 1, bike: 2} below it")
	case *time.Duration:
		return s.setLength(at, text)
	case *Span:
		return s.setSpan(at, text)
	case *Mass:
		v, err := s.figure(text, g.Unit.String(), s.DefaultIn(g.Unit))
		if err == nil {
			*at = Mass{v, g.Unit}
		}
		return err
	case *float64:
		v, err := s.figure(text, s.Unit, s.Default)
		if err == nil {
			*at = v
		}
		return err
	case *int:
		return s.setCount(at, text)
	}
	return s.refuse(text, "cannot be set", "leave it out")
}

// setZone reads a zone that the machine's clock knows.
func (s Setting) setZone(at *Zone, text string) error {
	if _, err := time.LoadLocation(text); err != nil || text == "Local" {
		return s.refuse(text, "is no time zone I know", "write its continent and city, such as Europe/London")
	}
	*at = Zone(text)
	return nil
}

// setUnit reads kg or lb.
func (s Setting) setUnit(at *MassUnit, text string) error {
	switch strings.ToLower(text) {
	case "kg":
		*at = Kilogram
	case "lb", "lbs":
		*at = Pound
	default:
		return s.refuse(text, "is neither kg nor lb", "write kg or lb")
	}
	return nil
}

// setPolicy reads one of the policies of a cap.
func (s Setting) setPolicy(at *CapPolicy, text string) error {
	i := slices.Index(CapPolicies, CapPolicy(strings.ToLower(text)))
	if i < 0 {
		return s.refuse(text, "is none of the policies", fmt.Sprintf("write %s, %s or %s", CapPolicies[0], CapPolicies[1], CapPolicies[2]))
	}
	*at = CapPolicies[i]
	return nil
}

// setLength reads a length of time, to the second.
func (s Setting) setLength(at *time.Duration, text string) error {
	d, ok := readLength(text)
	switch v := float64(d) / float64(timeUnits[s.Unit]); {
	case !ok:
		return s.refuse(text, "is no length of time", "write it as "+s.Default)
	case v < s.Least || v > s.Most:
		return s.outside(text)
	}
	*at = d
	return nil
}

// setSpan reads "1-2", "1 to 2" or "2".
func (s Setting) setSpan(at *Span, text string) error {
	low, high, two := strings.Cut(strings.NewReplacer("–", "-", " to ", "-").Replace(bare(text, s.Unit)), "-")
	if !two {
		high = low
	}
	a, errA := strconv.Atoi(strings.TrimSpace(low))
	b, errB := strconv.Atoi(strings.TrimSpace(high))
	switch {
	case errA != nil || errB != nil || a > b:
		return s.refuse(text, "is no span of whole numbers", "write it as 1-2, or as 2")
	case float64(a) < s.Least || float64(b) > s.Most:
		return s.outside(text)
	}
	*at = Span{a, b}
	return nil
}

// setCount reads a whole number.
func (s Setting) setCount(at *int, text string) error {
	v, err := s.figure(text, s.Unit, s.Default)
	switch {
	case err != nil:
		return err
	case v != float64(int(v)):
		return s.refuse(text, "is not a whole number", "write a whole number")
	}
	*at = int(v)
	return nil
}

// figure reads a number in the range, with or without its unit behind it.
func (s Setting) figure(text, unit, usual string) (float64, error) {
	v, ok := readNumber(bare(text, unit))
	switch {
	case !ok:
		return 0, s.refuse(text, "is no number", "write it as "+usual)
	case v < s.Least || v > s.Most:
		return 0, s.outside(text)
	}
	return v, nil
}

// refuse says what is wrong with a text.
func (s Setting) refuse(text, what, hint string) error {
	return &Error{Summary: fmt.Sprintf("%s %q %s", s.Key, text, what), Hint: hint}
}

// outside refuses a figure that is not in the range.
func (s Setting) outside(text string) error {
	return &Error{Summary: fmt.Sprintf("%s %s cannot be right", s.Key, text), Hint: "it lies between " + s.Range()}
}

// bare is a text without the unit behind it, one or many.
func bare(text, unit string) string {
	if many, found := strings.CutSuffix(text, unit); found {
		text = many
	} else if one, plural := strings.CutSuffix(unit, "s"); plural {
		text = strings.TrimSuffix(text, one)
	}
	return strings.TrimSpace(text)
}

// timeUnits are the units that a length of time may be written in.
var timeUnits = map[string]time.Duration{
	"s": time.Second, "sec": time.Second, "second": time.Second, "seconds": time.Second,
	"min": time.Minute, "mins": time.Minute, "minute": time.Minute, "minutes": time.Minute,
	"h": time.Hour, "hour": time.Hour, "hours": time.Hour,
	"day": 24 * time.Hour, "days": 24 * time.Hour,
}

// The forms of a length of time.
var (
	clockForm  = regexp.MustCompile(`^(\d{1,3}):([0-5]\d)$`)
	lengthPart = regexp.MustCompile(`^(\d[\d.,]{0,8})\s*([a-z]+)\s*`)
)

// longest is a length of time in hours beyond which nobody plans.
const longest = 10_000

// readLength reads "4 min", "90 s", "1 min 30 s", "4:00" or "2 days", to the
// second.
func readLength(text string) (whole time.Duration, ok bool) {
	if m := clockForm.FindStringSubmatch(text); m != nil {
		text = m[1] + " min " + m[2] + " s"
	}
	rest := strings.ToLower(text)
	for rest != "" {
		m := lengthPart.FindStringSubmatch(rest)
		if m == nil || timeUnits[m[2]] == 0 {
			return 0, false
		}
		v, ok := readNumber(m[1])
		whole += time.Duration(min(v, longest) * float64(timeUnits[m[2]]))
		if !ok || whole.Hours() > longest {
			return 0, false
		}
		rest = rest[len(m[0]):]
	}
	return whole.Round(time.Second), text != ""
}

// readNumber reads a plain number, with a point or a comma.
func readNumber(text string) (float64, bool) {
	text = strings.Replace(text, ",", ".", 1)
	if text == "" || len(text) > 12 || strings.Trim(text, "+-0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil
}
