package roomful

// Alternative is an option of the day with what one person would do on it.
type Alternative struct {
	Option
	Proposed bool // it is the one that was found for them
	// Version is theirs on it, with its forecast; nil when there is none. An option that
	// is not theirs may have one: what would stand in for what they may not do.
	Version *Version
	// Expect says in words without figures where that would end beside the effort; empty
	// when no window is theirs to meet.
	Expect string
	Not    string // why it is not theirs, for the person and coaches; empty when it is
}
