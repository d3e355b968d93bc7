package web

import (
	"errors"
	"net/http"
	"strconv"

	"roomful"
	"roomful/store"
)

// publishForm publishes a day as its writer sees it. What stands in the way is said on the
// day itself.
func (s *Server) publishForm(w http.ResponseWriter, q *http.Request, v visit) error {
	revision, err := strconv.ParseInt(q.PostFormValue("revision"), 10, 64)
	if err != nil || revision < 1 {
		return &roomful.Error{Summary: "publishing a day: it is not said which text of it", Hint: "open the day and press Publish there"}
	}
	_, err = s.publishDay(q, v, q.PathValue("name"), publishing{revision, q.PostFormValue("again") != ""})
	var plain *roomful.Error
	switch {
	case err == nil:
		return next(w, q, dayPath(q, "said", "published"))
	case errors.Is(err, store.ErrStale):
		return s.coachPage(w, q, v, written{status: http.StatusConflict, told: "Not published: it was saved again meanwhile. Look at it as it stands here, then publish."})
	case errors.As(err, &plain):
		return s.coachPage(w, q, v, written{status: http.StatusBadRequest, told: "Not published: the sheet has lines to mend. They are named under it."})
	}
	return err
}
