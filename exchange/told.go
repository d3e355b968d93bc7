package exchange

import (
	"bytes"
	"encoding/csv"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"

	"roomful"
)

// ToldOf is what a person told, by the columns of a people file; what is not known is
// left out.
func ToldOf(a roomful.Athlete) map[string]string {
	var out bytes.Buffer
	_ = WritePeople(&out, []roomful.Athlete{a}) // a buffer takes all
	rows, err := csv.NewReader(&out).ReadAll()
	told := map[string]string{}
	if err != nil || len(rows) != 2 {
		return told
	}
	for i, column := range rows[0] {
		if cell := rows[1][i]; cell != "" && !(column == "home" && cell == notTold) {
			told[column] = cell
		}
	}
	return told
}

// Tell changes what a person told by some columns of a people file, each in place of what
// was there; empty is no longer known. Like names one of the
// others. The diagnostics
// stand in the file that the person would be alone in.
func Tell(a roomful.Athlete, columns map[string]string, others []roomful.Athlete, lex roomful.Lexicon, today roomful.Date) (roomful.Athlete, []roomful.Diagnostic) {
	header, row := tellRow(a, columns)
	rows := [][]string{header, row}
	for _, o := range others {
		if o.ID == a.ID {
			continue
		}
		other := make([]string, len(header))
		for i, column := range header {
			switch column {
			case "id":
				other[i] = o.ID
			case "name":
				other[i] = o.Name
			}
		}
		rows = append(rows, other)
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	_ = w.WriteAll(rows)
	got, ds := ReadPeople(&out, lex, today)
	if len(got) == 0 {
		return a, ds
	}
	return got[0], ds
}

// tellRow is a person as a row of a people file, with some columns changed.
func tellRow(a roomful.Athlete, columns map[string]string) (header, row []string) {
	told := ToldOf(a)
	if a.Home == nil {
		told["home"] = notTold
	}
	for column, value := range columns {
		if other, found := strings.CutSuffix(column, "_kg"); found {
			delete(told, other+"_lb")
		} else if other, found := strings.CutSuffix(column, "_lb"); found {
			delete(told, other+"_kg")
		}
		told[column] = value
	}
	told["id"] = a.ID
	header = slices.Sorted(maps.Keys(told))
	for _, column := range header {
		row = append(row, told[column])
	}
	return header, row
}

// ToldColumn is the column that a diagnostic of [Tell] speaks of, for the same person and
// columns; empty when it speaks of none.
func ToldColumn(a roomful.Athlete, columns map[string]string, d roomful.Diagnostic) string {
	header, row := tellRow(a, columns)
	if d.Range.Start.Line == 1 {
		row = header
	}
	at := 1
	for i, value := range row {
		var out bytes.Buffer
		w := csv.NewWriter(&out)
		_ = w.Write([]string{value, ""}) // a buffer takes all
		w.Flush()
		if at += utf8.RuneCount(bytes.TrimSuffix(out.Bytes(), []byte(",\n"))) + 1; d.Range.Start.Column < at {
			return header[i]
		}
	}
	return ""
}
