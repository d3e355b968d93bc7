package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"

	"roomful"
	"roomful/catalogue"
	"roomful/notation"
)

// commands are what the command prints: its help, and everybody's versions of
// every scored part of the demonstration's sheets, in the room and at home.
func commands() ([]sentence, error) {
	dir, err := os.MkdirTemp("", "words")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	bin := filepath.Join(dir, "roomful")
	if out, err := exec.Command("go", "build", "-o", bin, "./cmd/roomful").CombinedOutput(); err != nil {
		return nil, fmt.Errorf("building the command: %v\n%s", err, out)
	}
	out, err := helpTexts(bin)
	if err != nil {
		return nil, err
	}
	sheets, err := filepath.Glob("demo/sheets/*.txt")
	if err != nil || len(sheets) == 0 {
		return nil, fmt.Errorf("the demonstration has no sheets: %v", err)
	}
	lex, err := catalogue.Load()
	if err != nil {
		return nil, err
	}
	limited, pairs := filepath.Join(dir, "people.csv"), filepath.Join(dir, "pairs.txt")
	if err := everyLimit(limited); err != nil {
		return nil, err
	}
	if err := os.WriteFile(pairs, []byte(shared), 0o600); err != nil {
		return nil, err
	}
	sheets = append(sheets, pairs)
	for _, sheet := range sheets {
		for _, people := range []string{"demo/people.csv", limited} {
			got, err := versions(bin, sheet, people, lex)
			if err != nil {
				return nil, err
			}
			out = append(out, got...)
		}
	}
	return out, nil
}

// shared is a piece whose amounts are a pair's together.
const shared = `main: for time in pairs
  2 km row
  100 wall balls 9/6 kg
  80 burpees
  60 deadlifts 80/55 kg
`

// everyLimit writes people with each limit that somebody may tell of, a pain that
// refers out, and the states of somebody new and somebody young.
func everyLimit(file string) error {
	var b strings.Builder
	b.WriteString("name,division,born,mass_kg,months,deadlift_kg,limits\n")
	for _, l := range roomful.LimitWords {
		fmt.Fprintf(&b, "Limit %s,b,1990,65,40,90,%s:4\n", l, l)
	}
	b.WriteString("Sent away,a,1990,80,40,120,back:8\nAware,a,1990,80,40,120,knee:2\nNew,a,1990,80,1,,\nYoung,b,2012,50,8,,\n")
	return os.WriteFile(file, []byte(b.String()), 0o600)
}

// versions are the words of everybody's versions of a sheet, by a file of people.
func versions(bin, sheet, people string, lex roomful.Lexicon) ([]sentence, error) {
	text, err := os.ReadFile(sheet)
	if err != nil {
		return nil, err
	}
	session, _ := notation.Read(string(text), lex)
	var out []sentence
	for _, part := range session.Parts {
		for _, where := range []string{"--kit=demo/kit.yaml", "--home"} {
			if !part.Scored {
				continue
			}
			printed, err := exec.Command(bin, "versions", "--json", "--sheet", sheet, "--people", people, "--piece", part.Name(), where).Output()
			if err != nil {
				return nil, fmt.Errorf("versions of %s, %s, %s: %v\n%s", sheet, part.Name(), where, err, printed)
			}
			var lineup any
			if err := json.Unmarshal(printed, &lineup); err != nil {
				return nil, err
			}
			out = append(out, worded(fmt.Sprintf("%s %s %s", filepath.Base(sheet), part.Name(), where), "", lineup)...)
		}
	}
	return out, nil
}

// kinds gives the fields of a lineup that are read by people.
var kinds = map[string]kind{
	"why": reason, "why_private": reason, "say": reason, "stop": reason, "summary": answer, "detail": answer, "hint": answer,
	"cautions": caution, "caution": caution, "option": name,
}

// cited matches the source that a caution gives in brackets, which may hold
// brackets of its own.
var cited = regexp.MustCompile(` \((?:[^()]|\([^()]*\))*\)`)

// worded lists the texts of a JSON value; field is what it stands under.
func worded(place, field string, value any) []sentence {
	var out []sentence
	switch v := value.(type) {
	case map[string]any:
		if n, ok := v["name"].(string); ok {
			place += " " + n
		}
		for key, inner := range v {
			out = append(out, worded(place, key, inner)...)
		}
	case []any:
		for _, inner := range v {
			out = append(out, worded(place, field, inner)...)
		}
	case string:
		if k, ok := kinds[field]; ok {
			if k == caution {
				v = cited.ReplaceAllString(v, "")
			}
			out = append(out, sentence{k, place + " " + field, v})
		}
	}
	return out
}

// verb matches a verb in the list of the command's help.
var verb = regexp.MustCompile(`(?m)^  ([a-z]+)\b.*\[flags\]$`)

// helpTexts are the help of the command and of each verb, and the caution that
// goes with every list of swaps.
func helpTexts(bin string) ([]sentence, error) {
	top, err := exec.Command(bin, "--help").Output()
	if err != nil {
		return nil, err
	}
	out := helpLines("roomful --help", string(top))
	verbs := verb.FindAllStringSubmatch(string(top), -1)
	if len(verbs) == 0 {
		return nil, fmt.Errorf("the help lists no verbs:\n%s", top)
	}
	for _, v := range verbs {
		text, err := exec.Command(bin, v[1], "--help").Output()
		if err != nil {
			return nil, err
		}
		out = append(out, helpLines("roomful "+v[1]+" --help", string(text))...)
	}
	swaps, err := exec.Command(bin, "movement", "box-jump", "--for", "knee", "--json").Output()
	if err != nil {
		return nil, err
	}
	var movement any
	if err := json.Unmarshal(swaps, &movement); err != nil {
		return nil, err
	}
	return append(out, worded("roomful movement", "", movement)...), nil
}

var (
	heading = regexp.MustCompile(`^(?:Usage|Flags|Commands|Arguments|Run )|^  \S[^-]*\[flags\]$`)
	flagged = regexp.MustCompile(`^\s+(?:(?:-\w, )?\s*--\S+|[<\[]\S+)\s{2,}(.*)$`)
	further = regexp.MustCompile(`^\s{8,}(\S.*)$`)
)

// helpLines joins the wrapped lines of a help text into sentences.
func helpLines(place, text string) []sentence {
	var out []sentence
	open := false // whether a line of plain text goes on
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		m, f := flagged.FindStringSubmatch(line), further.FindStringSubmatch(line)
		switch {
		case line == "" || heading.MatchString(line):
			open = false
		case m != nil:
			out, open = append(out, sentence{help, place, m[1]}), false
		case f != nil && len(out) > 0:
			out[len(out)-1].text += " " + f[1]
		case open:
			out[len(out)-1].text += " " + strings.TrimSpace(line)
		default:
			out, open = append(out, sentence{help, place, strings.TrimSpace(line)}), true
		}
	}
	return out
}
