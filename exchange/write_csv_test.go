package exchange_test

import (
	"bytes"
	"encoding/csv"
	"io/fs"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/demo"
	"roomful/exchange"
)

// TestWritePeople writes people as they are read: the demo's, and some with odd names
// and homes.
func TestWritePeople(t *testing.T) {
	text, err := fs.ReadFile(demo.Files, "people.csv")
	if err != nil {
		t.Fatal(err)
	}
	odd := `id,name,division,born,mass_lb,row_2k,limits,home,skills,unit
=1+1,"@SUM(A1), ""x""",a,1990-05-06,180.5,7:12.3,back:4;knee,2x dumbbell 22.5 kg; box 50/60 cm; 4x plate 10lb; plates 60kg; rope; low-ceiling; quiet; band,pull-up:some,lb
'-x,O'Hara,b,1984,,,,?,double-under:none,kg
-5,Minus,,,,,overhead,,,kg
`
	for what, file := range map[string]string{"the demo": string(text), "odd": odd} {
		today := roomful.Date{Year: 2027, Month: 3, Day: 4}
		want, ds := exchange.ReadPeople(strings.NewReader(file), movements(t), today)
		for _, d := range ds {
			if d.Severity == roomful.Fault {
				t.Fatalf("%s: %s", what, d.Summary)
			}
		}
		var out bytes.Buffer
		if err := exchange.WritePeople(&out, want); err != nil {
			t.Fatal(err)
		}
		got, ds := exchange.ReadPeople(bytes.NewReader(out.Bytes()), movements(t), today)
		if len(ds) > 0 && what == "the demo" {
			t.Errorf("%s: %v", what, ds)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got)\n%s\n%s", what, diff, out.String())
		}
		guarded(t, out.String())
	}
}

// guarded fails when a spreadsheet would reckon with a cell (as the Open Worldwide
// Application Security Project describes it: =, +, - and @ begin a formula).
func guarded(t *testing.T, text string) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsRune("=+@\t\r", rune(cell[0])) || strings.HasPrefix(cell, "-") && strings.Trim(cell, "-0123456789.") != "" {
				t.Errorf("a formula: %q", cell)
			}
		}
	}
}

// TestWriteAttempts writes scores as they are read.
func TestWriteAttempts(t *testing.T) {
	people := []roomful.Athlete{{ID: "mo", Name: "Mo"}, {ID: "bo", Name: "Bo"}}
	on := roomful.Date{Year: 2027, Month: 3, Day: 4}
	want := []roomful.Logged{
		{Athlete: "mo", On: on, Sheet: "drip", Text: "=5+20, \"easy\"\nback tight"},
		{Athlete: "bo", On: on, Sheet: "drip", Piece: "main b", Text: "+3 rounds"},
		{Athlete: "bo", On: on, Sheet: "drip", Text: "'quoted'"},
		{Athlete: "mo", On: on, Sheet: "drip", Text: "'=x"},
	}
	var out bytes.Buffer
	if err := exchange.WriteAttempts(&out, people, want); err != nil {
		t.Fatal(err)
	}
	guarded(t, out.String())
	got, ds := exchange.ReadAttempts(&out, people, []exchange.SheetName{{Key: "drip", Title: "Drip"}})
	for i := range got {
		got[i].Line = 0
	}
	if diff := cmp.Diff(want, got); diff != "" || len(ds) > 0 {
		t.Errorf("%v (-want +got)\n%s", ds, diff)
	}
}
