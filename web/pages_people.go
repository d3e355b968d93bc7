package web

import (
	"cmp"
	"net/http"

	"roomful/account"
)

// peoplePages are those of who comes, what there is, how the gym likes things, and one's
// own data.
var peoplePages = []route{
	{"GET /people", account.EditPeople, (*Server).peoplePage, "is who comes"},
	{"POST /me/erase", account.EraseOwn, (*Server).erasePage, "erases all that is kept of oneself"},
	{"POST /passkeys/{passkey}/drop", account.AddPasskey, (*Server).dropPasskeyPage, "takes a passkey away"},
	{"GET /accounts", account.EditSettings, (*Server).accountsPage, "is who may sign in"},
	{"GET /trail", account.EditSettings, (*Server).trailPage, "is who did what"},
	{"GET /learning", account.SeeHealth, (*Server).learningPage, "is how far learning is"},
	{"GET /kit", account.EditPeople, (*Server).kitPage, "is what the gym owns"},
	{"POST /kit", account.EditPeople, (*Server).keepKit, "keeps what the gym owns"},
	{"GET /settings", account.EditPeople, (*Server).settingsPage, "is how the gym likes things"},
	{"POST /settings", account.EditSettings, (*Server).keepSettings, "keeps how the gym likes things"},
	{"GET /import", account.EditPeople, (*Server).importPage, "asks for a file of people"},
	{"POST /import", account.EditPeople, (*Server).importPeople, "shows how a file of people is read, and keeps it"},
	{"GET /people/{person}/link", account.InviteMember, (*Server).linkPage, "shows the link that lets somebody in"},
	{"POST /people/{person}/link", account.InviteMember, (*Server).makeLink, "makes a link that lets somebody in"},
	{"GET /accounts/link/{role}", account.InviteStaff, (*Server).staffLinkPage, "shows the link that lets in who runs the gym"},
	{"POST /accounts/link", account.InviteStaff, (*Server).makeStaffLink, "makes a link that lets in who runs the gym"},
	{"POST /people/drop-in", account.EditPeople, (*Server).dropInPage, "adds somebody who stands at the door"},
	{"GET /people/{person}", account.SeeOwn, (*Server).personPage, "is somebody, to coaches and to themselves"},
	{"GET /people/{person}/told", account.SeeOwn, (*Server).toldPage, "is the form of what somebody told"},
	{"POST /people/{person}/told", account.SeeOwn, (*Server).tellPage, "keeps what somebody told"},
	{"POST /people/{person}/limits/{limit}", account.SeeOwn, (*Server).limitPage, "keeps a limit, ends it or takes it away"},
	{"POST /people/{person}/left", account.EditPeople, (*Server).leftPage, "notes that somebody has left, or comes again"},
}

// saidOfPeople are the sentences that such a page may begin with, as [said] has others.
var saidOfPeople = map[string]string{
	"kit":          "The kit is kept. It counts from the next look at a day.",
	"settings":     "The settings are kept. They count from the next look at a day.",
	"erased":       "All that was kept of you is erased. Backups that were made before keep what they have.",
	"passkey-gone": "The passkey is taken away.",
	"account":      "Done.",
	"learning":     "Learning from all scores has begun.",
	"imported":     "The file is kept.",
	"added":        "They are here. What to know of them stands below.",
	"told":         "Kept.",
	"left":         "Noted. They are in no list any more, and all that was kept stays.",
	"come-back":    "Noted. They are back in every list.",
	"limit":        "The limit is kept. It counts from the next look at a day.",
	"limit-end":    "The limit is over.",
	"limit-drop":   "The limit is taken away.",
}

// sentence is what a page begins with, by the word in its address.
func sentence(q *http.Request) string {
	word := q.URL.Query().Get("said")
	return cmp.Or(said[word], saidOfPeople[word])
}
