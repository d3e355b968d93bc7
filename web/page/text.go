package page

// Plain is a text that a gym has one of, as it is written: its kit, its settings.
type Plain struct {
	Title, Path, About string
	Text               string
	Revision           int64
	Theirs             string // what holds now, when somebody else was faster
	Faults, Doubts     []Line
}

// Kit is what the gym owns, as a form of counts.
type Kit struct {
	Revision int64
	Theirs   string // what holds now, when somebody else was faster
	Wrong    []Input
	Notes    bool // the text has comments, which stay
	About    []Input
	Shelves  []Shelf
	Stations []Input
	Small    []Input
	None     bool // nothing is written yet
}

// Shelf is weights of one kind, or boxes.
type Shelf struct {
	Legend, Note string
	First, Count string // what the two columns are called
	Rows         [][2]Input
}

// Settings is how the gym likes things, in groups.
type Settings struct {
	May      bool
	Owner    bool // accounts, trail and backup are theirs
	Revision int64
	Theirs   string
	Wrong    []Input
	Groups   []SettingGroup
}

// SettingGroup is settings that belong together.
type SettingGroup struct {
	Legend string
	Fields []Input
	Facts  []Fact // what holds, for who may not change it
	Open   bool
}
