package roomful

// Lexicon turns what people write into movements. Package catalogue implements
// it; a test may use a map.
type Lexicon interface {
	// Movement returns the movement with an id; nil when there is none.
	Movement(id MovementID) *Movement
	// Match finds the longest run of words, from the first on, that names a
	// movement, in any case, singular or plural, long or short. It returns how
	// many words it took; nil and 0 when no movement is named.
	Match(words []string) (m *Movement, n int)
	// Suggest returns movements whose names are near an unknown one, best first.
	Suggest(words string) []*Movement
	// All returns every movement in a fixed order.
	All() []*Movement
}
