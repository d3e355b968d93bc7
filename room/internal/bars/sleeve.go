package bars

import (
	"cmp"
	"slices"
)

// sleeves is every way to load one sleeve. Way 0 is the empty one; each other
// way is its parent with one disc more outside, so that what a way weighs or
// costs is its parent's and one addition.
type sleeves struct {
	sizes  []Size
	parent []int32
	outer  []uint8 // the size of the outermost disc
	mass   []int64
	key    []key // how many of each size, packed
	pack   packing
	// Ways are grouped by mass: order lists them by mass, sum has each mass once,
	// and those of sum[d] are order[start[d]:start[d+1]].
	order []int32
	sum   []int64
	start []int32
	group []int32 // of a way: its d
	whole bool    // no way is left out
}

// mostWays bounds the ways that are looked at. A full set of one unit on usual
// sleeves has a few thousand, kilogram and pound discs together a few ten
// thousand.
const mostWays = 1 << 18

// newSleeves lists the ways to load one sleeve with at most deep discs and at
// most reach grains, those of fewer discs first.
func newSleeves(sizes []Size, deep int, reach int64, bars, most int) *sleeves {
	s := &sleeves{sizes: sizes, pack: newPacking(sizes, deep, reach, bars), whole: true,
		parent: []int32{0}, outer: []uint8{0}, mass: []int64{0}, key: []key{{}}}
	run := []int32{0} // how many of the outermost disc are on
	for from, depth := 0, 0; depth < deep; depth++ {
		to := len(s.mass)
		for w := from; w < to; w++ {
			for j := int(s.outer[w]); j < len(sizes); j++ {
				n := int32(1)
				if w > 0 && j == int(s.outer[w]) {
					n = run[w] + 1
				}
				if s.mass[w]+sizes[j].Mass > reach || int(n) > s.pack.most[j] {
					continue
				}
				s.parent = append(s.parent, int32(w))
				s.outer = append(s.outer, uint8(j))
				s.mass = append(s.mass, s.mass[w]+sizes[j].Mass)
				s.key = append(s.key, s.key[w].plus(s.pack.one[j]))
				run = append(run, n)
			}
			if len(s.mass) > most {
				s.cut(to)
				break
			}
		}
		if from = to; from == len(s.mass) || !s.whole {
			break
		}
	}
	s.sort()
	return s
}

// cut forgets every way from n on.
func (s *sleeves) cut(n int) {
	s.parent, s.outer, s.mass, s.key, s.whole = s.parent[:n], s.outer[:n], s.mass[:n], s.key[:n], false
}

// sort groups the ways by mass.
func (s *sleeves) sort() {
	s.order = make([]int32, len(s.mass))
	for i := range s.order {
		s.order[i] = int32(i)
	}
	slices.SortFunc(s.order, func(a, b int32) int {
		return cmp.Or(cmp.Compare(s.mass[a], s.mass[b]), cmp.Compare(a, b))
	})
	s.group = make([]int32, len(s.mass))
	for i, w := range s.order {
		if i == 0 || s.mass[w] != s.sum[len(s.sum)-1] {
			s.sum = append(s.sum, s.mass[w])
			s.start = append(s.start, int32(i))
		}
		s.group[w] = int32(len(s.sum) - 1)
	}
	s.start = append(s.start, int32(len(s.order)))
}

// ways lists those that weigh sum[d].
func (s *sleeves) ways(d int) []int32 { return s.order[s.start[d]:s.start[d+1]] }

// discs lists the sizes on a sleeve, innermost first.
func (s *sleeves) discs(w int32) []int {
	out := []int{}
	for ; w > 0; w = s.parent[w] {
		out = append(out, int(s.outer[w]))
	}
	slices.Reverse(out)
	return out
}

// key is how many discs of each size there are, packed into fields; the bit
// above each field is a guard.
type key [2]uint64

func (k key) plus(o key) key  { return key{k[0] + o[0], k[1] + o[1]} }
func (k key) minus(o key) key { return key{k[0] - o[0], k[1] - o[1]} }

// packing says where each size stands in a key.
type packing struct {
	one   []key // a single disc
	most  []int // how many discs of a size are reckoned with
	word  []int
	shift []int
	field []uint64 // mask of a field, not shifted
	guard key
	stock key  // everything there is, without guards
	exact bool // no count had to be cut to fit
}

// newPacking lays out fields for the pairs there are. A size of which there is
// more than all bars could use needs none.
func newPacking(sizes []Size, deep int, reach int64, bars int) packing {
	p := packing{exact: true}
	word, at := 0, 0
	for _, z := range sizes {
		each := min(deep, int(reach/z.Mass))
		n := min(z.Pairs, each*bars)
		if n == each*bars {
			p.leave(each)
			continue
		}
		width := 1
		for n>>width > 0 {
			width++
		}
		if at+width+1 > 64 {
			word, at = word+1, 0
		}
		if word > 1 { // no room left: reckon without this size
			p.leave(0)
			p.exact = false
			continue
		}
		var one key
		one[word] = 1 << at
		p.one, p.most = append(p.one, one), append(p.most, n)
		p.word, p.shift, p.field = append(p.word, word), append(p.shift, at), append(p.field, 1<<width-1)
		p.guard[word] |= 1 << (at + width)
		p.stock[word] += uint64(n) << at
		at += width + 1
	}
	return p
}

// leave gives a size no field, and a bar most of it.
func (p *packing) leave(most int) {
	p.one, p.most = append(p.one, key{}), append(p.most, most)
	p.word, p.shift, p.field = append(p.word, 0), append(p.shift, 0), append(p.field, 0)
}

// take removes used from left; ok is false when there are not enough.
func (p *packing) take(left, used key) (rest key, ok bool) {
	a := (left[0] | p.guard[0]) - used[0]
	b := (left[1] | p.guard[1]) - used[1]
	if a&p.guard[0] != p.guard[0] || b&p.guard[1] != p.guard[1] {
		return key{}, false
	}
	return key{a &^ p.guard[0], b &^ p.guard[1]}, true
}

// count is how many discs of size j a key holds; 0 for a size without a field.
func (p *packing) count(k key, j int) int {
	return int(k[p.word[j]] >> p.shift[j] & p.field[j])
}
