package check

import (
	"math"
	"strconv"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// A Way is how a piece lies in the car.
type Way int

const (
	Flat   Way = iota // on the floor, or on what lies there
	Over              // long and thin, over the seats
	Leaned            // tilted through the opening
)

// A Stow is one piece in the car.
type Stow struct {
	Name  string
	Way   Way
	L, W  measure.Length
	Thick measure.Length
	Kg    float64
}

// A Trip is one load: flat pieces from the bottom up, the largest first, then
// what goes over the seats, then what leans.
type Trip struct {
	Stows []Stow
	Kg    float64
	High  measure.Length // of the flat pile
}

// Load puts the rough pieces and boards that are brought home into the car: the
// heaviest first, each on the first trip that takes it. A trip takes no more
// than the car's weight; the flat pile stays below the opening; what leans must
// pass the opening that the pile leaves. A piece that is too heavy alone goes
// alone. Nothing is loaded if the store delivers or nothing is known of the car.
func Load(p *project.Project, job nest.Job, plan nest.Plan, steps work.Steps) []Trip {
	if p.Car.Delivered || len(job.Car) == 0 && p.Car.Most == 0 {
		return nil
	}
	var all []Stow
	for _, r := range steps.Rough {
		if r.AtShop {
			continue
		}
		m, _ := p.Material(job.Stock[plan.Sheets[r.Sheet].Stock].Material)
		rho, _ := Density(m)
		s := Stow{r.Name, way(job.Car, r.Piece.L, r.Piece.W), r.Piece.L, r.Piece.W, m.Thick(), r.Piece.L.Metres() * r.Piece.W.Metres() * m.Thick().Metres() * rho}
		at := len(all)
		all = append(all, s)
		for ; at > 0 && all[at-1].Kg < s.Kg; at-- {
			all[at] = all[at-1]
		}
		all[at] = s
	}
	var trips []Trip
	for _, s := range all {
		k := 0
		for k < len(trips) && !trips[k].takes(p.Car, s) {
			k++
		}
		if k == len(trips) {
			trips = append(trips, Trip{})
		}
		trips[k].add(s)
	}
	return trips
}

// way says how an l by w piece lies: flat if it fits the floor, the first of
// the car's rectangles.
func way(car []nest.Size, l, w measure.Length) Way {
	if len(car) == 0 {
		return Flat
	}
	l, w = max(l, w), min(l, w)
	switch floor := car[0]; {
	case l <= max(floor.L, floor.W) && w <= min(floor.L, floor.W):
		return Flat
	case l > max(floor.L, floor.W):
		return Over
	}
	return Leaned
}

// takes reports whether s goes on the trip too.
func (t Trip) takes(c project.Car, s Stow) bool {
	if most := c.Most.Kg(); most > 0 && t.Kg+s.Kg > most {
		return false
	}
	high, thick, wide := t.High, measure.Length(0), measure.Length(0)
	for _, x := range append(t.Stows[:len(t.Stows):len(t.Stows)], s) {
		if x.Way == Leaned {
			thick, wide = thick+x.Thick, max(wide, min(x.L, x.W))
		}
	}
	if s.Way == Flat {
		high += s.Thick
	}
	if c.OpeningHeight > 0 && high > c.OpeningHeight {
		return false
	}
	return wide == 0 || Tilted(c.OpeningWidth, c.OpeningHeight-high, thick) >= wide
}

// add puts s in its place: by way, the larger below.
func (t *Trip) add(s Stow) {
	at := len(t.Stows)
	t.Stows = append(t.Stows, s)
	for ; at > 0; at-- {
		x := t.Stows[at-1]
		if x.Way < s.Way || x.Way == s.Way && x.L.Times(x.W) >= s.L.Times(s.W) {
			break
		}
		t.Stows[at] = x
	}
	t.Stows[at] = s
	t.Kg += s.Kg
	if s.Way == Flat {
		t.High += s.Thick
	}
}

// Tilted returns the widest panel, or stack of panels, of the given thickness
// that passes a w by h opening tilted: at the angle of the diagonal d it may be
// d − thick × max(w/h, h/w) wide. That is a little less than the best angle
// allows, so it errs to the safe side. 0 if the opening is not known.
func Tilted(w, h, thick measure.Length) measure.Length {
	if w <= 0 || h <= 0 {
		return 0
	}
	a, b := float64(w), float64(h)
	d := math.Sqrt(float64(a*a) + float64(b*b))
	d -= float64(float64(thick) * (max(a, b) / min(a, b)))
	return max(0, measure.Length(d))
}

// CarMends looks for single settings with which everything fits the car: more
// store cuts a sheet, or a longer floor, as with one more seat folded. Nil if
// everything fits as it is.
func CarMends(p *project.Project, job nest.Job) []Mend {
	stuck := func(j nest.Job) bool {
		l := nest.Check(j)
		return l.Has(nest.NoCar) || l.Has(nest.NoCut)
	}
	if len(job.Car) == 0 || !stuck(job) {
		return nil
	}
	var out []Mend
	t := p.Measure()
	for n := 1; n <= 3 && job.Store.Cuts >= 0; n++ {
		j := job
		j.Store.Cuts += n
		if !stuck(j) {
			out = append(out, Mend{"store.cuts", strconv.Itoa(j.Store.Cuts), "Store cuts: " + strconv.Itoa(n) + " more on each sheet", "everything fits", true})
			break
		}
	}
	step, most := 2*measure.Inch, 120*measure.Inch
	if t.Metric {
		step, most = 50*measure.MM, 3000*measure.MM
	}
	for l := job.Car[0].L - job.Car[0].L%step + step; l <= most; l += step {
		j := job
		j.Car = append([]nest.Size(nil), job.Car...)
		for i, r := range j.Car {
			if r.L == job.Car[0].L {
				j.Car[i].L = l
			}
		}
		if !stuck(j) {
			out = append(out, Mend{"car.floorLength", t.Exact(l), "A floor " + t.Show(l) + " " + t.Unit() + " long, with a seat folded", "everything fits", true})
			break
		}
	}
	return append(out, Mend{"car.delivered", "true", "Have it delivered", "at the price of delivery", true})
}
