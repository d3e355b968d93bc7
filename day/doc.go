// Package day puts a day together: a coach's text, the people who come and the
// kit there is become a checked session, forecasts, and everybody's version.
// It is the one door to the packages beneath, so that the command, pages,
// papers and jobs give the same answer to the same question.
//
//	text → Check → Session ─┬─ Forecast → how it will go as written
//	             people, kit ┘
//	                        └─ Versions → options, versions, who needs the coach
//
// A session without an effort line gets a proposed one from two reference
// people, marked as proposed; it serves to find versions and is never held
// against anybody.
package day
