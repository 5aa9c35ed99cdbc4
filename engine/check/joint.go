package check

import (
	"math"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/project"
)

// Withdrawal returns the working load in N per metre of thread of a wood screw
// drawn out of side grain: 2850·G²·D lb per inch, D in inches, G on oven-dry
// volume (National Design Specification). Nothing is allowed in end grain.
func Withdrawal(g, d float64) float64 { return 2850 * g * g * d / inch * lbf / inch }

// Ultimate is the mean load at which it comes out: 15,700·G²·D lb per inch (Wood
// Handbook, ch. 8, from memory).
func Ultimate(g, d float64) float64 { return Withdrawal(g, d) * 15700 / 2850 }

// Lateral returns the working load in N of a wood screw in shear: C·D² lb, C
// 4800, 3960, 3240, 2520 for woods of group 1 to 4 (an older allowable value,
// civil engineers' handbook, eq. 6.38).
func Lateral(group int, d float64) float64 {
	c := [...]float64{4800, 3960, 3240, 2520}[min(max(group, 1), 4)-1]
	return c * (d / inch) * (d / inch) * lbf
}

// Group returns the group of a wood by its specific gravity. The bounds are drawn
// so that no wood of the same handbook's table 6.2 comes into a stronger group
// than it has there; that of group 1, of which the table has none, is from memory.
func Group(g float64) int {
	switch {
	case g >= .62:
		return 1
	case g >= .51:
		return 2
	case g >= .44:
		return 3
	}
	return 4
}

// Diameters of screws by number, in metres: No. 10 as an engineers' page prints
// it beside its withdrawal load; 0.013 in from number to number is from memory, and
// agrees with what a tool magazine prints to hundredths.
const (
	no6  = .138 * inch
	no8  = .164 * inch
	no10 = .190 * inch
)

// grip is the working loads of a screw in a material: withdrawal per metre,
// lateral. In sheets withdrawal is halved: the formula is too high for plywood
// (Korean Journal of Wood Science 49(1)); by how much is our own caution.
func grip(m project.Material, d float64) (out, side float64) {
	rho, _ := Density(m)
	g := min(DryGravity(rho), .73)
	out = Withdrawal(g, d)
	if m.Kind != "solid" {
		out /= 2
	}
	return out, Lateral(Group(g), d)
}

