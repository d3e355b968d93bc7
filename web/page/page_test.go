package page

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
)

// rain is a frame as a coach has it.
var rain = Frame{Title: "Drip", Gym: "The Drying Floor", Name: "Ines", Role: "coach", Places: []Place{{"Day", "/", true}, {"Sheets", "/sheets", false}}, Said: "Saved.", Seq: 7}

// examples are every page as it is when there is something on it, and when there is not.
var examples = slices.Concat(dayExamples, peopleExamples)

// dayExamples are those of days, sheets and classes, and the ways in.
var dayExamples = []any{
	Invited{Name: "Mo", Role: "member"}, Invited{Role: "coach"},
	Enter{Passkeys: true}, Enter{}, Enter{Account: "<b>", Gym: "<b>", Wrong: "That name and that password do not go together here."},
	Refused{Summary: "Nobody is signed in here", Hint: "Open the link of your invitation.", Enter: true, Again: &Again{"/scores", []Field{{"text", "5+20\nback <tight>", "Score", true}, {"none", "", "", false}, {"name", "<b>", "Name", false}}}},
	Refused{Summary: "There is nothing at this address", Hint: "Look at the day."},
	Today{May: true}, Today{}, Today{May: true, Begin: []Step{{"Add your people", "a name <b> each", "/people", false}, {"Write a sheet", "", "/sheets/new", true}}},
	Me{Name: "Ines", Role: "coach", Passkeys: true, Password: true}, Me{Name: "Mo", Role: "member"},
	Sheets{May: true, Ahead: []SheetRow{{Name: "drip", Title: "Drip", Day: "Friday 5 March 2027", Next: "Next class 17:30 on Friday 5 March.", Draft: "not published"}}, Older: "/sheets?page=2",
		Done: []SheetRow{{Name: "drop", Title: "Drop", Day: "Thursday 4 March 2027", Used: "Done by 9.", Again: []SheetRow{{Name: "drop-1", Title: "Drop <b>"}}}}}, Sheets{Asked: "<b>"},
	Scores{Name: "drip", Title: "Drip", When: "Thursday 4 March 2027", Class: "c1", ClassName: "17:30", Classes: []Choice{{"c1", "17:30"}, {"c2", "18:30"}}, May: true,
		Entry: ScoreEntry{Batch: "b", Text: "Mo: 5+20\nAn <b>: 3", Rows: []ScoreRow{{"bo", "Bo", ""}}, Ready: 1, Open: 1,
			Lines: []ScoreHeard{{N: 1, Name: "Mo", Words: "5+20", Private: "back <b>"}, {N: 2, Name: "An", Ask: "Which An?", Fixes: []Choice{{"2 name Ana", "Ana"}}, Has: "5+1"}}},
		After:  []ScoreAfter{{Head: "You said 5-7 rounds.", Far: []ScoreFar{{"Bo", "3+2", "met the cap", "they wrote: back"}}, Ask: []ScoreFar{{"Cy", "7.13", "rounds or minutes?", ""}}}},
		Boards: []ScoreBoard{{Written: []ScorePlace{{"1", "Mo", "5+20", "", true}}, Changed: []ScorePlace{{"", "Bo", "3+2", "ring rows", false}}, Without: []ScorePlace{{"", "Cy", "no score", "", false}}}},
		Latest: []ScoreLine{{"s1", "Mo", "5+20", "5+20 <b>", "back", "/sheets/drip/scores/s1"}}, Older: "/sheets/drip/scores?before=7", More: "/sheets/drip/scores?page=2"},
	Scores{Name: "drip", Title: "Drip", None: true, May: true, Entry: ScoreEntry{Batch: "b", Wrong: "There is nothing to read yet."}}, Scores{Name: "drip", None: true}, Scores{Name: "drip", Trouble: "The sheet has faults."},
	Scores{Name: "drip", May: true, Entry: ScoreEntry{Text: "Mo: 5", Lines: []ScoreHeard{{N: 1, Name: "Mo", Words: "5"}}, Ready: 1}},
	ScoreHeard{Words: "5+20"}, ScoreHeard{},
	Score{Sheet: "drip", Title: "Drip", When: "Thursday 4 March 2027", ID: "s1", New: "s2", Name: "Mo", Words: "5+20", Text: Input{Name: "text", Label: "What they scored", Value: "<b>", Wrong: "That cannot be read."}},
	Screen{Title: "Drip", Class: "17:30", What: "As many rounds as possible in 12 min", Options: []ScreenOption{{0, "As written", []string{"10 burpees"}, []string{"Mo", "Bo"}, 0}, {1, "Easier <b>", []string{"8 burpees"}, []string{"Cy"}, 2}}, Classes: []string{"17:30 2 in"}, Here: "/"},
	Screen{Here: "/"}, Screen{Title: "Drip", Written: []string{"10 burpees"}, Close: 2},
	Classes{May: true, Week: "Thursday 4 to Wednesday 10 March 2027", Before: "/classes?from=2027-02-25", After: "/classes?from=2027-03-11", Days: []ClassDay{
		{"Thursday 4 March", true, []ClassRow{{ID: "c1", Start: "17:30", End: "18:30", Minutes: 60, Sheet: "drip", Title: "Drip", Count: "9 in, 3 places left", Open: true}, {ID: "c2", Start: "18:30", End: "19:30", CalledOff: true, Open: true}}},
		{"Friday 5 March", false, nil}}, New: ClassForm{ID: "c3", Date: Input{Name: "date", Label: "Day", Type: "date", Value: "<b>", Wrong: "Say the day, as 2027-03-04."}, Sheets: []Choice{{"drip", "Drip"}}, Shown: true}},
	Classes{Week: "Thursday 4 to Wednesday 10 March 2027", Now: "/classes", Empty: true},
	Classes{Days: []ClassDay{{"Thursday 4 March", true, []ClassRow{{ID: "c1", Start: "17:30", End: "18:30", Title: "Drip", Count: "12 in, full, 2 waiting", Own: "You are second in line.", Leave: "Leave the line", From: "2027-03-04"}, {ID: "c2", Start: "18:30", Ask: "Take a place"}}}}},
	Class{Row: ClassRow{ID: "c1", Start: "17:30", Title: "Drip", Sheet: "drip", Minutes: 60, Count: "2 in"}, Day: "Thursday 4 March 2027", Week: "/classes", Begun: true, In: []ClassPlace{{"mo", "Mo", ""}}, Waiting: []ClassPlace{{"bo", "Bo", ""}},
		Gone: []ClassPlace{{"cy", "Cy <b>", "did not come"}}, Add: Input{Name: "name", Label: "Put somebody in", Value: "an", Wrong: "Say which.", List: "people"}, Asked: []Choice{{"ana", "Ana"}}, People: []Choice{{"ana", "Ana"}}},
	Class{Row: ClassRow{ID: "c1", Start: "17:30", CalledOff: true}, Day: "Thursday 4 March 2027"},
	day, Day{DayHead: day.DayHead, Work: DayWork{Name: "drip", Not: "The sheet has faults.", Next: "Mend <b>line 3</b>."}, Notes: &DayNotes{Name: "drip"}},
	NewSheet{ID: "s-1", Sheet: DaySheet{Text: "A title <b>\n", Said: day.Sheet.Said}, Earlier: []SheetRow{{Name: "drip", Title: "Drip <b>", Day: "Friday"}}, Again: "drip"}, NewSheet{},
	Merge{Name: "drip", Title: "Drip", Who: "Bo <b>", When: "05:12", Mine: "Drip\n<b>\n", Base: 1, Revision: 2, Hunks: []MergeHunk{{Same: []string{"Drip <b>"}}, {N: 1, Mine: []string{"<b>"}, Theirs: []string{"b", "c"}, Asked: true}, {N: 2, Theirs: []string{"d"}, TakeTheirs: true}}},
	Revisions{Name: "drip", Title: "Drip", Revision: 2, Before: 1, All: []RevisionRow{{2, "05:12", "Bo", true, false, "Added 1 line.", []RevisionLine{{"+", "<b>"}, {"", "Drip"}, {"−", "b"}}}, {1, "05:10", "", false, true, "Written.", nil}}},
	DayCheck{day.Sheet.Said}, DayDraft{day.Work}, *day.Work.Opened, DayVersion{Who: "Bo", Stop: "Not today <b>."},
	MyDay{DayHead: DayHead{"drip", "Drip", "Thursday 4 March 2027"}}, myDrip, myStop, MyDay{Person: "mo", Wait: "Not yet.", Written: "main: <for time>", AskKit: &MyKit{Said: "<b>", Wrong: "No."}},
	Record{Person: "mo", Name: "Mo", Own: true, Pieces: []RecordPiece{{"Drip", "/sheets/drip", []RecordTry{{"4 March 2027", "5 rounds", "Knee raises", "Main", "back <tight>", "Left, or done?"}}, "/record/mo/drip", "twice"}}, Older: "?before=1", Taught: []RecordLesson{{"Drip, 4 March 2027", "how you pace yourself"}}}, Record{Own: true}, Record{Name: "Mo", Later: true, Abilities: "/people/mo"},
	Story{Title: "Drip", Own: true, Pieces: []StoryPiece{{"Main", "Match 5+20.", "<svg></svg>", []StoryLine{{"4 March 2027", "5+20", "knee raises", "Better."}}}}}, Story{Name: "Mo"}, StoryPart{},
	MyChoices{Person: "mo", Whose: "Bo", Word: "Ines set this.", Set: true, Wrong: "No <b>.", Choices: []MyChoice{{Name: "As written", Now: true, Lines: []string{"8 deadlifts"}}, {Shape: 1, Name: "Lighter", Proposed: true, Expect: "Within the aim.", May: true}, {Shape: 2, Name: "Heavier", Not: "Too heavy."}}}, MyChoices{Stop: "Not today."}, MyChoices{Set: true, Beneath: "Ines"},
	MyLoad{Of: "Deadlift", Load: "55 kg", Other: "121 lb", Band: "50 to 55", Differs: "The day has 60.", BarSays: "20 kg bar.", Proof: "15 at 55.", Why: "As before.", Private: "back 4 of 10", Ramp: &MyRamp{Sets: []MySet{{"8 ×", "20 kg", ""}}, Then: "Then it."}, Others: []MyOther{{"deadlifts", "/x", true}, {"presses", "/y", false}}, Sure: "Fair.", Last: "On Monday.", Set: "5 x <b>", Wrong: "No set.", Caution: []string{"Stop."}}, MyLoad{Stop: "Not today."}, MyLoad{Found: "Build up.", None: "No load."},
	MySore{Step: "where", Areas: []MyPick{{"back", "back", true}}, Pains: []MyPick{{"4", "4", true}}, Lines: []MyPick{{"", "All", true}}, Wrong: "Say <b>."}, MySore{Step: "ask", Ask: []MyFlag{{"night", "At night?"}}}, MySore{Step: "stop", Stop: "See somebody.", Card: []string{"Call: 112"}}, MySore{Step: "stop", Stop: "See somebody.", Urgent: true, Unwritten: true, Again: "/sheets/drip/sore/mo", Flags: []string{"chest"}}, MySore{Step: "stop", Stop: "See <b>.", Say: "Stop.", Whose: "Bo <b>", Unwritten: true}, MySore{Step: "on", Say: "Go on."}, MySore{Step: "ways", Ways: []MyWay{{1, "5 block deadlifts", "why", "back", []string{"sit-ups"}}, {2, "12 hip bridges", "", "", nil}, {3, "bike", "", "", nil}}, Note: "Note.", Caution: []string{"Stop."}},
	MyReading{Nothing: "Nothing yet."}, MyNoteLook{Private: true}, MyNoteLook{},
}

