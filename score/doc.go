// Package score reads scores as people type them: "7.13", "cap, nine left",
// "5+20 w/ singles, back tight".
//
// Text becomes tokens, tokens become facts (a clock time, rounds and
// repetitions, a load), and the facts are laid against the pieces of the sheet
// so that together they fit best. A reading never guesses in silence: where two
// readings are possible it keeps the likelier and asks one short question, and
// words that nothing was made of stand in its note. Words about the body are
// taken out first and stand in its private words and nowhere else.
//
// What is read and what is asked is written in spec.md.
package score
