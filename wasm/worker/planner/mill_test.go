package planner

import (
	"strings"
	"testing"
)

// TestGrooves cuts the whole jointer stand: then the key marks the grooves of
// all twelve box parts at once, undo takes all twelve back.
func TestGrooves(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "saw"})
	id := strings.Join(d.out.Steps.Mills[0].IDs, " ")
	d.do(Action{Do: "select", Ref: id})
	if n := strings.Count(d.panels["drawing"], `aria-label="Groove, as it is set"`); n != 1 {
		t.Errorf("it is drawn %d times", n)
	}
	if !strings.Contains(d.panels["block"], "Groove ") || !strings.Contains(d.panels["block"], "Waits for") || !strings.Contains(d.panels["buttons"], "Back to the cuts") {
		t.Fatalf("chosen early: %s", d.panels["block"])
	}
	d.do(Action{Do: "mark", Cut: id})
	if n := len(d.marks); n != 0 || !strings.Contains(d.panels["live"], "waits for cut") {
		t.Fatalf("%d entries, said %q", n, d.panels["live"])
	}
	d.do(Action{Do: "select", Ref: ""})
	if strings.Contains(d.panels["drawing"], "as it is set") {
		t.Error("let go, and still drawn")
	}
	for range d.out.Steps.Shop {
		d.do(Action{Do: "mark"})
	}
	if _, ok := d.nextCut(); ok {
		t.Fatal("cuts are left")
	}
	n := len(d.marks)
	if !strings.Contains(d.panels["block"], "Fence at") || !strings.Contains(d.panels["buttons"], "Groove is done") {
		t.Fatal(d.panels["block"])
	}
	d.do(Action{Do: "mark"})
	if len(d.marks) != n+12 || !d.stepDone(id) || !strings.Contains(d.panels["block"], "every groove") {
		t.Errorf("%d entries, %s", len(d.marks)-n, d.panels["block"])
	}
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
	if !e.stepDone(id) {
		t.Error("opened again it is not done")
	}
	d.do(Action{Do: "undo"})
	if d.stepDone(id) || len(d.marks) != n+24 {
		t.Error("undo left marks")
	}
	d.do(Action{Do: "redo"})
	d.do(Action{Do: "unmark", Cut: id})
	if d.stepDone(id) {
		t.Error("taken back, and still done")
	}
}
