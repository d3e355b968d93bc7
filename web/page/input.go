package page

import "strings"

// Input is a field of a form, as it is asked and as it was answered.
type Input struct {
	Name, Label string
	Small       string // beside the label: a unit, a form, an example
	Type        string // as HTML has it, or one of the constants; empty for a line of text
	Value       string
	Wrong       string   // what is wrong with the value, and what to do, in a sentence
	List        string   // the id of a list of likely values
	Choices     []Choice // of a [Pick]
	Needed      bool
	Keep        bool   // what is typed outlives a lost connection
	Most        int    // letters; 0 for any number
	Form        string // sets the field apart from one of the same name in another form of the page
}

// Types of input that HTML has elements of their own for.
const (
	Area   = "area" // several lines
	Pick   = "pick" // one of several
	Tick   = "tick" // yes or nothing
	Hidden = "hidden"
	OnDay  = "date"
)

// Choice is something that can be taken for what was typed, or one of several.
type Choice struct {
	Value, Label string
}

// At is the id of the field.
func (i Input) At() string {
	name := strings.ReplaceAll(i.Name, ".", "-")
	if i.Form != "" {
		return "f-" + i.Form + "-" + name
	}
	return "f-" + name
}
