package check

import (
	"strings"

	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/part"
)

// Movement returns the change of a width w, in its unit, by a coefficient c for
// each 1 % of moisture: w·c·Δ (Wood Handbook FPL-GTR-190, Table 13-5). It holds
// from 6 to 14 % moisture; ok is false outside.
func Movement(w, c, from, to float64) (change float64, ok bool) {
	in := func(m float64) bool { return m >= 6 && m <= 14 }
	return w * c * (to - from), in(from) && in(to)
}

// Moisture returns the moisture in % that wood comes to in air of rh %
// relative humidity at t °F (Wood Handbook, eq. 4-5, from memory: 9.2 at 50 %
// and 70 °F).
func Moisture(rh, t float64) float64 {
	h := min(max(rh, 0), 99) / 100
	w := 330 + .452*t + .00415*t*t
	k := .791 + .000463*t - .000000844*t*t
	k1 := 6.34 + .000775*t - .0000935*t*t
	k2 := 1.09 + .0284*t - .0000904*t*t
	kh := k * h
	return 1800 / w * (kh/(1-kh) + (k1*kh+2*k1*k2*kh*kh)/(1+k1*kh+k1*k2*kh*kh))
}

// seasons tells how much solid parts move over the year.
func (r *run) seasons() {
	dry, damp := positive(r.p.Loads.Dry, 30), positive(r.p.Loads.Damp, 65)
	from, to := Moisture(dry, 70), Moisture(damp, 70)
	s := Sum{Title: "Wood over the seasons", Cost: Spoils, Source: "Width × coefficient × change of moisture, flat-sawn, 6 to 14 % (Wood Handbook FPL-GTR-190, Table 13-5). Moisture from humidity at 70 °F by its equation 4-5, from memory. Plywood and MDF count as stable. Lengths hardly move."}
	s.row("moisture of the wood", fixed(dry, 0)+" to "+fixed(damp, 0)+" % humidity", fixed(from, 1)+" to "+fixed(to, 1)+" %")
	_, ok := Movement(1, 1, from, to)
	ok = ok && to >= from
	most, name := 0.0, ""
	bad := ""
	for _, l := range r.c.Lines {
		m, _ := r.p.Material(l.Material)
		if m.Kind != "solid" || len(l.Parts) == 0 {
			continue
		}
		w, known := WoodOf(m.Species)
		c, how := w.CT, m.Species
		if !known || c == 0 {
			c, how = .00431, "no species entered, the most of the table"
		}
		width := l.Width.Metres()
		if l.Grain == part.AlongWidth {
			width = l.Length.Metres()
		}
		v, _ := Movement(width, c, from, to)
		res := r.size(v)
		if !ok {
			res = "not checked"
		}
		s.row(l.Tag+", "+l.Name, r.unit(width)+" × "+fixed(c, 5)+" × "+fixed(to-from, 1)+", "+how, res)
		if v > most {
			most, name = v, l.Tag+", "+l.Name
		}
		// Inset fronts swell into their gaps.
		if gap, path := r.gapOf(l.Parts[0]); ok && gap > 0 && v > gap && bad == "" {
			bad = l.Name + " moves " + r.size(v) + ", its gaps are " + r.size(gap)
			r.Findings.Add(issue.Warn, Moves, []string{path}, l.Name, r.size(v), r.size(gap))
		}
	}
	switch {
	case len(s.Rows) == 1:
		return // nothing solid
	case !ok:
		s.end(NotChecked, "Not checked: the coefficients hold from 6 to 14 % moisture, in rising order.")
	case bad != "":
		s.end(Fails, bad+": it will bind when damp.")
		for _, m := range r.p.Stock.Materials {
			if q, _ := r.p.Material(r.p.Drawers.Front); m.Kind != "solid" && m.Thick() >= q.Thick()*9/10 && m.Thick() <= q.Thick()*11/10 {
				s.Mends = append(s.Mends, Mend{"drawers.front", m.ID, "Fronts of " + or(m.Name, m.ID), "counts as stable", true})
			}
		}
	default:
		s.end(Fact, "At most "+r.size(most)+", "+name+". No front binds.")
	}
	r.add(s)
}

// gapOf is the room above and below an inset drawer front.
func (r *run) gapOf(id part.ID) (gap float64, path string) {
	if r.p.Drawers.Fit == "overlay" || !strings.HasSuffix(string(id), "/front") {
		return 0, ""
	}
	q, ok := r.part(id)
	if !ok || q.Drawer < 1 || q.Drawer > len(r.c.Drawers) || q.Box.Size(geom.Z) == 0 {
		return 0, ""
	}
	d := r.c.Drawers[q.Drawer-1]
	return (d.GapAbove + d.GapBelow).Metres(), "drawers.gap"
}
