package web

import (
	"fmt"
	"net/http"
	"runtime/debug"
)

// logged notes each request: what was asked by its pattern, never by its path, which may
// hold a secret or a name.
func (s *Server) logged(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		began := s.Now()
		seen := &statusWriter{ResponseWriter: w, status: http.StatusOK}
		defer func() {
			if p := recover(); p != nil { // its words may be somebody's: where it was is enough
				s.Log.Error("a request stopped", "route", q.Pattern, "what", fmt.Sprintf("%T", p), "where", string(debug.Stack()))
				if !seen.wrote {
					http.Error(seen, "something went wrong here; nothing that you typed was stored", http.StatusInternalServerError)
				}
			}
			took := s.Now().Sub(began)
			s.figures.count(q.Pattern, seen.status, took)
			s.Log.Info("asked", "route", q.Pattern, "status", seen.status, "ms", took.Milliseconds())
		}()
		next.ServeHTTP(seen, q)
	})
}

// statusWriter remembers the status of an answer.
type statusWriter struct {
	http.ResponseWriter
	status int
	wrote  bool
}

// WriteHeader implements [http.ResponseWriter].
func (w *statusWriter) WriteHeader(status int) {
	w.status, w.wrote = status, true
	w.ResponseWriter.WriteHeader(status)
}

// Write implements io.Writer.
func (w *statusWriter) Write(p []byte) (int, error) {
	w.wrote = true
	return w.ResponseWriter.Write(p)
}

// Unwrap lets [http.ResponseController] reach the connection.
func (w *statusWriter) Unwrap() http.ResponseWriter { return w.ResponseWriter }
