package scene

import (
	"bytes"
	"reflect"
	"testing"
)

// sample holds one of everything.
func sample() Scene {
	s := Scene{W: 300 * PX, H: 200 * PX, Title: "Sheet 1 of 3 – 96 × 48"}
	for p := NoPen; p < pens; p++ {
		s.Add(Line{Pts: []Pt{{16, Unit(p) * 160}, {4000, Unit(p) * 160}}, Pen: p, Tone: Ink})
	}
	for h := NoHatch; h < hatches; h++ {
		s.Add(Area{Pts: R(Unit(h)*640, 10, 600, 600).Corners(), Fill: Tint, Hatch: h, Pen: Medium, Tone: Ink})
	}
	for b := Shape(0); b < shapes; b++ {
		s.Add(Badge{At: Pt{Unit(b) * 640, 1200}, Shape: b, Text: "R2", Size: 28 * PX})
	}
	s.Add(Round{At: Pt{-40, 99}, R: 7, Fill: Now, Pen: Fine, Tone: Bad},
		Label{At: Pt{1, 2}, Text: "23 1⁄4", Size: 14 * PX, Bold: true, Align: Right, Tone: Good, Back: Lit, Turn: true, Strike: true})
	s.Spots = []Spot{
		{At: R(1, 2, 3, 4), Ref: "cut/3", Name: "Cut 7: crosscut R2 at 23 1/4"},
		{At: R(10, 20, 30, 40), Ref: "bay/0", Drag: 'x', PerPX: -203200, Step: 6350},
	}
	return s
}

func TestCodec(t *testing.T) {
	for _, s := range []Scene{{}, sample()} {
		got, err := Decode(Encode(s))
		if err != nil || !reflect.DeepEqual(got, s) {
			t.Errorf("Decode(Encode(s)) = %v, %v; want %v", got, err, s)
		}
	}
}

func TestDecodeRefuses(t *testing.T) {
	good := Encode(sample())
	for n := range good {
		if _, err := Decode(good[:n]); err == nil {
			t.Errorf("the first %d of %d bytes: no error", n, len(good))
		}
	}
	tests := []struct {
		name string
		b    []byte
		want error
	}{
		{"nothing", nil, errShort},
		{"another version", []byte{9}, errVersion},
		{"data after the end", append(bytes.Clone(good), 0), errRest},
		{"too large", make([]byte, MaxBytes+1), errBig},
		{"a million items in 7 bytes", []byte{codecVersion, 0, 0, 0, 0xc0, 0x84, 0x3d}, errShort},
		{"an unknown item", []byte{codecVersion, 0, 0, 0, 1, 9, 0, 0, 0}, errValue},
		{"an unknown pen", []byte{codecVersion, 0, 0, 0, 1, tagLine, 0, byte(pens), 0, 0}, errValue},
		{"beyond the limit", Encode(Scene{W: Limit + 1}), errValue},
		{"a drag along z", Encode(Scene{Spots: []Spot{{Drag: 'd'}}}), errValue},
	}
	for _, tt := range tests {
		if _, err := Decode(tt.b); err != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, err, tt.want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(Encode(Scene{}))
	f.Add(Encode(sample()))
	f.Fuzz(func(t *testing.T, b []byte) {
		s, err := Decode(b)
		if err != nil {
			return
		}
		if len(s.Items) > len(b) || len(s.Spots) > len(b) {
			t.Fatalf("%d bytes became %d items and %d spots", len(b), len(s.Items), len(s.Spots))
		}
		back, err := Decode(Encode(s))
		if err != nil || !reflect.DeepEqual(back, s) {
			t.Fatalf("Decode(Encode(s)) = %v, %v; want %v", back, err, s)
		}
	})
}

func BenchmarkCodec(b *testing.B) {
	var s Scene
	for i := range 2000 {
		x, y := Unit(i%50)*300, Unit(i/50)*300
		s.Add(Area{Pts: R(x, y, 280, 280).Corners(), Fill: Sheet, Pen: Medium, Tone: Ink})
	}
	data := Encode(s)
	b.Run("encode", func(b *testing.B) {
		b.ReportMetric(float64(len(data))/2000, "bytes/item")
		for b.Loop() {
			Encode(s)
		}
	})
	b.Run("decode", func(b *testing.B) {
		for b.Loop() {
			if _, err := Decode(data); err != nil {
				b.Fatal(err)
			}
		}
	})
}
