package main

import (
	"bytes"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
)

func sources() map[string][]byte {
	return map[string][]byte{
		"index.html":      []byte("<!doctype html><html lang=en><head><title>x</title><link rel=stylesheet href=\"app.css\"><script type=module src=\"./app.js\"></script></head><body><p>\"app.js\" </p></body></html>"),
		"canvas.html":     []byte(`<!doctype html><title>c</title><script src="canvas.js"></script>`),
		"app.css":         []byte("@import \"look/a.css\";\n@import \"look/b.css\";\n"),
		"look/a.css":      []byte("@font-face{font-family:a;src:url(a.woff2)} body { color : red }\n"),
		"look/b.css":      []byte("body { color : blue }\n"),
		"app.js":          []byte("import { a } from './lib.js'; const w = 'worker.wasm', c = \"canvas.html\", sw = './sw.js', no = 'my app.js'; a(w, c, sw, no)"),
		"lib.js":          []byte("export function a(...x) { console.log(x) }"),
		"canvas.js":       []byte("fetch(`view.wasm`)"),
		"a.woff2":         []byte("font"),
		"worker.wasm":     []byte("\x00asm"),
		"view.wasm":       []byte("\x00asm2"),
		"projects/a.json": []byte("{\n  \"a\": 1\n}\n"),
		"sw.js":           []byte(`const files = "{{files}}", build = "{{build}}"; console.log(files, build)`),
	}
}

func TestPartIsMissing(t *testing.T) {
	files := sources()
	delete(files, "look/b.css")
	if _, err := assemble(files); err == nil || !strings.Contains(err.Error(), "look/b.css") {
		t.Errorf("a style sheet without one of its parts: %v", err)
	}
}

func TestAssemble(t *testing.T) {
	out, err := assemble(sources())
	if err != nil {
		t.Fatal(err)
	}
	name := func(plain string) string {
		t.Helper()
		ext := filepath.Ext(plain)
		re := regexp.MustCompile("^" + strings.TrimSuffix(plain, ext) + `\.[0-9a-f]{10}` + regexp.QuoteMeta(ext) + "$")
		for n := range out {
			if re.MatchString(n) {
				return n
			}
		}
		t.Fatalf("no hashed %s", plain)
		return ""
	}
	holds := func(file, want string) {
		t.Helper()
		if got := string(out[file]); !strings.Contains(got, want) {
			t.Errorf("%s lacks %s:\n%s", file, want, got)
		}
	}
	holds("index.html", name("app.css"))
	holds("index.html", `"./`+name("app.js")+`"`)
	holds(name("app.css"), "url("+name("a.woff2")+")")
	holds(name("app.css"), "body{color:red}body{color:blue}")
	holds(name("app.js"), "./"+name("lib.js"))
	holds(name("app.js"), name("worker.wasm"))
	holds(name("app.js"), "canvas.html")
	holds(name("app.js"), "./sw.js")
	holds(name("app.js"), "my app.js")
	holds(name("canvas.js"), name("view.wasm"))
	holds("canvas.html", name("canvas.js"))
	holds("projects/a.json", "{\n  \"a\": 1\n}\n")
	for n := range out {
		if n != "sw.js" {
			holds("sw.js", `"`+n+`"`)
		}
	}
	if bytes.Contains(out["sw.js"], []byte("{{")) {
		t.Errorf("sw.js still has a token: %s", out["sw.js"])
	}

	again, err := assemble(sources())
	if err != nil || string(again["sw.js"]) != string(out["sw.js"]) {
		t.Errorf("the same sources gave another sw.js: %v", err)
	}
	changed := sources()
	changed["view.wasm"] = []byte("\x00asm3")
	other, err := assemble(changed)
	if err != nil || string(other["sw.js"]) == string(out["sw.js"]) {
		t.Errorf("a changed program gave the same sw.js: %v", err)
	}
	if _, ok := other[name("canvas.js")]; ok {
		t.Error("canvas.js keeps its hash though view.wasm has another name")
	}
}

func TestAssembleRefusesCircles(t *testing.T) {
	_, err := assemble(map[string][]byte{"a.js": []byte("import './b.js'"), "b.js": []byte("import './a.js'")})
	if err == nil || !strings.Contains(err.Error(), "names itself") {
		t.Errorf("got %v", err)
	}
}

func TestWriteKeepsOnlyTheSite(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "old.js"), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	site := map[string][]byte{"a/b.js": []byte("1"), "index.html": []byte("2")}
	if err := write(dir, site, map[string]pack{"a/b.js": {br: []byte("x")}}); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]bool{"old.js": false, "a/b.js": true, "a/b.js.br": true, "a/b.js.gz": false, "index.html": true} {
		if _, err := os.Stat(filepath.Join(dir, name)); (err == nil) != want {
			t.Errorf("%s there: %v, want %v", name, err == nil, want)
		}
	}
}

func TestCompressorRemembers(t *testing.T) {
	c := compressor{dir: t.TempDir(), quality: 5}
	data := bytes.Repeat([]byte("straight through-cuts "), 100)
	for range 2 {
		p, err := c.pack(data)
		if err != nil {
			t.Fatal(err)
		}
		back, err := io.ReadAll(brotli.NewReader(bytes.NewReader(p.br)))
		if err != nil || !bytes.Equal(back, data) {
			t.Fatalf("brotli does not come back: %v", err)
		}
	}
	if files, _ := os.ReadDir(c.dir); len(files) != 2 {
		t.Errorf("%d files in the cache, want 2", len(files))
	}
}

func TestIcons(t *testing.T) {
	icons, err := drawIcons()
	if err != nil {
		t.Fatal(err)
	}
	for name, size := range map[string]int{"icons/icon-180.png": 180, "icons/icon-192.png": 192, "icons/icon-512.png": 512, "icons/icon-mask-512.png": 512} {
		c, err := png.DecodeConfig(bytes.NewReader(icons[name]))
		if err != nil || c.Width != size || c.Height != size {
			t.Errorf("%s: %d×%d, %v", name, c.Width, c.Height, err)
		}
	}
}
