package picture

import (
	"math"
	"slices"
	"strings"
	"testing"

	"roomful"
)

// The colours of discs by the technical and competition rules of international
// weightlifting (read in a secondary copy, and not taken from the root package):
// 25 red, 20 blue, 15 yellow, 10 green, 5 white, and so again a tenth as heavy.
var published = map[float64]string{
	25: "red", 20: "blue", 15: "yellow", 10: "green", 5: "white",
	2.5: "red", 2: "blue", 1.5: "yellow", 1: "green", 0.5: "white",
}

// TestDiscColours draws each disc alone, with its figure beside it on both sides.
func TestDiscColours(t *testing.T) {
	for mass, want := range published {
		drawn := svg(t, Bar(roomful.SideLoad{Bar: roomful.Kg(20), PerSide: kgs(mass)}))
		if n := len(drawn.find("pic-disc-" + want)); n != 2 {
			t.Errorf("%v kg: %d discs are %s, want both", mass, n, want)
		}
		figures := 0
		for _, n := range drawn.find("pic-count") {
			if n.words == roomful.Figure(mass) {
				figures++
			}
		}
		if figures != 2 {
			t.Errorf("%v kg: its figure stands there %d times", mass, figures)
		}
	}
	for _, m := range []roomful.Mass{roomful.Lb(45), roomful.Lb(25), roomful.Kg(1.25)} {
		drawn := svg(t, Bar(roomful.SideLoad{Bar: roomful.Kg(20), PerSide: []roomful.Mass{m}}))
		if drawn.find("pic-disc")[0].attrs["class"] != "pic-disc" {
			t.Errorf("%s has a colour that the rules do not give", m)
		}
	}
}

// TestBarSymmetry finds each disc as far to the left of the middle as to the right, the
// first one innermost, none over another, and the heavier the bigger.
func TestBarSymmetry(t *testing.T) {
	for _, side := range [][]roomful.Mass{kgs(10), kgs(25, 20, 15, 10, 5, 2.5, 2, 1.5, 1, 0.5), lbs(45, 25, 10, 2.5), kgs(slices.Repeat([]float64{25}, 14)...)} {
		drawn := svg(t, Bar(roomful.SideLoad{Bar: roomful.Kg(20), PerSide: side}))
		wide := figure(t, strings.Fields(drawn.attrs["viewBox"])[2])
		discs := drawn.find("pic-disc")
		if len(discs) != 2*len(side) {
			t.Fatalf("%d discs drawn of %d", len(discs), 2*len(side))
		}
		edge := 0.0 // of the disc before, from the middle
		for i := range side {
			left, right := discs[2*i], discs[2*i+1]
			l := wide/2 - (left.at("x") + left.at("width"))
			r := right.at("x") - wide/2
			if math.Abs(l-r) > .02 || left.attrs["height"] != right.attrs["height"] {
				t.Errorf("disc %d is %v from the middle on the left and %v on the right", i, l, r)
			}
			if r < edge {
				t.Errorf("disc %d lies on the one inside it", i)
			}
			edge = r + right.at("width")
			if i > 0 && side[i].Kg() < side[i-1].Kg() && right.at("height") >= discs[2*i-1].at("height") {
				t.Errorf("disc %d is lighter than the one inside it and not smaller", i)
			}
		}
		if edge > wide/2 {
			t.Errorf("the last disc ends at %v of %v", edge, wide/2)
		}
	}
}

// TestBarWords adds up what is on a bar. 45 lb with 45, 25, 10 and 2.5 a side is 210 lb.
func TestBarWords(t *testing.T) {
	for _, c := range []struct {
		load        roomful.SideLoad
		title, desc string
	}{
		{roomful.SideLoad{Bar: roomful.Kg(15), PerSide: kgs(10)}, "35 kg on the bar", "15 kg bar, and on each side from the inside: 10."},
		{roomful.SideLoad{Bar: roomful.Kg(20)}, "20 kg on the bar", "20 kg bar with nothing on it."},
		{roomful.SideLoad{Bar: roomful.Lb(45), PerSide: lbs(45, 25, 10, 2.5)}, "210 lb on the bar", "45 lb bar, and on each side from the inside: 45, 25, 10, 2.5."},
		// 20 kg and two discs of 45 lb: 20 + 40.823 kg, which is 134.09 lb.
		{roomful.SideLoad{Bar: roomful.Kg(20), PerSide: lbs(45)}, "134 lb on the bar", "20 kg bar, and on each side from the inside: 45 lb."},
		{roomful.SideLoad{PerSide: kgs(5, math.NaN(), -3, 1e9)}, "A bar and its discs", "bar, and on each side from the inside: 5 kg."},
	} {
		p := Bar(c.load)
		if p.Title != c.title || p.Desc != c.desc {
			t.Errorf("got %q, %q, want %q, %q", p.Title, p.Desc, c.title, c.desc)
		}
	}
}
