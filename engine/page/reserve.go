package page

import (
	"strconv"

	"cartwright/engine/measure"
	"cartwright/engine/work"
)

// measureFirst reports whether the case is still to be measured for the parts
// that are cut last, and how much larger they may have to be.
func (b *builder) measureFirst() (reserve measure.Length, wait bool) {
	for _, q := range b.Job.Parts {
		reserve = max(reserve, q.Reserve.L, q.Reserve.W)
	}
	for i, bay := range b.Project.Cabinet.Bays {
		if i < len(b.Cart.Bays) && (bay.Measured == nil || bay.Measured.Front <= 0 && bay.Measured.Back <= 0) {
			for _, o := range bay.Openings {
				wait = wait || o.Kind == "drawer" || o.Kind == "door"
			}
		}
	}
	return reserve, wait && reserve > 0
}

// reserve says which parts can still come out larger, and which not.
func (b *builder) reserve() node {
	by, wait := b.measureFirst()
	if !wait || b.Offer != nil {
		return nodes{}
	}
	left, held := work.HeldBack(b.Job, b.Plan, b.Steps, b.so.now)
	all, has := 0, 0
	var not []string
	for i, n := range left {
		all, has = all+n, has+held[i]
		switch tag := b.Job.Parts[i].ID; {
		case held[i] == n:
		case held[i] > 0:
			not = append(not, strconv.Itoa(n-held[i])+" of "+strconv.Itoa(n)+" "+tag)
		default:
			not = append(not, tag)
		}
	}
	if all == 0 {
		return nodes{}
	}
	size := b.t.Show(by) + " " + b.t.Unit()
	say := "Boxes and fronts are cut last, when the case stands and its openings are measured. "
	switch {
	case has == 0:
		say += "None has a reserve: for " + size + " more it would take another sheet or store cut, or an extra pass at its neighbours."
	case has == all:
		say += "All " + strconv.Itoa(all) + " have a reserve: each can be up to " + size + " larger, from the same wood."
	default:
		say += strconv.Itoa(has) + " of " + strconv.Itoa(all) + " have a reserve: they can be up to " + size + " larger, from the same wood. Not " + listed(few(not, 8)) +
			": that would take another sheet or store cut, or an extra pass at their neighbours."
	}
	return div("insured", el("p", rich(say)))
}

// chained says that fronts whose grain runs on are cut again together.
func (b *builder) chained() string {
	for _, q := range b.Job.Parts {
		if q.Chain != "" && q.Count > 0 {
			return "Fronts whose grain runs on count as one: if one of them is spoiled all are cut again, from one strip, or the grain would break off."
		}
	}
	return ""
}

// standNow reports whether the case is to be measured now: none of the cuts that
// wait for it is made.
func (b *builder) standNow() bool {
	for _, c := range b.Steps.Shop {
		if c.Late && b.done(c.ID) {
			return false
		}
	}
	_, wait := b.measureFirst()
	return wait
}

// standFirst is what is to be done before cut i, if it is the first of those for
// which the case is measured.
func (b *builder) standFirst(i int) string {
	if c := &b.Steps.Shop[i]; !c.Late || i > 0 && b.Steps.Shop[i-1].Late {
		return ""
	}
	if _, wait := b.measureFirst(); !wait {
		return ""
	}
	return "Stand the case up first, and enter what its openings measure at Size: what follows is cut to that."
}

func (b *builder) reserveField() node {
	l, h := measure.Length(0), b.usual(measure.Inch/8, 3*measure.MM)
	if r := b.Project.Drawers.Reserve; r != nil {
		l, h = *r, hint{zero: true}
	}
	return b.length("drawers.reserve", "Wood in reserve, till the openings are measured", l, h)
}
