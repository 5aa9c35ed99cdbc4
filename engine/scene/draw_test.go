package scene

import (
	"reflect"
	"testing"
)

func TestPick(t *testing.T) {
	s := Scene{Spots: []Spot{
		{Ref: "bay/0", At: R(0, 0, 200*PX, 200*PX)},
		{Ref: "bay/1", At: R(200*PX, 0, 200*PX, 200*PX)},
		{Ref: "divider", At: R(196*PX, 0, 8*PX, 200*PX)},
		{Ref: "cut/1", At: R(40*PX, 300*PX, 20*PX, 20*PX)},
		{Ref: "cut/2", At: R(64*PX, 300*PX, 20*PX, 20*PX)},
	}}
	tests := []struct {
		name string
		x, y Unit
		want string
	}{
		{"inside a large spot", 100, 100, "bay/0"},
		{"near a divider, which is later in the list", 185, 100, "divider"},
		{"beside the divider's 44 px", 177, 100, "bay/0"},
		{"on a small spot that a later one's widening covers", 55, 310, "cut/1"},
		{"on the later one", 66, 310, "cut/2"},
		{"outside, nearer to the first", 45, 325, "cut/1"},
		{"nothing there", 300, 320, ""},
	}
	for _, tt := range tests {
		got, ok := Pick(s, Pt{tt.x * PX, tt.y * PX})
		if got.Ref != tt.want || ok != (tt.want != "") {
			t.Errorf("%s: %q, %v; want %q", tt.name, got.Ref, ok, tt.want)
		}
	}
	if got, _ := PickWithin(s, Pt{185 * PX, 100 * PX}, Touch/4); got.Ref != "bay/0" {
		t.Errorf("zoomed in four times, %q is picked; want bay/0", got.Ref)
	}
}

func TestRuns(t *testing.T) {
	tests := []struct {
		text string
		want []Run
	}{
		{"", nil},
		{"front", []Run{{Text: "front"}}},
		{"23⁄32", []Run{{Num: "23", Den: "32"}}},
		{"2 3⁄32", []Run{{Text: "2", Num: "3", Den: "32", Gap: true}}},
		{"front 8 1⁄2", []Run{{Text: "front 8", Num: "1", Den: "2", Gap: true}}},
		{"front 1⁄2", []Run{{Text: "front ", Num: "1", Den: "2"}}},
		{"5 7⁄32 × 24 5⁄8 in", []Run{
			{Text: "5", Num: "7", Den: "32", Gap: true}, {Text: " × 24", Num: "5", Den: "8", Gap: true}, {Text: " in"}}},
		{"⁄", []Run{{Text: "⁄"}}},
		{"1⁄ and ⁄2", []Run{{Text: "1⁄ and ⁄2"}}},
		{"⁄ 1⁄2", []Run{{Text: "⁄ ", Num: "1", Den: "2"}}},
		{"−1⁄16", []Run{{Text: "−", Num: "1", Den: "16"}}},
	}
	for _, tt := range tests {
		if got := Runs(tt.text); !reflect.DeepEqual(got, tt.want) {
			t.Errorf("Runs(%q) = %+v, want %+v", tt.text, got, tt.want)
		}
	}
}

func TestZigzag(t *testing.T) {
	z := Zigzag([]Pt{{0, 0}, {880, 0}})
	if len(z) != 12 || z[0] != (Pt{}) || z[11] != (Pt{880, 0}) {
		t.Fatalf("%d points from %v to %v", len(z), z[0], z[len(z)-1])
	}
	for i, p := range z[1:11] {
		if want := (Pt{Unit(44 + 88*i), Unit(56 * (1 - 2*(i%2)))}); p != want {
			t.Errorf("tooth %d at %v, want %v", i, p, want)
		}
	}
}

func TestDashed(t *testing.T) {
	got := Dashed(Segs([]Pt{{0, 0}, {100, 0}, {100, 50}}, false), []Unit{60, 20})
	want := []Seg{{Pt{0, 0}, Pt{60, 0}}, {Pt{80, 0}, Pt{100, 0}}, {Pt{100, 0}, Pt{100, 40}}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestHatchStaysInside(t *testing.T) {
	u := []Pt{{0, 0}, {1600, 0}, {1600, 1600}, {1000, 1600}, {1000, 500}, {600, 500}, {600, 1600}, {0, 1600}}
	gap := R(600, 500, 400, 1100)
	for h := WasteHatch; h < hatches; h++ {
		segs := h.Strokes(u)
		if len(segs) < 10 {
			t.Errorf("hatch %d: only %d strokes", h, len(segs))
		}
		for _, s := range segs {
			mid := Pt{(s.A.X + s.B.X) / 2, (s.A.Y + s.B.Y) / 2}
			if !R(0, 0, 1601, 1601).Holds(s.A) || !R(0, 0, 1601, 1601).Holds(s.B) || gap.Grow(-2).Holds(mid) {
				t.Errorf("hatch %d: stroke %v leaves the shape", h, s)
			}
		}
	}
}

func TestBadgeExtent(t *testing.T) {
	for b := Shape(0); b < shapes; b++ {
		if r := (Badge{Shape: b, Text: "12", Size: 30 * PX}).Extent(); r.W() < 30*PX-1 || r.H() < 30*PX-1 || !r.Holds(Pt{}) {
			t.Errorf("shape %d covers %v", b, r)
		}
	}
}

func TestLabelExtentTurned(t *testing.T) {
	flat := Label{Text: "23", Size: 16 * PX, Align: Left}.Extent()
	turned := Label{Text: "23", Size: 16 * PX, Align: Left, Turn: true}.Extent()
	if turned.Max.Y != 0 || turned.H() != flat.W() || turned.W() != flat.H() {
		t.Errorf("flat %v, turned %v", flat, turned)
	}
}

// Whatever a scene holds, cutting it into strokes ends, in bounds.
func FuzzStrokes(f *testing.F) {
	f.Add(Encode(sample()))
	f.Fuzz(func(t *testing.T, b []byte) {
		s, err := Decode(b)
		if err != nil || len(s.Items) > 50 {
			return
		}
		for _, it := range s.Items {
			switch it := it.(type) {
			case Line:
				segs := Segs(Zigzag(it.Pts), false)
				if got := Dashed(segs, it.Pen.Dash()); len(got) > most+len(segs)+1 {
					t.Errorf("%d dashes", len(got))
				}
			case Area:
				if got := it.Hatch.Strokes(it.Pts); len(it.Pts) <= 6 && len(got) > 3*most {
					t.Errorf("%d strokes", len(got))
				}
			case Label:
				it.Extent()
			case Badge:
				it.Extent()
			}
		}
	})
}
