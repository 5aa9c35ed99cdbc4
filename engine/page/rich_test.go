package page

import (
	"strings"
	"testing"

	"cartwright/engine/measure"
)

// heard is what a screen reader gets of rich text: what is hidden from it is
// left out.
func heard(t *testing.T, h string) string {
	t.Helper()
	var b strings.Builder
	skip := 0
	for h != "" {
		i := strings.IndexByte(h, '<')
		if i < 0 {
			i = len(h)
		}
		if skip == 0 {
			b.WriteString(h[:i])
		}
		h = h[i:]
		if h == "" {
			break
		}
		j := strings.IndexByte(h, '>')
		tag := h[:j+1]
		h = h[j+1:]
		switch {
		case strings.HasPrefix(tag, "</"):
			if skip > 0 {
				skip--
			}
		case skip > 0, strings.Contains(tag, `aria-hidden="true"`):
			skip++
		}
	}
	return b.String()
}

var richTests = []struct{ in, want string }{ // want: as heard
	{"23 5⁄8", "23 and 5/8"},
	{"23⁄32", "23/32"}, // not "2 3/32": a mock of ours once read it so
	{"at 15 21⁄32.", "at 15 and 21/32."},
	{"−1 1⁄4 in", "−1 and 1/4 in"},
	{"47 7⁄8 × 23 7⁄8", "47 and 7/8 × 23 and 7/8"},
	{"2 × 1⁄2", "2 × 1/2"},
	{"R2 3⁄4", "R2 3/4"}, // the 2 belongs to the name
	{"Birch plywood 3/4 in", "Birch plywood 3/4 in"},
	{"1/2/2026", "1/2/2026"},
	{"3/5 of it", "3/5 of it"},
	{"and/or 24/7", "and/or 24/7"},
	{"1.5 3⁄4", "1.5 3/4"},
	{"plain", "plain"},
	{"", ""},
	{"5⁄", "5⁄"},
	{"⁄8", "⁄8"},
}

func TestRich(t *testing.T) {
	for _, tt := range richTests {
		if got := heard(t, html(rich(tt.in))); got != tt.want {
			t.Errorf("%q is heard as %q, want %q", tt.in, got, tt.want)
		}
	}
	// Which of them are built.
	for s, want := range map[string]bool{"3/4": true, "1/2/2026": false, "24/7": false, "2/4": false, "7/16 in": true, "5⁄7": true, "N3/4": false} {
		if got := strings.Contains(html(rich(s)), "<sup>"); got != want {
			t.Errorf("%q: a built fraction: %v, want %v", s, got, want)
		}
	}
}

func TestGap(t *testing.T) {
	in := measure.Inch
	for l, want := range map[measure.Length]string{
		23 * in / 32:   `<span class="fr"><sup>23</sup>⁄<sub>32</sub></span>`,
		2*in + 3*in/32: `2<span class="fr after"><sup>3</sup>⁄<sub>32</sub></span>`,
	} {
		if got := html(size(measure.Tape{}, l)); !strings.Contains(got, want) {
			t.Errorf("%v: got %s, want %s in it", l, got, want)
		}
	}
}

func TestColumn(t *testing.T) {
	in := measure.Inch
	tests := []struct {
		l        measure.Length
		metric   bool
		w, f, is string
	}{
		{23*in + in/4, false, "23", "1⁄4", "23 and 1/4 inches"},
		{in / 2, false, "", "1⁄2", "1/2 inches"},
		{-in - in/4, false, "−1", "1⁄4", "-1 and 1/4 inches"},
		{-in / 32, false, "−", "1⁄32", "-1/32 inches"},
		{34 * in, false, "34", "", "34 inches"},
		{6005 * measure.MM / 10, true, "600", ".5", "600.5 millimetres"},
	}
	for _, tt := range tests {
		got := html(column(measure.Tape{Metric: tt.metric}, tt.l))
		plain := strings.NewReplacer("<sup>", "", "</sup>", "", "<sub>", "", "</sub>", "", `<span class="fr">`, "", "</span></span></span>", "</span></span>").Replace(got)
		if !strings.Contains(plain, `<span class="w" aria-hidden="true">`+tt.w+`</span><span class="f" aria-hidden="true">`+tt.f+`</span>`) ||
			heard(t, got) != tt.is {
			t.Errorf("%v: %s", tt.l, got)
		}
	}
}

func TestFigure(t *testing.T) {
	in := measure.Inch
	tests := []struct {
		l      measure.Length
		metric bool
		class  string
	}{
		{15*in + 21*in/32, false, "u3"}, {23*in + in/4, false, "u25"}, {34 * in, false, "u2"}, {4 * in, false, "u1"},
		{in / 4, false, "u05"}, {8*in + in/2, false, "u15"}, {1220 * measure.MM, true, "u4"}, {6865 * measure.MM / 10, true, "u45"},
	}
	for _, tt := range tests {
		if got := html(figure(measure.Tape{Metric: tt.metric}, tt.l)); !strings.Contains(got, `class="figure `+tt.class+`"`) {
			t.Errorf("%v: want %s in %s", tt.l, tt.class, got)
		}
	}
}
