package web

import (
	"net/http"

	"roomful/account"
)

// route is one thing that can be asked for.
type route struct {
	pattern string // as net/http has it
	// action is what the visitor must be allowed to do; empty when anybody may ask, who
	// is signed in or not.
	action account.Action
	answer func(*Server, http.ResponseWriter, *http.Request, visit) error
	does   string // in words, for whoever writes a script
}

// routes are all there are.
var routes = []route{
	{"GET /healthz", "", (*Server).healthy, "says that the program runs"},
	{"GET /readyz", "", (*Server).ready, "says whether the database answers"},
	{"GET /metrics", "", (*Server).metrics, "tells how much was asked and how long it took, on this machine or to an owner"},
	{"GET /in/{secret}", "", (*Server).invited, "shows whom an invitation is for, and takes nothing up"},
	{"POST /in/{secret}", "", (*Server).comeIn, "takes an invitation up and signs the device in"},
	{"GET /in/{secret}/code", "", (*Server).code, "draws the link of an invitation for a camera"},
	{"GET /enter", "", (*Server).enterPage, "shows the ways to come back"},
	{"POST /enter", "", (*Server).enter, "signs the device in by a password"},
	{"POST /enter/passkey/new", "", (*Server).askPasskey, "begins a sign-in by passkey"},
	{"POST /enter/passkey", "", (*Server).enterByPasskey, "signs the device in by what its passkey has signed"},
	{"GET /passkey.js", "", (*Server).passkeyScript, "is what pages make and use passkeys with"},
	{"GET /passkeys", account.AddPasskey, (*Server).passkeys, "lists one's passkeys"},
	{"POST /passkeys/new", account.AddPasskey, (*Server).newPasskey, "begins to make a passkey"},
	{"POST /passkeys", account.AddPasskey, (*Server).keepPasskey, "keeps the passkey that the device has made"},
	{"DELETE /passkeys/{passkey}", account.AddPasskey, (*Server).dropPasskey, "takes a passkey away"},
	{"POST /password", account.SetPassword, (*Server).setPassword, "sets a password and signs the other devices out"},
	{"GET /{$}", account.SeeDay, (*Server).home, "says who is signed in where"},
	{"POST /out", account.SeeDay, (*Server).signOut, "signs this device out"},
	{"POST /out/everywhere", account.SeeDay, (*Server).signOutEverywhere, "signs every device of the account out"},
	{"POST /invitations", account.InviteMember, (*Server).invite, "makes an invitation and gives its link"},
	{"GET /people", account.EditPeople, (*Server).people, "lists who comes"},
	{"GET /sheets", account.SeeDay, (*Server).sheets, "lists the days without their texts"},
	{"GET /sheets/{name}", account.SeeDay, (*Server).sheet, "shows a day as it is written"},
	{"PUT /sheets/{name}", account.EditSheets, (*Server).saveSheet, "saves a day, faults and all"},
	{"POST /scores", account.PostScore, (*Server).postScore, "keeps a score and says what it was read as"},
	{"GET /sheets/{name}/scores", account.SeeScores, (*Server).scores, "lists what was scored on a day"},
	{"GET /record/{person}", account.SeeOwn, (*Server).record, "lists what somebody scored, for them and for coaches"},
	{"GET /changes", account.SeeDay, (*Server).changes, "tells of what happens as it happens"},
}
