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
	{"GET /openapi.json", "", (*Server).document, "describes all of this for programs"},
	{"POST /in/{secret}", "", (*Server).comeIn, "takes an invitation up and signs the device in"},
	{"GET /in/{secret}/code", "", (*Server).code, "draws the link of an invitation for a camera"},
	{"POST /enter", "", (*Server).enter, "signs the device in by a password"},
	{"POST /enter/passkey/new", "", (*Server).askPasskey, "begins a sign-in by passkey"},
	{"POST /enter/passkey", "", (*Server).enterByPasskey, "signs the device in by what its passkey has signed"},
	{"GET /passkeys", account.AddPasskey, (*Server).passkeys, "lists one's passkeys"},
	{"POST /passkeys/new", account.AddPasskey, (*Server).newPasskey, "begins to make a passkey"},
	{"POST /passkeys", account.AddPasskey, (*Server).keepPasskey, "keeps the passkey that the device has made"},
	{"DELETE /passkeys/{passkey}", account.AddPasskey, (*Server).dropPasskey, "takes a passkey away"},
	{"POST /password", account.SetPassword, (*Server).setPassword, "sets a password and signs the other devices out"},
	{"POST /out", account.SeeDay, (*Server).signOut, "signs this device out"},
	{"POST /out/everywhere", account.SeeDay, (*Server).signOutEverywhere, "signs every device of the account out"},
	{"POST /invitations", account.InviteMember, (*Server).invite, "makes an invitation and gives its link"},
	{"GET /people", account.EditPeople, (*Server).people, "lists who comes"},
	{"POST /people/drop-in", account.EditPeople, (*Server).addDropIn, "adds somebody who comes in for one class, by a name and whom they are like"},
	{"GET /people.csv", account.EditPeople, (*Server).peopleFile, "gives everybody who comes as a file, body mass apart"},
	{"GET /people/{person}", account.SeeOwn, (*Server).person, "shows what somebody told, to them and to coaches"},
	{"PUT /people/{person}", account.SeeOwn, (*Server).tellPerson, "changes what somebody told, or as a coach adds somebody"},
	{"GET /people/{person}/limits", account.SeeOwn, (*Server).limits, "lists somebody's limits, to them and to coaches"},
	{"PUT /people/{person}/limits/{limit}", account.SeeOwn, (*Server).putLimit, "writes a limit down, or what is known of it now"},
	{"DELETE /people/{person}/limits/{limit}", account.SeeOwn, (*Server).dropLimit, "takes a limit away that was never one"},
	{"GET /kit", account.EditPeople, (*Server).kit, "shows what the gym owns"},
	{"PUT /kit", account.EditPeople, (*Server).saveKit, "saves what the gym owns"},
	{"GET /settings", account.EditPeople, (*Server).settings, "shows how the gym likes things"},
	{"PUT /settings", account.EditSettings, (*Server).saveSettings, "saves how the gym likes things"},
	{"GET /classes", account.SeeDay, (*Server).classes, "lists the classes of some days"},
	{"PUT /classes/{class}", account.EditPeople, (*Server).putClass, "writes a class down, or what has changed of it"},
	{"PUT /classes/{class}/places/{person}", account.SignUp, (*Server).takePlace, "asks for a place in a class"},
	{"DELETE /classes/{class}/places/{person}", account.SignUp, (*Server).leavePlace, "gives a place back"},
	{"POST /classes/{class}/places/{person}/missed", account.EditPeople, (*Server).missPlace, "notes that somebody did not come"},
	{"GET /sheets", account.SeeDay, (*Server).sheets, "lists the days without their texts"},
	{"GET /sheets/{name}", account.SeeDay, (*Server).sheet, "shows a day as it is written"},
	{"PUT /sheets/{name}", account.EditSheets, (*Server).saveSheet, "saves a day, faults and all"},
	{"GET /sheets/{name}/revisions", account.EditSheets, (*Server).revisions, "lists all that a day was, and what waits to be merged"},
	{"POST /sheets/{name}/editions", account.EditSheets, (*Server).publish, "publishes a day as it stands, for members to see"},
	{"GET /sheets/{name}/editions", account.EditSheets, (*Server).editions, "lists what a day was published as"},
	{"GET /sheets/{name}/notes", account.SayNote, (*Server).notes, "lists what was said under a day"},
	{"POST /sheets/{name}/notes", account.SayNote, (*Server).say, "says something under a day, or answers"},
	{"GET /sheets/{name}/overrides", account.Override, (*Server).overrides, "lists the versions that were set by hand"},
	{"PUT /sheets/{name}/overrides/{person}", account.Override, (*Server).putOverride, "sets somebody's version by hand"},
	{"DELETE /sheets/{name}/overrides/{person}", account.Override, (*Server).dropOverride, "has somebody's version computed again"},
	{"GET /sheets/{name}/choices/{person}", account.SeeOwn, (*Server).choices, "shows what somebody would do on each option of a day, to them and to coaches"},
	{"PUT /sheets/{name}/choices/{person}", account.SeeOwn, (*Server).choose, "sets what somebody does by an option or by loads; a coach's word stands above theirs"},
	{"DELETE /sheets/{name}/choices/{person}", account.SeeOwn, (*Server).unchoose, "has somebody do again what is worked out for them"},
	{"POST /sheets/{name}/sore/{person}", account.SeeOwn, (*Server).sore, "answers somebody who hurts: what to ask, stop and refer, or ways to go on"},
	{"GET /sheets/{name}/load/{person}", account.SeeOwn, (*Server).load, "says how heavy somebody goes, to them and to coaches"},
	{"GET /sheets/{name}/beat/{person}", account.SeeOwn, (*Server).beat, "says what somebody has to match or beat, to them and to coaches"},
	{"POST /sheets/{name}/reading", account.PostScore, (*Server).readTyped, "reads a score as it is typed, beside the last one, and keeps nothing"},
	{"GET /sheets/{name}/versions", account.SeeOwn, (*Server).versions, "shows what everybody does of a day, to members what they do"},
	{"GET /sheets/{name}/otherwise", account.SeeHealth, (*Server).otherwise, "tells who would do otherwise of a published day by what was learnt since"},
	{"GET /sheets/{name}/hour", account.SeeHealth, (*Server).hour, "shows the class minute by minute"},
	{"GET /abilities/{person}", account.SeeHealth, (*Server).abilities, "shows what is believed of somebody after their scores"},
	{"GET /learning", account.SeeHealth, (*Server).learning, "says how far learning from all scores is"},
	{"POST /learning", account.EditPeople, (*Server).learnAgain, "learns from all scores now"},
	{"POST /scores", account.PostScore, (*Server).postScore, "keeps a score and says what it was read as"},
	{"POST /scores/{score}/withdraw", account.PostScore, (*Server).withdraw, "takes a score back: whose it is, or a coach"},
	{"GET /sheets/{name}/scores", account.SeeScores, (*Server).scores, "lists what was scored on a day"},
	{"GET /sheets/{name}/standings", account.SeeScores, (*Server).standings, "lays a day's scores out in places, as written and changed apart"},
	{"GET /sheets/{name}/after", account.SeeHealth, (*Server).after, "tells what was meant beside what came of it, and who was far off"},
	{"GET /sheets/{name}/compare/{person}", account.SeeOwn, (*Server).compare, "lays somebody's score beside their last, for them and for coaches"},
	{"POST /sheets/{name}/scores/reading", account.PostForOther, (*Server).readScores, "reads many scores with their names, and keeps nothing"},
	{"POST /sheets/{name}/scores", account.PostForOther, (*Server).postScores, "keeps many scores of a day at once, all or none"},
	{"GET /record/{person}", account.SeeOwn, (*Server).record, "lists what somebody scored, for them and for coaches"},
	{"GET /me", account.SeeOwn, (*Server).me, "shows all that is kept of oneself"},
	{"GET /me/export", account.SeeOwn, (*Server).takeOut, "gives all that is kept of oneself as a file"},
	{"POST /me/erase", account.EraseOwn, (*Server).erase, "erases all that is kept of oneself"},
	{"GET /accounts", account.EditSettings, (*Server).accounts, "lists who may sign in"},
	{"POST /accounts/{account}/close", account.EditSettings, (*Server).closeAccount, "closes an account for good"},
	{"POST /accounts/{account}/out", account.EditSettings, (*Server).signOutAccount, "signs an account out on every device"},
	{"GET /trail", account.EditSettings, (*Server).trail, "tells who did what"},
	{"GET /backup", account.MoveGym, (*Server).backup, "gives all of the gym in one file, for restore"},
	{"GET /changes", account.SeeDay, (*Server).changes, "tells of what happens as it happens"},
}
