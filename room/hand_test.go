package room_test

import (
	"fmt"
	"strings"
	"testing"

	"roomful"
	"roomful/room"
)

// wants is somebody who does dumbbell snatches with one bell of so many kg, when
// low to high kg would do.
func wants(name string, kg, low, high float64) roomful.Version {
	c := roomful.Choice{Task: roomful.Task{Movement: "dumbbell-snatch", Amount: 10, Unit: roomful.Rep, Load: roomful.Kg(kg), Implements: 1},
		Low: roomful.Kg(low), High: roomful.Kg(high)}
	return roomful.Version{Athlete: name, Name: name, Choices: []roomful.Choice{c}, Work: roomful.Work{Round: []roomful.Task{c.Task}}}
}

// TestHandOut works deals of dumbbells by hand.
func TestHandOut(t *testing.T) {
	shelf := func(counts ...int) *roomful.Kit {
		k := new(roomful.Kit)
		for i, kg := range []float64{10, 12.5, 15, 17.5} {
			k.Dumbbells = append(k.Dumbbells, roomful.Stock{Mass: roomful.Kg(kg), Count: counts[i]})
		}
		return k
	}
	stopped := wants("Stopped", 15, 15, 15)
	stopped.Stop = "see a doctor"
	for _, c := range []struct {
		what string
		kit  *roomful.Kit
		who  []roomful.Version
		want string
	}{
		{"enough", shelf(2, 2, 2, 2), []roomful.Version{wants("A", 15, 10, 15), wants("B", 15, 10, 15)}, ""},
		{"who has another that does gives way", shelf(0, 1, 1, 0), []roomful.Version{wants("A", 15, 15, 15), wants("B", 15, 12.5, 15)}, "B 12.5 kg"},
		{"up where that would do", shelf(0, 0, 1, 1), []roomful.Version{wants("A", 15, 15, 17.5), wants("B", 15, 15, 15)}, "A 17.5 kg"},
		{"two steps of one lose more than one step of two", shelf(1, 1, 1, 0),
			[]roomful.Version{wants("A", 15, 10, 15), wants("B", 15, 15, 15), wants("C", 12.5, 10, 12.5)}, "A 12.5 kg, C 10 kg"},
		{"one below what would do is asked", shelf(0, 1, 1, 0), []roomful.Version{wants("A", 15, 15, 15), wants("B", 15, 15, 15)}, "A 12.5 kg asked"},
		{"never two below", shelf(2, 0, 1, 0), []roomful.Version{wants("A", 15, 12.5, 15), wants("B", 15, 15, 15)}, "A 10 kg asked"},
		{"never heavier than allowed", shelf(0, 0, 1, 9), []roomful.Version{wants("A", 15, 15, 15), wants("B", 15, 15, 15)}, "A in turn"},
		{"who is stopped holds nothing", shelf(0, 1, 1, 0), []roomful.Version{stopped, wants("B", 15, 15, 15)}, ""},
	} {
		scarce := []room.Scarce{{Word: "dumbbell 15 kg", For: c.kit.Count("dumbbell 15 kg")}}
		hands := room.HandOut(room.Handing{Kit: c.kit, Versions: c.who, Scarce: scarce, Ask: true, Lexicon: lexicon})
		if got := handed(c.who, hands); got != c.want && !(c.want != "" && mirrored(got, c.want)) {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
		if hands.Loss != hands.Bound {
			t.Errorf("%s: loss %d is not proven, %d", c.what, hands.Loss, hands.Bound)
		}
	}
}

// mirrored reports whether the second of two who are alike gives way instead of
// the first.
func mirrored(got, want string) bool { return len(got) > 1 && got[0] == 'B' && got[1:] == want[1:] }

// handed writes who takes what instead.
func handed(who []roomful.Version, h room.Hands) (out string) {
	add := func(format string, args ...any) {
		if out != "" {
			out += ", "
		}
		out += fmt.Sprintf(format, args...)
	}
	for _, g := range h.Given {
		asked := ""
		if g.Asked {
			asked = " asked"
		}
		add("%s %s%s", who[g.Version].Name, g.To, asked)
	}
	for _, i := range h.InTurn {
		add("%s in turn", who[i].Name)
	}
	return out
}

// TestHandOutSwitches works switches to another version by hand: five row and one
// rower is to serve three of them.
func TestHandOutSwitches(t *testing.T) {
	on := func(m roomful.MovementID) []roomful.Choice {
		return []roomful.Choice{{Task: roomful.Task{Movement: m, Amount: 250, Unit: roomful.Metre}}}
	}
	rows := func(name string, shortlist ...roomful.Candidate) roomful.Version {
		likely := 0.9
		v := roomful.Version{Athlete: name, Name: name, Choices: on("row"), Shortlist: shortlist}
		v.Work, v.Forecast.OnIntent = roomful.Work{Round: []roomful.Task{v.Choices[0].Task}}, &likely
		return v
	}
	instead := func(m roomful.MovementID, drop, change float64) roomful.Candidate {
		c := roomful.Candidate{Version: rows(""), Drop: drop, Change: change}
		c.Choices = on(m)
		c.Work = roomful.Work{Round: []roomful.Task{c.Choices[0].Task}}
		return c
	}
	oneOff := instead("run", 0, 1)
	oneOff.OneOff = true
	unsure := rows("U", instead("run", 0, 1))
	unsure.Forecast.OnIntent = nil
	kit := &roomful.Kit{Stations: map[string]int{"row": 1, "ski": 1}}
	for _, c := range []struct {
		what string
		who  []roomful.Version
		ask  bool
		want string
	}{
		{"nothing else suits: all in turn", []roomful.Version{rows("A"), rows("B"), rows("C"), rows("D"), rows("E")}, true, "2 in turn"},
		{"who changes least gives way", []roomful.Version{rows("A"), rows("B"), rows("C", instead("run", 0, 1)), rows("D", instead("run", 0, 4)), rows("E", instead("run", 0, 2))}, false, "C E"},
		{"one ski for one", []roomful.Version{rows("A"), rows("B"), rows("C", instead("ski", 0, 1)), rows("D", instead("ski", 0, 1)), rows("E", instead("run", 0, 9))}, false, "C E"},
		{"what suits less is asked", []roomful.Version{rows("A"), rows("B"), rows("C", instead("run", 0, 9)), rows("D", instead("run", 0.1, 1)), rows("E")}, true, "C D asked"},
		{"and not without asking", []roomful.Version{rows("A"), rows("B"), rows("C", instead("run", 0, 9)), rows("D", instead("run", 0.1, 1)), rows("E")}, false, "C 1 in turn"},
		{"so is a one-off", []roomful.Version{rows("A"), rows("B"), rows("C", oneOff), rows("D", instead("run", 0, 9)), rows("E")}, true, "C asked D"},
		{"far less suits nobody", []roomful.Version{rows("A"), rows("B"), rows("C", instead("run", 0.5, 1)), rows("D"), rows("E")}, true, "2 in turn"},
		{"no effort to keep", []roomful.Version{rows("A"), rows("B"), unsure, rows("D", instead("run", 0, 1)), rows("E")}, true, "D 1 in turn"},
		{"what leaves nothing free is no use", []roomful.Version{rows("A"), rows("B"), rows("C", instead("row", 0, 0)), rows("D"), rows("E")}, true, "2 in turn"},
	} {
		hands := room.HandOut(room.Handing{Kit: kit, Versions: c.who, Scarce: []room.Scarce{{Word: "row", For: 3}}, Ask: c.ask, Lexicon: lexicon})
		var got []string
		for _, s := range hands.Switched {
			got = append(got, c.who[s.Version].Name)
			if s.Asked {
				got = append(got, "asked")
			}
		}
		if n := len(hands.InTurn); n > 0 {
			got = append(got, fmt.Sprint(n), "in turn")
		}
		if strings.Join(got, " ") != c.want || hands.Loss != hands.Bound {
			t.Errorf("%s: %v, want %s; loss %d, proven %d", c.what, got, c.want, hands.Loss, hands.Bound)
		}
	}
}

// TestHandOutOnlyWithin: when nobody may be asked, who is short takes turns.
func TestHandOutOnlyWithin(t *testing.T) {
	kit := &roomful.Kit{Dumbbells: []roomful.Stock{{Mass: roomful.Kg(12.5), Count: 4}, {Mass: roomful.Kg(15), Count: 1}}}
	who := []roomful.Version{wants("A", 15, 15, 15), wants("B", 15, 15, 15)}
	hands := room.HandOut(room.Handing{Kit: kit, Versions: who, Scarce: []room.Scarce{{Word: "dumbbell 15 kg", For: 1}}, Lexicon: lexicon})
	if len(hands.Given) != 0 || len(hands.InTurn) != 1 {
		t.Errorf("%+v, want nobody asked and one in turn", hands)
	}
}
