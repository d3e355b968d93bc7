package web

import (
	"reflect"
	"testing"

	"roomful"
	"roomful/day"
	"roomful/desk"
	"roomful/web/page"
)

// TestNeedsCountPeople: whoever needs the coach at several pieces of a day stands once in the
// list, with what is theirs said once and what is of another piece under its name.
func TestNeedsCountPeople(t *testing.T) {
	piece := func(kind roomful.PartKind) roomful.Part { return roomful.Part{Kind: kind, Scored: true} }
	sore := "Wrist: ask before the ramp."
	back := "First week back: half the volume"
	got := &desk.Worked{}
	got.Piece = piece(roomful.Main)
	got.Attention = []roomful.Attention{
		{Athlete: "mo", Name: "Mo", Why: sore + " Ring rows.", Person: sore},
		{Athlete: "bo", Name: "Bo", Why: back + ", 2 of 4 rounds.", Person: back},
	}
	got.Pieces = []day.PieceVersions{{Piece: got.Piece, Lineup: got.Lineup}, {Piece: piece(roomful.Strength), Lineup: roomful.Lineup{Attention: []roomful.Attention{
		{Athlete: "mo", Name: "Mo", Why: sore + " Nothing in this piece is changed for it.", Person: sore},
		{Athlete: "bo", Name: "Bo", Why: back + ", 2 of 5 sets.", Person: back},
		{Athlete: "cy", Name: "Cy", Why: "No version lands in 5-7 rounds."},
	}}}}
	var w page.DayWork
	coachDay{got: got}.needs(&w)
	want := []page.DayNeed{
		{ID: "mo", Name: "Mo", Why: []string{sore + " Ring rows."}},
		{ID: "bo", Name: "Bo", Why: []string{back + ", 2 of 4 rounds.", "Strength: 2 of 5 sets."}},
		{ID: "cy", Name: "Cy", Why: []string{"Strength: no version lands in 5-7 rounds."}},
	}
	if !reflect.DeepEqual(w.Needs, want) {
		t.Errorf("who needs the coach: %+v, want %+v", w.Needs, want)
	}
}
