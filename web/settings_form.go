package web

import (
	"net/url"
	"slices"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/web/page"
)

// settingGroups are the groups of settings by how their keys begin, the longest last.
var settingGroups = []struct{ begins, legend string }{
	{"", "The gym"}, {"hour.", "The hour"}, {"weeks.", "The weeks"}, {"weeks.windows.", "Days a week"},
	{"cautions.add.", "Your words after our cautions"}, {"cautions.replace.", "Your words in place of ours"}, {"emergency.", "In an emergency"},
}

// groupOf is the group that a key belongs to, and the rest of the key.
func groupOf(key string) (group int, name string) {
	for i, g := range settingGroups {
		if rest, is := strings.CutPrefix(key, g.begins); is {
			group, name = i, rest
		}
	}
	return group, name
}

// settingValues are the fields of the form: what the gym has said itself.
func settingValues(gym roomful.Gym) url.Values {
	out := url.Values{}
	for _, s := range roomful.Settings() {
		if gym.Owns(s.Key) {
			out.Set(s.Key, s.Text(gym))
		}
	}
	if len(gym.Ratios) > 0 {
		out.Set("ratios", ratioLines(gym.Ratios))
	}
	return out
}

// ratioLines writes ratios as the text has them, a movement a line.
func ratioLines(all roomful.Ratios) string {
	var out []string
	for from, to := range all {
		var parts []string
		for id, n := range to {
			parts = append(parts, string(id)+": "+roomful.Figure(n))
		}
		slices.Sort(parts)
		out = append(out, string(from)+": {"+strings.Join(parts, ", ")+"}")
	}
	slices.Sort(out)
	return strings.Join(out, "\n")
}

// settingsPage lays the settings out: each by what it is for, in plain words, with its usual
// value.
func settingsPage(v visit, gym roomful.Gym, sent url.Values, wrong map[string]string) page.Settings {
	out := page.Settings{May: v.May(account.EditSettings), Owner: v.May(account.EditSettings)}
	for _, g := range settingGroups {
		out.Groups = append(out.Groups, page.SettingGroup{Legend: g.legend})
	}
	for _, s := range roomful.Settings() {
		i, name := groupOf(s.Key)
		group := &out.Groups[i]
		label := capital(s.Help)
		if holds := s.Text(gym); holds != "" {
			group.Facts = append(group.Facts, page.Fact{Name: label, Value: holds})
		}
		if !out.May {
			continue
		}
		f := page.Input{Name: s.Key, Label: label, Small: settingSays(s, name, gym), Value: sent.Get(s.Key), Wrong: wrong[s.Key], Most: 2000}
		switch s.In(&gym).(type) {
		case *roomful.Ratios:
			f.Type, f.Small = page.Area, "A movement a line, such as row: {ski: 1, bike: 2}. "+inSentences(s.Source)
		case *roomful.MassUnit:
			f.Type, f.Choices = page.Pick, []page.Choice{{Value: "kg", Label: "kg"}, {Value: "lb", Label: "lb"}}
		case *roomful.CapPolicy:
			f.Type, f.Choices = page.Pick, []page.Choice{{Label: "as usual"}}
			for _, policy := range roomful.CapPolicies {
				f.Choices = append(f.Choices, page.Choice{Value: string(policy), Label: string(policy)})
			}
		case *string:
			if strings.HasPrefix(s.Key, "cautions.") || s.Key == "emergency.address" || s.Key == "emergency.stop" {
				f.Type = page.Area
			}
		}
		group.Fields = append(group.Fields, f)
		group.Open = group.Open || f.Value != "" || f.Wrong != ""
		out.Wrong = append(out.Wrong, wrongOnes([]page.Input{f})...)
	}
	return out
}

// settingSays is the usual value of a setting and where that is from, and its name in the
// text.
func settingSays(s roomful.Setting, name string, gym roomful.Gym) string {
	if usual := s.DefaultIn(gym.Unit); usual != "" {
		return "Usually " + usual + ", by " + s.Source + ". In the text: " + name
	}
	return "In the text: " + name
}

// settingLines are the lines of the settings' text, as a form has them; there is one at least.
func settingLines(sent url.Values) (out []textLine) {
	var open []string // the sections that are begun
	for _, s := range roomful.Settings() {
		value := strings.TrimSpace(sent.Get(s.Key))
		if value == "" {
			continue
		}
		parts := strings.Split(s.Key, ".")
		sections := parts[:len(parts)-1]
		for i, name := range sections {
			if i >= len(open) || open[i] != name {
				open = append(slices.Clone(open[:min(i, len(open))]), name)
				out = append(out, textLine{"", strings.Repeat("  ", i) + name + ":"})
			}
		}
		open = open[:len(sections)]
		indent := strings.Repeat("  ", len(sections))
		if s.Key != "ratios" {
			out = append(out, textLine{s.Key, indent + parts[len(parts)-1] + ": " + scalar(value)})
			continue
		}
		out = append(out, textLine{s.Key, "ratios:"})
		for line := range strings.Lines(value) {
			if line = strings.TrimSpace(line); line != "" {
				out = append(out, textLine{s.Key, "  " + line})
			}
		}
	}
	if len(out) == 0 { // all is as usual, which is said in one line: a text of none is no settings
		out = []textLine{{"unit", "unit: kg"}}
	}
	return out
}
