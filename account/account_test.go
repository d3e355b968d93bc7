package account_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/store/sqlite"
)

var now = time.Date(2027, 3, 4, 5, 0, 0, 0, time.UTC)

// counting is randomness that can be told apart and repeats.
type counting byte

func (c *counting) Read(p []byte) (int, error) {
	for i := range p {
		*c++
		p[i] = byte(*c)
	}
	return len(p), nil
}

// house is a gym with one member among its people and an owner who has come in.
type house struct {
	*store.Store
	t      *testing.T
	random counting
	owner  account.Visitor
	key    string // the owner's
	ids    int
}

func newHouse(t *testing.T) *house {
	t.Helper()
	s, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	h := &house{Store: s, t: t}
	var secret string
	h.update(func(tx *store.Tx) (err error) {
		if err := tx.MakeGym(store.Gym{ID: "g", Name: "G", Zone: "UTC", MadeAt: now}); err != nil {
			return err
		}
		if err := tx.In("g").PutPerson(store.Person{Athlete: roomful.Athlete{ID: "mo", Name: "Mo"}}); err != nil {
			return err
		}
		secret, err = account.FirstOwner(tx.In("g"), now, &h.random)
		return err
	})
	h.key, h.owner = h.accept(secret, "Olu", now)
	return h
}

func (h *house) update(f func(*store.Tx) error) {
	h.t.Helper()
	if err := h.Update(h.t.Context(), store.By{At: now}, f); err != nil {
		h.t.Fatal(err)
	}
}

// accept takes an invitation up.
func (h *house) accept(secret, name string, at time.Time) (key string, v account.Visitor) {
	h.t.Helper()
	h.ids++
	err := h.Update(h.t.Context(), store.By{At: at}, func(tx *store.Tx) (err error) {
		key, v, err = account.Accept(tx, secret, account.Newcomer{ID: fmt.Sprint("account-", h.ids), Name: name}, account.Coming{Device: "a phone", At: at, Random: &h.random})
		return err
	})
	if err != nil {
		h.t.Fatal(err)
	}
	return key, v
}

// refused reports whether something fails with a hint.
func refused(err error) bool { return err != nil && roomful.HintOf(err) != "" }

// who asks who comes with a key.
func (h *house) who(key string, at time.Time) (v account.Visitor, err error) {
	return v, h.View(h.t.Context(), func(tx *store.Tx) (e error) {
		v, err = account.Who(tx, key, at)
		return err
	})
}

