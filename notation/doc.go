// Package notation reads the text of a day's sheet into a session and prints a
// session in the one canonical form. The language is written down in [Spec] and
// held by the cases in testdata/spec.
//
// [Read] always returns the most complete session it can, beside what it has to
// say about the text. The work is divided so that each step can be read alone:
//
//	scan     text → lines of tokens
//	phrase   one line → facts and elements, a method for each production
//	notation lines → parts: titles, heads, blocks, boards without any heads
//	settle   facts → formats, and what cannot be run
//	canon    session → text
//
// with vocab, the words that reading and printing share, and diag, what is said,
// beneath them all. A coach writes clauses in any order and leaves heads out, so
// that nothing is decided about a part before all of it has been read: clauses
// are gathered as facts, and settled at the end.
//
// [Print] never calls the reader: printing what was read and reading that again
// gives the same text, and the fuzz targets hold both to it.
//
// Nothing that was typed is lost: what is not understood is kept as a note or as
// the words of an element. Nothing is guessed silently: what was assumed is said.
package notation

import _ "embed"

// Spec is the description of the sheet language, in Markdown.
//
//go:embed spec.md
var Spec string
