// Package phrase reads one line of a sheet: its clauses, such as "cap 12 min" or
// "in pairs", into [Facts], and its elements, such as "9 front squats 60 kg". There
// is one method for each production of the grammar in spec.md, and every turn
// takes at least one token, so that reading always ends.
//
// What a line means for the part it stands in is not decided here.
package phrase
