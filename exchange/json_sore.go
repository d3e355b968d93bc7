package exchange

import "roomful"

// Relief answers somebody who says that something hurts. Of all of it only why
// and say may be shown or read out to others.
type Relief struct {
	Name        string       `json:"name"`
	ID          *string      `json:"id"`
	Piece       *string      `json:"piece"` // null when it could not be read
	Area        *string      `json:"area"`
	Pain        *int         `json:"pain"`
	At          *float64     `json:"at_seconds"` // on the piece's clock; null before it begins
	Stop        *string      `json:"stop"`       // not null: no exercise, and what the coach does
	Urgent      bool         `json:"urgent"`
	Card        *Card        `json:"card"` // the gym's, when it is urgent
	Say         *string      `json:"say"`  // to the person, when they stop or go on as they are
	Ask         []RedFlag    `json:"ask"`
	Note        *string      `json:"note"`
	Options     []Remedy     `json:"options"`  // in order; none when they stop or go on as they are
	Segment     *Segment     `json:"segment"`  // what is noted when the first option is taken
	Segments    []Segment    `json:"segments"` // the version from then on, with what was done before
	Cautions    []string     `json:"cautions"`
	Diagnostics []Diagnostic `json:"diagnostics"` // warnings about the files
}

// Card is what everybody does in an emergency.
type Card struct {
	Address       *string `json:"address"`
	Number        *string `json:"number"`
	Calls         *string `json:"calls"`
	Fetches       *string `json:"fetches"`
	Defibrillator *string `json:"defibrillator"`
	Meets         *string `json:"meets"`
	Stop          *string `json:"stop"`
}

// RedFlag is a question whose yes ends it.
type RedFlag struct {
	ID     string `json:"id"`
	Ask    string `json:"ask"`
	Source string `json:"source"`
	Urgent bool   `json:"urgent"`
}

// Remedy is one way to go on.
type Remedy struct {
	Choice
	For     roomful.MovementID `json:"in_place_of"`
	Say     string             `json:"say"`
	Also    []Choice           `json:"also"` // other elements that change beside it
	Segment Segment            `json:"segment"`
}

// Segment is what one person does from a time on the piece's clock.
type Segment struct {
	From       float64 `json:"from_seconds"`
	Once       []Task  `json:"once"`
	Round      []Task  `json:"round"`
	Last       []Task  `json:"last"`
	Say        string  `json:"say"`
	WhyPrivate *string `json:"why_private"`
}

// ReliefOf turns the answer to a complaint about a piece into JSON.
func ReliefOf(p roomful.Part, r roomful.Relief) Relief {
	stepped := laddered(p)
	out := Relief{
		Name: r.Name, ID: word(r.Athlete), Area: word(r.Complaint.Area), Pain: r.Complaint.Pain, At: some(r.Complaint.At.Seconds()),
		Stop: word(r.Stop), Urgent: r.Urgent, Say: word(r.Say), Ask: []RedFlag{}, Note: word(r.Note),
		Options: []Remedy{}, Segments: []Segment{}, Cautions: listed(r.Cautions), Diagnostics: []Diagnostic{},
	}
	if p.Format != nil {
		out.Piece = word(p.Name())
	}
	if c := r.Card; c != nil {
		out.Card = &Card{word(c.Address), word(c.Number), word(c.Calls), word(c.Fetches), word(c.Defibrillator), word(c.Meets), word(c.Stop)}
	}
	for _, f := range r.Ask {
		out.Ask = append(out.Ask, RedFlag{f.ID, f.Ask, f.Source, f.Urgent})
	}
	for _, m := range r.Remedies {
		one := Remedy{Choice: choiceOf(m.Choice, stepped), For: m.For, Say: m.Say, Also: []Choice{}, Segment: segmentOf(m.Segment, stepped)}
		for _, c := range m.Also {
			one.Also = append(one.Also, choiceOf(c, stepped))
		}
		out.Options = append(out.Options, one)
	}
	if len(out.Options) > 0 {
		out.Segment = &out.Options[0].Segment
	}
	for _, s := range r.Version.Segments {
		out.Segments = append(out.Segments, segmentOf(s, stepped))
	}
	return out
}

func segmentOf(s roomful.Segment, stepped bool) Segment {
	tasks := func(ts []roomful.Task) []Task {
		out := []Task{}
		for _, t := range ts {
			out = append(out, taskOf(t, stepped))
		}
		return out
	}
	return Segment{s.From.Seconds(), tasks(s.Work.Once), tasks(s.Work.Round), tasks(s.Work.Last), s.Say, word(s.Private)}
}
