package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"slices"
	"strings"
	"unicode/utf8"

	"roomful"
	"roomful/exchange"
	"roomful/store"
)

// answer writes the JSON of an answer.
func answer(w http.ResponseWriter, v any) error {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	return exchange.Write(w, v)
}

// answerWith is answer with another status than 200.
func answerWith(w http.ResponseWriter, status int, v any) error {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	return exchange.Write(w, v)
}

// faults reports whether something was found that has to be mended first.
func faults(ds []exchange.Diagnostic) bool {
	return slices.ContainsFunc(ds, func(d exchange.Diagnostic) bool { return d.Severity == roomful.Fault.String() })
}

// read reads the JSON that somebody sends.
func read(q *http.Request, v any) error {
	sent, err := io.ReadAll(q.Body)
	if err == nil && !utf8.Valid(sent) {
		err = store.ErrText // decoding would put other letters in their place
	}
	if err == nil {
		d := json.NewDecoder(bytes.NewReader(sent))
		d.DisallowUnknownFields()
		if err = d.Decode(v); err == nil {
			if _, more := d.Token(); !errors.Is(more, io.EOF) {
				err = errors.New("something stands behind it")
			}
		}
	}
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return &refusal{http.StatusRequestEntityTooLarge, roomful.Error{Summary: "what was sent is larger than a megabyte", Hint: "send it in parts"}}
	case errors.Is(err, os.ErrDeadlineExceeded):
		return &refusal{http.StatusRequestTimeout, roomful.Error{Summary: "what was sent did not come in time", Hint: "try again"}}
	case errors.Is(err, store.ErrText):
		return err
	case err != nil:
		return &refusal{http.StatusBadRequest, roomful.Error{Summary: "reading what was sent: " + unreadable(err), Hint: "send one JSON object with the fields of this route"}}
	}
	return nil
}

// unreadable says why some JSON could not be read, in words for whoever sent it.
func unreadable(err error) string {
	var kind *json.UnmarshalTypeError
	var form *json.SyntaxError
	switch {
	case errors.Is(err, io.EOF):
		return "there is nothing"
	case errors.Is(err, io.ErrUnexpectedEOF):
		return "it stops in the middle"
	case errors.As(err, &form):
		return fmt.Sprintf("it is no JSON from byte %d on", form.Offset)
	case errors.As(err, &kind) && kind.Field == "":
		return "it is no object"
	case errors.As(err, &kind):
		return fmt.Sprintf("%s cannot be %s", strings.ToLower(kind.Field), sentAs(kind.Value))
	}
	return strings.TrimPrefix(err.Error(), "json: ")
}

// sentAs names a kind of JSON value: "number 1.5" and "number" are a number.
func sentAs(value string) string {
	switch kind, _, _ := strings.Cut(value, " "); kind {
	case "string":
		return "a text"
	case "bool":
		return "true or false"
	case "array":
		return "a list"
	case "object":
		return "an object"
	}
	return "the " + value
}

// expected reports whether an error tells that something is not there, or what to do next,
// and so no fault of this program or of its memory, which is never passed over.
func expected(err error) bool {
	return errors.Is(err, store.ErrMissing) || roomful.HintOf(err) != ""
}

// refuse answers with why not, in the form that was asked for.
func (s *Server) refuse(w http.ResponseWriter, q *http.Request, err error) {
	status, say := http.StatusInternalServerError, &roomful.Error{Summary: "something went wrong here", Hint: "try again; nothing that you typed was stored"}
	var refused *refusal
	var plain *roomful.Error
	var trouble *store.Trouble
	switch {
	case errors.As(err, &refused):
		status, say = refused.status, &refused.say
	case q.Context().Err() != nil: // they are gone, or the server is about to be
		status, say = http.StatusServiceUnavailable, &roomful.Error{Summary: "that was broken off", Hint: "keep what you typed and send it again"}
	case errors.As(err, &trouble):
		s.Log.Error("the database is in trouble", "route", q.Pattern, "why", err)
		status, say = http.StatusServiceUnavailable, &roomful.Error{Summary: "the gym's memory cannot be used just now", Hint: "keep what you typed and send it again in a while"}
	case errors.As(err, &plain):
		status, say = http.StatusBadRequest, plain
	case errors.Is(err, store.ErrMissing):
		status, say = http.StatusNotFound, &roomful.Error{Summary: "there is no such thing here", Hint: "look at its name"}
	case errors.Is(err, store.ErrStale):
		status, say = http.StatusConflict, &roomful.Error{Summary: "somebody else has changed it meanwhile", Hint: "read it again, and send what you changed"}
	case errors.Is(err, store.ErrText):
		status, say = http.StatusBadRequest, &roomful.Error{Summary: "what was sent holds bytes that are no letters", Hint: "send UTF-8"}
	case errors.Is(err, store.ErrTaken):
		status, say = http.StatusConflict, &roomful.Error{Summary: "that id or name is taken by something else", Hint: "send it under an id of its own"}
	default:
		s.Log.Error("a request failed", "route", q.Pattern, "why", err)
	}
	if wantsPage(q) {
		if err := s.refusedPage(w, q, status, *say, errors.Is(err, store.ErrTaken)); err != nil {
			s.Log.Error("a refusal could not be drawn", "route", q.Pattern, "why", err)
		}
		return
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_ = exchange.Write(w, exchange.RefusalOf(say, nil))
}

// healthy says that the program runs.
func (s *Server) healthy(w http.ResponseWriter, _ *http.Request, _ visit) error {
	_, err := io.WriteString(w, "ok\n")
	return err
}

// ready says whether the database answers.
func (s *Server) ready(w http.ResponseWriter, q *http.Request, _ visit) error {
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error { _, err := tx.Gyms(); return err }); err != nil {
		s.Log.Error("not ready", "why", err)
		return &refusal{http.StatusServiceUnavailable, roomful.Error{Summary: "the database does not answer", Hint: "look at the log"}}
	}
	_, err := fmt.Fprintln(w, "ready")
	return err
}
