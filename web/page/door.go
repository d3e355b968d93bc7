package page

// Invited shows whom an invitation is for.
type Invited struct {
	Name string // empty when it is for anybody
	Role string
}

// Enter shows the ways to come back, with what was typed that did not let anybody in.
type Enter struct {
	Passkeys     bool
	Account, Gym string
	Wrong        string // in a sentence; empty when nothing was tried
}

// Refused says why not, and what to do next. What was typed comes back with it, to be
// sent again.
type Refused struct {
	Summary, Hint string
	Enter         bool // there is nobody signed in
	Again         *Again
}

// Again is a form that was sent and not taken.
type Again struct {
	Action string
	Fields []Field
}

// Field is one thing that was typed.
type Field struct {
	Name, Value string
	Label       string // in words; empty for what nobody has typed
	Long        bool   // of several lines
}
