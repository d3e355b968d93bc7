package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/store"
)

// backupVerb writes a whole gym as one file.
type backupVerb struct {
	File string `arg:"" help:"The archive to write; it must not exist yet."`
	oneGym
}

// Help implements the long help.
func (backupVerb) Help() string {
	return "All that is kept of the gym, health notes included: keep it to yourself. While a gym in --data is served its owner fetches the same file from /backup. Restore brings it back in any folder or database."
}

// Run does the verb.
func (v *backupVerb) Run(p *program) (err error) {
	if _, err := os.Lstat(v.File); err == nil {
		return &roomful.Error{Summary: "writing " + v.File + ": there is a file already", Hint: "name one that does not exist"}
	}
	part, err := os.CreateTemp(filepath.Dir(v.File), ".roomful-*")
	if err != nil {
		return outside("writing "+v.File, err, "name a folder that you may write to")
	}
	defer os.Remove(part.Name())
	name := ""
	err = v.view(p, func(tx *store.Tx, gym store.Gym) error {
		name = gym.Name
		return tx.In(gym.ID).Archive(part)
	})
	if err := errors.Join(err, part.Sync(), part.Close()); err != nil {
		var full *os.PathError // of the archive: what cannot be read of the gym is another error
		if errors.As(err, &full) {
			return outside("writing "+v.File, full, "is the disk full? the gym is as it was")
		}
		return err
	}
	if err := os.Rename(part.Name(), v.File); err != nil { // whole, or not there
		return outside("writing "+v.File, err, "name a folder that you may write to")
	}
	if p.json {
		return p.answer(exchange.Exported{Gym: name, Files: []string{v.File}})
	}
	return p.print(fmt.Sprintf("%s is kept in %s\n", name, v.File))
}

// restoreVerb makes a gym from an archive.
type restoreVerb struct {
	File string `arg:"" help:"The archive that backup wrote."`
	memory
}

// Help implements the long help.
func (restoreVerb) Help() string {
	return "The gym is as it was when the archive was made. A gym that is kept already is left alone: restore into an empty folder."
}

// Run does the verb.
func (v *restoreVerb) Run(p *program) error {
	f, err := os.Open(v.File)
	if err != nil {
		return outside("reading "+v.File, err, "check the name and where you are")
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return outside("reading "+v.File, err, "check that it is a file you may read")
	}
	s, err := v.open(p)
	if err != nil {
		return err
	}
	defer s.Close()
	var gym store.Gym
	err = s.Update(p.ctx, store.By{At: p.Now()}, func(tx *store.Tx) (err error) {
		gym, err = tx.Restore(f, info.Size())
		return err
	})
	switch {
	case errors.Is(err, store.ErrTaken):
		return &roomful.Error{Summary: "restoring " + gym.Name + ": it is kept here already", Hint: "restore into an empty folder and look at it there"}
	case err != nil:
		return err
	case p.json:
		return p.answer(exchange.Exported{Gym: gym.Name, Files: []string{v.File}})
	}
	return p.print(gym.Name + " is restored\n")
}

// doctorVerb looks for damage.
type doctorVerb struct{ memory }

// Help implements the long help.
func (doctorVerb) Help() string {
	return "It reads every page and every reference, and changes nothing."
}

// Run does the verb.
func (v *doctorVerb) Run(p *program) error {
	s, err := v.openKept(p)
	if err != nil {
		return err
	}
	defer s.Close()
	out := exchange.Examined{Database: s.Engine(), Gyms: []exchange.ExaminedGym{}, Found: []string{}}
	found, err := s.Doctor(p.ctx)
	if err != nil {
		return kept(err)
	}
	out.Found = append(out.Found, found...)
	if err := s.View(p.ctx, func(tx *store.Tx) error { return examine(tx, &out) }); err != nil {
		out.Found = append(out.Found, err.Error())
	}
	bad := error(nil)
	if len(out.Found) > 0 {
		bad = errFaults
	}
	if p.json {
		return errors.Join(p.answer(out), bad)
	}
	var b strings.Builder
	for _, g := range out.Gyms {
		fmt.Fprintf(&b, "%s: %s, %s, %s\n", g.Name, people(g.People), plural(g.Sheets, "sheet"), plural(g.Scores, "score"))
	}
	if len(out.Gyms) == 0 {
		b.WriteString("no gym is kept here yet\n")
	}
	for _, f := range out.Found {
		fmt.Fprintf(&b, "damaged: %s\n", f)
	}
	if bad == nil {
		fmt.Fprintf(&b, "%s: no damage found\n", s.Engine())
	} else {
		b.WriteString("restore the last backup into an empty folder; keep this one as it is\n")
	}
	return errors.Join(p.print(b.String()), bad)
}

// people counts people in words.
func people(n int) string {
	if n == 1 {
		return "1 person"
	}
	return fmt.Sprintf("%d people", n)
}

// examine counts what is kept of every gym.
func examine(tx *store.Tx, out *exchange.Examined) error {
	gyms, err := tx.Gyms()
	if err != nil {
		return err
	}
	for _, g := range gyms {
		b := tx.In(g.ID)
		people, err := b.People(true)
		if err != nil {
			return err
		}
		sheets, err := b.Documents(store.Sheet)
		if err != nil {
			return err
		}
		scores, err := b.Scores()
		if err != nil {
			return err
		}
		out.Gyms = append(out.Gyms, exchange.ExaminedGym{ID: g.ID, Name: g.Name, People: len(people), Sheets: len(sheets), Scores: scores})
	}
	return nil
}
