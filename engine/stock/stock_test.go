package stock

import (
	"math"
	"testing"

	"cartwright/engine/measure"
)

// TestDressed: American Softwood Lumber Standard PS 20, dressed dry sizes, as
// printed in a public table of it.
func TestDressed(t *testing.T) {
	for _, tt := range []struct {
		thick, width int
		t, w         measure.Length
	}{
		{1, 2, in * 3 / 4, in * 3 / 2},
		{1, 3, in * 3 / 4, in * 5 / 2},
		{1, 4, in * 3 / 4, in * 7 / 2},
		{1, 6, in * 3 / 4, in * 11 / 2},
		{1, 8, in * 3 / 4, in * 29 / 4}, // 8 and wider lose 3/4, not 1/2
		{1, 10, in * 3 / 4, in * 37 / 4},
		{1, 12, in * 3 / 4, in * 45 / 4},
		{2, 4, in * 3 / 2, in * 7 / 2},
		{2, 6, in * 3 / 2, in * 11 / 2},
		{4, 4, in * 7 / 2, in * 7 / 2},
	} {
		gt, gw, ok := DressedSize(tt.thick, tt.width)
		if !ok || gt != tt.t || gw != tt.w {
			t.Errorf("%dx%d = %v × %v, %v; want %v × %v", tt.thick, tt.width, gt, gw, ok, tt.t, tt.w)
		}
	}
	if _, _, ok := DressedSize(3, 4); ok {
		t.Error("a 3x4 is not in the table")
	}
}

// TestBoardFeet: examples printed by a woodworking tips page (1 × 9 × 96 in is
// 6 bf, 1.5 × 9 × 96 in is 9 bf) and by hand (1x3×8 ft and 1x4×6 ft are 2 bf;
// 2x4×8 ft is 5.33). Stock under 1 in counts as 1 in.
func TestBoardFeet(t *testing.T) {
	for _, tt := range []struct {
		t, w, l measure.Length
		want    float64
	}{
		{in, 9 * in, 96 * in, 6},
		{in * 3 / 2, 9 * in, 96 * in, 9},
		{in, 3 * in, 8 * measure.Foot, 2},
		{in, 4 * in, 6 * measure.Foot, 2},
		{in * 3 / 4, 4 * in, 6 * measure.Foot, 2},
		{2 * in, 4 * in, 8 * measure.Foot, 16. / 3},
	} {
		if got := BoardFeet(tt.t, tt.w, tt.l, 1); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%v × %v × %v = %v bf, want %v", tt.t, tt.w, tt.l, got, tt.want)
		}
	}
	if got := BoardFeet(in, 9*in, 96*in, 3); got != 18 {
		t.Errorf("three boards of 6 bf = %v", got)
	}
}

// TestPlyRange: Voluntary Product Standard PS 1-19, unsanded panels, least and
// most thickness as printed to a thousandth of an inch.
func TestPlyRange(t *testing.T) {
	for _, tt := range []struct {
		num, den    measure.Length
		least, most float64
	}{
		{1, 4, 0.219, 0.281}, {11, 32, 0.313, 0.375}, {3, 8, 0.344, 0.406}, {15, 32, 0.438, 0.500},
		{1, 2, 0.469, 0.531}, {19, 32, 0.563, 0.625}, {5, 8, 0.594, 0.656}, {23, 32, 0.688, 0.750},
		{3, 4, 0.719, 0.781}, {7, 8, 0.831, 0.919}, {9, 8, 1.069, 1.181},
	} {
		least, most := PlyRange(in * tt.num / tt.den)
		if got := float64(least) / float64(in); math.Abs(got-tt.least) > 0.0006 {
			t.Errorf("%d/%d: least %.4f, want %.3f", tt.num, tt.den, got, tt.least)
		}
		if got := float64(most) / float64(in); math.Abs(got-tt.most) > 0.0006 {
			t.Errorf("%d/%d: most %.4f, want %.3f", tt.num, tt.den, got, tt.most)
		}
	}
}

func TestSlides(t *testing.T) {
	for _, tt := range []struct {
		metric      bool
		depth, want measure.Length
	}{
		{false, 21 * in, 20 * in},
		{false, 20 * in, 20 * in},
		{false, 20*in - 1, 18 * in},
		{false, 7 * in, 0},
		{true, 499 * mm, 450 * mm},
		{true, 2000 * mm, 600 * mm},
	} {
		if got := LongestSlide(tt.metric, tt.depth); got != tt.want {
			t.Errorf("LongestSlide(%v, %v) = %v, want %v", tt.metric, tt.depth, got, tt.want)
		}
	}
}

// TestPull: a pull about a third of the front, nearest spacing sold (common
// practice, no source); the spacings are exact millimetres, 3 in is 76.2 mm.
func TestPull(t *testing.T) {
	for _, tt := range []struct {
		front, want measure.Length
		pulls       int
	}{
		{9 * in, 3 * in, 1},    // a third is 76.2 mm exactly
		{12 * in, 96 * mm, 1},  // 101.6 mm: 96 is 5.6 away, 128 is 26.4
		{15 * in, 128 * mm, 1}, // 127 mm
		{25 * in, 224 * mm, 1}, // 211.7 mm: 12.3 to 224, 19.7 to 192
		{30 * in, 256 * mm, 1}, // 254 mm
		{40 * in, 160 * mm, 2}, // each half 20 in: 169.3 mm: 9.3 to 160, 22.7 to 192
		{4 * in, 64 * mm, 1},   // the shortest there is
	} {
		if got, n := Pull(tt.front); got != tt.want || n != tt.pulls {
			t.Errorf("Pull(%v) = %v, %d; want %v, %d", tt.front, got, n, tt.want, tt.pulls)
		}
	}
}

// TestPullThird: a pull is about a third of the front's width overall: 12 → 4,
// 18 → 6, 24 → 8, 30 → 10 in (a design rule on many pages). Its holes are nearer
// to each other than it is long, and the spacing is the one sold that is nearest:
// no more than 16 mm, half the grid, from the third. Over 30 in two pulls.
func TestPullThird(t *testing.T) {
	for _, tt := range []struct{ front, pull measure.Length }{{12, 4}, {18, 6}, {24, 8}, {30, 10}} {
		if s, n := Pull(tt.front * in); n != 1 || (s-tt.pull*in).Abs() > 16*mm {
			t.Errorf("front %d in: %d pulls of %v, the rule says one of %d in", tt.front, n, s, tt.pull)
		}
	}
	if _, n := Pull(36 * in); n != 2 {
		t.Errorf("36 in: %d pulls", n)
	}
}
