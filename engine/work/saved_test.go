package work

import (
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// TestSaved, by hand: two panels of 47 × 47 fill a sheet of 96 × 48 (94 1/8
// with the kerf). The third part, 30 × 20, comes from an offcut at home, or
// takes a sheet of its own: 2 × $80 against $80 and one store cut.
func TestSaved(t *testing.T) {
	job := nest.Job{
		Kerf:  in("1/8"),
		Store: nest.Store{Cuts: -1, Kerf: in("1/8"), Trim: in("1/4"), Price: 150},
		Stock: []nest.Stock{
			{ID: "rest", Material: "ply", L: in("40"), W: in("30"), Count: 1, AtShop: true},
			{ID: "ply", Material: "ply", L: in("96"), W: in("48"), Count: -1, Price: 8000},
		},
		Parts: []nest.Part{
			{ID: "a", Material: "ply", L: in("47"), W: in("47"), Count: 2},
			{ID: "b", Material: "ply", L: in("30"), W: in("20"), Count: 1},
		},
		Car: []nest.Size{{L: in("62"), W: in("48")}},
	}
	tests := []struct {
		name     string
		change   func(*nest.Job, *project.Project)
		whole    measure.Money
		sheets   int
		tooLarge bool
		saves    measure.Money
	}{
		{"an offcut spares a sheet, one cut makes it fit the car", func(*nest.Job, *project.Project) {}, 16000, 2, true, 16000 - 8150},
		{"whole sheets would have to be brought for $45", func(_ *nest.Job, p *project.Project) { p.Car.Delivery = 4500 }, 16000, 2, true, 16000 + 4500 - 8150},
		{"delivered anyway: no store cut", func(j *nest.Job, p *project.Project) { j.Car, p.Car.Delivered = nil, true }, 16000, 2, false, 16000 - 8000},
		{"no offcut: two cuts on two sheets cost more than they save", func(j *nest.Job, _ *project.Project) { j.Stock = j.Stock[1:] }, 16000, 2, true, -300},
		{"the part that the offcut held is gone", func(j *nest.Job, _ *project.Project) { j.Parts = j.Parts[:1] }, 8000, 1, true, -150},
	}
	for _, tt := range tests {
		j, p := job, &project.Project{Seed: 1}
		tt.change(&j, p)
		var plan nest.Plan
		for at := range nest.Search(j, nest.Options{Seed: 1, Tries: 2000}) {
			if at.Plan != nil {
				plan = *at.Plan
			}
		}
		s := Saved(p, j)
		l := Shopping{StoreCut: measure.Money(plan.StoreCuts) * j.Store.Price}
		for _, sh := range plan.Sheets {
			l.Rows = append(l.Rows, Buy{ID: j.Stock[sh.Stock].ID, Total: j.Stock[sh.Stock].Price})
		}
		l.Rows = append(l.Rows, Buy{ID: "glue", Total: 900}) // is bought either way
		saves := s.Saves(l, j.Stock)
		if !s.Known || s.Whole != tt.whole || s.Sheets != tt.sheets || s.TooLarge != tt.tooLarge || saves != tt.saves {
			t.Errorf("%s: %+v, saves %v; want %v, %d, %v, %v", tt.name, s, saves, tt.whole, tt.sheets, tt.tooLarge, tt.saves)
		}
	}
	// Nothing for sale, only the offcut: nothing to compare with.
	job.Stock, job.Parts = job.Stock[:1], job.Parts[1:]
	if s := Saved(&project.Project{}, job); s.Known {
		t.Errorf("%+v", s)
	}
}
