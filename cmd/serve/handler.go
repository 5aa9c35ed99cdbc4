package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// policy is what the pages may do: run our own scripts and programs, read our
// own files, and be framed by anyone. The pages repeat it in a meta element
// (frame-ancestors apart, which counts only here) for hosts without headers.
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
	"img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; worker-src 'self'; " +
	"manifest-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors *"

// kinds are the content types by extension. The table of the system may be
// wrong, and a program with a wrong type does not start.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8",
	".js": "text/javascript; charset=utf-8", ".mjs": "text/javascript; charset=utf-8",
	".json": "application/json", ".webmanifest": "application/manifest+json",
	".wasm": "application/wasm", ".svg": "image/svg+xml", ".png": "image/png",
	".woff2": "font/woff2", ".txt": "text/plain; charset=utf-8", ".csv": "text/csv; charset=utf-8",
}

// hashedName matches names that change with their content.
var hashedName = regexp.MustCompile(`\.[0-9a-f]{10}\.[a-z0-9]+$`)

// handler serves the files of site, compressed in advance where the other
// side takes that.
func handler(site fs.FS) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			h.Set("Allow", "GET, HEAD")
			http.Error(w, "only GET and HEAD", http.StatusMethodNotAllowed)
			return
		}
		name := strings.TrimPrefix(r.URL.Path, "/")
		if name == "" || strings.HasSuffix(name, "/") {
			name += "index.html"
		}
		kind, known := kinds[path.Ext(name)]
		// ValidPath keeps out "..", "//" and the like; a name we have no type
		// for, the compressed twins among them, is not asked for by a page.
		if !fs.ValidPath(name) || !known {
			http.NotFound(w, r)
			return
		}
		file, coding := name, ""
		h.Set("Vary", "Accept-Encoding")
		for _, c := range []struct{ coding, ext string }{{"br", ".br"}, {"gzip", ".gz"}} {
			if !accepts(r.Header.Get("Accept-Encoding"), c.coding) {
				continue
			}
			if info, err := fs.Stat(site, name+c.ext); err == nil && info.Mode().IsRegular() {
				file, coding = name+c.ext, c.coding
				break
			}
		}
		data, err := fs.ReadFile(site, file)
		if err != nil {
			http.NotFound(w, r)
			return
		}
		h.Set("Content-Type", kind)
		if coding != "" {
			h.Set("Content-Encoding", coding)
		}
		sum := sha256.Sum256(data)
		h.Set("ETag", `"`+hex.EncodeToString(sum[:8])+`"`)
		if hashedName.MatchString(name) {
			h.Set("Cache-Control", "public, max-age=31536000, immutable")
		} else {
			h.Set("Cache-Control", "no-cache")
		}
		if strings.HasPrefix(name, "projects/") || strings.HasPrefix(name, "schema/") {
			h.Set("Access-Control-Allow-Origin", "*") // meant for other programs too
		}
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
	})
}

// accepts reports whether an Accept-Encoding header takes coding.
func accepts(header, coding string) bool {
	for part := range strings.SplitSeq(header, ",") {
		name, params, _ := strings.Cut(strings.TrimSpace(part), ";")
		if !strings.EqualFold(strings.TrimSpace(name), coding) {
			continue
		}
		if q, ok := strings.CutPrefix(strings.TrimSpace(params), "q="); ok {
			v, err := strconv.ParseFloat(q, 64)
			return err == nil && v > 0
		}
		return true
	}
	return false
}
