// Package notation reads the text of a day's sheet into a session and prints a
// session in the one canonical form. The language is written down in [Spec] and
// held by the cases in testdata/spec.
//
// [Read] always returns the most complete session it can, beside what it has to
// say about the text. It works in four steps, one to a group of files:
//
//   - scan: the text becomes lines of tokens, with curly quotes, crosses,
//     fractions, bullets and the like made plain;
//   - parse: one method for each production of the grammar; what stands at a
//     head is gathered as facts, what stands on lines as elements;
//   - settle: the facts of a part become its format;
//   - check: what could not be run, or is absurd, is said.
//
// [Print] shares the vocabulary with the parser but never calls it: printing
// what was read and reading that again gives the same text, and the fuzz targets
// hold both to it.
//
// Nothing that was typed is lost: what is not understood is kept as a note or as
// the words of an element. Nothing is guessed silently: what was assumed is said.
package notation

import _ "embed"

// Spec is the description of the sheet language, in Markdown.
//
//go:embed spec.md
var Spec string
