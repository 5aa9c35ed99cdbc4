package page

import (
	"bytes"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// started is the view of a starting point, without a plan.
func started(t *testing.T, name string, change func(*project.Project)) View {
	t.Helper()
	data, err := os.ReadFile("../../testdata/projects/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	p, err := project.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(p)
	}
	c, _ := design.Build(p)
	return View{Place: Bench, Project: p, Cart: c, Bench: work.AtBench(p, c)}
}

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

func near(a, b float64) bool { return math.Abs(a-b) < .01 }

// crosses are the middles of the signs of a size: two lines of that length that
// halve each other.
func crosses(lines [][4]float64, size float64) (out [][2]float64) {
	for _, a := range lines {
		if !near(a[1], a[3]) || !near(a[2]-a[0], size) {
			continue
		}
		for _, b := range lines {
			if near(b[0], b[2]) && near(b[3]-b[1], size) && near(b[0], (a[0]+a[2])/2) && near(a[1], (b[1]+b[3])/2) {
				out = append(out, [2]float64{b[0], a[1]})
			}
		}
	}
	return out
}

// TestTemplates: every starting point in both tapes: all lines on the page with
// room for a printer, check bars of 100 mm and 4 in on every page, and the table
// of the file says where its objects are.
func TestTemplates(t *testing.T) {
	files, err := filepath.Glob("../../testdata/projects/*.json")
	if err != nil || len(files) < 7 {
		t.Fatal(files, err)
	}
	for _, f := range files {
		for _, metric := range []bool{false, true} {
			v := started(t, strings.TrimSuffix(filepath.Base(f), ".json"), func(p *project.Project) {
				p.Machine.Foot = []project.FootHole{{Right: 2 * in, Back: 2 * in}, {Right: 11 * in, Back: 2 * in}}
				if p.Machine.Width == 0 {
					p.Machine.Width, p.Machine.Depth, p.Machine.Name = 18*in, 14*in, "Säge (alt)"
				}
				if metric {
					p.Tape = project.Tape{Unit: "metric"}
				}
			})
			pdf := Templates(v)
			if pdf == "" || pdf != Templates(v) {
				t.Fatalf("%s: %d bytes, or two runs differ", f, len(pdf))
			}
			w, h := 279.4, 215.9
			if v.Project.Tape.Unit == "metric" {
				w, h = 297, 210
			}
			if !strings.Contains(pdf, "/MediaBox[0 0 "+pt(w)+" "+pt(h)+"]") {
				t.Errorf("%s: not the size of the paper", f)
			}
			for i, lines := range strokes(t, pdf) {
				bars := map[string]bool{}
				for _, l := range lines {
					for k, x := range l {
						if lim := []float64{w, h}[k%2]; x < 9.9 || x > lim-9.9 {
							t.Errorf("%s, page %d: a line at %.1f of %.0f", f, i, x, lim)
						}
					}
					if near(l[2]-l[0], 100) && l[1] == l[3] {
						bars["100 mm"] = true
					}
					if near(l[3]-l[1], 101.6) && l[0] == l[2] {
						bars["4 in"] = true
					}
				}
				if len(bars) != 2 {
					t.Errorf("%s, page %d: check bars %v", f, i, bars)
				}
			}
			if s := strings.IndexFunc(pdf, func(r rune) bool { return r > '~' }); s >= 0 {
				t.Errorf("%s: not plain text at %d", f, s)
			}
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
	}
	if Templates(View{Project: &project.Project{}}) != "" {
		t.Error("templates of nothing")
	}
}

// TestTiles: sheets that are laid with their squared crosses on each other make
// up the whole drawing: every hole lies on some sheet with both its strokes
// whole, and where the marks say it is.
func TestTiles(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 6))
	for _, size := range [][2]float64{{100, 60}, {237, 100}, {238, 100}, {560, 40}, {300, 400}, {900, 700}} {
		d := &plot{title: "t", w: size[0], h: size[1]}
		var holes [][2]float64
		for range 400 {
			x, y := 8+r.Float64()*(d.w-16), 8+r.Float64()*(d.h-16)
			holes = append(holes, [2]float64{x, y})
			d.cross(x, y, "")
		}
		d.frame(0, 0, d.w, d.h)
		p := pdf{w: 279.4, h: 215.9}
		p.plot(d)
		pages := strokes(t, p.end())
		// Where each sheet lies: the first as it is, others by marks shared
		// with one that lies already.
		at := make([][2]float64, len(pages))
		laid := make([]bool, len(pages))
		marks := make([][][2]float64, len(pages))
		for i, lines := range pages {
			marks[i] = crosses(lines, 12)
		}
		laid[0] = true
		nx := tiles(d.w, p.w-plotLeft-plotRight)
		for range pages {
			for i := range pages {
				for _, k := range []int{i - 1, i - nx} { // the neighbour left or below
					if k < 0 || laid[i] || !laid[k] || k == i-1 && i%nx == 0 {
						continue
					}
					// Left: its two rightmost marks are our leftmost; below: alike.
					axis := 0
					if k == i-nx && nx > 0 && (k != i-1 || nx == 1) {
						axis = 1
					}
					a, b := outermost(marks[k], axis, true), outermost(marks[i], axis, false)
					if len(a) < 2 || len(a) != len(b) {
						t.Fatalf("%v: sheets %d and %d share %d and %d marks", size, k, i, len(a), len(b))
					}
					if !near(a[1][0]-a[0][0], b[1][0]-b[0][0]) || !near(a[1][1]-a[0][1], b[1][1]-b[0][1]) {
						t.Errorf("%v: marks of sheets %d and %d do not match", size, k, i)
					}
					at[i] = [2]float64{at[k][0] + a[0][0] - b[0][0], at[k][1] + a[0][1] - b[0][1]}
					laid[i] = true
				}
			}
		}
		// One hole fixes where the drawing lies under the first sheet.
		found := map[int]bool{}
		var origin *[2]float64
		for i, lines := range pages {
			if !laid[i] {
				t.Errorf("%v: sheet %d lies nowhere", size, i)
			}
			for _, c := range crosses(lines, 16) {
				x, y := c[0]+at[i][0], c[1]+at[i][1]
				for n, h := range holes {
					if origin == nil {
						if i == 0 && n == nearestTo(holes, x-plotLeft-shift(d.w, p.w-plotLeft-plotRight), y-plotFoot-shift(d.h, p.h-plotFoot-plotHead)) {
							origin = &[2]float64{x - h[0], y - h[1]}
						} else {
							continue
						}
					}
					if near(x-origin[0], h[0]) && near(y-origin[1], h[1]) {
						found[n] = true
					}
				}
			}
		}
		for n := range holes {
			if !found[n] {
				t.Errorf("%v on %d sheets: hole %d at %.1f, %.1f is on none", size, len(pages), n, holes[n][0], holes[n][1])
			}
		}
	}
}

