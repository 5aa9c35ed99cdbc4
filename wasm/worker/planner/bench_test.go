package planner

import (
	"strings"
	"testing"

	"cartwright/engine/page"
)

// TestBenchMarks: a step and a row of holes are marked, undone, redone and
// taken back like cuts, each as an entry of the journal.
func TestBenchMarks(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: string(page.Bench)})
	for _, id := range []string{d.out.Bench.Steps[0].ID, d.out.Bench.Drills[3].ID} {
		isDone := func() bool { _, ok := d.out.state.Step(id); return ok }
		r := d.do(Action{Do: "mark", Cut: id})
		if !isDone() || !r.Marked || len(r.Records) != 2 || d.doc == "" || len(d.marks) == 0 {
			t.Fatalf("%s: done %t, %+v", id, isDone(), r.Records)
		}
		d.do(Action{Do: "undo"})
		if isDone() {
			t.Errorf("%s stands after undo", id)
		}
		d.do(Action{Do: "redo"})
		if !isDone() {
			t.Errorf("%s is gone after redo", id)
		}
		d.do(Action{Do: "unmark", Cut: id})
		if isDone() {
			t.Errorf("%s stands after it was taken back", id)
		}
		d.do(Action{Do: "undo"}) // the taking back
		if !isDone() {
			t.Errorf("%s does not come back", id)
		}
	}
	// A mark alone brings an example into storage.
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
	if _, ok := e.out.state.Step(d.out.Bench.Drills[3].ID); !ok {
		t.Error("opened again, the mark is gone")
	}
	// A changed project keeps the marks.
	id := d.out.Bench.Steps[0].ID
	d.do(Action{Do: "set", Path: "cabinet.width", Value: "37"})
	if _, ok := d.out.state.Step(id); !ok || d.out.Bench.Steps[0].ID != id {
		t.Errorf("the mark on %s did not survive a wider case", id)
	}
}

// TestSpacerOnCutList: a block goes on the cut list in one step of undo.
func TestSpacerOnCutList(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	n := len(d.Planner.doc.Extra)
	d.do(Action{Do: "spacer", At: 0})
	if len(d.Planner.doc.Extra) != n+1 || !strings.HasPrefix(d.Planner.doc.Extra[n].Name, "Spacer: ") || d.Planner.doc.Extra[n].Width <= 0 {
		t.Fatalf("%+v", d.Planner.doc.Extra)
	}
	d.do(Action{Do: "undo"})
	if len(d.Planner.doc.Extra) != n {
		t.Error("undo leaves the spacer")
	}
	if r := d.do(Action{Do: "spacer", At: 99}); r.Alert == "" || len(d.Planner.doc.Extra) != n {
		t.Errorf("a spacer that is not there: %q", r.Alert)
	}
}

// TestCalendarFile: the finishing as a calendar; a bad start is refused.
func TestCalendarFile(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	r := d.do(Action{Do: "ics", Value: "2026-11-28T09:00"})
	if r.File == nil || r.File.Type != "text/calendar" || !strings.HasSuffix(r.File.Name, ".ics") || !strings.Contains(r.File.Text, "DTSTART:20261128T090000\r\n") {
		t.Fatalf("%+v", r.File)
	}
	if r := d.do(Action{Do: "ics", Value: "1900-01-01T09:00"}); r.File != nil || !strings.Contains(r.Alert, "1970") {
		t.Errorf("%+v %q", r.File, r.Alert)
	}
}

// TestPrintBench: what is printed names every step and every part with holes,
// each with a drawing, folded out and without buttons.
func TestPrintBench(t *testing.T) {
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		d := demoDesk(t, name)
		r := d.do(Action{Do: "print", To: "bench"})
		html := d.panels["print"]
		if r.Print != "bench" || strings.Contains(html, "<button") || strings.Contains(html, "<details") || strings.Contains(html, "<input") {
			t.Errorf("%s: printed %q with buttons or folds", name, r.Print)
		}
		parts := map[int]bool{}
		for _, h := range d.out.Bench.Drills {
			parts[h.Part] = true
		}
		for _, s := range d.out.Bench.Steps {
			if !strings.Contains(html, s.Title) {
				t.Errorf("%s: step %q is not printed", name, s.Title)
			}
		}
		more := strings.Count(html, ", continued</p>") // parts with more rows than a quarter holds
		if n := strings.Count(html, `class="quarter"`) - more; n != len(parts)+len(d.out.Bench.Steps)+len(d.out.Cart.Drawers) {
			t.Errorf("%s: %d quarters and %d more for %d steps, %d parts, %d drawers", name, n, more, len(d.out.Bench.Steps), len(parts), len(d.out.Cart.Drawers))
		}
		rows := 0
		for _, h := range d.out.Bench.Drills {
			if h.Dia > 0 || len(h.Spots) > 0 {
				rows++
			}
		}
		if n := strings.Count(html, `class="holes`); n != rows {
			t.Errorf("%s: %d rows of holes printed, %d in the schedule", name, n, rows)
		}
		if n := strings.Count(html, `class="picture"`); n < len(parts)+len(d.out.Bench.Steps)-1 {
			t.Errorf("%s: only %d drawings", name, n)
		}
		for _, w := range []string{"Spacers (", "Hanging the drawers", "Oily rags", "Coat 3"} {
			if !strings.Contains(html, w) {
				t.Errorf("%s: %q is not printed", name, w)
			}
		}
	}
}
