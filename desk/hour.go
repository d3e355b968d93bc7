package desk

import (
	"context"
	"slices"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// part names something that is worked out of a day when somebody asks for it.
type part struct {
	of  *Worked
	who string // whose choices, empty for the hour
}

// Hour lays the class out minute by minute.
func (d *Desk) Hour(ctx context.Context, a Ask) (*Worked, roomful.Hour, error) {
	a.Home = false
	w, err := d.Versions(ctx, a)
	if err != nil {
		return nil, roomful.Hour{}, err
	}
	hour, err := partOf(ctx, d, part{w, ""}, w.laid, w.lay)
	return w, hour, err
}

// Choices tells what somebody would do on each option of a day.
func (d *Desk) Choices(ctx context.Context, a Ask, who string) (*Worked, day.Choices, error) {
	w, err := d.Versions(ctx, a)
	if err != nil {
		return nil, day.Choices{}, err
	}
	if !slices.ContainsFunc(w.Question.People, func(a roomful.Athlete) bool { return a.ID == who }) {
		return nil, day.Choices{}, store.ErrMissing
	}
	all, err := partOf(ctx, d, part{w, who}, func() (day.Choices, bool) { return w.chosen(who) },
		func(ctx context.Context) (day.Choices, error) { return w.choose(ctx, who) })
	return w, all, err
}

// partOf is a part of a day, made now when it was not before.
func partOf[T any](ctx context.Context, d *Desk, of part, held func() (T, bool), work func(context.Context) (T, error)) (T, error) {
	if got, ok := held(); ok {
		return got, nil
	}
	got, err := d.parts.do(ctx, of, func(ctx context.Context) (any, error) {
		if got, ok := held(); ok {
			return got, nil
		}
		end, err := d.turns.wait(ctx)
		if err != nil {
			return nil, err
		}
		defer end()
		return work(ctx)
	})
	if err != nil {
		var none T
		return none, err
	}
	return got.(T), nil
}

// laid is the hour, if it was laid out already.
func (w *Worked) laid() (hour roomful.Hour, ok bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.hour == nil {
		return hour, false
	}
	return *w.hour, true
}

// lay lays the hour out.
func (w *Worked) lay(ctx context.Context) (roomful.Hour, error) {
	hour, err := w.Day.HourOf(ctx, w.Question, w.Versions)
	if err != nil {
		return hour, err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.hour = &hour
	return hour, nil
}

// chosen are somebody's choices, if they were found already.
func (w *Worked) chosen(who string) (day.Choices, bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	all, ok := w.choices[who]
	return all, ok
}

// choose finds somebody's choices.
func (w *Worked) choose(ctx context.Context, who string) (day.Choices, error) {
	all, err := w.Day.Choices(ctx, w.Question, who, w.home)
	if err != nil {
		return all, err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.choices == nil {
		w.choices = map[string]day.Choices{}
	}
	w.choices[who] = all
	return all, nil
}
