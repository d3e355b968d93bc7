package canon

import (
	"strings"
	"time"

	"roomful"
	"roomful/notation/internal/vocab"
)

// formatClauses writes the head of a part: its format, then what else holds.
func formatClauses(part roomful.Part) []string {
	clauses := formatOf(part)
	clauses = append(clauses, teamClauses(part.Team)...)
	if part.ScoreBy != "" {
		clauses = append(clauses, "score is "+part.ScoreBy)
	}
	if !part.Scored && vocab.Scored(part.Kind) {
		clauses = append(clauses, "not scored")
	}
	return clauses
}

// formatOf writes the format alone.
func formatOf(part roomful.Part) []string {
	switch f := part.Format.(type) {
	case roomful.RoundsInTime:
		return withLadder("as many rounds as possible"+in(f.Window), f.Ladder)
	case roomful.AmountInTime:
		clauses := []string{"as many as possible" + in(f.Window)}
		if f.Unbroken {
			clauses = append(clauses, "unbroken")
		}
		return clauses
	case roomful.ForTime:
		return forTimeClauses(f)
	case roomful.Every:
		return []string{everyClause(f.Interval, f.Count)}
	case roomful.Intervals:
		return intervalsClauses(f)
	case roomful.Stations:
		return []string{StationsText(f)}
	case roomful.Sets:
		return setsClauses(part, f)
	case roomful.Unscored:
		return unscoredClauses(f)
	case nil:
		return nil
	default:
		panic("notation: a format the printer does not know")
	}
}

// in writes the window of a piece that has one.
func in(d time.Duration) string {
	if d == 0 {
		return ""
	}
	return " in " + vocab.Length(d)
}

func withLadder(text string, l roomful.Ladder) []string {
	if len(l.Steps) == 0 {
		return []string{text}
	}
	return []string{text, Steps(l)}
}

func forTimeClauses(f roomful.ForTime) []string {
	text := "for time"
	switch {
	case len(f.Ladder.Steps) > 0:
		text = Steps(f.Ladder) + " for time"
	case f.Rounds != 1:
		text = roomful.Figure(float64(f.Rounds)) + " rounds for time"
	}
	clauses := []string{text}
	if f.Cap > 0 {
		clauses = append(clauses, "cap "+vocab.Length(f.Cap))
	}
	if f.Rest > 0 {
		clauses = append(clauses, "rest "+vocab.Length(f.Rest)+" between rounds")
	}
	return clauses
}

// everyClause writes "every minute x 12"; the count is left out when it is not
// known.
func everyClause(d time.Duration, n int) string {
	text := "every " + vocab.Length(d)
	if d == time.Minute {
		text = "every minute"
	}
	if n > 0 {
		text += " x " + roomful.Figure(float64(n))
	}
	return text
}

func intervalsClauses(f roomful.Intervals) []string {
	n := roomful.Figure(float64(f.Count))
	switch {
	case f.Work > 0 && f.Rest > 0:
		return []string{n + " x " + vocab.Length(f.Work) + " work / " + vocab.Length(f.Rest) + " rest"}
	case f.Work > 0:
		return []string{n + " x " + vocab.Length(f.Work) + " work"}
	case f.Rest > 0:
		return []string{plural(f.Count, "interval"), "rest " + vocab.Length(f.Rest)}
	}
	return []string{plural(f.Count, "interval")}
}

// StationsText writes rounds of timed stations.
func StationsText(f roomful.Stations) string {
	text := plural(f.Rounds, "round") + " of " + vocab.Length(f.Work) + " stations"
	if f.Work == 0 {
		text = plural(f.Rounds, "round") + " of stations"
	}
	switch {
	case f.Change > 0 && f.Resting:
		text += ", " + vocab.Length(f.Change) + " rest between stations"
	case f.Change > 0:
		text += ", " + vocab.Length(f.Change) + " change"
	}
	if f.Rest > 0 {
		text += ", rest " + vocab.Length(f.Rest) + " between rounds"
	}
	return text
}

func setsClauses(part roomful.Part, f roomful.Sets) []string {
	clauses := []string{setsClause(part, f)}
	if f.Build && f.Count > 0 {
		clauses = append(clauses, roomful.Figure(float64(f.Count))+" sets")
	}
	if f.Every > 0 {
		clauses = append(clauses, everyClause(f.Every, 0))
	}
	if f.Rest > 0 {
		clauses = append(clauses, "rest "+vocab.Length(f.Rest))
	}
	if f.Within > 0 {
		clauses = append(clauses, "in "+vocab.Length(f.Within))
	}
	return clauses
}

func unscoredClauses(f roomful.Unscored) []string {
	var clauses []string
	if f.Rounds > 0 {
		clauses = append(clauses, plural(f.Rounds, "round"))
	}
	if f.Each > 0 {
		clauses = append(clauses, vocab.Length(f.Each)+" each")
	}
	if f.Duration > 0 {
		clauses = append(clauses, vocab.Length(f.Duration))
	}
	return clauses
}

// plural writes a count of things.
func plural(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return roomful.Figure(float64(n)) + " " + thing
}

func teamClauses(t roomful.Team) []string {
	if t.Size == 0 {
		return nil
	}
	who := "in teams of " + roomful.Figure(float64(t.Size))
	switch t.Size {
	case 2:
		who = "in pairs"
	case 3:
		who = "in threes"
	}
	how := map[roomful.TeamStyle]string{roomful.Shared: "share the work", roomful.Alternating: "you go I go", roomful.Synchronised: "synchronised"}[t.Style]
	if how == "" {
		return []string{who}
	}
	return []string{who, how}
}

// setsClause writes how many sets of how many repetitions.
func setsClause(part roomful.Part, f roomful.Sets) string {
	reps, same := sameReps(part)
	n := roomful.Figure(float64(f.Count))
	switch {
	case f.Build && same:
		return "build to a heavy " + roomful.Figure(reps)
	case f.Build:
		return "build to a heavy set"
	case len(f.Reps) > 0:
		return "sets of " + Steps(roomful.Ladder{Steps: f.Reps})
	case same && len(part.Round) == 1:
		return n + " x " + roomful.Figure(reps)
	case f.Count == 1:
		return "1 set"
	}
	return n + " sets"
}

// sameReps returns the repetitions that every element of a set has.
func sameReps(part roomful.Part) (float64, bool) {
	var reps float64
	for i, e := range part.Round {
		a := e.Amount
		if e.Movement == "" || a.Unit != roomful.Rep || len(a.By) != 1 || i > 0 && a.By[0] != reps || a.By[0] != float64(int(a.By[0])) {
			return 0, false
		}
		reps = a.By[0]
	}
	return reps, len(part.Round) > 0
}

// Steps writes a ladder.
func Steps(l roomful.Ladder) string {
	var list []string
	for _, n := range l.Steps {
		list = append(list, roomful.Figure(float64(n)))
	}
	text := strings.Join(list, "-")
	if l.Open {
		text += "-..."
	}
	return text
}
