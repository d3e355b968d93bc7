// Csv prints what a gym has and the CSV files that export writes of it, as one JSON
// object, for compare.mjs beside it to hold one against the other through a reader that
// is not ours. The gym is the demo's, with people and scores that are hard on a reader.
package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"time"

	"roomful"
	"roomful/catalogue"
	"roomful/demo"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/transfer"
)

// hard are names and scores with all that CSV and spreadsheets make something of.
var hard = []string{
	`=HYPERLINK("x")`, `Ann "the oar" O'Dell, jr`, "+1 and more", "-3", "- three", "@home", "'=1", "''", "a;b\tc", "two\nlines", "雨 🙂 é", "  spaces  ", `"`, ",",
}

// printed is what is compared: rows of the store, and files of an export.
type printed struct {
	People   []map[string]string `json:"people"`
	Attempts []map[string]string `json:"attempts"`
	Files    map[string]string   `json:"files"`
}

func main() {
	if err := run(context.Background()); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run makes the gym and prints it.
func run(ctx context.Context) error {
	dir, err := os.MkdirTemp("", "csv")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	s, err := sqlite.Open(ctx, dir)
	if err != nil {
		return err
	}
	defer s.Close()
	const gym = "g"
	now := time.Date(2027, 3, 4, 5, 0, 0, 0, time.UTC)
	if err := s.Update(ctx, store.By{At: now}, func(tx *store.Tx) error {
		return errors.Join(tx.MakeGym(store.Gym{ID: gym, Name: "The Drying Floor", Zone: "UTC", MadeAt: now}), fill(tx.In(gym), now))
	}); err != nil {
		return err
	}
	out := printed{Files: map[string]string{}}
	if err := s.View(ctx, func(tx *store.Tx) error { return out.read(tx.In(gym)) }); err != nil {
		return err
	}
	return json.NewEncoder(os.Stdout).Encode(out)
}

// fill brings the demo in, and who is hard to read.
func fill(b *store.Books, now time.Time) error {
	folder, err := transfer.Open(demo.Files)
	if err != nil {
		return err
	}
	lexicon, err := catalogue.Load()
	if err != nil {
		return err
	}
	if _, err := transfer.Import(b, folder, lexicon, now); err != nil {
		return err
	}
	sheets, err := b.Documents(store.Sheet)
	if err != nil {
		return err
	}
	for i, text := range hard {
		who := fmt.Sprint("hard-", i)
		if err := b.PutPerson(store.Person{Athlete: roomful.Athlete{ID: who, Name: text, MassKg: 70.5}}); err != nil {
			return err
		}
		if _, err := b.PutAttempt(store.Attempt{ID: who, Person: who, Document: sheets[0].ID, Piece: "main", Day: roomful.Date{Year: 2027, Month: 3, Day: 4}, Text: text, TypedAt: now}); err != nil {
			return err
		}
	}
	return nil
}

// read reads the rows of the store, and its export.
func (p *printed) read(b *store.Books) error {
	people, err := b.People(false)
	if err != nil {
		return err
	}
	for _, who := range people {
		p.People = append(p.People, map[string]string{"id": who.ID, "name": who.Name, "division": who.Division.String()})
		scores, err := b.OfPerson(who.ID)
		if err != nil {
			return err
		}
		for _, a := range scores {
			p.Attempts = append(p.Attempts, map[string]string{"id": a.Person, "name": who.Name, "date": a.Day.String(), "sheet": a.Sheet, "piece": a.Piece, "text": a.Text})
		}
	}
	folder, err := transfer.Export(b, roomful.Date{Year: 2027, Month: 3, Day: 4})
	if err != nil {
		return err
	}
	p.Files["people"], p.Files["attempts"] = folder.People.Text, folder.Attempts.Text
	return nil
}
