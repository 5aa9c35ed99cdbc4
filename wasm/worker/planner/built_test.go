package planner

import (
	"strings"
	"testing"

	"cartwright/engine/page"
)

// TestBuilt: the width of a box as built is an entry of the journal, changes the
// drawer's card, is undone and redone, and comes back from storage. What cannot
// be read or cannot be stays in its field, with nothing noted.
func TestBuilt(t *testing.T) {
	const on = "built/bay1/drawer2/back"
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: string(page.Bench)})
	card := func() string { return d.panels["list"] }
	if strings.Contains(card(), "Binds at the back") {
		t.Fatal("it binds before it is measured")
	}
	r := d.do(Action{Do: "set", Path: on, Value: "15 1/2"}) // the opening less both slides: no play
	if v, ok := d.out.state.Value(on); !ok || v.String() != `15 1/2 in` || !strings.Contains(card(), "Binds at the back") || strings.Contains(card(), "Binds at the front") {
		t.Fatalf("%v %t, %q", v, ok, r.Alert)
	}
	d.do(Action{Do: "undo"})
	if v, _ := d.out.state.Value(on); v != 0 || strings.Contains(card(), "Binds at the back") {
		t.Errorf("after undo: %v", v)
	}
	d.do(Action{Do: "redo"})
	if !strings.Contains(card(), "Binds at the back") {
		t.Error("redo does not bring it back")
	}
	for _, bad := range []string{"abc", "155", "-3", "<b>"} {
		d.do(Action{Do: "set", Path: on, Value: bad})
		if v, _ := d.out.state.Value(on); v.String() != `15 1/2 in` || !strings.Contains(card(), "Could not read") {
			t.Errorf("%q: %v", bad, v)
		}
	}
	if r := d.do(Action{Do: "set", Path: "built/bay9/drawer9/back", Value: "15"}); r.Alert == "" {
		t.Error("a drawer that is not there was measured")
	}
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
	if v, _ := e.out.state.Value(on); v.String() != `15 1/2 in` {
		t.Errorf("opened again: %v", v)
	}
	d.do(Action{Do: "set", Path: on, Value: ""})
	if v, _ := d.out.state.Value(on); v != 0 {
		t.Errorf("cleared: %v", v)
	}
}

// TestGuideOnCutList: the pieces of a guide go on the cut list in one step of
// undo, and the chosen guide has its drawing and its card.
func TestGuideOnCutList(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: string(page.Bench)})
	before := d.panels["drawing"]
	d.do(Action{Do: "select", Ref: "guide/pull-1"})
	if !strings.Contains(d.panels["title"], "Drilling guide") || !strings.Contains(d.panels["drawing"], "Guide plate") || d.panels["drawing"] == before {
		t.Fatalf("no guide is shown: %s", d.panels["title"])
	}
	n, lines := len(d.Planner.doc.Extra), len(d.out.Cart.Lines)
	d.do(Action{Do: "guide", Ref: "guide/pull-1"})
	x := d.Planner.doc.Extra
	if len(x) != n+2 || x[n].Name != "Guide plate, pull of drawer 1" || x[n].Width <= 0 || len(d.out.Cart.Lines) != lines+2 || d.out.Findings.Blocked() {
		t.Fatalf("%+v, %v", x, d.out.Findings)
	}
	d.do(Action{Do: "undo"})
	if len(d.Planner.doc.Extra) != n {
		t.Error("undo leaves the guide")
	}
	if r := d.do(Action{Do: "guide", Ref: "guide/pull-77"}); r.Alert == "" || len(d.Planner.doc.Extra) != n {
		t.Errorf("a guide that is not there: %q", r.Alert)
	}
}

// TestLostMarks: marks of a drawer that goes are told and kept, can be taken
// off, and count again when the drawer is back.
func TestLostMarks(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: string(page.Bench)})
	const id = "build/sub/drawer-3"
	d.do(Action{Do: "mark", Cut: id})
	d.do(Action{Do: "remove", Path: "cabinet.bays.0.openings", At: 0})
	if !strings.Contains(d.panels["list"], "Marked, but no step now (1)") || !d.out.Findings.Has("mark.orphan") {
		t.Fatalf("nobody tells: %v", d.out.Findings)
	}
	d.do(Action{Do: "undo"})
	if _, ok := d.out.state.Step(id); !ok || d.out.Findings.Has("mark.orphan") {
		t.Error("the mark does not count again")
	}
	d.do(Action{Do: "redo"})
	d.do(Action{Do: "unmark", Cut: id})
	if _, ok := d.out.state.Step(id); ok || d.out.Findings.Has("mark.orphan") || strings.Contains(d.panels["list"], "Marked, but no step") {
		t.Error("it cannot be taken off")
	}
}
