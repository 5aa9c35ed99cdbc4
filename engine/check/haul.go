package check

import (
	"strconv"

	"cartwright/engine/issue"
	"cartwright/engine/nest"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// Haul adds to a report what the pieces of a plan weigh: in the car, where they
// must not be more than it may carry, and at the saw, where one person lifts
// them.
func (r *Report) Haul(p *project.Project, job nest.Job, plan nest.Plan, steps work.Steps) {
	if len(steps.Rough) == 0 {
		return
	}
	k := &run{Report: *r, p: p, t: p.Measure()}
	s := Sum{Title: "Pieces in the car and at the saw", Source: "Length × width × thickness × density. Sheets are outside the NIOSH lifting equation; over 51 lb (23 kg), the most that it allows one person at the best place, it is for two. What the car may carry is as entered."}
	var all, most float64
	name := ""
	for _, x := range steps.Rough {
		if x.Sheet < 0 || x.Sheet >= len(plan.Sheets) || plan.Sheets[x.Sheet].Stock >= len(job.Stock) {
			continue
		}
		m, _ := p.Material(job.Stock[plan.Sheets[x.Sheet].Stock].Material)
		rho, _ := Density(m)
		kg := x.Piece.L.Metres() * x.Piece.W.Metres() * m.Thick().Metres() * rho
		where := ""
		if x.AtShop {
			where = ", at home"
		} else {
			all += kg
		}
		s.row(x.Name+where, k.t.Show(x.Piece.L)+" × "+k.t.Show(x.Piece.W)+", "+or(m.Name, m.ID), k.kg(kg))
		if kg > most {
			most, name = kg, x.Name
		}
	}
	s.total("in the car", k.kg(all))
	limit := p.Car.Most.Kg()
	lift := "One person lifts each."
	if most > loadConstant*pound {
		lift = "Two people for " + name + ", " + k.kg(most) + "."
	}
	switch {
	case p.Car.Delivered:
		s.end(Fact, "Delivered: "+k.kg(all)+". "+lift)
	case limit <= 0:
		s.end(NotChecked, "Not checked: what the car may carry is not entered. They weigh "+k.kg(all)+". "+lift)
	case all <= limit:
		s.row("the car takes", "", k.kg(limit))
		s.end(Fine, "Fine: "+k.kg(all)+" in one trip. "+lift)
	case most > limit:
		s.row("the car takes", "", k.kg(limit))
		s.end(Fails, name+" alone is more than the car takes. Have it delivered.")
		r.Findings.Add(issue.Warn, Heavy, []string{"car.most"}, k.kg(all), k.kg(limit), int(min(all/limit, 1e6))+1)
		s.Mends = append(s.Mends, Mend{"car.delivered", "true", "Have it delivered", "at the price of delivery", true})
	default:
		s.row("the car takes", "", k.kg(limit))
		n := int(min(all/limit, 1e6)) + 1
		s.end(Fails, k.kg(all)+" is more than the car takes at once: "+strconv.Itoa(n)+" trips.")
		r.Findings.Add(issue.Warn, Heavy, []string{"car.most"}, k.kg(all), k.kg(limit), n)
		s.Mends = append(s.Mends, Mend{"car.delivered", "true", "Have it delivered", "at the price of delivery", true})
	}
	r.Sums = append(r.Sums, s)
	r.sort()
}
