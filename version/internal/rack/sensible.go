package rack

import "strings"

// Loads by how many times fresh they can be moved without a break (common
// practice, no source).
const (
	Light, Moderate, Heavier = 21, 12, 7
)

// feels are the words of an effort that ask for another load than moderate.
var feels = map[string]int{
	"sprint": Light, "fast": Light, "quick": Light, "light": Light,
	"heavy": Heavier, "strong": Heavier, "grind": Heavier,
}

// Sensible returns how many times fresh a person should be able to move the
// load of a set of count, when the sheet gives no rule.
func Sensible(count float64, feel string) float64 {
	usual := Moderate
	for _, w := range strings.Fields(strings.ToLower(feel)) {
		if n, ok := feels[strings.Trim(w, ",.;")]; ok {
			usual = n
		}
	}
	switch {
	case count == 0:
		return float64(usual)
	case count <= 3 || usual == Heavier && count <= Heavier:
		return min(count+2, Heavier)
	case usual == Light:
		return min(Light, max(Moderate, count))
	}
	return min(float64(usual), max(Heavier, count))
}
