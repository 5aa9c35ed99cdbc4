package page

import (
	"strconv"

	"cartwright/engine/check"
	"cartwright/engine/nest"
)

// carSide is what goes into the car and how it lies there, trip by trip, or
// what would make it fit.
func (b *builder) carSide() node {
	car := b.Project.Car
	says := "The car sets no limit: none is entered."
	switch {
	case car.Delivered:
		says = "The store delivers: the car sets no limit."
	case len(b.Job.Car) > 0:
		var fits []string
		for _, r := range b.Job.Car {
			fits = append(fits, b.t.Show(r.L)+" × "+b.t.Show(r.W))
		}
		says = "A piece fits the car up to " + orList(fits) + "."
	}
	trips := check.Load(b.Project, b.Job, b.Plan, b.Steps)
	out := nodes{el("h2", text("Into the car")), el("p", rich(says)), b.carMends()}
	for i, t := range trips {
		head := "In one trip, " + b.heavy(t.Kg)
		if len(trips) > 1 {
			head = "Trip " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(trips)) + ", " + b.heavy(t.Kg)
		}
		if car.Most > 0 && t.Kg > car.Most.Kg() {
			head += ": more than the car takes; have this one delivered"
		}
		rows := nodes{}
		for k, s := range t.Stows {
			if k == 0 || t.Stows[k-1].Way != s.Way {
				rows = append(rows, el("tr", el("th", attr{"colspan", "4"}, attr{"class", "small"}, text([...]string{
					"Flat, from the floor up; the pile is ", "Over the seats, tied down", "Leaned, tilted through the opening"}[s.Way]), when(s.Way == check.Flat, nodes{size(b.t, b.t.Ceil(t.High)), text(" high")}))))
			}
			rows = append(rows, el("tr", el("th", attr{"scope", "row"}, span("rough", text(s.Name))),
				el("td", column(b.t, s.L)), el("td", column(b.t, s.W)), el("td", text(b.heavy(s.Kg)))))
		}
		out = append(out, el("h3", text(head)), el("table", attr{"class", "nums"}, attr{"aria-label", "Pieces for the car, in " + b.t.Unit()},
			el("thead", el("tr", el("td"), heads("long", "wide", "weight"))), el("tbody", rows)))
	}
	if len(trips) == 0 {
		if !b.anyRough() && !b.Findings.Has(nest.NoCar) && !b.Findings.Has(nest.NoCut) {
			return nil
		}
		return out
	}
	return append(out, el("p", attr{"class", "caution small"}, icon(triangle), span("", rich(check.CautionFor(check.LoadCar).Text()))))
}

func (b *builder) anyRough() bool {
	for _, r := range b.Steps.Rough {
		if !r.AtShop {
			return true
		}
	}
	return false
}

// carMends are the settings that would make everything fit the car.
func (b *builder) carMends() node {
	rows := nodes{}
	if !b.Findings.Has(nest.NoCar) && !b.Findings.Has(nest.NoCut) {
		return rows
	}
	for i, m := range check.CarMends(b.Project, b.Job) {
		act := item(nil)
		if !b.ReadOnly {
			act = button("plain", do(doSet, "path", m.Path, "value", m.Value), attr{"id", "car-" + strconv.Itoa(i)}, attr{"aria-label", "Try it: " + Plain(m.Text)}, text("Try it"))
		}
		rows = append(rows, el("li", span("", rich(m.Text+": "+m.Result)), act))
	}
	if len(rows) == 0 {
		return rows
	}
	return nodes{el("h3", text("Not everything fits. What would make it")), el("ul", attr{"class", "mends"}, rows)}
}
