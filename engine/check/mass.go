package check

import (
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A body is something heavy at a place.
type body struct {
	name   string
	kg     float64
	at     [3]float64 // its middle, in metres
	drawer int        // moves with it, from 1
	door   int        // is this door, from 1
	load   bool       // not of the cart itself
}

// middle returns the middle of a box in metres.
func middle(b geom.Box) (at [3]float64) {
	for a := range at {
		at[a] = (b.Min[a].Metres() + b.Max[a].Metres()) / 2
	}
	return at
}

// balance adds up bodies. The centre of gravity is Σ m·x / Σ m, axis by axis.
func balance(name string, bodies []body, keep func(body) bool) Balance {
	var kg float64
	var moment [3]float64
	for _, b := range bodies {
		if !keep(b) {
			continue
		}
		kg += b.kg
		for a := range moment {
			moment[a] += float64(b.at[a] * b.kg)
		}
	}
	out := Balance{Name: name, Mass: mass(kg)}
	if kg > 0 {
		for a := range moment {
			out.At[a] = moment[a] / kg
		}
	}
	return out
}

// mass is measure.FromKg, at most what a Mass holds by far.
func mass(kg float64) measure.Mass {
	if !(kg > -1e10 && kg < 1e10) {
		return 0
	}
	return measure.FromKg(kg)
}

// weigh fills the weights of the report and returns the bodies.
func (r *run) weigh() []body {
	p, c := r.p, r.c
	var all []body
	rho := map[string]float64{}
	for i, m := range p.Stock.Materials {
		if absurd(m) && !r.told[m.ID] {
			r.told[m.ID] = true
			r.warn(Dense, "stock.materials."+strconv.Itoa(i)+".density", m.Name, fixed(m.Density, 0))
		}
		if _, twice := rho[m.ID]; !twice {
			rho[m.ID], _ = Density(m)
		}
	}
	volume := map[part.ID]float64{}
	for _, q := range c.Parts {
		v := Volume(q)
		volume[q.ID] = v
		kg := max(v*rho[q.Material], 0)
		all = append(all, body{name: q.Name, kg: kg, at: middle(q.Box), drawer: q.Drawer, door: q.Door})
		r.Parts = append(r.Parts, PartWeight{q.ID, mass(kg), middle(q.Box)})
	}
	// Wood, material by material in the order of the stock.
	for i, m := range p.Stock.Materials {
		if materialAt(p, m.ID) != i {
			continue
		}
		var vol, kg float64
		n := 0
		for _, q := range c.Parts {
			if q.Material == m.ID {
				n++
				vol += volume[q.ID]
				kg += float64(volume[q.ID] * rho[m.ID])
			}
		}
		if n > 0 {
			r.weight(m.Name, strconv.Itoa(n)+" parts, "+fixed(vol*1000, 1)+" L × "+fixed(rho[m.ID], 0)+" kg/m³", mass(kg))
		}
	}
	for _, l := range c.Lines {
		w := LineWeight{Tag: l.Tag, Name: l.Name, Count: l.Count}
		switch {
		case len(l.Parts) > 0:
			w.Each = mass(volume[l.Parts[0]] * rho[l.Material])
		default:
			w.Each = mass(l.Length.Metres() * l.Width.Metres() * l.Thick.Metres() * rho[l.Material])
		}
		r.Lines = append(r.Lines, w)
	}
	casters := 0
	for _, t := range c.Things {
		if t.Kind == design.CasterThing {
			casters++
			all = append(all, body{name: t.Name, kg: t.Weight.Kg(), at: middle(t.Box)})
		}
	}
	if w := p.Base.Caster.Weight; casters > 0 && w > 0 {
		r.weight("Casters", r.times(casters, w), measure.Mass(casters)*w)
	}
	for _, h := range c.Hardware {
		for _, k := range p.Stock.Hardware {
			if k.ID != h.ID || k.Weight <= 0 || h.ID == "caster" && p.Base.Caster.Weight > 0 {
				continue
			}
			r.weight(h.Name, r.times(h.Count, k.Weight), measure.Mass(h.Count)*k.Weight)
			all = append(all, r.fitted(h, k.Weight.Kg())...)
		}
	}
	if w := p.Base.Ballast; w > 0 {
		r.weight("Ballast", "on the bottom, at the back", w)
		all = append(all, body{name: "Ballast", kg: w.Kg(), at: r.ballastAt()})
	}
	r.Loaded = r.Empty
	own := len(all)
	load := func(name string, m measure.Mass, at [3]float64, drawer int) {
		if m > 0 {
			r.weight(name, "as entered", m)
			all = append(all, body{name: name, kg: m.Kg(), at: at, drawer: drawer, load: true})
		}
	}
	top := middle(c.Case)
	top[2] = c.Case.Max[geom.Z].Metres()
	placed := false
	for _, t := range c.Things {
		if t.Kind == design.MachineThing {
			load(or(t.Name, "machine"), p.Machine.Weight, middle(t.Box), 0)
			placed = true
		}
	}
	if !placed {
		load(or(p.Machine.Name, "machine"), p.Machine.Weight, top, 0)
	}
	for i, b := range p.Cabinet.Bays {
		for j, o := range b.Openings {
			if i >= len(c.Bays) || j >= len(c.Bays[i].Openings) {
				continue
			}
			cell := c.Bays[i].Openings[j]
			at := middle(cell.Cell)
			at[1] = (c.Bays[i].Inside.Min[geom.Y].Metres() + c.Bays[i].Inside.Max[geom.Y].Metres()) / 2
			if cell.Drawer > 0 && cell.Drawer <= len(c.Drawers) {
				at = middle(c.Drawers[cell.Drawer-1].Inside)
			}
			load(cell.Name+", what lies in it", o.Load, at, cell.Drawer)
			if o.Holds != nil && o.Holds.Weight > 0 {
				at[2] = cell.Cell.Min[geom.Z].Metres() + o.Holds.Height.Metres()/2
				load(or(o.Holds.Name, cell.Name), o.Holds.Weight, at, 0)
			}
		}
	}
	for _, b := range all[own:] {
		r.Loaded += mass(b.kg)
	}
	empty := func(b body) bool { return !b.load }
	e := balance("empty", all, empty)
	r.CG = e.At
	e.Mass = r.Empty
	l := balance("loaded", all, func(body) bool { return true })
	l.Mass = r.Loaded
	r.States = append(r.States, e, l)
	for i, d := range c.Drawers {
		r.States = append(r.States, balance("loaded, "+r.drawerName(i)+" out", slid(all, i+1, d.Travel.Metres()), func(body) bool { return true }))
	}
	return all
}

// materialAt is the index of the first material with that ID.
func materialAt(p *project.Project, id string) int {
	for i, m := range p.Stock.Materials {
		if m.ID == id {
			return i
		}
	}
	return -1
}

// slid returns the bodies with those of a drawer moved forward.
func slid(all []body, drawer int, travel float64) []body {
	out := append([]body(nil), all...)
	for i := range out {
		if out[i].drawer == drawer {
			out[i].at[1] -= travel
		}
	}
	return out
}

// swung returns the bodies with all doors open at a right angle: each turns
// about the edge of its front face.
func (r *run) swung(all []body) []body {
	out := append([]body(nil), all...)
	for i, b := range out {
		if d := b.door - 1; d >= 0 && d < len(r.c.Doors) {
			f := r.c.Doors[d].Front
			out[i].at[1] = f.Min[geom.Y].Metres() - f.Size(geom.X).Metres()/2
			x := f.Min[geom.X]
			if r.c.Doors[d].Hinge == "right" {
				x = f.Max[geom.X]
			}
			out[i].at[0] = x.Metres()
		}
	}
	return out
}

// ballastAt is where ballast lies: on the bottom, 2 in before the back, in the
// middle.
func (r *run) ballastAt() [3]float64 {
	at := middle(r.c.Case)
	at[1] = r.c.Case.Max[geom.Y].Metres() - 2*inch
	at[2] = r.c.Case.Min[geom.Z].Metres() + 1.5*inch
	return at
}

// fitted places hardware that is bought: slides half with the case and half
// with the drawer, pulls at the fronts, the rest in the middle of the case.
func (r *run) fitted(h design.Hardware, each float64) []body {
	c := r.c
	var out []body
	switch h.ID {
	case "slides":
		for i, d := range c.Drawers {
			if len(out) < 2*h.Count {
				out = append(out, body{name: h.Name, kg: each / 2, at: middle(d.Box)}, body{name: h.Name, kg: each / 2, at: middle(d.Box), drawer: i + 1})
			}
		}
	case "pull":
		for _, t := range c.Things {
			if t.Kind == design.PullThing && len(out) < h.Count {
				out = append(out, body{name: h.Name, kg: each, at: middle(t.Box), drawer: t.Drawer})
			}
		}
	}
	n := float64(h.Count)
	for _, b := range out {
		n -= b.kg / each
	}
	if n > 0.01 {
		out = append(out, body{name: h.Name, kg: n * each, at: middle(c.Case)})
	}
	return out
}

func (r *run) weight(name, how string, m measure.Mass) {
	r.Weights = append(r.Weights, Weight{name, how, m})
	if how != "as entered" {
		r.Empty += m
	}
}

func (r *run) times(n int, m measure.Mass) string {
	return strconv.Itoa(n) + " × " + r.t.ShowMass(m) + " " + r.t.MassUnit()
}

// Volume returns the volume of a finished part in m³, grooves taken off.
func Volume(p part.Part) float64 {
	vol := func(b geom.Box) float64 {
		if b.Empty() {
			return 0
		}
		return b.Size(geom.X).Metres() * b.Size(geom.Y).Metres() * b.Size(geom.Z).Metres()
	}
	v := vol(p.Box)
	for _, f := range p.Features {
		cut := vol(f.Box.Intersect(p.Box))
		if f.Kind == part.Mitre {
			cut /= 2
		}
		v -= cut
	}
	return v
}
