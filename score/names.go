package score

import (
	"slices"
	"strings"

	"roomful"
)

// same reads "same as last time" and, of who is known, "same as Marit".
func (p *parser) same() string {
	for i := range p.toks {
		if p.at(i, []string{"as", "last", "time"}) && p.word(i-1) != "same" && !p.digitsIn() {
			p.use(i, i+3)
			return "last time"
		}
		if !p.at(i, []string{"same", "as"}) {
			continue
		}
		if p.word(i+2) == "last" || p.word(i+2) == "before" {
			p.use(i, i+3+b2i(p.word(i+3) == "time" || p.word(i+3) == "week"))
			return "last time"
		}
		if name, end := p.nameAt(i + 2); end > i+2 {
			p.use(i, end)
			return name
		}
	}
	return ""
}

// partner reads "w/ a partner", and in a team piece "with Lorcan", "with dov" and "Calum
// and me", of who is known. Whoever works alone has no partner whose name others need.
func (p *parser) partner(team bool) string {
	for i := range p.toks {
		w := p.word(i)
		if p.used[i] || w != "with" && w != "w" && w != "mit" && w != "sa" && w != "avec" || i+1 >= len(p.toks) {
			continue
		}
		if p.word(i+1) == "a" && p.word(i+2) == "partner" {
			p.use(i, i+3)
			return "a partner"
		}
		if name, end := p.nameAt(i + 1); team && end > i+1 {
			for slices.Contains(joinWords, p.word(end)) || p.word(end) == "/" {
				_, next := p.nameAt(end + 1)
				if next == end+1 {
					break
				}
				end = next
				name = p.raw[p.toks[i+1].start:p.toks[end-1].end]
			}
			p.use(i, end)
			return name
		}
	}
	for i := range p.toks {
		if !team || !slices.Contains(joinWords, p.word(i)) {
			continue
		}
		if name, end := p.nameAt(i + 1); end > i+1 && p.word(i-1) == "me" {
			p.use(i-1, end)
			return name
		}
		if p.word(i+1) != "me" && p.word(i+1) != "i" {
			continue
		}
		for from := max(0, i-longestName); from < i; from++ {
			if name, end := p.nameAt(from); end == i {
				p.use(from, i+2)
				return name
			}
		}
	}
	return ""
}

// nameAt reads the name of somebody who trains here at token i, as typed, with the token
// behind it; i when there is none. A word that nobody knows may be an illness.
func (p *parser) nameAt(i int) (name string, end int) {
	for end = min(i+longestName, len(p.toks)); end > i; end-- {
		other := func(k token) bool { return k.kind != wordToken || bodyWord(k.text) || loneBody[k.text] }
		if !slices.Contains(p.used[i:end], true) && !slices.ContainsFunc(p.toks[i:end], other) && p.known(p.raw[p.toks[i].start:p.toks[end-1].end]) {
			return p.raw[p.toks[i].start:p.toks[end-1].end], end
		}
	}
	return "", i
}

// longestName is how many words a name may have.
const longestName = 3

// known reports whether somebody who trains here is called so, whole or by the first word.
func (p *parser) known(name string) bool {
	return slices.ContainsFunc(p.people, func(a roomful.Athlete) bool {
		first, _, _ := strings.Cut(a.Name, " ")
		return strings.EqualFold(a.Name, name) || strings.EqualFold(first, name)
	})
}

// share reads "my half 224", and in a team piece "me 224", "224 me" and "I did 224".
func (p *parser) share(team bool) *int {
	numbers := 0
	for i := range p.toks {
		numbers += b2i(p.isNumber(i))
	}
	team = team && numbers > 1
	for i := range p.toks {
		for _, words := range [][]string{{"me"}, {"me", ":"}, {"i", "did"}, {"my"}} {
			if j := i + len(words); team && p.at(i, words) && p.isNumber(j) && !slices.Contains(joinWords, p.word(i-1)) {
				n := p.whole(j)
				p.use(i, j+1)
				return &n
			}
		}
		if team && p.isNumber(i) && p.word(i+1) == "me" && i > 0 {
			n := p.whole(i)
			p.use(i, i+2)
			return &n
		}
		if p.word(i) == "my" && (p.word(i+1) == "half" || p.word(i+1) == "share" || p.word(i+1) == "part") && p.isNumber(i+2) {
			n := int(p.toks[i+2].value)
			p.use(i, i+3)
			return &n
		}
	}
	return nil
}
