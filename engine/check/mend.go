package check

import (
	"strconv"
	"strings"

	"cartwright/engine/project"
)

// oneByOne tells for 0, 1, … drawers open what tips the cart.
func (r *run) oneByOne(b base, moments []float64, order []int, high, top float64) Sub {
	sub := Sub{Title: "From none open to all"}
	row := func(name string, m float64) {
		x := m / gravity / positive(r.Loaded.Kg(), 1)
		res, how := "tips", "short by "+r.moment(-m)
		if m > 0 {
			res, how = r.force(m/positive(top, 1))+", "+fixed(Angle(x, high), 1)+"°", "holds "+r.moment(m)
			sub.Result = name
		}
		sub.Rows = append(sub.Rows, SumRow{Cause: name, Factors: how, Result: res})
	}
	if len(r.c.Doors) > 0 {
		var kg, x []float64
		for _, q := range r.bodies {
			kg, x = append(kg, q.kg), append(x, q.at[1]-b.front)
		}
		row("all shut", Tipping(kg, x))
	}
	for k, m := range moments {
		name := "all drawers shut"
		switch {
		case len(order) == 0:
			name = "all shut"
		case k > 0:
			name = strconv.Itoa(k) + " open, now " + r.drawerName(order[k-1])
		}
		if len(r.c.Doors) > 0 {
			name += ", doors open"
			if len(order) == 0 {
				name = "doors open"
			}
		}
		if k > r.open() {
			name += ", past its interlock"
		}
		row(name, m)
	}
	if sub.Result = "stands: " + sub.Result; sub.Result == "stands: " {
		sub.Result = "tips"
	}
	return sub
}

// ballast returns the field and the value of a weight on the bottom, at the back,
// that holds the cart by need N·m more about its front wheels: need ÷ g ÷ its
// distance behind them, on the next whole unit.
func (r *run) ballast(b base, need float64) (path, value string) {
	arm := r.ballastAt()[1] - b.front
	if !(need > 0 && arm > 0) {
		return "", ""
	}
	n := int(r.inUnit(need/gravity/arm+r.p.Base.Ballast.Kg())) + 1
	return "base.ballast", strconv.Itoa(n) + " " + r.t.MassUnit()
}

// onCasters says what a change makes each caster carry, if that is more than
// before.
func (r *run) onCasters(path, value string) string {
	q := r.try(path, value)
	n := r.wheels()
	if q == nil || n == 0 || q.Loaded <= r.Loaded {
		return ""
	}
	each := ThreeOfFour(q.Loaded, n)
	s := "; a caster then carries " + r.kg(each.Kg())
	if rating := r.p.Base.Caster.Rating; rating > 0 && each > rating {
		s += ", more than its " + r.kg(rating.Kg())
	}
	return s
}

// lower returns the fields and the values that put what lies in the drawers of
// each bay in order, the heavy things low; "" if they are.
func (r *run) lower() (paths, values string) {
	moved := false
	for i, bay := range r.p.Cabinet.Bays {
		var at, by []int // openings with a drawer, from the top down; and by their load
		for j, o := range bay.Openings {
			if o.Kind != "drawer" {
				continue
			}
			at, by = append(at, j), append(by, j)
			for k := len(by) - 1; k > 0 && bay.Openings[by[k]].Load < bay.Openings[by[k-1]].Load; k-- {
				by[k], by[k-1] = by[k-1], by[k]
			}
		}
		path := func(j int) string {
			return "cabinet.bays." + strconv.Itoa(i) + ".openings." + strconv.Itoa(j) + ".load"
		}
		for n, j := range at {
			paths, values = paths+path(j)+"\n", values+project.Text(r.p, path(by[n]))+"\n"
			moved = moved || bay.Openings[by[n]].Load != bay.Openings[j].Load
		}
	}
	if !moved {
		return "", ""
	}
	return strings.TrimSuffix(paths, "\n"), strings.TrimSuffix(values, "\n")
}
