package page

import (
	"regexp"
	"strings"
	"testing"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// TestLabelEdges: a left side that stands, seen from inside the case: its front
// is on the left when its top is up; with the top turned to the left, as its
// length lies, the front is below. The right side mirrors it. By hand, with a
// piece of card.
func TestLabelEdges(t *testing.T) {
	words := regexp.MustCompile(`<text x="(\d+)" y="(\d+)"[^>]*text-anchor="(\w+)">(\w+)<`)
	edges := func(q part.Part) string {
		l := part.Line{Length: 19 * measure.Inch, Width: 20 * measure.Inch}
		var out []string
		for _, m := range words.FindAllStringSubmatch(lying(l, &q), -1) {
			out = append(out, m[4])
		}
		return strings.Join(out, " ") // left, right, up, down
	}
	side := part.Part{LengthAxis: geom.Z, WidthAxis: geom.Y}
	tests := []struct {
		name string
		q    part.Part
		want string
	}{
		{"left side, from inside", side, "top bottom back front"},
		{"right side, from inside", part.Part{LengthAxis: geom.Z, WidthAxis: geom.Y, GoodHigh: true}, "bottom top back front"},
		{"bottom, from below", part.Part{LengthAxis: geom.X, WidthAxis: geom.Y, GoodHigh: true}, "right left back front"},
		{"drawer front, from behind", part.Part{LengthAxis: geom.X, WidthAxis: geom.Z}, "right left top bottom"},
	}
	for _, tt := range tests {
		if got := edges(tt.q); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
}

// TestLabels: one label a part, twelve a page, none of a name that breaks out.
func TestLabels(t *testing.T) {
	v := small(Parts)
	v.Cart.Lines[0].Name = `<b onclick="x">`
	n := 0
	for i := range v.Cart.Lines {
		n += v.Cart.Lines[i].Count
	}
	v.Cart.Lines[0].Count += 12
	h := Print(v, "labels", "2026-11-25", nil)
	if got := strings.Count(h, `class="label"`); got != n+12 {
		t.Errorf("%d labels for %d parts", got, n+12)
	}
	if got, want := strings.Count(h, "<article"), (n+12+perPage-1)/perPage; got != want {
		t.Errorf("%d pages, want %d", got, want)
	}
	if strings.Contains(h, "<b onclick") {
		t.Error("a name broke out")
	}
}
