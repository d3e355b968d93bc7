package web

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// accountsPage lists who may sign in, for owners.
func (s *Server) accountsPage(w http.ResponseWriter, q *http.Request, v visit) error {
	var body page.Accounts
	if err := s.view(q, v, func(b *store.Books) error {
		all, err := signers(b)
		if err != nil {
			return err
		}
		for _, a := range all {
			row := page.AccountRow{ID: a.ID, Name: a.Name, Role: a.Role, Ways: waysIn(a), Since: momentOf(a.MadeAt), Mine: a.ID == v.Account.ID}
			if a.ClosedAt != "" {
				row.Since = "closed on " + momentOf(a.ClosedAt)
				body.Closed = append(body.Closed, row)
				continue
			}
			if row.Only, err = lastOwner(b, func(o store.Account) bool { return o.ID == a.ID }); err != nil {
				return err
			}
			body.Open = append(body.Open, row)
		}
		return nil
	}); err != nil {
		return err
	}
	for _, role := range []string{store.Coach, store.Owner, store.Screen} {
		if account.MayInvite(v.Account.Role, role) {
			body.Roles = append(body.Roles, page.Choice{Value: role, Label: role})
		}
	}
	return s.showIn(w, q, v, http.StatusOK, "/settings", "Accounts", body)
}

// waysIn says how somebody comes in.
func waysIn(a signer) string {
	var out []string
	if a.Password {
		out = append(out, "a password")
	}
	if a.Passkeys > 0 {
		out = append(out, counted(a.Passkeys, "passkey"))
	}
	return strings.Join(append(out, counted(a.Devices, "device")+" signed in"), ", ")
}

// counted is a number of things.
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// trailPage tells who did what, the latest first.
func (s *Server) trailPage(w http.ResponseWriter, q *http.Request, v visit) error {
	const many = mostSteps
	var body page.Trail
	if err := s.view(q, v, func(b *store.Books) error {
		last, err := b.Seq()
		if err != nil {
			return err
		}
		upTo := last
		if text := q.FormValue("up_to"); text != "" {
			if _, err := fmt.Sscan(text, &upTo); err != nil || upTo < 0 || upTo > last {
				upTo = last
			}
		}
		all, err := b.Changes(max(upTo-many, 0), many)
		if err != nil {
			return err
		}
		names, err := subjects(b)
		if err != nil {
			return err
		}
		body.Steps = trailRows(all, upTo, names)
		if upTo > many {
			body.Older = fmt.Sprintf("/trail?up_to=%d", upTo-many)
		}
		if upTo < last {
			body.Newer = fmt.Sprintf("/trail?up_to=%d", min(upTo+many, last))
		}
		return nil
	}); err != nil {
		return err
	}
	return s.showIn(w, q, v, http.StatusOK, "/settings", "Trail", body)
}

// trailRows are the steps up to one, the latest first; the same several times is one row.
func trailRows(all []store.Change, upTo int64, names map[string]string) (out []page.TrailRow) {
	times := 1
	for i := len(all) - 1; i >= 0; i-- {
		c := all[i]
		if c.Seq > upTo {
			continue
		}
		row := page.TrailRow{At: c.At.Format("2006-01-02 15:04"), Who: orWords(names["account "+c.Account], "Roomful itself"), Did: stepInWords(c, names)}
		if n := len(out); n > 0 && out[n-1].Who == row.Who && strings.TrimSuffix(out[n-1].Did, timesOf(times)) == row.Did {
			times++
			out[n-1].Did = row.Did + timesOf(times)
			continue
		}
		times = 1
		out = append(out, row)
	}
	return out
}

// timesOf says how often; nothing for once.
func timesOf(n int) string {
	if n < 2 {
		return ""
	}
	return fmt.Sprintf(", %d times", n)
}

// subjects are the names of what changes, by kind and id.
func subjects(b *store.Books) (map[string]string, error) {
	out := map[string]string{}
	people, err := b.People(true)
	if err != nil {
		return nil, err
	}
	for _, p := range people {
		for _, kind := range []string{"person", "learnt", "read"} {
			out[kind+" "+p.ID] = p.Name
		}
	}
	for _, kind := range []string{store.Sheet, store.Kit, store.Settings} {
		all, err := b.Documents(kind)
		if err != nil {
			return nil, err
		}
		for _, d := range all {
			for _, about := range []string{kind, "note", "override", "edition"} {
				out[about+" "+d.ID] = orWords(d.Title, d.Name)
			}
		}
	}
	accounts, err := b.Accounts()
	for _, a := range accounts {
		out["account "+a.ID] = orWords(a.Name, a.Role)
	}
	return out, err
}

// stepNames say what happened to a kind of thing.
var stepNames = map[string]string{
	"account": "changed an account or a sign-in", "attempt": "a score", "class": "a class or a place in it", "edition": "published", "emulators": "prepared learning",
	"erased": "erased a person", "gym": "the gym", "invitation": "made or used a link", "learning": "learnt from all scores", "learnt": "learnt of",
	"note": "a note", "override": "a version by hand", "person": "what is known of", "read": "read the scores of", store.Sheet: "the sheet", store.Kit: "the kit", store.Settings: "the settings",
}

// stepInWords says what somebody did.
func stepInWords(c store.Change, names map[string]string) string {
	did := orWords(stepNames[c.Kind], c.Kind)
	if c.Account == "" && slices.Contains([]string{"learnt", "learning", "read", "emulators"}, c.Kind) {
		return "Learnt from scores"
	}
	name := names[c.Kind+" "+c.Subject]
	if name == "" || c.Kind == store.Kit || c.Kind == store.Settings {
		return capital(did)
	}
	return capital(did + ": " + name)
}

// learningPage says how far learning from all scores is.
func (s *Server) learningPage(w http.ResponseWriter, q *http.Request, v visit) error {
	body := page.Learning{May: v.May(account.EditPeople) && s.Background != nil}
	if err := s.view(q, v, func(b *store.Books) error {
		l, err := b.Learning()
		if err != nil {
			return err
		}
		waiting, err := b.Unlearnt(l.Seq)
		body.Percent, body.Going = l.Percent, l.Percent < 100 && !l.BeganAt.IsZero()
		switch {
		case body.Going:
			body.Says = fmt.Sprintf("Learning from all scores is under way: %d %%.", l.Percent)
		case l.DoneAt.IsZero():
			body.Says = "All scores together have not been learnt from yet."
		default:
			body.Says = "All scores were learnt from on " + l.DoneAt.Format("2006-01-02 at 15:04") + "."
		}
		body.Waiting = "No score has come since."
		if n := len(waiting); n > 0 {
			body.Waiting = "Scores of " + map[bool]string{true: "1 person have", false: fmt.Sprintf("%d people have", n)}[n == 1] + " come since."
		}
		return err
	}); err != nil {
		return err
	}
	return s.showIn(w, q, v, http.StatusOK, "/settings", "Learning", body)
}
