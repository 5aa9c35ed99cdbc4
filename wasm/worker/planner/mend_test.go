package planner

import (
	"strings"
	"testing"

	"cartwright/engine/check"
	"cartwright/engine/page"
	"cartwright/engine/project"
)

func (d *desk) sum(t *testing.T, title string) check.Sum {
	t.Helper()
	for _, s := range d.out.Report.Sums {
		if s.Title == title {
			return s
		}
	}
	t.Fatalf("no sum is called %q", title)
	return check.Sum{}
}

// TestTryIt: every change that Check offers is one step: it does what it says,
// and one undo takes it back, several fields or one.
func TestTryIt(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "check"})
	const at = "cabinet.bays.0.openings."
	if err := d.do(Action{Do: "set", Path: at + "0.load", Value: "25 lb"}).Alert; err != "" {
		t.Fatal(err)
	}
	d.do(Action{Do: "set", Path: at + "2.load", Value: "8 lb"})
	was := string(project.Save(d.Planner.doc))
	paths := strings.Join([]string{at + "0.load", at + "1.load", at + "2.load"}, "\n")
	d.do(Action{Do: "set", Path: paths, Value: "8 lb\n15 lb\n25 lb"})
	if got := project.Text(d.Planner.doc, at+"2.load"); got != "25 lb" || project.Text(d.Planner.doc, at+"0.load") != "8 lb" {
		t.Fatalf("the lowest drawer now holds %s", got)
	}
	if d.do(Action{Do: "undo"}); string(project.Save(d.Planner.doc)) != was {
		t.Error("one undo does not take it back")
	}
	// Half of it cannot be read: nothing is changed.
	d.do(Action{Do: "set", Path: at + "0.load\n" + at + "1.load", Value: "9 lb\nheavy"})
	if string(project.Save(d.Planner.doc)) != was {
		t.Error("half of a change was made")
	}
	found := false
	for _, m := range d.sum(t, "Tipping, drawers open").Mends {
		if m.Path != "base.ballast" {
			continue
		}
		found = true
		if !strings.Contains(d.panels["list"], `data-path="base.ballast" data-value="`+m.Value+`"`) {
			t.Error("ballast has no button")
		}
		empty := d.out.Report.Empty
		d.do(Action{Do: "set", Path: m.Path, Value: m.Value})
		if s := d.sum(t, "Tipping, drawers open"); s.State != check.Fine || d.out.Report.Empty <= empty {
			t.Errorf("with %s: %s", m.Value, s.Verdict)
		}
		d.do(Action{Do: "undo"})
	}
	if !found || string(project.Save(d.Planner.doc)) != was {
		t.Error("no ballast, or no way back")
	}
}

// TestRightIsWorthANote: that a piece came out as planned is noted too, with the
// saw it was cut on, or the saw seems worse than it is. Undone it tells nothing.
func TestRightIsWorthANote(t *testing.T) {
	d, c := partOff(t)
	n := len(d.marks)
	d.do(Action{Do: "size", Cut: c.ID})
	d.do(Action{Do: "measured"})
	if len(d.marks) != n+1 || c.Saw == "" {
		t.Fatalf("%d entries, alert %q", len(d.marks)-n, d.last.Alert)
	}
	if m := d.Planner.doc.Journal[len(d.Planner.doc.Journal)-1]; m.Saw != c.Saw {
		t.Errorf("cut on %q, noted %q", c.Saw, m.Saw)
	}
	if s := d.out.Report.Saws; len(s) != 1 || s[0].Saw != c.Saw || s[0].Pieces != 1 || s[0].Mean != 0 {
		t.Errorf("%+v", s)
	}
	d.do(Action{Do: "undo"})
	if s := d.out.Report.Saws; len(s) != 0 {
		t.Errorf("taken back, and still %+v", s)
	}
	wanted := d.short(c)
	if s := d.out.Report.Saws; len(s) != 1 || s[0].Pieces != 1 || s[0].Mean*1000 > -3.17 || s[0].Mean*1000 < -3.18 {
		t.Errorf("1/8 in short of %v, and %+v", wanted, s)
	}
}

// TestTestCuts: test cuts are entered at Check, and tell of the saw.
func TestTestCuts(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "check"})
	const path = "shop.saws.0.trials"
	if !strings.Contains(d.panels["list"], `data-path="`+path+`"`) {
		t.Fatal("nobody asks for test cuts")
	}
	for _, v := range []struct{ set, got string }{{"10 in", "10 1/64 in"}, {"12 in", "12 1/64 in"}, {"20 in", "20 1/64 in"}} {
		n := len(d.Planner.doc.Shop.Saws[0].Trials)
		d.do(Action{Do: "add", Path: path, At: n})
		at := path + "." + itoa(n)
		d.do(Action{Do: "set", Path: at + ".set", Value: v.set})
		d.do(Action{Do: "set", Path: at + ".got", Value: v.got})
	}
	s := d.sum(t, "What the table saw does")
	if s.State != check.Fact || !strings.HasPrefix(s.Verdict, "Pieces come out 0.016 in long") || !strings.Contains(page.Plain(s.Verdict), "63/64") {
		t.Errorf("%s", page.Plain(s.Verdict))
	}
}
