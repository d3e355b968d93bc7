package exchange

import "roomful"

// Comparisons are everybody's attempts at a sheet beside the last ones.
type Comparisons struct {
	Athletes    []Comparison `json:"athletes"`
	Diagnostics []Diagnostic `json:"diagnostics"`
}

// Comparison is one person's attempt beside their last. Earlier is null for who has
// only one; then there is only what to match or beat.
type Comparison struct {
	Name       string       `json:"name"`
	ID         string       `json:"id"`
	Piece      string       `json:"piece"`
	Earlier    *RecordEntry `json:"earlier"`
	Later      RecordEntry  `json:"later"`
	Tier       *string      `json:"tier"` // same, one-change, different-work, not-comparable
	Changed    []string     `json:"changed"`
	Difference *float64     `json:"difference"` // the later less the earlier, in the unit of the scores
	AtLeast    bool         `json:"at_least"`   // the difference is at least so much: one of the two met the cap
	Equivalent *Quantiles   `json:"equivalent"` // of the earlier day's person on the later work
	Improved   *float64     `json:"p_improved"`
	Sentence   *string      `json:"sentence"`
	Assumed    []string     `json:"assumed"`
	Beat       Beat         `json:"beat"`
}

// Beat is the number to match or beat next time.
type Beat struct {
	Match  *float64 `json:"match"`
	Beat   *float64 `json:"beat"`
	Text   *string  `json:"text"`
	Splits []Split  `json:"splits"`
}

// Split is when a round, or a line of a single round, should be done.
type Split struct {
	Round    *int    `json:"round"`    // from 1; null for a line of a piece of one round
	Movement *string `json:"movement"` // of the line
	Seconds  float64 `json:"seconds"`
}

// ComparisonOf turns a comparison into JSON; earlier says whether there was one.
func ComparisonOf(who roomful.Athlete, c roomful.Comparison, earlier bool) Comparison {
	out := Comparison{Name: who.Name, ID: who.ID, Piece: c.Later.Done.Piece.Name(), Later: entryOf(c.Later), Changed: []string{}, Assumed: listed(c.Assumed)}
	if earlier {
		was := entryOf(c.Earlier)
		out.Earlier, out.Tier, out.Changed = &was, word(string(c.Tier)), listed(c.Changed)
		out.Difference, out.Improved, out.Sentence = figure(c.Difference), figure(c.Improved), word(c.Sentence)
		out.AtLeast = c.AtLeast
	}
	if q := c.Equivalent; q != nil {
		out.Equivalent = &Quantiles{figure(q.P05), figure(q.P50), figure(q.P95)}
	}
	out.Beat = BeatOf(c.Beat)
	return out
}

// BeatOf turns a target into JSON.
func BeatOf(t roomful.Target) Beat {
	out := Beat{Match: figure(t.Match), Beat: figure(t.Beat), Text: word(t.Text), Splits: []Split{}}
	for _, s := range t.Splits {
		out.Splits = append(out.Splits, Split{known(s.Round), word(string(s.Movement)), s.Seconds})
	}
	return out
}
