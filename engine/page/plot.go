package page

import "strconv"

// A plot is a drawing at full size, in millimetres from its lower left corner.
// What is larger than a page is laid over several, with an overlap in which
// crosses lie on each other.
type plot struct {
	title string
	notes []string
	w, h  float64
	lines [][5]float64 // width of the stroke, from, to
	words []word
}

type word struct {
	x, y float64
	s    string
}

// line is called often; copies of it in line would cost some kilobytes.
//
//go:noinline
func (d *plot) line(wide, x0, y0, x1, y1 float64) {
	d.lines = append(d.lines, [5]float64{wide, x0, y0, x1, y1})
}

//go:noinline
func (d *plot) word(x, y float64, s string) { d.words = append(d.words, word{x, y, s}) }

// cross marks the middle of a hole.
func (d *plot) cross(x, y float64, s string) {
	d.line(.2, x-8, y, x+8, y)
	d.line(.2, x, y-8, x, y+8)
	if s != "" {
		d.word(x+2, y+2, s)
	}
}

// frame is a rectangle.
func (d *plot) frame(x0, y0, x1, y1 float64) {
	d.line(.35, x0, y0, x1, y0)
	d.line(.35, x1, y0, x1, y1)
	d.line(.35, x1, y1, x0, y1)
	d.line(.35, x0, y1, x0, y0)
}

// Room on a page: margins that every printer leaves, a head of words, the check
// bars below and on the right.
const (
	plotLeft, plotRight = 12.0, 30.0
	plotFoot, plotHead  = 32.0, 38.0
	plotOver            = 20.0 // of two pages that follow each other
)

// tiles is how many pages of room take a length, and how far each moves on.
func tiles(long, room float64) int {
	n := 1
	for at := room; at < long-1e-6; at += room - plotOver {
		n++
	}
	return n
}

// plot puts a drawing on pages.
func (p *pdf) plot(d *plot) {
	rw, rh := p.w-plotLeft-plotRight, p.h-plotFoot-plotHead
	nx, ny := tiles(d.w, rw), tiles(d.h, rh)
	var drawn []int // tiles with anything on them
	for k := range nx * ny {
		x0, y0 := float64(k%nx)*(rw-plotOver), float64(k/nx)*(rh-plotOver)
		for _, l := range d.lines {
			if _, _, _, _, ok := clip(l[1], l[2], l[3], l[4], x0, y0, x0+rw, y0+rh); ok {
				drawn = append(drawn, k)
				break
			}
		}
	}
	top := d.h + min(20, (rh-d.h)/2-8) // of the marks beside a low drawing
	for n, k := range drawn {
		ix, iy := k%nx, k/nx
		p.begin()
		x0, y0 := float64(ix)*(rw-plotOver), float64(iy)*(rh-plotOver)
		dx, dy := plotLeft-x0, plotFoot-y0
		if nx == 1 {
			dx += (rw - d.w) / 2
		}
		if ny == 1 {
			dy += (rh - d.h) / 2
		}
		for _, l := range d.lines {
			if a, b, c, e, ok := clip(l[1], l[2], l[3], l[4], x0, y0, x0+rw, y0+rh); ok {
				p.line(l[0], a+dx, b+dy, c+dx, e+dy)
			}
		}
		for _, w := range d.words {
			if w.x >= x0 && w.x < x0+rw-20 && w.y >= y0 && w.y < y0+rh {
				p.text(3.5, w.x+dx, w.y+dy, w.s)
			}
		}
		// Crosses in the overlaps: a large plus in a square.
		sign := func(x, y float64) {
			if x >= x0 && x <= x0+rw && y >= y0 && y <= y0+rh {
				x, y = x+dx, y+dy
				p.line(.15, x-6, y, x+6, y)
				p.line(.15, x, y-6, x, y+6)
				for _, s := range [4][4]float64{{-2, -2, 2, -2}, {2, -2, 2, 2}, {2, 2, -2, 2}, {-2, 2, -2, -2}} {
					p.line(.15, x+s[0], y+s[1], x+s[2], y+s[3])
				}
			}
		}
		for i := 1; i < nx; i++ {
			x := float64(i)*(rw-plotOver) + plotOver/2
			for j := range ny {
				y := float64(j) * (rh - plotOver)
				sign(x, y+plotOver/2)
				if ny == 1 {
					sign(x, top)
				} else {
					sign(x, y+min(rh, d.h-y+40)-plotOver/2)
				}
			}
		}
		for j := 1; j < ny; j++ {
			y := float64(j)*(rh-plotOver) + plotOver/2
			for i := range nx {
				x := float64(i) * (rw - plotOver)
				sign(x+plotOver*1.5, y)
				sign(x+min(rw, d.w-x+40)-plotOver*1.5, y)
			}
		}
		head := d.title + " Print at 100 %, actual size."
		p.text(4.5, 12, p.h-16, head)
		notes := d.notes
		if len(drawn) > 1 {
			notes = append([]string{"Sheet " + strconv.Itoa(n+1) + " of " + strconv.Itoa(len(drawn)) + ", " + strconv.Itoa(ix+1) + " from the left, " + strconv.Itoa(iy+1) +
				" from below. Lay the crosses in squares on each other, tape the sheets."}, notes...)
		}
		for i, s := range notes {
			p.text(3.5, 12, p.h-22-5*float64(i), s)
		}
		p.bars()
	}
}

// bars are the check bars, both ways.
func (p *pdf) bars() {
	p.line(.35, 20, 14, 120, 14)
	p.line(.35, 20, 11, 20, 17)
	p.line(.35, 120, 11, 120, 17)
	p.text(3.5, 22, 16, "This line is 100 mm. If it is not, do not use this sheet.")
	x := p.w - 14.0
	p.line(.35, x, 20, x, 20+4*25.4)
	p.line(.35, x-3, 20, x+3, 20)
	p.line(.35, x-3, 20+4*25.4, x+3, 20+4*25.4)
	p.text(3.5, x-11, 15, "4 in up")
}

// clip returns the part of a line that lies in a rectangle (Liang and Barsky).
func clip(x0, y0, x1, y1, left, low, right, high float64) (a, b, c, d float64, ok bool) {
	from, to := 0.0, 1.0
	dx, dy := x1-x0, y1-y0
	for _, e := range [4][2]float64{{-dx, x0 - left}, {dx, right - x0}, {-dy, y0 - low}, {dy, high - y0}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return 0, 0, 0, 0, false
		case e[0] < 0:
			from = max(from, e[1]/e[0])
		case e[0] > 0:
			to = min(to, e[1]/e[0])
		}
	}
	return x0 + from*dx, y0 + from*dy, x0 + to*dx, y0 + to*dy, from < to
}