func shift(long, room float64) float64 {
	if long <= room {
		return (room - long) / 2
	}
	return 0
}

func nearestTo(all [][2]float64, x, y float64) int {
	best := 0
	for i, h := range all {
		if math.Hypot(h[0]-x, h[1]-y) < math.Hypot(all[best][0]-x, all[best][1]-y) {
			best = i
		}
	}
	return best
}

// outermost are the marks with the largest, or least, place along an axis, in
// order of the other.
func outermost(marks [][2]float64, axis int, high bool) (out [][2]float64) {
	if len(marks) == 0 {
		return nil
	}
	end := marks[0][axis]
	for _, m := range marks {
		if high {
			end = max(end, m[axis])
		} else {
			end = min(end, m[axis])
		}
	}
	for _, m := range marks {
		if near(m[axis], end) {
			at := len(out)
			for at > 0 && out[at-1][1-axis] > m[1-axis] {
				at--
			}
			out = append(out[:at], append([][2]float64{m}, out[at:]...)...)
		}
	}
	return out
}

// TestTemplatesFit: what is on the templates is what is in the cart: each pull
// by the ends and the upper edge of its front, a caster by its corner, the foot
// of the machine, the holes of a slide from the front edge of its upright.
func TestTemplatesFit(t *testing.T) {
	v := started(t, "jointer-stand", func(p *project.Project) {
		p.Machine.Foot = []project.FootHole{{Right: 2 * in, Back: 3 * in}, {Right: 28*in + in/2, Back: 9 * in}}
	})
	b := newBuilder(v)
	middles := func(d *plot) (out [][2]float64) {
		lines := make([][4]float64, len(d.lines))
		for i, l := range d.lines {
			lines[i] = [4]float64{l[1], l[2], l[3], l[4]}
		}
		return crosses(lines, 16)
	}
	pulls := b.pullPlots()
	for _, d := range v.Cart.Drawers { // three fronts of one width
		found := false
		for _, g := range pulls {
			c := middles(g)
			drop := mms(d.Front.Max[2]) - pullHeight(v.Cart, d)
			found = found || len(c) == 2 && near(g.w, mms(d.Front.Size(0))) && near(c[1][0]-c[0][0], mms(d.Pull)) && near(c[0][0]+c[1][0], g.w) && near(g.h-c[0][1], drop)
		}
		if !found {
			t.Errorf("no template for a pull of %v in a front of %v", d.Pull, d.Front.Size(0))
		}
	}
	narrow := started(t, "jointer-stand", func(p *project.Project) { p.Cabinet.Bays[0].Width = 12 * in })
	if a, b := pulls[0], newBuilder(narrow).pullPlots()[0]; near(a.w, b.w) || !near(mms(narrow.Cart.Drawers[0].Front.Size(0)), b.w) {
		t.Errorf("a narrower front has the same template: %.1f and %.1f", a.w, b.w)
	}
	// The caster: plate 3 3/4, holes 7/16 from its edges, plate 1/2 from both
	// edges of the bottom: holes at 15/16 and 3 13/16.
	for _, th := range v.Cart.Things {
		switch th.Kind {
		case design.CasterThing:
			if th.Box.Min[0] > 2*in || th.Box.Min[1] > 2*in {
				continue
			}
			c := middles(b.casterPlot(th))
			if len(c) != 4 || !near(c[0][0], 25.4*15/16) || !near(c[3][0], 25.4*61/16) || !near(c[0][1], 25.4*15/16) {
				t.Errorf("caster at %v", c)
			}
		case design.MachineThing:
			d := b.footPlot(th)
			c := middles(d)
			if len(c) != 2 || !near(c[1][0]-c[0][0], 26.5*25.4) || !near(c[1][1]-c[0][1], 6*25.4) || !near(c[0][0]-10, 50.8) || !strings.Contains(d.title, "jointer") {
				t.Errorf("foot at %v, %q", c, d.title)
			}
		}
	}
	slides := b.slidePlots()
	if len(slides) != 2 {
		t.Fatalf("%d lines for left and right slides of one length", len(slides))
	}
	s := design.Slides(v.Cart)[0]
	c := middles(slides[0])
	want := map[int]bool{}
	for _, pt := range s.Holes {
		want[int(math.Round(mms(pt[1]-sideFront(v.Cart))*100))] = true
	}
	for _, m := range c {
		if !want[int(math.Round(m[0]*100))] || m[1] != 20 {
			t.Errorf("a hole at %.2f mm, the slide has %v", m[0], want)
		}
	}
	if len(c) != len(s.Holes) {
		t.Errorf("%d holes of %d", len(c), len(s.Holes))
	}
}

