package planner

import "testing"

// TestSwap: a bay changes places with the one on its right, and an opening with
// the one below; undo takes it back; the last has no next one, and is told so.
func TestSwap(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	bay := func(i int) string { return d.Planner.doc.Cabinet.Bays[i].Name }
	cell := func(i int) string { return d.Planner.doc.Cabinet.Bays[0].Openings[i].Name }
	d.do(Action{Do: "swap", Path: "cabinet.bays", At: 0})
	if bay(0) != "Reel bay" || bay(1) != "Drawer bay" || d.out.made.Drawers[0].Bay != 1 {
		t.Errorf("swapped: %s, %s, the drawers are in bay %d", bay(0), bay(1), d.out.made.Drawers[0].Bay+1)
	}
	d.do(Action{Do: "undo"})
	if bay(0) != "Drawer bay" {
		t.Errorf("undone: %s", bay(0))
	}
	// The lowest front was 19 − 4 − 6 1/4 − 4 × 3/32 = 8 3/8 in high and still is
	// the rest, but stands in the middle.
	low := d.out.made.Drawers[2].Front.Size(2)
	d.do(Action{Do: "swap", Path: "cabinet.bays.0.openings", At: 1})
	if cell(1) != "Bottom drawer" || d.out.made.Drawers[1].Front.Size(2) != low {
		t.Errorf("swapped: %s, %v high", cell(1), d.out.made.Drawers[1].Front.Size(2))
	}
	for _, at := range []int{-1, 1, 99} {
		if r := d.do(Action{Do: "swap", Path: "cabinet.bays", At: at}); r.Alert == "" || bay(0) != "Drawer bay" {
			t.Errorf("at %d: %q, %s", at, r.Alert, bay(0))
		}
	}
}
