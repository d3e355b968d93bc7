package web

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"net/http"
	"time"
)

// patience is how long the server waits for those who are slow, on purpose or not.
type patience struct {
	header, request, answer, idle time.Duration
	beat                          time.Duration // between signs of life on a stream
}

// usualPatience is long enough for a telephone in a cellar (judgement).
var usualPatience = patience{header: 10 * time.Second, request: time.Minute, answer: time.Minute, idle: 2 * time.Minute, beat: 20 * time.Second}

// mostHeader bounds the head of a request: a cookie and what browsers say of themselves.
const mostHeader = 16 << 10

// shutdownIn is how long requests that are under way may take to end.
const shutdownIn = 5 * time.Second

// Serve answers on a listener until the context ends, and lets what is under way end.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	end, cancel := context.WithCancel(context.Background())
	defer cancel()
	if s.patience == (patience{}) {
		s.patience = usualPatience
	}
	server := &http.Server{Handler: s.Handler(), MaxHeaderBytes: mostHeader,
		ReadHeaderTimeout: s.patience.header, ReadTimeout: s.patience.request, WriteTimeout: s.patience.answer, IdleTimeout: s.patience.idle,
		ErrorLog: slog.NewLogLogger(s.Log.Handler(), slog.LevelWarn), BaseContext: func(net.Listener) context.Context { return end }}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(l) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	wait, stop := context.WithTimeout(context.Background(), shutdownIn)
	defer stop()
	go func() { // streams of changes never end by themselves
		<-time.After(shutdownIn / 5)
		cancel()
	}()
	err := server.Shutdown(wait)
	if errors.Is(err, context.DeadlineExceeded) {
		err = server.Close()
	}
	return err
}
