package transfer

import (
	"cmp"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	"roomful"
	"roomful/exchange"
	"roomful/notation"
	"roomful/store"
)

// What is done with a thing that is brought in.
const (
	Added   = "new"
	Changed = "changed"
	Same    = "as it was"
)

// Step is one thing that is brought in, and what is done with it.
type Step struct {
	Kind string // "person", "sheet", "kit", "settings" or "score"
	Name string
	Do   string // [Added], [Changed] or [Same]
}

// Told is what there is to say about a file.
type Told struct {
	File        File
	Diagnostics []roomful.Diagnostic
}

// Report is what an import does, or would do.
type Report struct {
	Steps []Step
	Told  []Told // about files with something to say
}

// Faults counts the errors in the files.
func (r Report) Faults() (n int) {
	for _, t := range r.Told {
		for _, d := range t.Diagnostics {
			if d.Severity == roomful.Fault {
				n++
			}
		}
	}
	return n
}

// Count is how many things of a kind there are to do something with; of any kind for "".
func (r Report) Count(kind, do string) (n int) {
	for _, s := range r.Steps {
		if (kind == "" || s.Kind == kind) && s.Do == do {
			n++
		}
	}
	return n
}

// Import brings a folder into the books of a gym, as of a moment. With faults in the
// files it fails with [ErrFaults] and the report says which; the update that it is part
// of must then fail too.
func Import(b *store.Books, f Folder, lex roomful.Lexicon, now time.Time) (Report, error) {
	i := &importing{books: b, lexicon: lex, now: now}
	for _, step := range []func(Folder) error{i.texts, i.people, i.sheets, i.attempts} {
		if err := step(f); err != nil {
			return i.report, err
		}
	}
	if i.report.Faults() > 0 {
		return i.report, ErrFaults
	}
	return i.report, nil
}

// Look says what bringing in a file of people would do, and does none of it: nobody who
// writes waits for it.
func Look(b *store.Books, people File, lex roomful.Lexicon, now time.Time) (Report, error) {
	i := &importing{books: b, lexicon: lex, now: now, looks: true}
	if err := i.people(Folder{People: &people}); err != nil {
		return i.report, err
	}
	if i.report.Faults() > 0 {
		return i.report, ErrFaults
	}
	return i.report, nil
}

// ErrFaults says that files have faults, which the report lists.
var ErrFaults = errors.New("the files have faults")

// importing is an import under way.
type importing struct {
	books   *store.Books
	lexicon roomful.Lexicon
	now     time.Time
	looks   bool // and writes nothing
	report  Report
}

// did notes a step.
func (i *importing) did(kind, name, do string) {
	i.report.Steps = append(i.report.Steps, Step{kind, name, do})
}

// tell notes what there is to say of a file, and whether it can be used.
func (i *importing) tell(f File, ds []roomful.Diagnostic) bool {
	if len(ds) > 0 {
		i.report.Told = append(i.report.Told, Told{f, ds})
	}
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			return false
		}
	}
	return true
}

// id names a thing of this gym by what it is: the same again gets the same.
func (i *importing) id(parts ...string) string {
	return uuid.NewSHA1(uuid.NameSpaceOID, []byte(strings.Join(append([]string{"roomful", i.books.ID()}, parts...), "\x00"))).String()
}

// today is the day of the import, in UTC.
func (i *importing) today() roomful.Date {
	return roomful.DateOf(i.now.UTC())
}

// texts brings in the kit and the settings.
func (i *importing) texts(f Folder) error {
	if f.Gym != nil {
		if _, ds := exchange.ReadGym(strings.NewReader(f.Gym.Text), i.lexicon); i.tell(*f.Gym, ds) {
			if err := i.document(store.Document{Kind: store.Settings, Name: store.Settings, Text: f.Gym.Text}); err != nil {
				return err
			}
		}
	}
	if f.Kit != nil {
		if kit, ds := exchange.ReadKit(strings.NewReader(f.Kit.Text)); i.tell(*f.Kit, ds) {
			return i.document(store.Document{Kind: store.Kit, Name: store.Kit, Title: kit.Name, Text: f.Kit.Text})
		}
	}
	return nil
}

// document saves a text by its kind and name.
func (i *importing) document(d store.Document) error {
	now, err := i.books.Named(d.Kind, d.Name)
	do := Changed
	switch {
	case errors.Is(err, store.ErrMissing):
		do, d.ID = Added, i.id(d.Kind, d.Name)
	case err != nil:
		return err
	case now.Text == d.Text && now.Title == d.Title && now.Day == d.Day:
		do = Same
	}
	if do != Added {
		d.ID, d.Revision = now.ID, now.Revision
	}
	i.did(d.Kind, d.Name, do)
	if do == Same {
		return nil
	}
	if _, _, err := i.books.Save(d); err != nil {
		return fmt.Errorf("bringing in the %s %s: %w", d.Kind, d.Name, err)
	}
	return nil
}

// people brings in who trains.
func (i *importing) people(f Folder) error {
	if f.People == nil {
		return nil
	}
	people, ds := exchange.ReadPeople(strings.NewReader(f.People.Text), i.lexicon, i.today())
	if !i.tell(*f.People, ds) {
		return nil
	}
	known, err := i.books.People(true)
	if err != nil {
		return err
	}
	for _, a := range people {
		if err := i.person(called(a, known)); err != nil {
			return fmt.Errorf("bringing in %s: %w", a.Name, err)
		}
	}
	return nil
}

