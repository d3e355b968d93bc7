package picture

import (
	"math"
	"time"

	"roomful"
)

// example is a picture that the goldens keep, of the invented gym's people.
type example struct {
	name    string
	picture Picture
}

// mins makes minutes shorter to write.
func mins(n float64) time.Duration { return time.Duration(n * float64(time.Minute)) }

// hourOf lays lines end to end.
func hourOf(length time.Duration, lines ...roomful.HourLine) *roomful.Hour {
	h := &roomful.Hour{Length: length, Amber: length - mins(4), Red: length}
	at := time.Duration(0)
	for _, l := range lines {
		l.Start, l.End = at, at+l.End
		at = l.End
		h.Lines = append(h.Lines, l)
	}
	return h
}

// line is a line that lasts so long.
func line(kind roomful.HourKind, lasts float64, part string, heat int, what string) roomful.HourLine {
	return roomful.HourLine{End: mins(lasts), Kind: kind, Part: part, Heat: heat, What: what}
}

// usualHour is a class of 56 minutes of 60.
func usualHour() *roomful.Hour {
	return hourOf(mins(60),
		line(roomful.HourBriefing, 4, "", 0, "briefing"),
		line(roomful.HourWarmUp, 6, "", 0, "warm-up"),
		line(roomful.HourRamp, 9, "main", 0, "ramp: front squat to your load"),
		line(roomful.HourSetUp, 3, "main", 0, "set up, water"),
		line(roomful.HourWork, 14, "main", 0, "main: as many rounds as possible in 14 min"),
		line(roomful.HourScores, 3, "", 0, "scores"),
		line(roomful.HourMobility, 7, "", 0, "mobility"),
		line(roomful.HourReset, 4, "", 0, "reset the room"),
	)
}

// longHour runs over with two heats.
func longHour() *roomful.Hour {
	return hourOf(mins(60),
		line(roomful.HourBriefing, 4, "", 0, "briefing"),
		line(roomful.HourWarmUp, 5+1/3.0, "", 0, "warm-up"),
		line(roomful.HourRamp, 8, "strength", 0, "ramp back squat"),
		line(roomful.HourWork, 12.5, "strength", 0, "strength: 5 x 5, every 2:30"),
		line(roomful.HourChange, 2, "main", 0, "change over"),
		line(roomful.HourWork, 12, "main", 1, "main, heat 1"),
		line(roomful.HourChange, 1, "main", 0, "change over"),
		line(roomful.HourWork, 12, "main", 2, "main, heat 2"),
		line(roomful.HourScores, 3, "", 0, "scores"),
		line(roomful.HourReset, 4, "", 0, "reset the room"),
	)
}

// kgs are masses in kilograms.
func kgs(vs ...float64) (ms []roomful.Mass) {
	for _, v := range vs {
		ms = append(ms, roomful.Kg(v))
	}
	return ms
}

// lbs are masses in pounds.
func lbs(vs ...float64) (ms []roomful.Mass) {
	for _, v := range vs {
		ms = append(ms, roomful.Lb(v))
	}
	return ms
}

// q are quantiles.
func q(low, middle, high float64) roomful.Quantiles {
	return roomful.Quantiles{P05: low, P50: middle, P95: high}
}

// unknown is a forecast that there is none of.
var unknown = q(math.NaN(), math.NaN(), math.NaN())

// roundsForecast is a day of rounds with three options.
func roundsForecast() Forecasts {
	return Forecasts{
		Piece: "main", Kind: roomful.RoundsScore,
		Effort: roomful.Effort{Low: 5, High: 7, Unit: "rounds", Feel: "steady"},
		Groups: []ForecastGroup{
			{Disc, "As written", []ForecastRow{
				{"Adaeze", q(5.25, 6.2, 7.1), 36}, {"Bram", q(4.6, 5.5, 6.4), 36}, {"Ilse", q(3.7, 4.4, 5.2), 36},
				{"Tomas", q(6.8, 8.1, 9.2), 36},
			}},
			{Triangle, "Lighter, banded", []ForecastRow{
				{"Carys", q(4.9, 5.9, 6.8), 33}, {"Hana of the Umbrella Works", q(5.1, 6, 6.9), 33}, {"Mirko", q(4.3, 5.2, 6.4), 33},
			}},
			{Square, "Rows, goblet", []ForecastRow{{"Gwen", q(4.2, 5.4, 6.9), 33}, {"Osman", unknown, 33}}},
		},
	}
}

// timesForecast is a day against the clock, for one person.
func timesForecast() Forecasts {
	return Forecasts{
		Piece: "main", Kind: roomful.TimeScore,
		Effort: roomful.Effort{Low: 8, High: 11, Unit: "minutes"},
		Groups: []ForecastGroup{{None, "", []ForecastRow{{Name: "Dov", Score: q(537, 611, 702)}}}},
	}
}

