package version_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/version"
)

// day is a request for the ledge with the given people.
func day(people ...version.Person) version.Request {
	y := newToy()
	return version.Request{Piece: ledge(), Effort: ledgeEffort(), People: people, Gym: roomful.DefaultGym(),
		On: roomful.Date{Year: 2027, Month: time.March, Day: 4}, Lexicon: y.lex, Forecaster: y}
}

func propose(t testing.TB, q version.Request) roomful.Lineup {
	t.Helper()
	got, err := version.Propose(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// somebody is a person of division b whose abilities make the ledge fit as
// written: 4.9 m/s... see the toy; each case changes one thing.
func somebody(name string, change func(*version.Person)) version.Person {
	p := version.Person{Abilities: able(70, 110, 12, 44),
		Athlete: roomful.Athlete{ID: name, Name: name, Division: roomful.DivisionB, Months: months(30)}}
	if change != nil {
		change(&p)
	}
	return p
}

func limit(what string, pain int) func(*version.Person) {
	return func(p *version.Person) {
		p.Athlete.Limits = append(p.Athlete.Limits, roomful.Limit{What: what, Pain: pain})
	}
}

// told writes a version's elements in short: movement, amount, load.
func told(v roomful.Version) string {
	var out []string
	for _, c := range v.Choices {
		s := fmt.Sprintf("%s %v", c.Movement, c.Amount)
		if c.Load.Value > 0 {
			s += " " + c.Load.String()
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

// TestEach gives one person at a time the ledge. What a coach would expect is
// common practice, no source, unless the case names one.
func TestEach(t *testing.T) {
	for _, c := range []struct {
		name    string
		person  version.Person
		want    string // the version in short
		option  string
		oneOff  bool
		written bool
		trust   roomful.Confidence
		private string // in some private line
		stop    time.Duration
		attend  string // in some line of attention
	}{
		{name: "fits as written", person: somebody("Ana", nil),
			want:   "bike 1000, front-squat 9 42.5 kg, pull-up 12, kettlebell-swing 15 16 kg",
			option: "As written", written: true, trust: roomful.Fair},
		{name: "the fresh rule bounds the bar: 50/(1 + 11/30) = 36.6",
			person: somebody("Bea", func(p *version.Person) { p.Abilities = able(50, 110, 30, 46) }),
			want:   "bike 1000, front-squat 9 35 kg, pull-up 12, kettlebell-swing 15 16 kg",
			option: "Lighter", trust: roomful.Fair},
		{name: "no pull-ups: the first form the sheet offers", person: somebody("Cleo", func(p *version.Person) {
			p.Athlete.Skills = []roomful.SkillLevel{{Movement: "pull-up", Level: roomful.NoSkill}}
		}),
			want:   "bike 1000, front-squat 9 42.5 kg, ring-row 12, kettlebell-swing 15 16 kg",
			option: "As written", oneOff: true, trust: roomful.Fair}, // nobody else needs it: no option of its own
		{name: "a sore back keeps the squat and the hinge", person: somebody("Dora", limit("back", 4)),
			want:   "bike 1000, air-squat 14, pull-up 12, bridge 15",
			option: "As written", oneOff: true, trust: roomful.High, private: "back 4 of 10 today: no loaded bending",
			attend: "Back 4 of 10 today: ask before the ramp. Air squats instead of front squats. Bridges instead of kettlebell swings."},
		{name: "a figure not told counts as one that hurts", person: somebody("Edda", limit("back", -1)),
			want:   "bike 1000, air-squat 14, pull-up 12, bridge 15",
			option: "As written", oneOff: true, trust: roomful.High, private: "back, no figure told",
			attend: "Back, no figure told: ask before the ramp"},
		{name: "a little pain goes ahead with a note", person: somebody("Fay", limit("back", 2)),
			want:   "bike 1000, front-squat 9 42.5 kg, pull-up 12, kettlebell-swing 15 16 kg",
			option: "As written", written: true, trust: roomful.Fair, private: "back 2 of 10 today: go ahead"},
		{name: "first months: three quarters of the time, moderate loads, little trust", person: somebody("Gil", func(p *version.Person) {
			p.Athlete.Months = months(1)
		}),
			want:   "bike 1000, front-squat 9 42.5 kg, pull-up 12, kettlebell-swing 15 16 kg",
			option: "As written", oneOff: true, trust: roomful.Low, stop: 10*time.Minute + 30*time.Second,
			attend: "three quarters of the volume, stop at 10:30."},
		{name: "first week back: half of the time, at four fifths of the load", person: somebody("Hal", limit("returning", -1)),
			want:   "bike 1000, front-squat 9 32.5 kg, pull-up 12, kettlebell-swing 15 12 kg",
			option: "Lighter", oneOff: true, trust: roomful.Fair, stop: 7 * time.Minute, attend: "half the volume, stop at 7:00."},
		{name: "nothing known of the bar: the lightest, and the proof set decides", person: somebody("Ivo", func(p *version.Person) {
			p.Abilities.Dims = slices.DeleteFunc(p.Abilities.Dims, func(d roomful.Dim) bool { return strings.HasPrefix(string(d.Capacity), "1rm front") })
		}),
			want:   "bike 1000, front-squat 9 25 kg, pull-up 12, kettlebell-swing 15 16 kg",
			option: "Lighter", trust: roomful.Low, attend: "watch the proof set at 25 kg"},
		{name: "pregnant: nothing that risks a fall, and four fifths of what is written", person: somebody("Jo", limit("pregnant", -1)),
			want:   "bike 1000, front-squat 9 32.5 kg, pull-up 12, kettlebell-swing 15 12 kg",
			option: "Lighter", trust: roomful.Fair, attend: "their own clinician"},
		{name: "under 18 on the day", person: somebody("Kit", func(p *version.Person) {
			p.Athlete.Born = roomful.Date{Year: 2009, Month: time.March, Day: 5}
		}),
			want:   "bike 1000, front-squat 9 42.5 kg, pull-up 12, kettlebell-swing 15 16 kg",
			option: "As written", written: true, trust: roomful.Fair, attend: "no maximal loads"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := propose(t, day(c.person))
			v := got.Versions[0]
			if told(v) != c.want {
				t.Errorf("version\n got %s\nwant %s", told(v), c.want)
			}
			if v.Option != c.option || v.OneOff != c.oneOff || v.AsWritten != c.written || v.Confidence != c.trust {
				t.Errorf("option %q, one-off %v, as written %v, confidence %s; want %q, %v, %v, %s",
					v.Option, v.OneOff, v.AsWritten, v.Confidence, c.option, c.oneOff, c.written, c.trust)
			}
			if v.Dose.StopAt != c.stop {
				t.Errorf("stops at %v, want %v", v.Dose.StopAt, c.stop)
			}
			var private, attend []string
			for _, ch := range v.Choices {
				private = append(private, ch.Private)
			}
			for _, a := range got.Attention {
				attend = append(attend, a.Why)
			}
			if !strings.Contains(strings.Join(private, "\n"), c.private) {
				t.Errorf("private lines %q do not say %q", private, c.private)
			}
			if !strings.Contains(strings.Join(attend, "\n"), c.attend) || c.attend == "" && len(attend) > 0 {
				t.Errorf("attention %q, want %q", attend, c.attend)
			}
		})
	}
}