// called is somebody under the id that the gym knows them by: a file without ids knows
// people by their names.
func called(a roomful.Athlete, known []store.Person) roomful.Athlete {
	if a.ID != a.Name || slices.ContainsFunc(known, func(p store.Person) bool { return p.ID == a.ID }) {
		return a
	}
	id := ""
	for _, p := range known {
		switch {
		case !strings.EqualFold(p.Name, a.Name):
		case id != "":
			return a // several are called so
		default:
			id = p.ID
		}
	}
	a.ID = cmp.Or(id, a.ID)
	return a
}

// person brings in one person and the limits they told.
func (i *importing) person(a roomful.Athlete) error {
	limits, err := i.limits(a)
	if err != nil {
		return err
	}
	a.Limits = nil
	now, err := i.books.Person(a.ID)
	if err == nil {
		a = kept(now.Athlete, a)
	}
	do := Changed
	switch {
	case errors.Is(err, store.ErrMissing):
		do = Added
	case err != nil:
		return err
	case reflect.DeepEqual(now.Athlete, a) && now.LeftAt.IsZero() && len(limits) == 0:
		do = Same
	}
	i.did("person", a.Name, do)
	if do == Same || i.looks {
		return nil
	}
	if err := i.books.PutPerson(store.Person{Athlete: a, Revision: now.Revision}); err != nil {
		return err
	}
	for _, l := range limits {
		if err := i.books.PutLimit(l); err != nil {
			return err
		}
	}
	return nil
}

// kept is somebody as a file has them, with what it leaves empty as it was: a file with
// names alone takes nothing back that people have told.
func kept(was, a roomful.Athlete) roomful.Athlete {
	told := a.MassKg > 0 || len(a.Known) > 0
	a.Unlisted = a.Unlisted || was.Unlisted // their own word
	a.Division = cmp.Or(a.Division, was.Division)
	a.Born = cmp.Or(a.Born, was.Born)
	a.MassKg = cmp.Or(a.MassKg, was.MassKg)
	a.HeightCm = cmp.Or(a.HeightCm, was.HeightCm)
	a.Like = cmp.Or(a.Like, was.Like)
	a.Months = cmp.Or(a.Months, was.Months)
	a.Home = cmp.Or(a.Home, was.Home)
	if !told {
		a.Unit = cmp.Or(a.Unit, was.Unit)
	}
	a.Known = over(was.Known, a.Known, func(k roomful.Known) roomful.Test { return k.Test })
	a.Skills = over(was.Skills, a.Skills, func(l roomful.SkillLevel) roomful.MovementID { return l.Movement })
	return a
}

// over puts what is new in the place of what was there by the same key, in its order, and
// the rest behind.
func over[T any, K comparable](was, now []T, key func(T) K) []T {
	out := slices.Clone(was)
	for _, one := range now {
		if i := slices.IndexFunc(out, func(o T) bool { return key(o) == key(one) }); i >= 0 {
			out[i] = one
		} else {
			out = append(out, one)
		}
	}
	return out
}

// limits lists those of a person that are new or have changed.
func (i *importing) limits(a roomful.Athlete) (out []store.Limit, err error) {
	known, err := i.books.Limits(a.ID)
	if err != nil {
		return nil, err
	}
	for _, l := range a.Limits {
		next := store.Limit{ID: i.id("limit", a.ID, l.What), Person: a.ID, Limit: l, Since: i.today(), Word: store.Theirs}
		same := false
		for _, k := range known {
			if k.What == l.What && k.On(i.today()) {
				if same = k.Pain == l.Pain; !same {
					k.Pain = l.Pain
					next = k
				}
			}
		}
		if !same {
			out = append(out, next)
		}
	}
	return out, nil
}

// sheets brings in the days.
func (i *importing) sheets(f Folder) error {
	for _, file := range f.Sheets {
		session, ds := notation.Read(file.Text, i.lexicon)
		if !i.tell(file, ds) {
			continue
		}
		if err := i.document(store.Document{Kind: store.Sheet, Name: sheetName(file.Name), Title: session.Title, Day: session.Date, Text: file.Text}); err != nil {
			return err
		}
	}
	return nil
}

// attempts brings in scores as they were typed.
func (i *importing) attempts(f Folder) error {
	if f.Attempts == nil || i.report.Faults() > 0 { // whose, and of what, is not known for sure
		return nil
	}
	people, err := i.books.People(true)
	if err != nil {
		return err
	}
	var athletes []roomful.Athlete
	for _, p := range people {
		athletes = append(athletes, p.Athlete)
	}
	sheets, err := i.books.Documents(store.Sheet)
	if err != nil {
		return err
	}
	ids := map[string]string{}
	var names []exchange.SheetName
	for _, d := range sheets {
		ids[d.Name] = d.ID
		names = append(names, exchange.SheetName{Key: d.Name, Title: d.Title})
	}
	logged, ds := exchange.ReadAttempts(strings.NewReader(f.Attempts.Text), athletes, names)
	if !i.tell(*f.Attempts, ds) {
		return nil
	}
	seen := map[string]int{}
	for _, l := range logged {
		key := strings.Join([]string{"score", l.Athlete, l.On.String(), l.Sheet, l.Piece, l.Text}, "\x00")
		seen[key]++
		stored, err := i.books.PutAttempt(store.Attempt{ID: i.id(key, fmt.Sprint(seen[key])), Person: l.Athlete, Document: ids[l.Sheet], Piece: l.Piece, Day: l.On, Text: l.Text, TypedAt: i.now})
		if err != nil {
			return fmt.Errorf("bringing in line %d of %s: %w", l.Line, f.Attempts.Name, err)
		}
		do := Same
		if stored {
			do = Added
		}
		i.did("score", fmt.Sprintf("%s, %s, %s", l.Athlete, l.On, l.Sheet), do)
	}
	return nil
}
