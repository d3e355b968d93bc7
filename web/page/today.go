package page

// Today is shown on a day for which nothing is written.
type Today struct {
	May bool // write a sheet
}
