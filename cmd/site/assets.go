package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/html"
	"github.com/tdewolff/minify/v2/js"
	mjson "github.com/tdewolff/minify/v2/json"
	"github.com/tdewolff/minify/v2/svg"
)

// collect returns all source files of the site by path: those under site/,
// the programs and their loader, the icons, the demo projects, the schema, the
// licences.
func collect(programs []program) (map[string][]byte, error) {
	files := map[string][]byte{}
	err := filepath.WalkDir("site", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if base := d.Name(); strings.HasPrefix(base, ".") || strings.HasSuffix(base, ".md") || strings.HasSuffix(base, ".go") {
			return nil
		}
		data, err := os.ReadFile(name)
		rel, _ := filepath.Rel("site", name)
		files[filepath.ToSlash(rel)] = data
		return err
	})
	if err != nil {
		return nil, err
	}
	for _, p := range programs {
		files[p.name+".wasm"] = p.data
	}
	if files["wasm_exec.js"], err = wasmExec(); err != nil {
		return nil, err
	}
	if files["licenses.txt"], err = licenses(); err != nil {
		return nil, err
	}
	icons, err := drawIcons()
	if err != nil {
		return nil, err
	}
	maps.Copy(files, icons)
	starts, _ := filepath.Glob("testdata/projects/*.json")
	for _, name := range starts {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		files["projects/"+filepath.Base(name)] = data
	}
	schemas, _ := filepath.Glob("engine/project/*schema*.json")
	for _, name := range schemas {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		files["schema/"+filepath.Base(name)] = data
	}
	return files, nil
}

// keepsName reports whether a file must be found under its plain name: pages,
// what is registered or linked from outside, and files for people.
func keepsName(name string) bool {
	switch {
	case strings.HasSuffix(name, ".html"), strings.HasSuffix(name, ".webmanifest"),
		strings.HasPrefix(name, "projects/"), strings.HasPrefix(name, "schema/"):
		return true
	}
	switch name {
	case "sw.js", "embed.js", "licenses.txt", "robots.txt", "favicon.ico":
		return true
	}
	return false
}

// rewritten reports whether references in a file are looked for.
func rewritten(name string) bool {
	switch path.Ext(name) {
	case ".html", ".css", ".js", ".webmanifest":
		return name != "wasm_exec.js" && name != "sw.js"
	}
	return false
}

// reference finds a quoted string or a url() without quotes.
var reference = regexp.MustCompile(`"[^"\s]*"|'[^'\s]*'|` + "`[^`\\s]*`" + `|url\([^"'()\s]*\)`)

// part finds a style sheet that another one is made of.
var part = regexp.MustCompile(`@import "([^"]+)";\n`)

// join puts style sheets together of their parts, so that a page loads one file.
func join(files map[string][]byte) (map[string][]byte, error) {
	out := maps.Clone(files)
	for name, data := range files {
		for _, m := range part.FindAllSubmatch(data, -1) {
			of := string(m[1])
			if path.Ext(name) != ".css" {
				continue
			}
			if files[of] == nil {
				return nil, fmt.Errorf("%s: there is no %s", name, of)
			}
			out[name] = bytes.Replace(out[name], m[0], files[of], 1)
			delete(out, of)
		}
	}
	return out, nil
}

// assemble returns the files of the site under their final names, with their
// final content.
func assemble(files map[string][]byte) (map[string][]byte, error) {
	files, err := join(files)
	if err != nil {
		return nil, err
	}
	a := assembler{in: files, names: map[string]string{}, busy: map[string]bool{}, out: map[string][]byte{}, min: newMinifier()}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if name == "sw.js" {
			continue
		}
		if _, err := a.finish(name); err != nil {
			return nil, err
		}
	}
	if sw, ok := files["sw.js"]; ok {
		data, err := a.min.Bytes("application/javascript", serviceWorker(sw, a.out))
		if err != nil {
			return nil, fmt.Errorf("sw.js: %w", err)
		}
		a.out["sw.js"] = data
	}
	return a.out, nil
}

type assembler struct {
	in    map[string][]byte
	names map[string]string // final names
	busy  map[string]bool
	out   map[string][]byte
	min   *minify.M
}

