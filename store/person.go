package store

import (
	"database/sql"
	"time"

	"roomful"
)

// Person is somebody of a gym: what they told, limits apart, and whether they still
// come.
type Person struct {
	roomful.Athlete // without limits, which [Books.Limits] has
	Revision        int64
	LeftAt          time.Time // zero while they come
}

// People lists everybody who comes, by id; with those who left when asked.
func (b *Books) People(gone bool) ([]Person, error) {
	return many(b.tx, readPerson, `SELECT told, revision, left_at FROM people WHERE gym_id = $1 AND (left_at IS NULL OR $2 = 1) ORDER BY id`, b.gym, yes(gone))
}

// Person returns somebody by id.
func (b *Books) Person(id string) (Person, error) {
	return one(b.tx, readPerson, `SELECT told, revision, left_at FROM people WHERE gym_id = $1 AND id = $2`, b.gym, id)
}

// PutPerson writes down what somebody told. The revision is the one that was read, 0
// for somebody new; [ErrStale] when there is a later one. Limits are left as they are.
func (b *Books) PutPerson(p Person) error {
	p.Limits = nil
	told, err := encode(p.Athlete)
	if err != nil {
		return err
	}
	if _, err := b.lock(); err != nil {
		return err
	}
	n, err := b.tx.do(`INSERT INTO people (gym_id, id, name, told, revision, left_at) VALUES ($1, $2, $3, $4, 1, $5)
		ON CONFLICT (gym_id, id) DO UPDATE SET name = excluded.name, told = excluded.told, revision = people.revision + 1, left_at = excluded.left_at
		WHERE people.revision = $6`, b.gym, p.ID, p.Name, told, maybe(p.LeftAt), p.Revision)
	switch {
	case err != nil:
		return err
	case n == 0:
		return ErrStale
	}
	_, err = b.change("person", p.ID)
	return err
}

// Erase takes a person away with all that they typed and all that was learnt of them.
// Their places in classes to come go to those who wait, and in the book of changes
// nothing says any more whom it was about.
func (b *Books) Erase(id string) error {
	if _, err := b.change("erased", id); err != nil {
		return err
	}
	today := b.tx.by.At.UTC().Format(time.DateOnly)
	left, err := many(b.tx, func(r row) (class string, err error) { return class, r.Scan(&class) },
		`SELECT s.class_id FROM signups s JOIN classes c ON c.gym_id = s.gym_id AND c.id = s.class_id WHERE s.gym_id = $1 AND s.person_id = $2 AND c.day >= $3`, b.gym, id, today)
	if err != nil {
		return err
	}
	if err := b.needed(b.tx.do(`DELETE FROM people WHERE gym_id = $1 AND id = $2`, b.gym, id)); err != nil {
		return err
	}
	for _, class := range left {
		if err := b.moveUp(class); err != nil {
			return err
		}
	}
	_, err = b.tx.do(`UPDATE changes SET subject = '' WHERE gym_id = $1 AND subject = $2 AND kind IN ('person', 'read', 'learnt', 'erased')`, b.gym, id)
	return err
}

func readPerson(r row) (p Person, err error) {
	var told string
	var left sql.NullInt64
	if err := r.Scan(&told, &p.Revision, &left); err != nil {
		return p, err
	}
	p.LeftAt = instantOf(left)
	return p, decode(told, &p.Athlete)
}

// Limit is something that restricts a person, with whose word it is and until when.
type Limit struct {
	ID     string
	Person string
	roomful.Limit
	Since, Until roomful.Date // Until is the last day, zero while it is open
	Word         string       // whose it is, [Theirs] for one
	Review       roomful.Date // the day to ask again, zero for none
	Note         string       // for the person and coaches
}

// Whose word a limit is.
const (
	Theirs     = "theirs"
	ACoachs    = "a coach's"
	AClinician = "a clinician's"
)

// On reports whether a limit holds on a day.
func (l Limit) On(day roomful.Date) bool {
	return l.Since.String() <= day.String() && (l.Until.IsZero() || day.String() <= l.Until.String())
}

// Limits lists the limits of a person, or of everybody for an empty id, the oldest
// first.
func (b *Books) Limits(person string) ([]Limit, error) {
	return manyOf(b, func(r row) (l Limit, err error) {
		var since, until, review string
		err = r.Scan(&l.ID, &l.Person, &l.What, &l.Pain, &since, &until, &l.Word, &review, &l.Note)
		l.Since, l.Until, l.Review = day(since), day(until), day(review)
		return l, err
	}, `SELECT id, person_id, what, pain, since, until, word, review, note FROM limits WHERE gym_id = $1 `, person, `ORDER BY since, id`)
}

// PutLimit writes down a limit, or what is known of it now.
func (b *Books) PutLimit(l Limit) error {
	if _, err := b.change("person", l.Person); err != nil {
		return err
	}
	return b.needed(b.tx.do(`INSERT INTO limits (gym_id, id, person_id, what, pain, since, until, word, review, note) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)
		ON CONFLICT (gym_id, id) DO UPDATE SET what = excluded.what, pain = excluded.pain, since = excluded.since, until = excluded.until,
		word = excluded.word, review = excluded.review, note = excluded.note WHERE limits.person_id = excluded.person_id`,
		b.gym, l.ID, l.Person, l.What, l.Pain, l.Since.String(), l.Until.String(), l.Word, l.Review.String(), l.Note))
}

// DropLimit takes a limit away that was never one.
func (b *Books) DropLimit(person, id string) error {
	if _, err := b.change("person", person); err != nil {
		return err
	}
	return b.needed(b.tx.do(`DELETE FROM limits WHERE gym_id = $1 AND person_id = $2 AND id = $3`, b.gym, person, id))
}

// needed is the outcome of a statement that has to touch a row.
func (b *Books) needed(n int64, err error) error {
	if err == nil && n == 0 {
		err = ErrMissing
	}
	return err
}

// day reads a stored day.
func day(s string) (d roomful.Date) {
	if s != "" {
		_ = d.UnmarshalText([]byte(s)) // written by String
	}
	return d
}
