package exchange

import "roomful"

// Settings is how a gym likes things, every setting in the order of the file.
type Settings struct {
	Settings    []Setting    `json:"settings"`
	Diagnostics []Diagnostic `json:"diagnostics"`
}

// Setting is one of them. A value is a number in the unit, a text, a span of
// whole numbers or, for the ratios, so many of other movements for one of each;
// null when nothing is said.
type Setting struct {
	Key     string   `json:"key"`
	Value   any      `json:"value"`
	Unit    *string  `json:"unit"`
	Default any      `json:"default"`
	Own     bool     `json:"own"` // said by the gym; else usual
	Least   *float64 `json:"least"`
	Most    *float64 `json:"most"`
	Source  string   `json:"source"` // of the default
	Help    string   `json:"help"`
}

// Span is a least and a most, both allowed.
type Span struct {
	Least int `json:"least"`
	Most  int `json:"most"`
}

// SettingsOf turns the settings of a gym into JSON.
func SettingsOf(g roomful.Gym) Settings {
	out := Settings{Settings: []Setting{}, Diagnostics: []Diagnostic{}}
	for _, s := range roomful.Settings() {
		one := Setting{Key: s.Key, Value: valueOf(s, g), Default: valueOf(s, s.Usual(g)), Own: g.Owns(s.Key),
			Unit: word(s.Unit), Source: s.Source, Help: s.Help}
		if _, mass := s.In(&g).(*roomful.Mass); mass {
			one.Unit = word(g.Unit.String())
		}
		if s.Most > 0 {
			one.Least, one.Most = &s.Least, &s.Most
		}
		out.Settings = append(out.Settings, one)
	}
	return out
}

// valueOf is what a gym has set, as JSON knows it.
func valueOf(s roomful.Setting, g roomful.Gym) any {
	if v, ok := s.Figure(g); ok {
		return figure(v)
	}
	switch at := s.In(&g).(type) {
	case *roomful.Ratios:
		if *at == nil {
			return roomful.Ratios{}
		}
		return *at
	case *roomful.Span:
		return Span(*at)
	}
	return word(s.Text(g))
}
