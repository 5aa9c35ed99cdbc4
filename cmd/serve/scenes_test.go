package main

import (
	"fmt"

	"cartwright/engine/scene"
)

const ppx = scene.PX

// sheetScene is a sheet with cuts in every state, as package draw might make it.
func sheetScene() scene.Scene {
	s := scene.Scene{W: 800 * ppx, H: 460 * ppx, Title: "Sheet 1 of 3"}
	rect := func(x, y, w, h scene.Unit) []scene.Pt { return scene.R(x*ppx, y*ppx, w*ppx, h*ppx).Corners() }
	line := func(p scene.Pen, t scene.Tone, xy ...scene.Unit) {
		var pts []scene.Pt
		for i := 0; i < len(xy); i += 2 {
			pts = append(pts, scene.Pt{X: xy[i] * ppx, Y: xy[i+1] * ppx})
		}
		s.Add(scene.Line{Pts: pts, Pen: p, Tone: t})
	}
	label := func(x, y scene.Unit, text string, bold bool, t scene.Tone) {
		s.Add(scene.Label{At: scene.Pt{X: x * ppx, Y: y * ppx}, Text: text, Size: 15 * ppx, Bold: bold, Tone: t})
	}
	badge := func(x, y scene.Unit, sh scene.Shape, text string, size scene.Unit) {
		s.Add(scene.Badge{At: scene.Pt{X: x * ppx, Y: y * ppx}, Shape: sh, Text: text, Size: size * ppx})
	}
	s.Add(scene.Area{Pts: rect(20, 30, 760, 400), Fill: scene.Sheet})
	// R1: two parts cut, a strip to keep, a rough edge.
	s.Add(scene.Area{Pts: rect(22, 32, 180, 160), Fill: scene.Tint}, scene.Area{Pts: rect(207, 32, 180, 160), Fill: scene.Tint})
	s.Add(scene.Area{Pts: rect(22, 198, 378, 26), Hatch: scene.KeepHatch}, scene.Area{Pts: rect(388, 32, 12, 160), Hatch: scene.WasteHatch})
	line(scene.Heavy, scene.Ink, 400, 30, 22, 30, 22, 224)
	line(scene.Rough, scene.Ink, 400, 30, 400, 224)
	line(scene.Rough, scene.Ink, 22, 224, 400, 224)
	line(scene.Thin, scene.Ink, 22, 193, 400, 193)
	line(scene.Thin, scene.Ink, 22, 197, 400, 197)
	line(scene.Thin, scene.Ink, 202, 32, 202, 193)
	line(scene.Thin, scene.Ink, 206, 32, 206, 193)
	badge(66, 195, scene.Ticked, "", 22)
	badge(204, 56, scene.Ticked, "", 22)
	badge(112, 100, scene.PartSolid, "A", 32)
	badge(296, 100, scene.PartSolid, "B", 32)
	for _, x := range []scene.Unit{112, 296} {
		label(x, 132, "23 1⁄4 × 21", true, scene.Ink)
		label(x, 152, "cut", true, scene.Good)
	}
	label(211, 211, "keep 2 7⁄8 × 48", false, scene.Ink2)
	badge(42, 45, scene.RoughFrame, "R1", 22)
	// R3: one part to make.
	s.Add(scene.Area{Pts: rect(420, 32, 110, 192), Hatch: scene.KeepHatch})
	line(scene.Heavy, scene.Ink, 420, 30, 778, 30, 778, 224)
	line(scene.Rough, scene.Ink, 420, 30, 420, 224)
	line(scene.Rough, scene.Ink, 420, 224, 778, 224)
	line(scene.ToDo, scene.Ink, 530, 32, 530, 224)
	badge(530, 56, scene.Circle, "8", 26)
	badge(660, 100, scene.PartTag, "D", 32)
	label(660, 132, "34 × 21 7⁄32", true, scene.Ink)
	badge(758, 45, scene.RoughFrame, "R3", 22)
	// R2: the next cut.
	s.Add(scene.Area{Pts: rect(22, 244, 378, 184), Fill: scene.Sheet}, scene.Area{Pts: rect(216, 246, 184, 60), Hatch: scene.TrimHatch})
	line(scene.Heavy, scene.Ink, 22, 244, 22, 428, 400, 428)
	line(scene.Rough, scene.Ink, 22, 244, 400, 244)
	line(scene.Rough, scene.Ink, 400, 244, 400, 428)
	line(scene.Next, scene.Now, 206, 244, 206, 428)
	badge(206, 256, scene.PennantD, "7", 40)
	badge(112, 330, scene.PartTag, "C", 32)
	label(112, 362, "23 1⁄4 × 21", true, scene.Ink)
	line(scene.ToDo, scene.Ink, 280, 306, 280, 428)
	badge(280, 330, scene.Circle, "11", 26)
	s.Add(scene.Label{At: scene.Pt{X: 320 * ppx, Y: 380 * ppx}, Text: "14 15⁄32", Size: 15 * ppx, Bold: true, Tone: scene.Ink, Back: scene.Lit})
	s.Add(scene.Label{At: scene.Pt{X: 386 * ppx, Y: 366 * ppx}, Text: "15 21⁄32", Size: 15 * ppx, Tone: scene.Ink2, Turn: true})
	// Store cuts on the right.
	line(scene.DashDot, scene.Ink, 600, 244, 600, 446)
	badge(600, 256, scene.Square, "2", 26)
	line(scene.Level, scene.Store, 420, 330, 780, 330)
	s.Add(scene.Area{Pts: rect(440, 350, 120, 60), Pen: scene.Ghost, Tone: scene.Rule}, scene.Area{Pts: rect(640, 350, 120, 30), Hatch: scene.PlyHatch, Pen: scene.Medium, Tone: scene.Ink})
	s.Add(scene.Round{At: scene.Pt{X: 700 * ppx, Y: 410 * ppx}, R: 14 * ppx, Pen: scene.Hidden, Tone: scene.Ink})
	s.Add(scene.Round{At: scene.Pt{X: 660 * ppx, Y: 410 * ppx}, R: 16 * ppx, Fill: scene.Sheet, Pen: scene.Medium, Tone: scene.Ink}, scene.Round{At: scene.Pt{X: 660 * ppx, Y: 410 * ppx}, R: 4 * ppx, Fill: scene.Ink})
	label(500, 380, "was", false, scene.Ink2)
	s.Add(scene.Label{At: scene.Pt{X: 500 * ppx, Y: 398 * ppx}, Text: "15 1⁄2", Size: 14 * ppx, Tone: scene.Ink2, Strike: true})
	for i, x := range []scene.Unit{204, 530, 206, 280, 600} {
		y := scene.Unit(45)
		if i >= 2 {
			y = 245
		}
		s.Spots = append(s.Spots, scene.Spot{At: scene.R((x-12)*ppx, y*ppx, 24*ppx, 24*ppx), Ref: fmt.Sprintf("cut/%d", i), Name: fmt.Sprintf("Cut %d", i)})
	}
	return s
}

