package exchange

import (
	"slices"
	"strings"

	"roomful"
)

// A measure is a column of a people file that holds one figure. Figures beyond
// Least and Most are refused, since no person has them; the bounds lie outside
// the best known performances (from memory) and, for bodies, outside the range
// of published tables. They catch slips of the pen, not exaggeration.
type measure struct {
	column      string
	test        roomful.Test // empty for what is not a test
	least, most float64
	timed       bool   // written m:ss, kept in seconds
	mass        bool   // may come as a _lb column too
	whole       bool   // counts whole things
	says        string // what the figure is, for messages
}

// measures are the columns with a figure, in the order of the file format.
var measures = []measure{
	{column: "mass_kg", least: 20, most: 350, mass: true, says: "body mass"},
	{column: "height_cm", least: 80, most: 260, says: "height"},
	{column: "months", least: 0, most: 1000, says: "months of training"},
	{column: "squat_kg", test: roomful.TestSquat, least: 5, most: 600, mass: true, says: "back squat"},
	{column: "deadlift_kg", test: roomful.TestDeadlift, least: 5, most: 560, mass: true, says: "deadlift"},
	{column: "bench_kg", test: roomful.TestBench, least: 5, most: 620, mass: true, says: "bench press"},
	{column: "press_kg", test: roomful.TestPress, least: 2, most: 280, mass: true, says: "press"},
	{column: "clean_kg", test: roomful.TestClean, least: 5, most: 280, mass: true, says: "clean"},
	{column: "snatch_kg", test: roomful.TestSnatch, least: 5, most: 235, mass: true, says: "snatch"},
	{column: "pullups", test: roomful.TestPullUps, most: 250, whole: true, says: "unbroken pull-ups"},
	{column: "pushups_2min", test: roomful.TestPushUps, most: 250, whole: true, says: "push-ups in two minutes"},
	{column: "situps_2min", test: roomful.TestSitUps, most: 200, whole: true, says: "sit-ups in two minutes"},
	{column: "burpees_3min", test: roomful.TestBurpees, most: 150, whole: true, says: "burpees in three minutes"},
	{column: "double_unders", test: roomful.TestDoubleUnders, most: 3000, whole: true, says: "unbroken double-unders"},
	{column: "row_2k", test: roomful.TestRow2k, least: 5 * 60, most: 30 * 60, timed: true, says: "2 km row"},
	{column: "run_5k", test: roomful.TestRun5k, least: 12 * 60, most: 90 * 60, timed: true, says: "5 km run"},
	{column: "vo2max", test: roomful.TestVO2max, least: 10, most: 100, says: "maximal oxygen uptake in mL/kg/min"},
}

// plainColumns are those without a figure.
var plainColumns = []string{"id", "name", "division", "born", "skills", "limits", "home", "unit", "like", "unlisted", "drop_in"}

// pounds returns the name of the measure's column in pounds.
func (m measure) pounds() string { return strings.TrimSuffix(m.column, "_kg") + "_lb" }

// columns lists every name a people file may use.
func columns() []string {
	names := slices.Clone(plainColumns)
	for _, m := range measures {
		names = append(names, m.column)
		if m.mass {
			names = append(names, m.pounds())
		}
	}
	return names
}

// columnName brings a header to the form of the table: "Mass (kg)" is mass_kg.
func columnName(header string) string {
	fields := strings.FieldsFunc(strings.ToLower(header), func(r rune) bool {
		return strings.ContainsRune(" _-()[]\u00a0", r)
	})
	return strings.Join(fields, "_")
}

// header finds which cell of a row holds which column.
func (p *people) header(row []cell) {
	p.at = map[string]int{}
	known := columns()
	var odd []cell
	for i, c := range row {
		name := columnName(c.text)
		switch {
		case name == "":
		case !slices.Contains(known, name):
			odd = append(odd, c)
		default:
			if first, twice := p.at[name]; twice {
				p.fault(c.at, "keep one of the two", "column %s is here twice, first at column %d", name, row[first].at.Start.Column)
				continue
			}
			p.at[name] = i
		}
	}
	if len(p.at) == 0 {
		p.fault(row[0].at, "start with a line such as name,division,mass_kg,squat_kg", "no header: the first line names no column of a people file")
		return
	}
	for _, c := range odd {
		if near := nearest(columnName(c.text), known); near != "" {
			p.fault(c.at, "did you mean "+near+"?", "column %q is not one of a people file", c.text)
			continue
		}
		p.warn(c.at, "columns are "+strings.Join(plainColumns, ", ")+" and figures such as mass_kg, squat_kg, row_2k",
			"column %q is not one of a people file and is left out", c.text)
	}
}
