// Package crowd makes gyms to measure a store with: many members, years of days, and
// scores as people type them. The same plan makes the same gyms.
//
// Members are like the people of a folder, each a little better or worse throughout.
// What they score on a day lies where the model forecasts it for whom they are like; it
// creeps up over the years. Nothing of it is true of anybody.
package crowd

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"time"

	"github.com/google/uuid"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/score"
	"roomful/store"
	"roomful/transfer"
)

// Plan is how much to make.
type Plan struct {
	Gyms, Members, Years int
	Seed                 uint64
	Until                roomful.Date // the last day
	Like                 transfer.Folder
}

// Bounds of a plan: beyond them it is a mistake.
const (
	mostGyms    = 1000
	mostMembers = 20_000
	mostYears   = 50
)

// Comes is how often somebody comes, of five days a week (judgement).
const comes = 0.46

// runs is how often a piece is simulated for whom members are like.
const runs = 64

// rowsAtOnce is how many scores are stored in one update.
const rowsAtOnce = 2000

// Make makes the gyms of a plan. Tell is called with how many scores there are.
func Make(ctx context.Context, s *store.Store, d *day.Day, p Plan, tell func(scores int)) error {
	if p.Gyms < 1 || p.Members < 1 || p.Years < 1 || p.Gyms > mostGyms || p.Members > mostMembers || p.Years > mostYears {
		return &roomful.Error{Summary: fmt.Sprintf("making %d gyms of %d members over %d years", p.Gyms, p.Members, p.Years),
			Hint: fmt.Sprintf("ask for 1 to %d gyms, 1 to %d members and 1 to %d years", mostGyms, mostMembers, mostYears)}
	}
	m := &maker{Plan: p, store: s, day: d, tell: tell}
	if err := m.read(ctx); err != nil {
		return err
	}
	for g := range p.Gyms {
		if err := m.gym(ctx, g); err != nil {
			return err
		}
	}
	return nil
}

// maker is the work in hand.
type maker struct {
	Plan
	store  *store.Store
	day    *day.Day
	tell   func(int)
	people []roomful.Athlete
	sheets []sheet
	scores int
}

// sheet is a day that comes again and again, and how its main piece goes for each of
// those whom members are like.
type sheet struct {
	name, text, date string
	session          roomful.Session
	piece            roomful.Part
	kind             roomful.ScoreKind
	goes             []roomful.Quantiles
}

// read reads the folder and forecasts its days.
func (m *maker) read(ctx context.Context) error {
	m.people, _ = exchange.ReadPeople(strings.NewReader(m.Like.People.Text), m.day.Lexicon, m.Until)
	for _, f := range m.Like.Sheets {
		session, _ := m.day.Check(ctx, f.Text)
		got, err := m.day.Forecast(ctx, day.Question{Session: session, People: m.people, Runs: runs, Seed: 1, Today: m.Until}, true)
		if err != nil {
			continue // nobody scores on it
		}
		name := f.Name[strings.LastIndexByte(f.Name, '/')+1:]
		one := sheet{name: strings.TrimSuffix(name, ".txt"), text: f.Text, date: session.Date.String(), session: session, piece: got.Piece, kind: got.Kind}
		for _, a := range got.Athletes {
			one.goes = append(one.goes, a.Score)
		}
		m.sheets = append(m.sheets, one)
	}
	if len(m.people) == 0 || len(m.sheets) == 0 {
		return &roomful.Error{Summary: "making gyms: the folder has no people or no days to score on", Hint: "give people.csv and sheets"}
	}
	return nil
}

// gym makes one gym: its people, then day after day a sheet and who scored on it.
func (m *maker) gym(ctx context.Context, n int) error {
	random := rand.New(rand.NewPCG(m.Seed, uint64(n)))
	id := fmt.Sprintf("crowd-%d-%d", m.Seed, n)
	first := time.Date(m.Until.Year-m.Years, m.Until.Month, m.Until.Day, 6, 0, 0, 0, time.UTC)
	better := make([]float64, m.Members) // in standard deviations
	if err := m.store.Update(ctx, store.By{At: first}, func(tx *store.Tx) error {
		if err := tx.MakeGym(store.Gym{ID: id, Name: fmt.Sprintf("Crowd %d", n+1), Zone: "UTC", MadeAt: first}); err != nil {
			return err
		}
		for i := range better {
			better[i] = random.NormFloat64()
			a := m.people[i%len(m.people)]
			a.ID, a.Name, a.Like = fmt.Sprintf("%s-%d", a.ID, i), fmt.Sprintf("%s %d", a.Name, i), ""
			if err := tx.In(id).PutPerson(store.Person{Athlete: a}); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		return fmt.Errorf("making the gym %s: %w", id, err)
	}
	until := time.Date(m.Until.Year, m.Until.Month, m.Until.Day, 6, 0, 0, 0, time.UTC)
	var waiting []store.Attempt
	for on, k := first, 0; !on.After(until); on = on.AddDate(0, 0, 1) {
		if on.Weekday() == time.Saturday || on.Weekday() == time.Sunday {
			continue
		}
		s := m.sheets[k%len(m.sheets)]
		k++
		document, err := m.sheet(ctx, id, s, on)
		if err != nil {
			return err
		}
		years := on.Sub(first).Hours() / 24 / 365.25
		for i, a := range better {
			if random.Float64() >= comes {
				continue
			}
			text := s.typed(i%len(m.people), m.people[i%len(m.people)].Division, 0.7*a+0.15*years+0.6*random.NormFloat64())
			if text == "" {
				continue
			}
			waiting = append(waiting, store.Attempt{ID: uuid.NewSHA1(uuid.NameSpaceOID, fmt.Appendf(nil, "%s %s %d", id, document, i)).String(),
				Person: fmt.Sprintf("%s-%d", m.people[i%len(m.people)].ID, i), Document: document, Piece: s.piece.Name(),
				Day: roomful.Date{Year: on.Year(), Month: on.Month(), Day: on.Day()}, Text: text, TypedAt: on.Add(time.Duration(i) * time.Second)})
		}
		if len(waiting) >= rowsAtOnce || on.Equal(until) {
			if err := m.put(ctx, id, on, waiting); err != nil {
				return err
			}
			waiting = waiting[:0]
		}
	}
	return m.put(ctx, id, until, waiting)
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

// typed is what somebody types who is so many standard deviations better than the
// middle of those they are like; "" when they cannot do the piece.
func (s sheet) typed(like int, d roomful.Division, better float64) string {
	q := s.goes[like]
	if math.IsNaN(q.P50) || q.P50 <= 0 {
		return ""
	}
	if !s.kind.HigherIsBetter() {
		better = -better
	}
	const reach = 1.645 // standard deviations from the middle to either end
	v := q.P50 + better*(q.P95-q.P50)/reach
	if better < 0 {
		v = q.P50 + better*(q.P50-q.P05)/reach
	}
	v = max(v, q.P05/2)
	switch s.kind {
	case roomful.RoundsScore:
		whole := int(v)
		return fmt.Sprintf("%d+%d", whole, int((v-float64(whole))*float64(score.RoundSize(s.piece, d, whole))))
	case roomful.TimeScore:
		return roomful.Clock(v)
	case roomful.LoadScore:
		return roomful.Figure(math.Round(v/2.5)*2.5) + " kg"
	case roomful.DistanceScore:
		return roomful.Figure(math.Round(v)) + " m"
	}
	return roomful.Figure(math.Round(v))
}
