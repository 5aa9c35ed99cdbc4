package check

import (
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/part"
)

// Corner returns the moment in N·m that n pocket screws carry where the edge of
// a part of thickness t stands on a face: each is drawn out on the side that
// opens, about the edge that closes, with half the thickness as lever: n·f·t/2,
// f the working load of one in withdrawal in N. Plain statics. Glue is not
// counted, and neither is what the screws carry in shear.
func Corner(n int, f, t float64) float64 { return float64(n) * f * t / 2 }

// corners returns the moment in N·m that the screwed corners of the case carry
// against racking from side to side, and how many screws that is. A frame
// holds a push as long as there is a set of moments that balances it and that
// no corner is asked too much by: push × height is at least their sum.
func (r *run) corners() (sum float64, n int) {
	level := func(id part.ID) bool {
		return id == "bottom" || id == "top" || id == "sub-top" || strings.HasPrefix(string(id), "stretcher-")
	}
	for _, s := range r.c.Screws {
		a, b := r.c.Parts[s.In], r.c.Parts[s.Into]
		if s.Kind != design.Pocket || !(upright(a.ID) && level(b.ID) || level(a.ID) && upright(b.ID)) {
			continue
		}
		m, _ := r.p.Material(b.Material)
		out, _ := grip(m, no8)
		sum += Corner(1, out*s.Reach.Metres(), a.Thick.Metres())
		n++
	}
	return sum, n
}

// upright reports whether a part is a side or a partition.
func upright(id part.ID) bool {
	return id == "side-left" || id == "side-right" || strings.HasPrefix(string(id), "partition-")
}

// wallShear is what a shear wall of a house carries with the thinnest panel, 1/4
// or 5/16 in, and 6d nails every 6 in: 180 lb/ft (a plywood trade
// association's construction guide of 2011, table 29). In N/m.
const wallShear = 180 * lbf / (12 * inch)

// racking tells how far the case leans from side to side under the push by its
// back, and what its corners hold without one.
func (r *run) racking() {
	s := Sum{Title: "Racking of the case", Cost: Hurts, Source: "From side to side; front to back the sides themselves are the panels. "}
	push := positive(r.p.Loads.Push.Kg(), 20*pound) * gravity
	s.row("push at the top", "", r.force(push))
	q, ok := r.part("back-skin")
	var h float64
	if side, ok := r.part("side-left"); ok {
		h = side.Box.Size(geom.Z).Metres()
	}
	moment, n := r.corners()
	hold := moment / positive(h, 1)
	alone := r.force(hold)
	if n == 0 || h <= 0 {
		alone = "not checked"
	}
	corners := func() {
		s.row("without a back, "+count(n, "pocket screw", "pocket screws")+" in its corners", r.moment(moment)+" ÷ "+r.unit(h), alone)
	}
	const how = "Corners: the screws drawn out, lever half the thickness, working loads as at Screws, push × height = the sum of their moments (plain statics, a lower bound; glue, shelves and face frame not counted). Tested corners of MDF and particle board broke at 79 to 182 N·m each (Atar and Özçifçi, Materials and Design 29, 2008). "
	if !ok {
		s.Source += how + "How far a case without a back leans is not known: no value for the give of such corners was found."
		corners()
		switch {
		case alone == "not checked":
			s.end(NotChecked, "Not checked: it has no back, and no screwed corners.")
		case hold < push:
			s.Used = push / hold
			s.end(Fails, "Without a back its corners hold a push of "+alone+": it is "+r.force(push)+".")
			r.warn(Corners, "cabinet.back.kind", alone, r.force(push))
		default:
			s.Used = push / hold
			s.end(Fact, "Without a back its corners hold a push of "+alone+", it is "+r.force(push)+". How far it leans is not checked.")
		}
		for _, kind := range [...]struct{ value, text string }{{"panel", "A panel behind the case"}, {"frame", "A frame with a skin"}} {
			r.rackMend(&s, kind.value, kind.text)
		}
		r.add(s)
		return
	}
	m, _ := r.p.Material(q.Material)
	e, source := Modulus(m)
	w, high, t := q.Box.Size(geom.X).Metres(), q.Box.Size(geom.Z).Metres(), q.Box.Size(geom.Y).Metres()
	y := Lean(push, w, high, t, e/16)
	s.Source += "The back as a shear panel: push × height ÷ G·t·width (that term of a plywood trade association's formula for shear walls, TT-053, 2007), G = E/16 (from memory). Its pins and glue are taken to hold; walls nailed every 6 in carry 180 lb/ft (the association's construction guide of 2011, table 29). " + how + "E: " + source + "."
	s.row("back", r.unit(w)+" × "+r.unit(high)+" × "+r.size(t), "")
	s.row("shear along its edges", r.force(push)+" ÷ "+r.unit(w), percent(push/positive(w, 1)/wallShear)+" % of a nailed wall's")
	s.row("leans", "", r.size(y))
	corners()
	if !s.within(y, high/500, "leans "+r.size(y)+" under "+r.force(push)+"; "+r.size(high/500)+", a part in 500, is the limit (common practice, no source).", "Leans "+r.size(y)+" under "+r.force(push)+": its back is too weak.") {
		r.warn(Racks, "cabinet.back.skin", r.size(y), r.force(push), r.size(high/500))
		for _, x := range r.p.Stock.Materials {
			if x.Kind != "solid" && x.ID != m.ID && x.Thick() > m.Thick() {
				r.tryRack(&s, "cabinet.back.skin", x.ID, "A back of "+or(x.Name, x.ID))
			}
		}
	}
	r.add(s)
}

// Lean returns how far a panel of width w, height h and thickness t gives along
// its top under a push in N: push·h/(G·t·w), metres and Pa.
func Lean(push, w, h, t, g float64) float64 { return push * h / positive(g*t*w, 1) }

// rackMend tries a kind of back with the skin that is chosen, else the thinnest
// sheet of the stock.
func (r *run) rackMend(s *Sum, kind, text string) {
	skin := r.p.Cabinet.Back.Skin
	if _, ok := r.p.Material(skin); !ok {
		best := -1
		for i, m := range r.p.Stock.Materials {
			if m.Kind != "solid" && m.Thick() > 0 && (best < 0 || m.Thick() < r.p.Stock.Materials[best].Thick()) {
				best = i
			}
		}
		if best < 0 {
			return
		}
		skin = r.p.Stock.Materials[best].ID
	}
	r.tryRack(s, "cabinet.back.kind\ncabinet.back.skin", kind+"\n"+skin, text)
}

func (r *run) tryRack(s *Sum, path, value, text string) {
	if q := r.try(path, value); q != nil {
		q.racking()
		if got := q.Sums[0]; got.State == Fine {
			s.Mends = append(s.Mends, Mend{path, value, text, got.Verdict + " " + r.lighter(q), true})
		}
	}
}
