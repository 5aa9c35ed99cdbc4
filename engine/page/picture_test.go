package page

import (
	"strconv"
	"strings"
	"testing"
	"unicode"

	"cartwright/engine/project"
)

// TestPictures: the drawings stay on their grid of 24, no two answers to one
// choice look alike, and every answer to a choice that has one has its own.
func TestPictures(t *testing.T) {
	fields := map[string]map[drawn]bool{}
	for key, d := range pictures {
		path, _, _ := strings.Cut(key, "=")
		if fields[path] == nil {
			fields[path] = map[drawn]bool{}
		}
		if fields[path][d] {
			t.Errorf("%s looks like another answer", key)
		}
		fields[path][d] = true
		for _, n := range strings.FieldsFunc(string(d), func(r rune) bool { return unicode.IsLetter(r) || r == ' ' }) {
			for _, m := range strings.Split(strings.ReplaceAll(n, "-", " -"), " ") {
				if v, err := strconv.ParseFloat(m, 64); m != "" && (err != nil || v < -24 || v > 24) {
					t.Errorf("%s: %q in %s", key, m, d)
				}
			}
		}
	}
	b := newBuilder(started(t, "jointer-stand", func(*project.Project) {}))
	html := ""
	for _, s := range sections {
		if n := s.make(b); n != nil {
			var buf buffer
			n.write(&buf)
			html += string(buf)
		}
	}
	for path, answers := range fields {
		if !strings.Contains(html, `id="i-`+path+`"`) {
			continue // it hangs on another choice
		}
		if n := strings.Count(html, `id="p-`+path+`-`); n != len(answers) {
			t.Errorf("%s shows %d drawings of %d", path, n, len(answers))
		}
	}
	if strings.Count(html, `class="pics"`) < 10 {
		t.Errorf("only %d choices have drawings", strings.Count(html, `class="pics"`))
	}
}
