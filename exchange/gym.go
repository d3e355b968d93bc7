package exchange

import (
	"io"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"roomful"
)

// ReadGym reads the settings of a gym from YAML, by the keys of
// [roomful.Settings]: hour.briefing stands as briefing below hour. What is not
// said, or cannot be used, is the usual. The movements of the ratios are looked
// up in the lexicon; without one they are taken as they are written.
func ReadGym(r io.Reader, lex roomful.Lexicon) (roomful.Gym, []roomful.Diagnostic) {
	g := &gym{out: roomful.DefaultGym(), lexicon: lex, said: map[string]*ast.MappingValueNode{}}
	if pairs, ok := g.document(r, "the file of settings", "start with name: and unit: kg"); ok {
		g.find(pairs, "")
		g.set()
		g.compare()
	}
	return g.out, g.sorted()
}

// gym is the state of reading one file of settings.
type gym struct {
	yamlReader
	out     roomful.Gym
	lexicon roomful.Lexicon
	said    map[string]*ast.MappingValueNode // what stands in the file, by the setting's key
}

// find looks up which settings the keys below a section are.
func (g *gym) find(pairs []*ast.MappingValueNode, section string) {
	known := keysBelow(section)
	for _, p := range pairs {
		name := keyOf(p)
		key := section + name
		switch {
		case !slices.Contains(known, name):
			g.unknownSetting(p, section, known)
		case isSetting(key):
			g.said[key] = p
		default:
			g.find(g.pairs(p.Value, listOfKeys, keysHint), key+".")
		}
	}
}

// keysBelow lists the keys of a section, those of the file for "".
func keysBelow(section string) []string {
	var out []string
	for _, s := range roomful.Settings() {
		if rest, ok := strings.CutPrefix(s.Key, section); ok {
			name, _, _ := strings.Cut(rest, ".")
			if !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

// isSetting reports whether a key is a whole one.
func isSetting(key string) bool {
	return slices.ContainsFunc(roomful.Settings(), func(s roomful.Setting) bool { return s.Key == key })
}

// unknownSetting says which keys there are, and why a caution cannot be
// replaced.
func (g *gym) unknownSetting(p *ast.MappingValueNode, section string, known []string) {
	if name := keyOf(p); section == "cautions.replace." && isSetting("cautions.add."+name) {
		g.fault(nodeRange(p.Key), "write your words under add, they stand after ours", "the caution %s says when to seek help or what is published, and cannot be replaced", name)
		return
	}
	g.unknownKey(p, known)
}

// set reads every setting that is said, in the order of the table: the unit
// comes before the masses written in it.
func (g *gym) set() {
	for _, s := range roomful.Settings() {
		p := g.said[s.Key]
		switch {
		case p != nil && g.reads(s, p):
			g.out.Own = append(g.out.Own, s.Key)
		case s.DefaultLb != "":
			_ = s.Set(&g.out, s.DefaultIn(g.out.Unit)) // a default is never refused
		}
	}
}

// reads reads one setting and reports whether it could be used.
func (g *gym) reads(s roomful.Setting, p *ast.MappingValueNode) bool {
	bad := len(g.all)
	if at, ok := s.In(&g.out).(*roomful.Ratios); ok && mapping(p.Value) {
		*at = g.ratios(s, p.Value)
		return *at != nil
	}
	text := g.text(p.Value)
	if len(g.all) > bad {
		return false
	}
	if err := s.Set(&g.out, text); err != nil {
		g.fault(place(p), roomful.HintOf(err), "%s", err.Error())
		return false
	}
	return true
}

// place is where a value stands, or its key when there is none.
func place(p *ast.MappingValueNode) roomful.Range {
	if _, none := p.Value.(*ast.NullNode); none {
		return nodeRange(p.Key)
	}
	return nodeRange(p.Value)
}

// mapping reports whether a node is one.
func mapping(n ast.Node) bool {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return true
	}
	return false
}

// compare holds settings to those they may not exceed.
func (g *gym) compare() {
	all := roomful.Settings()
	for _, s := range all {
		i := slices.IndexFunc(all, func(o roomful.Setting) bool { return o.Key == s.AtMost })
		if i < 0 {
			continue
		}
		less, _ := s.Figure(g.out)
		more, _ := all[i].Figure(g.out)
		if less <= more {
			continue
		}
		p := g.said[s.Key]
		if p == nil {
			p = g.said[s.AtMost]
		}
		g.fault(place(p), "mend one of the two", "%s %s is more than %s %s", s.Key, s.Text(g.out), s.AtMost, all[i].Text(g.out))
	}
}

// ratios reads so many of other movements for one of each, nil when none can be
// used.
func (g *gym) ratios(s roomful.Setting, n ast.Node) roomful.Ratios {
	out := roomful.Ratios{}
	for _, p := range g.pairs(n, listOfKeys, keysHint) {
		from, ok := g.movement(p)
		switch {
		case !ok:
		case out[from] != nil:
			g.fault(nodeRange(p.Key), "put all its ratios in one place", "%s is given twice", from)
		default:
			if to := g.ratiosOf(s, from, p.Value); len(to) > 0 {
				out[from] = to
			}
		}
	}
	if len(out) == 0 {
		return nil
	}
	return out
}

// ratiosOf reads the ratios of one movement.
func (g *gym) ratiosOf(s roomful.Setting, from roomful.MovementID, n ast.Node) map[roomful.MovementID]float64 {
	out := map[roomful.MovementID]float64{}
	for _, p := range g.pairs(n, "ratios were", "write them as {ski: 1, bike: 2}") {
		to, ok := g.movement(p)
		if !ok {
			continue
		}
		switch v := g.number(p.Value, keyOf(p), s.Least, s.Most); {
		case v == 0:
		case to == from:
			g.fault(nodeRange(p.Key), "leave it out", "%s stands for itself", to)
		case out[to] != 0:
			g.fault(nodeRange(p.Key), "keep the right one", "%s is given twice for %s", to, from)
		default:
			g.counted(from, to, p)
			out[to] = v
		}
	}
	return out
}

// counted warns of a ratio between things that are never counted alike.
func (g *gym) counted(from, to roomful.MovementID, p *ast.MappingValueNode) {
	if g.lexicon == nil {
		return
	}
	a, b := g.lexicon.Movement(from), g.lexicon.Movement(to)
	for _, u := range a.Units {
		if roomful.RatioHolds(u) && slices.Contains(b.Units, u) {
			return
		}
	}
	g.warn(nodeRange(p.Key), "a ratio is of repetitions or of metres; leave it out, and they take the same time",
		"%s and %s are not counted alike, so this ratio is never used", from, to)
}

// movement reads a key that is a movement.
func (g *gym) movement(p *ast.MappingValueNode) (roomful.MovementID, bool) {
	word := keyOf(p)
	if g.lexicon == nil {
		return roomful.MovementID(strings.ToLower(word)), word != ""
	}
	m, hint := movementCalled(word, g.lexicon)
	if m == nil {
		g.fault(nodeRange(p.Key), hint, "%q is not a movement", word)
		return "", false
	}
	return m.ID, true
}