func sideFront(c design.Cart) measure.Length {
	for _, q := range c.Parts {
		if q.ID == "side-left" {
			return q.Box.Min[1]
		}
	}
	return 0
}

// pullHeight is how high the pull of a drawer is, in millimetres.
func pullHeight(c design.Cart, d design.Drawer) float64 {
	for _, th := range c.Things {
		if th.Kind == design.PullThing && d.Front.Min[2] < th.Box.Min[2] && th.Box.Max[2] < d.Front.Max[2] {
			return mms(th.Screws()[0][2])
		}
	}
	return 0
}

// TestRenderedScale renders sheets as a printer's driver would and measures
// them: the check bars and the holes of a pull are right within 0.1 mm.
func TestRenderedScale(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Fatal("pdftoppm is missing: make tools installs poppler-utils")
	}
	for _, metric := range []bool{false, true} {
		v := started(t, "jointer-stand", func(p *project.Project) {
			if metric {
				p.Tape = project.Tape{Unit: "metric"}
			}
		})
		file := filepath.Join(t.TempDir(), "t.pdf")
		if err := os.WriteFile(file, []byte(Templates(v)), 0o644); err != nil {
			t.Fatal(err)
		}
		const dpi = 508 // 20 dots to the millimetre
		out, err := exec.Command("pdftoppm", "-r", strconv.Itoa(dpi), "-gray", "-f", "1", "-l", "1", file).Output()
		if err != nil {
			t.Fatal(err)
		}
		f := bytes.Fields(out[:40])
		w, _ := strconv.Atoi(string(f[1]))
		h, _ := strconv.Atoi(string(f[2]))
		pix := out[len(out)-w*h:]
		paper := [2]float64{279.4, 215.9}
		if metric {
			paper = [2]float64{297, 210}
		}
		if math.Abs(float64(w)/20-paper[0]) > .1 || math.Abs(float64(h)/20-paper[1]) > .1 {
			t.Fatalf("the page is %.2f × %.2f mm", float64(w)/20, float64(h)/20)
		}
		// runs are the middles of the dark stretches along a line, in mm from
		// the left, or from below.
		runs := func(dark func(int) bool, n int) (out []float64) {
			for i := 0; i < n; i++ {
				if !dark(i) {
					continue
				}
				k := i
				for k < n && dark(k) {
					k++
				}
				if k-i < 20 { // a stroke, not a bar
					out = append(out, float64(i+k)/40)
				}
				i = k
			}
			return out
		}
		across := func(y float64) []float64 {
			row := h - 1 - int(y*20)
			return runs(func(i int) bool { return pix[row*w+i] < 128 }, w)
		}
		up := func(x float64) []float64 {
			col := int(x * 20)
			return runs(func(i int) bool { return pix[(h-1-i)*w+col] < 128 }, h)
		}
		has := func(all []float64, want float64) bool {
			for _, x := range all {
				if math.Abs(x-want) <= .1 {
					return true
				}
			}
			return false
		}
		if b := across(12.5); len(b) != 2 || math.Abs(b[1]-b[0]-100) > .1 {
			t.Errorf("the bar of 100 mm: ticks at %v", b)
		}
		if b := up(paper[0] - 12.2); len(b) != 2 || math.Abs(b[1]-b[0]-101.6) > .1 {
			t.Errorf("the bar of 4 in: ticks at %v", b)
		}
		// The first sheet is the left end of the widest front: its left end, and
		// the holes from there.
		d := newBuilder(v).pullPlots()[0]
		row := across(plotFoot + (paper[1]-plotFoot-plotHead-d.h)/2 + 12 + 5) // 5 mm over the pull's line
		n := 0
		for _, l := range d.lines {
			x := l[1] + plotLeft
			if l[1] == l[3] && x < paper[0]-plotRight-1 && l[4]-l[2] > 5 {
				n++
				if !has(row, x) {
					t.Errorf("no stroke at %.2f mm, but at %v", x, row)
				}
			}
		}
		if n < 2 {
			t.Errorf("%d strokes looked for", n)
		}
	}
}
