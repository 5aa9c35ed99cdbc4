package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
)

// The icon is a cart in front view on paper: two bays, drawers on the left,
// and the cut that is next, in amber. It is drawn on a grid of 512.

// A shape is a rectangle, or a circle if r is set, in one colour.
type shape struct {
	x, y, w, h float64
	r          float64 // x, y is the centre then
	fill       color.RGBA
}

var (
	iconInk   = color.RGBA{0x14, 0x20, 0x1e, 255}
	iconPaper = color.RGBA{0xed, 0xf1, 0xee, 255}
	iconSheet = color.RGBA{0xfb, 0xfc, 0xfa, 255}
	iconNow   = color.RGBA{0xff, 0xb8, 0x1c, 255}
)

func iconShapes() []shape {
	return []shape{
		{x: 0, y: 0, w: 512, h: 512, fill: iconPaper},
		{x: 96, y: 116, w: 320, h: 28, fill: iconInk},     // top
		{x: 116, y: 144, w: 280, h: 224, fill: iconInk},   // carcass
		{x: 134, y: 150, w: 104, h: 84, fill: iconSheet},  // upper drawer
		{x: 134, y: 248, w: 104, h: 102, fill: iconSheet}, // lower drawer
		{x: 164, y: 168, w: 44, h: 12, fill: iconInk},     // pulls
		{x: 164, y: 266, w: 44, h: 12, fill: iconInk},     //
		{x: 274, y: 150, w: 104, h: 200, fill: iconSheet}, // open bay
		{x: 238, y: 92, w: 36, h: 300, fill: iconNow},     // the cut's band
		{x: 250, y: 92, w: 12, h: 300, fill: iconInk},     // the cut
		{x: 164, y: 394, r: 34, fill: iconInk},            // wheels
		{x: 348, y: 394, r: 34, fill: iconInk},            //
		{x: 164, y: 394, r: 12, fill: iconSheet},          //
		{x: 348, y: 394, r: 12, fill: iconSheet},          //
		{x: 80, y: 428, w: 352, h: 14, fill: iconInk},     // floor
	}
}

// drawIcons returns the icon files by path.
func drawIcons() (map[string][]byte, error) {
	out := map[string][]byte{"icons/icon.svg": iconSVG()}
	for _, i := range []struct {
		name  string
		size  int
		scale float64 // of the drawing within the icon
	}{
		{"icons/icon-180.png", 180, 1},
		{"icons/icon-192.png", 192, 1.15},
		{"icons/icon-512.png", 512, 1.15},
		{"icons/icon-mask-512.png", 512, 0.95}, // all of it in the inner 80 %
	} {
		var b bytes.Buffer
		e := png.Encoder{CompressionLevel: png.BestCompression}
		if err := e.Encode(&b, iconImage(i.size, i.scale)); err != nil {
			return nil, err
		}
		out[i.name] = b.Bytes()
	}
	return out, nil
}

// iconImage paints the shapes, scaled about the middle, with 16 samples for
// each pixel.
func iconImage(size int, scale float64) image.Image {
	const n = 4
	shapes := iconShapes()
	img := image.NewRGBA(image.Rect(0, 0, size, size))
	at := func(v int) float64 { return ((float64(v)+0.5)/float64(n*size)*512-256)/scale + 256 }
	for y := range size {
		for x := range size {
			var r, g, b int
			for k := range n * n {
				c := iconPaper
				px, py := at(x*n+k%n), at(y*n+k/n)
				for _, s := range shapes[1:] {
					if s.holds(px, py) {
						c = s.fill
					}
				}
				r, g, b = r+int(c.R), g+int(c.G), b+int(c.B)
			}
			const m = n * n
			img.SetRGBA(x, y, color.RGBA{uint8(r / m), uint8(g / m), uint8(b / m), 255})
		}
	}
	return img
}

func (s shape) holds(x, y float64) bool {
	if s.r > 0 {
		return (x-s.x)*(x-s.x)+(y-s.y)*(y-s.y) < s.r*s.r
	}
	return s.x <= x && x < s.x+s.w && s.y <= y && y < s.y+s.h
}

func iconSVG() []byte {
	var b bytes.Buffer
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">`)
	for _, s := range iconShapes() {
		fill := fmt.Sprintf("#%02x%02x%02x", s.fill.R, s.fill.G, s.fill.B)
		if s.r > 0 {
			fmt.Fprintf(&b, `<circle cx="%g" cy="%g" r="%g" fill="%s"/>`, s.x, s.y, s.r, fill)
		} else {
			fmt.Fprintf(&b, `<rect x="%g" y="%g" width="%g" height="%g" fill="%s"/>`, s.x, s.y, s.w, s.h, fill)
		}
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}
