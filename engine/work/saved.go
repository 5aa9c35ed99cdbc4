package work

import (
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// A Saving compares a plan with buying whole sheets: nothing cut at the store,
// no offcuts from home.
type Saving struct {
	// Known: the whole job can be cut from what is for sale; else there is
	// nothing to compare with.
	Known bool
	// Whole is what the wood costs then, Sheets how many sheets and boards.
	Whole  measure.Money
	Sheets int
	// TooLarge: a whole sheet does not fit the car. Delivery is what bringing
	// them costs, 0 if that is not known.
	TooLarge bool
	Delivery measure.Money
}

// Saves is what a project saves: its sheets, boards and store cuts against whole
// sheets and bringing them. It is negative if they cost more.
func (s Saving) Saves(l Shopping, stock []nest.Stock) measure.Money {
	all := s.Whole + s.Delivery - l.StoreCut
	for _, r := range l.Rows {
		for _, st := range stock {
			if st.ID == r.ID {
				all -= r.Total
				break
			}
		}
	}
	return all
}

// wholeTries is how long the other plan is searched.
const wholeTries = 2000

// Saved plans the job without store cuts and without offcuts at home, to
// compare with.
func Saved(p *project.Project, job nest.Job) (s Saving) {
	whole := job
	whole.Store.Cuts, whole.Car, whole.Stock = 0, nil, nil
	for _, st := range job.Stock {
		if st.AtShop && st.Price == 0 {
			continue
		}
		whole.Stock = append(whole.Stock, st)
		fits := len(job.Car) == 0 || st.AtShop
		for _, r := range job.Car {
			fits = fits || max(st.L, st.W) <= max(r.L, r.W) && min(st.L, st.W) <= min(r.L, r.W)
		}
		s.TooLarge = s.TooLarge || !fits
	}
	for at := range nest.Search(whole, nest.Options{Seed: p.Seed, Tries: wholeTries}) {
		if at.Plan != nil {
			s.Known, s.Whole, s.Sheets = len(at.Plan.Left) == 0, at.Plan.Cost, at.Plan.Bought
		}
	}
	if s.TooLarge && !p.Car.Delivered {
		s.Delivery = p.Car.Delivery
	}
	return s
}
