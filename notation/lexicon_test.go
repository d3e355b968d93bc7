package notation_test

import (
	"strings"

	"roomful"
)

// toy is a lexicon of what the cases need. The real one is tried on the same
// cases in catalogue_test.go.
type toy struct {
	all  []*roomful.Movement
	by   map[string]*roomful.Movement
	byID map[roomful.MovementID]*roomful.Movement
}

// toyRows lists movements: id, irregular plural, other names, implement, kit,
// units (r, m, c, s) and modality; empty columns take the usual.
const toyRows = `
air-squat||squat,bodyweight squat|||r|body
back-squat|||barbell||r|loaded
front-squat|||barbell||r|loaded
overhead-squat||ohs|barbell||r|loaded
goblet-squat|||kettlebell||r|loaded
deadlift||dl|barbell||r|loaded
clean|||barbell||r|loaded
power-clean|||barbell||r|loaded
hang-power-clean|||barbell||r|loaded
clean-and-jerk|cleans and jerks|c&j|barbell||r|loaded
snatch|snatches||barbell||r|loaded
power-snatch|power snatches||barbell||r|loaded
push-press|push presses||barbell||r|loaded
press|presses|strict press,shoulder press|barbell||r|loaded
push-jerk|||barbell||r|loaded
bench-press|bench presses|bench|barbell||r|loaded
thruster|||barbell||r|loaded
dumbbell-thruster||db thruster|dumbbell||r|loaded
dumbbell-snatch|dumbbell snatches|db snatch|dumbbell||r|loaded
dumbbell-push-press|dumbbell push presses|db push press|dumbbell||r|loaded
dumbbell-row||db row|dumbbell||r|loaded
dumbbell-bench-press|dumbbell bench presses|db bench press,db bench|dumbbell||r|loaded
dumbbell-swing|||dumbbell||r|loaded
kettlebell-swing||kb swing,swing,kbs|kettlebell||r|loaded
kettlebell-deadlift||kb deadlift|kettlebell||r|loaded
wall-ball||wall throw,wb|ball|wall-target|r|loaded
row||rower|row||m,c|machine
ski|skis|ski machine|ski||m,c|machine
bike|||bike||m,c|machine
fan-bike|||fan-bike||m,c|machine
run|||||m|foot
shuttle-run|||||m,r|foot
double-under||du,dus,dubs|||r|body
single-under||su|||r|body
box-jump||bj||box|r|body
box-jump-over|box jump-overs|||box|r|body
box-step-up||step-up||box|r|body
burpee|||||r|body
burpee-without-push-up|burpees without push-up|no push-up burpee,burpee no push-up,up-down|||r|body
burpee-box-jump-over|burpee box jump-overs|||box|r|body
bar-facing-burpee||burpee over the bar,burpees over the bar|||r|body
pull-up||pullup,pu||pull-up-bar|r|body
strict-pull-up||||pull-up-bar|r|body
chest-to-bar-pull-up||c2b,chest to bar||pull-up-bar|r|body
banded-pull-up||||pull-up-bar|r|body
ring-row||||rings|r|body
toes-to-bar|toes-to-bar|t2b,ttb||pull-up-bar|r|body
knee-raise||hanging knee raise||pull-up-bar|r|body
muscle-up||||rings|r|body
push-up||pushup,press-up|||r|body
handstand-push-up||hspu|||r|body
dip||ring dip|||r|body
sit-up||situp|||r|body
v-up|||||r|body
lunge||walking lunge|||r,m|body
rope-climb||||rope-climb|r|body
farmer-carry|farmer carries|farmer's carry,farmers carry|dumbbell||m,s|carry
sled-push|sled pushes||sled||m|carry
bear-crawl|||||m,r|body
handstand-walk|||||m|body
plank||plank hold|||s|hold
hollow-hold|||||s|hold
wall-sit|||||s|hold
inchworm|||||r|mobility
couch-stretch|couch stretches||||s|mobility
pigeon-stretch|pigeon stretches|pigeon|||s|mobility
childs-pose|childs-pose|child's pose|||s|mobility
jog|||||m|foot
shoulder-pass-through||pvc pass-through|||r|mobility
jumping-jack|||||r|mobility
leg-swing|||||r|mobility
arm-circle|||||r|mobility
good-morning|||barbell||r|loaded
mountain-climber|||||r|body
glute-bridge|||||r|body
devil-press|devil presses||dumbbell||r|loaded
turkish-get-up||tgu|kettlebell||r|loaded
rest|rest||||s|rest
`