// roundsOutcome is what came of the day of rounds.
func roundsOutcome() Outcome {
	return Outcome{
		Piece: "main", Kind: roomful.RoundsScore,
		Effort: roomful.Effort{Low: 5, High: 7, Unit: "rounds", Feel: "steady"},
		Groups: []OutcomeGroup{
			{Disc, "As written", []Scored{
				{"Adaeze", 6 + 4/36.0, 36, false}, {"Bram", 5.5, 36, false}, {"Ilse", 4 + 20/36.0, 36, false}, {"Tomas", 8.25, 36, false},
			}},
			{Triangle, "Lighter, banded", []Scored{
				{"Carys", 5 + 24/33.0, 33, false}, {"Hana", 5 + 22/33.0, 33, false}, {"Mirko", 5 + 25/33.0, 33, false},
				{"Priya", 5 + 23/33.0, 33, false}, {"Dov", 6.1, 33, false},
			}},
			{Square, "Rows, goblet", []Scored{{"Gwen", 6, 33, false}, {"Osman", math.NaN(), 33, false}}},
			{Lozenge, "Bike and carry", nil},
		},
	}
}

// timesOutcome is against the clock with a cap of 12 minutes.
func timesOutcome() Outcome {
	return Outcome{
		Piece: "main", Kind: roomful.TimeScore,
		Effort: roomful.Effort{Low: 8, High: 11, Unit: "minutes"},
		Groups: []OutcomeGroup{
			{Disc, "As written", []Scored{{"Adaeze", 509, 0, false}, {"Bram", 660, 0, false}, {"Ilse", 720, 0, true}, {"Lotte", 720, 0, true}}},
			{Triangle, "Lighter", []Scored{{"Carys", 455, 0, false}}},
		},
	}
}

// on is a day.
func on(y, m, d int) roomful.Date { return roomful.Date{Year: y, Month: time.Month(m), Day: d} }

// roundsRecord is three years of one piece.
func roundsRecord() Attempts {
	return Attempts{
		Piece: "Gannet Ledge", Kind: roomful.RoundsScore, Beat: 5 + 21/36.0, PerRound: 36,
		Scores: []Attempt{
			{On: on(2025, 2, 11), Score: 4.25, PerRound: 36, Changed: "27.5 kg"},
			{On: on(2025, 6, 3), Score: 4 + 30/36.0, PerRound: 36},
			{On: on(2025, 11, 20), Score: 5 + 2/36.0, PerRound: 36},
			{On: on(2026, 5, 7), Score: 5.5, PerRound: 33, Changed: "banded pull-ups"},
			{On: on(2026, 11, 12), Score: 5 + 20/36.0, PerRound: 36},
			{On: on(2027, 3, 4), Score: 5 + 8/36.0, PerRound: 36},
		},
	}
}

// timesRecord is a piece against the clock.
func timesRecord() Attempts {
	return Attempts{
		Piece: "Ferrule", Kind: roomful.TimeScore, Beat: 575,
		Scores: []Attempt{
			{On: on(2026, 9, 1), Score: 720, AtLeast: true},
			{On: on(2026, 10, 13), Score: 664},
			{On: on(2026, 12, 8), Score: 598},
			{On: on(2027, 1, 19), Score: 576},
		},
	}
}

// examples are all pictures that the goldens keep.
func examples() []example {
	now := mins(27)
	late := mins(61)
	return []example{
		{"hour", Hour(usualHour(), &now)},
		{"hour-over", Hour(longHour(), &late)},
		{"hour-none", Hour(nil, nil)},
		{"bar-kg", Bar(roomful.SideLoad{Bar: roomful.Kg(15), PerSide: kgs(10)})},
		{"bar-all", Bar(roomful.SideLoad{Bar: roomful.Kg(20), PerSide: kgs(25, 20, 15, 10, 5, 2.5, 2, 1.5, 1, 0.5)})},
		{"bar-lb", Bar(roomful.SideLoad{Bar: roomful.Lb(45), PerSide: lbs(45, 25, 10, 2.5)})},
		{"bar-empty", Bar(roomful.SideLoad{Bar: roomful.Kg(20)})},
		{"forecast-rounds", Forecast(roundsForecast())},
		{"forecast-times", Forecast(timesForecast())},
		{"forecast-none", Forecast(Forecasts{Piece: "main", Kind: roomful.LoadScore})},
		{"record-rounds", Record(roundsRecord())},
		{"record-times", Record(timesRecord())},
		{"record-one", Record(Attempts{Piece: "Linseed", Kind: roomful.LoadScore, Beat: math.NaN(),
			Scores: []Attempt{{On: on(2027, 1, 19), Score: 82.5}}})},
		{"record-none", Record(Attempts{Piece: "Linseed", Kind: roomful.LoadScore, Beat: math.NaN()})},
		{"after-rounds", After(roundsOutcome())},
		{"after-times", After(timesOutcome())},
	}
}