// screws checks screws at the heaviest places.
func (r *run) screws() {
	s := Sum{Title: "Screws", Cost: Hurts, Source: "Withdrawal 2850·G²·D a thread inch (NDS), halved in sheets (our own caution); shear C·D² (older allowable values, civil engineers' handbook, eq. 6.38); No. 6, 8, 10 are 0.138, 0.164, 0.190 in (an engineers' page for No. 10, the step from memory). Not in end grain. Screws driven too hard in composite board lose most of it."}
	worst, where := 0.0, ""
	place := func(name, how string, load, can float64) {
		if !(can > 0) {
			s.row(name, how, "not checked")
			return
		}
		s.row(name, how, r.force(load)+" of "+r.force(can))
		if v := load / can; v > worst {
			worst, where = v, name
		}
	}
	caseM, _ := r.p.Material(r.p.Cabinet.Material)
	bot, hasBottom := r.part("bottom")

	// A plate when its wheel meets a step: the push that climbs 1/4 in acts at
	// the axle and pries at the plate.
	c := r.p.Base.Caster
	if radius := c.Wheel.Metres() / 2; r.wheels() > 0 && radius > 0 && hasBottom && c.Mount > 0 {
		w := r.Loaded.Kg() * gravity / float64(r.wheels())
		f := Climb(w, radius, inch/4)
		plate := positive(c.Plate.Metres(), 3.75*inch)
		arm := c.Mount.Metres() - radius
		thread := bot.Box.Size(geom.Z).Metres()
		out, _ := grip(caseM, no10)
		if math.IsInf(f, 0) {
			place("caster plate, wheel at a step of 1/4 in", "the step is as high as the axle", 0, 0)
		} else {
			place("caster plate, wheel at a step of 1/4 in", "two No. 10 drawn, "+r.size(thread)+" of thread: "+r.force(f)+" × "+r.unit(arm)+" ÷ "+r.unit(plate*.8),
				f*arm/(plate*.8)/2, out*thread)
		}
	}
	// The slide of the heaviest drawer, out: its front screw carries the most.
	if i := r.heaviest(); i >= 0 && r.p.Drawers.Slide != "wood" {
		d := r.c.Drawers[i]
		half := r.drawerKg(i) * gravity / 2
		l := positive(d.Slide.Metres(), .3)
		apart := l * .8
		out := max(d.Travel.Metres()-l/2, 0)
		_, side := grip(caseM, no6)
		place("slide of "+r.drawerName(i)+", open", "front screw No. 6 in shear: half of "+r.kg(r.drawerKg(i))+" × "+r.unit(out+apart)+" ÷ "+r.unit(apart), half*(out+apart)/positive(apart, 1), side)
	}
	// The bottom between the sides hangs on its pocket screws.
	if r.p.Cabinet.Bottom == "between" && hasBottom {
		n := 0
		for _, j := range r.c.Joints {
			if (j.A == "bottom" && strings.HasPrefix(string(j.B), "side-")) && j.Kind.Holds() {
				n += design.Screws(bot.Box.Size(geom.Y))
			}
		}
		_, side := grip(caseM, no8)
		load := (r.Loaded.Kg() - r.weightOf("side-left") - r.weightOf("side-right")) * gravity
		place("bottom between the sides", count(n, "No. 8", "No. 8")+" in shear, glue not counted", load/positive(float64(n), 1), side)
	} else if hasBottom {
		s.row("bottom under the sides", "the sides stand on it", "no shear")
	}
	// The back frame, if the back half of what is on top hangs on it.
	if q, ok := r.part("back-stile-left"); ok {
		n := 2 * design.Screws(q.Box.Size(geom.Z))
		m, _ := r.p.Material(q.Material)
		_, side := grip(m, no8)
		load := (r.p.Machine.Weight.Kg() + r.weightOf("top") + r.weightOf("top-2")) * gravity / 2
		place("back frame, carrying half the top", count(n, "No. 8", "No. 8")+" in shear, glue not counted", load/float64(n), side)
	}
	s.Used = min(worst, 1e6)
	switch {
	case worst > 1:
		s.end(Fails, "More than a working load: "+where+", "+fixed(min(worst, 1e6), 1)+" times.")
		r.Findings.Add(issue.Warn, Screws, []string{"base.caster.plate"}, where, fixed(min(worst, 1e6), 1))
		s.Mends = append(s.Mends, Mend{Text: "Bolts through the bottom with washers, instead of screws", Result: "not limited by the wood's grip", Mends: true})
		if r.p.Base.Pad == "" && strings.HasPrefix(where, "caster") {
			for _, m := range r.p.Stock.Materials {
				if m.ID == r.p.Cabinet.Material {
					if q := r.try("base.pad", m.ID); q != nil {
						s.Mends = append(s.Mends, Mend{Path: "base.pad", Value: m.ID, Text: "Pads under the bottom, " + or(m.Name, m.ID), Result: "twice the thread"})
					}
				}
			}
		}
	case worst > 0:
		s.end(Fine, "Fine: at most "+fixed(worst*100, 0)+" % of a working load, at the "+where+".")
	default:
		s.end(NotChecked, "Not checked: no wheels, no slides known.")
	}
	r.add(s)
}

// heaviest is the index of the heaviest drawer, -1 without drawers.
func (r *run) heaviest() int {
	at, most := -1, -1.0
	for i := range r.c.Drawers {
		if kg := r.drawerKg(i); kg > most {
			at, most = i, kg
		}
	}
	return at
}
