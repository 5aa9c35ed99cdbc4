package check

import (
	"strconv"
	"strings"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// A limit is how much may sag, in metres, on a span in metres, and whether
// that means the lasting sag, creep included.
type limit struct {
	name    string
	lasting bool
	at      func(span float64) float64
}

// limits are the named limits of sag, the first being the default.
var limits = [...]struct {
	key string
	limit
}{
	{"kcma", limit{"KCMA A161.1: 1/16 in per ft, never over 1/4 in", true, func(l float64) float64 { return min(l/192, inch/4) }}},
	{"eye", limit{"what the eye does not see: 1/32 in per ft (Fine Woodworking, 2007)", true, func(l float64) float64 { return l / 384 }}},
	{"design", limit{"0.02 in per ft at first (Fine Woodworking, 2007)", false, func(l float64) float64 { return l * .02 / 12 }}},
	{"l/144", limit{"span ÷ 144 at first (Architectural Woodwork Standards ed. 1, p. 253)", false, func(l float64) float64 { return l / 144 }}},
}

func (r *run) limit() limit {
	for _, l := range limits {
		if l.key == strings.ToLower(r.p.Loads.Sag) {
			return l.limit
		}
	}
	return limits[0].limit
}

func (r *run) creep() float64 {
	if c := r.p.Loads.Creep; c >= 1 && c < 100 {
		return c
	}
	return 1.5
}

// part returns a part of the cart.
func (r *run) part(id part.ID) (part.Part, bool) {
	for _, q := range r.c.Parts {
		if q.ID == id {
			return q, true
		}
	}
	return part.Part{}, false
}

// along returns the modulus of a part along x, by how its grain lies.
func (r *run) along(q part.Part) (e float64, source string) {
	m, _ := r.p.Material(q.Material)
	e, source = Modulus(m)
	way := q.LengthAxis
	switch q.Grain {
	case part.AlongWidth:
		way = q.WidthAxis
	case part.AnyWay:
		return min(e, across(m, e)), source + "; the grain may lie across"
	}
	if way != geom.X {
		return across(m, e), source + "; across the grain by the plies"
	}
	return e, source
}

// A beamed is one beam check in the making.
type beamed struct {
	s           Sum
	span        float64
	sec         Section
	bend, shear float64
}

func (r *run) beam(title string, span float64, source string) *beamed {
	b := &beamed{span: span}
	b.s.Title, b.s.Cost = title, Money
	b.s.Source = "kb·W·L³/E·I + ks·W·L/G·A′, ends free to turn: the safe side, clamped ends would give a fifth under an even load (Wood Handbook FPL-GTR-190, eq. 9-2, Table 9-1). E: " + source + ". G = E/16, from memory."
	b.s.row("span", "", r.unit(span))
	return b
}

func (r *run) carries(b *beamed, name, how string, bend, shear float64) {
	b.s.row(name, how, r.size(bend+shear))
	b.bend += bend
	b.shear += shear
}

// sagged ends a beam check: creep, limit, verdict.
func (r *run) sagged(b *beamed, where string) *Sum {
	s := &b.s
	lim, y := r.limit(), b.bend+b.shear
	s.total("sag at first", r.size(y))
	if b.shear > y/50 {
		s.row("of that from shear", "", r.size(b.shear))
	}
	lasting := y * r.creep()
	s.row("after years", "× "+fixed(r.creep(), 2)+" for creep", r.size(lasting))
	if lim.lasting {
		y = lasting
	}
	most := lim.at(b.span)
	s.row("limit", lim.name, r.size(most))
	if b.span > 0 && y > b.span/20 {
		s.end(NotChecked, "Not checked: beyond small sag, "+r.size(y)+" by a formula that no longer holds. It is far too weak.")
		r.warn(Sag, where, s.Title, r.size(y), r.size(most), lim.name)
	} else if !s.within(y, most, "sags "+r.size(y)+", "+r.size(most)+" is the limit.", "Sags "+r.size(y)+": "+r.size(most)+" is the limit.") {
		r.warn(Sag, where, s.Title, r.size(y), r.size(most), lim.name)
	}
	r.add(*s)
	return &r.Sums[len(r.Sums)-1]
}

// uprights are the sides and partitions, from left to right.
func (r *run) uprights() []geom.Box {
	var out []geom.Box
	for _, q := range r.c.Parts {
		if q.ID == "side-left" || q.ID == "side-right" || strings.HasPrefix(string(q.ID), "partition-") {
			out = append(out, q.Box)
		}
	}
	for i := 1; i < len(out); i++ { // few: sort by insertion
		for k := i; k > 0 && out[k].Min[geom.X] < out[k-1].Min[geom.X]; k-- {
			out[k], out[k-1] = out[k-1], out[k]
		}
	}
	return out
}

// beams checks worktop, bottom and shelves, stretchers with the worktop.
func (r *run) beams() {
	ups := r.uprights()
	if len(ups) < 2 {
		s := Sum{Title: "Sag of worktop and bottom", Cost: Money}
		s.end(NotChecked, "Not checked: the case has no sides yet.")
		r.add(s)
		return
	}
	r.worktop(ups)
	r.floor(ups)
	for _, q := range r.c.Parts {
		if strings.Contains(string(q.ID), "/shelf") || q.Loose {
			r.shelf(q)
		}
	}
}

// worktop checks the top between the two uprights that stand furthest apart,
// with the stretchers or the sub-top under it.
func (r *run) worktop(ups []geom.Box) {
	top, ok := r.part("top")
	if !ok {
		return
	}
	var span float64
	for i := 1; i < len(ups); i++ {
		span = max(span, (ups[i].Min[geom.X] - ups[i-1].Max[geom.X]).Metres())
	}
	e, source := r.along(top)
	depth, t := top.Box.Size(geom.Y).Metres(), top.Box.Size(geom.Z).Metres()
	how := "one layer"
	if up, two := r.part("top-2"); two {
		t += up.Box.Size(geom.Z).Metres()
		how = "two layers, glued"
	}
	wide := depth
	if d := r.p.Machine.Depth.Metres(); d > 0 && r.p.Machine.Weight > 0 && d < depth {
		wide = d
		how += ", as wide as the machine is deep"
	}
	b := r.beam("Sag of the worktop", span, source)
	b.sec = Rect(wide, t, e)
	b.s.row("worktop, "+how, r.unit(wide)+" × "+r.size(t)+", E "+r.stiff(e), "")
	n := 0
	for _, id := range [...]part.ID{"stretcher-front", "stretcher-back", "sub-top"} {
		if q, ok := r.part(id); ok {
			qe, _ := r.along(q)
			w := q.Box.Size(geom.Y).Metres()
			b.sec = b.sec.Add(Rect(min(w, wide), q.Box.Size(geom.Z).Metres(), qe))
			n++
		}
	}
	if n > 0 {
		b.s.row("with it "+count(n, "stretcher or sub-top", "stretchers"), "laid under it, not counted as glued", "")
	}
	w := r.p.Machine.Weight.Kg()
	if w > 0 {
		f := w * gravity
		bend, shear := PointSimple.Sag(f, span, b.sec)
		r.carries(b, or(r.p.Machine.Name, "machine")+", all in the middle", r.kg(w), bend, shear)
	} else {
		f := 40 * psf * span * depth
		bend, shear := SpreadSimple.Sag(f, span, b.sec)
		r.carries(b, "work spread over it, 40 lb/ft² (AWS, general shelving)", r.kg(f/gravity), bend, shear)
	}
	own := r.weightOf(top.ID) * span / positive(top.Box.Size(geom.X).Metres(), 1) * gravity
	bend, shear := SpreadSimple.Sag(own, span, b.sec)
	r.carries(b, "its own weight", r.kg(own/gravity), bend, shear)
	if s := r.sagged(b, "cabinet.top.layers"); s.State == Fails || s.State == NotChecked {
		r.sagMend(s, "cabinet.top.layers", "2", "Two layers", "Sag of the worktop")
		r.sagMend(s, "cabinet.upper", "sub-top", "A sub-top under it", "Sag of the worktop")
	}
}

// sagMend tries a change and takes over what the sum of that title then says.
func (r *run) sagMend(s *Sum, path, value, text, title string) {
	if project.Text(r.p, path) == value {
		return
	}
	q := r.try(path, value)
	if q == nil {
		return
	}
	q.beams()
	q.bottoms()
	for _, x := range q.Sums {
		if x.Title == title {
			s.Mends = append(s.Mends, Mend{path, value, text, x.Verdict + " " + r.lighter(q), x.State == Fine})
		}
	}
}

// lighter says what a change does to the weight.
func (r *run) lighter(q *run) string {
	switch d := q.Empty.Kg() - r.Empty.Kg(); {
	case d >= 0.02:
		return r.kg(d) + " more."
	case d <= -0.02:
		return r.kg(-d) + " less."
	}
	return "No heavier."
}

func (r *run) weightOf(id part.ID) float64 {
	for _, w := range r.Parts {
		if w.ID == id {
			return w.Mass.Kg()
		}
	}
	return 0
}

// floor checks the bottom between the casters, or feet, left and right. What
// back, sides and strips add is left out: the front edge has none of it.
func (r *run) floor(ups []geom.Box) {
	bot, ok := r.part("bottom")
	if !ok {
		return
	}
	lo, hi := 1e9, -1e9
	for _, t := range r.c.Things {
		if k := t.Kind; k == 1 || k == 2 { // casters, feet
			at := middle(t.Box)
			lo, hi = min(lo, at[0]), max(hi, at[0])
		}
	}
	if hi <= lo {
		s := Sum{Title: "Sag of the bottom", Cost: Money}
		s.end(NotChecked, "Not checked: it stands on nothing yet.")
		r.add(s)
		return
	}
	span := hi - lo
	e, source := r.along(bot)
	wide, t := bot.Box.Size(geom.Y).Metres(), bot.Box.Size(geom.Z).Metres()
	b := r.beam("Sag of the bottom", span, source)
	b.s.Source += " Between casters left and right; back frame, sides and strips stiffen it and are not counted."
	b.sec = Rect(wide, t, e)
	b.s.row("bottom", r.unit(wide)+" × "+r.size(t)+", E "+r.stiff(e), "")
	if top, ok := r.part("top"); ok && len(ups) > 2 {
		// The partition props the worktop on the bottom: they bend together.
		te, _ := r.along(top)
		tw, tt := top.Box.Size(geom.Y).Metres(), top.Box.Size(geom.Z).Metres()
		if up, two := r.part("top-2"); two {
			tt += up.Box.Size(geom.Z).Metres()
		}
		b.sec = b.sec.Add(Rect(tw, tt, te))
		b.s.row("with it the worktop, propped by the partition", r.unit(tw)+" × "+r.size(tt)+", E "+r.stiff(te), "")
	}
	// What stands on it, bay by bay; drawers and shelves hang on the uprights.
	hung := make([]float64, len(ups))
	for i := 1; i < len(ups); i++ {
		var spread float64
		for _, q := range r.bodies {
			x := q.at[0]
			if x < ups[i-1].Min[geom.X].Metres() || x >= ups[i].Min[geom.X].Metres() || q.at[2] > r.c.Case.Max[geom.Z].Metres() || q.name == "Bottom" {
				continue
			}
			if q.drawer > 0 {
				hung[i-1] += q.kg / 2
				hung[i] += q.kg / 2
			} else if q.load {
				spread += q.kg
			}
		}
		if spread > 0 {
			mid := (ups[i-1].Max[geom.X].Metres() + ups[i].Min[geom.X].Metres()) / 2
			bend, shear := PointAt(spread*gravity, mid-lo, span, b.sec)
			r.carries(b, "in "+r.bayName(i-1), r.kg(spread)+", in the bay's middle", bend, shear)
		}
	}
	full := (ups[len(ups)-1].Max[geom.X] - ups[0].Min[geom.X]).Metres()
	over := r.p.Machine.Weight.Kg() + r.weightOf("top") + r.weightOf("top-2")
	for i := 1; i+1 < len(ups); i++ {
		share := (ups[i+1].Min[geom.X] - ups[i-1].Min[geom.X]).Metres() / 2 / positive(full, 1)
		kg := hung[i] + over*share
		at := middle(ups[i])[0]
		bend, shear := PointAt(kg*gravity, at-lo, span, b.sec)
		name := "partition"
		if len(ups) > 3 {
			name += " " + strconv.Itoa(i)
		}
		r.carries(b, "under the "+name+": drawers, shelves, top", r.kg(kg), bend, shear)
	}
	own := r.weightOf(bot.ID) * gravity
	bend, shear := SpreadSimple.Sag(own, span, b.sec)
	r.carries(b, "its own weight", r.kg(own/gravity), bend, shear)
	if s := r.sagged(b, "cabinet.material"); s.State == Fails || s.State == NotChecked {
		for _, m := range r.p.Stock.Materials {
			if m.Kind != "solid" && m.Thick() > bot.Box.Size(geom.Z) {
				r.sagMend(s, "cabinet.material", m.ID, "Case of "+or(m.Name, m.ID), "Sag of the bottom")
			}
		}
		// Front half and back half carry half each; the rail helps the front.
		rail := 2.5 * inch
		add := softest * .75 * inch * rail * rail * rail / 12
		y := (b.bend + b.shear) * b.sec.EI / (b.sec.EI + 2*add)
		s.Mends = append(s.Mends, Mend{Text: "A rail of " + r.size(.75*inch) + " × " + r.size(rail) + " on edge under its front", Result: "sags " + r.size(y) + " at first, " + r.size(y*r.creep()) + " after years"})
	}
}

func (r *run) bayName(i int) string {
	if i < len(r.c.Bays) {
		return r.c.Bays[i].Name
	}
	return "the bay"
}

// shelf checks a fixed or loose shelf.
func (r *run) shelf(q part.Part) {
	span := q.Box.Size(geom.X).Metres()
	wide, t := q.Box.Size(geom.Y).Metres(), q.Box.Size(geom.Z).Metres()
	e, source := r.along(q)
	name := "Sag of a loose shelf"
	if !q.Loose {
		name = "Sag of a shelf"
	}
	// The opening it lies in, or whose floor it is, tells the load.
	var kg float64
	where := "cabinet.material"
	mid := middle(q.Box)
	for i, bay := range r.c.Bays {
		if mid[0] < bay.Inside.Min[geom.X].Metres() || mid[0] > bay.Inside.Max[geom.X].Metres() {
			continue
		}
		for j, o := range bay.Openings {
			in := o.Cell.Min[geom.Z] <= q.Box.Min[geom.Z] && q.Box.Max[geom.Z] <= o.Cell.Max[geom.Z]
			if (q.Loose && in || !q.Loose && o.Cell.Min[geom.Z] == q.Box.Max[geom.Z]) && i < len(r.p.Cabinet.Bays) && j < len(r.p.Cabinet.Bays[i].Openings) {
				po := r.p.Cabinet.Bays[i].Openings[j]
				kg = po.Load.Kg()
				if q.Loose {
					kg /= float64(max(po.Pins, 1) + 1)
				} else if po.Holds != nil {
					kg += po.Holds.Weight.Kg()
				}
				name += " in " + or(o.Name, bay.Name)
				where = "cabinet.bays." + strconv.Itoa(i) + ".openings." + strconv.Itoa(j) + ".load"
			}
		}
	}
	if q.Loose {
		if r.told["pins "+where] {
			return // the others on pins in this opening are alike
		}
		r.told["pins "+where] = true
	}
	b := r.beam(name, span, source)
	b.sec = Rect(wide, t, e)
	b.s.row("shelf", r.unit(wide)+" × "+r.size(t)+", E "+r.stiff(e), "")
	f, how := kg*gravity, "what lies on it"
	if kg <= 0 {
		f, how = 15*psf*span*wide, "no load is entered: 15 lb/ft² (KCMA A161.1)"
	}
	bend, shear := SpreadSimple.Sag(f, span, b.sec)
	r.carries(b, how, r.kg(f/gravity), bend, shear)
	own := r.weightOf(q.ID) * gravity
	bend, shear = SpreadSimple.Sag(own, span, b.sec)
	r.carries(b, "its own weight", r.kg(own/gravity), bend, shear)
	r.sagged(b, where)
}

const plateSource = "Plate held simply along four edges, even load: α·q·b⁴/E·t³ (Roark, Table 11.4 case 1a, ν 0.3). E is the mean of along and across by the plies, an approximation. It holds to half the thickness; beyond that the bottom is stiffer than the formula and its sag is not known."

// bottoms checks the bottoms of the drawers.
func (r *run) bottoms() {
	worst := -1.0
	for i, d := range r.c.Drawers {
		q, ok := r.part(r.bottomID(i))
		if !ok {
			continue
		}
		a, b := d.Inside.Size(geom.X).Metres(), d.Inside.Size(geom.Y).Metres()
		m, _ := r.p.Material(q.Material)
		t := q.Box.Size(geom.Z).Metres()
		kg, how := 0.0, "what lies in it"
		if d.Bay < len(r.p.Cabinet.Bays) && d.Opening < len(r.p.Cabinet.Bays[d.Bay].Openings) {
			kg = r.p.Cabinet.Bays[d.Bay].Openings[d.Opening].Load.Kg()
		}
		if kg <= 0 {
			kg, how = 15*psf*a*b/gravity, "no load is entered: 15 lb/ft² (KCMA A161.1)"
		}
		load, own := kg, r.weightOf(q.ID)
		s := Sum{Title: "Bottom of " + r.drawerName(i), Cost: Money, Source: plateSource}
		lim := r.limit()
		span := min(a, b)
		most := lim.at(span)
		s.row(how, "and "+r.kg(own)+" of its own", r.kg(load+own))
		e := meanModulus(m)
		s.row("bottom", r.unit(a)+" × "+r.unit(b)+" × "+r.size(t)+", E "+r.stiff(e), "")
		sag := func(t, e, own float64) (float64, bool) {
			y, _, ok := Plate(a, b, t, e, (load+own)*gravity/positive(a*b, 1))
			return y, ok
		}
		y, ok := sag(t, e, own)
		s.total("sag at first", r.size(y))
		last := y * r.creep()
		s.row("after years", "× "+fixed(r.creep(), 2)+" for creep", r.size(last))
		if lim.lasting {
			y = last
		}
		s.row("limit on the short side", lim.name, r.size(most))
		// Other sheets of the stock, computed, not told.
		alts := r.alternatives(q, m, sag, lim.lasting)
		if used := y / positive(most, 1); used > worst {
			worst = used
			r.Bottom = Trade{r.drawerName(i), r.sags(y, ok), r.size(most), nil}
			for _, m := range alts {
				sags, more, _ := strings.Cut(m.Result, " and ")
				r.Bottom.Others = append(r.Bottom.Others, SumRow{Cause: m.Text, Factors: more, Result: sags})
			}
		}
		if r.quick {
			alts = nil
		}
		switch {
		case !ok:
			s.row("half the thickness", "", r.size(t/2))
			s.end(NotChecked, "Not checked: beyond small deflections. It bends more than half its thickness.")
			r.warn(Bottom, "drawers.bottom", r.drawerName(i), r.size(y), r.size(t/2))
			s.Mends = alts
		case !s.within(y, most, "sags "+r.size(y)+", "+r.size(most)+" is the limit.", "Sags "+r.size(y)+": "+r.size(most)+" is the limit."):
			r.warn(Bottom, "drawers.bottom", r.drawerName(i), r.size(y), r.size(most))
			s.Mends = alts
		default:
			for _, m := range alts {
				sags, more, _ := strings.Cut(m.Result, " and ")
				s.row(m.Text+" instead", more, sags)
			}
		}
		r.add(s)
	}
}

func (r *run) bottomID(i int) part.ID {
	d := r.c.Drawers[i]
	return part.ID("bay" + strconv.Itoa(d.Bay+1) + "/drawer" + strconv.Itoa(d.Opening+1) + "/bottom")
}

// meanModulus is the mean of a sheet's moduli along and across.
func meanModulus(m project.Material) float64 {
	e, _ := Modulus(m)
	return (e + across(m, e)) / 2
}

// sags is how far a bottom sags in words.
func (r *run) sags(y float64, ok bool) string {
	if !ok {
		return "beyond small deflections"
	}
	return r.size(y)
}

// alternatives are a drawer's bottom of every other sheet material: its sag
// under the load and its own weight, and what the bottoms of all drawers, which
// are of one material, weigh more.
func (r *run) alternatives(q part.Part, now project.Material, sag func(t, e, own float64) (float64, bool), lasting bool) []Mend {
	var out []Mend
	area := func(p part.Part) float64 { return p.Box.Size(geom.X).Metres() * p.Box.Size(geom.Y).Metres() }
	var whole float64 // of all bottoms
	n := 0
	for i := range r.c.Drawers {
		if p, ok := r.part(r.bottomID(i)); ok {
			whole += area(p)
			n++
		}
	}
	rho, _ := Density(now)
	for _, m := range r.p.Stock.Materials {
		t := m.Thick()
		if m.Kind == "solid" || m.ID == now.ID || t <= 0 || t > 16*measure.MM {
			continue
		}
		d, _ := Density(m)
		y, ok := sag(t.Metres(), meanModulus(m), area(q)*t.Metres()*d)
		if lasting {
			y *= r.creep()
		}
		more := whole * (float64(t.Metres()*d) - float64(q.Box.Size(geom.Z).Metres()*rho))
		word := " more"
		if more < 0 {
			more, word = -more, " less"
		}
		if n > 1 {
			word += " in all " + strconv.Itoa(n)
		}
		out = append(out, Mend{"drawers.bottom", m.ID, or(m.Name, m.ID), r.sags(y, ok) + " and " + r.kg(more) + word, ok})
	}
	return out
}
