package main

import (
	"math"
	"strconv"

	"cartwright/engine/scene"
	"cartwright/wasm/bridge"

	"github.com/hajimehoshi/ebiten/v2"
)

// letters draws text with the browser's own 2D canvas, which has the fonts of
// the system, and keeps the pictures.
type letters struct {
	canvas, ctx bridge.Value
	w, h        int
	cache       map[wordKey]*word
	bytes       int
	turn        int // frames, to know what was used last
	digits      [2]float64
}

// mostBytes bounds the pictures that are kept, besides those on the screen.
const mostBytes = 24 << 20

type wordKey struct {
	text string
	size int // in half device pixels
	bold bool
}

// A word is the picture of a text, in white.
type word struct {
	img    *ebiten.Image
	width  float64 // of the text
	pad    float64 // where it begins in the picture
	middle float64 // where its middle is, downwards
	bytes  int
	used   int
}

func (l *letters) init() {
	l.cache = map[wordKey]*word{}
	l.canvas = bridge.Global("document").Call("createElement", "canvas")
	l.ctx = l.canvas.Call("getContext", "2d", bridge.Object("willReadFrequently", true))
}

// word returns the picture of text in letters of size device pixels, nil if
// there is nothing to see.
func (l *letters) word(text string, size float64, bold bool) *word {
	half := int(math.Round(size * 2))
	if half < 4 || half > 1600 {
		return nil
	}
	k := wordKey{text, half, bold}
	w := l.cache[k]
	if w == nil {
		w = l.draw(text, float64(half)/2, bold)
		if w == nil {
			return nil
		}
		l.cache[k] = w
		l.bytes += w.bytes
	}
	w.used = l.turn
	return w
}

// trim forgets pictures that were not used in this frame, oldest first, while
// there are too many.
func (l *letters) trim() {
	for l.bytes > mostBytes {
		var oldest wordKey
		least := l.turn
		for k, w := range l.cache {
			if w.used < least {
				oldest, least = k, w.used
			}
		}
		if least == l.turn {
			break
		}
		w := l.cache[oldest]
		l.bytes -= w.bytes
		w.img.Deallocate()
		delete(l.cache, oldest)
	}
	l.turn++
}

// draw makes the picture: measures the text, then writes it in one line.
func (l *letters) draw(text string, size float64, bold bool) *word {
	runs := scene.Runs(text)
	width := l.line(runs, 0, 0, size, bold, false)
	pad := math.Ceil(size*0.15) + 1
	w, h := int(math.Ceil(width+2*pad)), int(math.Ceil(size*1.6))
	if w > 4096 || h > 4096 {
		return nil
	}
	if w > l.w || h > l.h {
		l.w, l.h = max(w, l.w), max(h, l.h)
		l.canvas.Set("width", l.w)
		l.canvas.Set("height", l.h)
	}
	l.ctx.Call("clearRect", 0, 0, w, h)
	middle := math.Round(float64(h) * 0.54)
	l.line(runs, pad, middle+math.Round(size*0.36), size, bold, true)
	pix := bridge.Bytes(l.ctx.Call("getImageData", 0, 0, w, h).Get("data"))
	for i := 0; i+3 < len(pix); i += 4 { // white, premultiplied
		a := pix[i+3]
		pix[i], pix[i+1], pix[i+2] = a, a, a
	}
	img := ebiten.NewImage(w, h)
	img.WritePixels(pix)
	return &word{img: img, width: width, pad: pad, middle: middle, bytes: len(pix)}
}

// line goes along the runs from x on the baseline y, writes them if ink is
// set, and returns how far it came.
func (l *letters) line(runs []scene.Run, x, y, size float64, bold, ink bool) float64 {
	start := x
	small := size * scene.FracSize / 100
	for _, r := range runs {
		x += l.plain(r.Text, x, y, size, bold, ink)
		if r.Num == "" {
			continue
		}
		if r.Gap {
			x += size * (scene.FracGap + 3) / 100
		}
		x += l.plain(r.Num, x, y-size*scene.FracRise/100, small, bold, ink)
		x += l.slash(x, y, size, bold, ink)
		x += l.plain(r.Den, x, y, small, bold, ink)
	}
	return x - start
}

// slash draws the stroke of a fraction ourselves: fonts differ too much.
func (l *letters) slash(x, y, size float64, bold, ink bool) float64 {
	if ink {
		thick := 0.065
		if bold {
			thick = 0.09
		}
		l.ctx.Set("lineWidth", math.Max(1, size*thick))
		l.ctx.Set("strokeStyle", "#fff")
		l.ctx.Call("beginPath")
		l.ctx.Call("moveTo", x-size*0.10, y+size*0.02)
		l.ctx.Call("lineTo", x+size*0.28, y-size*0.76)
		l.ctx.Call("stroke")
	}
	return size * 0.19
}

// plain goes over text without fractions. Where the font's digits are not of
// one width they are set as if they were, so that numbers stand in columns and
// do not jump.
func (l *letters) plain(text string, x, y, size float64, bold, ink bool) float64 {
	if text == "" {
		return 0
	}
	wide := l.digit(bold) * size
	l.font(size, bold)
	write := func(s string, x float64) {
		if ink {
			l.ctx.Call("fillText", s, x, y)
		}
	}
	if wide == 0 {
		write(text, x)
		return l.measure(text)
	}
	start, from := x, 0
	for i, c := range text {
		if c < '0' || c > '9' {
			continue
		}
		if from < i {
			write(text[from:i], x)
			x += l.measure(text[from:i])
		}
		s := text[i : i+1]
		write(s, x+(wide-l.measure(s))/2)
		x += wide
		from = i + 1
	}
	if from < len(text) {
		write(text[from:], x)
		x += l.measure(text[from:])
	}
	return x - start
}

// digit returns the width in which digits are set, for letters of size 1; 0 if
// the font's own digits are all of one width.
func (l *letters) digit(bold bool) float64 {
	i := 0
	if bold {
		i = 1
	}
	if l.digits[i] == 0 {
		l.font(100, bold)
		least, most := math.Inf(1), 0.0
		for d := range 10 {
			w := l.measure(strconv.Itoa(d))
			least, most = math.Min(least, w), math.Max(most, w)
		}
		l.digits[i] = most / 100
		if most-least < 0.5 {
			l.digits[i] = -1
		}
	}
	return math.Max(0, l.digits[i])
}

func (l *letters) font(size float64, bold bool) {
	weight := "450"
	if bold {
		weight = "650"
	}
	l.ctx.Set("font", weight+" "+strconv.FormatFloat(size, 'f', 2, 64)+"px system-ui, sans-serif")
	l.ctx.Set("fillStyle", "#fff")
	l.ctx.Set("textBaseline", "alphabetic")
}

func (l *letters) measure(text string) float64 {
	return l.ctx.Call("measureText", text).Get("width").Float()
}
