package roomful

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// aSet is a set as people say it: "5x50kg", "5 x 50 kg", "5 @ 110 lb", "3x42,5".
var aSet = regexp.MustCompile(`(?i)^\s*(\d{1,3})\s*[x×@]\s*(\d{1,4}(?:[.,]\d{1,2})?)\s*(kg|kgs|lb|lbs|#)?\s*$`)

// The most that is read as a set: longer ones say little of a load, and heavier ones
// are slips.
const mostSetReps, mostSetKg = 50, 500

// ReadKnownSet reads a set that somebody remembers, nil when nothing is said. Without a
// unit the load is in the person's.
func ReadKnownSet(text string, unit MassUnit) (*KnownSet, error) {
	if text == "" {
		return nil, nil
	}
	bad := func(why string) error {
		return &Error{Summary: fmt.Sprintf("%.40q %s", text, why), Hint: "write repetitions and load, such as 5x50kg"}
	}
	f := aSet.FindStringSubmatch(text)
	if f == nil {
		return nil, bad("is no set")
	}
	reps, _ := strconv.Atoi(f[1])
	value, _ := strconv.ParseFloat(strings.Replace(f[2], ",", ".", 1), 64)
	switch {
	case f[3] == "":
	case strings.HasPrefix(strings.ToLower(f[3]), "k"):
		unit = Kilogram
	default:
		unit = Pound
	}
	load := Mass{Value: value, Unit: unit}
	switch {
	case reps < 1 || reps > mostSetReps:
		return nil, bad(fmt.Sprintf("is no set of 1 to %d repetitions", mostSetReps))
	case value == 0 || load.Kg() > mostSetKg:
		return nil, bad("is no load that is lifted")
	}
	return &KnownSet{Reps: reps, Load: load}, nil
}
