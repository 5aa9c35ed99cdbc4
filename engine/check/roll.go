package check

import (
	"math"
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// casters checks the load on one caster when three of four carry.
func (r *run) casters() {
	n := r.wheels()
	s := Sum{Title: "Load on one caster", Cost: Hurts, Source: "Three of four carry, since no floor is flat: the whole weight by three (makers of casters: “three points make a plane”). For smooth floors, at a walk. With the weight in the middle and one wheel in the air, statics puts half of it on each of two opposite wheels for that moment."}
	if n == 0 {
		if r.p.Base.Kind == "feet" {
			return
		}
		s.end(NotChecked, "Not checked: the casters have no height yet.")
		r.add(s)
		return
	}
	rating := r.p.Base.Caster.Rating
	each := ThreeOfFour(r.Loaded, n)
	s.row("cart and all it carries", "", r.kg(r.Loaded.Kg()))
	s.row("on each of "+strconv.Itoa(n-1), "÷ "+strconv.Itoa(n-1), r.kg(each.Kg()))
	s.row("on two opposite wheels, for a moment", "÷ 2", r.kg(r.Loaded.Kg()/2))
	if rating > 0 {
		s.row("rating of one", "", r.kg(rating.Kg()))
	}
	switch {
	case rating <= 0:
		s.end(NotChecked, "Not checked: the casters' rating is not entered. At least "+r.kg(each.Kg())+" is needed.")
		s.Mends = append(s.Mends, Mend{Path: "base.caster.rating", Text: "Enter what your casters carry", Result: "it stands on them"})
	case each > rating:
		s.end(Fails, "Overloaded by "+r.kg((each-rating).Kg())+".")
		r.warn(Caster, "base.caster.rating", each, rating, each-rating)
		v := strconv.Itoa(int(r.inUnit(each.Kg()))+1) + " " + r.t.MassUnit()
		s.Mends = append(s.Mends, Mend{"base.caster.rating", v, "Casters rated for " + v, "carry it", true})
		s.Used = float64(each) / float64(rating)
	default:
		s.Used = float64(each) / float64(rating)
		s.end(Fine, "Fine: "+r.kg((rating-each).Kg())+" to spare.")
	}
	r.add(s)
}

// ThreeOfFour returns the load of one caster of n when one hangs free.
func ThreeOfFour(load measure.Mass, n int) measure.Mass { return load / measure.Mass(max(n-1, 1)) }

func (r *run) wheels() int {
	n := 0
	for _, t := range r.c.Things {
		if t.Kind == design.CasterThing {
			n++
		}
	}
	return n
}

// inUnit is a weight in the unit of the tape.
func (r *run) inUnit(kg float64) float64 {
	if r.t.Metric {
		return min(kg, 1e8)
	}
	return min(kg/pound, 1e8)
}

// Rolling returns the force in N that keeps a load of w N rolling on hard
// rubber wheels of radius m metres: μ·w/R, μ a length: 2.2 mm on smooth
// concrete, 2.4 on tile, 3.3 on asphalt, 4.5 on industrial carpet (Al-Eisawi and
// others, Applied Ergonomics 30, 1999, 235–245). The wheels trail; starting
// with them across takes more.
func Rolling(mu, w, radius float64) float64 { return mu * w / radius }

// Climb returns the level push in N on the axles that lifts wheels carrying w N
// over a sill of height s: w·√(2Rs − s²)/(R − s), plain statics, wheel and
// sill rigid. A sill as high as the axle cannot be climbed: +Inf.
func Climb(w, radius, s float64) float64 {
	if s >= radius {
		return math.Inf(1)
	}
	if s <= 0 {
		return 0
	}
	return w * math.Sqrt(2*radius*s-s*s) / (radius - s)
}

// TripSpeed returns the speed in m/s from which a body whose centre of gravity
// is x behind and h above its front wheels falls over them when they stop
// dead: √(2g(ρ − h))·ρ/h with ρ² = x² + h². Its weight counts as in one point,
// which is on the safe side.
func TripSpeed(x, h float64) float64 {
	if h <= 0 {
		return math.Inf(1)
	}
	rho := hypot(x, h)
	return math.Sqrt(2*gravity*(rho-h)) * rho / h
}

// walk is a walking pace: 3 mph, for which casters are rated.
const walk = 1.34

// rolling tells the push on two floors, and what a sill does.
func (r *run) rolling() {
	if r.wheels() == 0 {
		return
	}
	radius := r.p.Base.Caster.Wheel.Metres() / 2
	s := Sum{Title: "Pushing it along", Cost: Time, Source: "μ·W/R for hard rubber on smooth concrete (μ 2.2 mm) and industrial carpet (4.5 mm): Al-Eisawi and others, Applied Ergonomics 30, 1999. Wheels trailing; the first push with wheels across takes more."}
	if radius <= 0 {
		s.end(NotChecked, "Not checked: the wheels' diameter is not entered.")
		r.add(s)
		return
	}
	w := r.Loaded.Kg() * gravity
	var at [2]string
	for i, floor := range [...]struct {
		name string
		mu   float64
	}{{"smooth concrete", .0022}, {"carpet", .0045}} {
		at[i] = r.force(Rolling(floor.mu, w, radius))
		s.row(floor.name, fixed(floor.mu*1000, 1)+" mm × "+r.kg(r.Loaded.Kg())+" ÷ "+r.unit(radius), at[i])
	}
	s.end(Fact, at[0]+" on concrete, "+at[1]+" on carpet.")
	r.add(s)

	const sill = inch / 4
	s = Sum{Title: "Over a sill of " + r.size(sill), Cost: Hurts, Source: "Plain mechanics, wheel and sill rigid: push w·√(2Rs − s²)/(R − s) on the front wheels' share; a wheel that meets the sill at v keeps v·(R − s)/R and rolls up if that is above √(2gs); a cart whose wheels stop dead falls forward from √(2g(ρ − h))·ρ/h on. Derived here; no test of carts was found."}
	b := r.base()
	at3 := r.States[1].At
	share := 0.5
	if b.back > b.front {
		share = min(max((b.back-at3[1])/(b.back-b.front), 0), 1)
	}
	s.row("from standing, both front wheels", r.kg(r.Loaded.Kg()*share)+" on them", pushText(r, Climb(w*share, radius, sill)))
	keeps := walk * max(radius-sill, 0) / radius
	need := math.Sqrt(2 * gravity * sill)
	s.row("at a walk, 3 mph, keeps", "needs "+fixed(need, 2)+" m/s", fixed(keeps, 2)+" m/s")
	trip := TripSpeed(at3[1]-b.front, at3[2])
	if at3[1] <= b.front {
		trip = 0
	}
	s.row("if the wheels stop dead, falls from", "centre "+r.unit(at3[1]-b.front)+" back, "+r.unit(at3[2])+" up", fixed(trip, 2)+" m/s")
	switch {
	case keeps > need && trip > walk-keeps:
		s.end(Fine, "Fine at a walk: the wheels roll over it. Slower than "+fixed(need*radius/max(radius-sill, 1e-9), 1)+" m/s they stop.")
		if trip < walk {
			s.Verdict += " Anything that stops them dead at a walk tips it."
		}
	case trip > walk:
		s.end(Fine, "Fine: the wheels stop, and it does not fall at a walk.")
	default:
		s.end(Fails, "The wheels stop and it can fall forward: lift it over, or lay a wedge.")
		r.warn(Sill, "base.caster.wheel", fixed(min(need*radius/max(radius-sill, 1e-9), 99), 1), fixed(trip, 1))
		again := func(path, value, text string) {
			if q := r.try(path, value); path != "" && q != nil {
				q.rolling()
				got := q.Sums[len(q.Sums)-1]
				if got.State == Fine {
					s.Mends = append(s.Mends, Mend{path, value, text, got.Verdict, true})
				}
			}
		}
		wheel := "4 in"
		if r.t.Metric {
			wheel = "100 mm"
		}
		again("base.caster.wheel", wheel, "Wheels of "+wheel)
		paths, values := r.lower()
		again(paths, values, "Heavy things low: the loads of the drawers sorted")
	}
	r.add(s)
}

func pushText(r *run, f float64) string {
	if math.IsInf(f, 0) {
		return "cannot be climbed"
	}
	return r.force(f)
}

// friction of a braked rubber wheel: less than any table gives for a dry floor.
const friction = 0.5

// brakes checks that the braked wheels hold against the feed of the work.
func (r *run) brakes() {
	s := Sum{Title: "Stays put under the feed", Cost: Hurts, Source: "Friction 0.5 on the weight of the braked wheels, the least loaded ones; the others roll freely. An engineers' table, as a physics collection of 2006 quotes it, gives rubber on concrete 0.6 to 0.85 dry, 0.45 to 0.75 wet. Dust and carpet are not in it: not checked."}
	f := r.p.Loads.Feed
	if f <= 0 {
		f = 20 * measure.Pound
		if r.t.Metric {
			f = 9 * measure.Kilogram
		}
		s.Source += " The feed is the default: common practice, no source."
	}
	n := r.wheels()
	k := r.p.Base.Caster.Brakes
	b := r.base()
	if n == 0 || !b.ok {
		if r.p.Base.Kind == "feet" {
			return
		}
		s.end(NotChecked, "Not checked: there are no casters yet.")
		r.add(s)
		return
	}
	// Each wheel's share by the lever rule both ways.
	st := r.States[1]
	share := func(lo, hi, at float64) float64 {
		if hi <= lo {
			return .5
		}
		return min(max((at-lo)/(hi-lo), 0), 1)
	}
	x, y := share(b.left, b.right, st.At[0]), share(b.front, b.back, st.At[1])
	shares := []float64{x * y, x * (1 - y), (1 - x) * y, (1 - x) * (1 - y)}
	for i := 1; i < len(shares); i++ { // four: by insertion
		for j := i; j > 0 && shares[j] < shares[j-1]; j-- {
			shares[j], shares[j-1] = shares[j-1], shares[j]
		}
	}
	k = min(max(k, 0), n, len(shares))
	var on float64
	for _, v := range shares[:k] {
		on += v * st.Mass.Kg()
	}
	hold := friction * on * gravity
	s.row("on "+count(k, "braked wheel", "braked wheels"), "", r.kg(on))
	s.row("they hold", "× 0.5", r.force(hold))
	s.row("feed", "", r.force(f.Kg()*gravity))
	if !s.within(f.Kg()*gravity, hold, r.force(hold-f.Kg()*gravity)+" to spare.", "It rolls away under the feed: the brakes hold "+r.force(hold)+".") {
		r.Findings.Add(issue.Warn, Creeps, []string{"base.caster.brakes"}, r.force(f.Kg()*gravity), r.force(hold))
		for v := k + 1; v <= n; v++ {
			if q := r.try("base.caster.brakes", strconv.Itoa(v)); q != nil {
				q.brakes()
				if got := q.Sums[0]; got.State == Fine || v == n {
					s.Mends = append(s.Mends, Mend{"base.caster.brakes", strconv.Itoa(v), count(v, "caster", "casters") + " with a brake", got.Verdict, got.State == Fine})
					break
				}
			}
		}
	}
	r.add(s)
}

// slides checks each drawer's weight against its slides, and how it runs.
func (r *run) slides() {
	if len(r.c.Drawers) == 0 {
		return
	}
	if r.p.Drawers.Slide == "wood" {
		s := Sum{Title: "Drawers on wooden runners", Cost: Money}
		s.end(NotChecked, "Not checked: no published load is known for wooden runners. Wax them.")
		r.add(s)
		return
	}
	rating := r.p.Drawers.SlideRating
	s := Sum{Title: "Load on the slides", Cost: Money, Source: "Weight of box, front and what lies in it against the rating of a pair at its length. Classes 50, 75, 100 lb and more, static: Architectural Woodwork Standards ed. 1, p. 584. KCMA A161.1 tests a drawer with 15 lb/ft²."}
	worst, at := 0.0, 0
	for i := range r.c.Drawers {
		kg := r.drawerKg(i)
		s.row(r.drawerName(i), "", r.kg(kg))
		if kg > worst {
			worst, at = kg, i
		}
	}
	class := "a special class, over 100 lb"
	for _, c := range [...]float64{100, 75, 50} {
		if worst <= c*pound {
			class = "class " + fixed(c, 0) + " lb"
		}
	}
	switch {
	case rating <= 0:
		s.end(NotChecked, "Not checked: the slides' rating is not entered. At least "+class+" is needed.")
		s.Mends = append(s.Mends, Mend{Path: "drawers.slideRating", Text: "Enter what a pair of your slides carries", Result: "printed on their package"})
	default:
		s.row("rating of a pair", "", r.kg(rating.Kg()))
		if !s.within(worst, rating.Kg(), r.kg(rating.Kg()-worst)+" to spare.", r.drawerName(at)+" is too heavy by "+r.kg(worst-rating.Kg())+": it takes "+class+".") {
			for i := range r.c.Drawers {
				if kg := r.drawerKg(i); kg > rating.Kg() {
					r.Findings.Add(issue.Warn, Slide, []string{r.drawerPath(i) + ".load"}, r.drawerName(i), mass(kg), rating, mass(kg)-rating)
				}
			}
			v := strconv.Itoa(int(r.inUnit(worst))+1) + " " + r.t.MassUnit()
			s.Mends = append(s.Mends, Mend{"drawers.slideRating", v, "Slides rated for " + v, "carry it", true})
		}
	}
	r.add(s)

	s = Sum{Title: "How drawers run and hang", Cost: Time, Source: "Wide, short boxes rack when pulled at one end: common practice, no source. Open, a drawer hangs on its case by its weight × the distance of its middle from the case's front. The AWS tests slides on a box 22 in deep and 18 to 24 in wide."}
	ratio, name := 0.0, ""
	for i, d := range r.c.Drawers {
		w, l := d.Box.Size(geom.X).Metres(), d.Box.Size(geom.Y).Metres()
		out := d.Travel.Metres() - (middle(d.Box)[1] - r.c.Case.Min[geom.Y].Metres())
		s.row(r.drawerName(i), r.unit(w)+" wide ÷ "+r.unit(l)+" deep = "+fixed(w/positive(l, 1), 2), "open: "+r.moment(r.drawerKg(i)*gravity*max(out, 0)))
		if v := w / positive(l, 1); v > ratio {
			ratio, name = v, r.drawerName(i)
		}
	}
	if ratio > 1.5 {
		s.end(Fact, name+" is "+fixed(ratio, 1)+" times as wide as deep: pull it in the middle, or it racks.")
	} else {
		s.end(Fact, "No wider than "+fixed(ratio, 1)+" times their depth.")
	}
	r.add(s)
}

// drawerKg is the weight of a drawer with what lies in it.
func (r *run) drawerKg(i int) float64 {
	var kg float64
	for _, b := range r.bodies {
		if b.drawer == i+1 {
			kg += b.kg
		}
	}
	return kg
}
