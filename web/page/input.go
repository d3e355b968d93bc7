package page

// Input is a field of a form, as it is asked and as it was answered.
type Input struct {
	Name, Label string
	Small       string // beside the label
	Type        string // as HTML has it; empty for a line of text
	Value       string
	Wrong       string // what is wrong with the value, and what to do, in a sentence
	List        string // the id of a list of likely values
	Needed      bool
	Most        int // letters; 0 for any number
}

// Choice is something that can be taken for what was typed.
type Choice struct {
	Value, Label string
}
