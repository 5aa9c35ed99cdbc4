package check

import (
	"strconv"

	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// tries of the sampling: a standard error of 1.1 % at most.
const tries = 2000

// noLimit stands for a gap that may be as wide as it likes.
const noLimit = 1e3

// with says how the chains are built: as the project stands, or with a change.
type with struct {
	measured bool // every sheet's thickness measured with a caliper
	after    bool // boxes and fronts cut once the case stands
	closer   bool // every cut twice as closely
}

// A chainer builds the chains of a cart over shared sources.
type chainer struct {
	*run
	with
	src    []Source
	at     map[string]int
	half   float64 // of the accuracy of a cut
	store  float64 // what a store cut can be off by beyond the trim
	chains []Chain
}

const caliper = 1e-4 // ± of a thickness read with a caliper: common practice, no source

// source returns the index of a source, made when it is first asked for.
func (k *chainer) source(name string, tol, mean float64) int {
	i, ok := k.at[name]
	if !ok {
		i = len(k.src)
		k.at[name] = i
		k.src = append(k.src, Source{name, tol, mean})
	}
	return i
}

// thick is how far a material can be from the thickness planned with.
func (k *chainer) thick(id string) int {
	m, _ := k.p.Material(id)
	tol := inch / 32 // PS 1-19, unsanded panels up to 13/16
	switch {
	case k.measured || m.Measured > 0:
		tol = caliper
	case m.Kind == "mdf":
		tol = 2.5e-4 // A208.2: average and within a panel, 0.125 mm each
	case m.Kind == "solid":
		tol = inch / 64 // common practice, no source
	}
	if m.Scatter > 0 && !k.measured {
		tol = m.Scatter.Metres()
	}
	return k.source("thickness of "+or(m.Name, id), tol, 0)
}

// cut adds the cut that brings a part to its size along an axis. What is known
// of the saw that makes it counts: its offset, shared by all it cuts, and its
// scatter. Of a saw that nobody measured half of the accuracy is the setting,
// shared by all parts cut on it, half the cut's own. What rounding to the tape
// did is known, and in the planned gap; it is kept to be shown.
func (k *chainer) cut(c *Chain, times float64, setting, own string, id part.ID, along geom.Axis) {
	var l Learned
	if q, ok := k.part(id); ok {
		size, reason := q.Length, q.Reasons[0]
		if q.LengthAxis != along {
			size, reason = q.Width, q.Reasons[1]
		}
		c.Known = append(c.Known, Known{setting, times * reason.Off.Metres()})
		for i, line := range k.c.Lines {
			for _, x := range line.Parts {
				if x == id {
					l = k.of(k.sawOf(i, size))
				}
			}
		}
	} else {
		l = k.of("")
	}
	put := func(name string, tol, mean float64) {
		c.Terms = append(c.Terms, Term{k.source(name, tol, mean), times})
	}
	if l.Pieces >= 5 && l.Scatter > 0 {
		mean, scatter := 0.0, 3*l.Scatter
		if l.sure() {
			mean = l.Mean
		}
		if k.closer {
			scatter /= 2
		}
		put("offset of "+or(l.Saw, "your saw"), 1.5*l.MeanError, mean)
		put("cut of "+own, scatter, 0)
	} else {
		put("setting of "+setting, k.half, 0)
		put("cut of "+own, k.half, 0)
	}
	if k.store > 0 {
		put("store cut beyond its trim, "+own, k.store, 0)
	}
}

// of is what is known of a saw; of one that is not known, what all pieces say.
func (r *run) of(saw string) Learned {
	for _, l := range r.Saws {
		if l.Saw == saw && saw != "" {
			return l
		}
	}
	for _, l := range r.Saws {
		if l.Saw != "" && saw != "" {
			return Learned{} // pieces of other saws tell nothing
		}
	}
	return r.pool
}

// opening adds what the clear width of a bay comes of.
func (k *chainer) opening(c *Chain, i int) {
	p, name := k.p, k.c.Bays[i].Name
	if i < len(p.Cabinet.Bays) {
		if m := p.Cabinet.Bays[i].Measured; k.after || m != nil && (m.Front > 0 || m.Back > 0) {
			c.Terms = append(c.Terms, Term{k.source("measuring "+name, k.t.Least().Metres()/2, 0), 1})
			return
		}
	}
	bays := p.Cabinet.Bays
	fixed := func(j int) bool { return j < len(bays) && bays[j].Width > 0 }
	layout := func(j int, times float64) {
		c.Terms = append(c.Terms, Term{k.source("laying out bay "+strconv.Itoa(j+1), 2*k.half, 0), times})
	}
	if fixed(i) || p.Cabinet.Face.Kind == "frame" {
		layout(i, 1)
		return
	}
	// It takes what the case leaves: every upright's thickness counts, and the
	// other bays as they were laid out.
	k.cut(c, 1, "the bottom's length", "the bottom", "bottom", geom.X)
	t := k.thick(p.Cabinet.Material)
	uprights := len(k.c.Bays) + 1
	if p.Cabinet.Bottom == "between" {
		uprights -= 2
	}
	for range uprights {
		c.Terms = append(c.Terms, Term{t, -1})
	}
	for j := range k.c.Bays {
		if j != i {
			layout(j, -1)
		}
	}
}

func (k *chainer) add(c Chain) { k.chains = append(k.chains, c) }

// build makes all chains of the cart.
func (k *chainer) build() {
	p, c := k.p, k.c
	box := k.thick(p.Drawers.Box)
	slide := positive(p.Drawers.SlideThick.Metres(), inch/2)
	least, most := .0004, inch/16 // a slide maker's guide; a carpenter's account
	if p.Drawers.Slide == "wood" {
		slide, most = 0, inch/4 // common practice, no source
	}
	for i, d := range c.Drawers {
		name := k.drawerName(i)
		ch := Chain{Name: name + " on its slides", Gap: 2 * (d.Side.Metres() - slide), Least: least, Most: most, Path: "drawers.allowance", drawer: true}
		k.opening(&ch, d.Bay)
		// Front and back of a box are cut together at one stop.
		k.cut(&ch, -1, "box fronts of "+k.t.Text(d.Inside.Size(geom.X)), "the box of drawer "+strconv.Itoa(i+1), k.drawerPart(i, "box-front"), geom.X)
		ch.Terms = append(ch.Terms, Term{box, -1}, Term{box, -1})
		k.add(ch)
	}
	if p.Drawers.Fit != "overlay" {
		k.fronts()
	}
	for i, b := range p.Cabinet.Bays {
		for _, o := range b.Openings {
			if o.Holds == nil || o.Holds.Width <= 0 || i >= len(c.Bays) {
				continue
			}
			gap := c.Bays[i].Width - o.Holds.Width
			ch := Chain{Name: or(o.Holds.Name, "what it holds") + " in " + c.Bays[i].Name, Gap: gap.Metres(), Most: noLimit, Path: "cabinet.bays." + strconv.Itoa(i) + ".width"}
			k.opening(&ch, i)
			k.add(ch)
		}
	}
	k.height()
}

// fronts adds the reveals of inset fronts, across and up.
func (k *chainer) fronts() {
	c := k.c
	for i, d := range c.Drawers {
		gap := (d.GapLeft + d.GapRight).Metres()
		ch := Chain{Name: "front of " + k.drawerName(i) + ", sideways", Gap: gap, Least: inch / 32, Most: 2*gap + inch/32, Path: "drawers.gap"}
		k.opening(&ch, d.Bay)
		k.cut(&ch, -1, "fronts of "+k.t.Text(d.Front.Size(geom.X)), "the front of drawer "+strconv.Itoa(i+1), k.drawerPart(i, "front"), geom.X)
		k.add(ch)
	}
	k.doors()
	for j, b := range c.Bays {
		ch := Chain{Name: "fronts of " + b.Name + ", up", Path: "drawers.gap"}
		n := 0
		last := measure.Length(0)
		for i, d := range c.Drawers {
			if d.Bay != j {
				continue
			}
			n++
			ch.Gap += d.GapAbove.Metres()
			last = d.GapBelow
			k.cut(&ch, -1, "fronts "+k.t.Text(d.Front.Size(geom.Z))+" high", "the height of front "+strconv.Itoa(i+1), k.drawerPart(i, "front"), geom.Z)
		}
		if n == 0 || n != len(b.Openings) {
			continue // an open cell takes what is left
		}
		ch.Gap += last.Metres()
		ch.Least, ch.Most = float64(n+1)*inch/64, 2*ch.Gap+inch/32
		k.cut(&ch, 1, "the sides' height", "a side", "side-left", geom.Z)
		if u := k.p.Cabinet.Upper; u != "" && u != "sides" {
			ch.Terms = append(ch.Terms, Term{k.thick(k.p.Cabinet.Material), -1})
		}
		if k.p.Cabinet.Bottom == "between" {
			ch.Terms = append(ch.Terms, Term{k.thick(k.p.Cabinet.Material), -1})
		}
		k.add(ch)
	}
}

// doors adds the gaps beside the doors of each opening: what its bay leaves,
// less the leaves.
func (k *chainer) doors() {
	c := k.c
	for i := 0; i < len(c.Doors); {
		d := c.Doors[i]
		ch := Chain{Name: "doors of " + c.Bays[d.Bay].Openings[d.Opening].Name + ", sideways", Gap: c.Bays[d.Bay].Width.Metres(), Path: "drawers.gap"}
		k.opening(&ch, d.Bay)
		n := 0
		for ; i < len(c.Doors) && c.Doors[i].Bay == d.Bay && c.Doors[i].Opening == d.Opening; i++ {
			n++
			wide := c.Doors[i].Front.Size(geom.X)
			ch.Gap -= wide.Metres()
			k.cut(&ch, -1, "doors of "+k.t.Text(wide), "door "+strconv.Itoa(i+1), k.doorPart(i), geom.X)
		}
		ch.Least, ch.Most = float64(n+1)*inch/64, 2*ch.Gap+inch/32
		k.add(ch)
	}
}

func (k *chainer) doorPart(i int) part.ID {
	for _, q := range k.c.Parts {
		if q.Door == i+1 {
			return q.ID
		}
	}
	return ""
}

// drawerPart is the ID of a part of a drawer, from 0.
func (r *run) drawerPart(i int, what string) part.ID {
	d := r.c.Drawers[i]
	return part.ID("bay" + strconv.Itoa(d.Bay+1) + "/drawer" + strconv.Itoa(d.Opening+1) + "/" + what)
}

// height adds the line-up of the machine's table with the other surface.
func (k *chainer) height() {
	p, c := k.p, k.c
	if c.Surface <= 0 {
		return
	}
	step := positive(p.LineUp.Step.Metres(), inch/16)
	ch := Chain{Name: "line-up with the " + or(p.LineUp.Name, "other surface"), Gap: (c.Reached - c.Surface).Metres(), Least: -step, Most: step, Path: "lineUp.step"}
	switch p.LineUp.Role {
	case "", "receives":
		ch.Least, ch.Most = 0, 3*step
	case "feeds":
		ch.Least, ch.Most = -3*step, 0
	}
	k.cut(&ch, 1, "the sides' height", "a side", "side-left", geom.Z)
	tape := k.t.Least().Metres() / 2
	if p.Cabinet.Bottom != "between" {
		ch.Terms = append(ch.Terms, Term{k.thick(p.Cabinet.Material), 1})
	}
	top := k.thick(or(p.Cabinet.Top.Material, p.Cabinet.Material))
	for range min(max(p.Cabinet.Top.Layers, 1), 2) {
		ch.Terms = append(ch.Terms, Term{top, 1})
	}
	ch.Terms = append(ch.Terms,
		Term{k.source("measuring the casters", tape, 0), 1},
		Term{k.source("measuring the machine", tape, 0), 1},
		Term{k.source("measuring the other surface", tape, 0), -1})
	k.add(ch)
}
