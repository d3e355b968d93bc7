// Package exchange carries Roomful's nouns in and out of files: people as CSV,
// a kit as YAML or in words, and everything the command answers as JSON.
//
// Readers never guess in silence. They return what could be read beside
// diagnostics that each stand at a line and a column; a [roomful.Fault] says
// that something typed could not be used, a [roomful.Warning] that it could,
// but looks odd. Readers take at most [MaxBytes] and never panic.
//
// The JSON types are a contract: every field is always present, what is
// unknown is null, fields may be added and are never renamed. A number that is
// not finite is null too.
package exchange