func newToy() *toy {
	t := &toy{by: map[string]*roomful.Movement{}, byID: map[roomful.MovementID]*roomful.Movement{}}
	for _, row := range strings.Split(strings.TrimSpace(toyRows), "\n") {
		t.add(strings.Split(row, "|"))
	}
	return t
}

func (t *toy) add(col []string) {
	m := &roomful.Movement{ID: roomful.MovementID(col[0]), Name: strings.ReplaceAll(col[0], "-", " "), Plural: col[1], Implement: roomful.Implement(col[3]), Modality: roomful.Modality(col[6])}
	switch hyphened := strings.Split(col[0], "-"); hyphened[len(hyphened)-1] {
	case "up":
		m.Name = strings.Join(hyphened[:len(hyphened)-2], " ") + " " + strings.Join(hyphened[len(hyphened)-2:], "-")
	case "over", "under":
		m.Name = strings.Join(hyphened[:len(hyphened)-2], " ") + " " + strings.Join(hyphened[len(hyphened)-2:], "-")
	case "bar":
		if col[0] == "toes-to-bar" {
			m.Name = col[0]
		}
	}
	m.Name = strings.TrimSpace(m.Name)
	if m.Plural == "" {
		m.Plural = m.Name + "s"
	}
	if col[4] != "" {
		m.Needs = []string{col[4]}
	}
	for _, u := range strings.Split(col[5], ",") {
		m.Units = append(m.Units, map[string]roomful.Unit{"r": roomful.Rep, "m": roomful.Metre, "c": roomful.Calorie, "s": roomful.Second}[u])
	}
	t.all = append(t.all, m)
	t.byID[m.ID] = m
	for _, name := range append([]string{col[0], m.Name, m.Plural}, strings.Split(col[2], ",")...) {
		if name == "" {
			continue
		}
		m.Also = append(m.Also, name)
		for _, form := range []string{name, name + "s", name + "es"} {
			for _, key := range []string{squash(form), squash(strings.ReplaceAll(strings.ReplaceAll(form, "db ", "dumbbell "), "kb ", "kettlebell "))} {
				if t.by[key] == nil {
					t.by[key] = m
				}
			}
		}
	}
}

func squash(s string) string {
	s = strings.ToLower(strings.ReplaceAll(s, "&", "and"))
	return joints.Replace(s)
}

// joints are what makes no difference within a name.
var joints = strings.NewReplacer("-", "", " ", "", "'", "")

func (t *toy) Movement(id roomful.MovementID) *roomful.Movement { return t.byID[id] }
func (t *toy) All() []*roomful.Movement                         { return t.all }

func (t *toy) Match(words []string) (found *roomful.Movement, took int) {
	key := ""
	for i, w := range words[:min(len(words), 6)] {
		switch w {
		case "kb":
			w = "kettlebell"
		case "db":
			w = "dumbbell"
		}
		key += squash(w)
		if m := t.by[key]; m != nil {
			found, took = m, i+1
		}
	}
	return found, took
}

// Suggest offers what differs by one letter, or shares all but one word.
func (t *toy) Suggest(words string) []*roomful.Movement {
	key := squash(words)
	var out []*roomful.Movement
	for _, m := range t.all {
		for _, name := range m.Also {
			if near(key, squash(name)) || near(key, squash(name)+"s") {
				out = append(out, m)
				break
			}
		}
	}
	return out
}

func near(a, b string) bool {
	if len(a) < 4 || len(a)-len(b) > 1 || len(b)-len(a) > 1 {
		return false
	}
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	a, b = a[i:], b[i:]
	if len(a) > 1 && len(b) > 1 && a[0] == b[1] && a[1] == b[0] && a[2:] == b[2:] {
		return true
	}
	switch {
	case len(a) == len(b):
		return len(a) == 0 || a[1:] == b[1:]
	case len(a) > len(b):
		return a[1:] == b
	}
	return b[1:] == a
}
