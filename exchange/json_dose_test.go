package exchange_test

import (
	"encoding/json"
	"testing"
	"time"

	"roomful"
	"roomful/exchange"
)

// TestDose writes where somebody stops in seconds, and nothing for who does the
// whole piece.
func TestDose(t *testing.T) {
	part := roomful.Part{Format: roomful.RoundsInTime{Window: 16 * time.Minute}}
	l := roomful.Lineup{Versions: []roomful.Version{
		{Name: "Ann", Dose: roomful.Dose{StopAt: 8 * time.Minute, Say: "8 minutes of 16 today", Private: "first week back: half the volume"}},
		{Name: "Bea"},
		{Name: "Cem", Dose: roomful.Dose{Ladder: []int{10, 9, 8}, Say: "10-9-8 today"}},
	}, Options: []roomful.Option{{Name: "As written", Elements: []roomful.Task{{Movement: "squat", Load: roomful.Kg(60)}},
		Second: []roomful.Task{{Movement: "squat", Load: roomful.Kg(42.5)}}}}}
	b, err := json.Marshal(exchange.LineupOf(part, roomful.Effort{}, l))
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Options []struct {
			Second []struct {
				LoadKg float64 `json:"load_kg"`
			} `json:"elements_b"`
		}
		Athletes []struct {
			StopAt *float64 `json:"stop_at_seconds"`
			Dose   *struct {
				Ladder     []int
				Rounds     *int
				Say        string
				WhyPrivate *string `json:"why_private"`
			}
		}
	}
	if err := json.Unmarshal(b, &got); err != nil {
		t.Fatal(err)
	}
	ann, bea, cem := got.Athletes[0], got.Athletes[1], got.Athletes[2]
	if ann.StopAt == nil || *ann.StopAt != 480 || ann.Dose == nil || ann.Dose.Say != "8 minutes of 16 today" || ann.Dose.WhyPrivate == nil || ann.Dose.Rounds != nil {
		t.Errorf("who stops at 8:00: %s", b)
	}
	if bea.StopAt != nil || bea.Dose != nil {
		t.Errorf("who does all of it: %s", b)
	}
	if cem.StopAt != nil || cem.Dose == nil || len(cem.Dose.Ladder) != 3 || cem.Dose.WhyPrivate != nil {
		t.Errorf("who does three steps: %s", b)
	}
	if s := got.Options[0].Second; len(s) != 1 || s[0].LoadKg != 42.5 {
		t.Errorf("division b's figures: %s", b)
	}
}
