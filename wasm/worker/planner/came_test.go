package planner

import (
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/work"
)

const eighth = measure.Inch / 8

// partOff is a desk at the saw where a part has just come off, and its cut.
func partOff(t *testing.T) (*desk, work.Cut) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "saw"})
	for {
		if d.do(Action{Do: "mark"}); d.last.Alert != "" {
			t.Fatal(d.last.Alert)
		}
		c, _ := d.out.Steps.Cut(d.out.stands.Last)
		if c.Kinds[c.SetPiece()] == work.ToPart {
			return d, c
		}
	}
}

// short says that what came off is 1/8 in short.
func (d *desk) short(c work.Cut) (wanted measure.Length) {
	d.do(Action{Do: "size", Cut: c.ID})
	wanted = d.came.Size
	d.do(Action{Do: "set", Path: page.CamePath, Value: d.Planner.doc.Measure().Exact(wanted - eighth)})
	d.do(Action{Do: "measured"})
	return wanted
}

func lying(d *desk) map[string]int {
	out := map[string]int{}
	for _, l := range work.LyingNow(d.out.Job, d.out.Plan, d.out.Steps, d.out.stands) {
		if l.By != "" && l.Is != work.ToWaste {
			out[l.L.String()+" × "+l.W.String()]++
		}
	}
	return out
}

func TestCameOutShort(t *testing.T) {
	d, c := partOff(t)
	if !strings.Contains(d.panels["buttons"], "came out at another size") {
		t.Fatal("nobody asks what it measures")
	}
	n := len(d.marks)
	wanted := d.short(c)
	is, want, _ := d.out.stands.Came(d.out.Steps, c)
	if want != wanted || is != wanted-eighth || len(d.marks) != n+1 || d.came.Cut != "" {
		t.Fatalf("%v came out %v, %d entries, alert %q", want, is, len(d.marks)-n, d.last.Alert)
	}
	banner := page.Plain(strings.NewReplacer("<sup>", "", "</sup>", "").Replace(d.panels["banner"]))
	if !strings.Contains(banner, "plan the uncut again?") || !strings.Contains(banner, `data-do="replan"`) {
		t.Errorf("the banner says %s", banner)
	}

	// The tab dies; what was stored says the same.
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
	if got, _, _ := e.out.stands.Came(e.out.Steps, c); got != is {
		t.Errorf("opened again it is %v, want %v", got, is)
	}

	// Undo takes it back, by another entry; redo says it again.
	d.do(Action{Do: "undo"})
	if got, _, _ := d.out.stands.Came(d.out.Steps, c); got != wanted || len(d.marks) != n+2 || !d.isDone(c.ID) {
		t.Errorf("after undo it is %v, %d entries", got, len(d.marks)-n)
	}
	if strings.Contains(d.panels["banner"], "came out") {
		t.Error("the banner still asks")
	}
	d.do(Action{Do: "redo"})
	if got, _, _ := d.out.stands.Came(d.out.Steps, c); got != is {
		t.Errorf("after redo it is %v", got)
	}

	// The cut taken back, the size is gone with it; both come again.
	d.do(Action{Do: "unmark", Cut: c.ID})
	d.do(Action{Do: "mark", Cut: c.ID})
	if got, _, _ := d.out.stands.Came(d.out.Steps, c); got != wanted {
		t.Errorf("made again it is %v, want %v", got, wanted)
	}
	d.do(Action{Do: "undo"})
	d.do(Action{Do: "undo"})
	if got, _, _ := d.out.stands.Came(d.out.Steps, c); got != is || !d.isDone(c.ID) {
		t.Errorf("not taken back after all, it is %v", got)
	}

	// The uncut is planned again from what lies there.
	made, total, there := 0, d.toCut(), lying(d)
	for _, l := range work.LyingNow(d.out.Job, d.out.Plan, d.out.Steps, d.out.stands) {
		if l.Is == work.ToPart && l.L == l.Piece.L && l.W == l.Piece.W {
			made++
		}
	}
	old := d.held.digest
	d.again()
	if d.last.Alert != "" || d.held.digest == old {
		t.Fatalf("replanned: %q", d.last.Alert)
	}
	plannedRest(t, d, total-made)
	stock := map[string]int{}
	for _, s := range d.out.Job.Stock {
		if s.AtShop {
			stock[s.L.String()+" × "+s.W.String()] += s.Count
		}
	}
	for _, q := range d.held.before() {
		made -= q
	}
	if made != 0 {
		t.Errorf("%d made parts are forgotten", made)
	}
	for size, n := range there {
		if strings.HasPrefix(size, is.String()) && stock[size] < n {
			t.Errorf("%d of %s lie there, %d are stock", n, size, stock[size])
		}
	}
	if s := mark.Fold(d.Planner.doc.Journal); s.Plan != d.held.digest {
		t.Error("the new plan is not in use")
	}
	if strings.Contains(d.panels["banner"], "came out") {
		t.Error("the banner still asks")
	}
}

