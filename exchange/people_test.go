package exchange_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/exchange"
)

// toy is a lexicon of a few movements.
type toy []*roomful.Movement

func newToy() toy {
	move := func(id, name string, needs ...string) *roomful.Movement {
		return &roomful.Movement{ID: roomful.MovementID(id), Name: name, Plural: name + "s", Needs: needs}
	}
	return toy{move("pull-up", "pull-up", "pull-up-bar"), move("double-under", "double-under", "rope"),
		move("front-squat", "front squat", "rack"), move("hip-lift", "hip lift", "mat")}
}

func (t toy) Movement(id roomful.MovementID) *roomful.Movement {
	for _, m := range t {
		if m.ID == id {
			return m
		}
	}
	return nil
}

func (t toy) Match(words []string) (*roomful.Movement, int) {
	for n := len(words); n > 0; n-- {
		name := strings.ToLower(strings.Join(words[:n], " "))
		for _, m := range t {
			if name == m.Name || name == m.Plural {
				return m, n
			}
		}
	}
	return nil, 0
}

func (t toy) Suggest(words string) []*roomful.Movement {
	for _, m := range t {
		if strings.HasPrefix(strings.ToLower(words), m.Name[:4]) {
			return []*roomful.Movement{m}
		}
	}
	return nil
}

func (t toy) All() []*roomful.Movement { return t }

// today is when the tests take place.
var today = roomful.Date{Year: 2027, Month: 3, Day: 4}

func read(text string) ([]roomful.Athlete, []roomful.Diagnostic) {
	return exchange.ReadPeople(strings.NewReader(text), newToy(), today)
}

// spots writes diagnostics as "line:column-column severity: summary | hint".
func spots(ds []roomful.Diagnostic) []string {
	var out []string
	for _, d := range ds {
		out = append(out, fmt.Sprintf("%d:%d-%d %s: %s | %s",
			d.Range.Start.Line, d.Range.Start.Column, d.Range.End.Column, d.Severity, d.Summary, d.Hint))
	}
	return out
}

