package version

import (
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/piece"
)

// SoreQuestion asks what somebody does who says that something hurts.
type SoreQuestion struct {
	Request // the piece, with the person among its people
	// Version is what they do of it today, before anything hurts more.
	Version roomful.Version
	roomful.Complaint
}

// remedies is how many ways to go on somebody is offered: enough to choose from,
// few enough to say while a clock runs.
const remedies = 3

// Relieve answers a complaint. A red flag or pain of 6 or more ends it for the
// day ([Refer]). Pain that hardly counts goes on as it is. In between, three ways
// to go on are offered, in order, from the version that the person has today and
// within every other limit of theirs:
//
//   - the same movement, where there is something to make lighter or shorter: at
//     most two thirds of the load and of the amount;
//   - another movement that the sheet or the catalogue lists for it, of the same
//     pattern before another;
//   - another pattern, or a machine for the same time.
//
// Where only the count could be cut, less of the same comes last.
func Relieve(q SoreQuestion) (roomful.Relief, error) {
	if err := q.Check(); err != nil {
		return roomful.Relief{}, err
	}
	i := slices.IndexFunc(q.People, func(p Person) bool { return newPerson(p, q.On).id == q.Version.Athlete })
	if i < 0 {
		return roomful.Relief{}, &roomful.Error{Summary: fmt.Sprintf("nobody among them is called %q", q.Version.Name), Hint: "ask for somebody who does the piece"}
	}
	who := q.People[i]
	out, stops := Refer(who.Athlete, q.On, q.Gym, q.Complaint)
	if stops {
		return out, nil
	}
	out.Version = q.Version
	r, err := newReliever(q, who)
	if err != nil {
		return out, err
	}
	out.Cautions = r.cautions
	if r.limit.Pain < care.PainActs {
		out.Say = "Go on as you are. Make it lighter if it grows, and tell me at once if it is sharp."
		return out, nil
	}
	return out, r.answer(&out)
}

// Refer ends it for somebody with a red flag, or with pain that is too much: what
// the coach does and says, and nothing to train. When nothing stops them it says
// false, and holds what is to be asked first.
func Refer(who roomful.Athlete, on roomful.Date, gym roomful.Gym, c roomful.Complaint) (out roomful.Relief, stops bool) {
	out = roomful.Relief{Athlete: who.ID, Name: who.Name, Complaint: c, Ask: roomful.FlagsFor(c.Area, who.Limits)}
	for _, id := range c.Flags {
		f, _ := roomful.FlagByID(id)
		out.Urgent = out.Urgent || f.Urgent
	}
	told := care.Of(who, on).Stop
	switch l := c.Limit(); {
	case out.Urgent:
		out.Stop = "Stop now and call for medical help. The gym's emergency card says who calls, who meets them and where the defibrillator is. Somebody stays with them."
		if gym.Emergency.Number+gym.Emergency.Address != "" {
			out.Card = &gym.Emergency
		}
		out.Say = "Stop here and sit down. We are getting you help now, and I am staying with you."
	case len(c.Flags) > 0:
		out.Stop = "Stop here: no more exercise today. Ask them to see a doctor or a physiotherapist before they train again."
	case l.RefersOut():
		out.Stop = "Stop here: " + beyond(l)
	case told != nil:
		out.Stop = "Stop here: " + beyond(*told)
	default:
		return out, false
	}
	if out.Say == "" {
		out.Say = "We stop here today. Please have it looked at before you train again, and tell me what they say."
	}
	out.Cautions = care.StopCautions(gym.Cautions)
	return out, true
}

// beyond says that a limit is not for a coach to work around.
func beyond(l roomful.Limit) string {
	what := "what they told us"
	if l.What != "stop" {
		what = care.Told(l)
	}
	return what + " is not for a coach to work around. No more exercise today: they see a doctor or a physiotherapist before they train again."
}

// answer fills in three ways to go on.
func (r *reliever) answer(out *roomful.Relief) error {
	sore, known, err := r.sore(out.Complaint.Of)
	if err != nil {
		return err
	}
	first := r.leading(sore)
	if !known {
		out.Note = "nothing that " + out.Name + " does is known to load the " + r.limit.What + ": ask which line it is, and name it"
		sore = []int{first}
	}
	for _, fit := range r.ways(first) {
		out.Remedies = append(out.Remedies, r.remedy(first, fit, sore))
	}
	out.Version.Change(out.Remedies[0].Segment)
	return nil
}

