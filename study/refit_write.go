package study

import (
	"fmt"
	"io"
	"strings"
)

// toldSDs is the least number of judged SDs that a move is told of.
const toldSDs = 0.1

// moved says which constants a refit moved.
func (r Refitted) moved() string {
	var out []string
	for _, m := range r.Moves {
		if m.SDs > toldSDs || m.SDs < -toldSDs {
			out = append(out, fmt.Sprintf("%s %s → %s (%+.1f)", m.Constant, figures(m.From), figures(m.To), m.SDs))
		}
	}
	if out == nil {
		return "none by more than a tenth"
	}
	return strings.Join(out, ", ")
}

// name says what was left out.
func (r Refitted) name() string {
	if r.LeftOut == nil {
		return "none"
	}
	return r.LeftOut.Key
}

// moves tabulates what each refit moved.
func (rs Refits) moves() table {
	t := table{head: []string{"left out", "rms z of the rest", "refitted", "constants moved (judged sds)"}}
	for _, r := range rs {
		moved := r.moved()
		if !r.Bears {
			moved = "as with none: no free constant bears on it"
		}
		t.rows = append(t.rows, []string{r.name(), fmt.Sprintf("%.2f", r.RestBefore), fmt.Sprintf("%.2f", r.RestAfter), moved})
	}
	return t
}

// figures tabulates every figure by a refit that has not seen its study.
func (rs Refits) figures() table {
	t := table{head: []string{"study", "figure", "published", "unit", "defaults", "z", "refitted without it", "z", "verdict"}}
	for _, r := range rs {
		if r.LeftOut == nil || !r.Bears {
			continue
		}
		key := r.LeftOut.Key
		for i, b := range r.Before {
			a := r.After[i]
			t.rows = append(t.rows, []string{key, b.Finding.What, b.published(), b.Finding.Unit, figures(b.Prediction.Value), zed(b.Z),
				figures(a.Prediction.Value), zed(a.Z), a.verdict()})
			key = ""
		}
	}
	return t
}

// sentence sums up how the figures fare by refits that have not seen their
// study.
func (rs Refits) sentence() string {
	var unseen, defaults Report
	for _, r := range rs {
		if r.LeftOut != nil {
			unseen.Rows = append(unseen.Rows, r.After...)
			defaults.Rows = append(defaults.Rows, r.Before...)
		}
	}
	return fmt.Sprintf("%d findings with a rule: by the defaults %d missed, rms z %.2f; by refits that have not seen the study %d missed, rms z %.2f",
		defaults.Gated(), len(defaults.Misses()), defaults.RMS(), len(unseen.Misses()), unseen.RMS())
}

// WriteText prints the refits as tables.
func (rs Refits) WriteText(w io.Writer) error {
	return rs.write(w, table.text)
}

// WriteMarkdown prints the refits as Markdown.
func (rs Refits) WriteMarkdown(w io.Writer) error {
	return rs.write(w, table.markdown)
}

func (rs Refits) write(w io.Writer, write func(table, io.Writer) error) error {
	for _, t := range []table{rs.moves(), rs.figures()} {
		if err := write(t, w); err != nil {
			return err
		}
		if _, err := fmt.Fprintln(w); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(w, "%s.\n", rs.sentence())
	return err
}

// WriteJSON prints the refits as one object.
func (rs Refits) WriteJSON(w io.Writer) error {
	type one struct {
		LeftOut    string    `json:"left_out,omitempty"`
		Bears      bool      `json:"bears"`
		Moves      []Move    `json:"moves"`
		RestBefore *float64  `json:"rest_rms_z_before"`
		RestAfter  *float64  `json:"rest_rms_z_after"`
		Before     []jsonRow `json:"before"`
		After      []jsonRow `json:"after"`
	}
	out := struct {
		Refits []one `json:"refits"`
	}{[]one{}}
	for _, r := range rs {
		o := one{Bears: r.Bears, Moves: r.Moves, RestBefore: number(r.RestBefore), RestAfter: number(r.RestAfter)}
		if r.LeftOut != nil {
			o.LeftOut = r.LeftOut.Key
		}
		for i := range r.Before {
			o.Before, o.After = append(o.Before, r.Before[i].json()), append(o.After, r.After[i].json())
		}
		out.Refits = append(out.Refits, o)
	}
	return writeJSON(w, out)
}
