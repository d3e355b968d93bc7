package exchange

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"roomful"
)

// notTold stands in the column of homes for somebody who has not told of theirs; an
// empty cell says that they own nothing.
const notTold = "?"

// WritePeople writes people as [ReadPeople] reads them: the columns that anybody has
// something in. Figures keep nine digits behind the point.
func WritePeople(w io.Writer, people []roomful.Athlete) error {
	header := []string{"id", "name"}
	rows := make([][]string, len(people))
	for i, a := range people {
		rows[i] = []string{a.ID, a.Name}
	}
	add := func(name string, of func(roomful.Athlete) string, always bool) {
		cells := make([]string, len(people))
		for i, a := range people {
			cells[i] = of(a)
			always = always || cells[i] != ""
		}
		if !always {
			return
		}
		header = append(header, name)
		for i := range rows {
			rows[i] = append(rows[i], cells[i])
		}
	}
	add("division", func(a roomful.Athlete) string { return a.Division.String() }, true)
	add("born", born, false)
	for _, m := range measures {
		add(m.column, func(a roomful.Athlete) string { return m.of(a, roomful.Kilogram) }, false)
		if m.mass {
			add(m.pounds(), func(a roomful.Athlete) string { return m.of(a, roomful.Pound) }, false)
		}
	}
	add("skills", skillWords, false)
	add("limits", limitWords, false)
	told := slices.ContainsFunc(people, func(a roomful.Athlete) bool { return a.Home != nil })
	if told {
		add("home", homeOf, true)
	}
	add("unit", func(a roomful.Athlete) string { return a.Unit.String() }, false)
	add("like", func(a roomful.Athlete) string { return a.Like }, false)
	add("unlisted", func(a roomful.Athlete) string { return yes(a.Unlisted) }, false)
	add("drop_in", func(a roomful.Athlete) string { return yes(a.DropIn) }, false)
	return writeRows(w, header, rows)
}

// yes writes what is so; what is not is left empty.
func yes(is bool) string {
	if is {
		return "yes"
	}
	return ""
}

// WriteAttempts writes scores as [ReadAttempts] reads them.
func WriteAttempts(w io.Writer, people []roomful.Athlete, logged []roomful.Logged) error {
	names := map[string]string{}
	for _, a := range people {
		names[a.ID] = a.Name
	}
	var rows [][]string
	for _, l := range logged {
		rows = append(rows, []string{l.Athlete, names[l.Athlete], l.On.String(), l.Sheet, l.Piece, l.Text})
	}
	return writeRows(w, []string{"id", "name", "date", "sheet", "piece", "text"}, rows)
}

// writeRows writes CSV. A cell that a spreadsheet would take for a formula begins with
// an apostrophe, as the cells of a spreadsheet do; the readers take it away again.
func writeRows(w io.Writer, header []string, rows [][]string) error {
	out := csv.NewWriter(w)
	if err := out.Write(header); err != nil {
		return err
	}
	for _, row := range rows {
		for i, cell := range row {
			if formula(cell) || strings.HasPrefix(cell, "'") && formula(strings.TrimLeft(cell, "'")) {
				row[i] = "'" + cell
			}
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// formula reports whether a spreadsheet would reckon with a cell rather than show it.
// Figures below nought are shown.
func formula(cell string) bool {
	if cell == "" || !strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return false
	}
	_, err := strconv.ParseFloat(cell, 64)
	return err != nil
}

// unguarded takes away the apostrophe that keeps a cell from being reckoned with.
func unguarded(cell string) string {
	if rest, ok := strings.CutPrefix(cell, "'"); ok && formula(strings.TrimLeft(rest, "'")) {
		return rest
	}
	return cell
}

// born is a year when that is all that is known.
func born(a roomful.Athlete) string {
	if a.Born.Month == 0 && a.Born.Year > 0 {
		return strconv.Itoa(a.Born.Year)
	}
	return a.Born.String()
}

// exact writes a figure with up to nine digits behind the point.
func exact(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e9)/1e9, 'f', -1, 64)
}

// of writes a measure of a person, empty when it is not known or
// stands in the column of the other unit: pounds for those who think in them, as far as
// the figure is one of pounds.
func (m measure) of(a roomful.Athlete, unit roomful.MassUnit) string {
	v, ok := a.Measured(m.test)
	switch {
	case m.column == "mass_kg":
		v, ok = a.MassKg, a.MassKg > 0
	case m.column == "height_cm":
		v, ok = a.HeightCm, a.HeightCm > 0
	case m.column == "months":
		if ok = a.Months != nil; ok {
			v = *a.Months
		}
	}
	switch {
	case !ok, m.mass && (unit == roomful.Pound) != (a.Unit == roomful.Pound && inPounds(v) != ""):
		return ""
	case unit == roomful.Pound:
		return inPounds(v)
	case m.timed && v == math.Trunc(v):
		return roomful.Clock(v)
	}
	return exact(v)
}

// inPounds writes a mass in kg that was told in pounds; empty when it was not.
func inPounds(kg float64) string {
	lb := math.Round(roomful.Kg(kg).In(roomful.Pound).Value*1000) / 1000
	if roomful.Lb(lb).Kg() != kg {
		return ""
	}
	return exact(lb)
}

// skillWords lists skills: "pull-up; double-under:some".
func skillWords(a roomful.Athlete) string {
	var words []string
	for _, s := range a.Skills {
		word := string(s.Movement)
		if s.Level != roomful.SolidSkill {
			word += ":" + s.Level.String()
		}
		words = append(words, word)
	}
	return strings.Join(words, "; ")
}

// limitWords lists limits: "back:4; overhead".
func limitWords(a roomful.Athlete) string {
	var words []string
	for _, l := range a.Limits {
		word := l.What
		if l.Pain >= 0 {
			word += ":" + strconv.Itoa(l.Pain)
		}
		words = append(words, word)
	}
	return strings.Join(words, "; ")
}

// homeOf lists what somebody owns: "2x dumbbell 15 kg; rope; box 50/60 cm".
func homeOf(a roomful.Athlete) string {
	k := a.Home
	if k == nil {
		return notTold
	}
	var words []string
	add := func(n int, format string, args ...any) {
		word := fmt.Sprintf(format, args...)
		if n > 1 {
			word = fmt.Sprintf("%dx %s", n, word)
		}
		if n > 0 {
			words = append(words, word)
		}
	}
	for _, shelf := range []struct {
		word  string
		stock []roomful.Stock
	}{{"dumbbell", k.Dumbbells}, {"kettlebell", k.Kettlebells}, {"ball", k.Balls}, {"bar", k.Bars}, {"plate", k.Plates}} {
		for _, s := range shelf.stock {
			add(s.Count, "%s %s %s", shelf.word, exact(s.Mass.Value), s.Mass.Unit)
		}
	}
	for _, b := range k.Boxes {
		var heights []string
		for _, cm := range b.HeightsCm {
			heights = append(heights, exact(cm))
		}
		add(b.Count, "box %s cm", strings.Join(heights, "/"))
	}
	for _, word := range []string{"row", "ski", "bike", "fan-bike"} {
		add(k.Stations[word], "%s", word)
	}
	add(k.Ropes, "rope")
	add(k.Rings, "rings")
	if k.CeilingM > 0 {
		add(1, "low-ceiling %s m", exact(k.CeilingM))
	}
	if k.Quiet {
		add(1, "quiet")
	}
	return strings.Join(append(words, k.Other...), "; ")
}
