package check

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

var update = flag.Bool("update", false, "rewrite golden files")

// A published is a value that somebody else printed, or that follows from such
// values by arithmetic written beside it, and what this package makes of the
// same input.
type published struct {
	about  string // heading
	input  string
	source string
	want   float64
	tol    float64
	unit   string
	got    float64
}

const (
	wh  = "Wood Handbook FPL-GTR-190"
	aws = "Architectural Woodwork Standards ed. 1, p. 279"
	rk  = "Roark's Formulas, Table 11.4 case 1a"
	own = "by hand from the source's formula"
)

// publishedRows is the table that the README shows.
func publishedRows() []published {
	var all []published
	about := ""
	add := func(input, source string, want, tol float64, unit string, got float64) {
		all = append(all, published{about, input, source, want, tol, unit, got})
	}

	about = "Weight of sheets"
	panel := func(l, w, t measure.Length) float64 { // m³
		return Volume(part.Part{Box: geom.At(0, 0, 0, l, w, t)})
	}
	in := measure.Inch
	rho, _ := Density(project.Material{Kind: "plywood"})
	add("softwood plywood, 96 × 48 × 3/4 in", "3.0 lb/ft² per inch of thickness, a plywood trade association's rule", 72.0, .1, "lb", panel(96*in, 48*in, in*3/4)*rho/pound)
	for _, r := range []struct {
		name    string
		pcf, lb float64
	}{{"hardwood plywood", 33.8, 45}, {"particleboard", 45.8, 61}, {"MDF", 50.0, 66.7}} {
		add(r.name+", 96 × 48 × 1/2 in at "+fixed(r.pcf, 1)+" lb/ft³", "listed sheet weights", r.lb, .1, "lb", panel(96*in, 48*in, in/2)*r.pcf*pcf/pound)
	}

	about = "Density of wood"
	for _, r := range []struct {
		name string
		pcf  float64
	}{{"red maple", 37.7}, {"yellow birch", 43.3}, {"paper birch", 38.4}, {"cherry", 34.9}, {"white ash", 41.9}, {"beech", 44.7}, {"douglas-fir", 33.5}} {
		w, _ := stock.WoodOf(r.name)
		add(r.name+", G "+fixed(w.G, 2)+" at 12 %", wh+", Table 5-3b: 62.4·G·1.12", r.pcf, .1, "lb/ft³", WoodDensity(w.G, 12)/pcf)
	}
	add("G 0.40 at 12 %", wh+", ch. 4, example by D. R. Larsen", 27.968, .005, "lb/ft³", WoodDensity(.40, 12)/pcf)
	add("G 0.40 at 12 %", wh+", ch. 4, example by D. R. Larsen", 448, .5, "kg/m³", WoodDensity(.40, 12))
	add("oven-dry G 0.50 at 12 %", "National Design Specification, "+own, 33.15, .02, "lb/ft³", DryDensity(.50, 12)/pcf)
	add("oven-dry G 0.50 at 19 %", "National Design Specification, "+own, 34.20, .02, "lb/ft³", DryDensity(.50, 19)/pcf)
	add("back from 33.15 lb/ft³ at 12 %", "National Design Specification, "+own, .50, .001, "", DryGravity(33.15*pcf))

	about = "Wood over the seasons"
	moves := func(w, c, from, to float64) float64 { v, _ := stock.Movement(w, c, from, to); return v }
	add("red alder, flat-sawn, 8 in, 6 %", "WOOD magazine, 2021", .1248, .0001, "in", moves(8, .0026, 6, 12))
	oak, _ := stock.WoodOf("red oak")
	maple, _ := stock.WoodOf("sugar maple")
	add("red oak, flat-sawn, 12 in, 6 to 12 %", wh+", Table 13-5, "+own, .266, .0005, "in", moves(12, oak.CT, 6, 12))
	add("red oak, quarter-sawn, 12 in, 6 to 12 %", wh+", Table 13-5, "+own, .114, .0005, "in", moves(12, oak.CR, 6, 12))
	add("sugar maple stile, 2 1/2 in, 8 to 12 %", wh+", Table 13-5, "+own, .035, .0005, "in", moves(2.5, maple.CT, 8, 12))

	add("moisture at 140 °F and 55 %", "Hailwood-Horrobin equation, an encyclopedia's example", 8.4, .05, "%", stock.Moisture(55, 140))

	about = "Sag of a beam"
	// Red oak 3/4 × 11 1/4 in on 36 in under 100 lb.
	board := Rect(11.25*inch, .75*inch, 1.82e6*psi)
	sag := func(b Beam, s Section, w, l float64) float64 { y, _ := b.Sag(w*lbf, l*inch, s); return y / inch }
	add("red oak 3/4 × 11 1/4 in, span 36 in, 100 lb spread", wh+", eq. 9-2, Table 9-1, "+own, .0844, .0001, "in", sag(SpreadSimple, board, 100, 36))
	add("the same in the middle", wh+", eq. 9-2, Table 9-1, "+own, .1350, .0001, "in", sag(PointSimple, board, 100, 36))
	add("in the middle over spread", wh+", Table 9-1", 1.6, 1e-9, "", sag(PointSimple, board, 100, 36)/sag(SpreadSimple, board, 100, 36))
	add("clamped over simple, spread", wh+", Table 9-1", .2, 1e-9, "", sag(SpreadFixed, board, 100, 36)/sag(SpreadSimple, board, 100, 36))
	add("clamped over simple, in the middle", wh+", Table 9-1", .25, 1e-9, "", sag(PointFixed, board, 100, 36)/sag(PointSimple, board, 100, 36))
	add("three times as wide", "Record, Mechanical Properties of Wood", 1./3, 1e-9, "times", sag(PointSimple, Rect(3*11.25*inch, .75*inch, 1.82e6*psi), 100, 36)/sag(PointSimple, board, 100, 36))
	add("three times as deep", "Record, Mechanical Properties of Wood", 1./27, 1e-9, "times", sag(PointSimple, Rect(11.25*inch, 3*.75*inch, 1.82e6*psi), 100, 36)/sag(PointSimple, board, 100, 36))
	add("three times the span", "Record, Mechanical Properties of Wood", 27, 1e-9, "times", sag(PointSimple, board, 100, 108)/sag(PointSimple, board, 100, 36))

	about = "Shelf spans to L/144"
	for _, r := range []struct {
		name               string
		e, t               float64
		p40, f40, p50, f50 float64
	}{
		{"fir plywood", 950000, .75, 40, 40.03, 37, 37.16}, {"fir plywood", 950000, 1, 53, 53.37, 49, 49.54},
		{"hardwood-faced plywood", 1.8e6, .75, 49, 49.53, 46, 45.98}, {"hardwood-faced plywood", 1.8e6, 1, 66, 66.04, 61, 61.30},
		{"red oak", 1.82e6, .75, 49, 49.71, 46, 46.15},
	} {
		for _, q := range []struct{ load, printed, formula float64 }{{40, r.p40, r.f40}, {50, r.p50, r.f50}} {
			got := Span(r.e*psi, r.t*inch, q.load*psf, 144) / inch
			in := r.name + ", " + strconv.FormatFloat(r.t, 'g', -1, 64) + " in, " + fixed(q.load, 0) + " lb/ft²"
			add(in, aws+", printed, cut to whole inches", q.printed, 1, "in", got)
			add(in, aws+", its formula", q.formula, .01, "in", got)
		}
	}

	about = "Limits of sag"
	for i, want := range []float64{.1875, 3. / 32, .060, .250} {
		add("36 in, “"+limits[i].key+"”", limits[i].name, want, 1e-9, "in", limits[i].at(36*inch)/inch)
	}
	add("60 in, “kcma”", limits[0].name, .25, 1e-9, "in", limits[0].at(60*inch)/inch)

	about = "Plates, all edges simply held"
	for _, r := range [][3]float64{{1, .0444, .2874}, {1.2, .0616, .3762}, {1.4, .0770, .4530}, {1.6, .0906, .5172}, {1.8, .1017, .5688},
		{2, .1110, .6102}, {3, .1335, .7134}, {4, .1400, .7410}, {5, .1417, .7476}, {1e6, .1421, .7500}} {
		// A plate with q·b⁴/E·t³ and q·b²/t² of one.
		y, st, _ := Plate(r[0], 1, .01, 1e6, 1)
		name := fixed(r[0], 1)
		if r[0] > 100 {
			name = "without end"
		}
		add("α, sides "+name, rk, r[1], .00005, "", y)
		add("β, sides "+name, rk, r[2], .00005, "", st/1e4)
	}
	plate := func(a, b, t, lb float64) float64 {
		y, _, _ := Plate(a*inch, b*inch, t*inch, 1.2e6*psi, lb*lbf/(a*b*inch*inch))
		return y / inch
	}
	add("24 × 20 × 1/4 in, 30 lb, E 1,200,000 psi", rk+", "+own, .033, .0005, "in", plate(24, 20, .25, 30))
	add("the same, truly 0.203 in thick", rk+", "+own, .061, .0005, "in", plate(24, 20, .203, 30))
	add("20 × 20 × 0.20 in, 30 lb", rk+", "+own, .0555, .0001, "in", plate(20, 20, .20, 30))

	about = "Plywood along and across"
	for _, r := range []struct {
		n        int
		num, den float64
	}{{3, 26, 27}, {5, 99, 125}, {7, 244, 343}, {9, 485, 729}} {
		al, ac := PlyShares(r.n)
		add(strconv.Itoa(r.n)+" equal plies, along", "layers of a beam, cross plies left out, exact", r.num/r.den, 1e-12, "of E·I", al)
		add(strconv.Itoa(r.n)+" equal plies, across", "layers of a beam, cross plies left out, exact", 1-r.num/r.den, 1e-12, "of E·I", ac)
	}

	about = "Screws"
	per := func(g, d float64) float64 { return Withdrawal(g, d) / lbf * inch }
	add("withdrawal, G 0.45, No. 10", "NDS, an engineers' page prints 109", 109, .7, "lb/in", per(.45, no10))
	add("withdrawal, G 0.42, No. 8", "NDS, "+own, 82, .5, "lb/in", per(.42, no8))
	add("withdrawal, G 0.63, No. 8", "NDS, "+own, 186, .5, "lb/in", per(.63, no8))
	add("withdrawal, G 0.35, No. 8", "NDS, "+own, 57, .5, "lb/in", per(.35, no8))
	add("shear, Douglas-fir (group II), No. 10", "civil engineers' handbook, eq. 6.38", 143, .5, "lb", Lateral(2, no10)/lbf)
	add("shear, group III, No. 8", "civil engineers' handbook, eq. 6.38", 87, .5, "lb", Lateral(3, no8)/lbf)

	add("No. 10, diameter", "an engineers' page on withdrawal", .190, .0005, "in", no10/inch)
	add("No. 8, diameter", "a tool magazine, to hundredths", .16, .005, "in", no8/inch)
	for _, r := range []struct {
		wood  string
		g     float64
		group int
	}{{"Douglas fir", .51, 2}, {"southern pine", .59, 2}, {"western hemlock", .44, 3}, {"Norway pine", .47, 3}, {"spruce", .41, 4}} {
		add("group of "+r.wood+", G "+fixed(r.g, 2), "civil engineers' handbook, table 6.2", float64(r.group), .1, "", float64(Group(r.g)))
	}

	about = "Drawers"
	add("20 × 20 in at 15 lb/ft²", "KCMA A161.1, "+own, 41.7, .05, "lb", 15*psf*20*20*inch*inch/lbf)

	about = "Casters and pushing"
	add("300 kg on four casters", "makers of casters, three pages", 100, 1e-6, "kg", ThreeOfFour(measure.FromKg(300), 4).Kg())
	add("600 lb on four casters", "makers of casters, "+own, 200, 1e-6, "lb", ThreeOfFour(600*measure.Pound, 4).Lb())
	for _, r := range []struct{ wheel, concrete, carpet float64 }{{3, 17.3, 35.4}, {4, 13.0, 26.6}, {6, 8.7, 17.7}} {
		const src = "Al-Eisawi and others, Applied Ergonomics 30, 1999, " + own
		add("300 lb, "+fixed(r.wheel, 0)+" in wheels, smooth concrete", src, r.concrete, .06, "lb", Rolling(.0022, 300, r.wheel/2*inch))
		add("300 lb, "+fixed(r.wheel, 0)+" in wheels, carpet", src, r.carpet, .06, "lb", Rolling(.0045, 300, r.wheel/2*inch))
	}

	about = "Lifting by one person"
	const niosh = "NIOSH 94-110"
	add("the best place", niosh, 51, 1e-9, "lb", Lift{H: 10, V: 30, D: 10, Grip: GoodGrip}.Limit())
	add("example 4, origin: H 10, V 22, D 37, FM 0.88, fair", niosh+", p. 46", 34.9, .12, "lb", Lift{H: 10, V: 22, D: 37, FM: .88}.Limit())
	add("example 4, destination: H 20, V 59", niosh+", p. 46", 15.2, .12, "lb", Lift{H: 20, V: 59, D: 37, FM: .88}.Limit())
	add("H 23, V 15, D 48, fair", niosh+", "+own, 16.03, .01, "lb", Lift{H: 23, V: 15, D: 48}.Limit())
	add("H 23, V 63, D 48, fair", niosh+", "+own, 14.31, .01, "lb", Lift{H: 23, V: 63, D: 48}.Limit())
	add("reach for a box 20 in deep, hands over 10 in", niosh, 18, 1e-9, "in", Reach(20, 12))
	add("reach for a box 20 in deep, hands under 10 in", niosh, 20, 1e-9, "in", Reach(20, 5))

	about = "Tipping"
	// A body of 150 lb and three drawers of 40 lb, all 9 in behind the pivot;
	// the drawers open by 20 in.
	for open, want := range [...][3]float64{{2430, 9.00, 81.0}, {1630, 6.04, 54.3}, {830, 3.07, 27.7}, {30, .11, 1.0}} {
		kg, x := []float64{150 * pound}, []float64{9 * inch}
		for i := range 3 {
			at := 9.0
			if i < open {
				at -= 20
			}
			kg, x = append(kg, 40*pound), append(x, at*inch)
		}
		m := Tipping(kg, x) / (lbf * inch)
		name := strconv.Itoa(open) + " of 3 drawers open"
		add(name+", holds", "plain statics", want[0], 1e-6, "lb·in", m)
		add(name+", centre of gravity behind the pivot", "plain statics", want[1], .005, "in", m/270)
		add(name+", pull at 30 in that tips it", "plain statics", want[2], .05, "lb", m/30)
	}
	add("slope, centre of gravity 9 in back, 30 in up", "plain statics", 16.7, .05, "°", Angle(9, 30))

	about = "Tolerances"
	stack := func(tols ...float64) (Chain, []Source) {
		var c Chain
		var s []Source
		for i, t := range tols {
			s = append(s, Source{Tol: t})
			c.Terms = append(c.Terms, Term{i, 1})
		}
		return c, s
	}
	both := func(name, source string, worst, likely, tol float64, unit string, tols ...float64) {
		c, s := stack(tols...)
		add(name+", worst case", source, worst, tol, unit, c.Worst(s))
		add(name+", root sum of squares", source, likely, tol, unit, c.Likely(s))
	}
	both("ten parts of ± 0.1", "a tolerance tutorial", 1.0, .316, .0005, "", .1, .1, .1, .1, .1, .1, .1, .1, .1, .1)
	both("± 0.20, 0.10, 0.15", "a tolerance tutorial", .45, .269, .0005, "", .2, .1, .15)
	both("five cuts of ± 1/64 in", own, .0781, .0349, .0001, "in", 1./64, 1./64, 1./64, 1./64, 1./64)
	c, s := stack(1./64, 1./64)
	add("two sanded panels of ± 1/64 in at a joint, worst case", "PS 1-19, the trade association's example", 1./32, 1e-12, "in", c.Worst(s))
	shared := Chain{Terms: []Term{{0, 1}, {0, 1}, {0, 1}, {0, 1}, {0, 1}}}
	add("one sheet's error counted five times, likely", "n-fold, not √n-fold: plain arithmetic", 5./64, 1e-12, "in", shared.Likely([]Source{{Tol: 1. / 64}}))
	add("out of square, 24 × 30 in, diagonals 1/16 in apart", "geometry of the rectangle", .050, .0005, "in", float64(design.OutOf(24*in, 30*in, in/16))/float64(in))
	return all
}

