package page

// Today is shown on a day for which nothing is written.
type Today struct {
	May   bool   // write a sheet
	Begin []Step // what a gym begins with, while it has not
}

// Step is something to be done, where, and whether it is.
type Step struct {
	Says string // "Write down what the gym owns"
	Why  string // what that is good for
	Path string
	Done bool
}
