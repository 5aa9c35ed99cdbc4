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
	s := Sum{Title: "Pieces in the car and at the saw", Cost: Money, Source: "Length × width × thickness × density. Sheets are outside the NIOSH lifting equation; over 51 lb (23 kg), the most that it allows one person at the best place, it is for two. What the car may carry is as entered."}
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
	trips := len(Load(p, job, plan, steps))
	limit := p.Car.Most.Kg()
	lift := "None weighs over 51 lb (23 kg)."
	if most > loadConstant*pound {
		lift = "Two people for " + name + ", " + k.kg(most) + "."
	}
	switch {
	case p.Car.Delivered:
		s.end(Fact, "Delivered: "+k.kg(all)+". "+lift)
	case limit <= 0:
		s.end(NotChecked, "Not checked: what the car may carry is not entered. They weigh "+k.kg(all)+". "+lift)
	case all <= limit && trips > 1:
		s.end(Fact, k.kg(all)+", "+strconv.Itoa(trips)+" trips: not all pass the opening at once. "+lift)
	case all <= limit:
		s.row("the car takes", "", k.kg(limit))
		s.end(Fine, "Fine: "+k.kg(all)+" in one trip. "+lift)
	case most > limit:
		s.row("the car takes", "", k.kg(limit))
		s.end(Fails, name+" alone is more than the car takes. Have it delivered.")
		r.Findings.Add(issue.Warn, Heavy, []string{"car.most"}, k.kg(all), k.kg(limit), trips)
		s.Mends = append(s.Mends, Mend{"car.delivered", "true", "Have it delivered", "at the price of delivery", true})
	default:
		s.row("the car takes", "", k.kg(limit))
		s.end(Fails, k.kg(all)+" is more than the car takes at once: "+strconv.Itoa(trips)+" trips.")
		r.Findings.Add(issue.Warn, Heavy, []string{"car.most"}, k.kg(all), k.kg(limit), trips)
		s.Mends = append(s.Mends, Mend{"car.delivered", "true", "Have it delivered", "at the price of delivery", true})
	}
	r.Sums = append(r.Sums, s)
	r.sort()
}

// Building adds what lies on the bench at each step of the build, and from
// which step on it takes two.
func (r *Report) Building(p *project.Project, steps []work.Step) {
	k := &run{Report: *r, p: p, t: p.Measure()}
	s := Sum{Title: "Weight while building", Cost: Hurts, Source: "Parts on hand at each step; casters, slides and screws are not in it. From 51 lb (23 kg) on it is for two: the most that the NIOSH lifting equation allows one person, at the best height and reach. Lifts by two are outside the equation."}
	two, most := "", 0.0
	for _, step := range steps {
		var kg, add float64
		for _, i := range step.Have {
			kg += k.partKg(i)
		}
		for _, a := range step.Adds {
			add += k.partKg(a.Part)
		}
		if kg += add; kg <= 0 {
			continue
		}
		how := "+ " + k.kg(add)
		if step.Turn {
			how += ", turned"
		}
		s.row(step.Title, how, k.kg(kg))
		if most = max(most, kg); kg > loadConstant*pound && two == "" {
			two = step.Title
		}
	}
	switch {
	case len(s.Rows) == 0:
		return
	case two != "":
		s.end(Fact, "From “"+two+"” on: two people.")
	default:
		s.end(Fact, "Never more than "+k.kg(most)+", under 51 lb (23 kg).")
	}
	r.Sums = append(r.Sums, s)
	r.sort()
}

func (r *run) partKg(i int) float64 {
	if i < 0 || i >= len(r.Parts) {
		return 0
	}
	return r.Parts[i].Mass.Kg()
}
