package web

import (
	"cmp"
	"net/http"
	"net/url"
	"slices"

	"roomful"
	"roomful/account"
	"roomful/desk"
	"roomful/exchange"
	"roomful/notation"
	"roomful/store"
	"roomful/web/page"
)

// redrawn is what somebody typed into the forms of their day that was not taken: it is
// drawn again with what is wrong with it.
type redrawn struct {
	status int // of the answer; nought for 200
	score  *page.MyScore
	note   *page.MyNotes
	kit    *page.MyKit
}

// myDayPage is a day to those who train on it: their own version of it.
func (s *Server) myDayPage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.myDay(w, q, v, redrawn{})
}

// myDay is a day as the visitor has it, with what they typed into its forms.
func (s *Server) myDay(w http.ResponseWriter, q *http.Request, v visit, again redrawn) error {
	d, frame, body, stages, err := s.myPage(q, v)
	if err != nil {
		return err
	}
	if body.Person != "" {
		if err := s.myScore(q, v, d, &body, stages, again); err != nil {
			return err
		}
	}
	if again.note != nil && body.Notes != nil {
		n := again.note
		body.Notes.ID, body.Notes.Text, body.Notes.Private, body.Notes.Wrong = n.ID, n.Text, n.Private, n.Wrong
	}
	if again.kit != nil {
		body.AskKit = again.kit
	}
	frame.Loads = []string{"my.css"}
	return s.show(w, cmp.Or(again.status, http.StatusOK), frame, body)
}

// myPage gathers a day without the form for its score.
func (s *Server) myPage(q *http.Request, v visit) (d store.Document, frame page.Frame, body page.MyDay, stages []roomful.Stage, err error) {
	var class store.Class
	var who store.Person
	if err = s.view(q, v, func(b *store.Books) (err error) {
		seen, err := s.seen(b, v, q.PathValue("name"))
		if err != nil {
			return err
		}
		d = seen.Document
		if frame, err = s.frame(b, q, v, "/", d.Title); err != nil {
			return err
		}
		if v.Account.Person == "" {
			return nil
		}
		if who, err = b.Person(v.Account.Person); err != nil {
			return err
		}
		if body.Place, class, err = s.placesOf(b, v, d, q.FormValue("class")); err != nil {
			return err
		}
		body.Notes, err = s.notesOf(b, v, d)
		return err
	}); err != nil {
		return d, frame, body, nil, err
	}
	body.DayHead = page.DayHead{Name: d.Name, Title: d.Title, When: inWords(d.Day)}
	body.Person, body.Home = v.Account.Person, q.FormValue("home") != ""
	if class.ID != "" {
		body.When, body.Query = cmp.Or(inWords(class.Day), body.When)+" · "+class.Start, "?class="+url.QueryEscape(class.ID)
	}
	session, _ := s.session(d)
	body.What, body.About = whatItIs(session, s.Lexicon), session.About
	if body.Home {
		body.AskKit = &page.MyKit{Said: exchange.ToldOf(who.Athlete)["home"]}
	}
	if body.Home && who.Home == nil {
		return d, frame, body, nil, nil
	}
	stages, err = s.myVersion(q, v, &body, who.Athlete, d, class.ID)
	return d, frame, body, stages, err
}

// myVersion adds what the visitor does. Where nothing can be worked out the day stands as
// it is written, with why.
func (s *Server) myVersion(q *http.Request, v visit, body *page.MyDay, who roomful.Athlete, d store.Document, class string) ([]roomful.Stage, error) {
	ask := s.askAlone(q, v, who.ID)
	ask.Sheet, ask.Class, ask.Piece, ask.Home = d.Name, class, "", body.Home // a form leads here too: its address has none of these
	got, err := s.Desk.Versions(q.Context(), ask)
	if hint := roomful.HintOf(err); hint != "" {
		body.Wait, body.Written = "Your version is not worked out yet. Until it is, this is what is written.", d.Text
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	session := got.Question.Session
	at := slices.IndexFunc(got.Lineup.Versions, func(o roomful.Version) bool { return o.Athlete == who.ID })
	if at < 0 {
		body.Wait = "Nobody has told what you do yet. Ask your coach to add you to the people who come."
		return nil, nil
	}
	mine := mine{wording: wording{s.Lexicon, who.Unit}, session: session, version: got.Lineup.Versions[at], sheet: body.Name, person: who.ID, class: class, home: body.Home}
	if at < len(got.Days) {
		mine.stages = got.Days[at].Stages
	}
	body.Stop, body.Caution = mine.version.Stop, mine.version.Cautions
	if body.Stop == "" {
		body.Parts = mine.parts()
	}
	if body.Stop == "" && !body.Home { // at home it is none of the room's
		body.Option = optionOf(got.Lineup, mine.version)
		if body.Option.Word, err = s.wordOf(q, v, d, session, mine); err != nil {
			return nil, err
		}
	}
	return mine.stages, nil
}

// wordOf says by whose word somebody does what they do; empty when it was worked out.
func (s *Server) wordOf(q *http.Request, v visit, d store.Document, session roomful.Session, m mine) (words string, err error) {
	if !slices.ContainsFunc(m.stages, func(g roomful.Stage) bool { return g.Version != nil && g.Version.ByHand }) {
		return "", nil
	}
	err = s.view(q, v, func(b *store.Books) error {
		for _, p := range session.Pieces() {
			o, by, err := setFor(b, d, session, p, m.version.Athlete)
			switch {
			case err != nil:
				return err
			case o == nil || words != "":
			case desk.OwnChoice(by, *o):
				words = "You chose this."
			default:
				words = cmp.Or(by.Name, "Your coach") + " set this."
			}
		}
		return nil
	})
	return words, err
}

// optionOf is the option that somebody stands on.
func optionOf(l roomful.Lineup, v roomful.Version) *page.MyOption {
	out := &page.MyOption{Name: v.Option, Shape: max(slices.IndexFunc(l.Options, func(o roomful.Option) bool { return o.Name == v.Option }), 0)}
	if v.OneOff {
		out.Says = "with something of your own"
	}
	if v.Confidence == roomful.Low {
		out.Sure = "Little is known of you here yet. Start light: the proof set decides."
	}
	return out
}

// whatItIs says what a day is: the form of its main piece, and how it is meant to feel.
func whatItIs(s roomful.Session, lex roomful.Lexicon) (out []string) {
	p, ok := s.Asked("")
	if !ok {
		return nil
	}
	i := slices.IndexFunc(s.Parts, func(o roomful.Part) bool { return o.Name() == p.Name() })
	out = append(out, asSentence(longhand(notation.Heads(s, lex)[i])))
	e := s.Effort
	if e.Proposed {
		return out
	}
	if aim := aimWords(e); aim != "" {
		out[0] += " The aim is " + aim + "."
	}
	if e.Feel != "" {
		out[0] += " " + asSentence(e.Feel)
	}
	return out
}

// aimWords writes the window of an effort: "5 to 7 rounds".
func aimWords(e roomful.Effort) string {
	if !e.Stated() {
		return ""
	}
	unit := e.Unit
	switch unit {
	case "reps":
		unit = "repetitions"
	case "cal":
		unit = "calories"
	}
	if e.Low == e.High {
		return roomful.Figure(e.Low) + " " + unit
	}
	return roomful.Figure(e.Low) + " to " + roomful.Figure(e.High) + " " + unit
}

// mayTrain reports whether the visitor is somebody who trains here.
func mayTrain(v visit) bool { return v.Account.Person != "" && v.May(account.PostScore) }
