// Package version decides what each person does of a piece: the options of the
// day, who stands on which, and with what load.
//
// It works as a head coach does before class. First it reads what the sheet
// says for the person's division ([AsWritten]). Then, for everybody at once
// ([Propose]):
//
//	written → bounds → rungs → screen → options → halving → versions
//
// A bound is what a person must not exceed or must not do: a fresh rule of the
// effort, a limit, a skill they lack, kit that is missing, their first months,
// their age. A rung is a complete piece that could be briefed: movements,
// amounts and heights; loads inside it are personal. Screening scores every
// person on every rung at several loads without noise and picks the at most
// four rungs that put most people in the window with the fewest one-offs.
// Halving simulates the few versions left with the same random numbers and
// picks each person's.
//
// The rules of choice are those of doc/model.md, "Options of the day": what is
// written stays whenever it meets the effort within the person's bounds;
// otherwise load gives way before repetitions, repetitions before height,
// height before a simpler form, and that before another movement of the same
// pattern. A pattern never changes without being named.
//
// Somebody who is held to a share of the volume, back after a break or in their
// first months, does the piece as it is for less long: they stop earlier or do
// fewer rounds, sets or steps (a [roomful.Dose]). Their forecast is of that, and no
// window is theirs to meet.
//
// Where something hurts, what stands in is chosen among what is safe by how likely
// it keeps the effort: the catalogue's swaps in their order, with more of them when
// they leave the piece too easy and, for a little pain, two thirds of the load.
//
// Around the versions of a day's pieces [Itineraries] lays everybody's day: the
// warm-up second by second, each drill made fit like any other line but lightly;
// the ramp from the empty bar to the person's own load; and what the score may be
// compared with. Who trains at home trains alone: nothing maximal, no skill upside
// down, and a strength set that has lost its load keeps its time and effort with
// one leg at a time or slow lowering.
//
// Two questions stand beside the versions. [Instead] resolves what the catalogue
// puts in the place of a movement for one person. [Relieve] answers somebody who
// says that something hurts: it takes their version for the sheet, what hurts for
// one more limit, and fits the line again.
//
// Every element carries one line of why that anybody may read, and apart from
// it the private reason. Nothing here is a diagnosis: whoever tells of a red
// flag is offered no exercise and sent to a professional.
//
// The package imports the root alone. A Forecaster and a Lexicon come as
// arguments, so a test can decide with a toy.
package version