// cartScene is a front view with a divider that can be dragged to x, in steps
// of 4 px; 8 px are an inch.
func cartScene(x scene.Unit, parts int) scene.Scene {
	s := scene.Scene{W: 500 * ppx, H: 400 * ppx, Title: "Front view"}
	rect := func(x, y, w, h scene.Unit) []scene.Pt { return scene.R(x*ppx, y*ppx, w*ppx, h*ppx).Corners() }
	s.Add(scene.Area{Pts: rect(50, 80, 400, 250), Fill: scene.Sheet, Pen: scene.Medium, Tone: scene.Ink},
		scene.Area{Pts: rect(x-4, 80, 8, 250), Fill: scene.Sheet, Hatch: scene.PlyHatch, Pen: scene.Medium, Tone: scene.Ink},
		scene.Label{At: scene.Pt{X: (50 + x) / 2 * ppx, Y: 360 * ppx}, Text: fmt.Sprintf("%d 1⁄32", (x-50)/8), Size: 16 * ppx, Bold: true, Tone: scene.Ink, Back: scene.Lit})
	for i := range scene.Unit(parts) {
		s.Add(scene.Area{Pts: rect(60+i%12*30, 90+i/12*20, 24, 14), Fill: scene.Sheet, Pen: scene.Thin, Tone: scene.Ink2})
	}
	s.Spots = []scene.Spot{
		{At: scene.R(50*ppx, 80*ppx, (x-50)*ppx, 250*ppx), Ref: "bay/0", Name: "Left bay"},
		{At: scene.R(x*ppx, 80*ppx, (450-x)*ppx, 250*ppx), Ref: "bay/1", Name: "Right bay"},
		{At: scene.R((x-4)*ppx, 80*ppx, 8*ppx, 250*ppx), Ref: "divider/0", Name: "Divider", Drag: 'x', PerPX: 25400, Step: 101600},
	}
	return s
}
