package study

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
)

// WriteText prints the report as a table with a line for each finding.
func (r Report) WriteText(w io.Writer) error {
	if err := r.table().text(w); err != nil {
		return err
	}
	_, err := fmt.Fprintln(w, "\n"+r.sentence())
	return err
}

// WriteMarkdown prints the report as Markdown, sources first.
func (r Report) WriteMarkdown(w io.Writer) error {
	if err := r.sources().markdown(w); err != nil {
		return err
	}
	if _, err := fmt.Fprintf(w, "\n%s.\n\n", r.sentence()); err != nil {
		return err
	}
	return r.table().markdown(w)
}

// sources lists the studies.
func (r Report) sources() table {
	t := table{head: []string{"study", "source", "doi", "people", "how its figures were come by"}}
	var last *Study
	for _, row := range r.Rows {
		if row.Study != last {
			t.rows = append(t.rows, []string{row.Study.Key, row.Study.Source, row.Study.DOI, row.Study.people(), string(row.Study.Read)})
		}
		last = row.Study
	}
	return t
}

// people names the groups of a study.
func (s *Study) people() string {
	words, last := "", (*Group)(nil)
	for _, f := range s.Findings {
		if f.Group != last {
			if words != "" {
				words += "; "
			}
			words += f.Group.Words
		}
		last = f.Group
	}
	return words
}

// jsonRow is a row for other programs. A figure that is not there is null.
type jsonRow struct {
	Study     string    `json:"study"`
	Source    string    `json:"source"`
	DOI       string    `json:"doi,omitempty"`
	Read      Reading   `json:"read"`
	Figure    string    `json:"figure"`
	Group     string    `json:"group"`
	Unit      string    `json:"unit"`
	Published *float64  `json:"published"`
	SD        float64   `json:"published_sd,omitempty"`
	Model     *float64  `json:"model"`
	P05       *float64  `json:"p05"`
	P95       *float64  `json:"p95"`
	ModelSD   *float64  `json:"model_sd"`
	BySeed    []float64 `json:"by_seed,omitempty"`
	Unable    int       `json:"unable,omitempty"`
	Z         *float64  `json:"z"`
	Rule      string    `json:"rule"`
	Decides   bool      `json:"decides"`
	Pass      bool      `json:"pass"`
	Error     string    `json:"error,omitempty"`
}

// number is a figure for JSON, which knows no NaN.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

func (r Row) json() jsonRow {
	p, f := r.Prediction, r.Finding
	j := jsonRow{
		Study: r.Study.Key, Source: r.Study.Source, DOI: r.Study.DOI, Read: r.Study.Read, Figure: f.What, Group: f.Group.Words, Unit: f.Unit,
		Published: number(f.Mean), SD: f.SD, Model: number(p.Value), P05: number(p.P05), P95: number(p.P95), ModelSD: number(p.SD), Unable: p.Unable,
		Z: number(r.Z), Rule: f.Rule.Words, Decides: f.Rule.Gates(), Pass: r.Pass,
	}
	for _, v := range r.BySeed {
		if number(v) != nil {
			j.BySeed = append(j.BySeed, v)
		}
	}
	if r.Err != nil {
		j.Model, j.Error = nil, r.Err.Error()
	}
	return j
}

// WriteJSON prints the report as one object.
func (r Report) WriteJSON(w io.Writer) error {
	out := struct {
		Rows   []jsonRow `json:"rows"`
		Gated  int       `json:"decide"`
		Missed int       `json:"missed"`
		RMS    *float64  `json:"rms_z"`
	}{[]jsonRow{}, r.Gated(), len(r.Misses()), number(r.RMS())}
	for _, row := range r.Rows {
		out.Rows = append(out.Rows, row.json())
	}
	return writeJSON(w, out)
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
