package draw

import (
	"testing"

	"cartwright/engine/scene"
)

// labels lists the numbers of a sketch.
func labels(k *sketch) []scene.Label {
	var out []scene.Label
	for _, it := range k.Items {
		if l, ok := it.(scene.Label); ok {
			out = append(out, l)
		}
	}
	return out
}

// TestChain: every member has its number, over its own stretch if it fits
// there, and no number covers another. Narrowing one member by a hand-worked
// amount moves its number out.
func TestChain(t *testing.T) {
	wide := scene.TextWidth("15 27⁄32", 15*px, true)
	draw := func(second scene.Unit) []scene.Label {
		k := newSketch(800*px, 200*px, "")
		a, b := 100*px+wide+20*px, 100*px+wide+20*px+second
		k.chainAcross(100*px, []member{{to: a, text: "15 27⁄32"}, {to: b, text: "23⁄32"}, {to: b + 200*px, text: "16"}}, 100*px, dim{})
		return labels(k)
	}
	check := func(ls []scene.Label) {
		t.Helper()
		if len(ls) != 3 {
			t.Fatalf("%d numbers, want 3", len(ls))
		}
		for i := range ls {
			for j := range i {
				if ls[i].Extent().Meets(ls[j].Extent()) {
					t.Errorf("%q covers %q", ls[i].Text, ls[j].Text)
				}
			}
			if ls[i].Size < 14*px {
				t.Errorf("%q is too small", ls[i].Text)
			}
		}
	}
	narrow := scene.TextWidth("23⁄32", 15*px, true)
	in := draw(narrow + 6*px) // room for the number and 3 px on each side
	check(in)
	out := draw(narrow + 5*px)
	check(out)
	if in[1].At.Y != in[0].At.Y {
		t.Errorf("a number that fits stands at %v, its neighbour at %v", in[1].At, in[0].At)
	}
	if out[1].At.Y == out[0].At.Y {
		t.Error("a number that does not fit stands in line with the others")
	}
}

// TestMoved: a number that has just changed is lit and has its amber foot.
func TestMoved(t *testing.T) {
	for _, moved := range []bool{false, true} {
		k := newSketch(400*px, 200*px, "")
		k.upright(20*px, 150*px, 200*px, "24", dim{moved: moved})
		l, foot := labels(k)[0], false
		for _, it := range k.Items {
			if a, ok := it.(scene.Area); ok && a.Fill == scene.Now {
				foot = true
			}
		}
		if (l.Back == scene.Lit) != moved || foot != moved {
			t.Errorf("moved %v: back %d, foot %v", moved, l.Back, foot)
		}
	}
}

// TestSpread: the middle comes first, every point holds the thing inside, and
// there is none where it does not fit.
func TestSpread(t *testing.T) {
	r := scene.R(10*px, 10*px, 100*px, 40*px)
	pts := spread(r, 30*px, 20*px, 7*px)
	if len(pts) < 20 || pts[0] != r.Mid() {
		t.Fatalf("%d places, the first %v, want %v", len(pts), pts[0], r.Mid())
	}
	for _, p := range pts {
		if p.X < 25*px || p.X > 95*px || p.Y < 20*px || p.Y > 40*px {
			t.Errorf("at %v it sticks out of %v", p, r)
		}
	}
	if pts := spread(r, 101*px, 20*px, 7*px); pts != nil {
		t.Errorf("it fits nowhere, but %v", pts)
	}
}

// TestCallout: the line of a callout ends at its words, not in them.
func TestCallout(t *testing.T) {
	k := newSketch(300*px, 200*px, "")
	k.callout(scene.Pt{X: 20 * px, Y: 100 * px}, scene.Pt{X: 200 * px, Y: 100 * px}, "16 11⁄32", scene.Ink)
	l := k.Items[0].(scene.Line)
	words := labels(k)[0].Extent()
	if end := l.Pts[1]; end.X != words.Min.X-4*px || end.Y != 100*px {
		t.Errorf("the line ends at %v, the words begin at %v", end, words.Min)
	}
}
