package web

import (
	"archive/zip"
	"bytes"
	"net/http"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/store"
)

// own is all that is kept of the one who asks.
type own struct {
	Account  ownAccount         `json:"account"`
	Person   *told              `json:"person"` // null for who does not train
	Limits   []limit            `json:"limits"`
	Scores   []stored           `json:"scores"`
	Notes    []note             `json:"notes"` // and the answers to them
	Classes  []ownClass         `json:"classes"`
	Versions []override         `json:"versions"`      // that were set by hand
	Learnt   []exchange.Ability `json:"learnt"`        // what is believed of them after their scores
	Before   []ownBefore        `json:"learnt_before"` // that is kept, since published days rest on it
	Devices  []device           `json:"devices"`
	Passkeys []exchange.Passkey `json:"passkeys"`
}

// ownAccount is the account of the one who asks.
type ownAccount struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Role   string `json:"role"`
	MadeAt string `json:"made_at"`
}

// ownBefore is what was believed of somebody until something later was learnt.
type ownBefore struct {
	Until  string             `json:"until"`
	Learnt []exchange.Ability `json:"learnt"`
}

// ownClass is a class that somebody asked for a place in.
type ownClass struct {
	Class string `json:"class"`
	Day   string `json:"date"`
	Start string `json:"start"`
	State string `json:"state"`
}

// device is one that is signed in.
type device struct {
	Name   string `json:"name"` // as it calls itself
	MadeAt string `json:"made_at"`
	SeenAt string `json:"seen_at"`
	This   bool   `json:"this"` // that asks
}

