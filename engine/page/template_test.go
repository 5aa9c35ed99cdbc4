package page

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// strokes reads the lines of each page back, in millimetres.
func strokes(t *testing.T, pdf string) (pages [][][4]float64) {
	t.Helper()
	for _, part := range strings.Split(pdf, "stream\n")[1:] {
		body, _, ok := strings.Cut(part, "\nend")
		if !ok || !strings.Contains(body, " l S") {
			continue
		}
		var lines [][4]float64
		for _, l := range strings.Split(body, "\n") {
			f := strings.Fields(l)
			if len(f) != 9 || f[1] != "w" || f[8] != "S" {
				continue
			}
			var v [4]float64
			for i, k := range []int{2, 3, 5, 6} {
				x, err := strconv.ParseFloat(f[k], 64)
				if err != nil {
					t.Fatal(l, err)
				}
				v[i] = x * 25.4 / 72
			}
			lines = append(lines, v)
		}
		pages = append(pages, lines)
	}
	return pages
}

// TestTemplates: holes are as far apart as the pull's, the check bars 100 mm and
// 4 in long, all on the page; the table of the file says where its objects are.
func TestTemplates(t *testing.T) {
	for _, metric := range []bool{false, true} {
		v := View{Project: &project.Project{Tape: project.Tape{Unit: map[bool]string{true: "metric", false: "inch"}[metric]}}}
		pulls := []measure.Length{96 * mm, 3 * in, 320 * mm, 96 * mm}
		for _, p := range pulls {
			v.Cart.Drawers = append(v.Cart.Drawers, design.Drawer{Pull: p})
		}
		pdf := Templates(v)
		if pdf != Templates(v) {
			t.Error("two runs differ")
		}
		pages := strokes(t, pdf)
		if len(pages) != 3 {
			t.Fatalf("%d pages for 3 spacings", len(pages))
		}
		w, h := 279.4, 215.9
		if metric {
			w, h = 297, 210
		}
		for i, lines := range pages {
			bars := map[string]bool{}
			var crosses []float64
			var mid float64
			for k, l := range lines {
				dx, dy := l[2]-l[0], l[3]-l[1]
				for _, x := range l {
					if x < 5 || x > w-5 {
						t.Errorf("page %d: a line at %.1f", i, x)
					}
				}
				if l[1] > h-5 || l[3] > h-5 {
					t.Errorf("page %d: a line at %.1f", i, l[1])
				}
				if math.Abs(dx-100) < .01 && dy == 0 {
					bars["100 mm"] = true
				}
				if math.Abs(dy-101.6) < .01 && dx == 0 {
					bars["4 in"] = true
				}
				if math.Abs(dy-80) < .01 && dx == 0 {
					mid = l[0]
				}
				if math.Abs(dx-16) < .01 && dy == 0 && k+1 < len(lines) {
					crosses = append(crosses, l[0]+8)
				}
			}
			if len(bars) != 2 {
				t.Errorf("page %d: check bars %v", i, bars)
			}
			want := pulls[i].Metres() * 1000
			switch len(crosses) {
			case 2:
				if got := crosses[1] - crosses[0]; math.Abs(got-want) > .01 || math.Abs((crosses[0]+crosses[1])/2-mid) > .01 {
					t.Errorf("page %d: holes %.3f mm apart about %.1f, middle %.1f; want %v", i, got, (crosses[0]+crosses[1])/2, mid, want)
				}
			case 1: // half of it
				if got := 2 * (crosses[0] - mid); math.Abs(got-want) > .01 || want < mostSpan {
					t.Errorf("page %d: half a template for %v makes %.3f", i, want, got)
				}
			default:
				t.Errorf("page %d: %d crosses", i, len(crosses))
			}
		}
		// The table.
		_, tail, _ := strings.Cut(pdf, "startxref\n")
		start, err := strconv.Atoi(strings.Fields(tail)[0])
		if err != nil || !strings.HasPrefix(pdf[start:], "xref\n0 ") || !strings.Contains(pdf, "/PrintScaling/None") {
			t.Fatalf("startxref %d: %v", start, err)
		}
		for n, l := range strings.Split(pdf[start:], "\n")[3:] {
			if !strings.HasSuffix(l, " n ") {
				break
			}
			at, _ := strconv.Atoi(l[:10])
			if !strings.HasPrefix(pdf[at:], strconv.Itoa(n+1)+" 0 obj\n") {
				t.Errorf("object %d is not at %d", n+1, at)
			}
		}
	}
	if Templates(View{Project: &project.Project{}}) != "" {
		t.Error("a template without a pull")
	}
}
