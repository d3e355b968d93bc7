package page

// Person is somebody, for coaches and for themselves.
type Person struct {
	ID, Name  string
	Mine      bool // it is the reader's own
	May       bool // the reader runs the gym
	Since     string
	Gone      string // when they left, in words; empty while they come
	Revision  int64
	Stop      bool
	Say       []string // what holds for them today
	Cautions  []string
	Limits    []LimitForm
	Ended     []LimitForm
	Add       LimitForm
	Facts     []Fact // what they told
	Abilities []AbilityRow
	Guessed   []AbilityRow // without a result of their own
	Ways      []AbilityRow // how they go about it: factors beside an ordinary person
	Classes   []PlaceRow   // to come
	SignsIn   string
}

// Fact is something told, by its name.
type Fact struct{ Name, Value string }

// AbilityTable is rows of one table, with its name.
type AbilityTable struct {
	Name string
	Rows []AbilityRow
}

// AbilityRow is what is believed of one thing that somebody can do.
type AbilityRow struct{ Name, About, From, To, Unit, By string }

// PlaceRow is a class that somebody has a place in.
type PlaceRow struct{ When, State string }

// LimitForm is a limit, and the form that changes it.
type LimitForm struct {
	ID, Person string
	Words      string // "Back 4 of 10"
	When       string // "since 2027-03-01, a coach's word"
	Note       string
	Out        bool // it sends them to a professional
	May        bool // the reader may change it
	Open       bool // the form is shown open
	Fields     []Input
	Wrong      []Input
}

// Told is the form of what somebody told.
type Told struct {
	ID, Name string
	Mine     bool
	Revision int64
	Stale    bool // somebody else has changed it meanwhile
	Groups   []Group
	Wrong    []Input
}

// Group is fields that belong together.
type Group struct {
	Legend, Note string
	Fields       []Input
	More         []Input // asked less often
}

// Link lets somebody in: shown once, to be handed over.
type Link struct {
	Name, Role string
	Path       string // /in/...; empty when none was just made
	Full       string // with the address of the server
	Back       string // where the page leads back
	BackName   string
	Make       string // where a new one is asked for
}
