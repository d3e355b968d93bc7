// Package equation holds published laws, one source to a file: what a machine's
// monitor shows, what moving costs in oxygen, how long power lasts, how many
// repetitions a load allows. Nothing here knows of a person or a workout.
//
// Every quantity carries its unit in its name. Oxygen uptake is in mL per kg of
// body mass per minute and gross, that is with what a body uses at rest, unless
// a name says net. Power is mechanical and in watts. A share is of a
// one-repetition maximum and lies between 0 and 1.
//
// Each file states the source, the range it was made for and the error its
// authors or later users found. Outside that range a law still answers, so that
// a caller can extrapolate knowingly; where it has no meaning at all it answers
// NaN or an infinity, as its comment says. Where two laws compete both are kept,
// and a test states how far apart they may be.
//
// A figure marked "from memory" has not been read at its source for this
// program.
package equation
