package work

import (
	"strconv"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// Supplies, common practice without a source: edging comes in rolls of 25 ft
// or 7.5 m, one part in ten goes to waste at the ends; a sheet of abrasive, 9 ×
// 11 in, does 20 ft² of one grit, and three grits come before a finish.
const (
	rollInch   = 300 * measure.Inch
	rollMetric = 7500 * measure.MM
	sheetFeet  = 20
	grits      = 3
)

// supplies lists what is bought besides wood: the hardware, screws by length,
// then edging, abrasive, finish.
func supplies(p *project.Project, c design.Cart) []design.Hardware {
	var out []design.Hardware
	for _, h := range c.Hardware {
		out = append(out, bySize(c, h)...)
	}
	t := p.Measure()
	if l := plyEdges(p, c); l > 0 {
		roll := rollInch
		long := "25 ft"
		if t.Metric {
			roll, long = rollMetric, "7.5 m"
		}
		out = append(out, design.Hardware{ID: "edging", Name: "Edging, roll of " + long, Count: int((l*11/10 + roll - 1) / roll),
			Why: t.Show(t.Ceil(l)) + " " + t.Unit() + " of ply edges that show, one in ten to spare; leave it out if you like them bare"})
	}
	f := Finish(p, c)
	if f.Area > 0 {
		n := int(f.Area/ft2/sheetFeet) + 1
		can := "quart"
		if t.Metric {
			can = "0.75 L"
		}
		out = append(out,
			design.Hardware{ID: "abrasive", Name: "Abrasive, sheets 9 × 11 in", Count: grits * n,
				Why: strconv.Itoa(n) + " each of 120, 180 and 240 grit: " + area(t, f.Area) + ", a sheet for each " + area(t, sheetFeet*ft2)},
			design.Hardware{ID: "finish", Name: "Oil or varnish, " + can, Count: f.Cans, Why: area(t, f.Area) + ", " + f.Rule})
	}
	return out
}

// area shows m² in the unit of the tape.
func area(t measure.Tape, m2 float64) string {
	if t.Metric {
		return strconv.FormatFloat(m2, 'f', 1, 64) + " m²"
	}
	return strconv.FormatFloat(m2/ft2, 'f', 0, 64) + " ft²"
}

// bySize parts a row of screws by their lengths, each with one in ten to spare;
// what is at home is taken to be of the length that most are of.
func bySize(c design.Cart, h design.Hardware) []design.Hardware {
	kind, fixes := design.Through, h.ID == "front-screw"
	switch h.ID {
	case "pocket-screw":
		kind = design.Pocket
	case "pin":
		kind = design.Pinned
	case "front-screw", "wood-screw":
	default:
		return []design.Hardware{h}
	}
	var longs []measure.Length
	count := map[measure.Length]int{}
	for _, s := range c.Screws {
		if s.Kind != kind || kind == design.Through && c.Fixes(s) != fixes {
			continue
		}
		if count[s.Long]++; count[s.Long] == 1 {
			longs = append(longs, s.Long)
		}
	}
	for i := range longs { // most of one length first, then by length
		for k := i; k > 0; k-- {
			a, b := longs[k-1], longs[k]
			if count[a] > count[b] || count[a] == count[b] && a < b {
				break
			}
			longs[k-1], longs[k] = b, a
		}
	}
	if len(longs) == 0 {
		return []design.Hardware{h}
	}
	var out []design.Hardware
	for i, l := range longs {
		row := h
		size := c.Tape.Show(l) + " " + c.Tape.Unit()
		row.Name += ", " + size
		if i > 0 {
			row.ID += "/" + strconv.Itoa(i+1)
		}
		if len(longs) > 1 {
			row.Count = count[l] + (count[l]+9)/10
			row.Why = strconv.Itoa(count[l]) + " of " + size + " and one in ten to spare"
		}
		out = append(out, row)
	}
	return out
}

// plyEdges is the length of the plywood edges that show: fronts of the case
// unless they are covered, and all round drawer fronts and doors.
func plyEdges(p *project.Project, c design.Cart) (sum measure.Length) {
	for _, q := range c.Parts {
		m, _ := p.Material(q.Material)
		switch {
		case m.Kind == "solid" || q.Loose:
		case q.Front == "front edge" && p.Cabinet.Face.Kind != "strips" && p.Cabinet.Face.Kind != "frame":
			sum += max(q.Box.Size(geom.X), q.Box.Size(geom.Z))
		case q.Front == "face" && (q.Drawer > 0 || q.Door > 0):
			sum += 2 * (q.Length + q.Width)
		}
	}
	return sum
}
