package crowd

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"github.com/google/uuid"

	"roomful"
	"roomful/store"
)

// gym is one in the making.
type gym struct {
	*maker
	id     string
	name   string
	first  time.Time // the first day
	random *rand.Rand
	better []float64 // than whom they are like, by member, in standard deviations
}

// gym makes one gym: its people, then day after day a sheet and who scored on it.
func (m *maker) gym(ctx context.Context, n int) error {
	g := &gym{maker: m, id: fmt.Sprintf("crowd-%d-%d", m.Seed, n), name: fmt.Sprintf("Crowd %d", n+1), random: rand.New(rand.NewPCG(m.Seed, uint64(n))), better: make([]float64, m.Members),
		first: time.Date(m.Until.Year-m.Years, m.Until.Month, m.Until.Day, 6, 0, 0, 0, time.UTC)}
	if err := m.store.Update(ctx, store.By{At: g.first}, g.begin); err != nil {
		return fmt.Errorf("making the gym %s: %w", g.id, err)
	}
	until := time.Date(m.Until.Year, m.Until.Month, m.Until.Day, 6, 0, 0, 0, time.UTC)
	var waiting []store.Attempt
	for on, k := g.first, 0; !on.After(until); on = on.AddDate(0, 0, 1) {
		if on.Weekday() == time.Saturday || on.Weekday() == time.Sunday {
			continue
		}
		s := m.sheets[k%len(m.sheets)]
		k++
		document, err := m.sheet(ctx, g.id, s, on)
		if err != nil {
			return err
		}
		scores, err := g.scores(s, document, on)
		if err != nil {
			return err
		}
		if waiting = append(waiting, scores...); len(waiting) >= rowsAtOnce {
			if err := m.put(ctx, g.id, on, waiting); err != nil {
				return err
			}
			waiting = waiting[:0]
		}
	}
	return m.put(ctx, g.id, until, waiting)
}

// begin puts the gym and its members down.
func (g *gym) begin(tx *store.Tx) error {
	if err := tx.MakeGym(store.Gym{ID: g.id, Name: g.name, Zone: "UTC", MadeAt: g.first}); err != nil {
		return err
	}
	for i := range g.better {
		g.better[i] = g.random.NormFloat64()
		if err := tx.In(g.id).PutPerson(store.Person{Athlete: g.member(i)}); err != nil {
			return err
		}
	}
	return nil
}

// member is somebody like one of the folder.
func (g *gym) member(i int) roomful.Athlete {
	a := g.people[i%len(g.people)]
	a.ID, a.Name, a.Like = fmt.Sprintf("%s-%d", a.ID, i), fmt.Sprintf("%s %d", a.Name, i), ""
	return a
}

// scores are what those who came on a day typed, and what it is read as.
func (g *gym) scores(s sheet, document string, on time.Time) (out []store.Attempt, err error) {
	years := on.Sub(g.first).Hours() / 24 / 365.25
	for i, a := range g.better {
		if g.random.Float64() >= comes {
			continue
		}
		who := g.member(i)
		text := s.typed(i%len(g.people), who.Division, 0.7*a+0.15*years+0.6*g.random.NormFloat64())
		if text == "" {
			continue
		}
		read, err := s.read(g.day.Lexicon, who, text)
		if err != nil {
			return nil, err
		}
		out = append(out, store.Attempt{ID: uuid.NewSHA1(uuid.NameSpaceOID, fmt.Appendf(nil, "%s %s %d", g.id, document, i)).String(),
			Person: who.ID, Document: document, Piece: s.piece.Name(),
			Day: roomful.Date{Year: on.Year(), Month: on.Month(), Day: on.Day()}, Text: text, TypedAt: on.Add(time.Duration(i) * time.Second), Read: read})
	}
	return out, nil
}

// sheet writes a day down.
func (m *maker) sheet(ctx context.Context, gym string, s sheet, on time.Time) (id string, err error) {
	date := on.Format(time.DateOnly)
	name := s.name + "-" + date
	id = uuid.NewSHA1(uuid.NameSpaceOID, []byte(gym+" "+name)).String()
	return id, m.store.Update(ctx, store.By{At: on}, func(tx *store.Tx) error {
		_, _, err := tx.In(gym).Save(store.Document{ID: id, Kind: store.Sheet, Name: name, Title: s.session.Title,
			Day: roomful.Date{Year: on.Year(), Month: on.Month(), Day: on.Day()}, Text: strings.Replace(s.text, s.date, date, 1)})
		return err
	})
}

// put stores scores.
func (m *maker) put(ctx context.Context, gym string, on time.Time, all []store.Attempt) error {
	if len(all) == 0 {
		return nil
	}
	if err := m.store.Update(ctx, store.By{At: on}, func(tx *store.Tx) error {
		for _, a := range all {
			if _, err := tx.In(gym).PutAttempt(a); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		return fmt.Errorf("storing scores of %s: %w", gym, err)
	}
	m.scores += len(all)
	if m.tell != nil {
		m.tell(m.scores)
	}
	return nil
}
