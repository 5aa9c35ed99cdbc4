package planner

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

func TestDemoIsWhole(t *testing.T) {
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		d := demoDesk(t, name)
		if !d.last.Planned || d.last.Alert != "" || len(d.last.Records) != 0 {
			t.Errorf("%s: planned %v, alert %q, %d records", name, d.last.Planned, d.last.Alert, len(d.last.Records))
		}
		if len(d.out.Plan.Sheets) == 0 || len(d.out.Plan.Left) > 0 || d.out.Findings.Blocked() {
			t.Errorf("%s: %d sheets, %d left, %v", name, len(d.out.Plan.Sheets), len(d.out.Plan.Left), d.out.Findings)
		}
		for _, id := range []string{"rod", "head", "strip", "f-bays", "drawing"} {
			if d.panels[id] == "" {
				t.Errorf("%s: panel %s is empty", name, id)
			}
		}
		for _, place := range []string{"parts", "store", "saw", "bench", "check", "size"} {
			if d.do(Action{Do: "place", To: place}); string(d.last.Place) != place || d.last.Alert != "" {
				t.Errorf("%s: at %s, alert %q", place, d.last.Place, d.last.Alert)
			}
		}
	}
}

const drawerHeight = "cabinet.bays.0.openings.0.height"

func TestEditUndoRedo(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	before, strip := d.file(), d.strip()
	d.do(Action{Do: "set", Path: "cabinet.width", Value: "40 1/2"})
	if d.file() == before || d.strip() == strip {
		t.Fatal("nothing changed")
	}
	if d.doc == "" || !d.last.Settle || d.was["strip/cost"] == "" {
		t.Errorf("not stored, or nothing lit: %+v, was %v", d.last.Records, d.was)
	}
	after, wide := d.file(), d.strip()
	d.do(Action{Do: "undo"})
	if d.file() != before || d.strip() != strip {
		t.Errorf("after undo the strip is %q, want %q", d.strip(), strip)
	}
	d.do(Action{Do: "redo"})
	if d.file() != after || d.strip() != wide {
		t.Errorf("after redo the strip is %q, want %q", d.strip(), wide)
	}
	d.do(Action{Do: "settle"})
	if len(d.was) != 0 {
		t.Errorf("still lit: %v", d.was)
	}
	d.do(Action{Do: "set", Path: "cabinet.width", Value: "40 1/2"})
	if len(d.past) != 1 {
		t.Errorf("an edit that changes nothing is a step: %d steps", len(d.past))
	}
}

func TestWrongTextKeepsTheLastPlan(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	before, strip := d.file(), d.strip()
	d.do(Action{Do: "set", Path: drawerHeight, Value: "5 1/"})
	if d.file() != before || d.strip() != strip || len(d.past) != 0 {
		t.Error("a text that cannot be read changed the document")
	}
	if w := d.wrong[drawerHeight]; w.Text != "5 1/" || w.Why == "" {
		t.Errorf("wrong[%s] = %+v", drawerHeight, w)
	}
	if !strings.Contains(d.panels["f-bays"]+d.panels["f-drawers"], "5 1/") {
		t.Error("the field does not show what was typed")
	}
	d.do(Action{Do: "set", Path: drawerHeight, Value: "5 1/4"})
	if len(d.wrong) != 0 || d.file() == before {
		t.Errorf("after a good text: wrong %v", d.wrong)
	}
}

func TestNudge(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	for _, tt := range []struct{ value, step, want string }{
		{"5", "step", "5 1/32"}, {"5", "-step", "4 31/32"}, {"5.01", "step", "5 1/32"}, {"5.01", "-step", "5"}, {"127 mm", "step", "5 1/32"},
	} {
		d.do(Action{Do: "nudge", Path: drawerHeight, Value: tt.value, Step: tt.step})
		if got := project.Text(d.Planner.doc, drawerHeight); got != tt.want {
			t.Errorf("%s from %s gives %s, want %s", tt.step, tt.value, got, tt.want)
		}
	}
}