// sore lists the lines that hurt: those named, else those that load the area, and
// of either those still ahead when there are any. known is false when it is all
// of them for want of a better answer.
func (r *reliever) sore(of roomful.MovementID) (lines []int, known bool, err error) {
	var named, loads, all []int
	for li, t := range r.p.written {
		m := r.lines[li].Movement
		if t.Movement == roomful.Rest || m == nil {
			continue
		}
		all = append(all, li)
		if of != "" && (t.Movement == of || r.written[li].Movement == of) {
			named = append(named, li)
		}
		if care.Forbids(r.limit, m) {
			loads = append(loads, li)
		}
	}
	switch {
	case of != "" && len(named) == 0, len(all) == 0:
		var does []string
		for _, li := range all {
			does = append(does, r.lines[li].Movement.Name)
		}
		return nil, false, &roomful.Error{Summary: fmt.Sprintf("%s does no %s in %s", r.p.Athlete.Name, of, r.Piece.Name()), Hint: "they do " + strings.Join(does, ", ")}
	case of != "":
		return r.ahead(named), true, nil
	case len(loads) > 0:
		return r.ahead(loads), true, nil
	}
	return r.ahead(all), false, nil
}

// ahead leaves out lines that are likely done by the time on the clock, unless
// that is all of them.
func (r *reliever) ahead(lines []int) []int {
	f, chipper := r.Piece.Format.(roomful.ForTime)
	chipper = chipper && f.Rounds <= 1 && len(f.Ladder.Steps) == 0
	var seconds float64
	done := map[int]bool{}
	for li, t := range r.p.written {
		if seconds += r.seconds(r.p, t); r.lines[li].At != piece.Once && !chipper {
			break
		}
		done[li] = seconds <= r.at.Seconds()
	}
	left := slices.DeleteFunc(slices.Clone(lines), func(li int) bool { return done[li] })
	if len(left) == 0 {
		return lines
	}
	return left
}

// leading is the line that is answered for: the first that is lifted, else the
// first that stands where the sheet has something that loads the area, else the
// first.
func (r *reliever) leading(lines []int) int {
	lifted := func(li int) bool {
		return r.p.written[li].Load.Value > 0 && care.Forbids(r.limit, r.lines[li].Movement)
	}
	stands := func(li int) bool {
		m := r.Lexicon.Movement(r.written[li].Movement)
		return m != nil && m.TakesLoad() && care.Forbids(r.limit, m)
	}
	for _, leads := range []func(int) bool{lifted, stands} {
		if i := slices.IndexFunc(lines, leads); i >= 0 {
			return lines[i]
		}
	}
	return lines[0]
}

// remedy is one way to go on, with the other lines that hurt as they suit it.
func (r *reliever) remedy(first int, fit *fitted, sore []int) roomful.Remedy {
	f := r.fitter(first)
	out := roomful.Remedy{Choice: f.choice(fit), For: r.p.written[first].Movement, Say: r.words(first, fit)}
	tasks := slices.Clone(r.p.written)
	tasks[first] = fit.task
	does := []string{r.change(first, fit.task)}
	for _, li := range sore {
		if li == first {
			continue
		}
		other := r.beside(li, first, fit)
		if piece.Same(r.p.written[li], other.task) {
			continue
		}
		tasks[li] = other.task
		out.Also = append(out.Also, r.fitter(li).choice(other))
		does = append(does, r.change(li, other.task))
	}
	from := "from the start: "
	if r.at > 0 {
		from = "from " + roomful.Clock(r.at.Seconds()) + ": "
	}
	out.Segment = roomful.Segment{From: r.at, Work: r.work(tasks), Say: from + strings.Join(does, ", "), Private: care.Told(r.limit)}
	return out
}

// beside is what another line that hurts becomes: the same as the first when it
// is the same movement, else the best other movement for it.
func (r *reliever) beside(li, first int, fit *fitted) *fitted {
	if r.p.written[li].Movement == r.p.written[first].Movement {
		for _, w := range r.ways(li) {
			if w.task.Movement == fit.task.Movement {
				return w
			}
		}
	}
	return r.elsewhere(li, nil)[0]
}
