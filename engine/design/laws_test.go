package design

import (
	"math/rand/v2"
	"slices"
	"testing"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// laws checks what holds for every cart without asking Verify: sums, sizes,
// boxes, openings.
func laws(t *testing.T, name string, c Cart) {
	t.Helper()
	step := c.Tape.Least()
	var sum measure.Length
	for _, l := range c.Chain {
		sum += l.Height
	}
	if sum != c.Reached {
		t.Errorf("%s: the chain adds up to %v, reached is %v", name, sum, c.Reached)
	}
	if len(c.Parts) > 0 && (c.Reached-c.Target).Abs() >= step {
		t.Errorf("%s: %v off the target", name, c.Reached-c.Target)
	}
	for _, p := range c.Parts {
		if p.Length <= 0 || p.Width <= 0 || p.Thick <= 0 {
			t.Errorf("%s: %s is %v × %v × %v", name, p.ID, p.Length, p.Width, p.Thick)
		}
		if !c.Tape.On(p.Length) || !c.Tape.On(p.Width) {
			t.Errorf("%s: %s is %v × %v: no whole steps of the tape", name, p.ID, p.Length, p.Width)
		}
		if p.Box.Size(p.LengthAxis) != p.Length || p.Box.Size(p.WidthAxis) != p.Width || p.Box.Size(p.ThickAxis())+p.Proud != p.Thick {
			t.Errorf("%s: the box of %s is not its size", name, p.ID)
		}
		for i, r := range p.Reasons {
			var s measure.Length
			for _, term := range r.Terms {
				s += measure.Length(term.Times) * term.Value
			}
			if want := []measure.Length{p.Length, p.Width, p.Thick}[i]; s+r.Off != r.Result || r.Result != want {
				t.Errorf("%s: reason %d of %s: terms %v, off %v, result %v, size %v", name, i, p.ID, s, r.Off, r.Result, want)
			}
			if r.Off.Abs() >= step {
				t.Errorf("%s: rounding took %v from %s", name, r.Off, p.ID)
			}
		}
	}
	for n, d := range c.Drawers {
		bay := c.Bays[d.Bay]
		if room := bay.Width - d.Box.Size(geom.X) - 2*d.Side; room < 0 || room > 1 {
			t.Errorf("%s: drawer %d and its slides do not fill the bay", name, n+1)
		}
		if d.Side <= 0 {
			t.Errorf("%s: drawer %d has no room beside it", name, n+1)
		}
		if d.Box.Min[geom.Z] < bay.Clear.Min[geom.Z] || d.Front.Max[geom.Z] > bay.Clear.Max[geom.Z] {
			t.Errorf("%s: drawer %d leaves its bay", name, n+1)
		}
	}
	for _, x := range Verify(c) {
		t.Errorf("%s: %v %v %v", name, x.Code, x.Where, x.Args)
	}
}

// random changes a demo within what a person could want.
func random(r *rand.Rand, base *project.Project) *project.Project {
	p := base.Clone()
	between := func(lo, hi measure.Length) measure.Length { return lo + measure.Length(r.Int64N(int64(hi-lo)+1)) }
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	step := p.Measure().Least()
	on := func(l measure.Length) measure.Length { return l / step * step }
	for i := range p.Stock.Materials {
		m := &p.Stock.Materials[i]
		m.Measured = between(m.Nominal*88/100, m.Nominal*103/100)
		if m.Kind == "solid" {
			m.Measured = 0
		}
	}
	c := &p.Cabinet
	c.Width = on(between(500*mm, 1500*mm))
	c.Depth = on(between(380*mm, 800*mm))
	c.Bottom = pick("under", "between")
	c.Upper = pick("", "sides", "stretchers", "sub-top")
	c.Back.Kind = pick("frame", "panel", "between", "let-in", "none")
	c.Back.Rail = on(between(30*mm, 90*mm))
	c.Face.Kind = pick("bare", "strips", "frame")
	c.Face.Stile, c.Face.Rail = on(between(20*mm, 60*mm)), on(between(20*mm, 60*mm))
	c.Face.Mid = r.IntN(2) == 0
	c.Face.Edges = pick("", "all", "uprights", "shelves")
	c.Face.Corner = pick("", "butt", "mitre")
	if r.IntN(2) == 0 {
		c.Face.Proud = on(between(0, 8*mm))
	}
	p.Base.Kind = pick("", "casters", "feet")
	p.Base.Foot = on(between(0, 150*mm))
	if r.IntN(3) == 0 {
		p.Base.Pad = c.Material
	}
	c.Face.Thick = on(between(3*mm, 12*mm))
	c.Top.Layers = 1 + r.IntN(2)
	c.Top.Strips = r.IntN(2) == 0
	c.Top.Overhang = project.Sides{Left: on(between(0, 60*mm)), Right: on(between(0, 60*mm)), Front: on(between(0, 60*mm)), Back: on(between(0, 60*mm))}
	p.Base.Level = max(0, on(between(-10*mm, 20*mm)))
	p.Base.Floor = max(0, on(between(-10*mm, 20*mm)))
	p.LineUp.Side = pick("", "left", "right", "front", "back")
	p.LineUp.Legs = on(between(-60*mm, 40*mm))
	p.Machine.Clear = project.Sides{Left: max(0, between(-100*mm, 200*mm)), Front: max(0, between(-100*mm, 200*mm))}
	p.Machine.Needs = nil
	for range r.IntN(3) {
		p.Machine.Needs = append(p.Machine.Needs, project.Need{Side: pick("", "left", "right", "front", "back"), Reach: between(0, 300*mm),
			Wide: max(0, between(-50*mm, 200*mm)), At: max(0, between(-50*mm, 200*mm)), Low: between(-200*mm, 200*mm), High: between(0, 300*mm), Top: r.IntN(2) == 0})
	}
	p.LineUp.Role = pick("receives", "feeds", "both", "beside")
	p.LineUp.Surface += between(-20*mm, 100*mm)
	p.Drawers.Joint = pick("groove", "under", "inside")
	p.Drawers.Fit = pick("", "inset", "overlay")
	p.Drawers.Grain = pick("", "across", "up", "on")
	p.Drawers.Slide = pick("ball", "ball", "ball", "wood")
	p.Drawers.Runner = c.Face.Material
	p.Drawers.Pulls, p.Drawers.PullAt, p.Drawers.Pull = r.IntN(3), max(0, between(-100*mm, 150*mm)), max(0, between(-300*mm, 300*mm))
	p.Drawers.Gap = between(1*mm, 4*mm)
	if r.IntN(3) == 0 {
		p.Drawers.Gap, p.Drawers.Front = 0, c.Face.Material
	}
	p.Drawers.Allowance = between(400*measure.UM, 1500*measure.UM)
	p.Drawers.SlideLength = 0
	n := 1 + r.IntN(4)
	c.Bays = nil
	for range n {
		b := project.Bay{Share: 1 + r.IntN(3)}
		if r.IntN(4) == 0 && n > 1 {
			b.Width = on(between(100*mm, c.Width/measure.Length(n)))
		}
		for range 1 + r.IntN(4) {
			o := project.Opening{Kind: pick("drawer", "drawer", "open", "shelf", "door"), Share: 1 + r.IntN(3),
				Doors: r.IntN(3), Hinge: pick("", "left", "right"), Pins: max(r.IntN(6)-3, 0)}
			if r.IntN(4) == 0 {
				o.Height = on(between(60*mm, 120*mm))
			}
			b.Openings = append(b.Openings, o)
		}
		if r.IntN(5) == 0 {
			m := between(60*mm, 400*mm)
			if b.Width > 0 {
				m = b.Width + between(-5*mm, 5*mm)
			}
			b.Measured = &project.Measured{Front: m, Back: m + between(-3*mm, 3*mm), DiagonalA: between(400*mm, 410*mm), DiagonalB: between(400*mm, 410*mm), Depth: max(0, between(-300*mm, 700*mm))}
		}
		c.Bays = append(c.Bays, b)
	}
	return p
}

// addMaterials makes the metric demo know boards, so that both demos can have
// strips and frames.
func addMaterials(p *project.Project) *project.Project {
	p = p.Clone()
	if p.Tape.Unit == "metric" {
		p.Stock.Materials = append(p.Stock.Materials,
			project.Material{ID: "oak", Name: "Oak board", Kind: "solid", Nominal: 20 * mm},
			project.Material{ID: "pine", Name: "Pine board", Kind: "solid", Nominal: 20 * mm})
		p.Cabinet.Face.Material, p.Cabinet.Back.Frame = "oak", "pine"
	}
	return p
}

func checkRandom(t *testing.T, base *project.Project, seed uint64) (built bool) {
	p := random(rand.New(rand.NewPCG(seed, 1)), base)
	c, f := Build(p)
	before := t.Failed()
	laws(t, base.Name, c)
	if t.Failed() && !before {
		t.Fatalf("seed %d:\n%s%s", seed, codes(f), project.Save(p))
	}
	return len(c.Drawers) > 0
}

// TestRandomProjects: the laws hold for thousands of random projects, most of
// which have drawers.
func TestRandomProjects(t *testing.T) {
	drawers, n := 0, 4000
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		base := addMaterials(open(t, name))
		for seed := range uint64(n) {
			if checkRandom(t, base, seed) {
				drawers++
			}
		}
	}
	if drawers < n {
		t.Errorf("only %d of %d random carts have drawers: they test little", drawers, 2*n)
	}
}

