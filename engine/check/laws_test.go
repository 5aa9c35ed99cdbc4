package check

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// samples opens every sample project by its file's name.
func samples(t testing.TB) map[string]*project.Project {
	t.Helper()
	all := map[string]*project.Project{}
	for _, pattern := range []string{"../../testdata/projects/*.json", "../../testdata/projects/findings/*.json"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range names {
			data, err := os.ReadFile(n)
			if err != nil {
				t.Fatal(err)
			}
			p, err := project.Open(data)
			if err != nil {
				t.Fatal(err)
			}
			all[strings.TrimSuffix(filepath.Base(n), ".json")] = p
		}
	}
	if len(all) < 20 {
		t.Fatalf("only %d sample projects", len(all))
	}
	return all
}

func checked(p *project.Project) Report {
	c, _ := design.Build(p)
	return Run(p, c)
}

// sound tells what no report may have: numbers that are none, verdicts that are
// missing or say "fine" of what is not.
func sound(t *testing.T, name string, r Report) {
	t.Helper()
	if _, err := json.Marshal(r); err != nil {
		t.Errorf("%s: %v", name, err)
	}
	ok := func(s string) bool { return !strings.Contains(s, "NaN") && !strings.Contains(s, "Inf") }
	seen := map[string]bool{}
	fails := 0
	for _, s := range r.Sums {
		if s.State == Fails {
			fails++
		}
		if seen[s.Title] {
			t.Errorf("%s: two checks are called %q", name, s.Title)
		}
		seen[s.Title] = true
		if fine := strings.HasPrefix(s.Verdict, "Fine"); fine != (s.State == Fine) || s.Verdict == "" || !strings.HasSuffix(s.Verdict, ".") {
			t.Errorf("%s: %s, state %d: %q", name, s.Title, s.State, s.Verdict)
		}
		if s.State == NotChecked && !strings.HasPrefix(s.Verdict, "Not ") {
			t.Errorf("%s: %s is not checked and says %q", name, s.Title, s.Verdict)
		}
		if s.State != NotChecked && (len(s.Rows) == 0 || s.Source == "") {
			t.Errorf("%s: %s has %d rows and the source %q", name, s.Title, len(s.Rows), s.Source)
		}
		for _, x := range s.Rows {
			if !ok(x.Cause + x.Factors + x.Result + s.Verdict) {
				t.Errorf("%s: %s: %v", name, s.Title, x)
			}
		}
		for _, m := range s.Mends {
			if m.Text == "" || m.Result == "" || !ok(m.Result) || m.Path == "" && m.Value != "" || m.Value == "" && m.Path != "" && m.Mends {
				t.Errorf("%s: %s: mend %+v", name, s.Title, m)
			}
		}
		for _, sub := range s.Subs {
			for _, x := range sub.Rows {
				if !ok(x.Cause + x.Factors + x.Result + sub.Title + sub.Result) {
					t.Errorf("%s: %s: %s: %v", name, s.Title, sub.Title, x)
				}
			}
		}
	}
	if n := r.Findings.Problems(); n < fails {
		t.Errorf("%s: %d checks fail, %d findings say so: %v", name, fails, n, r.Findings)
	}
}

