package work

import (
	"math"
	"slices"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// TestOpenTime: no step has more glue to close than stays open, but where one
// part or sub-assembly alone has so many joints that it cannot be parted.
func TestOpenTime(t *testing.T) {
	parted := 0
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		for _, s := range Build(p, c).Steps {
			units := map[string]bool{}
			for _, a := range s.Adds {
				units[a.Unit] = true
			}
			if sub := strings.HasPrefix(s.ID, "build/sub/"); s.Minutes > OpenTime && (len(units) > 1 && !sub || sub && len(s.Adds) > 2) {
				t.Errorf("%s, %s: %d min of glue in %d units", name, s.ID, s.Minutes, len(units))
			}
			if s.Glue != (s.Minutes > 0) {
				t.Errorf("%s, %s: glue %t, %d min", name, s.ID, s.Glue, s.Minutes)
			}
			if strings.HasSuffix(s.ID, "-2") && strings.HasPrefix(s.ID, "build/sub/") {
				parted++
			}
		}
	}
	if parted == 0 {
		t.Error("no sub-assembly of any starting point is made in stages: the test sees nothing")
	}
	// By hand: a face frame of 5 joints takes 10 min and is closed at once; one
	// of 8, with a second bay, in two stages.
	p := startingPoints(t)["low-assembly-cart"]
	c, _ := design.Build(p)
	n, minutes := 0, 0
	for _, s := range Build(p, c).Steps {
		if strings.HasPrefix(s.ID, "build/sub/face") {
			n++
			minutes += s.Minutes
		}
	}
	joints := 0
	frame := func(id part.ID) bool {
		return strings.HasPrefix(string(id), "stile-") || strings.HasPrefix(string(id), "rail-")
	}
	for _, j := range c.Joints {
		if frame(j.A) && frame(j.B) && j.Kind == part.Butt {
			joints++
		}
	}
	if joints != 8 || n != 2 || minutes != 16 {
		t.Errorf("%d joints of the face frame in %d stages, %d min; worked by hand 8, 2, 16", joints, n, minutes)
	}
}

// TestAreas: what lies open, what is masked for glue and what merely touches
// make up the six sides of every part's box: an independent sum, with the
// contacts taken from the corners of the boxes.
func TestAreas(t *testing.T) {
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		rows := Finish(p, c).Rows
		var open, masked float64
		for _, r := range rows {
			open, masked = open+r.Area, masked+r.Masked
		}
		var all, covered, glued float64
		m := func(l measure.Length) float64 { return float64(l) / float64(measure.Metre) }
		for i, q := range c.Parts {
			a, b, d := m(q.Box.Size(0)), m(q.Box.Size(1)), m(q.Box.Size(2))
			all += 2 * (a*b + b*d + a*d)
			for k, o := range c.Parts {
				if i == k {
					continue
				}
				// Each side of q that o lies on, or reaches across.
				sum := 0.0
				for side := range 6 {
					axis := geom.Axis(side / 2)
					at := q.Box.Min[axis]
					out := at - 1
					if side%2 == 1 {
						at = q.Box.Max[axis]
						out = at
					}
					if out < o.Box.Min[axis] || out >= o.Box.Max[axis] {
						continue
					}
					w := 1.0
					for e := geom.X; e <= geom.Z; e++ {
						if e != axis {
							w *= max(0, m(min(q.Box.Max[e], o.Box.Max[e]))-m(max(q.Box.Min[e], o.Box.Min[e])))
						}
					}
					sum += w
				}
				covered += sum
				if n := slices.IndexFunc(c.Joints, func(j part.Joint) bool { return j.A == q.ID && j.B == o.ID || j.B == q.ID && j.A == o.ID }); n >= 0 && Glues(c, n) {
					glued += sum
				}
			}
		}
		if math.Abs(all-covered-open) > 1e-6*all || math.Abs(glued-masked) > 1e-6*all || masked <= 0 || glued > covered {
			t.Errorf("%s: sides %.4f m², covered %.4f, glued %.4f; open %.4f, masked %.4f", name, all, covered, glued, open, masked)
		}
	}
}

