package design

import (
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// Limit: a size is beyond what can be planned. Args: what it is (string), the
// size (Length), least (Length), most (Length), what is used (Length).
// Example: limit.json
const Limit issue.Code = "design.limit"

// sane returns p with every size that nobody can mean brought to the nearest one
// that can be planned, each told. p itself is not changed.
func sane(p *project.Project, t measure.Tape, f *issue.List) *project.Project {
	q := *p
	limit := func(path, what string, v *measure.Length, least, most measure.Length) {
		if *v == 0 || *v >= least && *v <= most {
			return
		}
		used := min(max(*v, least), most)
		if *v < 0 && least > 0 {
			used = 0 // the usual one
		}
		f.Add(issue.Warn, Limit, []string{path}, what, *v, least, most, used)
		*v = used
	}
	if t.Least() > in/8 {
		q.Tape.Step = t.Least()
		limit("tape.step", "A step of the tape", &q.Tape.Step, 1, in/8)
	}
	c, d, b := &q.Cabinet, &q.Drawers, &q.Base
	for _, x := range []struct {
		path, what  string
		v           *measure.Length
		least, most measure.Length
	}{
		{"cabinet.top.overhang.left", "An overhang", &c.Top.Overhang.Left, 0, 24 * in},
		{"cabinet.top.overhang.right", "An overhang", &c.Top.Overhang.Right, 0, 24 * in},
		{"cabinet.top.overhang.front", "An overhang", &c.Top.Overhang.Front, 0, 24 * in},
		{"cabinet.top.overhang.back", "An overhang", &c.Top.Overhang.Back, 0, 24 * in},
		{"cabinet.face.thick", "A strip", &c.Face.Thick, in / 16, in},
		{"cabinet.face.stile", "A stile", &c.Face.Stile, in / 2, mostSize},
		{"cabinet.face.rail", "A rail", &c.Face.Rail, in / 2, mostSize},
		{"cabinet.back.rail", "A rail of the back", &c.Back.Rail, in / 2, mostSize},
		{"cabinet.stretcher", "A stretcher", &c.Stretcher, in / 2, mostSize},
		{"drawers.slideLength", "A slide", &d.SlideLength, 4 * in, mostSize},
		{"drawers.slideThick", "The thickness of a slide", &d.SlideThick, in / 8, 2 * in},
		{"drawers.allowance", "The play of a box", &d.Allowance, in / 128, in},
		{"drawers.groove", "A groove", &d.Groove, in / 16, 2 * in},
		{"drawers.below", "The front below the box", &d.Below, 1, mostSize},
		{"drawers.above", "The front above the box", &d.Above, 1, mostSize},
		{"drawers.pull", "The spacing of a pull", &d.Pull, in, 24 * in},
		{"drawers.pullAt", "The pull's distance from the front's edge", &d.PullAt, 1, mostSize},
		{"base.caster.plate", "A plate", &b.Caster.Plate, in, 8 * in},
		{"base.floor", "A difference in the floor", &b.Floor, 1, 4 * in},
		{"base.inset", "The plates' distance from the edge", &b.Inset, 1, 4 * in},
	} {
		limit(x.path, x.what, x.v, x.least, x.most)
	}
	if d.Reserve != nil {
		v := *d.Reserve
		limit("drawers.reserve", "The reserve for what is measured late", &v, 0, in)
		d.Reserve = &v
	}
	for i, m := range p.Stock.Materials {
		if v := m.Thick(); v > 0 && (v < mm*5/2 || v > 2*in) {
			limit("stock.materials."+itoa(i)+".measured", "The thickness of "+m.Name, &v, mm*5/2, 2*in)
			list := append([]project.Material{}, q.Stock.Materials...)
			list[i].Measured = v
			q.Stock.Materials = list
		}
	}
	for i, bay := range p.Cabinet.Bays {
		for j, o := range bay.Openings {
			if o.Height < 0 || bay.Width < 0 {
				q.Cabinet.Bays = q.Clone().Cabinet.Bays
				bay := &q.Cabinet.Bays[i]
				limit("cabinet.bays."+itoa(i)+".width", "The width of a bay", &bay.Width, 0, mostSize)
				limit("cabinet.bays."+itoa(i)+".openings."+itoa(j)+".height", "The height of an opening", &bay.Openings[j].Height, 0, mostSize)
			}
		}
	}
	return &q
}