// What is cut stays cut, however often the uncut is planned again.
func TestReplanTwice(t *testing.T) {
	d, _ := partOff(t)
	total, left := 0, 0
	for _, l := range d.held.Lines {
		total += l.Count
	}
	for range 3 {
		d.again()
		if d.last.Alert != "" || d.held == nil {
			t.Fatalf("replanned: %q, held %v", d.last.Alert, d.held != nil)
		}
		was := left
		left = 0
		for _, q := range d.out.Job.Parts {
			left += q.Count
		}
		if was != 0 && left != was {
			t.Errorf("%d parts to cut, before it was %d", left, was)
		}
		if found := nest.Verify(d.out.Job, d.out.Plan); len(found) > 0 {
			t.Errorf("the new plan: %v", found)
		}
	}
	if left >= total || d.out.differ != 0 {
		t.Errorf("%d of %d to cut, %d differ", left, total, d.out.differ)
	}
	if !strings.Contains(d.panels["title"], "before this plan") || !strings.Contains(d.panels["list"], "row-was-") {
		t.Errorf("at Saw nobody speaks of what is cut: %s", d.panels["title"])
	}
	if d.do(Action{Do: "place", To: "parts"}); !strings.Contains(d.panels["list"], `class="cut"`) {
		t.Error("at Parts nothing is ticked")
	}
}

func TestAbsurdSizes(t *testing.T) {
	d, c := partOff(t)
	n := len(d.marks)
	d.do(Action{Do: "size", Cut: c.ID})
	at := d.came.Size
	for _, text := range []string{"", "5 1/", "0", "-3", "4000", "99999999999999999999 in", "1e9", "<b>9</b>", strings.Repeat("9", 5000), "\x00"} {
		d.do(Action{Do: "set", Path: page.CamePath, Value: text})
		if w := d.wrong[page.CamePath]; d.came.Size != at || w.Text != text || !strings.HasSuffix(w.Why, "stays.") {
			t.Errorf("%.20q is read as %v, said %.80q", text, d.came.Size, w.Why)
		}
		if strings.Contains(d.panels["buttons"], "<b>9") {
			t.Error("markup")
		}
	}
	d.do(Action{Do: "nudge", Path: page.CamePath, Value: d.Planner.doc.Measure().Exact(at), Step: "-step"})
	if d.came.Size != at-d.Planner.doc.Measure().Least() || len(d.wrong) != 0 {
		t.Errorf("a step less is %v", d.came.Size)
	}
	d.do(Action{Do: "size"})
	d.do(Action{Do: "measured"})
	if d.last.Alert == "" || len(d.marks) != n {
		t.Error("a size was noted that nobody asked for")
	}
	for _, id := range []string{"cut/9/r", "x", "build/0", d.out.Steps.Shop[len(d.out.Steps.Shop)-1].ID} {
		if d.do(Action{Do: "size", Cut: id}); d.came.Cut != "" {
			t.Errorf("%s is asked about", id)
		}
		d.do(Action{Do: "set", Path: page.CamePath, Value: "5"})
	}
	if len(d.marks) != n {
		t.Error("something was noted")
	}

	// A journal may hold anything.
	for _, v := range []measure.Length{-1, 1, 1 << 40, 1 << 62, -1 << 63, 1<<63 - 1} {
		e := newDesk(t)
		e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
		for _, c := range e.out.Steps.Shop {
			for _, m := range c.Makes {
				e.Planner.doc.Journal = append(e.Planner.doc.Journal, mark.Next(e.Planner.doc.Journal, "x", "").Measure(e.held.digest, m, "x", v))
			}
		}
		e.do(Action{Do: "place", To: "saw"})
		e.do(Action{Do: "mark"})
		e.again()
		if e.held != nil {
			if found := nest.Verify(e.out.Job, e.out.Plan); len(found) > 0 {
				t.Errorf("with %d: %v", v, found)
			}
		}
	}
}