func TestReadPeople(t *testing.T) {
	months := 30.0
	full := roomful.Athlete{
		ID: "m1", Name: "Ines Vale", Division: roomful.DivisionB, Born: roomful.Date{Year: 1991, Month: 6, Day: 30},
		MassKg: 62.5, HeightCm: 168, Months: &months,
		Known: []roomful.Known{{Test: roomful.TestSquat, Value: 80}, {Test: roomful.TestPullUps, Value: 6},
			{Test: roomful.TestRow2k, Value: 8*60 + 5.5}, {Test: roomful.TestRun5k, Value: 25*60 + 30}},
		Skills: []roomful.SkillLevel{{Movement: "pull-up", Level: roomful.SolidSkill}, {Movement: "double-under", Level: roomful.SomeSkill}},
		Limits: []roomful.Limit{{What: "back", Pain: 4}, {What: "overhead", Pain: -1}},
	}
	commas := "name,id,division,born,mass_kg,height_cm,months,squat_kg,pullups,row_2k,run_5k,skills,limits\n" +
		"Ines Vale,m1,b,1991-06-30,\"62,5\",168,30,80,6,8:05.5,0:25:30,pull-up;double-under:some,back 4; overhead\n"
	semicolons := "\ufeffNAME;Id;Division;born;Mass (kg);height cm;months;squat_kg;pullups;row_2k;run_5k;skills;limits\r\n\r\n" +
		"Ines Vale;m1;B;1991-6-30;62,5;168;30;80;6;08:05,5;25:30;\"pull-ups; double-under:some\";\"back:4;overhead\"\r\n"
	tabs := strings.ReplaceAll(strings.ReplaceAll(commas, ",", "\t"), "\"62\t5\"", "62.5")
	for name, text := range map[string]string{"commas": commas, "semicolons": semicolons, "tabs": tabs} {
		t.Run(name, func(t *testing.T) {
			got, ds := read(text)
			if len(ds) > 0 {
				t.Errorf("diagnostics: %s", strings.Join(spots(ds), "\n"))
			}
			if diff := cmp.Diff([]roomful.Athlete{full}, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestPounds(t *testing.T) {
	got, ds := read("name,mass_lb,squat_lb,unit\nOda,154,225,\nPim,,225,kg\n")
	if len(ds) > 0 {
		t.Fatal(spots(ds))
	}
	// 225 lb is 102.0583 kg by the international avoirdupois pound.
	if v, _ := got[0].Measured(roomful.TestSquat); v < 102.0582 || v > 102.0584 {
		t.Errorf("225 lb read as %v kg", v)
	}
	if got[0].Unit != roomful.Pound || got[1].Unit != roomful.Kilogram {
		t.Errorf("units %v and %v, want lb from the figures and kg as said", got[0].Unit, got[1].Unit)
	}
}

func TestHome(t *testing.T) {
	lb := roomful.Lb
	kg := roomful.Kg
	cases := []struct {
		cell string
		want roomful.Kit
	}{
		{"", roomful.Kit{}},
		{"nothing", roomful.Kit{}},
		{"dumbbell 15kg; 2x dumbbell 10 kg; kettlebell 16kg", roomful.Kit{
			Dumbbells: []roomful.Stock{{Mass: kg(15), Count: 1}, {Mass: kg(10), Count: 2}}, Kettlebells: []roomful.Stock{{Mass: kg(16), Count: 1}}}},
		{"pair of dumbbells 22,5 kg; 35 lb kettlebell; dumbbells 2x10kg", roomful.Kit{
			Dumbbells: []roomful.Stock{{Mass: kg(22.5), Count: 2}, {Mass: kg(10), Count: 2}}, Kettlebells: []roomful.Stock{{Mass: lb(35), Count: 1}}}},
		{"rope; box 50/60cm; box 20in; band; pull-up bar; rings; row; bike", roomful.Kit{Ropes: 1, Rings: 1, Other: []string{"band", "pull-up-bar"},
			Boxes:    []roomful.BoxStock{{HeightsCm: []float64{50, 60}, Count: 1}, {HeightsCm: []float64{50.8}, Count: 1}},
			Stations: map[string]int{"row": 1, "bike": 1}}},
		{"low-ceiling; quiet; mat", roomful.Kit{CeilingM: 2.2, Quiet: true, Other: []string{"mat"}}},
		// 60 kg of discs: pairs of 1.25, 2.5, 5 and 10, and the 22.5 left as a pair of 10 and one of 1.25.
		{"bar 20kg; plates 60kg", roomful.Kit{Bars: []roomful.Stock{{Mass: kg(20), Count: 1}},
			Plates: []roomful.Stock{{Mass: kg(1.25), Count: 4}, {Mass: kg(2.5), Count: 2}, {Mass: kg(5), Count: 2}, {Mass: kg(10), Count: 4}}}},
		{"4x plate 10kg", roomful.Kit{Plates: []roomful.Stock{{Mass: kg(10), Count: 4}}}},
	}
	for _, c := range cases {
		t.Run(c.cell, func(t *testing.T) {
			got, ds := read("name,home\nOda,\"" + c.cell + "\"\n")
			if len(ds) > 0 {
				t.Fatal(spots(ds))
			}
			c.want.Home = true
			if c.want.Stations == nil {
				c.want.Stations = map[string]int{}
			}
			if diff := cmp.Diff(&c.want, got[0].Home); diff != "" {
				t.Error(diff)
			}
		})
	}
	if got, _ := read("name\nOda\n"); got[0].Home != nil {
		t.Error("without a column the home is not unknown")
	}
}

// TestPeopleDiagnostics reads files with something wrong in them; the people
// who are right are still read.
func TestPeopleDiagnostics(t *testing.T) {
	cases := []struct {
		name, text string
		want       []string
		people     int
	}{
		{"nothing", "", []string{"1:1-1 error: the file of people is empty | start with a line such as name,division,mass_kg,squat_kg and one line per person"}, 0},
		{"blank", "\n \n\t\n", []string{"1:1-1 error: the file of people is empty | start with a line such as name,division,mass_kg,squat_kg and one line per person"}, 0},
		{"no header", "Oda,b,62\n", []string{"1:1-4 error: no header: the first line names no column of a people file | start with a line such as name,division,mass_kg,squat_kg"}, 0},
		{"no people", "name,mass_kg\n", []string{"1:1-5 error: the file has a header and no people | add one line per person below the header"}, 0},
		{"binary", "name\nO\x00da", []string{"2:2-2 error: the file of people is not a text file | take out the control character here, or save it as plain text in UTF-8"}, 0},
		{"latin", "name\nIn\xe9s\n", []string{"2:3-3 error: the file of people has a letter that is not UTF-8 | save it as CSV or text in UTF-8 and try again"}, 1},
		{"near column", "name,sqat_kg\nOda,80\n", []string{`1:6-13 error: column "sqat_kg" is not one of a people file | did you mean squat_kg?`}, 1},
		{"column twice", "name,name\nOda,Pim\n", []string{"1:6-10 error: column name is here twice, first at column 1 | keep one of the two"}, 1},
		{"absurd mass", "name,mass_kg\nOda,900\nPim,80\n", []string{"2:5-8 error: mass_kg 900 is not a figure a person has | body mass lies between 20 and 350; leave it empty when it is not known"}, 2},
		{"absurd mass in lb", "name,mass_lb\nOda,1900\n", []string{"2:5-9 error: mass_lb 1900 is not a figure a person has | body mass lies between 44 and 772; leave it empty when it is not known"}, 1},
		{"5 s row", "name,row_2k\nOda,0:05\n", []string{"2:5-9 error: row_2k 0:05 is not a figure a person has | 2 km row lies between 5:00 and 30:00; leave it empty when it is not known"}, 1},
		{"bare seconds", "name,row_2k\nOda,452\n", []string{"2:5-8 warning: row_2k 452 is read as seconds | write 7:32 to be sure"}, 1},
		{"hours for minutes", "name,run_5k\nOda,25:30:00\n", []string{"2:5-13 error: run_5k 25:30:00 is hours long | a spreadsheet may have made hours of minutes: write 25:30"}, 1},
		{"61 seconds", "name,row_2k\nOda,7:61\n", []string{"2:5-9 error: row_2k 7:61 is not a time | seconds run from 0 to 59"}, 1},
		{"below zero", "name,months\nOda,-3\n", []string{"2:5-7 error: months -3 is below zero | leave it empty when it is not known"}, 1},
		{"minus sign", "name,months\nOda,−3\n", []string{"2:5-7 error: months −3 is below zero | leave it empty when it is not known"}, 1},
		{"vo2max", "name,vo2max\nOda,200\n", []string{"2:5-8 error: vo2max 200 is not a figure a person has | maximal oxygen uptake in mL/kg/min lies between 10 and 100; leave it empty when it is not known"}, 1},
		{"not a number", "name,mass_kg\nOda,NaN\nPim,1e2\n", []string{`2:5-8 error: mass_kg "NaN" is not a number | write a plain number such as 62.5, or nothing`,
			`3:5-8 error: mass_kg "1e2" is not a number | write a plain number such as 62.5, or nothing`}, 2},
		{"other unit", "name,mass_kg\nOda,140 lb\nPim,80 kg\n", []string{"2:5-11 error: mass_kg is written in lb | write the figure in the unit that the column names"}, 2},
		{"half a pull-up", "name,pullups\nOda,7.5\n", []string{"2:5-8 error: pullups 7.5: unbroken pull-ups are counted whole | write a whole number"}, 1},
		{"born tomorrow", "name,born\nOda,2027-03-05\nPim,2027-03-04\n", []string{"2:5-15 error: born 2027-03-05 lies in the future | check the year",
			"3:5-15 warning: born 2027-03-04 makes an age of 0 at most | check the year"}, 2},
		{"no such day", "name,born\nOda,1990-02-30\n", []string{"2:5-15 error: born 1990-02-30 is not a day of the calendar | check the day and the month"}, 1},
		{"day first", "name,born\nOda,3/4/1990\n", []string{`2:5-13 error: born "3/4/1990" is neither a year nor a date | write a year, 1990, or a date, 1990-06-30`}, 1},
		{"kg against lb", "name,squat_kg,squat_lb\nOda,100,150\nPim,100,220\n", []string{"2:9-12 error: back squat 150 lb is 68 kg, and squat_kg says 100 | keep the right one"}, 2},
		{"older than old", "name,born,months\nOda,2010,400\n", []string{"2:10-13 error: Oda has trained for longer than they have lived | check months and born"}, 1},
		{"skill against test", "name,pullups,skills\nOda,9,pull-up:none\n", []string{"2:7-19 error: pullups 9 and skill pull-up:none contradict each other | keep the right one"}, 1},
		{"one by luck", "name,pullups,skills\nOda,1,pull-up:none\n", nil, 1},
		{"snatch over clean", "name,clean_kg,snatch_kg\nOda,50,60\n", []string{"2:8-10 warning: snatch_kg is more than clean_kg | are the two columns the right way round?"}, 1},
		{"twins", "name\nOda\nPim\nODA\n", []string{"4:1-4 error: two people are called ODA, here and in line 2, without ids | give both an id, or tell them apart by name"}, 3},
		{"twins with ids", "id,name\n1,Oda\n2,Oda\n", nil, 2},
		{"same id", "id,name\n1,Oda\n1,Pim\n", []string{"3:3-6 error: id 1 is here and in line 2 | give everybody an id of their own"}, 2},
		{"long row", "name,mass_kg\nOda,80,90\n", []string{"2:8-10 error: this line has 3 fields and the header 2 | put a field that holds the separator in quotes"}, 1},
		{"long row in semicolons", "name;skills\nOda;pull-up;double-under\n", []string{`2:13-25 error: this line has 3 fields and the header 2 | put a list between quotes, "pull-up;double-under"`}, 1},
		{"empty fields behind", "name,mass_kg\nOda,80,,\n", nil, 1},
		{"short row", "name,mass_kg,months\nOda,80\n", []string{"2:5-7 warning: this line has 2 fields and the header 3 | what is missing is taken as unknown"}, 1},
		{"open quote", "name,skills\nOda,\"pull-up\nPim,\n", []string{`2:5-6 error: a quote is opened here and never closed | close it with another "`,
			`2:5-13 error: skill "\"pull-up" is not a movement | write a movement's name, such as pull-up`}, 2},
		{"quoted line end", "name,skills\n\"Oda\nVale\",pull-up\nPim,pull-ip\n", []string{`4:5-12 error: skill "pull-ip" is not a movement | did you mean pull-up?`}, 2},
		{"item in a quoted list", "name,skills\nOda,\"pull-up; double-und\"\n", []string{`2:15-25 error: skill "double-und" is not a movement | did you mean double-under?`}, 1},
		{"skill level", "name,skills\nOda,pull-up:sold\n", []string{`2:5-17 error: level "sold" of pull-up is not known | did you mean solid?`}, 1},
		{"skill both ways", "name,skills\nOda,pull-up:none;pull-ups\n", []string{"2:18-26 error: pull-up is both none and solid | keep one of the two"}, 1},
		{"limit", "name,limits\nOda,bakc:4;knees;back:11\n", []string{`2:5-11 error: limit "bakc" is not known | did you mean back?`,
			`2:18-25 error: pain "11" of back is not a figure from 0 to 10 | pain runs from 0 to 10, back:4`}, 1},
		{"limit with a space", "name,limits\nOda,\"back 4, lower back 12\"\n", []string{`2:14-27 error: pain "12" of lower back is not a figure from 0 to 10 | pain runs from 0 to 10, back:4`}, 1},
		{"like nobody else", "name,like\nA,B\n", []string{"2:3-4 error: nobody here is called B | name a person of this file"}, 1},
		{"no limit", "name,limits\nOda,none\n", nil, 1},
		{"division", "name,division\nOda,c\n", []string{`2:5-6 error: division "c" is neither a nor b | write a for the first figure of every pair, b for the second, or nothing`}, 1},
		{"like", "name,like\nOda,Pin\nPim,Pim\n", []string{"2:5-8 error: nobody here is called Pin | did you mean Pim?", "3:5-8 error: Pim is said to be like themselves | name another person of this file"}, 2},
		{"home", "name,home\nOda,dumbbell; ktetlebell 16kg; sandbag 20kg; 15\n", []string{
			`2:5-13 error: "dumbbell" needs its weight | write dumbbell 10kg`,
			`2:15-30 error: "ktetlebell 16kg" is not known at home | did you mean kettlebell?`,
			`2:32-44 warning: "sandbag 20kg" is not known at home and is left out | known are dumbbell, kettlebell, ball, bar, plate, box, rope, rings, row, ski, bike, fan-bike, band, pull-up-bar, rack, bench, low-ceiling or quiet`,
			`2:46-48 error: "15" at home was not understood | write such as dumbbell 15kg; 2x dumbbell 10kg; rope; box 50cm`}, 1},
		{"wide letters", "name,mass_kg\nZoë Łąka,900\n", []string{"2:10-13 error: mass_kg 900 is not a figure a person has | body mass lies between 20 and 350; leave it empty when it is not known"}, 1},
		{"nameless", "mass_kg\n80\n", []string{"2:1-3 warning: no name here; this is called person 1 | give everybody a name"}, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, ds := read(c.text)
			if diff := cmp.Diff(c.want, spots(ds)); diff != "" {
				t.Error(diff)
			}
			if len(got) != c.people {
				t.Errorf("%d people, want %d", len(got), c.people)
			}
		})
	}
}

func TestOddColumn(t *testing.T) {
	got, ds := read("name,email,mass_kg\nOda,oda@example.org,80\n")
	if len(ds) != 1 || ds[0].Severity != roomful.Warning || !strings.Contains(ds[0].Summary, `"email"`) {
		t.Errorf("want one warning about email, got %v", spots(ds))
	}
	if len(got) != 1 || got[0].MassKg != 80 {
		t.Errorf("the other columns were not read: %+v", got)
	}
}

func TestLargeFile(t *testing.T) {
	got, ds := read("name\n" + strings.Repeat("x", 10<<20))
	if len(got) != 0 || len(ds) != 1 || ds[0].Severity != roomful.Fault || ds[0].Range.Start.Line != 1 {
		t.Errorf("10 MB: %d people, %v", len(got), spots(ds))
	}
}

func TestManyFaults(t *testing.T) {
	_, ds := read("name,mass_kg\n" + strings.Repeat("x,900\n", 5000))
	if n := len(ds); n < 50 || n > 200 {
		t.Errorf("%d diagnostics for 5000 bad lines, want a list a person can read", n)
	}
}

func TestUTF16(t *testing.T) {
	text := "\xff\xfe"
	for _, r := range "name\tmass_kg\nOda\t80\n" {
		text += string([]byte{byte(r), 0})
	}
	got, ds := read(text)
	if len(ds) > 0 || len(got) != 1 || got[0].MassKg != 80 {
		t.Errorf("got %+v, %v", got, spots(ds))
	}
}

func FuzzReadPeople(f *testing.F) {
	f.Add("name,mass_kg,row_2k\nOda,80,7:45\n")
	f.Add("\ufeffname;squat_lb;skills;home\r\n\"Oda\r\nVale\";225,5;\"pull-up:some;x\";2x dumbbell 10 kg; plates 60kg\r\n")
	f.Add("name\tborn\tlimits\tlike\nOda\t1990-01-01\tback:4\tPim\nPim\t2030\tstop\tOda")
	f.Add("\"name\",\"\"\"\n\"a")
	f.Fuzz(func(t *testing.T, text string) {
		got, ds := read(text)
		for _, d := range ds {
			if d.Range.Start.Line < 1 || d.Range.Start.Column < 1 || d.Summary == "" {
				t.Errorf("a diagnostic without a place or words: %+v", d)
			}
		}
		if len(got) == 0 && !slices.ContainsFunc(ds, func(d roomful.Diagnostic) bool { return d.Severity == roomful.Fault }) {
			t.Error("nobody was read and nothing said")
		}
		for _, a := range got {
			if a.Name == "" || a.ID == "" || a.MassKg < 0 || a.MassKg > 350 {
				t.Errorf("a person no file may hold: %+v", a)
			}
		}
	})
}
