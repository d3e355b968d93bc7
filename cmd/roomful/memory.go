package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/google/uuid"

	"roomful"
	"roomful/store"
	"roomful/store/postgres"
	"roomful/store/sqlite"
)

// memory is where a gym is kept.
type memory struct {
	Data     string `help:"The folder in which gyms are kept." placeholder:"DIR"`
	Database string `help:"The address of a database server in which gyms are kept." placeholder:"URL"`
}

// open opens the gyms.
func (m memory) open(p *program) (*store.Store, error) {
	switch {
	case m.Data != "" && m.Database != "":
		return nil, usageError{errors.New("gyms are kept in one place: give --data or --database, not both")}
	case m.Data == "" && m.Database == "":
		return nil, usageError{errors.New("say where the gyms are kept: --data FOLDER or --database URL")}
	case m.Data != "":
		s, err := sqlite.Open(p.ctx, m.Data)
		return s, kept(err)
	default:
		s, err := postgres.Open(p.ctx, m.Database)
		return s, kept(err)
	}
}

// openKept opens gyms that are there: a folder in which none is kept stays as it is, so
// that a slip in its name is said.
func (m memory) openKept(p *program) (*store.Store, error) {
	if m.Data != "" && m.Database == "" && !sqlite.Kept(m.Data) {
		return nil, &roomful.Error{Summary: "no gym is kept in " + m.Data, Hint: "check the name of the folder, or bring a gym in: roomful import FOLDER --data " + m.Data}
	}
	return m.open(p)
}

// kept is an error of the database, which is outside of us.
func kept(err error) error {
	if err == nil {
		return nil
	}
	return outsideError{err}
}

// oneGym is one of the gyms that are kept.
type oneGym struct {
	memory
	Gym string `help:"The gym, by name or id, when several are kept." placeholder:"NAME"`
}

// view opens the gyms and looks at the one that is meant.
func (g oneGym) view(p *program, look func(*store.Tx, store.Gym) error) error {
	s, err := g.openKept(p)
	if err != nil {
		return err
	}
	defer s.Close()
	return s.View(p.ctx, func(tx *store.Tx) error {
		gym, err := g.find(tx)
		if err != nil {
			return err
		}
		return look(tx, gym)
	})
}

// find finds the gym: by its name or id, or the only one there is.
func (g oneGym) find(tx *store.Tx) (store.Gym, error) {
	gyms, err := tx.Gyms()
	if err != nil {
		return store.Gym{}, err
	}
	var names []string
	for _, one := range gyms {
		if g.Gym != "" && (strings.EqualFold(one.Name, g.Gym) || one.ID == g.Gym) {
			return one, nil
		}
		names = append(names, one.Name)
	}
	switch {
	case len(gyms) == 0:
		return store.Gym{}, errNoGym
	case g.Gym != "":
		return store.Gym{}, &roomful.Error{Summary: fmt.Sprintf("no gym is called %q", g.Gym), Hint: "there are " + strings.Join(names, ", ")}
	case len(gyms) > 1:
		return store.Gym{}, &roomful.Error{Summary: "several gyms are kept here", Hint: "say which with --gym: " + strings.Join(names, ", ")}
	}
	return gyms[0], nil
}

// errNoGym says that nothing is kept yet.
var errNoGym = &roomful.Error{Summary: "no gym is kept here yet", Hint: "roomful import FOLDER brings one in"}

// newID makes an id that no other has.
func newID() (string, error) {
	id, err := uuid.NewV7()
	if err != nil {
		return "", outside("making an id", err, "the machine has no random numbers to give")
	}
	return id.String(), nil
}
