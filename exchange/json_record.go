package exchange

import "roomful"

// Record is attempts by day.
type Record struct {
	Attempts    []RecordEntry `json:"attempts"`
	Diagnostics []Diagnostic  `json:"diagnostics"` // of the files, and of scores that could not be read
}

// RecordEntry is an attempt with what was done of it. Unknown is null.
type RecordEntry struct {
	Name     string    `json:"name"`
	Date     *string   `json:"date"`
	Sheet    string    `json:"sheet"`
	Title    string    `json:"title"`
	Again    *string   `json:"again"`
	Score    *float64  `json:"score"` // in the unit of forecasts
	Counted  *float64  `json:"counted"`
	Capped   bool      `json:"capped"`
	Splits   []float64 `json:"splits"`
	Work     Segment   `json:"work"`     // from the start
	Segments []Segment `json:"segments"` // when it changed on the way; the first is from the start
	Changed  []string  `json:"changed"`
	Assumed  []string  `json:"assumed"`
	Reading  Reading   `json:"reading"`
	Line     int       `json:"line"`
}

// RecordOf turns entries into JSON.
func RecordOf(r roomful.Record) Record {
	out := Record{Attempts: []RecordEntry{}, Diagnostics: []Diagnostic{}}
	for _, e := range r {
		out.Attempts = append(out.Attempts, entryOf(e))
	}
	return out
}

func entryOf(e roomful.Entry) RecordEntry {
	d, stepped := e.Done, laddered(e.Done.Piece)
	out := RecordEntry{
		Name: e.Name, Date: word(e.On.String()), Sheet: e.Sheet, Title: e.Title, Again: word(e.Again), Score: figure(d.Score), Counted: figure(d.Counted),
		Capped: d.Capped, Splits: append([]float64{}, d.Splits...), Work: segmentOf(roomful.Segment{Work: d.Work}, stepped), Segments: []Segment{},
		Changed: listed(d.Changed), Assumed: listed(d.Assumed), Reading: readingOf(e.Reading), Line: e.Line,
	}
	for _, s := range d.Segments {
		out.Segments = append(out.Segments, segmentOf(s, stepped))
	}
	return out
}
