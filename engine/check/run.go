package check

import (
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

// The findings of this package.
const (
	// Caster: a caster carries more than it is rated for. Args: the load on
	// one, three of four carrying (Mass), its rating (Mass), over by (Mass).
	// Example: caster.json
	Caster issue.Code = "check.caster"
)

// Run weighs the cart and checks its casters.
func Run(p *project.Project, c design.Cart) Report {
	var r Report
	if len(c.Parts) == 0 {
		return r
	}
	moment := [3]float64{}
	var all float64
	at := func(b geom.Box, kg float64) {
		all += kg
		for a := geom.X; a <= geom.Z; a++ {
			mid := (b.Min[a].Metres() + b.Max[a].Metres()) / 2
			moment[a] += float64(mid * kg)
		}
	}

	// Wood, material by material in the order of the stock.
	for _, m := range p.Stock.Materials {
		rho, _ := Density(m)
		var vol, kg float64
		n := 0
		for _, q := range c.Parts {
			if q.Material != m.ID {
				continue
			}
			n++
			v := Volume(q)
			vol += v
			kg += float64(v * rho)
			at(q.Box, v*rho)
		}
		if n > 0 {
			mass := measure.FromKg(kg)
			r.Weights = append(r.Weights, Weight{Name: m.Name, How: strconv.Itoa(n) + " parts, " + fixed(vol*1000, 1) + " L × " + fixed(rho, 0) + " kg/m³", Mass: mass})
			r.Empty += mass
		}
	}
	casters := 0
	for _, t := range c.Things {
		if t.Kind == design.CasterThing {
			casters++
			r.Empty += t.Weight
			at(t.Box, t.Weight.Kg())
		}
	}
	if casters > 0 {
		w := p.Base.Caster.Weight
		r.Weights = append(r.Weights, Weight{Name: "Casters", How: strconv.Itoa(casters) + " × " + c.Tape.ShowMass(w) + " " + c.Tape.MassUnit(), Mass: measure.Mass(casters) * w})
	}
	for _, h := range c.Hardware {
		for _, k := range p.Stock.Hardware {
			if k.ID == h.ID && k.Weight > 0 && h.ID != "caster" {
				mass := measure.Mass(h.Count) * k.Weight
				r.Weights = append(r.Weights, Weight{Name: h.Name, How: strconv.Itoa(h.Count) + " × " + c.Tape.ShowMass(k.Weight) + " " + c.Tape.MassUnit(), Mass: mass})
				r.Empty += mass
				// Counted in the weight, not in the centre of gravity: its place
				// is known only for what stands on the drawing.
			}
		}
	}
	if all > 0 {
		for a := range moment {
			r.CG[a] = moment[a] / all
		}
	}

	// What it carries.
	load := func(name string, m measure.Mass) {
		if m > 0 {
			r.Weights = append(r.Weights, Weight{Name: name, How: "as entered", Mass: m})
			r.Loaded += m
		}
	}
	r.Loaded = r.Empty
	load(p.Machine.Name, p.Machine.Weight)
	for i, b := range p.Cabinet.Bays {
		for j, o := range b.Openings {
			if i < len(c.Bays) && j < len(c.Bays[i].Openings) {
				name := c.Bays[i].Openings[j].Name
				load(name+", what lies in it", o.Load)
				if o.Holds != nil {
					load(o.Holds.Name, o.Holds.Weight)
				}
			}
		}
	}
	r.casters(p, c.Tape, casters)
	return r
}

// casters checks the load on one caster when three of four carry: on an uneven
// floor one hangs free (common practice, no source).
func (r *Report) casters(p *project.Project, t measure.Tape, n int) {
	if n == 0 {
		return
	}
	rating := p.Base.Caster.Rating
	each := r.Loaded / measure.Mass(max(n-1, 1))
	unit := " " + t.MassUnit()
	s := Sum{Title: "Load on one caster", Source: "Three of four carry, since no floor is flat. Common practice, no source."}
	s.Rows = append(s.Rows,
		SumRow{"cart and all it carries", "", t.ShowMass(r.Loaded) + unit},
		SumRow{"on each of " + strconv.Itoa(n-1), "÷ " + strconv.Itoa(n-1), t.ShowMass(each) + unit})
	switch {
	case rating <= 0:
		s.Verdict = "Not checked: the casters' rating is not entered."
	case each > rating:
		s.Rows = append(s.Rows, SumRow{"rating of one", "", t.ShowMass(rating) + unit})
		s.Verdict = "Overloaded by " + t.ShowMass(each-rating) + unit + "."
		r.Findings.Add(issue.Warn, Caster, []string{"base.caster.rating"}, each, rating, each-rating)
	default:
		s.Rows = append(s.Rows, SumRow{"rating of one", "", t.ShowMass(rating) + unit})
		s.Verdict, s.OK = "Fine: "+t.ShowMass(rating-each)+unit+" to spare.", true
	}
	r.Sums = append(r.Sums, s)
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
		v -= vol(f.Box.Intersect(p.Box))
	}
	return v
}

// Density returns the density of a material in kg/m³ and where it comes from.
func Density(m project.Material) (kgm3 float64, source string) {
	if m.Density > 0 {
		return m.Density, "as entered"
	}
	return stock.Density(m.Kind)
}

func fixed(v float64, places int) string { return strconv.FormatFloat(v, 'f', places, 64) }
