package planner

import (
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/page"
)

// twoCut is a desk with four panels of 40 × 23 in to be cut from a sheet of
// 96 × 48: two are cut, the other two planned again. By hand: 96 − 80 − 1/8 =
// 15 7/8 and 48 − 46 − 1/8 = 1 7/8 are left over, so a fifth panel needs one
// more sheet, 84.00.
func twoCut(t *testing.T) *desk {
	d := plainDesk(t, 4, "")
	d.cutParts(2)
	d.again()
	if d.last.Alert != "" || d.held.before()[0] != 2 || d.toCut() != 2 {
		t.Fatalf("%q, %v made, %d to cut", d.last.Alert, d.held.before(), d.toCut())
	}
	d.do(Action{Do: "place", To: "saw"})
	return d
}

func (d *desk) toCut() (n int) {
	for _, q := range d.out.Job.Parts {
		n += q.Count
	}
	return n
}

func (d *desk) banner() string {
	return page.Plain(strings.NewReplacer("<sup>", "", "</sup>", "").Replace(d.panels["banner"]))
}

// A part that was cut before the plan in use is spoiled: it is cut again.
func TestEarlierSpoiled(t *testing.T) {
	d := twoCut(t)
	total, n := d.out.Buy.Total, len(d.marks)
	if d.do(Action{Do: "select", Ref: "part/A"}); !strings.Contains(d.panels["list"], "A is spoiled") {
		t.Fatalf("nobody asks whether it is spoiled: %s", d.panels["list"])
	}
	d.do(Action{Do: "spoil", Cut: "was/0/x"})
	if d.last.Alert != "" || d.offer == nil || len(d.marks) != n+1 {
		t.Fatalf("%q, %d entries", d.last.Alert, len(d.marks)-n)
	}
	if more := d.offer.out.Buy.Total - total; more != 8400 {
		t.Errorf("another costs %v, want one sheet", more)
	}
	d.do(Action{Do: "leave"})
	if s := d.banner(); !strings.Contains(s, "A is spoiled: plan the uncut again?") {
		t.Errorf("the banner says %s", s)
	}
	if !strings.Contains(d.panels["list"], `row-was-0`) || strings.Contains(d.panels["list"], "2 × A") {
		t.Error("two are still listed as cut")
	}

	// The tab dies; what was stored says the same.
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
	if !strings.Contains(e.banner(), "A is spoiled") {
		t.Error("opened again, it is not spoiled")
	}

	d.do(Action{Do: "undo"})
	if strings.Contains(d.banner(), "spoiled") || len(d.marks) != n+2 {
		t.Error("undo does not take it back")
	}
	d.do(Action{Do: "redo"})
	d.again()
	if d.last.Alert != "" || d.toCut() != 3 || d.held.before()[0] != 1 || len(nest.Verify(d.out.Job, d.out.Plan)) > 0 {
		t.Errorf("%q, %d to cut, %v made", d.last.Alert, d.toCut(), d.held.before())
	}
	for _, s := range d.out.Job.Stock {
		if strings.HasPrefix(s.ID, "old ") {
			t.Error("the spoiled part is stock")
		}
	}
	if strings.Contains(d.banner(), "spoiled") {
		t.Error("the banner still asks")
	}
	d.do(Action{Do: "undo"}) // the plan
	d.do(Action{Do: "undo"}) // the word
	if d.toCut() != 2 || d.held.before()[0] != 2 || strings.Contains(d.banner(), "spoiled") {
		t.Errorf("undone, %d to cut, %v made", d.toCut(), d.held.before())
	}

	// Both, then a third that there is not.
	d.do(Action{Do: "spoil", Cut: "was/0/x"})
	d.do(Action{Do: "spoil", Cut: "was/0/y"})
	d.again()
	if d.toCut() != 4 || d.held.before()[0] != 0 {
		t.Errorf("both spoiled, %d to cut, %v made", d.toCut(), d.held.before())
	}
	n = len(d.marks)
	for _, id := range []string{"was/0/x", "was/1/x", "was/-1/x", "was/0/z", "was/99999999999999999999/x", "was/x/x", "was", "was/0"} {
		if d.do(Action{Do: "spoil", Cut: id}); d.last.Alert == "" {
			t.Errorf("%s is spoiled", id)
		}
		if d.do(Action{Do: "size", Cut: id}); d.came.Cut != "" {
			t.Errorf("%s is asked about", id)
		}
	}
	if len(d.marks) != n {
		t.Error("something was noted")
	}
}

// It turns out to be 1/8 in short or narrow: another is cut, and what is there
// is stock at the size it has.
func TestEarlierShort(t *testing.T) {
	for axis, says := range map[string]string{"x": "39 and 7/8</span></span> long, not 40", "y": "22 and 7/8</span></span> wide, not 23"} {
		d := twoCut(t)
		n := len(d.marks)
		d.do(Action{Do: "size", Cut: "was/0/" + axis})
		if !strings.Contains(d.panels["buttons"], "i-came") {
			t.Fatal("no field")
		}
		wanted := d.came.Wanted
		for _, bad := range []string{"", "5 1/", "0", "-3", "4000", "<b>"} {
			if d.do(Action{Do: "set", Path: page.CamePath, Value: bad}); d.came.Size != wanted || d.wrong[page.CamePath].Why == "" {
				t.Errorf("%q is read as %v", bad, d.came.Size)
			}
		}
		d.do(Action{Do: "set", Path: page.CamePath, Value: d.Planner.doc.Measure().Exact(wanted - eighth)})
		d.do(Action{Do: "measured"})
		if len(d.marks) != n+1 || d.came.Cut != "" || !strings.Contains(d.banner(), says) {
			t.Fatalf("%d entries, the banner says %s", len(d.marks)-n, d.banner())
		}
		d.do(Action{Do: "undo"})
		if strings.Contains(d.banner(), says) {
			t.Error("undo does not take it back")
		}
		d.do(Action{Do: "redo"})
		d.again()
		l, w := 40*measure.Inch, 23*measure.Inch
		if axis == "x" {
			l -= eighth
		} else {
			w -= eighth
		}
		found := false
		for _, s := range d.out.Job.Stock {
			found = found || s.ID == "old A" && s.L == l && s.W == w && s.Count == 1
		}
		if !found || d.toCut() != 3 || d.held.before()[0] != 1 || len(nest.Verify(d.out.Job, d.out.Plan)) > 0 {
			t.Errorf("%d to cut, %v made, stock %v", d.toCut(), d.held.before(), d.out.Job.Stock)
		}
	}
}
