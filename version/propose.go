package version

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/rack"
	"roomful/version/internal/rung"
	"roomful/version/internal/sheet"
)

// Person is somebody to find a version for.
type Person struct {
	Athlete roomful.Athlete
	// Abilities is what is believed of them; nil when nothing is.
	Abilities *roomful.Abilities
	// Doubts are contradictions in what was told, one sentence each.
	Doubts []string
}

// Request is a piece and the people who will do it.
type Request struct {
	Piece  roomful.Part
	Lead   []roomful.Part // pieces done just before on the same clock, as written
	Effort roomful.Effort
	People []Person
	// Kit is what the room owns, complete; nil means that nothing is short and
	// loads come in the gym's usual steps.
	Kit  *roomful.Kit
	Gym  roomful.Gym
	On   roomful.Date // the day, for ages
	Home bool         // everybody trains with their own kit
	Runs int          // of the forecast of each version; 0 means [UsualRuns]
	Seed uint64
	// Workers bounds the processors used; 0 means all.
	Workers int

	Lexicon    roomful.Lexicon
	Forecaster roomful.Forecaster
}

// UsualRuns is how often each chosen version is simulated when the request
// does not say: the standard error of a probability is then at most 0.032.
const UsualRuns = 256

// Propose finds the options of the day and everybody's version, in the order
// of the request. The answer depends on the request alone, and options and
// choices do not depend on the order of the people. It fails when the context
// ends, when two people share an id, or when the forecaster refuses.
func Propose(ctx context.Context, q Request) (roomful.Lineup, error) {
	c, err := newClass(q)
	if err != nil {
		return roomful.Lineup{}, err
	}
	if err := c.decide(ctx); err != nil {
		return roomful.Lineup{}, fmt.Errorf("finding versions of %s: %w", q.Piece.Name(), err)
	}
	return c.lineup(ctx)
}

// class is the work in hand: one piece, everybody who may do it, and the rungs.
type class struct {
	Request
	ask      roomful.Effort // the effort that forecasts are held against
	kind     roomful.ScoreKind
	windowed bool // the effort's window counts what the piece scores
	lines    []piece.Line
	cost     piece.Cost
	everyone []*person // in the order of the request
	going    []*person // those not stopped, by id
	rungs    []rung.Rung
	stocks   map[stockKey]*rack.Stock
}

// newClass reads the piece and the people.
func newClass(q Request) (*class, error) {
	c := &class{Request: q, ask: q.Effort, kind: roomful.KindOf(q.Piece, q.Lexicon), lines: piece.Lines(q.Piece, q.Lexicon)}
	c.cost = piece.Cost{Lines: c.lines, Lexicon: q.Lexicon, Protect: q.Effort.Protect}
	c.ask.Proposed = false
	c.windowed = q.Effort.Stated() && q.Effort.Counts(c.kind)
	if c.Runs <= 0 {
		c.Runs = UsualRuns
	}
	c.stocks = map[stockKey]*rack.Stock{}
	ids := map[string]bool{}
	for _, who := range q.People {
		p := newPerson(who, q.On)
		if ids[p.id] {
			return nil, &roomful.Error{
				Summary: fmt.Sprintf("finding versions: two people are called %q", p.id),
				Hint:    "give each an id of their own",
			}
		}
		ids[p.id] = true
		c.everyone = append(c.everyone, p)
		if p.care.Stop == nil {
			c.prepare(p)
			c.going = append(c.going, p)
		}
	}
	c.rungs = []rung.Rung{rung.Written(c.lines)}
	slices.SortFunc(c.going, func(a, b *person) int { return cmp.Compare(a.id, b.id) })
	return c, nil
}

// stockKey tells apart the stocks that people share.
type stockKey struct {
	kit      *roomful.Kit
	division roomful.Division
}

// prepare finds what exists for a person and reads the piece for them.
func (c *class) prepare(p *person) {
	kit := c.Kit
	if c.Home {
		kit = p.Athlete.Home
		if kit == nil {
			kit = &roomful.Kit{Home: true}
		}
	}
	p.stock = c.stock(kit, p.Athlete.Division)
	p.dose, p.amounts = c.doses(p)
	p.written = c.reader(p).Work().All()
	for range c.lines {
		p.lines = append(p.lines, &lineOf{fits: map[rung.Pick]*fitted{}, others: map[rung.Pick][]*fitted{}})
	}
	for _, part := range c.Lead {
		r := c.reader(p)
		r.Part, r.AsStated = part, false
		p.lead = append(p.lead, r.Work())
	}
}

// stock is what exists of a kit for a division.
func (c *class) stock(kit *roomful.Kit, d roomful.Division) *rack.Stock {
	key := stockKey{kit, d}
	if c.stocks[key] == nil {
		c.stocks[key] = rack.New(kit, c.Gym, d, sheet.MassUnit(c.Piece, c.Gym))
	}
	return c.stocks[key]
}

// reader resolves elements of the piece for a person as the sheet states them.
func (c *class) reader(p *person) *sheet.Reader {
	return &sheet.Reader{AsStated: true, Stock: p.stock, Part: c.Piece, Effort: c.Effort,
		Athlete: p.Athlete, Abilities: p.Abilities, Lexicon: c.Lexicon, Forecaster: c.Forecaster}
}

// work puts tasks, one for each line, in their places, where they stay.
func (c *class) work(tasks []roomful.Task) (w roomful.Work) {
	round := len(c.Piece.Once)
	last := round + len(c.Piece.Round)
	if round > 0 {
		w.Once = tasks[:round:round]
	}
	if last > round {
		w.Round = tasks[round:last:last]
	}
	if len(tasks) > last {
		w.Last = tasks[last:]
	}
	return w
}

// entrants returns the copies of a person that make a team of one: alone, one;
// in pairs, themselves as their own partner.
func (c *class) entrants(p *person, tasks []roomful.Task) []roomful.Entrant {
	e := roomful.Entrant{ID: p.id, Name: p.Athlete.Name, Division: p.Athlete.Division, Abilities: p.Abilities,
		Work: c.work(tasks), Lead: p.lead}
	out := []roomful.Entrant{e}
	for n := c.Piece.Team.Size; n > len(out); {
		out = append(out, e)
	}
	return out
}

// tiny absorbs rounding when masses and amounts are compared.
const tiny = 1e-6
