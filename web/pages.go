package web

import (
	"net/http"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// pages are what browsers are shown. Where a program may ask for the same address, who
// asks for HTML gets the page and everybody else what the route answers.
//
// A form is posted to such an address and comes back as a page somewhere: reloading it
// and going back post nothing again.
var pages = slices.Concat(dayPages, peoplePages)

// dayPages are those of days, sheets and classes, and the ways in.
var dayPages = []route{
	{"GET /assets/{asset}", "", (*Server).asset, "is what pages load"},
	{"GET /in/{secret}", "", (*Server).invitedPage, "shows whom an invitation is for"},
	{"GET /enter", "", (*Server).enterPage, "shows the ways to come back"},
	{"GET /{$}", account.SeeDay, (*Server).home, "leads to the day that is today"},
	{"GET /me", account.SeeOwn, (*Server).mePage, "is My data: how one comes in, and all that is kept of one"},
	{"GET /classes", account.SeeDay, (*Server).classesPage, "is the timetable, a week at a time"},
	{"POST /classes", account.EditPeople, (*Server).postNewClass, "writes a class down"},
	{"GET /classes/{class}", account.EditPeople, (*Server).classPage, "is a class with who comes"},
	{"POST /classes/{class}", account.EditPeople, (*Server).postClass, "changes a class, or calls it off"},
	{"POST /classes/{class}/places", account.SignUp, (*Server).postPlace, "asks for a place, or gives one back"},
	{"GET /sheets", account.SeeDay, (*Server).sheetsPage, "is the library of sheets"},
	{"GET /sheets/new", account.EditSheets, (*Server).newSheetPage, "begins a sheet"},
	{"POST /sheets", account.EditSheets, (*Server).newSheetForm, "saves a sheet that is new"},
	{"POST /sheets/check", account.EditSheets, (*Server).checkPart, "says what there is to say about the text of a new sheet"},
	{"POST /sheets/draft", account.EditSheets, (*Server).draftNewPart, "works a day out from the text of a new sheet"},
	{"POST /sheets/{name}", account.EditSheets, (*Server).sheetForm, "saves a sheet, or shows it tidied or mended"},
	{"POST /sheets/{name}/merge", account.EditSheets, (*Server).mergeForm, "puts two texts of a sheet together"},
	{"GET /sheets/{name}/revisions", account.EditSheets, (*Server).revisionsPage, "is all that a sheet was"},
	{"POST /sheets/{name}/revisions", account.EditSheets, (*Server).bringBack, "saves a text again that a sheet was"},
	{"POST /sheets/{name}/check", account.EditSheets, (*Server).checkPart, "says what there is to say about a text"},
	{"POST /sheets/{name}/draft", account.EditSheets, (*Server).draftPart, "works a day out from a text that is not saved"},
	{"POST /sheets/{name}/editions", account.EditSheets, (*Server).publishForm, "publishes a day as it stands"},
	{"POST /sheets/{name}/answers", account.EditSheets, (*Server).answerForm, "answers a note"},
	{"POST /sheets/{name}/overrides/{person}", account.Override, (*Server).setForm, "sets somebody's version by hand, or has it worked out again"},
	{"GET /sheets/{name}/people/{person}", account.SeeHealth, (*Server).versionPart, "is somebody's version, for coaches"},
	{"GET /scores", account.SeeScores, (*Server).scoresToday, "leads to the scores of today"},
	{"GET /sheets/{name}/scores", account.SeeScores, (*Server).scoresPage, "is what was scored on a day, and where coaches enter it"},
	{"POST /sheets/{name}/scores/reading", account.PostForOther, (*Server).readScoresForm, "shows how many scores are read before they are kept"},
	{"POST /sheets/{name}/scores", account.PostForOther, (*Server).keepScoresForm, "keeps many scores"},
	{"GET /sheets/{name}/scores/{score}", account.PostForOther, (*Server).scorePage, "is one score, to be corrected"},
	{"POST /sheets/{name}/scores/{score}", account.PostForOther, (*Server).changeScore, "corrects a score, or takes it out"},
	{"GET /sheets/{name}", account.SeeDay, (*Server).dayPage, "is a day: all of it to coaches, their own to members"},
	{"GET /sheets/{name}/choices/{person}", account.SeeOwn, (*Server).choicesPage, "is what each option would mean for somebody"},
	{"POST /sheets/{name}/choices/{person}", account.SeeOwn, (*Server).choiceForm, "takes an option, or goes back to what was found"},
	{"GET /sheets/{name}/load/{person}", account.SeeOwn, (*Server).loadPage, "answers how heavy somebody goes"},
	{"GET /sheets/{name}/sore/{person}", account.SeeOwn, (*Server).sorePage, "asks somebody who hurts where and how much"},
	{"POST /sheets/{name}/sore/{person}", account.SeeOwn, (*Server).soreForm, "answers somebody who hurts, step by step"},
	{"GET /record", account.SeeOwn, (*Server).ownRecord, "leads to one's own record"},
	{"GET /record/{person}", account.SeeOwn, (*Server).recordPage, "is what somebody scored, to them and to coaches"},
	{"GET /record/{person}/{sheet}", account.SeeOwn, (*Server).storyPage, "is how one sheet went for somebody from time to time"},
	{"POST /sheets/{name}/home", account.SeeOwn, (*Server).homeForm, "tells what one has at home, and shows the day there"},
	{"POST /sheets/{name}/reading", account.PostScore, (*Server).readingPart, "shows what a score would be read as"},
	{"POST /scores", account.PostScore, (*Server).scoreForm, "keeps a score, in the place of another or beside it"},
	{"POST /scores/{score}/withdraw", account.PostScore, (*Server).withdrawForm, "takes a score back"},
	{"POST /sheets/{name}/notes", account.SayNote, (*Server).noteForm, "says something under a day"},
	{"POST /sheets/{name}/notes/look", account.SayNote, (*Server).noteLook, "says who would read a note"},
}

// wantsPage reports whether a page is asked for, by a browser or by htmx within one.
func wantsPage(q *http.Request) bool {
	return strings.Contains(q.Header.Get("Accept"), "text/html") || q.Header.Get("HX-Request") == "true"
}

// menu is where the line at the top of a page leads, by role.
var menu = []struct {
	page.Place
	action account.Action
	staff  bool // for those who run the gym; else for those who train there
}{
	{page.Place{Name: "Day", Path: "/"}, account.EditSheets, true},
	{page.Place{Name: "Sheets", Path: "/sheets"}, account.EditSheets, true},
	{page.Place{Name: "Classes", Path: "/classes"}, account.EditPeople, true},
	{page.Place{Name: "People", Path: "/people"}, account.EditPeople, true},
	{page.Place{Name: "Scores", Path: "/scores"}, account.PostForOther, true},
	{page.Place{Name: "Kit", Path: "/kit"}, account.EditPeople, true},
	{page.Place{Name: "Settings", Path: "/settings"}, account.EditPeople, true},
	{page.Place{Name: "My day", Path: "/"}, account.SeeOwn, false},
	{page.Place{Name: "My record", Path: "/record"}, account.SeeOwn, false},
	{page.Place{Name: "Classes", Path: "/classes"}, account.SignUp, false},
	{page.Place{Name: "My data", Path: "/me"}, account.SeeOwn, false},
}

// placesOf are the places that a visitor is offered; here is the path of the one that a
// page belongs to.
func placesOf(v visit, here string) (out []page.Place) {
	for _, p := range menu {
		if v.May(p.action) && p.staff == v.May(account.EditSheets) {
			p.Here = p.Path == here
			out = append(out, p.Place)
		}
	}
	return out
}

// frame is what stands around a page of somebody who is signed in.
func (s *Server) frame(b *store.Books, q *http.Request, v visit, here, title string) (page.Frame, error) {
	gym, err := b.Gym()
	if err != nil {
		return page.Frame{}, err
	}
	seq, err := b.Seq()
	return page.Frame{Title: title, Gym: gym.Name, Name: v.Account.Name, Role: v.Account.Role, Who: v.Account.ID, Places: placesOf(v, here), Said: sentence(q), Seq: max(seq, 1)}, err
}

// said are the sentences that a page may begin with after a form was sent, by the word
// that its address has for them.
var said = map[string]string{
	"password": "Your password is kept. Your other devices are signed out.",

	"scores":          "The scores are kept.",
	"scores-but-one":  "The scores are kept, but for one that was taken back before and stays so.",
	"score-corrected": "The score is corrected.",
	"score-out":       "The score is taken out.",

	"class-written":     "The class is written down.",
	"class-stands":      "That was written before, and somebody has changed it or asked for a place since. It stands as you see it: change it from here.",
	"classes-written":   "The classes are written down, one a week.",
	"class-changed":     "The class is changed.",
	"class-off":         "The class is called off. Tell those who had a place.",
	"class-on":          "The class is on after all.",
	"place-in":          "They have a place.",
	"place-waiting":     "The class is full. They wait for a place.",
	"place-out":         "They are taken out.",
	"place-missed":      "It is noted that they did not come.",
	"own-place-in":      "You have a place.",
	"own-place-waiting": "The class is full. You wait for a place.",
	"own-place-out":     "Your place is given back.",
	"saved":             "Saved.",
	"same":              "Nothing was changed.",
	"word":              "That is their version now. It stays until you take it back.",
	"given":             "It is worked out for them again.",
	"beneath":           "What a coach had set for them before holds again.",
	"answer":            "Your answer is kept.",
	"published":         "Published. Members see it as it stands here.",

	"score-was-back": "That score was taken back before, and stays so. Type it again to have it.",

	"score":  "Your score is kept.",
	"back":   "Your score is taken back.",
	"note":   "It is said.",
	"home":   "What you have at home is kept.",
	"chosen": "That is the version now.",
	"eased":  "It is noted, and the version is changed for today. The coach sees it.",
}

// show draws a page.
func (s *Server) show(w http.ResponseWriter, status int, f page.Frame, body any) error {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Add("Vary", "Accept, HX-Request")
	if status != http.StatusOK {
		w.WriteHeader(status)
	}
	return page.Write(w, f, body)
}

// showPart draws a piece of a page, for htmx.
func (s *Server) showPart(w http.ResponseWriter, body any) error {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	return page.WritePart(w, body)
}

// next leads a browser on after a form. A script that has sent the form beside its page is
// told where that is, and goes there itself (RFC 7240, 4.2).
func next(w http.ResponseWriter, q *http.Request, path string) error {
	if q.Header.Get("Prefer") == "return=minimal" {
		w.Header().Set("Location", path)
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	http.Redirect(w, q, path, http.StatusSeeOther)
	return nil
}

// asset answers with what pages load.
func (s *Server) asset(w http.ResponseWriter, q *http.Request, _ visit) error {
	if !page.ServeAsset(w, q) {
		return store.ErrMissing
	}
	return nil
}

// refusedPage shows why not. What was posted comes back with it, secrets apart, so that
// nothing that was typed is lost; where its id is taken, with another one, so that it can be
// sent again.
func (s *Server) refusedPage(w http.ResponseWriter, q *http.Request, status int, say roomful.Error, taken bool) error {
	body := page.Refused{Summary: capital(say.Summary), Hint: capital(say.Hint) + ".", Enter: status == http.StatusUnauthorized}
	if q.Method == http.MethodPost {
		body.Again = againOf(q)
	}
	if taken && body.Again != nil {
		id, err := s.NewID()
		if err != nil {
			return err
		}
		if renew(body.Again.Fields, id) {
			body.Hint = "Look whether it is there already. If it is not, send this again: it is kept as something of its own."
		}
	}
	return s.show(w, status, page.Frame{Title: body.Summary}, body)
}

// capital begins a sentence.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 || first == utf8.RuneError {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}
