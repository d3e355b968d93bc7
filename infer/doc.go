// Package infer learns abilities from logged results.
//
// A result is the version that was actually done and its score. It is never
// converted to another version by a ratio: what it says about a person is how
// likely the forecaster, run on that very version, makes the score at every
// ability they might have. Running the forecaster everywhere would take hours,
// so it is run at a few hundred abilities for each structure of piece, and a
// smooth [Emulator] stands in for it between them. Loads and body mass are
// inputs of an emulator; amounts, heights and formats make another structure.
//
// [Simulator.Learn] then finds what all results of a person say, at once and not
// one after the other, so that their order cannot matter. It works on the
// independent normal factors that abilities are made of. Each score is made
// straight over the whole of what is believed, the straight problem is solved,
// and that again for the belief that follows, in the end with how slopes turn. What
// comes back is abilities of the
// same kind, with narrower spread where results informed them. A prior that
// already holds a gym's own people shrinks towards them.
//
// Supply of oxygen wanders with the weeks, so that old results say less about
// today. Scores that no noise of the forecaster explains, a slip of the pen or a
// twisted ankle, lose their weight. A cap bounds, and so does an element that
// somebody could or could not do.
package infer
