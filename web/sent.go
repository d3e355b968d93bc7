package web

import (
	"errors"
	"net/http"
	"net/url"
	"unicode/utf8"

	"roomful"
	"roomful/store"
)

// sentForm reads the form that a browser has posted.
func sentForm(q *http.Request) (url.Values, error) {
	err := q.ParseForm()
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return nil, &refusal{http.StatusRequestEntityTooLarge, roomful.Error{Summary: "what was sent is larger than a megabyte", Hint: "send it in parts"}}
	case err != nil:
		return nil, &refusal{http.StatusBadRequest, roomful.Error{Summary: "what was sent is no form", Hint: "go back to the page and send it again"}}
	}
	for _, values := range q.PostForm {
		for _, value := range values {
			if !utf8.ValidString(value) {
				return nil, store.ErrText
			}
		}
	}
	return q.PostForm, nil
}
