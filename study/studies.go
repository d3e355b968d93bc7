package study

// Studies returns every source, in the order they are printed: those that
// decide first, then what is printed for information.
func Studies() []Study {
	var all []Study
	for _, list := range [][]Study{pieces(), sets(), energies(), links(), orderings(), swaps(), recalled(), usual()} {
		all = append(all, list...)
	}
	return all
}
