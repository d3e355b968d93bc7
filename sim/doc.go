// Package sim is the one model of work under fatigue: it forecasts how a piece
// will go for people whose abilities are distributions.
//
// A [Model] implements [roomful.Forecaster]. For every run it draws each
// person's abilities for the day, resolves their tasks into acts of the kernel,
// and walks the piece's format step by step. Two passes make a run: a free one
// without noise shows what the whole piece will ask, and the real one is paced
// by it. Screening ([Model.Typical]) is the same walk without noise at the
// centre of the abilities. No second, simpler estimate lives beside it.
//
// Each format of a piece is a course: a small state machine that hands out the
// next step (course.go). Partners form a crew that shares one clock (crew.go).
// The rules and the source of each constant are in doc/model.md and
// doc/constants.md.
package sim
