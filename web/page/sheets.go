package page

// Sheets is the library: every day that was written, the latest first.
type Sheets struct {
	May    bool // write one
	Asked  string
	Ahead  []SheetRow // days to come
	Done   []SheetRow // today and before
	Adrift []SheetRow // without a date
}

// SheetRow is one of them.
type SheetRow struct {
	Name, Title string
	Day         string // in words; empty without a date
	Used        string // when it was last done, and by how many
	Draft       bool   // not published
}
