package hand

import (
	"fmt"
	"strings"
	"testing"
)

// script plays moves such as "d1 10,10" (finger 1 comes down), "m1 30,10",
// "u1", "c1" (cancelled), "+300" (milliseconds) and returns what they mean.
func script(h *Hand, moves string) string {
	var out []string
	ms := 0.0
	at := map[int][2]float64{}
	for _, m := range strings.Split(moves, ", ") {
		if m[0] == '+' {
			fmt.Sscanf(m, "+%f", &ms)
			continue
		}
		var id int
		var x, y float64
		n, _ := fmt.Sscanf(m[1:], "%d %f,%f", &id, &x, &y)
		if n < 3 {
			x, y = at[id][0], at[id][1]
		}
		at[id] = [2]float64{x, y}
		e := Event{Phase: map[byte]Phase{'d': Down, 'm': Move, 'u': Up, 'c': Cancel}[m[0]], ID: id, X: x, Y: y, MS: ms, Touch: true}
		for _, a := range h.Feel(e) {
			switch a.Intent {
			case Tap:
				out = append(out, fmt.Sprintf("tap %g,%g", a.X, a.Y))
			case TapAgain:
				out = append(out, "again")
			case Pan:
				out = append(out, fmt.Sprintf("pan %g,%g", a.DX, a.DY))
			case Zoom:
				out = append(out, fmt.Sprintf("zoom %.2f at %g,%g by %g,%g", a.F, a.X, a.Y, a.DX, a.DY))
			case Grab:
				out = append(out, fmt.Sprintf("grab %g,%g", a.X, a.Y))
			case Drag:
				out = append(out, fmt.Sprintf("drag %g,%g", a.DX, a.DY))
			case Drop:
				out = append(out, fmt.Sprintf("drop %g,%g", a.DX, a.DY))
			case Abandon:
				out = append(out, "abandon")
			case Rest:
				out = append(out, "rest")
			}
		}
	}
	return strings.Join(out, "; ")
}

func TestHand(t *testing.T) {
	tests := []struct{ name, moves, want string }{
		{"a tap", "d1 10,10, u1", "tap 10,10"},
		{"a shaky tap", "d1 10,10, m1 17,4, u1", "tap 17,4"},
		{"a double tap", "d1 10,10, u1, +250, d1 12,10, u1", "tap 10,10; again"},
		{"three taps are a double and a single", "d1 10,10, u1, +200, d1 10,10, u1, +300, d1 10,10, u1", "tap 10,10; again; tap 10,10"},
		{"two slow taps", "d1 10,10, u1, +450, d1 10,10, u1", "tap 10,10; tap 10,10"},
		{"two taps apart", "d1 10,10, u1, +100, d1 90,10, u1", "tap 10,10; tap 90,10"},
		{"a pan", "d1 10,10, m1 30,10, m1 35,12, u1", "pan 20,0; pan 5,2; rest"},
		{"a drag", "d1 110,10, m1 130,10, m1 140,12, u1", "grab 110,10; drag 20,0; drag 30,2; drop 30,2"},
		{"a drag that the system ends", "d1 110,10, m1 130,10, c1", "grab 110,10; drag 20,0; abandon"},
		{"a second finger does not disturb a drag", "d1 110,10, m1 130,10, d2 0,0, m2 50,50, m1 140,10, u1, u2", "grab 110,10; drag 20,0; drag 30,0; drop 30,0"},
		{"a tap on what can be dragged", "d1 110,10, u1", "tap 110,10"},
		{"a pinch", "d1 100,100, d2 200,100, m2 300,100, u2, u1", "zoom 2.00 at 150,100 by 50,0; rest"},
		{"a pinch that becomes a pan", "d1 0,0, d2 0,100, m2 0,50, u2, m1 5,5, u1", "zoom 0.50 at 0,50 by 0,-25; pan 5,5; rest"},
		{"a pinch is no tap", "d1 0,0, d2 50,0, u1, u2", "rest"},
		{"a cancelled touch", "d1 0,0, c1, d1 5,5, u1", "tap 5,5"},
		{"a finger that was never down", "m7 1,1, u7", ""},
		{"a finger whose end was lost", "d1 0,0, d1 50,50, u1", "tap 50,50"},
	}
	for _, tt := range tests {
		h := &Hand{Grips: func(x, y float64) bool { return x > 100 && x < 120 }}
		if tt.name == "a pinch" {
			h.Grips = nil
		}
		if got := script(h, tt.moves); got != tt.want {
			t.Errorf("%s: %s\nwant %s", tt.name, got, tt.want)
		}
		if h.state != idle || len(h.fingers) != 0 {
			t.Errorf("%s: fingers are left: %v", tt.name, h.fingers)
		}
	}
}
