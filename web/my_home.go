package web

import (
	"net/http"
	"net/url"
	"strings"

	"roomful"
	"roomful/store"
	"roomful/web/page"
)

// homeForm tells what the visitor has at home, and leads to their day there.
func (s *Server) homeForm(w http.ResponseWriter, q *http.Request, v visit) error {
	if v.Account.Person == "" {
		return &roomful.Error{Summary: "telling what you have at home: this account is nobody of the people", Hint: "have the owner invite you as one of the people"}
	}
	text := strings.TrimSpace(q.PostFormValue("home"))
	var out told
	if err := s.update(q, v, func(b *store.Books) error {
		p, err := b.Person(v.Account.Person)
		if err != nil {
			return err
		}
		out, err = s.tell(b, v, p.ID, telling{Revision: p.Revision, Told: map[string]string{"home": text}})
		return err
	}); err != nil {
		return err
	}
	if faults(out.Diagnostics) || text == "" {
		kit := &page.MyKit{Said: text, Wrong: "Say what there is, or “nothing”."}
		if len(out.Diagnostics) > 0 {
			kit.Wrong = asSentence(out.Diagnostics[0].Summary)
			if hint := out.Diagnostics[0].Hint; hint != nil {
				kit.Wrong += " " + asSentence(*hint)
			}
		}
		return s.myDay(w, q, v, redrawn{status: http.StatusUnprocessableEntity, kit: kit})
	}
	return next(w, q, "/sheets/"+url.PathEscape(q.PathValue("name"))+"?home=yes&said=home")
}
