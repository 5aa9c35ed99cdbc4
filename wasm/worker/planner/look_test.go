package planner

import (
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/part"
)

// TestLook: the cart is seen from above and from the side; a part that is
// tapped shows its sum and what it meets, and at Parts its face; the worktop's
// edge is dragged in one step of undo.
func TestLook(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "size"})
	if d.do(Action{Do: "look", To: "plan"}); !strings.Contains(d.panels["drawing"], "from above") {
		t.Error("no plan")
	}
	if !strings.Contains(d.panels["title"], `id="look-plan" aria-pressed="true"`) {
		t.Errorf("the plan is not said to be shown: %s", d.panels["title"])
	}
	if d.do(Action{Do: "look", To: "nonsense"}); strings.Contains(d.panels["drawing"], "from above") {
		t.Error("nonsense is a plan")
	}
	ref := ""
	for i, l := range d.out.Cart.Lines {
		if l.Name == "Drawer front" {
			ref = "part/" + part.Tag(i)
			break
		}
	}
	d.do(Action{Do: "tap", Ref: ref})
	for _, want := range []string{"Drawer front", "gap at the side", "Drawer box front: screws", "front face"} {
		if !strings.Contains(d.panels["list"], want) {
			t.Errorf("a tapped front does not say %q", want)
		}
	}
	d.do(Action{Do: "select", Ref: ""})
	if d.panels["list"] != "" {
		t.Errorf("nothing is chosen, yet: %s", d.panels["list"])
	}
	was := d.Planner.doc.Cabinet.Top.Overhang.Right
	d.do(Action{Do: "drag", Ref: "top/right", Phase: "start"})
	d.do(Action{Do: "drag", Ref: "top/right", Phase: "move", By: int64(measure.Inch)})
	d.do(Action{Do: "drag", Ref: "top/right", Phase: "end", By: int64(measure.Inch)})
	if got := d.Planner.doc.Cabinet.Top.Overhang.Right; got != was+measure.Inch {
		t.Errorf("dragged an inch: %v, was %v", got, was)
	}
	d.do(Action{Do: "undo"})
	if got := d.Planner.doc.Cabinet.Top.Overhang.Right; got != was {
		t.Errorf("undone: %v, was %v", got, was)
	}
	d.do(Action{Do: "place", To: "parts"})
	d.do(Action{Do: "select", Ref: ref})
	if !strings.Contains(d.panels["drawing"], "its good face up") {
		t.Error("the chosen part is not drawn at Parts")
	}
}
