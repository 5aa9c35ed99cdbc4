package planner

import (
	"bytes"
	"testing"

	"cartwright/engine/scene"
)

// TestEachPlaceHasItsDrawing: the cart at Size, the operator's card at Store,
// the sheets at Saw, the step at hand or the part being drilled at Bench.
func TestEachPlaceHasItsDrawing(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "size", W: 700, H: 500})
	title := func(place string) string {
		d.do(Action{Do: "place", To: place})
		return d.Planner.draw().Title
	}
	seen := map[string]string{}
	for _, place := range []string{"size", "store", "saw", "bench"} {
		got := title(place)
		if got == "" || seen[got] != "" {
			t.Errorf("%s shows %q, as %s does", place, got, seen[got])
		}
		seen[got] = place
	}
	step := scene.Encode(d.Planner.draw())
	d.do(Action{Do: "mark", Cut: d.Planner.out.Bench.Steps[0].ID})
	if bytes.Equal(scene.Encode(d.Planner.draw()), step) {
		t.Error("after step 1 the drawing is still that of step 1")
	}
	d.do(Action{Do: "select", Ref: "drill/side-left"})
	if got := d.Planner.draw().Title; got != "Side, left" {
		t.Errorf("the part being drilled is drawn as %q", got)
	}
}
