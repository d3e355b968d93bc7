package desk

import (
	"context"
	"fmt"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// part names something that is worked out of a day when somebody asks for it.
type part struct {
	of   *Worked
	name string
}

// hourly is what the hour is called among the parts of a day.
const hourly = "hour"

// mostParts is how many parts of a day are held: everybody's choices, how heavy each goes
// in some lines, and the hour.
const mostParts = 4 * mostAsked

// Hour lays the class out minute by minute.
func (d *Desk) Hour(ctx context.Context, a Ask) (*Worked, roomful.Hour, error) {
	a.Home = false
	w, err := d.Versions(ctx, a)
	if err != nil {
		return nil, roomful.Hour{}, err
	}
	hour, err := partOf(ctx, d, part{w, hourly}, w.lay)
	return w, hour, err
}

// Choices tells what somebody would do on each option of a day.
func (d *Desk) Choices(ctx context.Context, a Ask, who string) (*Worked, day.Choices, error) {
	w, err := d.Versions(ctx, a)
	if err != nil {
		return nil, day.Choices{}, err
	}
	if _, err := w.person(who); err != nil {
		return nil, day.Choices{}, err
	}
	all, err := partOf(ctx, d, part{w, "choices " + who}, func(ctx context.Context) (day.Choices, error) {
		return w.Day.Choices(ctx, w.Question, who, w.home)
	})
	return w, all, err
}

// HowHeavy asks how heavy somebody goes.
type HowHeavy struct {
	Who      string
	Movement roomful.MovementID // empty for the line that the day is about
	Set      string             // that they remember, as they say it; empty for none
}

// OwnLoad says how heavy somebody goes in a line of a day, and who that is.
func (d *Desk) OwnLoad(ctx context.Context, a Ask, of HowHeavy) (who roomful.Athlete, got day.OwnLoad, err error) {
	w, err := d.Versions(ctx, a)
	if err != nil {
		return who, got, err
	}
	q := day.LoadQuestion{Question: w.Question, Movement: of.Movement}
	if q.Who, err = w.person(of.Who); err != nil {
		return who, got, err
	}
	if q.Set, err = roomful.ReadKnownSet(of.Set, q.Who.Unit); err != nil {
		return who, got, err
	}
	learnt, err := d.learntAt(ctx, a, w)
	if err != nil {
		return who, got, err
	}
	got, err = partOf(ctx, d, part{w, fmt.Sprintf("load %q %q %q %d", of.Who, of.Movement, of.Set, learnt)}, func(ctx context.Context) (day.OwnLoad, error) {
		if learnt > 0 {
			if err := d.store.View(ctx, func(tx *store.Tx) error {
				g, err := d.Open(tx.In(a.Gym), a.Now)
				if err != nil {
					return err
				}
				taught, err := g.Taught()
				q.By = taught.By
				return err
			}); err != nil {
				return day.OwnLoad{}, err
			}
		}
		return w.Day.OwnLoad(ctx, q)
	})
	return q.Who, got, err
}

// learntAt is when the emulators were made that a day may be asked more by, in microseconds;
// nought for none, and for a published day that stands: those of a later night answer
// otherwise, and its own are gone.
func (d *Desk) learntAt(ctx context.Context, a Ask, w *Worked) (at int64, err error) {
	if w.stands > 0 {
		return 0, nil
	}
	err = d.store.View(ctx, func(tx *store.Tx) error {
		l, err := tx.In(a.Gym).Learning()
		if err == nil && !l.DoneAt.IsZero() {
			at = l.DoneAt.UnixMicro()
		}
		return err
	})
	return at, err
}

// partOf is a part of a day, made now when it was not before.
func partOf[T any](ctx context.Context, d *Desk, of part, work func(context.Context) (T, error)) (none T, err error) {
	if got, ok := of.of.part(of.name); ok {
		return got.(T), nil
	}
	got, err := d.parts.do(ctx, of, func(ctx context.Context) (any, error) {
		if got, ok := of.of.part(of.name); ok {
			return got, nil
		}
		end, err := d.turns.wait(ctx)
		if err != nil {
			return nil, err
		}
		defer end()
		got, err := work(ctx)
		if err == nil {
			of.of.hold(of.name, got)
		}
		return got, err
	})
	if err != nil {
		return none, err
	}
	return got.(T), nil
}

// part is a part of the day, if it was made already.
func (w *Worked) part(name string) (got any, ok bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	got, ok = w.parts[name]
	return got, ok
}

// hold holds a part of the day, for as long as the day is held.
func (w *Worked) hold(name string, got any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.parts == nil || len(w.parts) >= mostParts {
		w.parts = map[string]any{}
	}
	w.parts[name] = got
}

// lay lays the hour out.
func (w *Worked) lay(ctx context.Context) (roomful.Hour, error) {
	return w.Day.HourOf(ctx, w.Question, w.Versions)
}

// person is one of those whom the day is about.
func (w *Worked) person(id string) (roomful.Athlete, error) {
	return Asked{Question: w.Question}.Person(id)
}
