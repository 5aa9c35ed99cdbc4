package draw_test

import (
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/draw"
	"cartwright/engine/scene"
)

// What is said beside a dragged handle stands inside the drawing, whole, on
// top, at every size; without a drag it is not there.
func TestNote(t *testing.T) {
	p := opened(t, "jointer-stand")
	cart, _ := design.Build(p)
	note := []string{"at 16 1⁄8: 1 sheet fewer, −$84.00", "from 17 on needs 1 sheet or board more"}
	for _, size := range [][2]int{{390, 372}, {744, 702}, {1200, 500}, {280, 200}} {
		for _, drag := range []string{"", "bay/0", "opening/0/0", "opening/0/1"} {
			s := draw.Cart(cart, size[0], size[1], draw.CartOptions{Drag: drag, Note: note})
			said := 0
			for _, it := range s.Items {
				l, ok := it.(scene.Label)
				if !ok || l.Text != note[0] && l.Text != note[1] {
					continue
				}
				said++
				if r := l.Extent(); size[0] > 300 && (r.Min.X < 0 || r.Min.Y < 0 || r.Max.X > s.W || r.Max.Y > s.H) {
					t.Errorf("%v, %s: %q leaves the drawing: %v", size, drag, l.Text, r)
				}
			}
			if last, ok := s.Items[len(s.Items)-1].(scene.Label); drag != "" && (!ok || last.Text != note[1]) {
				t.Errorf("%v, %s: something lies over the note", size, drag)
			}
			if want := min(len(drag), 1) * 2; said != want {
				t.Errorf("%v, %q: %d lines are said, want %d", size, drag, said, want)
			}
		}
	}
}