func TestDragIsOneStep(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "view", To: "both"})
	before, strip := d.file(), d.strip()
	const sixteenth = int64(measure.Inch / 16)
	d.do(Action{Do: "drag", Ref: "bay/0", Phase: "start"})
	for i := int64(1); i <= 8; i++ {
		r := d.do(Action{Do: "drag", Ref: "bay/0", Phase: "move", By: -i * sixteenth})
		if len(r.Records) != 0 {
			t.Fatal("stored in the middle of a drag")
		}
		if !r.Drawn || r.Search.Seq != 0 {
			t.Fatalf("move %d: drawn %v, search %v", i, r.Drawn, r.Search)
		}
		if got := d.out.made.Bays[0].Clear.Size(0) + d.out.made.Bays[1].Clear.Size(0); got != d.moving.cart.Bays[0].Clear.Size(0)+d.moving.cart.Bays[1].Clear.Size(0) {
			t.Fatalf("the bays add up to %v now", got)
		}
	}
	if d.was["cabinet.bays.0.width"] == "" || d.was["strip/cost"] == "" {
		t.Errorf("was %v", d.was)
	}
	d.do(Action{Do: "drag", Ref: "bay/0", Phase: "end", By: -8 * sixteenth})
	if len(d.past) != 1 || d.doc == "" || d.moving != nil {
		t.Errorf("%d steps, stored %v", len(d.past), d.doc != "")
	}
	d.do(Action{Do: "undo"})
	if d.file() != before || d.strip() != strip {
		t.Error("undo does not take the drag back")
	}
	d.do(Action{Do: "drag", Ref: "opening/0/0", Phase: "start"})
	d.do(Action{Do: "drag", Ref: "opening/0/0", Phase: "move", By: 4 * sixteenth})
	if d.file() == before {
		t.Error("the divider does not move")
	}
	d.do(Action{Do: "drag", Ref: "opening/0/0", Phase: "cancel"})
	if d.file() != before || len(d.past) != 0 {
		t.Error("a drag that was given up left something")
	}
	d.do(Action{Do: "set", Path: "cabinet.width", Value: "37"})
	wider := d.file()
	d.do(Action{Do: "drag", Ref: "bay/0", Phase: "start"})
	d.do(Action{Do: "drag", Ref: "bay/0", Phase: "move", By: 4 * sixteenth})
	if d.do(Action{Do: "undo"}); d.file() != before || d.moving != nil {
		t.Error("undo in the middle of a drag does not take the last step back")
	}
	if d.do(Action{Do: "redo"}); d.file() != wider {
		t.Error("redo does not bring it again")
	}
	d.do(Action{Do: "undo"})
	if d.do(Action{Do: "drag", Ref: "opening/9/9", Phase: "start"}); d.last.Alert == "" || d.file() != before {
		t.Error("a divider that is not there was dragged")
	}
}

// Our few lines read tables as encoding/csv does.
func TestRows(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 0))
	cells := []string{"side, left", `3/4" ply`, "30 in", "", "a\nb", "x", "ä"}
	for range 300 {
		var want [][]string
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.UseCRLF = r.IntN(2) == 0
		for range 1 + r.IntN(4) {
			row := []string{"name"}
			for range r.IntN(4) {
				row = append(row, cells[r.IntN(len(cells))])
			}
			want = append(want, row)
			if err := w.Write(row); err != nil {
				t.Fatal(err)
			}
		}
		w.Flush()
		got, err := rows(b.String())
		if text := strings.ReplaceAll(fmt.Sprint(want), "\r", ""); err != nil || fmt.Sprint(got) != text {
			t.Fatalf("rows(%q) = %q, %v; want %q", b.String(), got, err, want)
		}
	}
	if _, err := rows("a,\"b"); err == nil {
		t.Error("an open quotation mark is no error")
	}
}

