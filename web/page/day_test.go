package page

import (
	"bytes"
	"strings"
	"testing"
)

// day is a day with something in every place.
var day = Day{
	DayHead: DayHead{"drip", "Drip", "Thursday 4 March 2027, 17:30"}, Query: "?class=c-1", Kept: "sheet",
	Classes: []DayClass{{"/sheets/drip?class=c-1", "17:30, 14 come", true}, {"/sheets/drip", "Everybody who comes here", false}},
	Edition: DayEdition{"Members see it as it stands.", "Publish"},
	Sheet: DaySheet{Name: "drip", Query: "?class=c-1", Text: "Drip\n\nmain: <for time>\n", Revision: 3, Who: "Saved at 05:12 by Ines.", Earlier: true, Wrong: "There is nothing to save.",
		Said: DaySaid{"1 line to mend.", []DayRemark{{3, 7, 3, 15, "look", "“<for time>” is no format I know.", "Kept as typed.", "", []DayMend{{"3 7 3 15", "for time"}}, "main: <for time>"}}, "Drip\n"}},
	Work: DayWork{
		Name: "drip", Query: "?class=c-1", Draft: true, Of: "Of before.",
		Verdicts: []DayVerdict{{"Fits the hour", "56 of 60 minutes", "", ""}, {"3 need you", "below", "look", "needs"}},
		Ribbon:   `<svg role="img"></svg>`, Pieces: []DayClass{{"/sheets/drip?piece=main", "main", true}},
		Options: []DayOption{{0, "As written", []DayLine{{"9", "front squats 60/42.5 kg"}}, []DayPerson{{"mo", "Mo <b>", "60 kg", "132 lb", []string{"your word"}}}}, {1, "Lighter", nil, nil}},
		Needs:   []DayNeed{{"bo", "Bo", []string{"Back 4 of 10 today."}}}, Unknown: []DayNeed{{"mo", "Mo", []string{"12 at 40 kg."}}}, Stopped: []DayNeed{{"al", "Al", []string{"Not today."}}}, Otherwise: []DayNeed{{"mo", "Mo", []string{"Front squat 50 kg instead of 60 kg <b>."}}}, Looking: true, Revision: 3,
		Room: DayRoom{[]DayShort{{"row", "3 for 14", true}}, []DayFix{{"Two waves", "costs 2:00", "Each waits 0:00.", "Heat 1: Mo."}}, []DayBar{{"60 kg", "each side 20", "Mo"}}, "Ask.",
			[]DayHour{{"17:30", "3:30", "Briefing", "setting"}}, []DayHeat{{"Main, heat 1", "Mo"}}, false},
		Strips: `<figure></figure>`,
		Opened: &DayVersion{Name: "drip", Query: "?class=c-1", ID: "mo", Who: "Mo", Option: "As written", Sure: "Likely 5+3.", Word: &DayWord{"Your word, 05:12.", "Asked for it <b>."},
			Dose: "Half of it.", DoseBy: "Back after a month.", Lines: []DayDone{{0, "9", "front squats", "60 kg", "132 lb", "55 kg to 62.5 kg would do.", "Twelve fresh.", "knee 2 of 10", `<svg></svg>`, "20 kg bar.", "9 front squats 60 kg", "No such movement."}},
			Proof: "12 at 60 kg.", Strip: `<svg></svg>`, Cautions: []string{"Stop when it hurts."}, Others: []DayOther{{1, "lighter", "Lighter", "", "40 kg"}}, Reason: "Asked", Wrong: "No."},
	},
	Notes: &DayNotes{"drip", "?class=c-1", []DayNote{{ID: "n-1", Name: "Mo", When: "06:59", Text: "Knee <b>", Private: true, Answers: []DayNote{{Name: "Ines", When: "07:10", Text: "Easy then."}}, NewID: "n-2", Typed: "So", Wrong: "Too long."}}},
}

// TestDayInWords: what a coach must not miss stands on the page in words, and a person's
// version opens with or without a script.
func TestDayInWords(t *testing.T) {
	var out bytes.Buffer
	if err := Write(&out, rain, day); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Fits the hour", "56 of 60 minutes", `class="is-look"`, "Worked out from what you typed. Not saved.", "Line 3", "Did you mean", `value="3 7 3 15 for time"`,
		`href="/sheets/drip?class=c-1&amp;open=mo#p-mo"`, "your word", "Between you and Mo:", "only they and their coaches read it", `data-kept="sheet"`, `value="3"`} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the page does not have %q", want)
		}
	}
}

// TestUnplaced: a board says what a dash means where somebody has one.
func TestUnplaced(t *testing.T) {
	for place, says := range map[string]bool{"1": false, "": true} {
		board := ScoreBoard{Written: []ScorePlace{{Place: place, Name: "Mo", Score: "5+20"}}}
		if board.Unplaced() != says {
			t.Errorf("with the place %q the board says what a dash means: %v", place, !says)
		}
	}
}
