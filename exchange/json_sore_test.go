package exchange_test

import (
	"testing"
	"time"

	"roomful"
	"roomful/exchange"
)

// TestReliefJSON writes three ways to go on with the segment of the first, and
// nothing but the referral for somebody who is stopped.
func TestReliefJSON(t *testing.T) {
	part := roomful.Part{Kind: roomful.Main, Format: roomful.RoundsInTime{Window: 16 * time.Minute}}
	four := 4
	work := roomful.Work{Round: []roomful.Task{{Movement: "block-deadlift", Amount: 5, Load: roomful.Kg(35)}}}
	r := roomful.Relief{Athlete: "ann", Name: "Ann", Complaint: roomful.Complaint{Area: "back", Pain: &four, At: 6 * time.Minute},
		Ask:      []roomful.RedFlag{{ID: "chest", Ask: "Any?", Source: "a paper", Urgent: true}},
		Remedies: []roomful.Remedy{{Choice: roomful.Choice{Task: work.Round[0], Why: "5 today", Private: "back 4 of 10 today"}, For: "deadlift", Say: "Ease off.", Segment: roomful.Segment{From: 6 * time.Minute, Work: work, Say: "from 6:00: 5"}}},
	}
	r.Version.Work = roomful.Work{Round: []roomful.Task{{Movement: "deadlift", Amount: 8}}}
	r.Version.Change(r.Remedies[0].Segment)
	got := object(t, exchange.ReliefOf(part, r))
	has(t, "relief", got, "name id piece area pain at_seconds stop urgent card say ask note options segment segments cautions diagnostics")
	none(t, "who goes on", got, "stop card say note")
	option := got["options"].([]any)[0]
	has(t, "option", option, "movement amount unit load_kg load implements height_cm load_low_kg load_high_kg changed why why_private in_place_of say also segment")
	has(t, "segment", got["segment"], "from_seconds once round last say why_private")
	has(t, "ask", got["ask"].([]any)[0], "id ask source urgent")
	segment := got["segment"].(map[string]any)
	if task := segment["round"].([]any)[0].(map[string]any); segment["from_seconds"] != 360.0 || task["load_kg"] != 35.0 || task["amount"] != 5.0 {
		t.Errorf("noted %v", segment)
	}
	if n := len(got["segments"].([]any)); n != 2 {
		t.Errorf("%d segments, want the one before and the one after", n)
	}
	stopped := object(t, exchange.ReliefOf(roomful.Part{}, roomful.Relief{Name: "Ann", Stop: "Stop now.", Urgent: true, Card: &roomful.Emergency{Number: "112"}, Complaint: roomful.Complaint{Flags: []string{"chest"}}}))
	none(t, "who is stopped", stopped, "id piece area pain at_seconds segment")
	has(t, "card", stopped["card"], "address number calls fetches defibrillator meets stop")
	if len(stopped["options"].([]any)) > 0 || stopped["urgent"] != true || stopped["stop"] != "Stop now." {
		t.Errorf("stopped: %v", stopped)
	}
}
