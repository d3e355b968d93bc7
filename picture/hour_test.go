package picture

import (
	"strings"
	"testing"
	"time"

	"roomful"
)

// TestHourScale reads each line's minutes back from where it is drawn.
func TestHourScale(t *testing.T) {
	now := mins(27)
	for _, h := range []*roomful.Hour{usualHour(), longHour()} {
		p := Hour(h, &now)
		drawn := svg(t, p)
		total := max(h.Length, h.Ends()).Minutes()
		var bands []*node
		for _, class := range []string{"pic-open", "pic-ready", "pic-work"} {
			bands = append(bands, drawn.find(class)...)
		}
		if len(bands) != len(h.Lines) {
			t.Fatalf("%d lines drawn of %d", len(bands), len(h.Lines))
		}
		for i, l := range h.Lines {
			found := false
			for _, b := range bands {
				if near(b.at("x"), l.Start.Minutes()/total*100) && near(b.at("width"), l.Length().Minutes()/total*100) {
					found = true
				}
			}
			if !found {
				t.Errorf("line %d, %s to %s, is not drawn to scale", i, l.Start, l.End)
			}
			row := p.Table.Rows[i]
			if row[1] != clock(l.Start) || row[2] != clock(l.End) || row[3] != clock(l.Length()) {
				t.Errorf("line %d: the table says %q", i, row)
			}
		}
		if x := drawn.find("pic-now")[0].at("x1"); !near(x, 27/total*100) {
			t.Errorf("now is at %v %%", x)
		}
	}
}

// TestHourInWords has a word and its minutes for each stretch, however short, and what is spare.
func TestHourInWords(t *testing.T) {
	h := usualHour() // 50 of 60 minutes
	said := HourWords(h)
	if got := strings.Count(said, " · "); got != len(h.Lines) {
		t.Errorf("%d lines and what is spare, said as %q", len(h.Lines), said)
	}
	if !strings.HasSuffix(said, "spare\u00a010") || HourWords(nil) != "" {
		t.Errorf("said as %q", said)
	}
}

// TestHourEnds hatches what is spare and paints what is too much in brick, to scale.
func TestHourEnds(t *testing.T) {
	fits := svg(t, Hour(usualHour(), nil)) // 50 of 60 minutes
	spare := fits.find("pic-spare")[0]
	if !near(spare.at("x"), 50.0/60*100) || !near(spare.at("width"), 10.0/60*100) || spare.attrs["fill"] != "url(#p-hatch)" {
		t.Errorf("10 spare of 60: %v", spare.attrs)
	}
	if len(fits.find("pic-over")) > 0 {
		t.Error("an hour that fits is drawn over")
	}
	h := longHour() // 63:50 of 60
	over := svg(t, Hour(h, nil))
	total := h.Ends().Minutes()
	brick := over.find("pic-over")[0]
	if !near(brick.at("x"), 60/total*100) || !near(brick.at("width"), 100-60/total*100) {
		t.Errorf("over: %v", brick.attrs)
	}
	if !strings.Contains(allWords(over), "3:50 over the 60 minutes") {
		t.Error("it is not said how much it is over")
	}
}

// TestHourWords says whether the hour fits, and where the class stands; a line that cannot
// be is left out.
func TestHourWords(t *testing.T) {
	in, after := mins(27), mins(59)
	for _, c := range []struct {
		h    *roomful.Hour
		now  *time.Duration
		want string
	}{
		{usualHour(), nil, "50 of 60 minutes planned. 10 minutes to spare."},
		{usualHour(), &in, "50 of 60 minutes planned. 10 minutes to spare. It is now 27:00, main."},
		{usualHour(), &after, "50 of 60 minutes planned. 10 minutes to spare. It is now 59:00."},
		{longHour(), nil, "63:50 of 60 minutes planned. It runs 3:50 minutes over."},
		{nil, &in, "Nothing is planned yet."},
		{&roomful.Hour{Length: -mins(5), Lines: []roomful.HourLine{{Start: mins(5), End: mins(2)}}}, nil, "Nothing is planned yet."},
		{hourOf(mins(11), line(roomful.HourWork, 10, "main b", 2, "")), nil, "10 of 11 minutes planned. 1 minute to spare."},
	} {
		if got := Hour(c.h, c.now).Desc; got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
	if got := Hour(hourOf(mins(11), line(roomful.HourWork, 10, "main b", 2, "")), nil).Table.Rows[0][0]; got != "main b, heat 2" {
		t.Errorf("a line without words of its own is called %q", got)
	}
}

// TestHourLegible leaves no words out where there is room for all: on a wide page every
// line of the usual hour has its words and its minutes.
func TestHourLegible(t *testing.T) {
	drawn := svg(t, Hour(usualHour(), nil))
	words, figures := drawn.find("pic-word"), drawn.find("pic-count")
	if len(words) != 9 || len(figures) != 9 { // eight lines and what is spare
		t.Errorf("%d words and %d figures for 8 lines and what is spare", len(words), len(figures))
	}
	for _, n := range figures {
		if strings.Contains(n.attrs["class"], "pic-from") {
			t.Errorf("the %s minutes of a line are missing on a phone", n.words)
		}
	}
}
