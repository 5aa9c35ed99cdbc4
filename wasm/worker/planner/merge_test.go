package planner

import (
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/project"
)

// device is a desk of another name with the project as saved to a file.
func device(t *testing.T, name, file string) *desk {
	d := newDesk(t)
	d.cfg.Device = name
	d.do(Action{Do: "file", ID: "p-" + name, Text: file, Value: name + ".json"})
	d.do(Action{Do: "place", To: "saw"})
	return d
}

func (d *desk) asFile() string { return string(project.Save(d.Planner.doc)) }

// TestMergeDevices: a phone marks two cuts, a tablet three others of the same
// plan; either way round both have all five, and once more changes nothing.
func TestMergeDevices(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "accept"})
	base := d.asFile()
	phone, tablet := device(t, "phone", base), device(t, "tablet", base)
	phone.do(Action{Do: "mark"})
	phone.do(Action{Do: "mark"})
	var ready []string
	for i, s := range tablet.out.stands.Shop {
		if c := tablet.out.Steps.Shop[i]; i > 4 && !s.Done && len(tablet.waitsFor(c, nil)) == 0 && len(ready) < 3 {
			ready = append(ready, c.ID)
		}
	}
	if len(ready) < 3 {
		t.Fatal("no three cuts are ready")
	}
	for _, id := range ready {
		tablet.do(Action{Do: "mark", Cut: id})
	}
	made := func(d *desk) (n int) {
		for _, s := range d.out.stands.Shop {
			if s.Done {
				n++
			}
		}
		return n
	}
	fromPhone, fromTablet := phone.asFile(), tablet.asFile()
	marks := len(tablet.marks)
	tablet.do(Action{Do: "merge", Value: "phone.json", Text: fromPhone})
	phone.do(Action{Do: "merge", Value: "tablet.json", Text: fromTablet})
	if made(tablet) != 5 || made(phone) != 5 || len(tablet.marks) == marks {
		t.Fatalf("tablet %d, phone %d; %q", made(tablet), made(phone), tablet.last.Alert)
	}
	if !strings.Contains(tablet.last.Alert, "added from “phone.json”") {
		t.Errorf("said %q", tablet.last.Alert)
	}
	a, b := mark.Merge(tablet.Planner.doc.Journal, nil), mark.Merge(phone.Planner.doc.Journal, nil)
	if len(a) != len(b) {
		t.Errorf("the journals have %d and %d entries", len(a), len(b))
	}
	n := len(tablet.marks)
	tablet.do(Action{Do: "merge", Value: "phone.json", Text: fromPhone})
	if len(tablet.marks) != n || !strings.Contains(tablet.last.Alert, "no mark that is not here") {
		t.Errorf("merged twice: %d entries more, %q", len(tablet.marks)-n, tablet.last.Alert)
	}
	// Storage holds all of it.
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: tablet.doc, Marks: tablet.marks})
	if made(e) != 5 {
		t.Errorf("opened again %d are made", made(e))
	}
}

// TestMergeConflict: both devices took a plan of their own into use. It is
// shown, nothing is mixed, and the choice settles it on either.
func TestMergeConflict(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	base := d.asFile()
	for _, choice := range []string{"this", "other"} {
		phone, tablet := device(t, "phone", base), device(t, "tablet", base)
		phone.do(Action{Do: "accept"})
		tablet.do(Action{Do: "set", Path: "cabinet.width", Value: "37 in"})
		tablet.do(Action{Do: "accept"})
		tablet.do(Action{Do: "mark"})
		ours, theirs := tablet.Planner.doc.Plan.Digest, phone.Planner.doc.Plan.Digest
		if ours == theirs {
			t.Fatal("the plans are one")
		}
		tablet.do(Action{Do: "merge", Value: "phone.json", Text: phone.asFile()})
		if tablet.Planner.doc.Plan.Digest != ours || tablet.Planner.doc.Rival == nil || !strings.Contains(tablet.panels["banner"], "Two plans") || tablet.out.stands.Done == 0 {
			t.Fatalf("banner %s, alert %q", tablet.panels["banner"], tablet.last.Alert)
		}
		e := newDesk(t) // the tab dies before the choice
		e.cfg.Device = "tablet"
		e.do(Action{Do: "open", ID: "p1", Text: tablet.doc, Marks: tablet.marks})
		if !strings.Contains(e.panels["banner"], "Two plans") {
			t.Fatal("opened again nobody asks")
		}
		e.do(Action{Do: "rival", To: choice})
		want := map[string]string{"this": ours, "other": theirs}[choice]
		if e.Planner.doc.Plan.Digest != want || e.Planner.doc.Rival != nil || strings.Contains(e.panels["banner"], "Two plans") || len(e.out.state.Others) != 0 || e.out.state.Plan != want {
			t.Errorf("%s: plan %s, others %v, banner %s", choice, e.out.state.Plan, e.out.state.Others, e.panels["banner"])
		}
		e.do(Action{Do: "rival", To: "other"})
		if e.last.Alert == "" {
			t.Error("chosen twice")
		}
		// The other device takes the outcome without another question.
		phone.do(Action{Do: "merge", Value: "tablet.json", Text: e.asFile()})
		if phone.Planner.doc.Rival != nil || phone.Planner.doc.Plan.Digest != want {
			t.Errorf("%s: the phone has %s, want %s; %q", choice, phone.Planner.doc.Plan.Digest, want, phone.last.Alert)
		}
	}
}

func TestMergeRefuses(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "mark"})
	was := d.asFile()
	other := demoDesk(t, "open-bench")
	other.do(Action{Do: "mark"})
	clash := strings.Replace(was, `"kind": "done"`, `"kind": "undone"`, 1)
	if clash == was {
		t.Fatal("no entry to falsify")
	}
	for name, text := range map[string]string{"other.json": other.asFile(), "broken.json": "{", "empty.json": "", "copied.json": clash} {
		d.do(Action{Do: "merge", Value: name, Text: text})
		if d.last.Alert == "" || d.asFile() != was {
			t.Errorf("%s: said %q", name, d.last.Alert)
		}
	}
}