// TestPublished holds this package against what others have printed, and writes
// the table that the README shows.
func TestPublished(t *testing.T) {
	rows := publishedRows()
	if len(rows) < 60 {
		t.Errorf("only %d published values", len(rows))
	}
	var b strings.Builder
	b.WriteString("<!-- Written by go test ./engine/check -update; do not edit. -->\n\n| what | input | source | theirs | ours | within |\n|---|---|---|---:|---:|---:|\n")
	about := ""
	for _, r := range rows {
		if !(math.Abs(r.got-r.want) <= r.tol) || r.tol <= 0 {
			t.Errorf("%s: %s: got %v %s, want %v ± %v (%s)", r.about, r.input, r.got, r.unit, r.want, r.tol, r.source)
		}
		head := ""
		if r.about != about {
			head, about = r.about, r.about
		}
		num := func(v float64) string { return strings.TrimSpace(strconv.FormatFloat(v, 'g', 5, 64) + " " + r.unit) }
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s |\n", head, r.input, r.source, num(r.want), num(r.got), strconv.FormatFloat(r.tol, 'g', 2, 64))
	}
	golden(t, "../../testdata/published.md", func(string) string { return b.String() })
	// The README shows the same between two marks.
	golden(t, "../../README.md", func(was string) string {
		head, rest, ok := strings.Cut(was, "<!-- published -->\n")
		_, tail, okToo := strings.Cut(rest, "<!-- /published -->")
		if !ok || !okToo {
			t.Fatal("README.md has lost the place of the table")
		}
		_, table, _ := strings.Cut(b.String(), "\n\n")
		return head + "<!-- published -->\n" + table + "<!-- /published -->" + tail
	})
}

// golden compares a file with what it should be.
func golden(t *testing.T, name string, want func(was string) string) {
	t.Helper()
	was, err := os.ReadFile(name)
	if err != nil && !*update {
		t.Fatal(err)
	}
	is := want(string(was))
	if *update {
		if err := os.WriteFile(name, []byte(is), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if string(was) != is {
		t.Errorf("%s is not what the table says: go test ./engine/check -update, and read the difference", name)
	}
}
