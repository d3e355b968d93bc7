package exchange_test

import (
	"strings"
	"testing"

	"roomful"
	"roomful/exchange"
)

var (
	scorers = []roomful.Athlete{{ID: "m1", Name: "Marit"}, {ID: "o", Name: "Odo"}, {ID: "m2", Name: "marit"}}
	scored  = []exchange.SheetName{{Key: "eight-ribs", Title: "Eight Ribs"}, {Key: "linseed", Title: "Linseed"}}
)

// TestReadAttempts reads lines in the ways people keep them.
func TestReadAttempts(t *testing.T) {
	for _, c := range []struct{ name, file, want string }{
		{"typed", "name,date,sheet,text\nOdo,2027-01-18,eight-ribs,\"5+10, bike\"\n", "o 2027-01-18 eight-ribs: 5+10, bike"},
		{"by title, in another case, without a day", "sheet;text;name\nEIGHT RIBS;5+10;odo\n", "o  eight-ribs: 5+10"},
		{"by id", "id,sheet,text\nm2,linseed,4:10\n", "m2  linseed: 4:10"},
		{"figures", "name,sheet,rounds,reps,load_kg,changes,as_written\nOdo,eight-ribs,5,10,\"62,5\",bike for the run,\n", "o  eight-ribs: 5+10, 62,5 kg, bike for the run"},
		{"a cap", "name,sheet,reps,capped\nOdo,linseed,140,yes\n", "o  linseed: cap, 140 done"},
		{"a time, as written", "name,sheet,time,as_written\nOdo,linseed,4:10,x\n", "o  linseed: 4:10, as written"},
		{"splits", "name,sheet,rounds,reps,splits\nOdo,linseed,3,5,2:10 2:20 2:31\n", "o  linseed: 3+5, splits 2:10 2:20 2:31"},
		{"another piece", "name,sheet,piece,text\nOdo,linseed,Strength,60 kg\n", "o  linseed strength: 60 kg"},
	} {
		got, ds := exchange.ReadAttempts(strings.NewReader(c.file), scorers, scored)
		for _, d := range ds {
			t.Errorf("%s: %s", c.name, d.Summary)
		}
		if len(got) != 1 {
			t.Errorf("%s: %d lines", c.name, len(got))
			continue
		}
		l := got[0]
		s := l.Athlete + " " + l.On.String() + " " + l.Sheet
		if l.Piece != "" {
			s += " " + l.Piece
		}
		if s += ": " + l.Text; s != c.want {
			t.Errorf("%s: %q, want %q", c.name, s, c.want)
		}
	}
}

// TestReadAttemptsFaults says what is wrong with a line and where, keeps the others
// and never guesses who it was.
func TestReadAttemptsFaults(t *testing.T) {
	for _, c := range []struct {
		name, file string
		line       int
		says, hint string
	}{
		{"nobody", "name,sheet,text\nOdoo,linseed,4:10\nOdo,linseed,4:11\n", 2, "nobody in the file of people is called Odoo", "did you mean Odo?"},
		{"two of one name", "name,sheet,text\nMarit,linseed,4:10\nOdo,linseed,4:11\n", 2, "more than one person is called Marit", "add an id column and write the id"},
		{"no such sheet", "name,sheet,text\nOdo,linsed,4:10\nOdo,linseed,4:11\n", 2, "no sheet is called linsed", "did you mean linseed?"},
		{"no day", "name,date,sheet,text\nOdo,18.1.27,linseed,4:10\nOdo,,linseed,4:11\n", 2, `"18.1.27" is not a date`, "write it as 2027-01-18"},
		{"no score", "name,sheet,text\nOdo,linseed,\nOdo,linseed,4:11\n", 2, "no score in this line", "write what they typed, or take the line out"},
		{"a comma without quotes", "name,sheet,text\nOdo,linseed,4:10,bike\nOdo,linseed,4:11\n", 2, "this line has 4 fields and the header 3", "put a text that holds a comma in quotes"},
	} {
		got, ds := exchange.ReadAttempts(strings.NewReader(c.file), scorers, scored)
		if len(ds) != 1 || ds[0].Summary != c.says || ds[0].Hint != c.hint || ds[0].Range.Start.Line != c.line || ds[0].Severity != roomful.Fault {
			t.Errorf("%s: said %v", c.name, ds)
		}
		if len(got) != 1 || got[0].Text != "4:11" || got[0].Line != 3 {
			t.Errorf("%s: kept %v", c.name, got)
		}
	}
	got, ds := exchange.ReadAttempts(strings.NewReader("name,sheet,text\nBartholomew,linseed,4:10\nCosima,linseed,4:10\nOdo,linseed,4:11\n"), scorers, scored)
	if len(got) != 1 || len(ds) != 1 || ds[0].Severity != roomful.Warning || !strings.HasPrefix(ds[0].Summary, "2 scores are of people who are not in the file of people, Bartholomew first") {
		t.Errorf("people of the whole gym: %v, %v", got, ds)
	}
	_, ds = exchange.ReadAttempts(strings.NewReader("name,sheet,text\nCosima,linseed,4:10\nOdo,linseed,4:11\n"), scorers, scored)
	if len(ds) != 1 || ds[0].Summary != "Cosima is not in the file of people; this score is left out" {
		t.Errorf("one of the whole gym: %v", ds)
	}
	for _, file := range []string{"", "date,text\n2027-01-18,4:10\n", "\x00"} {
		if got, ds := exchange.ReadAttempts(strings.NewReader(file), scorers, scored); len(got) > 0 || len(ds) == 0 {
			t.Errorf("%q: %v, %v", file, got, ds)
		}
	}
}

// FuzzReadAttempts never panics, and every line that comes back names somebody and
// a sheet that are there.
func FuzzReadAttempts(f *testing.F) {
	f.Add("name,date,sheet,text\nOdo,2027-01-18,eight-ribs,\"5+10, bike\"\n")
	f.Add("sheet;rounds;reps;id\nlinseed;5;;o")
	f.Fuzz(func(t *testing.T, file string) {
		got, _ := exchange.ReadAttempts(strings.NewReader(file), scorers, scored)
		for _, l := range got {
			if l.Text == "" || l.Line < 2 || !strings.Contains("m1 m2 o", l.Athlete) || !strings.Contains("eight-ribs linseed", l.Sheet) {
				t.Errorf("%+v", l)
			}
		}
	})
}
