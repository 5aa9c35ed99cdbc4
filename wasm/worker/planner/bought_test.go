package planner

import (
	"strings"
	"testing"

	"cartwright/engine/project"
)

// TestBought ticks a row of the buying list: it is stored as an entry of the
// journal, survives the tab, can be taken back, and holds for as many as were
// bought: one caster box more and it asks for the rest.
func TestBought(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "store"})
	box := func(d *desk, id string) string {
		_, rest, ok := strings.Cut(d.panels["list"], `data-cut="buy/`+id+`/`)
		if !ok {
			t.Fatalf("no box for %s", id)
		}
		return rest[:strings.Index(rest, ">")]
	}
	if !strings.Contains(box(d, "pull"), `aria-pressed="false"`) {
		t.Fatal(box(d, "pull"))
	}
	d.do(Action{Do: "mark", Cut: "buy/pull/3"})
	d.do(Action{Do: "mark", Cut: "buy/birch-18-full/1"})
	if len(d.marks) != 2 || !strings.Contains(d.marks[0], `"bought"`) || !strings.Contains(box(d, "pull"), "true") {
		t.Fatalf("%d entries, %s", len(d.marks), box(d, "pull"))
	}
	d.do(Action{Do: "mark", Cut: "buy/pull/3"}) // a second tap that came late
	if len(d.marks) != 2 {
		t.Errorf("marked twice: %v", d.marks)
	}
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
	e.do(Action{Do: "place", To: "store"})
	if !strings.Contains(box(e, "pull"), "true") || !strings.Contains(box(e, "birch-18-full"), "true") || strings.Contains(box(e, "caster"), "true") {
		t.Error("opened again the ticks are others")
	}
	e.do(Action{Do: "unmark", Cut: "buy/pull/3"})
	if strings.Contains(box(e, "pull"), "true") {
		t.Error("the tick stays")
	}
	e.do(Action{Do: "undo"})
	if !strings.Contains(box(e, "pull"), "true") {
		t.Error("undo does not give it back")
	}
	// Another drawer wants a fourth pull: three are bought.
	if err := project.Insert(e.Planner.doc, "cabinet.bays.0.openings", 1); err != nil {
		t.Fatal(err)
	}
	e.do(Action{Do: "set", Path: "cabinet.bays.0.openings.1.kind", Value: "drawer"})
	if b := box(e, "pull"); strings.Contains(b, "true") || !strings.Contains(e.panels["list"], "3 bought, 1 more to buy") {
		t.Errorf("%s\n%s", b, e.panels["list"])
	}
	e.do(Action{Do: "unmark", Cut: "buy/nonsense/1"})
	if e.last.Alert == "" {
		t.Error("a tick that is not there was taken back")
	}
}
