package check

import (
	"math"
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// A base is where the cart touches the floor in the worst case: the swivel
// casters stand with their wheels trailing inwards, so that each side's pivot
// lies its lead further in (plain statics; EN 16122 11.1 sets casters where
// overturning is most likely). In metres; order left, right, front, back.
type base struct {
	left, right, front, back float64
	ok                       bool
}

func (r *run) base() base {
	b := base{left: math.Inf(1), front: math.Inf(1), right: math.Inf(-1), back: math.Inf(-1)}
	for _, t := range r.c.Things {
		lead := r.p.Base.Caster.Lead.Metres()
		switch t.Kind {
		case design.FootThing:
			lead = 0
		case design.CasterThing:
		default:
			continue
		}
		at := middle(t.Box)
		b.left, b.right = min(b.left, at[0]+lead), max(b.right, at[0]-lead)
		b.front, b.back = min(b.front, at[1]+lead), max(b.back, at[1]-lead)
		b.ok = true
	}
	return b
}

// Tipping returns the moment, in N·m, that holds bodies of kg at x metres
// behind a pivot: Σ m·g·x. Below zero they fall.
func Tipping(kg, x []float64) float64 {
	var m float64
	for i := range kg {
		m += float64(kg[i] * gravity * x[i])
	}
	return m
}

// Angle returns the slope in degrees on which something falls whose centre of
// gravity is x behind its pivot and h above it. For showing only: math.Atan
// may differ in the last digit between machines.
func Angle(x, h float64) float64 { return math.Atan(x/max(h, 1e-9)) * 180 / math.Pi }

// stands returns, for 0, 1, … drawers open in the worst order, the moment that
// holds the cart about its front wheels, and that order. Its doors are open.
func (r *run) stands(b base, keep func(body) bool) (moments []float64, order []int) {
	var kg, x []float64
	pull := make([]float64, len(r.c.Drawers)) // what opening takes off the moment
	for _, q := range r.swung(r.bodies) {
		if !keep(q) {
			continue
		}
		kg, x = append(kg, q.kg), append(x, q.at[1]-b.front)
		if d := q.drawer - 1; d >= 0 && d < len(pull) {
			pull[d] += float64(q.kg * gravity * r.c.Drawers[d].Travel.Metres())
		}
	}
	for i := range pull {
		order = append(order, i)
	}
	for i := 1; i < len(order); i++ { // the heaviest first; few: by insertion
		for j := i; j > 0 && pull[order[j]] > pull[order[j-1]]; j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	m := Tipping(kg, x)
	moments = append(moments, m)
	for _, i := range order {
		m -= pull[i]
		moments = append(moments, m)
	}
	return moments, order
}

func all(body) bool { return true }

// open is how many drawers can be open at a time.
func (r *run) open() int {
	n := len(r.c.Drawers)
	if r.p.Drawers.Interlock {
		n = min(n, 1)
	}
	return n
}

// least is the least moment with 0 to the most drawers open.
func (r *run) least() float64 {
	b := r.base()
	m, _ := r.stands(b, all)
	return m[r.open()]
}

// hard is what it takes at most to open a loaded drawer, in lb.
const hard = 10

const statics = "Plain statics about the front wheels, casters swivelled back, the worst case. Drawers out by the length of their slides, doors open at a right angle, floor level, nothing swinging. Children climbing are outside it. On carpet tip resistance can fall by 40 % (Barnett, American Journal of Mechanical Engineering 8(1), 2020)."

// tipping checks that the cart stands with its drawers open and loaded.
func (r *run) tipping() {
	n := r.open()
	b := r.base()
	s := Sum{Title: "Tipping, drawers open", Cost: Hurts, Source: statics}
	if !b.ok {
		s.end(NotChecked, "Not checked: it stands on nothing yet.")
		r.add(s)
		return
	}
	moments, order := r.stands(b, all)
	stands := 0
	for stands < n && moments[stands+1] > 0 {
		stands++
	}
	show := n // what the rows show: all open
	m := moments[show]

	// The rows: what holds it down, then what tips it.
	isOpen := map[int]bool{}
	for _, i := range order[:show] {
		isOpen[i+1] = true
	}
	type group struct {
		name string
		kg   float64
		mx   float64
	}
	var held, tips []group
	groups := []group{{name: "cart, no drawers"}}
	bodies := r.swung(r.bodies)
	for _, q := range bodies {
		if q.door > 0 && q.door <= len(r.c.Doors) {
			groups = append(groups, group{q.name + ", open", q.kg, q.kg * (q.at[1] - b.front)})
		} else if q.drawer == 0 && !q.load {
			groups[0].kg += q.kg
			groups[0].mx += float64(q.kg * (q.at[1] - b.front))
		} else if q.drawer == 0 {
			groups = append(groups, group{q.name, q.kg, q.kg * (q.at[1] - b.front)})
		}
	}
	for i := range r.c.Drawers {
		g := group{name: r.drawerName(i)}
		for _, q := range r.bodies {
			if q.drawer == i+1 {
				x := q.at[1] - b.front
				if isOpen[i+1] {
					x -= r.c.Drawers[i].Travel.Metres()
				}
				g.kg += q.kg
				g.mx += float64(q.kg * x)
			}
		}
		if isOpen[i+1] {
			g.name += ", open, full"
		}
		groups = append(groups, g)
	}
	for _, g := range groups {
		if g.mx >= 0 {
			held = append(held, g)
		} else {
			tips = append(tips, g)
		}
	}
	write := func(gs []group, sign float64, total string) {
		sum := 0.0
		for _, g := range gs {
			s.row(g.name, r.t.ShowMass(mass(g.kg))+" × "+r.long(sign*g.mx/positive(g.kg, 1)), plain(r.moment(sign*g.mx*gravity)))
			sum += g.mx * sign * gravity
		}
		s.total(total, plain(r.moment(sum)))
	}
	s.row("about the front wheels", r.t.MassUnit()+" × "+r.t.Unit(), plainUnit(r.moment(0)))
	tip, holds := 0.0, m
	for _, g := range tips {
		tip -= g.mx * gravity
	}
	holds += tip
	write(held, 1, "holds it down")
	if len(tips) > 0 {
		write(tips, -1, "tips it")
	}
	// Margins as a force and as an angle, in the state shown.
	bal := bodies
	for _, i := range order[:show] {
		bal = slid(bal, i+1, r.c.Drawers[i].Travel.Metres())
	}
	at := balance("", bal, all).At
	h := r.c.Case.Max[geom.Z].Metres()
	if m > 0 {
		s.row("a pull at the top that tips it", plain(r.moment(m))+" ÷ "+r.long(h), r.force(m/positive(h, 1)))
		s.row("the same on carpet", "× 0.6", r.force(.6*m/positive(h, 1)))
		s.row("a slope that tips it", r.long(at[1]-b.front)+" over "+r.long(at[2]), fixed(Angle(at[1]-b.front, at[2]), 1)+"°")
	}
	r.emptied(&s, b, n)
	s.Subs = append(s.Subs, r.oneByOne(b, moments, order, at[2], h))
	what := "with " + count(n, "drawer", "drawers")
	doors := count(len(r.c.Doors), "door", "doors")
	switch {
	case n == 0 && len(r.c.Doors) == 0:
		what = "shut"
	case n == 0:
		what = "with " + doors + " open"
	case len(r.c.Doors) > 0:
		what += " and " + doors + " open"
	default:
		what += " open"
	}
	switch {
	case len(r.c.Drawers) == 0:
		s.Title = "Standing"
	case r.p.Drawers.Interlock:
		s.Source += " An interlock lets one drawer open at a time: it must hold 30 lb for 5 s (ASTM F2057-23, which is for clothing furniture; a yardstick)."
	}
	if m > 0 {
		s.end(Fine, "Fine: stands "+what+", by "+r.moment(m)+".")
		if f := m / positive(h, 1); f < hard*lbf && n > 0 {
			s.end(Fact, "Stands "+what+", barely: a pull of "+r.force(f)+" at the top tips it. One at a time.")
			s.Source += " To open a loaded drawer takes up to 10 lb (Federal Specification AA-F-358)."
			r.Findings.Add(issue.Note, Barely, []string{"drawers.interlock"}, n, r.force(f))
			s.Mends = r.standMends(b, m, order[:show])
		}
		s.Used = tip / positive(holds, 1)
		if n == 1 && s.State == Fine && len(r.c.Drawers) > 1 && moments[len(moments)-1] <= 0 {
			s.Verdict = "Fine with its interlock: all open it would tip."
		}
	} else {
		word := strconv.Itoa(stands) + " open: it stands."
		if stands == 0 && moments[0] <= 0 {
			word = "It tips even shut."
			if len(r.c.Doors) > 0 {
				word = "It tips even with every drawer shut."
			}
		}
		s.end(Fails, "Tips "+what+", short by "+r.moment(-m)+". "+word)
		r.warn(Tips, "drawers.interlock", n, len(r.c.Drawers), r.moment(-m), word)
		s.Mends = r.standMends(b, m, order[:show])
	}
	r.Tip = Tip{Title: s.Title, Out: order[:show], Pivot: b.front, Rest: r.Loaded}
	for i := range r.c.Drawers {
		w := mass(r.drawerKg(i))
		r.Tip.Drawers = append(r.Tip.Drawers, w)
		if isOpen[i+1] {
			r.Tip.Rest -= w
		}
	}
	r.add(s)
}

// emptied adds what happens before the machine stands on it: one full drawer open
// in an otherwise empty cart. A cabinet that stands loaded can fall so.
func (r *run) emptied(s *Sum, b base, n int) {
	if n == 0 || r.Loaded == r.Empty {
		return
	}
	worst, at := math.Inf(1), 0
	for i := range r.c.Drawers {
		m, _ := r.stands(b, func(q body) bool { return !q.load || q.drawer == i+1 })
		var pull float64
		for _, q := range r.bodies {
			if q.drawer == i+1 {
				pull += float64(q.kg * gravity * r.c.Drawers[i].Travel.Metres())
			}
		}
		if v := m[0] - pull; v < worst {
			worst, at = v, i
		}
	}
	word := "stands by"
	if worst <= 0 {
		word, worst = "tips, short by", -worst
	}
	s.row("all else empty, "+r.drawerName(at)+" full and open: "+word, "", r.moment(worst))
}

// standMends tries what would keep the cart standing.
func (r *run) standMends(b base, m float64, open []int) []Mend {
	var out []Mend
	try := func(path, value, text string) {
		q := r.try(path, value)
		if q == nil {
			return
		}
		l := q.least()
		res := "stands by " + r.moment(l)
		if l <= 0 {
			res = "still short by " + r.moment(-l)
		}
		if l > m {
			out = append(out, Mend{path, value, text, res, l > 0})
		}
	}
	if r.quick {
		return nil
	}
	if len(open) > 1 {
		try("drawers.interlock", "true", "An interlock: one drawer at a time")
	}
	// A lighter drawer: what the moment lacks, off the drawer that pulls most.
	for _, i := range open {
		o := r.p.Cabinet.Bays[r.c.Drawers[i].Bay].Openings[r.c.Drawers[i].Opening]
		lever := b.front - middle(r.c.Drawers[i].Inside)[1] + r.c.Drawers[i].Travel.Metres()
		if lever <= 0 || o.Load <= 0 {
			continue
		}
		unit := 1.0
		if !r.t.Metric {
			unit = pound
		}
		left := int((o.Load.Kg()+min(m, 0)/gravity/lever)/unit - 0.05)
		if left > 0 && m <= 0 {
			v := strconv.Itoa(left) + " " + r.t.MassUnit()
			try(r.drawerPath(i)+".load", v, r.drawerName(i)+" at most "+v)
			break
		}
	}
	step := measure.Length(50 * measure.MM)
	if !r.t.Metric {
		step = 2 * measure.Inch
	}
	for k := measure.Length(1); k <= 3; k++ {
		d := r.p.Cabinet.Depth + k*step
		before := len(out)
		try("cabinet.depth", r.t.Exact(d), "Case "+r.t.Text(k*step)+" deeper")
		if len(out) > before {
			if out[len(out)-1].Mends || k == 3 {
				break
			}
			out = out[:before]
		}
	}
	// Ballast, until opening a drawer alone does not tip it.
	if path, v := r.ballast(b, hard*lbf*r.c.Case.Max[geom.Z].Metres()-m); path != "" {
		n := len(out)
		if try(path, v, "Ballast of "+v+" on the bottom, at the back"); len(out) > n {
			out[n].Result += r.onCasters(path, v)
		}
	}
	return out
}

// pushed checks a push at the top over each side, drawers shut.
func (r *run) pushed() {
	b := r.base()
	s := Sum{Title: "A push at the top", Cost: Hurts, Source: "Plain statics, casters swivelled inwards, drawers shut, at the height of the worktop: push × height against weight × distance from the pivot. Wheels blocked; on carpet a cabinet tips at up to 40 % less (Barnett, American Journal of Mechanical Engineering 8(1), 2020)."}
	push := r.p.Loads.Push
	if push <= 0 {
		push = 20 * measure.Pound
		if r.t.Metric {
			push = 9 * measure.Kilogram
		}
		s.Source += " The push is the default: common practice, no source."
	}
	if !b.ok {
		s.end(NotChecked, "Not checked: it stands on nothing yet.")
		r.add(s)
		return
	}
	f := push.Kg() * gravity
	h := r.c.Case.Max[geom.Z].Metres()
	worst, way := math.Inf(1), ""
	for k, st := range r.States[:2] {
		if k == 1 && r.Loaded == r.Empty {
			break
		}
		x, y := st.At[0], st.At[1]
		for _, side := range [...]struct {
			name string
			arm  float64
		}{{"forward", y - b.front}, {"backward", b.back - y}, {"to the left", x - b.left}, {"to the right", b.right - x}} {
			hold := st.Mass.Kg() * gravity * side.arm
			s.row(st.Name+", "+side.name, r.kg(st.Mass.Kg())+" × "+r.unit(side.arm)+" ÷ "+r.unit(h),
				r.force(hold/positive(h, 1))+", "+fixed(Angle(side.arm, st.At[2]), 0)+"°")
			if v := hold / positive(h, 1); v < worst {
				worst, way = v, side.name+", "+st.Name
			}
		}
	}
	if !s.within(f, worst, "tips at "+r.force(worst)+", "+way+"; the push is "+r.force(f)+".", "A push of "+r.force(f)+" tips it "+way+": it takes "+r.force(worst)+".") {
		r.Findings.Add(issue.Warn, Push, []string{"loads.push"}, way, r.force(f), r.force(worst))
		step := measure.Length(100 * measure.MM)
		if !r.t.Metric {
			step = 4 * measure.Inch
		}
		path, now := "cabinet.depth", r.p.Cabinet.Depth
		if strings.HasPrefix(way, "to the") {
			path, now = "cabinet.width", r.p.Cabinet.Width
		}
		if q := r.try(path, r.t.Exact(now+step)); q != nil {
			q.pushed()
			got := q.Sums[0]
			s.Mends = append(s.Mends, Mend{path, r.t.Exact(now + step), "Case " + r.t.Text(step) + " larger", got.Verdict, got.State == Fine})
		}
		if path, v := r.ballast(b, (f-worst)*h); path != "" && strings.HasPrefix(way, "forward") {
			if q := r.try(path, v); q != nil {
				q.pushed()
				s.Mends = append(s.Mends, Mend{path, v, "Ballast of " + v + " on the bottom, at the back", q.Sums[0].Verdict + r.onCasters(path, v), q.Sums[0].State == Fine})
			}
		}
		s.Mends = append(s.Mends, Mend{Text: "A wider or deeper base, or something heavy low in it", Result: r.moment((f-worst)*h) + " more is needed"})
	}
	r.add(s)
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
