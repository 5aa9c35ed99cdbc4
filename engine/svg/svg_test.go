package svg

import (
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cartwright/engine/scene"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const px = scene.PX

// signs is one drawing of every sign there is.
func signs() scene.Scene {
	s := scene.Scene{W: 640 * px, H: 560 * px, Title: "Every sign there is"}
	s.Add(scene.Area{Pts: scene.R(0, 0, s.W, s.H).Corners(), Fill: scene.Paper})
	for i := scene.Fine; i <= scene.Next; i++ {
		y := (20 + 24*scene.Unit(i)) * px
		s.Add(scene.Line{Pts: []scene.Pt{{X: 20 * px, Y: y}, {X: 220 * px, Y: y}, {X: 260 * px, Y: y - 12*px}}, Pen: i, Tone: scene.Ink})
	}
	for i := scene.WasteHatch; i <= scene.TrimHatch; i++ {
		x := (290 + 70*scene.Unit(i-1)) * px
		s.Add(scene.Area{Pts: scene.R(x, 20*px, 60*px, 60*px).Corners(), Fill: scene.Sheet, Hatch: i, Pen: scene.Medium, Tone: scene.Ink})
		s.Add(scene.Area{Pts: []scene.Pt{{X: x, Y: 100 * px}, {X: x + 60*px, Y: 120 * px}, {X: x + 30*px, Y: 160 * px}}, Fill: scene.Tint, Hatch: i, Pen: scene.Thin, Tone: scene.Ink2})
	}
	for i := scene.Square; i <= scene.RoughFrame; i++ {
		x := (310 + 36*scene.Unit(i)) * px
		text := []string{"3", "11", "", "", "10", "7", "A", "A2", "R2"}[i]
		s.Add(scene.Badge{At: scene.Pt{X: x, Y: 200 * px}, Shape: i, Text: text, Size: 28 * px})
		s.Add(scene.Badge{At: scene.Pt{X: (60 + 66*scene.Unit(i)) * px, Y: 460 * px}, Shape: i, Text: text, Size: 48 * px})
	}
	y := 250 * px
	for i, text := range []string{"23 1⁄4 × 21", "23⁄32", "2 3⁄32", "−1⁄16", "keep 5 7⁄32 × 24 5⁄8", "600.5"} {
		at := scene.Pt{X: 420 * px, Y: y + scene.Unit(i)*26*px}
		s.Add(scene.Label{At: at, Text: text, Size: 16 * px, Bold: i%2 == 0, Tone: scene.Ink, Align: scene.Align(i % 3),
			Back: []scene.Tone{scene.Clear, scene.Lit, scene.Sheet}[i%3]})
	}
	s.Add(scene.Label{At: scene.Pt{X: 580 * px, Y: 330 * px}, Text: "34 1⁄2", Size: 18 * px, Tone: scene.Store, Turn: true, Back: scene.Lit},
		scene.Label{At: scene.Pt{X: 615 * px, Y: 330 * px}, Text: "15 1⁄2", Size: 14 * px, Tone: scene.Ink2, Turn: true, Strike: true},
		scene.Round{At: scene.Pt{X: 300 * px, Y: 300 * px}, R: 20 * px, Fill: scene.Sheet, Pen: scene.Hidden, Tone: scene.Bad},
		scene.Round{At: scene.Pt{X: 300 * px, Y: 300 * px}, R: 5 * px, Fill: scene.Good})
	s.Spots = []scene.Spot{
		{At: scene.R(40*px, 436*px, 48*px, 48*px), Ref: "cut/3", Name: `Store cut 3 at 48" & more`},
		{At: scene.R(250*px, 290*px, 8*px, 200*px), Ref: "divider/0", Name: "Divider", Drag: 'x', PerPX: 203200, Step: 6350},
	}
	return s
}

func TestGolden(t *testing.T) {
	for _, tt := range []struct {
		file string
		o    Options
	}{
		{"signs-live.svg", Options{Live: true}},
		{"signs-file.svg", Options{Standalone: true}},
		{"signs-mono.svg", Options{Standalone: true, Mono: true}},
	} {
		got := Render(signs(), tt.o)
		file := filepath.Join("testdata", tt.file)
		if *update {
			if err := os.MkdirAll("testdata", 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s differs; look at it, then run: go test ./engine/svg -update", tt.file)
		}
		wellFormed(t, got)
	}
}

// plain returns all text inside the text elements of an SVG.
func plain(t *testing.T, doc string) string {
	t.Helper()
	var b strings.Builder
	d := xml.NewDecoder(strings.NewReader(doc))
	in := 0
	for {
		tok, err := d.Token()
		switch tok := tok.(type) {
		case xml.StartElement:
			if tok.Name.Local == "text" {
				in++
			}
		case xml.EndElement:
			if tok.Name.Local == "text" {
				in--
			}
		case xml.CharData:
			if in > 0 {
				b.Write(tok)
			}
		}
		if err != nil {
			return b.String()
		}
	}
}

func wellFormed(t *testing.T, doc string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(doc))
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatalf("not well formed: %v\n%s", err, doc)
		}
		if e, ok := tok.(xml.StartElement); ok {
			if !strings.Contains(" svg g path rect circle text tspan ", " "+e.Name.Local+" ") {
				t.Errorf("element <%s>", e.Name.Local)
			}
			for _, a := range e.Attr {
				if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") {
					t.Errorf("attribute %s of <%s> would be blocked", a.Name.Local, e.Name.Local)
				}
			}
		}
	}
}