// TestInvitation invites a member: once, in time, and only for those who may.
func TestInvitation(t *testing.T) {
	h := newHouse(t)
	if h.owner.Account.Role != store.Owner || h.owner.Account.Name != "Olu" {
		t.Errorf("the first owner is %+v", h.owner.Account)
	}
	h.update(func(tx *store.Tx) error {
		if _, err := account.FirstOwner(tx.In("g"), now, &h.random); !errors.Is(err, store.ErrTaken) {
			t.Errorf("a second first owner: %v", err)
		}
		return nil
	})
	var secret string
	h.update(func(tx *store.Tx) (err error) {
		if _, err := h.owner.Invite(tx.In("g"), store.Member, "", now, &h.random); !refused(err) {
			t.Errorf("a member who is nobody: %v", err)
		}
		secret, err = h.owner.Invite(tx.In("g"), store.Member, "mo", now, &h.random)
		return err
	})
	if err := h.View(t.Context(), func(tx *store.Tx) error {
		if _, err := account.Invited(tx, secret, now.Add(8*24*time.Hour)); !refused(err) {
			t.Errorf("a week and a day later: %v", err)
		}
		i, err := account.Invited(tx, secret, now)
		if i.Person != "mo" || i.Role != store.Member {
			t.Errorf("an invitation for %+v", i)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
	key, mo := h.accept(secret, "somebody else", now)
	if mo.Account.Name != "Mo" || mo.Account.Person != "mo" {
		t.Errorf("came in as %+v", mo.Account)
	}
	err := h.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error {
		_, _, err := account.Accept(tx, secret, account.Newcomer{ID: "x"}, account.Coming{At: now, Random: &h.random})
		return err
	})
	if !refused(err) {
		t.Errorf("taken up twice: %v", err)
	}
	for _, role := range []string{store.Member, store.Coach, store.Owner, store.Screen, "king"} {
		h.update(func(tx *store.Tx) error {
			if _, err := mo.Invite(tx.In("g"), role, "mo", now, &h.random); !refused(err) {
				t.Errorf("a member invites a %s: %v", role, err)
			}
			return nil
		})
	}
	if v, err := h.who(key, now); err != nil || v.Account.ID != mo.Account.ID || v.Gym != "g" {
		t.Errorf("back with the key: %+v, %v", v, err)
	}
	// Invited again, the same account is signed in on another device.
	h.update(func(tx *store.Tx) (err error) {
		secret, err = h.owner.Invite(tx.In("g"), store.Member, "mo", now, &h.random)
		return err
	})
	if _, again := h.accept(secret, "", now); again.Account.ID != mo.Account.ID || again.Hash == mo.Hash {
		t.Errorf("again as %+v", again)
	}
}

// TestInvitedAbove: who may invite members alone invites nobody to be a person who has
// another role, nor does a link that they made before.
func TestInvitedAbove(t *testing.T) {
	h := newHouse(t)
	invite := func(by account.Visitor, role string) (secret string, err error) {
		h.update(func(tx *store.Tx) error {
			secret, err = by.Invite(tx.In("g"), role, "mo", now, &h.random)
			return nil
		})
		return secret, err
	}
	coach := h.owner
	coach.Account = store.Account{ID: "coach", Name: "Cy", Role: store.Coach, MadeAt: now}
	h.update(func(tx *store.Tx) error { return tx.In("g").PutAccount(coach.Account) })
	var early string
	if err := h.Update(t.Context(), store.By{Account: "coach", At: now}, func(tx *store.Tx) (err error) {
		early, err = coach.Invite(tx.In("g"), store.Member, "mo", now, &h.random)
		return err
	}); err != nil {
		t.Fatalf("a coach invites somebody who has no account: %v", err)
	}
	secret, err := invite(h.owner, store.Coach)
	if err != nil {
		t.Fatal(err)
	}
	_, mo := h.accept(secret, "", now)
	if _, err := invite(coach, store.Member); !refused(err) {
		t.Errorf("a coach invites a device to be another coach: %v", err)
	}
	if _, err := invite(mo, store.Member); err != nil {
		t.Errorf("a coach invites a device of their own: %v", err)
	}
	if err := h.View(t.Context(), func(tx *store.Tx) error { _, err := account.Invited(tx, early, now); return err }); !refused(err) {
		t.Errorf("the link from before Mo was a coach: %v", err)
	}
}

// TestEnterLate refuses a password that was right when it was looked at, of an account
// that was closed or given another since.
func TestEnterLate(t *testing.T) {
	for what, change := range map[string]func(*store.Account){
		"closed": func(a *store.Account) { a.ClosedAt = now }, "another password": func(a *store.Account) { a.Password = "another" }, "gone": nil, "as it was": func(*store.Account) {},
	} {
		h := newHouse(t)
		was := h.owner.Account
		if change == nil {
			was.ID = "nobody"
		} else {
			is := was
			change(&is)
			h.update(func(tx *store.Tx) error { return tx.In("g").PutAccount(is) })
		}
		err := h.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error {
			_, _, err := account.Enter(tx.In("g"), was, "", account.Coming{At: now, Random: &h.random})
			return err
		})
		if in := what == "as it was"; in != (err == nil) || !in && !refused(err) {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// TestDevice keeps a device signed in while it is used, and out after ninety days, when
// it is taken back and when the account is closed.
func TestDevice(t *testing.T) {
	h := newHouse(t)
	var secret string
	h.update(func(tx *store.Tx) (err error) {
		secret, err = h.owner.Invite(tx.In("g"), store.Member, "mo", now, &h.random)
		return err
	})
	key, mo := h.accept(secret, "", now)
	soon, later := now.Add(time.Hour), now.Add(80*24*time.Hour)
	if v, err := h.who(key, soon); err != nil || v.ToRenew() {
		t.Errorf("an hour later: %v, renew %v", err, v.ToRenew())
	}
	v, err := h.who(key, later)
	if err != nil || !v.ToRenew() {
		t.Fatalf("eighty days later: %v", err)
	}
	h.update(func(tx *store.Tx) error { return v.Renew(tx.In("g")) })
	if _, err := h.who(key, later.Add(80*24*time.Hour)); err != nil {
		t.Errorf("renewed: %v", err)
	}
	if _, err := h.who(key, later.Add(91*24*time.Hour)); !refused(err) {
		t.Errorf("not seen for ninety-one days: %v", err)
	}
	for _, wrong := range []string{"", "x", key + "x", strings.ToLower(key), "' OR 1=1 --"} {
		if _, err := h.who(wrong, now); !refused(err) {
			t.Errorf("with the key %q: %v", wrong, err)
		}
	}
	h.update(func(tx *store.Tx) error { return tx.In("g").SignOut(mo.Account.ID, mo.Hash) })
	if _, err := h.who(key, soon); !refused(err) {
		t.Errorf("signed out: %v", err)
	}
	h.update(func(tx *store.Tx) error {
		a := h.owner.Account
		a.ClosedAt = now
		return tx.In("g").PutAccount(a)
	})
	if _, err := h.who(h.key, now); !refused(err) {
		t.Errorf("the account is closed: %v", err)
	}
}

// TestPassword sets one and comes in with it, and with nothing else.
func TestPassword(t *testing.T) {
	h := newHouse(t)
	kept, err := account.HashPassword("salt and pepper and rain", &h.random)
	if err != nil {
		t.Fatal(err)
	}
	a := h.owner.Account
	a.Password = kept
	h.update(func(tx *store.Tx) error { return tx.In("g").PutAccount(a) })
	if ok, stale := account.Opens(a, "salt and pepper and rain"); !ok || stale {
		t.Errorf("the password: %v, stale %v", ok, stale)
	}
	var key string
	h.update(func(tx *store.Tx) (err error) {
		key, _, err = account.SignIn(tx.In("g"), a, account.Coming{Device: "laptop", At: now, Random: &h.random})
		return err
	})
	if v, err := h.who(key, now); err != nil || v.Account.Role != store.Owner {
		t.Errorf("%+v, %v", v, err)
	}
	closed := a
	closed.ClosedAt = now
	for what, c := range map[string]struct {
		a        store.Account
		password string
	}{"wrong": {a, "salt"}, "empty": {a, ""}, "huge": {a, strings.Repeat("x", 1<<20)}, "closed": {closed, "salt and pepper and rain"}, "nobody": {store.Account{}, ""}} {
		if ok, _ := account.Opens(c.a, c.password); ok {
			t.Errorf("%s opens", what)
		}
	}
	for _, short := range []string{"", "nine char", "雨雨雨", strings.Repeat("x", 1001)} {
		if _, err := account.HashPassword(short, &h.random); !refused(err) {
			t.Errorf("%d bytes: %v", len(short), err)
		}
	}
	if _, err := account.HashPassword("long enough", iotest.ErrReader(errors.New("no luck"))); err == nil {
		t.Error("hashed without a salt")
	}
	for _, kept := range []string{"", "x", "$argon2id$v=19$m=19456,t=2,p=1$c2FsdA$", "$argon2id$v=19$m=99999999,t=2,p=1$c2FsdA$aGFzaA", "$argon2i$v=19$m=19456,t=2,p=1$c2FsdA$aGFzaA"} {
		if ok, _ := account.CheckPassword(kept, ""); ok {
			t.Errorf("%q is a form that lets anybody in", kept)
		}
	}
}

// TestPasswordElsewhere holds the form against the reference implementation of argon2
// (the command of Debian's package argon2), both ways.
func TestPasswordElsewhere(t *testing.T) {
	if _, err := exec.LookPath("argon2"); err != nil {
		t.Skip("argon2 is not installed: apt-get install argon2")
	}
	theirs := func(password, salt string, more ...string) string {
		cmd := exec.Command("argon2", append([]string{salt, "-id", "-e"}, more...)...)
		cmd.Stdin = strings.NewReader(password)
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		return strings.TrimSpace(string(out))
	}
	ours, err := account.HashPassword("rain on a tin roof 雨", strings.NewReader("sixteen letters!"))
	if err != nil {
		t.Fatal(err)
	}
	if want := theirs("rain on a tin roof 雨", "sixteen letters!", "-t", "2", "-k", "19456", "-p", "1", "-l", "32"); ours != want {
		t.Errorf("ours   %s\ntheirs %s", ours, want)
	}
	for _, c := range []struct {
		more  []string
		stale bool
	}{{[]string{"-t", "2", "-k", "19456", "-p", "1"}, false}, {[]string{"-t", "3", "-k", "4096", "-p", "2"}, true}} {
		kept := theirs("another password", "salt of theirs", c.more...)
		if ok, stale := account.CheckPassword(kept, "another password"); !ok || stale != c.stale {
			t.Errorf("%s: %v, stale %v", kept, ok, stale)
		}
		if ok, _ := account.CheckPassword(kept, "another passwort"); ok {
			t.Errorf("%s lets another in", kept)
		}
	}
}

// TestCode draws a link, and has a camera's program read it (zbarimg, of Debian's
// zbar-tools, from a picture that rsvg-convert makes).
func TestCode(t *testing.T) {
	link := "https://gym.example/in/" + strings.Repeat("aB3_", 11)
	var svg bytes.Buffer
	if err := account.WriteCode(&svg, link); err != nil {
		t.Fatal(err)
	}
	if err := account.WriteCode(&svg, strings.Repeat("x", 5000)); err == nil {
		t.Error("a link of 5,000 characters has a code")
	}
	for _, tool := range []string{"zbarimg", "rsvg-convert"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skip(tool + " is not installed: apt-get install zbar-tools librsvg2-bin")
		}
	}
	in, out := filepath.Join(t.TempDir(), "code.svg"), filepath.Join(t.TempDir(), "code.png")
	if err := os.WriteFile(in, svg.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command("rsvg-convert", in, "-o", out).CombinedOutput(); err != nil {
		t.Fatalf("rsvg-convert: %v %s", err, said)
	}
	got, err := exec.Command("zbarimg", "-q", "--raw", out).Output()
	if err != nil || strings.TrimSpace(string(got)) != link {
		t.Errorf("a camera reads %q, %v", got, err)
	}
}

// TestMay walks the table: an owner may all, a coach all but to move the gym and its
// staff, a member what is theirs, a screen looks; nobody else may anything.
func TestMay(t *testing.T) {
	owners := []account.Action{account.InviteStaff, account.EditSettings, account.MoveGym}
	coaches := append([]account.Action{account.SeeHealth, account.PostForOther, account.EditSheets, account.EditPeople, account.Override, account.InviteMember, account.SetPassword}, owners...)
	members := append([]account.Action{account.SeeOwn, account.PostScore, account.SignUp, account.SayNote, account.EraseOwn, account.AddPasskey}, coaches...)
	all := append([]account.Action{account.SeeDay, account.SeeScores}, members...)
	for role, not := range map[string][]account.Action{store.Owner: nil, store.Coach: owners, store.Member: coaches, store.Screen: members, "": all, "king": all} {
		for _, a := range all {
			want := true
			for _, n := range not {
				want = want && n != a
			}
			if account.May(role, a) != want {
				t.Errorf("%q may %s: %v", role, a, !want)
			}
		}
	}
	if account.May(store.Owner, "fly") {
		t.Error("what is not in the table is allowed")
	}
}

// TestPace lets somebody fail five times, then once in ten seconds; who succeeds is not
// counted, it forgets, and its memory stays bounded.
func TestPace(t *testing.T) {
	var p account.Pace
	try := func(at time.Time, names ...string) bool {
		ok := p.Allow(at, names...)
		if ok {
			p.Failed(at, names...)
		}
		return ok
	}
	for range 100 {
		if !p.Allow(now, "address 1") {
			t.Fatal("nobody has failed")
		}
	}
	for i := range 8 {
		if got := try(now, "address 1", "account a"); got != (i < 5) {
			t.Errorf("try %d: %v", i+1, got)
		}
	}
	if try(now, "address 2", "account a") {
		t.Error("the same account from another address")
	}
	if !try(now, "address 3", "account b") {
		t.Error("somebody else has to wait too")
	}
	if !try(now.Add(10*time.Second), "address 1") || try(now.Add(11*time.Second), "address 1") {
		t.Error("one try in ten seconds")
	}
	refused := 0
	for i := range 30_000 {
		if !try(now, fmt.Sprint("address ", i)) {
			refused++
		}
	}
	if refused < 15_000 {
		t.Errorf("of 30,000 addresses at once %d are refused", refused)
	}
	p.Failed(now.Add(time.Hour), "another")
	if !try(now.Add(time.Hour), "address 1") {
		t.Error("an hour later all is forgotten")
	}
}

// TestPaceAtOnce: of many tries at once only five are under way, and one that goes well
// gives its place back.
func TestPaceAtOnce(t *testing.T) {
	var p account.Pace
	for i := range 8 {
		if got := p.Begin(now, "address 1"); got != (i < 5) {
			t.Errorf("try %d at once: %v", i+1, got)
		}
	}
	p.End(now, false, "address 1")
	if !p.Begin(now, "address 1") {
		t.Error("one went well, and there is no place")
	}
	for range 5 {
		p.End(now, true, "address 1")
	}
	if p.Begin(now, "address 1") || !p.Begin(now.Add(10*time.Second), "address 1") {
		t.Error("five failed: one try in ten seconds")
	}
}

// TestFind finds who comes by a name, and nobody when that is in doubt.
func TestFind(t *testing.T) {
	h := newHouse(t)
	h.update(func(tx *store.Tx) error {
		b := tx.In("g")
		for _, a := range []store.Account{{ID: "a1", Name: "Ada", Password: "x"}, {ID: "a2", Name: "Two", Password: "x"}, {ID: "a3", Name: "two", Password: "x"},
			{ID: "a4", Name: "None"}, {ID: "a5", Name: "Gone", Password: "x", ClosedAt: now}} {
			a.Role, a.MadeAt = store.Coach, now
			if err := b.PutAccount(a); err != nil {
				return err
			}
		}
		return nil
	})
	for _, c := range []struct{ gym, who, want string }{
		{"", "ada", "a1"}, {"G", "Ada", "a1"}, {"g", "a1", "a1"}, {"other", "Ada", ""}, {"", "two", ""}, {"", "a3", "a3"}, {"", "None", ""}, {"", "Gone", ""}, {"", "", ""},
	} {
		if err := h.View(t.Context(), func(tx *store.Tx) error {
			_, a, err := account.Find(tx, c.gym, c.who)
			if a.ID != c.want {
				t.Errorf("%q in %q is %q", c.who, c.gym, a.ID)
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
	}
}
