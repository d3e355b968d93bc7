package desk_test

import (
	"fmt"
	"testing"

	"roomful/desk"
	"roomful/store"
)

// scored stores a score of Mo's on the earlier day of the same piece, at a load.
func (p *place) scored(kg float64) (id string) {
	p.t.Helper()
	p.does("a score comes", int(kg-40)/5)
	return fmt.Sprint("n", p.n)
}

// mends puts a score right: it is taken back, and comes anew under another id.
func (p *place) mends(id string, kg float64) {
	p.t.Helper()
	p.change(func(b *store.Books) error { return b.Withdraw(id) })
	p.scored(kg)
}

// TestPublishedStandsMended: what somebody scored before stands under a published day as it
// was when that was published, whatever is put right or taken back since; what had been
// taken back by then is not there.
func TestPublishedStandsMended(t *testing.T) {
	s := newShop(t)
	for _, kg := range []float64{45, 50, 55} {
		p := s.published(t)
		a := p.asks()[4]
		without := told(s.desk, a)
		id := p.scored(kg)
		p.does("the sheet is published", 0)
		before := told(s.desk, a)
		if before == without {
			t.Fatalf("%v kg: nothing of the score is in the day: nothing is tested", kg)
		}
		p.mends(id, kg)
		for what, d := range map[string]*desk.Desk{"here": s.desk, "elsewhere": desk.New(s.day, s.store), "restored": p.restored()} {
			if got := told(d, a); got != before {
				t.Errorf("%v kg: put right, the published day is %s\n%s, it was\n%s", kg, what, got, before)
			}
		}
		p.change(func(b *store.Books) error { return b.Withdraw(fmt.Sprint("n", p.n)) })
		p.does("the sheet is published", 0)
		if got := told(s.desk, a); got != without {
			t.Errorf("%v kg: taken back before it was published, the day is\n%s, without any it was\n%s", kg, got, without)
		}
	}
}