// TestSamples: every sample project with a case gets its checks, the same ones
// twice, and the weights add up.
func TestSamples(t *testing.T) {
	n := 0
	for name, p := range samples(t) {
		r := checked(p)
		sound(t, name, r)
		if !reflect.DeepEqual(r, checked(p.Clone())) {
			t.Errorf("%s: two runs differ", name)
		}
		if len(r.Parts) == 0 {
			continue
		}
		cart, _ := design.Build(p)
		for i, s := range Quick(p, cart).Sums { // says the same, and mends nothing
			if r.Sums[i].Verdict != s.Verdict || s.State != r.Sums[i].State {
				t.Errorf("%s: in a hurry %s says %q, else %q", name, s.Title, s.Verdict, r.Sums[i].Verdict)
			}
		}
		n++
		var sum measure.Mass
		for _, w := range r.Weights {
			sum += w.Mass
		}
		if d := sum - r.Loaded; d.Kg() > 1e-6 || d.Kg() < -1e-6 {
			t.Errorf("%s: rows weigh %v, the cart %v", name, sum, r.Loaded)
		}
		var parts, lines float64
		for _, w := range r.Parts {
			parts += w.Mass.Kg()
		}
		c, _ := design.Build(p)
		for i, l := range r.Lines {
			if len(c.Lines[i].Parts) > 0 {
				lines += l.Each.Kg() * float64(l.Count)
			}
		}
		// Parts of a line may differ by what is let into them.
		if math.Abs(parts-lines) > 0.03*parts {
			t.Errorf("%s: parts weigh %.3f kg, lines %.3f", name, parts, lines)
		}
		for i, st := range r.States[2:] {
			var kg float64
			for _, b := range start(p, c).bodies {
				if b.drawer == i+1 {
					kg += b.kg
				}
			}
			want := r.States[1].At[1] - kg*c.Drawers[i].Travel.Metres()/r.Loaded.Kg()
			if math.Abs(st.At[1]-want) > 1e-6 {
				t.Errorf("%s: %s: centre at %.6f, by the drawer's shift %.6f", name, st.Name, st.At[1], want)
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d sample projects have a case", n)
	}
}

// TestCentre: the centre of gravity is found again by cutting every part of a
// cart into small cubes' worth of slices and asking where half the moment lies:
// the moments about it vanish. Another sum than the one in the code: about the
// found point, over ticks.
func TestCentre(t *testing.T) {
	p := samples(t)["jointer-stand"]
	c, _ := design.Build(p)
	r := start(p, c)
	for a := range 3 {
		var about, all float64
		for _, q := range c.Parts {
			m, _ := p.Material(q.Material)
			kg := Volume(q) * m.Density
			twice := float64(q.Box.Min[a]+q.Box.Max[a]) / float64(measure.Metre)
			about += kg * (twice - 2*r.CG[a])
			all += kg
		}
		for _, b := range r.bodies[len(c.Parts):] {
			if !b.load {
				about += 2 * b.kg * (b.at[a] - r.CG[a])
				all += b.kg
			}
		}
		if math.Abs(about) > 1e-9*all || math.Abs(all-r.Empty.Kg()) > 1e-5 {
			t.Errorf("axis %d: moment %g about the centre, %g kg of %g", a, about, all, r.Empty.Kg())
		}
	}
	b := balance("by hand", []body{{kg: 10, at: [3]float64{0, 1, 2}}, {kg: 30, at: [3]float64{4, 1, 6}}}, all)
	if b.At != [3]float64{3, 1, 5} || b.Mass != 40*measure.Kilogram {
		t.Errorf("10 kg and 30 kg: %v at %v", b.Mass, b.At)
	}
}

// hostile are values that nobody should enter and somebody will.
var hostile = []struct{ path, value string }{
	{"stock.materials.0.density", "0"}, {"stock.materials.0.density", "0.000001"}, {"stock.materials.0.density", "1000000"},
	{"stock.materials.0.modulus", "0.0000001"}, {"stock.materials.0.modulus", "1000000"}, {"stock.materials.0.kind", "cheese"},
	{"stock.materials.0.scatter", "10 in"}, {"stock.materials.0.measured", "1/64 in"}, {"stock.materials.0.nominal", ""},
	{"stock.materials.3.species", "unobtainium"}, {"stock.materials.3.kind", ""},
	{"cabinet.bays.0.openings.0.load", "1000 kg"}, {"cabinet.bays.0.openings.0.load", "1000000 kg"}, {"cabinet.bays.0.openings.0.kind", "open"},
	{"cabinet.bays.0.openings.0.holds.weight", "1000 kg"}, {"cabinet.bays.0.openings.0.pins", "12"},
	{"machine.weight", "1000000 kg"}, {"machine.weight", "-5 lb"}, {"machine.depth", "1/64 in"},
	{"drawers.slide", "wood"}, {"drawers.slideLength", "2 in"}, {"drawers.slideLength", "100 in"}, {"drawers.slideRating", "1/1000 lb"}, {"drawers.slideRating", "-1 lb"},
	{"drawers.allowance", "3 in"}, {"drawers.slideThick", "9 in"}, {"drawers.bottom", "nothing"}, {"drawers.bottom", "maple"},
	{"shop.accuracy", "0"}, {"shop.accuracy", "1 in"}, {"shop.accuracy", "-1 in"}, {"shop.accuracy", "0.001 mm"},
	{"base.caster.wheel", "0"}, {"base.caster.wheel", "1/32 in"}, {"base.caster.wheel", "400 in"}, {"base.caster.lead", "30 in"}, {"base.caster.lead", "-3 in"},
	{"base.caster.brakes", "10000"}, {"base.caster.mount", "0"}, {"base.caster.plate", "100 in"}, {"base.kind", "feet"}, {"base.inset", "15 in"},
	{"loads.push", "1000000 lb"}, {"loads.feed", "1000000 lb"}, {"loads.sag", "what"}, {"loads.creep", "1000000"}, {"loads.creep", "0.001"},
	{"loads.dry", "100"}, {"loads.damp", "1"}, {"loads.damp", "100"}, {"loads.damp", "1000000"},
	{"cabinet.back.kind", "none"}, {"cabinet.width", "6 in"}, {"cabinet.width", "190 in"}, {"cabinet.depth", "6 in"}, {"cabinet.top.layers", "9"},
	{"cabinet.bottom", "between"}, {"cabinet.upper", "sub-top"}, {"lineUp.surface", "180 in"}, {"lineUp.step", "3 in"}, {"lineUp.mode", "height"}, {"tape.unit", "metric"},
	{"cabinet.bays.0.openings.1.name", "Top drawer"}, {"cabinet.bays.0.openings.1.kind", "shelf"},
	{"cabinet.bays.0.measured.front", "16 in"}, {"car.most", "1 lb"}, {"stock.sheets.0.length", "0"},
}

// TestHostile: whatever is entered, the checks answer, and none says "fine"
// where it cannot know.
func TestHostile(t *testing.T) {
	all := samples(t)
	for _, name := range []string{"jointer-stand", "tall-tool-cabinet", "plain-box", "outfeed-cabinet"} {
		for _, h := range hostile {
			p := all[name].Clone()
			if project.Set(p, h.path, h.value) != nil {
				continue // this project has no such field, or it is refused
			}
			sound(t, name+" with "+h.path+" = "+h.value, checked(p))
		}
	}
	// Straight from a file, past what can be typed.
	for _, change := range []func(*project.Project){
		func(p *project.Project) { p.Stock.Materials[0].Density = -1e9 },
		func(p *project.Project) { p.Stock.Materials[0].Modulus = -1e9 },
		func(p *project.Project) { p.Loads.Creep, p.Loads.Dry, p.Loads.Damp = -1e9, -1e9, 1e9 },
		func(p *project.Project) { p.Shop.Accuracy = -measure.Inch },
		func(p *project.Project) { p.Base.Caster.Weight, p.Base.Caster.Brakes = -5*measure.Kilogram, -9 },
		func(p *project.Project) { p.Cabinet.Bays = nil },
		func(p *project.Project) { p.Stock.Hardware[0].Weight = -measure.Kilogram },
		func(p *project.Project) { p.Stock.Materials = append(p.Stock.Materials, p.Stock.Materials...) },
		func(p *project.Project) { p.Stock.Materials = nil },
		func(p *project.Project) { p.Machine = project.Machine{} },
		func(p *project.Project) { *p = project.Project{} },
	} {
		p := all["jointer-stand"].Clone()
		change(p)
		sound(t, "damaged file", checked(p))
	}
}

// TestEachShelf: two shelves of one bay that carry different loads are two
// checks, and two drawers of one name are too.
func TestEachShelf(t *testing.T) {
	p := samples(t)["jointer-stand"]
	for path, v := range map[string]string{
		"cabinet.bays.0.openings.0.kind": "shelf", "cabinet.bays.0.openings.1.kind": "shelf", "cabinet.bays.0.openings.1.load": "150 lb",
		"cabinet.bays.0.openings.0.name": "Shelf", "cabinet.bays.0.openings.1.name": "Shelf",
	} {
		if err := project.Set(p, path, v); err != nil {
			t.Fatal(err)
		}
	}
	r := checked(p)
	sound(t, "two shelves", r)
	var says []string
	for _, s := range r.Sums {
		if strings.HasPrefix(s.Title, "Sag of a shelf") {
			says = append(says, s.Verdict)
		}
	}
	if len(says) != 2 || says[0] == says[1] {
		t.Errorf("two shelves with 8 lb and 150 lb: %q", says)
	}
}

// TestMissing: what is not entered is not fine.
func TestMissing(t *testing.T) {
	for _, tt := range []struct{ path, value, title string }{
		{"base.caster.rating", "", "Load on one caster"},
		{"base.caster.wheel", "", "Pushing it along"},
		{"base.caster.mount", "", "Stays put under the feed"},
		{"drawers.slideRating", "", "Load on the slides"},
		{"drawers.slide", "wood", "Drawers on wooden runners"},
		{"machine.weight", "", "Lifting the jointer up"},
		{"cabinet.bays.0.openings.2.load", "500 lb", "Bottom of Bottom drawer"}, // beyond small deflections
		{"loads.damp", "90", "Wood over the seasons"},
	} {
		p := samples(t)["jointer-stand"]
		if err := project.Set(p, tt.path, tt.value); err != nil {
			t.Fatal(err)
		}
		found := false
		for _, s := range checked(p).Sums {
			if s.Title == tt.title {
				found = true
				if s.State != NotChecked {
					t.Errorf("%s = %q: %s says %q", tt.path, tt.value, s.Title, s.Verdict)
				}
			}
		}
		if !found && tt.path != "base.caster.mount" {
			t.Errorf("%s = %q: %s is silent", tt.path, tt.value, tt.title)
		}
	}
}

// TestMends: a change that is offered can be made, and does what it promised.
func TestMends(t *testing.T) {
	n := 0
	for name, p := range samples(t) {
		for _, s := range checked(p).Sums {
			for _, m := range s.Mends {
				if m.Value == "" {
					continue
				}
				n++
				q := p.Clone()
				if err := project.SetAll(q, m.Path, m.Value); err != nil {
					t.Errorf("%s: %s: %v", name, m.Text, err)
					continue
				}
				for _, x := range checked(q).Sums {
					if x.Title != s.Title {
						continue
					}
					if m.Mends && x.State == Fails {
						t.Errorf("%s: %s: %q should mend it, and then: %s", name, s.Title, m.Text, x.Verdict)
					}
					promised, ok := strings.CutPrefix(m.Result, "stands by ")
					promised, _, _ = strings.Cut(promised, ";")
					if ok && !strings.Contains(x.Verdict+" ", promised) &&
						!strings.HasPrefix(x.Verdict, "Fine with its interlock") && !strings.Contains(x.Verdict, "barely") {
						t.Errorf("%s: %q promises %q, and then: %s", name, m.Text, m.Result, x.Verdict)
					}
					if pc, _, odds := strings.Cut(m.Result, " %, now"); odds {
						was, _ := strconv.Atoi(pc)
						_, rest, _ := strings.Cut(x.Verdict, "shim: ")
						is, _, _ := strings.Cut(rest, " ")
						if now, err := strconv.Atoi(is); err != nil || was-now > 4 || now-was > 4 {
							t.Errorf("%s: %q promises %s %%, and then: %s", name, m.Text, pc, x.Verdict)
						}
					}
				}
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d mends were tried", n)
	}
}

// FuzzRun: no project that opens makes the checks panic or show what is no
// number.
func FuzzRun(f *testing.F) {
	for _, h := range hostile {
		f.Add(uint8(0), h.path, h.value, hostile[len(hostile)/2].path, hostile[len(hostile)/2].value)
	}
	names := []string{"jointer-stand", "tall-tool-cabinet", "plain-box", "low-assembly-cart"}
	all := samples(f)
	f.Fuzz(func(t *testing.T, which uint8, path, value, path2, value2 string) {
		p := all[names[int(which)%len(names)]].Clone()
		if project.Set(p, path, value) != nil || project.Set(p, path2, value2) != nil {
			return
		}
		sound(t, path, checked(p))
	})
}
