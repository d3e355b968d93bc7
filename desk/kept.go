package desk

import (
	"context"
	"errors"
	"sync"
	"time"

	"roomful"
	"roomful/store"
)

// key names an answer that is kept.
type key struct {
	gym, what     string // what it is: versions
	sheet         string // its id, or its name while it has none
	text          string // a digest of the text that is shown
	stands        int64  // the change by which it stands, nought for what is known now
	typist        string // of a draft: what one takes back, another may be waiting for
	class, person string
	piece         string
	home, draft   bool
	shown         bool // for members, where that is another answer
}

// item is an answer that is kept.
type item struct {
	key
	made   int64        // the change up to which it holds
	today  roomful.Date // the day for which it holds
	rests  rests
	from   digest // of the question: the same again has the same answer
	answer any
	weight int
	used   int64 // when it was last asked for, in asks
}

// rests are what an answer rests on: what has to be looked at before anybody is answered,
// and what lets the last answer stand meanwhile.
type rests struct{ now, soon []topic }

// kept are answers, the latest used of them; the desk's lock guards it.
type kept struct {
	items  map[key]*item
	weight int
	asks   int64
}

// mostWeight is how much is kept: people in days that were worked out.
const mostWeight = 1500

// find finds an answer.
func (k *kept) find(key key) *item {
	k.asks++
	it := k.items[key]
	if it != nil {
		it.used = k.asks
	}
	return it
}

// put keeps an answer unless a later one is there, and lets go of those that nobody has
// asked for longest.
func (k *kept) put(it *item) {
	if was := k.items[it.key]; was != nil {
		if was.made > it.made {
			return
		}
		k.drop(was)
	}
	it.used = k.asks
	k.items[it.key] = it
	k.weight += it.weight
	for k.weight > mostWeight && len(k.items) > 1 {
		oldest := it
		for _, other := range k.items {
			if other.used < oldest.used || oldest == it {
				oldest = other
			}
		}
		k.drop(oldest)
	}
}

// drop lets go of an answer.
func (k *kept) drop(it *item) {
	if k.items[it.key] == it {
		delete(k.items, it.key)
		k.weight -= it.weight
	}
}

// recipe is how an answer is made.
type recipe[Q, A any] struct {
	key key
	// gather gathers the question from a gym.
	gather func(context.Context, *Gym) (Q, rests, error)
	// work answers it, without the books; was is the answer before, if there is one.
	work   func(ctx context.Context, q Q, was *A) (A, error)
	weight func(Q) int
}

// get answers: from what is kept where that still holds.
func get[Q, A any](ctx context.Context, g *Gym, now time.Time, r recipe[Q, A]) (A, error) {
	d, asked := g.desk, g.seq
	for {
		d.mu.Lock()
		it := d.kept.find(r.key)
		holds := it != nil && it.today == g.Today && !g.shelf.changed(it.made, it.rests.now...)
		aging := holds && g.shelf.changed(it.made, it.rests.soon...)
		d.mu.Unlock()
		if aging {
			d.beside.begin(r.key, func(ctx context.Context) error {
				_, err := cook(ctx, d, g.books.ID(), now, r, d.turns.waitAside)
				return err
			})
		}
		if holds {
			return it.answer.(A), nil
		}
		got, err := d.flights.do(ctx, r.key, func(ctx context.Context) (any, error) {
			return cook(ctx, d, g.books.ID(), now, r, d.turns.wait)
		})
		var none A
		if err != nil {
			return none, err
		}
		// Whoever came while somebody was at it may know of something later.
		if it = got.(*item); it.made >= asked {
			return it.answer.(A), nil
		}
	}
}

// cook makes an answer and keeps it.
func cook[Q, A any](ctx context.Context, d *Desk, gym string, now time.Time, r recipe[Q, A], wait func(context.Context) (func(), error)) (*item, error) {
	end, err := wait(ctx)
	if err != nil {
		return nil, err
	}
	defer end()
	it := &item{key: r.key}
	var q Q
	if err := d.store.View(ctx, func(tx *store.Tx) error {
		g, err := d.Open(tx.In(gym), now)
		if err != nil {
			return err
		}
		it.made, it.today = g.seq, g.Today
		q, it.rests, err = r.gather(ctx, g)
		return err
	}); err != nil {
		return nil, err
	}
	d.mu.Lock()
	was := d.kept.items[r.key]
	d.mu.Unlock()
	var before *A
	if was != nil {
		a := was.answer.(A)
		before = &a
	}
	it.from, it.weight = digestOf(q), r.weight(q)
	if was != nil && was.from == it.from {
		it.answer = was.answer
	} else {
		answer, err := r.work(ctx, q, before)
		if err != nil {
			return nil, err
		}
		it.answer = answer
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.kept.put(it)
	return it, nil
}

// beside is what is worked out while the last answer stands: each once at a time.
type beside struct {
	mu    sync.Mutex
	under map[key]bool
	wait  *sync.WaitGroup
	ctx   context.Context
	end   context.CancelFunc
}

// mostBeside is how many wait at most to be worked out beside: whoever asks again has it
// begun then.
const mostBeside = 64

// newBeside returns one with nothing under way.
func newBeside() beside {
	ctx, end := context.WithCancel(context.Background())
	return beside{under: map[key]bool{}, wait: new(sync.WaitGroup), ctx: ctx, end: end}
}

// begin begins work that nobody waits for. When it fails the last answer stands, and
// whoever asks next has it tried again.
func (b *beside) begin(k key, work func(context.Context) error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.under[k] || len(b.under) >= mostBeside || b.ctx.Err() != nil {
		return
	}
	b.under[k] = true
	b.wait.Go(func() {
		_, _ = safely(b.ctx, func(ctx context.Context) (any, error) { return nil, work(ctx) })
		b.mu.Lock()
		defer b.mu.Unlock()
		delete(b.under, k)
	})
}

// close ends all of it.
func (b *beside) close() {
	b.mu.Lock()
	b.end()
	b.mu.Unlock()
	b.wait.Wait()
}

// errMoved says that a text is no longer what was asked about.
var errMoved = errors.New("the sheet has changed meanwhile")
