package store

import (
	"errors"
	"time"

	"roomful"
)

// Class is an hour on the timetable. Several may do one sheet.
type Class struct {
	ID        string
	Day       roomful.Date
	Start     string // local time, "17:30"
	Minutes   int
	Capacity  int    // 0 for any number
	Document  string // the sheet, empty while it is not known
	CalledOff bool
}

// Classes lists the classes of the days from one to another, in their order.
func (b *Books) Classes(from, to roomful.Date) ([]Class, error) {
	return many(b.tx, readClass, classes+`AND day >= $2 AND day <= $3 ORDER BY day, start, id`, b.gym, from.String(), to.String())
}

// Class returns a class by id.
func (b *Books) Class(id string) (Class, error) {
	return one(b.tx, readClass, classes+`AND id = $2`, b.gym, id)
}

const classes = `SELECT id, day, start, minutes, capacity, COALESCE(document_id, ''), called_off FROM classes WHERE gym_id = $1 `

func readClass(r row) (c Class, err error) {
	var on string
	var off int64
	err = r.Scan(&c.ID, &on, &c.Start, &c.Minutes, &c.Capacity, &c.Document, &off)
	c.Day, c.CalledOff = day(on), off == 1
	return c, err
}

// PutClass writes a class down. Places that are added go to those who wait, and what was
// published of its sheet stands to the day after it.
func (b *Books) PutClass(c Class) error {
	if _, err := b.change("class", c.ID); err != nil {
		return err
	}
	if _, err := b.tx.do(`INSERT INTO classes (gym_id, id, day, start, minutes, capacity, document_id, called_off) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)
		ON CONFLICT (gym_id, id) DO UPDATE SET day = excluded.day, start = excluded.start, minutes = excluded.minutes,
		capacity = excluded.capacity, document_id = excluded.document_id, called_off = excluded.called_off`,
		b.gym, c.ID, c.Day.String(), c.Start, c.Minutes, c.Capacity, orNull(c.Document), yes(c.CalledOff)); err != nil {
		return err
	}
	if c.Document != "" {
		if err := b.prolong(c.Document, c.Day); err != nil {
			return err
		}
	}
	return b.moveUp(c.ID)
}

// The states of a sign-up.
const (
	In      = "in"
	Waiting = "waiting"
	Out     = "out"
	Missed  = "missed" // signed up and did not come
)

// SignUp is a person who asked for a place in a class.
type SignUp struct {
	Class, Person string
	State         string
	Turn          int64 // in the order of asking
	At            time.Time
}

// SignUps lists who asked for a place in a class, in the order of asking.
func (b *Books) SignUps(class string) ([]SignUp, error) {
	return many(b.tx, readSignUp, signups+`AND class_id = $2 ORDER BY turn`, b.gym, class)
}

// SignedUp lists the classes that somebody asked for a place in.
func (b *Books) SignedUp(person string) ([]SignUp, error) {
	return many(b.tx, readSignUp, signups+`AND person_id = $2 ORDER BY at, class_id`, b.gym, person)
}

const signups = `SELECT class_id, person_id, state, turn, at FROM signups WHERE gym_id = $1 `

func readSignUp(r row) (s SignUp, err error) {
	var at int64
	err = r.Scan(&s.Class, &s.Person, &s.State, &s.Turn, &at)
	s.At = instant(at)
	return s, err
}

// SignUp asks for a place: in while there is one, else waiting. Who has one keeps it;
// who went asks again, behind all others.
func (b *Books) SignUp(class, person string) (SignUp, error) {
	if _, err := b.lock(); err != nil {
		return SignUp{}, err
	}
	if _, err := b.Class(class); err != nil {
		return SignUp{}, err
	}
	now, err := b.signUp(class, person)
	if err != nil && !errors.Is(err, ErrMissing) || err == nil && (now.State == In || now.State == Waiting) {
		return now, err
	}
	seq, err := b.change("class", class)
	if err != nil {
		return SignUp{}, err
	}
	if _, err := b.tx.do(`INSERT INTO signups (gym_id, class_id, person_id, turn, state, at) VALUES ($1, $2, $3, $4, $5, $6)
		ON CONFLICT (gym_id, class_id, person_id) DO UPDATE SET turn = excluded.turn, state = excluded.state, at = excluded.at`,
		b.gym, class, person, seq, Waiting, micro(b.tx.by.At)); err != nil {
		return SignUp{}, err
	}
	if err := b.moveUp(class); err != nil {
		return SignUp{}, err
	}
	return b.signUp(class, person)
}

// signUp returns one sign-up.
func (b *Books) signUp(class, person string) (SignUp, error) {
	return one(b.tx, readSignUp, signups+`AND class_id = $2 AND person_id = $3`, b.gym, class, person)
}

// Leave gives a place back, or says that somebody did not come; the first who waits
// moves up when there is a place.
func (b *Books) Leave(class, person, state string) error {
	if _, err := b.change("class", class); err != nil {
		return err
	}
	if err := b.needed(b.tx.do(`UPDATE signups SET state = $1, at = $2 WHERE gym_id = $3 AND class_id = $4 AND person_id = $5`,
		state, micro(b.tx.by.At), b.gym, class, person)); err != nil {
		return err
	}
	if state == Missed {
		return nil // the class is over
	}
	return b.moveUp(class)
}

// moveUp gives free places to those who wait, in their order.
func (b *Books) moveUp(class string) error {
	_, err := b.tx.do(`UPDATE signups SET state = $1 WHERE gym_id = $2 AND class_id = $3 AND state = $4 AND (
		SELECT COUNT(*) FROM signups s WHERE s.gym_id = signups.gym_id AND s.class_id = signups.class_id
			AND (s.state = $1 OR s.state = $4 AND s.turn < signups.turn)
		) < (SELECT CASE WHEN c.called_off = 1 THEN 0 WHEN c.capacity = 0 THEN 1000000 ELSE c.capacity END
			FROM classes c WHERE c.gym_id = signups.gym_id AND c.id = signups.class_id)`,
		In, b.gym, class, Waiting)
	return err
}
