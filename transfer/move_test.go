package transfer_test

import (
	"strings"
	"testing"

	"roomful/demo"
	"roomful/transfer"
)

// TestMoved moves sheets and scores and nothing else, there and back.
func TestMoved(t *testing.T) {
	f, err := transfer.Open(demo.Files)
	if err != nil {
		t.Fatal(err)
	}
	later := f.Moved(31)
	if later.People != f.People || later.Kit != f.Kit {
		t.Error("people and kit have no days to move")
	}
	for i := range f.Sheets {
		if later.Sheets[i].Text == f.Sheets[i].Text {
			t.Errorf("%s stayed where it was", f.Sheets[i].Name)
		}
	}
	if !strings.Contains(later.Attempts.Text, "Kwabena,2027-01-05,the-long-drizzle,16:15") { // from 2026-12-05
		t.Errorf("scores stayed where they were: %.200s", later.Attempts.Text)
	}
	back := later.Moved(-31)
	if back.Attempts.Text != f.Attempts.Text {
		t.Error("there and back again, scores are not as they were")
	}
	for i := range f.Sheets {
		if back.Sheets[i] != f.Sheets[i] {
			t.Errorf("there and back again, %s is not as it was", f.Sheets[i].Name)
		}
	}
	odd := transfer.Folder{Sheets: []transfer.File{{Name: "a", Text: "A\n2027-99-99, 60 min\n"}}}.Moved(3)
	if odd.Sheets[0].Text != "A\n2027-99-99, 60 min\n" {
		t.Errorf("a day of no calendar became %q", odd.Sheets[0].Text)
	}
}
