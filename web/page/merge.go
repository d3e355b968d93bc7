package page

// Merge shows two texts of a sheet that were written at the same time.
type Merge struct {
	Name, Title, Query string
	Who, When          string // of the other text
	Mine               string
	Base, Revision     int64 // that mine was written from, and that holds
	Hunks              []MergeHunk
}

// MergeHunk is a stretch that is the same in both, or as each has it.
type MergeHunk struct {
	N            int
	Same         []string
	Mine, Theirs []string
	Asked        bool // both have changed it
	TakeTheirs   bool // only they have
}

// Revisions is what a sheet was.
type Revisions struct {
	Name, Title string
	Revision    int64 // that holds
	All         []RevisionRow
	Before      int64 // where the ones before these begin; 0 for none
}

// RevisionRow is a text that a sheet was, or that waits beside it.
type RevisionRow struct {
	N         int64
	When, Who string
	Now       bool // it holds
	Aside     bool // somebody else was faster
	Says      string
	Lines     []RevisionLine
}

// RevisionLine is a line of it: written anew, gone since, or as it was.
type RevisionLine struct {
	Mark string // "+", "−" or nothing
	Text string
}
