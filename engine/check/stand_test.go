package check

import (
	"math"
	"strings"
	"testing"

	"cartwright/engine/geom"
	"cartwright/engine/project"
)

// TestDoorsSwing: each door of the outfeed cabinet turns its weight from its own
// plane to half its width before its face, and the moment loses that.
func TestDoorsSwing(t *testing.T) {
	r, rep := changed(t, "outfeed-cabinet")
	b := r.base()
	open, _ := r.stands(b, all)
	var kg, x []float64
	lost := 0.0
	for _, q := range r.bodies {
		kg, x = append(kg, q.kg), append(x, q.at[1]-b.front)
		if q.door > 0 {
			f := r.c.Doors[q.door-1].Front
			lost += q.kg * gravity * (f.Size(geom.X).Metres() + f.Size(geom.Y).Metres()) / 2
		}
	}
	if len(r.c.Doors) != 2 || lost <= 0 {
		t.Fatalf("%d doors, %g N·m", len(r.c.Doors), lost)
	}
	if shut := Tipping(kg, x); math.Abs(shut-lost-open[0]) > 1e-9 {
		t.Errorf("shut %.2f N·m, open %.2f: %.2f less, by hand %.2f", shut, open[0], shut-open[0], lost)
	}
	s := sumOf(t, rep, "Tipping, drawers open")
	if !strings.Contains(s.Verdict, "3 drawers and 2 doors open") || len(s.Subs) != 1 || len(s.Subs[0].Rows) != 5 {
		t.Errorf("%q, %d rows from none open to all", s.Verdict, len(s.Subs[0].Rows))
	}
}

// TestBallast: ballast lies 2 in before the back of 22 in, the front wheels' pivot
// 1/4 in of strip, 1/2 in of inset, half a plate of 3 3/4 in and a lead of 1 1/4 in
// behind the front, so that 10 lb hold by 10 × (20 − 3.875) = 161.25 lb·in more.
// The finding offers what makes opening a drawer alone not tip it.
func TestBallast(t *testing.T) {
	r, rep := changed(t, "jointer-stand")
	q, with := changed(t, "jointer-stand", "base.ballast", "10 lb")
	if d := (q.least() - r.least()) / (lbf * inch); math.Abs(d-161.25) > .01 {
		t.Errorf("10 lb of ballast hold by %.2f lb·in more, by hand 161.25", d)
	}
	if d := with.Empty.Lb() - rep.Empty.Lb(); math.Abs(d-10) > 1e-6 {
		t.Errorf("10 lb of ballast weigh %.3f lb", d)
	}
	for _, m := range sumOf(t, rep, "Tipping, drawers open").Mends {
		if m.Path != "base.ballast" {
			continue
		}
		_, then := changed(t, "jointer-stand", m.Path, m.Value)
		if s := sumOf(t, then, "Tipping, drawers open"); s.State != Fine || then.Findings.Has(Barely) {
			t.Errorf("%s: %s", m.Text, s.Verdict)
		}
		return
	}
	t.Error("no ballast is offered")
}

// TestHeavyLow: loads of 25, 15 and 8 lb from the top down are put the other way
// round, in one step; sorted, nothing is offered.
func TestHeavyLow(t *testing.T) {
	const at = "cabinet.bays.0.openings."
	r, _ := changed(t, "jointer-stand", at+"0.load", "25 lb", at+"2.load", "8 lb")
	paths, values := r.lower()
	if values != "8 lb\n15 lb\n25 lb" {
		t.Fatalf("loads become %q", values)
	}
	if err := project.SetAll(r.p, paths, values); err != nil {
		t.Fatal(err)
	}
	if again, _ := r.lower(); again != "" {
		t.Errorf("sorted, and then %q", again)
	}
}

// TestOrder: what fails comes first, and of that what can hurt before what spoils
// wood, that before money; nearer to its limit before further from it.
func TestOrder(t *testing.T) {
	r := Report{Sums: []Sum{
		{Title: "fine", State: Fine}, {Title: "money", State: Fails, Cost: Money, Used: 9}, {Title: "wood", State: Fails, Cost: Spoils, Used: 1},
		{Title: "fact", State: Fact}, {Title: "hurts", State: Fails, Cost: Hurts, Used: 1.1}, {Title: "hurts more", State: Fails, Cost: Hurts, Used: 2},
		{Title: "unknown"}, {Title: "near", State: Fine, Cost: Hurts, Used: .9},
	}}
	r.sort()
	var got []string
	for _, s := range r.Sums {
		got = append(got, s.Title)
	}
	if s := strings.Join(got, ", "); s != "hurts more, hurts, wood, money, unknown, fact, near, fine" {
		t.Error(s)
	}
}
