package web

import (
	"net/http"

	"github.com/klauspost/compress/gzhttp"
)

// flows are the addresses whose answers go out as they are: those that never end, those
// that are packed already, and those that are packed once for all.
var flows = map[string]bool{"GET /changes": true, "GET /backup": true, "GET /me/export": true, "GET /assets/{asset}": true}

// pack sends long answers packed to who takes them so. Their lengths are blurred: what is
// secret on a page cannot be guessed by how well it packs beside what a stranger has put
// there (CVE-2013-3587).
var pack = func() func(http.Handler) http.HandlerFunc {
	wrap, err := gzhttp.NewWrapper(gzhttp.MinSize(1024), gzhttp.ContentTypes([]string{"text/html", "application/json", "image/svg+xml", "text/csv", "text/plain"}), gzhttp.RandomJitter(32, 0, false))
	if err != nil {
		panic(err) // the choices above exclude each other
	}
	return wrap
}()
