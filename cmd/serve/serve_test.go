package main

import (
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

func TestHandler(t *testing.T) {
	site := fstest.MapFS{}
	for name, data := range map[string]string{
		"index.html": "<p>page", "index.html.br": "BR", "index.html.gz": "GZ",
		"view.0123456789.wasm": "\x00asm", "view.0123456789.wasm.gz": "WGZ",
		"app.0123456789.js": "1", "projects/a.json": "{}", "secret": "no type",
	} {
		site[name] = &fstest.MapFile{Data: []byte(data)}
	}
	const immutable = "public, max-age=31536000, immutable"
	tests := []struct {
		name, method, path, accept string
		status                     int
		body, kind, coding, cache  string
	}{
		{"the page", "GET", "/", "", 200, "<p>page", "text/html; charset=utf-8", "", "no-cache"},
		{"brotli before gzip", "GET", "/", "gzip, deflate, br", 200, "BR", "text/html; charset=utf-8", "br", "no-cache"},
		{"gzip alone", "GET", "/index.html", "gzip", 200, "GZ", "text/html; charset=utf-8", "gzip", "no-cache"},
		{"brotli refused", "GET", "/", "br;q=0, gzip;q=0.5", 200, "GZ", "text/html; charset=utf-8", "gzip", "no-cache"},
		{"a program", "GET", "/view.0123456789.wasm", "br, gzip", 200, "WGZ", "application/wasm", "gzip", immutable},
		{"not compressed", "GET", "/app.0123456789.js", "br, gzip", 200, "1", "text/javascript; charset=utf-8", "", immutable},
		{"only the head", "HEAD", "/", "", 200, "", "text/html; charset=utf-8", "", "no-cache"},
		{"a project", "GET", "/projects/a.json", "", 200, "{}", "application/json", "", "no-cache"},
		{"nothing there", "GET", "/no.html", "", 404, "", "", "", ""},
		{"a folder", "GET", "/projects/", "", 404, "", "", "", ""},
		{"no type", "GET", "/secret", "", 404, "", "", "", ""},
		{"a twin", "GET", "/index.html.br", "", 404, "", "", "", ""},
		{"upwards", "GET", "/../index.html", "", 404, "", "", "", ""},
		{"upwards, hidden", "GET", "/projects/%2e%2e/%2e%2e/index.html", "", 404, "", "", "", ""},
		{"another method", "POST", "/", "", 405, "", "", "", ""},
	}
	for _, tt := range tests {
		r := httptest.NewRequest(tt.method, tt.path, nil)
		r.Header.Set("Accept-Encoding", tt.accept)
		w := httptest.NewRecorder()
		handler(site).ServeHTTP(w, r)
		h := w.Header()
		if w.Code != tt.status {
			t.Errorf("%s: status %d, want %d", tt.name, w.Code, tt.status)
		}
		if h.Get("X-Content-Type-Options") != "nosniff" || !strings.Contains(h.Get("Content-Security-Policy"), "frame-ancestors *") {
			t.Errorf("%s: headers are missing: %v", tt.name, h)
		}
		if tt.status != 200 {
			continue
		}
		for _, c := range []struct{ what, got, want string }{
			{"body", w.Body.String(), tt.body}, {"type", h.Get("Content-Type"), tt.kind},
			{"coding", h.Get("Content-Encoding"), tt.coding}, {"cache", h.Get("Cache-Control"), tt.cache},
			{"vary", h.Get("Vary"), "Accept-Encoding"},
		} {
			if c.got != c.want {
				t.Errorf("%s: %s is %q, want %q", tt.name, c.what, c.got, c.want)
			}
		}
	}
}

func TestHandlerAnswersNotModified(t *testing.T) {
	site := fstest.MapFS{"index.html": {Data: []byte("x")}}
	w := httptest.NewRecorder()
	handler(site).ServeHTTP(w, httptest.NewRequest("GET", "/", nil))
	r := httptest.NewRequest("GET", "/", nil)
	r.Header.Set("If-None-Match", w.Header().Get("ETag"))
	w = httptest.NewRecorder()
	handler(site).ServeHTTP(w, r)
	if w.Code != http.StatusNotModified {
		t.Errorf("status %d", w.Code)
	}
}

func TestOpenKeepsLinksInside(t *testing.T) {
	outside, dir := t.TempDir(), t.TempDir()
	for name, data := range map[string]string{filepath.Join(outside, "a.txt"): "private", filepath.Join(dir, "index.html"): "page"} {
		if err := os.WriteFile(name, []byte(data), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(filepath.Join(outside, "a.txt"), filepath.Join(dir, "a.txt")); err != nil {
		t.Fatal(err)
	}
	site, err := open(dir)
	if err != nil {
		t.Fatal(err)
	}
	w := httptest.NewRecorder()
	handler(site).ServeHTTP(w, httptest.NewRequest("GET", "/a.txt", nil))
	if w.Code != http.StatusNotFound {
		t.Errorf("a link out of the folder is followed: %d %s", w.Code, w.Body)
	}
}

func TestOpenSaysWhatToDo(t *testing.T) {
	for _, dir := range []string{filepath.Join(t.TempDir(), "none"), t.TempDir()} {
		if _, err := open(dir); err == nil || !strings.Contains(err.Error(), "make site") {
			t.Errorf("open of a folder without a site: %v", err)
		}
	}
}

func TestListenTakesAFreePort(t *testing.T) {
	a, err := listen("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	b, err := listen(a.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if a.Addr().String() == b.Addr().String() || !b.Addr().(*net.TCPAddr).IP.IsLoopback() {
		t.Errorf("first %v, second %v", a.Addr(), b.Addr())
	}
	go func() { _ = http.Serve(b, handler(fstest.MapFS{"index.html": {Data: []byte("here")}})) }()
	resp, err := http.Get(address(b.Addr()))
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	if body, _ := io.ReadAll(resp.Body); string(body) != "here" {
		t.Errorf("%s says %q", address(b.Addr()), body)
	}
}
