package store

import (
	"errors"

	"roomful"
)

// Trouble is something the matter with the database itself, and not with what was asked
// of it: commands and servers tell it apart from a refusal. It is no [roomful.Error] itself,
// so that nobody is shown where the file lies who takes it for one.
type Trouble struct {
	Said *roomful.Error // to whoever runs the program
	// Unsure says that what was to be stored may have been stored all the same.
	Unsure bool
}

// Error implements error.
func (t *Trouble) Error() string { return t.Said.Error() }

// plain says in words for people what is the matter with the database, and leaves any
// other error as it is.
func (s *Store) plain(err error) error {
	if err == nil || roomful.HintOf(err) != "" || errors.As(err, new(*Trouble)) {
		return err
	}
	said := s.engine.Plain(err)
	if said == nil {
		return err
	}
	t := &Trouble{Said: said, Unsure: errors.As(err, new(unsure))}
	if t.Unsure {
		said.Hint = "whether it was kept is not known: look, or send it again, which keeps it once"
	}
	return t
}
