package main

import (
	"crypto/rand"
	"os"

	"roomful"
	"roomful/account"
	"roomful/demo"
	"roomful/desk"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/transfer"
)

// demoToday is the day of the demo's sheet that nobody has scored on yet.
var demoToday = roomful.Date{Year: 2027, Month: 4, Day: 9}

// serveDemo brings the invented gym into a database and serves it.
func (p *program) serveDemo(address, dir string) error {
	if dir == "" {
		made, err := os.MkdirTemp("", "roomful-demo-")
		if err != nil {
			return outside("making a folder for the demo", err, "name one with --data")
		}
		defer os.RemoveAll(made)
		dir = made
	}
	s, err := sqlite.Open(p.ctx, dir)
	if err != nil {
		return kept(err)
	}
	defer s.Close()
	links := map[string]string{}
	err = s.Update(p.ctx, store.By{At: p.Now()}, func(tx *store.Tx) error { return p.demoGym(tx, links) })
	if err != nil {
		return err
	}
	return p.serve(s, served{address: address, secrets: links, quiet: true})
}

// demoGym makes the invented gym, and an invitation for each role.
func (p *program) demoGym(tx *store.Tx, links map[string]string) error {
	folder, err := transfer.Open(demo.Files)
	if err != nil {
		return err
	}
	id, err := newID()
	if err != nil {
		return err
	}
	now := p.Now()
	// What is done again today, and was not yet, is what the demo opens with.
	days := p.today().Days(demoToday)
	if err := tx.MakeGym(store.Gym{ID: id, Name: "The Drying Floor", Zone: "Europe/London", MadeAt: now}); err != nil {
		return err
	}
	b := tx.In(id)
	if _, err := transfer.Import(b, folder.Moved(days), p.lexicon, now); err != nil {
		return err
	}
	if err := p.demoEditions(b); err != nil {
		return err
	}
	if err := p.demoClasses(b); err != nil {
		return err
	}
	owner := account.Visitor{Gym: id, Account: store.Account{Role: store.Owner}}
	for role, person := range map[string]string{store.Owner: "", store.Coach: "", store.Member: "rhona", store.Screen: ""} {
		if links[role], err = owner.Invite(b, role, person, now, rand.Reader); err != nil {
			return err
		}
	}
	return nil
}

// demoEditions publishes the days that have come; what lies ahead is its coaches' alone.
func (p *program) demoEditions(b *store.Books) error {
	laid, err := desk.New(p.day, nil).Open(b, p.Now())
	if err != nil {
		return err
	}
	sheets, err := laid.Sheets(true)
	for _, d := range sheets {
		if !d.Shown {
			continue
		}
		id, err := newID()
		if err != nil {
			return err
		}
		if err := b.Publish(id, d.ID, laid.ReadBy()); err != nil {
			return err
		}
	}
	return err
}

// demoClasses gives everybody a place in one of the day's classes.
func (p *program) demoClasses(b *store.Books) error {
	people, err := b.People(false)
	if err != nil {
		return err
	}
	sheets, err := b.OnDay(p.today())
	if err != nil || len(sheets) == 0 {
		return err
	}
	for _, c := range []struct {
		start string
		come  int
	}{{"06:00", 8}, {"12:15", 5}, {"17:30", len(people)}} {
		id, err := newID()
		if err != nil {
			return err
		}
		if err := b.PutClass(store.Class{ID: id, Day: p.today(), Start: c.start, Minutes: 60, Capacity: 18, Document: sheets[0].ID}); err != nil {
			return err
		}
		n := min(c.come, len(people))
		for _, a := range people[:n] {
			if _, err := b.SignUp(id, a.ID); err != nil {
				return err
			}
		}
		people = people[n:]
	}
	return nil
}