func TestHunt(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	o := d.last.Search
	if o.Seq == 0 || len(o.Seeds) == 0 {
		t.Fatalf("no search: %+v", o)
	}
	var finds []Find
	if err := Hunt(d.Task(), o.Seq, o.Seeds[0], func(f Find) bool {
		finds = append(finds, f)
		return f.Tries < 3000
	}); err != nil {
		t.Fatal(err)
	}
	now := int64(1000)
	for _, f := range finds {
		text, err := json.Marshal(f) // as it crosses from worker to worker
		if err != nil {
			t.Fatal(err)
		}
		var g Find
		if err := json.Unmarshal(text, &g); err != nil {
			t.Fatal(err)
		}
		was := d.out.Plan
		r := d.keep(d.Found(g, now))
		now += 10
		if was.Better(&d.out.Plan) {
			t.Fatal("the plan on the screen got worse")
		}
		if r.Search.Seq != o.Seq {
			t.Fatalf("the search ended after %d ms", now)
		}
	}
	if found := nest.Verify(d.out.Job, d.out.Plan); len(found) > 0 {
		t.Errorf("the plan on the screen: %v", found)
	}
	// Without a better plan it ends by itself.
	end := now
	for ; end < now+20_000 && d.last.Searching; end += 100 {
		d.keep(d.Found(Find{Seq: o.Seq, Seed: o.Seeds[0], Tries: 5000}, end))
	}
	if d.last.Searching || end-now < 9_000 {
		t.Errorf("it went on for %d ms", end-now)
	}
	// What comes for an older job is dropped.
	d.do(Action{Do: "set", Path: drawerHeight, Value: "5"})
	plan := d.out.Plan
	better := plan
	better.Cost--
	d.keep(d.Found(Find{Seq: o.Seq, Seed: 1, Plan: &better}, end))
	if d.out.Plan.Cost != plan.Cost {
		t.Error("a plan for another job was taken")
	}
	// So is a plan that only claims to be better.
	d.keep(d.Found(Find{Seq: d.last.Search.Seq, Seed: 1, Plan: &better}, end))
	if d.out.Plan.Cost != plan.Cost {
		t.Error("a plan that does not verify was taken")
	}
	if d.do(Action{Do: "stop"}); d.last.Searching {
		t.Error("stop does not stop")
	}
	if d.do(Action{Do: "more"}); d.last.Search.Seq == 0 {
		t.Error("more does not search on")
	}
}

// After any actions, whatever was stored opens to what was on the screen; and
// undoing everything leads back to the start.
func TestRandomActions(t *testing.T) {
	for seed := range uint64(6) {
		r := rand.New(rand.NewPCG(seed, 0))
		d := demoDesk(t, "jointer-stand")
		start := d.file()
		for range 40 {
			switch r.IntN(8) {
			case 0:
				d.do(Action{Do: "set", Path: "cabinet.width", Value: fmt.Sprint(30 + r.IntN(12))})
			case 1:
				d.do(Action{Do: "set", Path: drawerHeight, Value: []string{"5", "4 1/2", "six", "3"}[r.IntN(4)]})
			case 2:
				by := int64(r.IntN(64)-32) * int64(measure.Inch/16)
				ref := []string{"bay/0", "opening/0/0", "opening/0/1"}[r.IntN(3)]
				d.do(Action{Do: "drag", Ref: ref, Phase: "start"})
				d.do(Action{Do: "drag", Ref: ref, Phase: "move", By: by / 2})
				d.do(Action{Do: "drag", Ref: ref, Phase: "end", By: by})
			case 3, 4:
				d.do(Action{Do: "mark"})
			case 5:
				d.do(Action{Do: "unmark"})
			case 6:
				d.do(Action{Do: "undo"})
			case 7:
				d.do(Action{Do: "redo"})
			}
		}
		if d.doc != "" {
			e := newDesk(t)
			e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
			if e.file() != d.file() || e.out.stands.Done != d.out.stands.Done {
				t.Errorf("seed %d: what was stored opens to something else", seed)
			}
		}
		for range 200 {
			if len(d.past) == 0 {
				break
			}
			d.do(Action{Do: "undo"})
		}
		if len(d.past) > 0 || d.file() != start || d.out.stands.Done != 0 {
			t.Errorf("seed %d: undoing all leaves %d steps, %d cuts done: %s", seed, len(d.past), d.out.stands.Done, d.last.Alert)
		}
	}
}

func TestPrintIsThereWithAndWithoutCanvas(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	for _, view := range []string{"svg", "canvas"} {
		d.do(Action{Do: "view", To: view})
		for _, what := range []string{"parts", "cards", "saw"} {
			delete(d.panels, "print")
			d.do(Action{Do: "place", To: "store"})
			d.do(Action{Do: "place", To: "size"})
			if d.do(Action{Do: "print", To: what}); d.last.Print != what || len(d.panels["print"]) < 1000 {
				t.Errorf("%s, drawn as %s: print %q with %d bytes", what, view, d.last.Print, len(d.panels["print"]))
			}
		}
	}
}

func BenchmarkDrag(b *testing.B) {
	d := demoDesk(b, "jointer-stand")
	d.do(Action{Do: "view", To: "canvas"})
	d.do(Action{Do: "drag", Ref: "bay/0", Phase: "start"})
	for i := 0; b.Loop(); i++ {
		d.do(Action{Do: "drag", Ref: "bay/0", Phase: "move", By: int64(i%16-8) * int64(measure.Inch/16)})
	}
}
