package page

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"io/fs"
	"mime"
	"net/http"
	"path"
	"regexp"
	"strconv"
	"strings"

	"roomful/picture"
)

//go:embed assets
var embedded embed.FS

// asset is a file that pages load.
type asset struct {
	kind   string // for Content-Type
	plain  []byte
	packed []byte // by gzip; nil where it gains nothing
}

// assets are all files by the name under which they are served, and those names by the
// names that pages call them by.
var assets, assetNames = load()

// Asset is the path of a file, by its name in the folder.
func Asset(name string) (string, error) {
	served, ok := assetNames[name]
	if !ok {
		return "", fmt.Errorf("there is no asset %q", name)
	}
	return "/assets/" + served, nil
}

// ServeAsset answers with the file that the last element of a path names, for good: its
// name changes with what is in it. False when there is none.
func ServeAsset(w http.ResponseWriter, q *http.Request) bool {
	a, ok := assets[path.Base(q.URL.Path)]
	if !ok {
		return false
	}
	w.Header().Set("Content-Type", a.kind)
	w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	sent := a.plain
	if a.packed != nil {
		w.Header().Set("Vary", "Accept-Encoding")
		if strings.Contains(q.Header.Get("Accept-Encoding"), "gzip") {
			w.Header().Set("Content-Encoding", "gzip")
			sent = a.packed
		}
	}
	w.Header().Set("Content-Length", strconv.Itoa(len(sent)))
	if q.Method != http.MethodHead {
		_, _ = w.Write(sent) // whoever is gone has no use for it
	}
	return true
}

// load names each file by what is in it. Stylesheets come last: what they name has its
// name by then.
func load() (map[string]asset, map[string]string) {
	files, names := map[string]asset{}, map[string]string{}
	all, err := fs.Glob(embedded, "assets/*")
	if err != nil {
		panic(err) // the pattern is no pattern
	}
	for _, last := range []bool{false, true} {
		for _, file := range all {
			if strings.HasSuffix(file, ".css") != last {
				continue
			}
			text, err := embedded.ReadFile(file)
			if err != nil {
				panic(err) // what is embedded is there
			}
			if last {
				text = relink(text, names)
			}
			if path.Base(file) == "look.css" { // one request less on each page with pictures
				text = append(text, "\n"+picture.Stylesheet...)
			}
			names[path.Base(file)] = served(file, text)
			files[served(file, text)] = pack(file, text)
		}
	}
	together := join(everywhere)
	names[Everywhere] = served(Everywhere, together)
	files[names[Everywhere]] = pack(Everywhere, together)
	return files, names
}

// Everywhere is the module that every page loads: those that all need, as one request.
const Everywhere = "everywhere.js"

// everywhere are those modules. None imports or exports, so that each can stand in a block
// of its own.
var everywhere = []string{"live.js", "keep.js", "send.js"}

// join puts modules one behind the other.
func join(names []string) (out []byte) {
	for _, name := range names {
		text, err := embedded.ReadFile("assets/" + name)
		if err != nil {
			panic(err) // what is embedded is there
		}
		out = append(append(append(out, "{\n"...), text...), "}\n"...)
	}
	return out
}

// served is the name under which a file is served.
func served(file string, text []byte) string {
	sum := sha256.Sum256(text)
	end := path.Ext(file)
	return strings.TrimSuffix(path.Base(file), end) + "." + hex.EncodeToString(sum[:6]) + end
}

// links are what a stylesheet names.
var links = regexp.MustCompile(`url\(([a-z0-9.-]+)\)`)

// relink has a stylesheet name files as they are served.
func relink(text []byte, names map[string]string) []byte {
	return links.ReplaceAllFunc(text, func(link []byte) []byte {
		return []byte("url(" + names[string(links.FindSubmatch(link)[1])] + ")")
	})
}

// pack makes a file ready to be sent; typefaces are packed already.
func pack(file string, text []byte) asset {
	a := asset{kind: mime.TypeByExtension(path.Ext(file)), plain: text}
	if path.Ext(file) == ".woff2" {
		a.kind = "font/woff2"
		return a
	}
	var out bytes.Buffer
	z, _ := gzip.NewWriterLevel(&out, gzip.BestCompression) // fails on unknown levels alone
	_, _ = z.Write(text)
	_ = z.Close() // a buffer takes everything
	a.packed = out.Bytes()
	return a
}
