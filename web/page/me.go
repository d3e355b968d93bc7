package page

// Me is My data: how they come in, and all that is kept of them.
type Me struct {
	Name, Role string
	Since      string
	Passkeys   bool // this device could have one
	Password   bool // they may have one
	Keys       []KeyRow
	Devices    []DeviceRow
	Person     string // their id among the people; empty for who does not train
	Facts      []Fact
	Limits     []string
	Scores     []string // the latest, in words
	More       int      // scores beside those
	Classes    []string
	Notes      []string
	Versions   []string // that a coach set by hand
	Learnt     []Fact
	Erase      Input
}

// KeyRow is a passkey.
type KeyRow struct{ ID, Made string }

// DeviceRow is a device that is signed in.
type DeviceRow struct {
	Name, Seen string
	This       bool
}

// Accounts is who may sign in.
type Accounts struct {
	Open, Closed []AccountRow
	Roles        []Choice // whom the reader may invite
}

// AccountRow is one of them.
type AccountRow struct {
	ID, Name, Role string
	Ways           string // "password, 2 passkeys"
	Devices        string
	Since          string
	Mine           bool
	Only           bool // the only owner
}

// Trail is who did what, the latest first.
type Trail struct {
	Steps        []TrailRow
	Older, Newer string // where the pages beside this one are
}

// TrailRow is something that somebody did.
type TrailRow struct{ At, Who, Did string }

// Learning is how far learning from all scores is.
type Learning struct {
	Going   bool
	Percent int
	Says    string
	Waiting string
	May     bool
}
