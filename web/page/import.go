package page

// Import brings people in from a file: the file is asked for, then shown as it was read,
// and kept when somebody says so.
type Import struct {
	Text           string
	Asked          bool // something was sent
	Faults, Doubts []Line
	Rows           []ImportRow
	More           int    // rows that are not shown
	Summary        string // "3 new, 1 changed, 20 as they were"
}

// Line is what is said of a line of a text.
type Line struct {
	N    int
	Text string // the line itself
	Says string
}

// ImportRow is somebody of the file, as they were read.
type ImportRow struct{ Name, Do, Told string }
