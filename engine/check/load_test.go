package check

import (
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
	"cartwright/engine/work"
)

// TestLoad by hand: three pieces of 3/4 ply, 48 × 24 in at 36 lb/ft³, weigh 18
// lb each (8 ft² × 3/4 × 3 lb), one of 60 × 40 weighs 37.5, a board 90 × 3 1/2
// at 44 lb/ft³ 6.0.
func TestLoad(t *testing.T) {
	in := measure.Inch
	p := &project.Project{Stock: project.Stock{Materials: []project.Material{
		{ID: "ply", Kind: "plywood", Nominal: in * 3 / 4}, {ID: "oak", Kind: "solid", Nominal: in * 3 / 4}}}}
	p.Car.OpeningWidth, p.Car.OpeningHeight = 38*in, 24*in
	job := nest.Job{Stock: []nest.Stock{{ID: "s", Material: "ply"}, {ID: "b", Material: "oak"}}, Car: []nest.Size{{L: 62 * in, W: 38 * in}, {L: 62 * in, W: 44 * in}, {L: 96 * in, W: 8 * in}}}
	plan := nest.Plan{Sheets: []nest.Layout{{Stock: 0}, {Stock: 1}}}
	var steps work.Steps
	add := func(name string, sheet int, l, w measure.Length) {
		steps.Rough = append(steps.Rough, work.Rough{Name: name, Sheet: sheet, Piece: mark.Piece{L: l, W: w}})
	}
	add("R1", 0, 48*in, 24*in)
	add("R2", 0, 48*in, 24*in)
	add("R3", 0, 24*in, 48*in)
	add("R4", 0, 60*in, 40*in)
	add("R5", 1, 90*in, in*7/2)
	steps.Rough = append(steps.Rough, work.Rough{Name: "home", AtShop: true, Piece: mark.Piece{L: 40 * in, W: 30 * in}})
	say := func() string {
		var out []string
		for _, trip := range Load(p, job, plan, steps) {
			s := ""
			for _, x := range trip.Stows {
				s += [...]string{"", "over ", "leaned "}[x.Way] + x.Name + " "
			}
			out = append(out, strings.TrimSpace(s))
		}
		return strings.Join(out, " | ")
	}
	tests := []struct {
		name   string
		change func(*project.Project)
		want   string
	}{
		{"97.5 lb in all, no limit", func(*project.Project) {}, "R1 R2 R3 over R5 leaned R4"},
		{"98 lb are enough", func(p *project.Project) { p.Car.Most = 98 * measure.Pound }, "R1 R2 R3 over R5 leaned R4"},
		{"97 lb are 0.5 too few: the board goes on a second trip", func(p *project.Project) { p.Car.Most = 97 * measure.Pound }, "R1 R2 R3 leaned R4 | over R5"},
		{"60 lb: 37.5 + 18, then 18 + 18 + 6", func(p *project.Project) { p.Car.Most = 60 * measure.Pound }, "R1 leaned R4 | R2 R3 over R5"},
		{"20 lb: each alone, R4 too heavy anyway", func(p *project.Project) { p.Car.Most = 20 * measure.Pound }, "leaned R4 | R1 | R2 | R3 | over R5"},
	}
	for _, tt := range tests {
		tt.change(p)
		if got := say(); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
	p.Car.Most = 0
	// R4 leans if √(38² + h²) − 3/4 × 38 ÷ h is 40 or more, h what the pile
	// leaves of the opening. Of 20 three sheets leave 17 3/4: 40.3. Of 19 they
	// leave 16 3/4: 39.8, two leave 17 1/2: 40.2.
	p.Car.OpeningHeight = 20 * in
	if got, want := say(), "R1 R2 R3 over R5 leaned R4"; got != want {
		t.Errorf("20 high: %s, want %s", got, want)
	}
	p.Car.OpeningHeight = 19 * in
	if got, want := say(), "R1 R2 over R5 leaned R4 | R3"; got != want {
		t.Errorf("19 high: %s, want %s", got, want)
	}
	p.Car.Delivered = true
	if got := say(); got != "" {
		t.Errorf("delivered: %s", got)
	}
}

// TestCarMends: a part of 60 × 20 with 1/4 off its store edge wants a floor of
// 60 1/4; floors are tried in steps of 2 in. A sheet of 96 × 48 for a floor of
// 50 × 24 takes three cuts, or a floor of 96.
func TestCarMends(t *testing.T) {
	in := measure.Inch
	tests := []struct {
		name string
		part nest.Part
		car  nest.Size
		cuts int
		want string
	}{
		{"a longer floor", nest.Part{ID: "a", Material: "ply", L: 60 * in, W: 20 * in, Count: 1}, nest.Size{L: 50 * in, W: 48 * in}, -1, "car.floorLength=62 in, car.delivered=true"},
		{"two more cuts, or a floor as long as the sheet", nest.Part{ID: "a", Material: "ply", L: 40 * in, W: 20 * in, Count: 1}, nest.Size{L: 50 * in, W: 24 * in}, 1, "store.cuts=3, car.floorLength=96 in, car.delivered=true"},
		{"it fits", nest.Part{ID: "a", Material: "ply", L: 40 * in, W: 20 * in, Count: 1}, nest.Size{L: 50 * in, W: 24 * in}, 3, ""},
	}
	for _, tt := range tests {
		job := nest.Job{Kerf: in / 8, Store: nest.Store{Cuts: tt.cuts, Kerf: in / 8, Trim: in / 4}, Parts: []nest.Part{tt.part}, Car: []nest.Size{tt.car},
			Stock: []nest.Stock{{ID: "s", Material: "ply", L: 96 * in, W: 48 * in, Count: -1, Price: 100}}}
		var out []string
		for _, m := range CarMends(&project.Project{}, job) {
			out = append(out, m.Path+"="+m.Value)
		}
		if got := strings.Join(out, ", "); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
}
