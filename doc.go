// Package roomful is the glossary of the program: the nouns of a group
// strength-and-conditioning gym, one to a file, with the rules that hold for
// each of them wherever they are used.
//
// A coach writes a sheet: the plain text of one day. Package notation reads it
// into a [Session] of parts; a scored part is a piece. Each piece has a
// [Format] and its elements, and the session may say what effort is meant.
// Who comes is a list of [Athlete] values; what is known of a person is
// [Abilities], a distribution rather than a number. What the room owns is a
// [Kit]. A [Version] is what one person does: the piece with their own loads,
// amounts and movements. A [Forecaster] tells how versions will go.
//
// Data flows one way:
//
//	sheet → Session → Athlete, Kit → Version → Forecast
//
// The package imports the standard library alone and does no work of its own
// beyond what a noun needs to keep its own rules.
package roomful
