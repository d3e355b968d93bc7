// Package picture draws the pictures of the domain: the hour as a ribbon, a loaded bar,
// forecasts beside what was meant, scores over time, and the shapes of the options.
//
// Each function takes values and returns a [Picture], which is the same bytes whenever
// the values are the same. A picture is an SVG that speaks for itself (role img, a title
// and a description) together with a table that says in words and figures all that is
// drawn. [Picture.Figure] writes both, [Picture.SVG] the drawing alone.
//
// # Sizes
//
// A drawing is as wide as the place it is put in, from 280 px up. What is to scale stands
// at percentages of the width, what is read stands in px, so that words keep their size
// on a phone and on a wall. Words that need more room than the narrowest place has come
// out as the figure around them grows: the rules for that are in [Stylesheet], at the
// steps named in fit.go. A loaded bar alone is drawn to grow as a whole.
//
// # Colours
//
// A drawing names no colour and has no style of its own, only classes. [Stylesheet]
// colours them by the page's custom properties: paper, surface, ink, soft, line, kelp
// (do), amber (look here) and brick (stop), for light, dark and print. The discs of a bar
// alone have colours of their own, since a rule book gives them. No slow score is red,
// and no colour speaks alone: beside it stands a shape, a place or a word.
package picture

import _ "embed" // the stylesheet

// Stylesheet is the CSS that a page with pictures has to serve.
//
//go:embed picture.css
var Stylesheet string
