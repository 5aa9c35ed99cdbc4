package planner

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"os"
	"strings"
	"testing"

	"cartwright/engine/project"
)

// demo reads a project of testdata.
func demo(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile("../../../testdata/projects/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func openDemo(t testing.TB, name string) *project.Project {
	t.Helper()
	p, err := project.Open(demo(t, name))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestLinkHoldsTheProject(t *testing.T) {
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		p := openDemo(t, name)
		link, err := EncodeLink(p)
		if err != nil {
			t.Fatal(err)
		}
		if i := strings.IndexFunc(link, func(r rune) bool {
			return !strings.ContainsRune("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_", r)
		}); i >= 0 {
			t.Errorf("%s: the link holds %q, which an address may not", name, link[i])
		}
		back, err := DecodeLink("#" + link)
		if err != nil {
			t.Fatal(err)
		}
		p.Journal = nil
		if got, want := project.Save(back), project.Save(p); !bytes.Equal(got, want) {
			t.Errorf("%s: out of the link came\n%s\nwant\n%s", name, got, want)
		}
		t.Logf("%s: link of %d characters", name, len(link))
	}
}

func pack(text string) string {
	var b bytes.Buffer
	e := base64.NewEncoder(base64.RawURLEncoding, &b)
	z, _ := flate.NewWriter(e, flate.BestCompression)
	z.Write([]byte(text))
	z.Close()
	e.Close()
	return b.String()
}

func TestBadLinks(t *testing.T) {
	good, err := EncodeLink(openDemo(t, "jointer-stand"))
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ name, link, says string }{
		{"nothing", "", "damaged"},
		{"only a version", "1", "damaged"},
		{"words", "#about", "damaged"},
		{"cut off", good[:len(good)/2], "damaged"},
		{"newer", "2" + good[1:], "newer version"},
		{"no base64", "1%%%%", "damaged"},
		{"no project", "1" + pack(`{"format":"else"}`), "not a Cartwright project"},
		{"newer file", "1" + pack(`{"format":"cartwright-project","version":7}`), "version 7"},
		{"bomb", "1" + pack(strings.Repeat(" ", 64<<20)), "more than a project can be"},
		{"too long", "1" + strings.Repeat("A", 1<<20), "longer than a link can be"},
	} {
		_, err := DecodeLink(tt.link)
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: error %v, want one that says %q", tt.name, err, tt.says)
		}
	}
}

func FuzzDecodeLink(f *testing.F) {
	good, err := EncodeLink(openDemo(f, "jointer-stand"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)
	f.Add("1" + pack("{}"))
	f.Fuzz(func(t *testing.T, link string) {
		p, err := DecodeLink(link)
		if (p == nil) == (err == nil) {
			t.Errorf("DecodeLink(%q) = %v, %v", link, p, err)
		}
	})
}
