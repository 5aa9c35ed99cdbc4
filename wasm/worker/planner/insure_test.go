package planner

import (
	"strings"
	"testing"

	"cartwright/engine/page"
)

// insureNow does what the search workers would: the search ends, the other
// order is done.
func (d *desk) insureNow() {
	d.t.Helper()
	d.do(Action{Do: "stop"})
	o := d.last.Search
	if o.Seq == 0 || len(o.Seeds) != 1 {
		d.t.Fatalf("the order is %+v", o)
	}
	var found []Find
	if err := Hunt(d.Task(), o.Seq, o.Seeds[0], func(f Find) bool { found = append(found, f); return true }); err != nil || len(found) != 1 {
		d.t.Fatalf("%v, %d reports", err, len(found))
	}
	d.keep(d.Found(found[0], 1))
}

// TestInsuredPlan: two panels of 40 × 23 in on sheets of 96 × 48: beside them
// 96 − 40 − 1/8 = 55 7/8 are left, so each could be spoiled. Four fill the
// sheet, and nothing is left for a fifth; with 80 in the sheet's length for
// two, a third finds room: by hand.
func TestInsuredPlan(t *testing.T) {
	for _, tt := range []struct {
		parts int
		says  string
		not   bool
	}{{2, "All 2 parts could be spoiled once", false}, {3, "All 3 parts could be spoiled once", false}, {4, "No part could be spoiled", true}, {5, "All 5 parts", false}} {
		d := plainDesk(t, tt.parts, "")
		d.do(Action{Do: "place", To: "store"})
		if strings.Contains(d.panels["list"], "could be spoiled") {
			t.Error("it is said before it is known")
		}
		d.insureNow()
		if list := page.Plain(d.panels["list"]); !strings.Contains(list, tt.says) || strings.Contains(list, "Not A") != tt.not {
			t.Errorf("%d panels: want %q in %s", tt.parts, tt.says, list[max(0, len(list)-700):])
		}
		if d.last.Search.Seq != 0 {
			t.Error("it is asked again")
		}
	}
}

// The answer goes with the plan: an edit asks anew, a cut in its order does
// not, a part that is cut is of no matter any more.
func TestInsuredFollows(t *testing.T) {
	d := plainDesk(t, 3, "")
	d.insureNow()
	old := *d.insurance()
	d.do(Action{Do: "set", Path: "extra.0.width", Value: "30"})
	if d.insurance() != nil {
		t.Error("the answer outlives its plan")
	}
	d.insureNow()
	if in := d.insurance(); in == nil || in.Insured != 3 {
		t.Errorf("three panels of 40 × 30 in, two to a sheet of 96 × 48: %+v", in)
	}
	d.do(Action{Do: "set", Path: "extra.0.count", Value: "4"})
	d.insureNow()
	if in := d.insurance(); in == nil || in.Parts != 4 || in.Insured != 0 {
		t.Errorf("four of them fill two sheets: %+v", in)
	}
	d.do(Action{Do: "undo"})
	d.do(Action{Do: "undo"})
	d.insureNow()
	if got := *d.insurance(); got.Parts != old.Parts || got.Insured != old.Insured {
		t.Errorf("undone: %+v, it was %+v", got, old)
	}
	d.do(Action{Do: "place", To: "saw"})
	for d.insurance() != nil && d.insurance().Parts == 3 {
		if d.do(Action{Do: "mark"}); d.last.Alert != "" {
			t.Fatal(d.last.Alert)
		}
	}
	if in := d.insurance(); in == nil || in.Parts != 2 || d.last.Search.Seq != 0 {
		t.Errorf("after a part is cut: %+v, order %+v", in, d.last.Search)
	}
	// A spoiled part: what was proven holds no more.
	c, _ := d.out.Steps.Cut(d.out.stands.Last)
	d.do(Action{Do: "spoil", Cut: c.ID, At: c.SetPiece()})
	if d.last.Alert != "" || d.insurance() != nil {
		t.Errorf("spoiled: %q, %+v", d.last.Alert, d.insurance())
	}
}

// The demo: what is said adds up.
func TestInsuredDemo(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.insureNow()
	in := d.insurance()
	n := 0
	for _, q := range d.out.Job.Parts {
		n += q.Count
	}
	if in == nil || in.Parts != n || in.Insured < n/2 || in.Insured > n || (len(in.Not) == 0) != (in.Insured == n) {
		t.Errorf("%+v of %d parts", in, n)
	}
	t.Logf("%+v", in)
}
