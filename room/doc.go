// Package room makes an hour of a sheet and a room of people: minute by minute,
// who does what where, who waits for whom, what is short and what would help. It
// imports the nouns of the root alone: how pieces go comes from a
// [roomful.Forecaster], and what people do from their versions.
//
//   - [Plan] lays out the hour, says whether it fits and what takes it over.
//   - [Late] cuts an hour that has fallen behind.
//   - [Arrange] finds heats, waves and starts that take waiting away, and [Fixes]
//     ranks what would help, with its cost and the words to say.
//   - [Plates] says which discs go on which bar, so that everybody's load is as
//     near as can be to what they should lift.
package room
