package web

import (
	"net"
	"net/http"
	"net/url"
	"strings"

	"roomful/account"
)

// base is the address by which the visitor's browser reaches the server, without a path.
func (s *Server) base(q *http.Request) string {
	switch {
	case s.URL != "":
		return s.URL
	case s.secure(q):
		return "https://" + q.Host
	default:
		return "http://" + q.Host
	}
}

// secure reports whether the visitor's browser speaks https, to whatever stands in front
// of the server: all do but those on this machine.
func (s *Server) secure(q *http.Request) bool {
	if s.URL != "" {
		return strings.HasPrefix(s.URL, "https://")
	}
	return !s.Plain || !fromHere(q)
}

// site is what passkeys are made for: the origin that the browser sees. A number is no
// name, so on this machine it has to be called localhost.
func (s *Server) site(q *http.Request, name string) account.Site {
	return account.Site{Name: name, Origin: s.base(q)}
}

// passkeysWork reports whether browsers make passkeys for the address by which they see
// the server.
func (s *Server) passkeysWork(q *http.Request) bool {
	at, err := url.Parse(s.base(q))
	return err == nil && net.ParseIP(at.Hostname()) == nil && (at.Scheme == "https" || at.Hostname() == "localhost")
}

// address is who asks, for the pace: what stands in front of the server on this machine
// says for whom it asks.
func address(q *http.Request) string {
	host, _, err := net.SplitHostPort(q.RemoteAddr)
	if err != nil {
		host = q.RemoteAddr
	}
	if via := q.Header.Values("X-Forwarded-For"); loopback(host) && len(via) > 0 {
		all := strings.Split(via[len(via)-1], ",")
		if last := strings.TrimSpace(all[len(all)-1]); net.ParseIP(last) != nil {
			return "address " + last
		}
	}
	return "address " + host
}