// FuzzLaws is TestRandomProjects without end.
func FuzzLaws(f *testing.F) {
	f.Add(uint64(1), false)
	f.Add(uint64(2), true)
	inch, metric := addMaterials(open(f, "jointer-stand")), addMaterials(open(f, "sharpening-cart"))
	f.Fuzz(func(t *testing.T, seed uint64, m bool) {
		base := inch
		if m {
			base = metric
		}
		checkRandom(t, base, seed)
	})
}

// TestVerifyFinds: each law that Verify checks, broken by hand, is reported.
func TestVerifyFinds(t *testing.T) {
	cart := func() Cart { c, _ := Build(open(t, "jointer-stand")); return c }
	at := func(c Cart, id part.ID) *part.Part {
		for i := range c.Parts {
			if c.Parts[i].ID == id {
				return &c.Parts[i]
			}
		}
		t.Fatal(id)
		return nil
	}
	c := cart()
	if f := Verify(c); len(f) != 0 {
		t.Fatalf("the demo breaks a law: %v", f)
	}
	p := at(c, "partition-1")
	p.Box = p.Box.Add(geom.Pt{0, 0, -in})
	if !Verify(c).Has(Overlap) {
		t.Error("a partition that stands in the bottom is not seen")
	}
	c = cart()
	p = at(c, "back-skin")
	p.Box = p.Box.Add(geom.Pt{0, in, 0})
	if f := Verify(c); !f.Has(OpenJoint) || !f.Has(Loose) {
		t.Errorf("a skin an inch behind the frame is not seen: %v", f)
	}
	c = cart()
	c.Joints = c.Joints[1:]
	if !Verify(c).Has(Undeclared) {
		t.Error("a contact without a rule is not seen")
	}
	c = cart()
	for i := range c.Parts {
		c.Parts[i].Features = nil
	}
	if !Verify(c).Has(Overlap) {
		t.Error("a drawer bottom without its groove is not seen")
	}
	c = cart()
	p = at(c, "strip-partition-1")
	p.Box = p.Box.Add(geom.Pt{-2 * in, 0, 0})
	if !Verify(c).Has(Stuck) && !Verify(c).Has(Overlap) {
		t.Error("a strip in front of a drawer is not seen")
	}
	c = cart()
	block := part.Part{ID: "block", Name: "block", Box: geom.At(c.Bays[0].Clear.Min[geom.X]+2*in, -3*in, c.Bays[0].Clear.Max[geom.Z]-2*in, in, in, in)}
	c.Parts = append(c.Parts, block)
	if !Verify(c).Has(Stuck) {
		t.Error("a block before a drawer is not seen")
	}
}

