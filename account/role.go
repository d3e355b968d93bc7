package account

import (
	"slices"

	"roomful/store"
)

// Action is something that can be done in a gym.
type Action string

// What can be done. Where a member may do something it is with what is theirs.
const (
	SeeDay       Action = "see a day"
	SeeScores    Action = "see who scored what" // without whoever wants to be left out
	SeeOwn       Action = "see one's own versions, record and data"
	PostScore    Action = "post a score of one's own"
	SignUp       Action = "ask for a place in a class"
	SayNote      Action = "say something under a day"
	EraseOwn     Action = "erase what is kept of oneself"
	SeeHealth    Action = "see limits and private notes of everybody"
	PostForOther Action = "post a score for somebody"
	EditSheets   Action = "write and publish sheets"
	EditPeople   Action = "change people, kit and classes"
	Override     Action = "set somebody's version by hand"
	InviteMember Action = "invite a member"
	SetPassword  Action = "set a password of one's own"
	AddPasskey   Action = "make a passkey of one's own"
	InviteStaff  Action = "invite an owner, a coach or a screen"
	EditSettings Action = "change settings and accounts"
	MoveGym      Action = "import, export and erase the gym"
)

// may is the one table of who may do what.
var may = []struct {
	action Action
	roles  []string
}{
	{SeeDay, []string{store.Owner, store.Coach, store.Member, store.Screen}},
	{SeeScores, []string{store.Owner, store.Coach, store.Member, store.Screen}},
	{SeeOwn, []string{store.Owner, store.Coach, store.Member}},
	{PostScore, []string{store.Owner, store.Coach, store.Member}},
	{SignUp, []string{store.Owner, store.Coach, store.Member}},
	{SayNote, []string{store.Owner, store.Coach, store.Member}},
	{EraseOwn, []string{store.Owner, store.Coach, store.Member}},
	{SeeHealth, []string{store.Owner, store.Coach}},
	{PostForOther, []string{store.Owner, store.Coach}},
	{EditSheets, []string{store.Owner, store.Coach}},
	{EditPeople, []string{store.Owner, store.Coach}},
	{Override, []string{store.Owner, store.Coach}},
	{InviteMember, []string{store.Owner, store.Coach}},
	{SetPassword, []string{store.Owner, store.Coach}},
	{AddPasskey, []string{store.Owner, store.Coach, store.Member}},
	{InviteStaff, []string{store.Owner}},
	{EditSettings, []string{store.Owner}},
	{MoveGym, []string{store.Owner}},
}

// May reports whether a role may do something; nobody may do what is not in the table.
func May(role string, a Action) bool {
	at := slices.IndexFunc(may, func(m struct {
		action Action
		roles  []string
	}) bool {
		return m.action == a
	})
	return at >= 0 && slices.Contains(may[at].roles, role)
}

// MayInvite reports whether a role may invite somebody to another.
func MayInvite(role, to string) bool {
	if to == store.Member {
		return May(role, InviteMember)
	}
	return May(role, InviteStaff) && slices.Contains([]string{store.Owner, store.Coach, store.Screen}, to)
}
