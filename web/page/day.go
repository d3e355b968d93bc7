package page

// DayHead is what every page of a day begins with.
type DayHead struct {
	Name  string // of the sheet, in addresses
	Title string
	When  string // in words
}

// Day is a day as those see it who write it.
type Day struct {
	DayHead
	Text     string
	Revision int64
}

// MyDay is a day as somebody sees it who trains on it.
type MyDay struct {
	DayHead
}
