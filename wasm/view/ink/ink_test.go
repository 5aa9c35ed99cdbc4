package ink

import (
	"math"
	"testing"
)

var black = Color{0, 0, 0, 1}

// area returns the area of all triangles, those that fade counting by the
// mean of their corners.
func area(m *Mesh) float64 {
	var sum float64
	for i := 0; i < len(m.I); i += 3 {
		a, b, c := m.V[m.I[i]], m.V[m.I[i+1]], m.V[m.I[i+2]]
		t := math.Abs(float64((b.X-a.X)*(c.Y-a.Y)-(b.Y-a.Y)*(c.X-a.X))) / 2
		sum += t * float64(a.Color[3]+b.Color[3]+c.Color[3]) / 3
	}
	return sum
}

func TestFill(t *testing.T) {
	tests := []struct {
		name string
		pts  []Pt
		want float64
	}{
		{"square", []Pt{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, 100},
		{"square, the other way round", []Pt{{0, 0}, {0, 10}, {10, 10}, {10, 0}}, 100},
		{"L", []Pt{{0, 0}, {20, 0}, {20, 10}, {10, 10}, {10, 30}, {0, 30}}, 400},
		{"U", []Pt{{0, 0}, {30, 0}, {30, 30}, {20, 30}, {20, 10}, {10, 10}, {10, 30}, {0, 30}}, 700},
		{"corner on an edge", []Pt{{0, 0}, {5, 0}, {10, 0}, {10, 10}, {0, 10}}, 100},
		{"a hole reached by a slit", []Pt{{0, 0}, {30, 0}, {30, 30}, {0, 30}, {0, 0}, {10, 10}, {10, 20}, {20, 20}, {20, 10}, {10, 10}}, 800},
	}
	for _, tt := range tests {
		var m Mesh
		m.Fill(tt.pts, black)
		if got := area(&m); math.Abs(got-tt.want) > 1e-3 {
			t.Errorf("%s: area %g, want %g", tt.name, got, tt.want)
		}
	}
}

func TestStrokesAreSharp(t *testing.T) {
	for _, tt := range []struct{ width, at, low, high float64 }{
		{1, 10.3, 10, 11}, {0.4, 10.3, 10, 11}, {2, 10.3, 9, 11}, {3, 10.6, 9, 12},
	} {
		var m Mesh
		m.Stroke([]Pt{{0, tt.at}, {50, tt.at}}, false, tt.width, black)
		// Solid from low+.5 to high−.5, nothing beyond low−.5 and high+.5:
		// every pixel's middle is either wholly in or wholly out.
		for _, v := range m.V {
			y := float64(v.Y)
			if v.Color == black && (y < tt.low+0.5 || y > tt.high-0.5) || v.Color != black && y != tt.low-0.5 && y != tt.high+0.5 {
				t.Errorf("width %g at %g: vertex at %g, alpha %g", tt.width, tt.at, y, v.Color[3])
			}
		}
	}
}

func TestStrokeArea(t *testing.T) {
	var m Mesh
	m.Stroke([]Pt{{0, 0}, {100, 0}, {100, 100}, {0, 100}}, true, 4, black)
	if got := area(&m); math.Abs(got-1600) > 1 {
		t.Errorf("frame of 4 round 100: %g, want 1600", got)
	}
	m.Reset()
	m.Curve(Circle(Pt{50, 50}, 20), true, 3, black)
	if got, want := area(&m), 2*math.Pi*20*3; math.Abs(got-want) > want*0.03 {
		t.Errorf("circle: %g, want %g", got, want)
	}
	m.Reset()
	m.Disc(Pt{50, 50}, 20, black)
	if got, want := area(&m), math.Pi*400; math.Abs(got-want) > want*0.03 {
		t.Errorf("disc: %g, want %g", got, want)
	}
}

func TestDegenerate(t *testing.T) {
	var m Mesh
	m.Stroke([]Pt{{5, 5}, {5, 5}}, false, 2, black)
	m.Stroke([]Pt{{5, 5}}, true, 2, black)
	m.Stroke([]Pt{{0, 0}, {9, 0}, {0, 0}}, false, 2, black)
	m.Fill([]Pt{{1, 1}, {2, 2}}, black)
	m.Fill([]Pt{{1, 1}, {2, 2}, {3, 3}, {1, 1}}, black)
	m.Rect(5, 5, 5.2, 9, black)
	m.Disc(Pt{}, 0, black)
	for _, v := range m.V {
		if v.X != v.X || v.Y != v.Y {
			t.Fatal("not a number")
		}
	}
	for range 2000 {
		m.Curve(Circle(Pt{}, 900), true, 1, black)
	}
	if len(m.V) > 65535 {
		t.Errorf("%d vertices in one mesh", len(m.V))
	}
}

func TestParseColor(t *testing.T) {
	tests := []struct {
		in   string
		want Color
		ok   bool
	}{
		{"#FFF", Color{1, 1, 1, 1}, true},
		{" #ff0000 ", Color{1, 0, 0, 1}, true},
		{"rgb(0, 255, 0)", Color{0, 1, 0, 1}, true},
		{"rgb(0 0 255 / 0.5)", Color{0, 0, 0.5, 0.5}, true},
		{"", Color{}, false}, {"#12", Color{}, false}, {"red", Color{}, false}, {"rgb(1,2)", Color{}, false}, {"rgb(NaN,1,1)", Color{}, false},
	}
	for _, tt := range tests {
		if got, ok := ParseColor(tt.in); got != tt.want || ok != tt.ok {
			t.Errorf("ParseColor(%q) = %v, %v", tt.in, got, ok)
		}
	}
}

func BenchmarkStroke(b *testing.B) {
	pts := []Pt{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	var m Mesh
	for b.Loop() {
		m.Reset()
		m.Stroke(pts, true, 2, black)
	}
}
