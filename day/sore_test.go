package day_test

import (
	"strings"
	"testing"

	"roomful"
	"roomful/day"
)

// TestRelieve answers from the version that somebody has among everybody, and
// stops whoever has to stop before anything of the sheet is looked at.
func TestRelieve(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["eight-ribs"]))
	four, seven := 4, 7
	who := g.people[0]
	got, err := g.Relieve(t.Context(), q, false, who, roomful.Complaint{Area: "back", Pain: &four, Of: "deadlift"})
	if err != nil || len(got.Remedies) != 3 || got.Piece.Name() != "main" || got.Version.Athlete != who.ID {
		t.Fatalf("%+v, %v", got.Relief, err)
	}
	v, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	if was, now := v.Versions[0].Work, got.Version.Work; len(was.Round) == 0 || was.Round[0].Load != now.Round[0].Load {
		t.Errorf("answered from %+v, the version is %+v", now, was)
	}
	got, err = g.Relieve(t.Context(), q, false, who, roomful.Complaint{Area: "back", Pain: &seven})
	if err != nil || !strings.HasPrefix(got.Stop, "Stop here: back 7 of 10") || len(got.Remedies) > 0 {
		t.Errorf("pain of 7: %+v, %v", got.Relief, err)
	}
	stranger := roomful.Athlete{ID: "nobody", Name: "Nobody"}
	if _, err := g.Relieve(t.Context(), q, false, stranger, roomful.Complaint{Area: "back", Pain: &four}); err == nil || !strings.Contains(roomful.HintOf(err), "file of people") {
		t.Errorf("somebody who is not there: %v", err)
	}
}

// TestInstead asks for a person who leans on somebody they are like, and for
// nobody in particular.
func TestInstead(t *testing.T) {
	g := open(t)
	q := day.InsteadQuestion{Of: roomful.Element{Movement: "deadlift", Amount: roomful.Amount{By: []float64{12}}, Load: roomful.Masses{roomful.Kg(60)}},
		Reason: roomful.ForNoKit, Kit: g.kit, People: g.people, Today: roomful.Date{Year: 2027, Month: 2, Day: 1}}
	for _, who := range []roomful.Athlete{{}, g.people[0], {ID: "x", Name: "X", Like: g.people[0].Name}} {
		q.Who = who
		got, err := g.Instead(q)
		if err != nil || len(got) == 0 || !got[0].Possible || got[0].Amount <= 0 || got[0].Load.Value <= 0 {
			t.Errorf("%q: %+v, %v", who.Name, got, err)
		}
	}
}
