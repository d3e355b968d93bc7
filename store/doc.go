// Package store is the memory of a gym: people and what they told, sheets and what they
// were, classes and who came, every score as it was typed, and who may see what.
//
// A [Store] is opened by an engine, [roomful/store/sqlite] or [roomful/store/postgres].
// Reading and writing go through a function:
//
//	err := s.Update(ctx, store.By{Account: coach, At: now}, func(tx *store.Tx) error {
//		return tx.In(gym).PutAttempt(a)
//	})
//
// [Tx.In] opens the [Books] of one gym. Every question asked of them carries the gym's
// id, and every key of the database begins with it: one gym's id is worth nothing in
// another's books.
//
// Updates are durable when Update returns nil. Those that wait at the same moment are
// committed together, each within its own savepoint, so that a room of people who send
// their scores at once waits for the disk once; a function that fails is undone alone.
// The updates of one gym happen one after the other, in every process. A function must
// not wait for anything but the database, and may be called again when a commit fails
// for another's sake.
//
// Texts that people write (sheets, kit, settings) are kept as they were written, with
// everything they were before. What is computed from them can always be computed again.
// Whoever saves a text that somebody else has changed meanwhile is told so, and their
// text is kept aside.
//
// Each update that changes something leaves a row in the book of changes, numbered
// without gaps within a gym in the order of commitment: open pages follow it, and so
// does whoever asks who did what.
//
// The map of the tables is store/sqlite/schema.sql; store/postgres/schema.sql is the same
// for the other database. Both are written by a test from what migrations make.
//
// Instants are stored in UTC to the microsecond, days as they are written.
package store