// TestMirror: a project mirrored left to right has the same parts to within one
// step of the tape, and each stands where its twin stood, mirrored.
func TestMirror(t *testing.T) {
	compared := 0
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		base := addMaterials(open(t, name))
		for seed := range uint64(400) {
			p := random(rand.New(rand.NewPCG(seed, 2)), base)
			q := p.Clone()
			slices.Reverse(q.Cabinet.Bays)
			for i := range q.Cabinet.Bays {
				for j := range q.Cabinet.Bays[i].Openings {
					o := &q.Cabinet.Bays[i].Openings[j]
					if o.Hinge == "right" {
						o.Hinge = "left"
					} else {
						o.Hinge = "right"
					}
				}
			}
			o := &q.Cabinet.Top.Overhang
			o.Left, o.Right = o.Right, o.Left
			a, fa := Build(p)
			b, fb := Build(q)
			if fa.Blocked() || fb.Blocked() {
				continue // what is left out need not match
			}
			compared++
			if len(a.Parts) != len(b.Parts) || len(a.Drawers) != len(b.Drawers) {
				t.Fatalf("seed %d: %d parts, mirrored %d", seed, len(a.Parts), len(b.Parts))
			}
			n := len(a.Bays)
			step := a.Tape.Least()
			for _, d := range a.Drawers {
				for _, e := range b.Drawers {
					if e.Bay == n-1-d.Bay && e.Opening == d.Opening {
						if (d.Front.Size(geom.X)-e.Front.Size(geom.X)).Abs() > 2*step || d.Front.Size(geom.Z) != e.Front.Size(geom.Z) {
							t.Errorf("%s, seed %d: front %v × %v, mirrored %v × %v", name, seed, d.Front.Size(geom.X), d.Front.Size(geom.Z), e.Front.Size(geom.X), e.Front.Size(geom.Z))
						}
						if mirrored := a.Case.Max[geom.X] - d.Front.Max[geom.X]; (mirrored - e.Front.Min[geom.X]).Abs() > measure.Length(2*n)*step {
							t.Errorf("%s, seed %d: a front stands at %v, mirrored at %v", name, seed, d.Front.Min[geom.X], e.Front.Min[geom.X])
						}
					}
				}
			}
		}
	}
	if compared < 100 {
		t.Errorf("only %d carts could be compared", compared)
	}
}