// finish puts a file, and before it all that it names, into out, and returns
// its final name.
func (a *assembler) finish(name string) (string, error) {
	if final, ok := a.names[name]; ok {
		return final, nil
	}
	if a.busy[name] {
		return "", fmt.Errorf("%s names itself through other files: one of them must keep its name", name)
	}
	a.busy[name] = true
	data := a.in[name]
	if keepsName(name) {
		a.names[name] = name // before its references, which may name it
	}
	if rewritten(name) {
		var failed error
		data = reference.ReplaceAllFunc(data, func(q []byte) []byte {
			open, to, shut := split(string(q))
			if _, ok := a.in[to]; !ok || to == "sw.js" {
				return q
			}
			final, err := a.finish(to)
			if err != nil {
				failed = err
			}
			return []byte(open + final + shut)
		})
		if failed != nil {
			return "", failed
		}
	}
	data, err := a.minified(name, data)
	if err != nil {
		return "", fmt.Errorf("%s: %w", name, err)
	}
	final := name
	if !keepsName(name) {
		final = hashed(name, data)
	}
	a.names[name], a.out[final] = final, data
	return final, nil
}

// split takes a match of reference apart: what opens it, the name, what ends
// it. A leading "./" belongs to what opens it.
func split(q string) (open, name, shut string) {
	n := 1
	if strings.HasPrefix(q, "url(") {
		n = len("url(")
	}
	if strings.HasPrefix(q[n:], "./") {
		n += len("./")
	}
	if n >= len(q) {
		return q, "", ""
	}
	return q[:n], q[n : len(q)-1], q[len(q)-1:]
}

func newMinifier() *minify.M {
	m := minify.New()
	m.Add("text/html", &html.Minifier{KeepDocumentTags: true, KeepEndTags: true, KeepQuotes: true, KeepDefaultAttrVals: true})
	m.AddFunc("text/css", css.Minify)
	m.AddFunc("application/javascript", js.Minify)
	m.AddFunc("application/json", mjson.Minify)
	m.AddFunc("image/svg+xml", svg.Minify)
	return m
}

// minified returns data as small as its kind can be made. Projects and the
// schema stay as they are: people read them.
func (a *assembler) minified(name string, data []byte) ([]byte, error) {
	kinds := map[string]string{
		".html": "text/html", ".css": "text/css", ".js": "application/javascript", ".mjs": "application/javascript",
		".webmanifest": "application/json", ".svg": "image/svg+xml",
	}
	if kind, ok := kinds[path.Ext(name)]; ok {
		return a.min.Bytes(kind, data)
	}
	return data, nil
}

// hashed puts the hash of data into name, before its extension.
func hashed(name string, data []byte) string {
	ext := path.Ext(name)
	return strings.TrimSuffix(name, ext) + "." + digest(data) + ext
}

func digest(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:5])
}

// serviceWorker fills in the list of files and the hash of them all.
func serviceWorker(sw []byte, out map[string][]byte) []byte {
	names := slices.Sorted(maps.Keys(out))
	h := sha256.New()
	for _, name := range names {
		fmt.Fprintf(h, "%s %d\n", name, len(out[name]))
		h.Write(out[name])
	}
	h.Write(sw)
	list, err := json.Marshal(names)
	if err != nil {
		panic(err) // strings always marshal
	}
	sw = bytes.ReplaceAll(sw, []byte(`"{{files}}"`), list)
	return bytes.ReplaceAll(sw, []byte("{{build}}"), []byte(hex.EncodeToString(h.Sum(nil)[:8])))
}

// write makes dir hold exactly the site: new files first, then the pages and
// the service worker that name them, then what is left over goes.
func write(dir string, site map[string][]byte, packed map[string]pack) error {
	keep := map[string]bool{}
	put := func(name string, data []byte) error {
		keep[name] = true
		to := filepath.Join(dir, filepath.FromSlash(name))
		if old, err := os.ReadFile(to); err == nil && bytes.Equal(old, data) {
			return nil
		}
		if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
			return err
		}
		return os.WriteFile(to, data, 0o666)
	}
	names := slices.Sorted(maps.Keys(site))
	slices.SortStableFunc(names, func(a, b string) int { return boolInt(keepsName(a)) - boolInt(keepsName(b)) })
	for _, name := range names {
		p := packed[name]
		if err := put(name, site[name]); err != nil {
			return err
		}
		if p.br != nil {
			if err := put(name+".br", p.br); err != nil {
				return err
			}
		}
		if p.gz != nil {
			if err := put(name+".gz", p.gz); err != nil {
				return err
			}
		}
	}
	return filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if rel, _ := filepath.Rel(dir, name); !keep[filepath.ToSlash(rel)] {
			return os.Remove(name)
		}
		return nil
	})
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}