// TestEveryPage draws each page, whole and escaped, and knows that none was left out.
func TestEveryPage(t *testing.T) {
	left := map[string]bool{}
	for name := range drawn {
		left[name] = true
	}
	for _, body := range examples {
		delete(left, nameOf(body))
		var out bytes.Buffer
		if err := Write(&out, rain, body); err != nil {
			t.Errorf("%T: %v", body, err)
		}
		if text := out.String(); strings.Contains(text, "<b>") || strings.Contains(text, "<tight>") || strings.Contains(text, "<for time>") || !strings.HasSuffix(text, "</html>\n") {
			t.Errorf("%T: what somebody wrote is markup, or the page is not whole: %s", body, text)
		}
		if text := out.String(); strings.Contains(text, "style=") || strings.Contains(text, " onclick=") || strings.Contains(text, "<script>") || strings.Contains(text, "ZgotmplZ") {
			t.Errorf("%T: runs or styles within the page, which browsers are told not to do", body)
		}
	}
	for name := range left {
		t.Errorf("no example of %s", name)
	}
	if err := Write(&bytes.Buffer{}, rain, struct{}{}); err == nil {
		t.Error("what has no template is drawn")
	}
}

// TestAssets: each file is served for good under a name of its own, packed for who takes
// it packed; stylesheets name files as they are served.
func TestAssets(t *testing.T) {
	for name := range assetNames {
		at, err := Asset(name)
		if err != nil {
			t.Fatal(err)
		}
		q := httptest.NewRequest("GET", at, nil)
		q.Header.Set("Accept-Encoding", "gzip")
		w := httptest.NewRecorder()
		if !ServeAsset(w, q) || w.Code != http.StatusOK || !strings.Contains(w.Header().Get("Cache-Control"), "immutable") || w.Header().Get("Content-Type") == "" {
			t.Errorf("%s: %d %v", name, w.Code, w.Header())
		}
		if name == Everywhere { // is made of others
			continue
		}
		plain, err := os.ReadFile(path.Join("assets", name))
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(name, ".css") {
			for _, link := range links.FindAllSubmatch(plain, -1) {
				if assetNames[string(link[1])] == "" {
					t.Errorf("%s names %s, which is not there", name, link[1])
				}
			}
			continue
		}
		w = httptest.NewRecorder()
		if !ServeAsset(w, httptest.NewRequest("GET", at, nil)) || !bytes.Equal(w.Body.Bytes(), plain) {
			t.Errorf("%s comes otherwise than it is", name)
		}
	}
	if ServeAsset(httptest.NewRecorder(), httptest.NewRequest("GET", "/assets/look.css", nil)) {
		t.Error("a name that never changes is served for good")
	}
	if _, err := Asset("none.js"); err == nil {
		t.Error("what is not there has a path")
	}
	var config map[string]any
	var out bytes.Buffer
	if err := Write(&out, rain, Today{}); err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(out.String(), `name="htmx-config" content='`)
	text, _, _ := strings.Cut(rest, "'")
	if err := json.Unmarshal([]byte(text), &config); err != nil || config["allowEval"] != false {
		t.Errorf("what htmx is told: %v %v", config, err)
	}
}