// me shows the one who asks all that is kept of them.
func (s *Server) me(w http.ResponseWriter, q *http.Request, v visit) error {
	var out own
	if err := s.view(q, v, func(b *store.Books) (err error) {
		out, err = s.ownOf(b, v)
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// ownOf gathers all that is kept of the visitor.
func (s *Server) ownOf(b *store.Books, v visit) (own, error) {
	out := own{Account: ownAccount{v.Account.ID, v.Account.Name, v.Account.Role, instant(v.Account.MadeAt)},
		Limits: []limit{}, Scores: []stored{}, Notes: []note{}, Classes: []ownClass{}, Versions: []override{}, Learnt: []exchange.Ability{}, Before: []ownBefore{}, Devices: []device{}, Passkeys: []exchange.Passkey{}}
	devices, err := b.SignIns(v.Account.ID)
	if err != nil {
		return out, err
	}
	for _, d := range devices {
		out.Devices = append(out.Devices, device{d.Device, instant(d.MadeAt), instant(d.SeenAt), d.Hash == v.Hash})
	}
	keys, err := b.Passkeys(v.Account.ID)
	if err != nil {
		return out, err
	}
	for _, k := range keys {
		out.Passkeys = append(out.Passkeys, exchange.Passkey{ID: k.ID, MadeAt: instant(k.MadeAt)})
	}
	if v.Account.Person == "" {
		return out, nil
	}
	for _, add := range []func(*store.Books, string, *own) error{s.ownBody, s.ownScores, ownClasses, ownWords} {
		if err := add(b, v.Account.Person, &out); err != nil {
			return out, err
		}
	}
	person, err := b.Person(v.Account.Person)
	mine := toldOf(person, v)
	out.Person = &mine
	for i := range out.Scores {
		out.Scores[i].Name = person.Name
	}
	for i := range out.Notes {
		out.Notes[i].Name = person.Name
	}
	return out, err
}

// ownBody adds limits and abilities.
func (s *Server) ownBody(b *store.Books, who string, out *own) error {
	limits, err := b.Limits(who)
	if err != nil {
		return err
	}
	for _, l := range limits {
		out.Limits = append(out.Limits, limitOf(l))
	}
	learnt, err := b.Learnt(who)
	for _, l := range learnt {
		out.Learnt = append(out.Learnt, exchange.AbilitiesOf(roomful.Athlete{}, &l.Abilities, s.Lexicon).Abilities...)
	}
	if err != nil {
		return err
	}
	before, err := b.PutAside(who)
	for _, l := range before {
		out.Before = append(out.Before, ownBefore{instant(l.Until), exchange.AbilitiesOf(roomful.Athlete{}, &l.Abilities, s.Lexicon).Abilities})
	}
	return err
}

// ownScores adds scores.
func (s *Server) ownScores(b *store.Books, who string, out *own) error {
	scores, err := b.OfPerson(who)
	for _, a := range scores {
		out.Scores = append(out.Scores, shown(a, true))
	}
	return err
}

// ownClasses adds places in classes.
func ownClasses(b *store.Books, who string, out *own) error {
	all, err := b.SignedUp(who)
	if err != nil {
		return err
	}
	for _, one := range all {
		c, err := b.Class(one.Class)
		if err != nil {
			return err
		}
		out.Classes = append(out.Classes, ownClass{c.ID, c.Day.String(), c.Start, one.State})
	}
	return nil
}

// ownWords adds notes and versions that were set by hand, which stand under sheets.
func ownWords(b *store.Books, who string, out *own) error {
	sheets, err := b.Documents(store.Sheet)
	if err != nil {
		return err
	}
	for _, d := range sheets {
		notes, err := b.Notes(d.ID)
		if err != nil {
			return err
		}
		for _, n := range notes {
			if n.Person == who {
				by, err := writer(b, n)
				if err != nil {
					return err
				}
				out.Notes = append(out.Notes, noteOf(n, "", by))
			}
		}
		versions, err := b.Overrides(d.ID)
		if err != nil {
			return err
		}
		for _, o := range versions {
			if o.Person == who {
				out.Versions = append(out.Versions, overrideOf(o, ""))
			}
		}
	}
	return nil
}

// takeOut gives the one who asks all that is kept of them as a file to take elsewhere:
// what /me shows, and what can be read by a spreadsheet and brought in again.
func (s *Server) takeOut(w http.ResponseWriter, q *http.Request, v visit) error {
	var mine own
	var person store.Person
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if mine, err = s.ownOf(b, v); err == nil && v.Account.Person != "" {
			person, err = b.Person(v.Account.Person)
		}
		return err
	}); err != nil {
		return err
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	all, err := z.Create("me.json")
	if err == nil {
		err = exchange.Write(all, mine)
	}
	if err == nil && mine.Person != nil {
		err = spreadsheets(z, person, mine)
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/zip")
	w.Header().Set("Content-Disposition", `attachment; filename="me.zip"`)
	_, _ = w.Write(out.Bytes())
	return nil
}

// spreadsheets adds the files that import reads.
func spreadsheets(z *zip.Writer, p store.Person, mine own) error {
	for _, l := range mine.Limits {
		if pain := -1; l.Until == "" {
			if l.Pain != nil {
				pain = *l.Pain
			}
			p.Limits = append(p.Limits, roomful.Limit{What: l.What, Pain: pain})
		}
	}
	f, err := z.Create("people.csv")
	if err != nil {
		return err
	}
	people := []roomful.Athlete{p.Athlete}
	if err := exchange.WritePeople(f, people); err != nil {
		return err
	}
	var logged []roomful.Logged
	for _, a := range mine.Scores {
		var on date
		if err := on.UnmarshalText([]byte(a.Day)); err != nil {
			return err
		}
		logged = append(logged, roomful.Logged{Athlete: p.ID, On: on.Date, Sheet: a.Sheet, Piece: a.Piece, Text: *a.Text})
	}
	if f, err = z.Create("attempts.csv"); err != nil {
		return err
	}
	return exchange.WriteAttempts(f, people, logged)
}

// erasing is the name of somebody who wants to be forgotten.
type erasing struct {
	Name string `json:"name"`
}

// erase takes away all that is kept of the one who asks, for good. They say their name,
// so that no slip of a thumb does it. Backups that were made before keep what they have.
func (s *Server) erase(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent erasing
	if err := read(q, &sent); err != nil {
		return err
	}
	if err := s.eraseOwn(q, v, sent.Name); err != nil {
		return err
	}
	s.forget(w, q)
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// eraseOwn erases all that is kept of the visitor, when that is their name.
func (s *Server) eraseOwn(q *http.Request, v visit, name string) error {
	if v.Account.Person == "" {
		return &roomful.Error{Summary: "erasing: nothing is kept of you but this account", Hint: "an owner can close it"}
	}
	return s.update(q, v, func(b *store.Books) error {
		p, err := b.Person(v.Account.Person)
		switch {
		case err != nil:
			return err
		case !strings.EqualFold(strings.TrimSpace(name), p.Name):
			return &amiss{"name", roomful.Error{Summary: "erasing all that is kept of you: that is not your name", Hint: "write your name as it stands here; nothing was erased"}}
		}
		if last, err := lastOwner(b, func(a store.Account) bool { return a.Person == p.ID }); err != nil || last {
			return orElse(err, errLastOwner)
		}
		return b.Erase(p.ID)
	})
}
