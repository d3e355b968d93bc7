package web

import (
	"net/http"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// sheetsPage is the library of sheets, the latest first.
func (s *Server) sheetsPage(w http.ResponseWriter, q *http.Request, v visit) error {
	var frame page.Frame
	body := page.Sheets{May: v.May(account.EditSheets)}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if frame, err = s.frame(b, q, v, "/sheets", "Sheets"); err != nil {
			return err
		}
		today, err := s.today(b)
		if err != nil {
			return err
		}
		all, err := s.allSeen(b, v)
		for i := len(all) - 1; i >= 0; i-- {
			row := page.SheetRow{Name: all[i].Name, Title: all[i].Title, Day: inWords(all[i].Day)}
			switch {
			case all[i].Day.IsZero():
				body.Adrift = append(body.Adrift, row)
			case all[i].Day.Days(today) > 0:
				body.Ahead = append(body.Ahead, row)
			default:
				body.Done = append(body.Done, row)
			}
		}
		return err
	}); err != nil {
		return err
	}
	return s.show(w, http.StatusOK, frame, body)
}

// inWords says a day as people do; empty for none.
func inWords(d roomful.Date) string {
	if d.IsZero() {
		return ""
	}
	return d.Format("Monday 2 January 2006")
}
