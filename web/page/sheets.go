package page

// Sheets is a page of the library: every day that was written, the latest first.
type Sheets struct {
	May          bool   // write one
	Asked        string // a title or a movement; empty for all
	Ahead        []SheetRow
	Done         []SheetRow // today and before
	Adrift       []SheetRow // without a date
	Newer, Older string     // the addresses of the pages beside it; empty for none
}

// SheetRow is one of them.
type SheetRow struct {
	Name, Title string
	Day         string     // in words; empty without a date
	Used        string     // when it was last done, and by how many
	Next        string     // the next class that has it
	Draft       string     // that it is not published, or not as it stands
	Again       []SheetRow // the same at other times, the latest first
	More        int        // other times beyond those
	All         string     // where all of them are
}
