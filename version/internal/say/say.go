// Package say is the plain words and figures of a line that anybody may read:
// movements, patterns and what changes between them, kit, amounts a coach would
// brief.
package say

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"roomful"
)

// families put the two pulls and the two pushes together: a horizontal pull
// keeps what a vertical one trains.
var families = map[roomful.Pattern]string{
	roomful.PullHorizontal: "pull", roomful.PullVertical: "pull",
	roomful.PushHorizontal: "push", roomful.PushVertical: "push",
	roomful.SingleLeg: "work on one leg", roomful.Cyclic: "steady work",
}

// Family returns the plain word for a pattern.
func Family(p roomful.Pattern) string {
	if f, ok := families[p]; ok {
		return f
	}
	return string(p)
}

// Kept says what another form keeps of a pattern, "the hinge" or "the core at work".
func Kept(p roomful.Pattern) string {
	switch p {
	case roomful.Core:
		return "the core at work"
	case roomful.Mobilise:
		return "the same parts moving"
	case roomful.Invert:
		return "the weight on the hands"
	}
	return "the " + Family(p)
}

// Leads returns the leading pattern of a movement.
func Leads(m *roomful.Movement) roomful.Pattern {
	if m == nil || len(m.Patterns) == 0 {
		return ""
	}
	return m.Patterns[0]
}

// Keeps reports whether b keeps the leading pattern of a.
func Keeps(a, b *roomful.Movement) bool {
	lead := Leads(a)
	if lead == "" || b == nil {
		return true
	}
	return slices.ContainsFunc(b.Patterns, func(p roomful.Pattern) bool { return Family(p) == Family(lead) })
}

// Neighbour says what changes from a to b, "hinge becomes squat", and nothing
// when the pattern is kept.
func Neighbour(a, b *roomful.Movement) string {
	if Keeps(a, b) || Leads(b) == "" {
		return ""
	}
	return Family(Leads(a)) + " becomes " + Family(Leads(b))
}

// grain is the step of amounts that a coach would brief: whole repetitions and
// calories, fives above forty; tens of metres, fifties from 300 up; fives of
// seconds.
func grain(v float64, u roomful.Unit) float64 {
	switch {
	case u == roomful.Metre && v >= 300:
		return 50
	case u == roomful.Metre && v >= 20:
		return 10
	case u == roomful.Second && v >= 10:
		return 5
	case u != roomful.Metre && v > 40:
		return 5
	}
	return 1
}

// Tidy rounds an amount to its grain, never to nothing.
func Tidy(v float64, u roomful.Unit) float64 {
	step := grain(v, u)
	return max(math.Round(v/step)*step, step)
}

// Trim rounds an amount down to its grain: a bound is not rounded up.
func Trim(v float64, u roomful.Unit) float64 {
	step := grain(v, u)
	return max(math.Floor(v/step+1e-6)*step, step)
}

// kitWords are plain words for what may be missing.
var kitWords = map[string]string{
	"row": "rower", "ski": "ski machine", "fan-bike": "fan bike", "pull-up-bar": "pull-up bar",
	"barbell": "bar", "wall-target": "wall target", "climbing-rope": "climbing rope", "lane": "room to run",
}

// Machine is the plain word for what a machine's movement is done on.
func Machine(m *roomful.Movement) string {
	if w, ok := kitWords[string(m.Implement)]; ok {
		return w
	}
	return m.Name
}

// Lack says what is missing.
func Lack(word string, home bool) string {
	switch word {
	case "ceiling":
		return "under a low ceiling"
	case "noise":
		return "quiet for the neighbours"
	case "space":
		return "alone at home"
	}
	if w, ok := kitWords[word]; ok {
		word = w
	}
	if home {
		return "no " + word + " at home"
	}
	return "no " + word + " here"
}

// Amount writes an amount without the word for repetitions.
func Amount(v float64, u roomful.Unit) string {
	if u == roomful.Rep {
		return roomful.Figure(v)
	}
	return roomful.Figure(v) + " " + u.String()
}

// Share is the word for a common share.
func Share(v float64) string {
	switch {
	case math.Abs(v-0.5) < 1e-9:
		return "half"
	case math.Abs(v-0.75) < 1e-9:
		return "three quarters of"
	}
	return strconv.Itoa(int(math.Round(v*100))) + " % of"
}

// Count writes a number of things.
func Count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}

// Steps writes a ladder, "21-15-9".
func Steps(steps []int) string {
	var out []string
	for _, n := range steps {
		out = append(out, strconv.Itoa(n))
	}
	return strings.Join(out, "-")
}

// Minutes writes a time with its unit, whole minutes in words.
func Minutes(d time.Duration) string {
	switch {
	case d == time.Minute:
		return "1 minute"
	case d%time.Minute == 0:
		return strconv.Itoa(int(d/time.Minute)) + " minutes"
	}
	return roomful.Clock(d.Seconds())
}

// Clock writes a time without its unit, whole minutes as a number.
func Clock(d time.Duration) string {
	if d%time.Minute == 0 {
		return strconv.Itoa(int(d / time.Minute))
	}
	return roomful.Clock(d.Seconds())
}

// Load writes a mass, in a person's own unit too when it is another.
func Load(m roomful.Mass, own roomful.MassUnit) string {
	if m.Value == 0 || m.Unit == own {
		return m.String()
	}
	return m.String() + " (" + roomful.Figure(math.Round(m.In(own).Value)) + " " + own.String() + ")"
}

// Tool is the plain word for what a movement is held with.
func Tool(m *roomful.Movement) string {
	if m.Implement == roomful.Barbell {
		return "bar"
	}
	return string(m.Implement)
}

// Plural is a movement's plural name.
func Plural(m *roomful.Movement) string {
	switch {
	case m == nil:
		return "it"
	case m.Plural != "":
		return m.Plural
	}
	return m.Name
}

// Many is a movement as a task of it is spoken of: "deadlifts", "row".
func Many(m *roomful.Movement, t roomful.Task) string {
	if m != nil && t.Unit != roomful.Rep {
		return m.Name
	}
	return Plural(m)
}

// unspeakable are the words that a public line never carries; "back squat" and
// the like are names and stand in movements alone.
var unspeakable = []string{"pain", "sore", "hurt", "injur", "pregnan", "belly", "body", "back", "shoulder", "elbow", "wrist", "neck",
	"hip", "knee", "ankle", "weak", "old", "young", "heavy for", "probab", "%"}

// Public returns words from the catalogue if anybody may read them, and else
// the plain ones.
func Public(words, plainly string) string {
	low := strings.ToLower(words)
	for _, u := range unspeakable {
		if strings.Contains(low, u) {
			return plainly
		}
	}
	return words
}

// Unused returns a name that no option has yet.
func Unused(name string, taken []roomful.Option) string {
	for n := 2; ; n++ {
		free := true
		for _, o := range taken {
			free = free && o.Name != name
		}
		if free {
			return name
		}
		name = strings.TrimRight(name, " 0123456789") + " " + roomful.Figure(float64(n))
	}
}
