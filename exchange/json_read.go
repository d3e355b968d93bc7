package exchange

import "roomful"

// Reading is what a typed score was understood to say. Unknown is null.
type Reading struct {
	Piece       string           `json:"piece"`
	Kind        string           `json:"kind"`
	Rounds      *int             `json:"rounds"`
	Reps        *int             `json:"reps"`
	TotalReps   *int             `json:"total_reps"`
	Seconds     *float64         `json:"seconds"`
	Metres      *float64         `json:"metres"`
	EachSeconds []float64        `json:"each_seconds"`
	EachReps    []int            `json:"each_reps"`
	Splits      []float64        `json:"splits"` // of rounds, beside a score of another kind
	Capped      bool             `json:"capped"`
	Left        *int             `json:"left"`
	LoadsKg     []float64        `json:"loads_kg"`
	Misses      []int            `json:"misses"` // sets, from 1
	Changes     []ReadingChange  `json:"changes"`
	AsWritten   *bool            `json:"as_written"`
	Approximate bool             `json:"approximate"`
	Partner     *string          `json:"partner"`
	Share       *int             `json:"share"`
	Stopped     *float64         `json:"stopped_at_seconds"`
	SameAs      *string          `json:"same_as"`
	Private     []string         `json:"private"`
	Unread      []string         `json:"unread"` // figures and markup, as private
	Note        *string          `json:"note"`
	Question    *ReadingQuestion `json:"question"`
	Others      []Reading        `json:"others,omitempty"` // further pieces of the same text
}

// ReadingChange is one departure from the sheet.
type ReadingChange struct {
	Of        *string  `json:"of"`
	To        *string  `json:"to"`
	Assist    *string  `json:"assist"`
	LoadKg    *float64 `json:"load_kg"`
	HeightCm  *float64 `json:"height_cm"`
	Amount    *float64 `json:"amount"`
	Unit      *string  `json:"unit"`
	AtSeconds *float64 `json:"at_seconds"`
}

// ReadingQuestion is one short question with its two answers, the likelier first.
type ReadingQuestion struct {
	Ask     string    `json:"ask"`
	Answers [2]string `json:"answers"`
}

// AttemptOf turns what was read into JSON: the piece asked about, and the others.
func AttemptOf(a roomful.Attempt) Reading {
	out := readingOf(a.Readings[0])
	for _, r := range a.Readings[1:] {
		out.Others = append(out.Others, readingOf(r))
	}
	return out
}

func readingOf(r roomful.Reading) Reading {
	out := Reading{
		Piece: r.Piece, Kind: r.Kind.String(), Rounds: r.Rounds, Reps: r.Reps, TotalReps: r.TotalReps, Seconds: r.Seconds, Metres: r.Metres,
		EachSeconds: append([]float64{}, r.EachSeconds...), EachReps: append([]int{}, r.EachReps...), Splits: append([]float64{}, r.Splits...), Capped: r.Capped, Left: r.Left,
		LoadsKg: append([]float64{}, r.LoadsKg...), Misses: append([]int{}, r.Misses...), Changes: []ReadingChange{},
		AsWritten: r.AsWritten, Approximate: r.Approximate, Partner: word(r.Partner), Share: r.Share, Stopped: known(r.StoppedSeconds), SameAs: word(r.SameAs),
		Private: listed(r.Private), Unread: listed(r.Unread), Note: word(r.Note),
	}
	for _, c := range r.Changes {
		rc := ReadingChange{Of: word(string(c.Of)), To: word(string(c.To)), Assist: word(c.Assist), LoadKg: known(c.LoadKg),
			HeightCm: known(c.HeightCm), Amount: known(c.Amount), AtSeconds: known(c.AtSeconds)}
		if c.Amount > 0 {
			rc.Unit = word(c.Unit.String())
		}
		out.Changes = append(out.Changes, rc)
	}
	if r.Question != nil {
		out.Question = &ReadingQuestion{r.Question.Ask, r.Question.Answers}
	}
	return out
}
