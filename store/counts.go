package store

import "sync/atomic"

// Counts are how much a store has done since it was opened.
type Counts struct {
	Updates int64 // that were made
	Refused int64 // that were undone
	Commits int64 // transactions: updates that wait together are committed together
}

// counts are those that are being counted.
type counts struct{ updates, refused, commits atomic.Int64 }

// Counts says how much the store has done since it was opened.
func (s *Store) Counts() Counts {
	return Counts{s.counts.updates.Load(), s.counts.refused.Load(), s.counts.commits.Load()}
}

// made counts an update by how it went.
func (c *counts) made(err error) {
	if err != nil {
		c.refused.Add(1)
		return
	}
	c.updates.Add(1)
}
