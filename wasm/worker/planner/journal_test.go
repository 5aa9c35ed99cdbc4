package planner

import (
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/nest"
	"cartwright/engine/work"
)

func TestMarksHoldThePlan(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "saw"})
	first, _ := d.nextCut()
	for i := range 3 {
		r := d.do(Action{Do: "mark"})
		if !r.Marked || r.Alert != "" {
			t.Fatalf("mark %d: %+v", i, r.Alert)
		}
	}
	if d.held == nil || d.Planner.doc.Plan == nil || !d.isDone(first.ID) {
		t.Fatal("the plan is not held")
	}
	if d.last.Searching {
		t.Error("a held plan is searched")
	}
	done, text := d.out.stands.Done, string(d.Planner.doc.Plan.Plan)

	// The tab dies; what was stored is opened again.
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
	if e.out.stands.Done != done || string(e.Planner.doc.Plan.Plan) != text {
		t.Errorf("opened again: %d cuts done, want %d", e.out.stands.Done, done)
	}
	if e.last.Searching || e.held == nil {
		t.Error("the held plan is searched anew")
	}

	// An edit does not touch it.
	e.do(Action{Do: "set", Path: "cabinet.depth", Value: "20"})
	if string(e.Planner.doc.Plan.Plan) != text || e.out.differ == 0 || e.out.stands.Done != done {
		t.Errorf("after an edit: %d parts differ, %d cuts done", e.out.differ, e.out.stands.Done)
	}
	if !strings.Contains(e.panels["banner"], "differ") {
		t.Errorf("the banner says %q", e.panels["banner"])
	}

	// Undo takes marks back, one at a time; the journal only grows.
	n := len(d.marks)
	for range 3 {
		d.do(Action{Do: "undo"})
	}
	if d.out.stands.Done != 0 || d.held != nil || len(d.marks) <= n {
		t.Errorf("after undo: %d done, held %v, %d entries after %d", d.out.stands.Done, d.held != nil, len(d.marks), n)
	}
	for range 3 {
		d.do(Action{Do: "redo"})
	}
	if d.out.stands.Done != done || string(d.Planner.doc.Plan.Plan) != text {
		t.Errorf("after redo: %d done, want %d", d.out.stands.Done, done)
	}
}

func TestCutsThatWaitSayForWhich(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "saw"})
	for _, c := range d.out.Steps.Shop {
		waits := d.waitsFor(c, nil)
		if len(waits) == 0 {
			continue
		}
		d.do(Action{Do: "tap", Ref: c.ID})
		if d.isDone(c.ID) || !strings.Contains(d.say, waits[0]) || !strings.Contains(d.panels["live"], "waits for") {
			t.Errorf("cut %d: said %q, waits for %v", c.N, d.say, waits)
		}
		return
	}
	t.Error("no cut of the demo waits for another: choose another demo")
}

func TestTakeBackOrder(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	for range len(d.out.Steps.Shop) {
		d.do(Action{Do: "mark"})
	}
	if d.out.stands.Done != d.out.stands.Total {
		t.Fatalf("%d of %d cuts done", d.out.stands.Done, d.out.stands.Total)
	}
	for range d.out.Steps.Mills { // grooves come after the cuts
		d.do(Action{Do: "mark"})
	}
	if d.do(Action{Do: "mark"}); d.last.Alert == "" {
		t.Error("there was one more cut to mark")
	}
	for _, s := range d.out.stands.Shop {
		if len(s.Fixed) == 0 {
			continue
		}
		d.do(Action{Do: "unmark", Cut: s.ID})
		if !d.isDone(s.ID) || !strings.Contains(d.last.Alert, "take that back first") {
			t.Errorf("%s was taken back under a later cut: %q", s.ID, d.last.Alert)
		}
		break
	}
	last := d.out.stands.Last
	d.do(Action{Do: "unmark"})
	if d.isDone(last) || d.last.Alert != "" {
		t.Errorf("the last cut is not taken back: %q", d.last.Alert)
	}
	d.do(Action{Do: "undo"})
	if !d.isDone(last) {
		t.Error("undo does not mark it again")
	}
}

func TestReplanKeepsWhatIsCut(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	made := 0
	for made < 3 { // parts come off
		if d.do(Action{Do: "mark"}); d.last.Alert != "" {
			t.Fatal(d.last.Alert)
		}
		made = 0
		for _, l := range work.LyingNow(d.out.Job, d.out.Plan, d.out.Steps, d.out.stands) {
			if l.Is == work.ToPart {
				made++
			}
		}
	}
	total := d.toCut()
	old := d.held.digest
	d.do(Action{Do: "set", Path: drawerHeight, Value: "5 1/2"})
	d.again()
	if d.last.Alert != "" || d.held == nil || d.held.digest == old {
		t.Fatalf("replanned: %q", d.last.Alert)
	}
	plannedRest(t, d, total-made)
	if d.out.differ != 0 {
		t.Errorf("%d parts differ from the new plan", d.out.differ)
	}
	if s := mark.Fold(d.Planner.doc.Journal); s.Plan != d.held.digest || len(s.Others) != 0 {
		t.Errorf("the journal's plan is %q, others %v", s.Plan, s.Others)
	}
	d.do(Action{Do: "undo"})
	if d.held == nil || d.held.digest != old {
		t.Error("undo does not bring the old plan back")
	}
}

func TestReplanWithNothingCut(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "accept"})
	if d.held == nil || len(d.marks) != 1 {
		t.Fatalf("accepted: %q", d.last.Alert)
	}
	d.do(Action{Do: "set", Path: drawerHeight, Value: "5 1/2"})
	d.do(Action{Do: "replan"})
	if d.held != nil || d.out.differ != 0 || d.last.Search.Seq == 0 {
		t.Errorf("held %v, %d differ, search %v", d.held != nil, d.out.differ, d.last.Search)
	}
}

// plannedRest asks that the plan holds and so many parts are to be cut.
func plannedRest(t *testing.T, d *desk, want int) {
	t.Helper()
	if found := nest.Verify(d.out.Job, d.out.Plan); len(found) > 0 {
		t.Errorf("the new plan: %v", found)
	}
	if n := d.toCut(); n != want {
		t.Errorf("%d parts to cut, want %d", n, want)
	}
}
