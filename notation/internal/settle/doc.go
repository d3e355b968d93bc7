// Package settle turns a sheet that has been read into a session: the facts of
// each part become its format, and whatever could not be run, or cannot be
// meant, is said.
package settle