// TestThicker: thicker ply never makes a drawer wider, but for the step of the
// tape that rounding may give back.
func TestThicker(t *testing.T) {
	compared := 0
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		base := addMaterials(open(t, name))
		for seed := range uint64(400) {
			r := rand.New(rand.NewPCG(seed, 3))
			p := random(r, base)
			if p.Cabinet.Face.Kind == "frame" {
				// A stile centred on a thicker partition stands less far
				// into a bay of fixed width: the opening does grow.
				p.Cabinet.Face.Kind = "strips"
			}
			q := p.Clone()
			more := measure.Length(r.Int64N(int64(mm)))
			for i := range q.Stock.Materials {
				q.Stock.Materials[i].Measured = q.Stock.Materials[i].Thick() + more
			}
			a, _ := Build(p)
			b, _ := Build(q)
			for _, d := range a.Drawers {
				for _, e := range b.Drawers {
					if d.Bay == e.Bay && d.Opening == e.Opening {
						compared++
						if e.Box.Size(geom.X) > d.Box.Size(geom.X)+2*a.Tape.Least() {
							t.Errorf("%s, seed %d: %v more ply, box %v instead of %v", name, seed, more, e.Box.Size(geom.X), d.Box.Size(geom.X))
						}
					}
				}
			}
		}
	}
	if compared < 400 {
		t.Errorf("only %d drawers could be compared", compared)
	}
}