// TestMaskByHand: a side 3/4 thick glued between a bottom and a worktop: two
// ends of 3/4 × 20.
func TestMaskByHand(t *testing.T) {
	in := measure.Inch
	b := func(x0, z0, x1, z1 measure.Length) geom.Box {
		return geom.Box{Min: geom.Pt{x0, 0, z0}, Max: geom.Pt{x1, 20 * in, z1}}
	}
	c := design.Cart{Parts: []part.Part{
		{ID: "side", Box: b(0, in, in*3/4, 21*in)}, {ID: "bottom", Box: b(0, 0, 30*in, in)}, {ID: "top", Box: b(0, 21*in, 30*in, 22*in)},
	}, Joints: []part.Joint{{A: "side", B: "bottom", Kind: part.Butt}, {A: "side", B: "top", Kind: part.Resting}}}
	sq := measure.Area(in.Times(in)).SquareMetres()
	if got := Masked(c, 0); math.Abs(got-15*sq) > 1e-9 {
		t.Errorf("%.6f m² masked, by hand 15 in²", got)
	}
	c.Joints[1].Kind = part.Butt
	if got := Masked(c, 0); math.Abs(got-30*sq) > 1e-9 {
		t.Errorf("%.6f m² masked, by hand 30 in²", got)
	}
	// 2 (3/4·20 + 20·20 + 3/4·20) less both ends.
	if got := Surface(c, 0); math.Abs(got-(860-30)*sq) > 1e-9 {
		t.Errorf("%.6f m² open, by hand 830 in²", got)
	}
}

// TestBareFaces: no glue is counted on a finished face. Sheets that come
// varnished: every step that glues to their face says which part to scuff, and
// where no screw holds besides, a finding tells; with plain sheets neither.
func TestBareFaces(t *testing.T) {
	p := startingPoints(t)["low-assembly-cart"]
	c, _ := design.Build(p)
	plain := Build(p, c)
	for _, s := range plain.Steps {
		if len(s.Bare) > 0 {
			t.Errorf("plain sheets, %s: scuff %v", s.ID, s.Bare)
		}
	}
	for i := range p.Stock.Materials {
		if p.Stock.Materials[i].Kind != "solid" {
			p.Stock.Materials[i].Finish = "varnished"
		}
	}
	done := Build(p, c)
	if plain.Findings.Has(FaceGlue) || !done.Findings.Has(FaceGlue) { // the worktop has two layers
		t.Errorf("plain: %v; varnished: %v", plain.Findings, done.Findings)
	}
	for n, s := range done.Steps {
		want := map[int]bool{}
		made := map[part.ID]bool{}
		for _, i := range s.Have {
			made[c.Parts[i].ID] = true
		}
		adds := map[part.ID]bool{}
		for _, a := range s.Adds {
			adds[c.Parts[a.Part].ID] = true
		}
		earlier := map[int]bool{}
		for _, o := range done.Steps[:n] {
			there := map[part.ID]bool{}
			for _, i := range o.Have {
				there[c.Parts[i].ID] = true
			}
			for _, a := range o.Adds {
				there[c.Parts[a.Part].ID] = true
			}
			for k, j := range c.Joints {
				earlier[k] = earlier[k] || there[j.A] && there[j.B]
			}
		}
		for k, j := range c.Joints {
			if earlier[k] || !Glues(c, k) || j.Kind == part.LetIn || !(adds[j.A] && (adds[j.B] || made[j.B]) || adds[j.B] && made[j.A]) {
				continue
			}
			for i, q := range c.Parts {
				m, _ := p.Material(q.Material)
				if q.ID != j.A && q.ID != j.B || m.Finish == "" {
					continue
				}
				for _, o := range c.Parts {
					if o.ID != q.ID && (o.ID == j.A || o.ID == j.B) {
						a := q.ThickAxis()
						if q.Box.Max[a] == o.Box.Min[a] || o.Box.Max[a] == q.Box.Min[a] {
							want[i] = true
						}
					}
				}
			}
		}
		got := map[int]bool{}
		for _, i := range s.Bare {
			got[i] = true
		}
		for i := range want {
			if !got[i] {
				t.Errorf("%s: nobody says to scuff %s", s.ID, c.Parts[i].ID)
			}
		}
		for i := range got {
			if !want[i] {
				t.Errorf("%s: %s is to be scuffed for nothing", s.ID, c.Parts[i].ID)
			}
		}
	}
}

// TestEarly: a bay of 3 in lets no hand in, so its uprights are finished before
// they stand; one of 5 in does.
func TestEarly(t *testing.T) {
	for _, tt := range []struct {
		wide measure.Length
		want string
	}{{3 * inch, "side-left partition-1"}, {5 * inch, ""}} {
		p := startingPoints(t)["jointer-stand"]
		p.Cabinet.Bays[0].Width, p.Cabinet.Bays[0].Openings = tt.wide, nil
		c, _ := design.Build(p)
		var got []string
		for _, i := range Early(p, c) {
			got = append(got, string(c.Parts[i].ID))
		}
		if strings.Join(got, " ") != tt.want {
			t.Errorf("bay of %v: %q, want %q", tt.wide, got, tt.want)
		}
		first := Build(p, c).Steps[0]
		if (first.ID == "build/finish-first") != (tt.want != "") {
			t.Errorf("bay of %v: the first step is %s", tt.wide, first.ID)
		}
	}
}
