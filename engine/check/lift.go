package check

import (
	"math"
	"strconv"

	"cartwright/engine/geom"
)

// A Lift is one lift by one person, in inches and degrees: how far the hands
// are before the ankles, how high they start, how far the load goes up or down,
// the twist.
type Lift struct {
	H, V, D, A float64
	FM         float64 // for how often; 0: 1, up to 0.2 a minute
	Grip       Grip
}

// A Grip is how a load can be held.
type Grip int

const (
	FairGrip Grip = iota
	GoodGrip
	PoorGrip
)

// most one person should lift, in lb, even at the best place.
const loadConstant = 51

// Limit returns the recommended weight limit in lb, 51·HM·VM·DM·AM·FM·CM, by the
// revised NIOSH lifting equation (publication 94-110). Outside its limits — reach
// over 25 in, hands over 70 in, more than 70 in of lift, more than 135° — it is 0.
// It knows no team lifts, no sheets, no carrying, no pushing.
func (l Lift) Limit() float64 {
	if !(l.H <= 25 && l.V >= 0 && l.V <= 70 && l.D <= 70 && l.A >= 0 && l.A <= 135) {
		return 0
	}
	cm := 1.0
	switch {
	case l.Grip == PoorGrip:
		cm = .90
	case l.Grip == FairGrip && l.V < 30:
		cm = .95
	}
	return loadConstant * 10 / max(l.H, 10) * (1 - .0075*math.Abs(l.V-30)) * (.82 + 1.8/max(l.D, 10)) * (1 - .0032*l.A) * positive(l.FM, 1) * cm
}

// Reach estimates H for a load of depth w when it was not measured: 8 + w/2 in,
// or 10 + w/2 with the hands under 10 in (NIOSH 94-110).
func Reach(w, v float64) float64 {
	if v < 10 {
		return 10 + w/2
	}
	return 8 + w/2
}

// lifting tells what one person lifts: a drawer out, the machine up; and what
// is for two.
func (r *run) lifting() {
	const source = "Revised NIOSH lifting equation, publication 94-110: 51 lb × factors for reach, height, lift and grip; reach as it estimates it, fair grip, few lifts. For one person, standing, two hands. Carrying, sheets and lifts by two are outside it."
	top := r.c.Case.Max[geom.Z].Metres() / inch
	lift := func(title string, kg, deep, from, to float64) {
		s := Sum{Title: title, Cost: Hurts, Source: source}
		if kg <= 0 {
			s.end(NotChecked, "Not checked: its weight is not entered.")
			r.add(s)
			return
		}
		least, reach := math.Inf(1), 0.0
		for _, v := range [...]float64{from, to} {
			l := Lift{H: Reach(deep, v), V: v, D: math.Abs(to - from)}
			n := l.Limit()
			s.row("hands at "+r.unit(v*inch), "reach "+r.unit(max(l.H, 10)*inch)+", lift "+r.unit(max(l.D, 10)*inch), r.kg(n*pound))
			least, reach = min(least, n), max(reach, l.H)
		}
		s.row("it weighs", "", r.kg(kg))
		switch {
		case least <= 0:
			s.end(NotChecked, "Not covered by the equation: reach "+r.unit(reach*inch)+". Two people, or take its load out first.")
		case kg/pound <= least:
			s.end(Fine, "Fine for one person: "+r.kg(least*pound)+" is the limit.")
		default:
			s.end(Fact, "Two people: one should lift "+r.kg(least*pound)+" there, it weighs "+r.kg(kg)+".")
		}
		r.add(s)
	}
	if i := r.heaviest(); i >= 0 {
		d := r.c.Drawers[i]
		lift("Lifting out "+r.drawerName(i)+", full", r.drawerKg(i), d.Box.Size(geom.Y).Metres()/inch, d.Box.Min[geom.Z].Metres()/inch, top)
	}
	if r.p.Machine.Name != "" || r.p.Machine.Weight > 0 {
		lift("Lifting the "+or(r.p.Machine.Name, "machine")+" up", r.p.Machine.Weight.Kg(), positive(r.p.Machine.Depth.Metres(), 12*inch)/inch, 0, top)
	}

	r.sheets()
}

// sheets tells what a full sheet of each material in use weighs.
func (r *run) sheets() {
	s := Sum{Title: "Full sheets", Cost: Hurts, Source: "Length × width × thickness × density. A sheet is outside the NIOSH equation: two people, or a carrier with a wheel. Densities vary by 15 % with the grade."}
	var most float64
	for _, sh := range r.p.Stock.Sheets {
		m, ok := r.p.Material(sh.Material)
		if !ok {
			continue
		}
		rho, src := Density(m)
		kg := sh.Length.Metres() * sh.Width.Metres() * m.Thick().Metres() * rho
		s.row(or(m.Name, m.ID), fixed(rho, 0)+" kg/m³, "+src, r.kg(kg))
		most = max(most, kg)
	}
	if len(s.Rows) == 0 {
		return
	}
	s.end(Fact, "The heaviest weighs "+r.kg(most)+": not for one person by the equation, which does not cover sheets.")
	if limit := r.p.Car.Most.Kg(); limit > 0 {
		s.Verdict += " The car takes " + strconv.Itoa(int(min(limit/positive(most, 1), 1e6))) + " of them by weight."
	}
	r.add(s)
}