// 23/32 must never be readable as 2 3/32.
func TestFractionsStandApart(t *testing.T) {
	render := func(text string) string {
		s := scene.Scene{}
		s.Add(scene.Label{Text: text, Size: 100 * px, Tone: scene.Ink})
		return Render(s, Options{})
	}
	alone, mixed := render("23⁄32"), render("2 3⁄32")
	if got := plain(t, alone); got != "23⁄32" {
		t.Errorf("text of 23/32 is %q", got)
	}
	if got := plain(t, mixed); got != "2 3⁄32" {
		t.Errorf("text of 2 3/32 is %q", got)
	}
	if want := `<tspan font-size="75" dy="-36">23</tspan><tspan dy="36">⁄</tspan><tspan font-size="75">32</tspan>`; !strings.Contains(alone, want) {
		t.Errorf("23/32 is not a fraction alone:\n%s", alone)
	}
	// The space is .75 of a space, at least .16 em in the fonts we know, and
	// 6 more: more than .18 em.
	if want := `>2<tspan font-size="75"> </tspan><tspan font-size="75" dx="6" dy="-36">3</tspan>`; !strings.Contains(mixed, want) {
		t.Errorf("2 3/32 has no gap:\n%s", mixed)
	}
}

func TestLive(t *testing.T) {
	s := signs()
	if got := Render(s, Options{}); strings.Contains(got, "data-ref") {
		t.Error("spots in a drawing that is not live")
	}
	got := Render(s, Options{Live: true})
	for _, want := range []string{
		`<g role="button" tabindex="0" class="spot" data-ref="cut/3" aria-label="Store cut 3 at 48&quot; &amp; more">`,
		`data-drag="x" data-perpx="203200" data-step="6350"><rect x="232" y="290" width="44" height="200"`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("missing %s", want)
		}
	}
}

func TestNum(t *testing.T) {
	for u, want := range map[scene.Unit]string{0: "0", 16: "1", 8: "0.5", 1: "0.0625", -1: "-0.0625", -24: "-1.5", 1 << 24: "1048576"} {
		if got := num(u); got != want {
			t.Errorf("num(%d) = %s, want %s", u, got, want)
		}
	}
}

// No markup survives from a user's string, wherever it stands.
func FuzzRender(f *testing.F) {
	f.Add("23⁄32 in", "<script>alert(1)</script>")
	f.Add(`"><img src=x onerror=y>`, "a&b\x00\xff'")
	f.Fuzz(func(t *testing.T, a, b string) {
		s := scene.Scene{W: 100, H: 100, Title: a}
		s.Add(scene.Label{Text: b, Size: 16 * px, Tone: scene.Ink}, scene.Badge{Text: a, Shape: scene.RoughFrame, Size: 20 * px})
		s.Spots = []scene.Spot{{Ref: b, Name: a}, {Ref: a, Name: b, Drag: 'y'}}
		got := Render(s, Options{Live: true})
		wellFormed(t, got)
		harmless := scene.Scene{W: 100, H: 100, Title: "x"}
		harmless.Add(scene.Label{Text: "x", Size: 16 * px, Tone: scene.Ink}, scene.Badge{Text: "x", Shape: scene.RoughFrame, Size: 20 * px})
		harmless.Spots = []scene.Spot{{Ref: "x", Name: "x"}, {Ref: "x", Name: "x", Drag: 'y'}}
		tspans := strings.Count(got, "<tspan") + strings.Count(got, "</tspan>")
		least := strings.Count(Render(harmless, Options{Live: true}), "<")
		if n := strings.Count(got, "<") - tspans; n > least {
			t.Errorf("%d times <, want at most %d:\n%s", n, least, got)
		}
	})
}

// Whatever a scene holds, it renders to well formed text.
func FuzzScene(f *testing.F) {
	f.Add(scene.Encode(signs()))
	f.Fuzz(func(t *testing.T, b []byte) {
		if s, err := scene.Decode(b); err == nil && len(s.Items) < 50 {
			wellFormed(t, Render(s, Options{Live: true}))
		}
	})
}

func BenchmarkRender(b *testing.B) {
	s := signs()
	b.ReportMetric(float64(len(Render(s, Options{}))), "bytes")
	for b.Loop() {
		Render(s, Options{})
	}
}
