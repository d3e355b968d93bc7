package sim

import (
	"hash/maphash"
	"math"
	"reflect"

	"roomful"
)

// key names all that the runs of a crew depend on, beside the model: who they are, what
// they do, of what piece, and the seed. Two that differ in any of it have the same key about
// as often as two people guess the same 128 coins.
type key [2]uint64

// keying makes keys.
type keying struct {
	m     *Model
	a, b  maphash.Hash
	piece key                        // of the request's pieces
	known map[*roomful.Abilities]key // of those met already
}

// newKeying prepares for the crews of a request.
func newKeying(m *Model, q roomful.ForecastRequest) *keying {
	k := &keying{m: m, known: map[*roomful.Abilities]key{}}
	k.a.SetSeed(m.kept.seeds[0])
	k.b.SetSeed(m.kept.seeds[1])
	k.word(q.Seed)
	for _, p := range q.Lead {
		k.part(p)
	}
	k.part(q.Piece)
	k.piece = k.sum()
	return k
}

// crew is the key of a crew.
func (k *keying) crew(entrants []roomful.Entrant) key {
	who := make([]key, len(entrants))
	for i := range entrants {
		who[i] = k.abilities(entrants[i].Abilities)
	}
	k.join(k.piece)
	for i := range entrants {
		e := &entrants[i]
		k.join(who[i])
		k.text(e.ID)
		k.word(uint64(e.Division))
		k.word(uint64(e.Wait))
		for _, v := range [...]any{&e.Dose, &e.Work, &e.Lead, &e.Segments} {
			k.value(reflect.ValueOf(v).Elem())
		}
	}
	return k.sum()
}

// part takes in what of a part decides how it goes: what it asks of whom stands in their work.
func (k *keying) part(p roomful.Part) {
	k.value(reflect.ValueOf(&p.Format).Elem())
	k.value(reflect.ValueOf(&p.Team).Elem())
	k.text(p.ScoreBy)
	k.word(uint64(roomful.KindOf(p, k.m.lex)))
}

// abilities is the key of what is believed of somebody: what it rests on in words is none of it.
func (k *keying) abilities(a *roomful.Abilities) key {
	if known, ok := k.known[a]; ok {
		return known
	}
	k.float(a.MassKg)
	k.word(uint64(a.Factors))
	k.word(uint64(len(a.Keys)))
	for _, name := range a.Keys {
		k.text(name)
	}
	for i := range a.Dims {
		d := &a.Dims[i]
		k.text(string(d.Capacity))
		k.float(d.Centre)
		k.word(uint64(len(d.Loads)))
		for _, l := range d.Loads {
			k.word(uint64(l.Factor))
			k.float(l.SD)
		}
	}
	k.known[a] = k.sum()
	return k.known[a]
}

// sum ends a key.
func (k *keying) sum() key {
	out := key{k.a.Sum64(), k.b.Sum64()}
	k.a.Reset()
	k.b.Reset()
	return out
}

func (k *keying) word(x uint64) {
	b := [8]byte{byte(x), byte(x >> 8), byte(x >> 16), byte(x >> 24), byte(x >> 32), byte(x >> 40), byte(x >> 48), byte(x >> 56)}
	k.a.Write(b[:])
	k.b.Write(b[:])
}

func (k *keying) float(x float64) { k.word(math.Float64bits(x)) }

func (k *keying) join(other key) { k.word(other[0]); k.word(other[1]) }

// text takes in a text by its length, so that where one ends shows.
func (k *keying) text(s string) {
	k.word(uint64(len(s)))
	k.a.WriteString(s)
	k.b.WriteString(s)
}

// value takes in all of a value, whatever it is made of.
func (k *keying) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		if v.Bool() {
			k.word(1)
		} else {
			k.word(0)
		}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		k.word(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		k.word(v.Uint())
	case reflect.Float64:
		k.float(v.Float())
	case reflect.String:
		k.text(v.String())
	case reflect.Struct:
		for i := range v.NumField() {
			k.value(v.Field(i))
		}
	case reflect.Slice:
		k.word(uint64(v.Len()))
		for i := range v.Len() {
			k.value(v.Index(i))
		}
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			k.word(0)
			return
		}
		k.text(v.Elem().Type().Name())
		k.value(v.Elem())
	default:
		panic("sim: no key for a " + v.Type().String()) // a field of a new kind: TestKept meets it first
	}
}
