package check

import (
	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/part"
	"cartwright/engine/stock"
)

// seasons tells how much solid parts move over the year.
func (r *run) seasons() {
	dry, damp := positive(r.p.Loads.Dry, 30), positive(r.p.Loads.Damp, 65)
	from, to := stock.Moisture(dry, 70), stock.Moisture(damp, 70)
	s := Sum{Title: "Wood over the seasons", Cost: Spoils, Source: "Width × coefficient × change of moisture, flat-sawn, 6 to 14 % (Wood Handbook FPL-GTR-190, Table 13-5). Moisture from humidity at 70 °F by its equation 4-5, constants from memory. Plywood and MDF count as stable. Lengths hardly move."}
	s.row("moisture of the wood", fixed(dry, 0)+" to "+fixed(damp, 0)+" % humidity", fixed(from, 1)+" to "+fixed(to, 1)+" %")
	_, ok := stock.Movement(1, 1, from, to)
	ok = ok && to >= from
	most, name := 0.0, ""
	bad := ""
	for _, l := range r.c.Lines {
		m, _ := r.p.Material(l.Material)
		if m.Kind != "solid" || len(l.Parts) == 0 {
			continue
		}
		w, known := stock.WoodOf(m.Species)
		c, how := w.CT, m.Species
		if !known || c == 0 {
			c, how = stock.MostMovement, "no species entered, the most of the table"
		}
		width := l.Width.Metres()
		if l.Grain == part.AlongWidth {
			width = l.Length.Metres()
		}
		v, _ := stock.Movement(width, c, from, to)
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
			bad = l.Name + " moves " + r.size(v) + ", it has room for " + r.size(gap)
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
		if q := r.try("drawers.gap", ""); q != nil && q.c.Gap > r.c.Gap {
			g := r.t.Exact(q.c.Gap)
			s.Mends = append(s.Mends, Mend{"drawers.gap", g, "Gaps of " + g, "room to grow", true})
		}
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

// gapOf is how far an inset front may grow across its grain before it binds. It
// is held in its middle: a gap that it shares with a front that grows as much
// goes by all of that, a gap beside what stands still by half.
func (r *run) gapOf(id part.ID) (gap float64, path string) {
	q, ok := r.part(id)
	if !ok || r.p.Drawers.Fit == "overlay" || q.Front != "face" || q.Door == 0 && q.Drawer == 0 {
		return 0, ""
	}
	path = "drawers.gap"
	if q.Door > 0 { // its grain is upright: it grows sideways
		pair := 0
		for _, d := range r.c.Doors {
			if e := r.c.Doors[q.Door-1]; d.Bay == e.Bay && d.Opening == e.Opening {
				pair++
			}
		}
		return r.c.Gap.Metres() * float64(3-min(pair, 2)), path
	}
	d := r.c.Drawers[q.Drawer-1]
	if q.WidthAxis == geom.X {
		return 2 * min(d.GapLeft, d.GapRight).Metres(), path
	}
	above, below := 2*d.GapAbove, 2*d.GapBelow
	list := r.c.Bays[d.Bay].Openings
	shared := func(up, low design.Opening) bool {
		fronts := (up.Kind == "drawer" || up.Kind == "door") && (low.Kind == "drawer" || low.Kind == "door")
		return fronts && up.Cell.Min[geom.Z]-low.Above == low.Cell.Max[geom.Z]
	}
	if d.Opening > 0 && shared(list[d.Opening-1], list[d.Opening]) {
		above /= 2
	}
	if d.Opening+1 < len(list) && shared(list[d.Opening], list[d.Opening+1]) {
		below /= 2
	}
	return min(above, below).Metres(), path
}
