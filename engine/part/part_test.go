package part

import (
	"strings"
	"testing"

	"cartwright/engine/measure"
)

func TestTag(t *testing.T) {
	for i, want := range map[int]string{0: "A", 7: "H", 8: "J", 9: "K", 10: "M", 20: "Z", 21: "A2", 42: "A3", 209: "Z10"} {
		if got := Tag(i); got != want {
			t.Errorf("Tag(%d) = %q, want %q", i, got, want)
		}
	}
	seen := map[string]bool{}
	for i := range 2000 {
		tag := Tag(i)
		if seen[tag] || strings.ContainsAny(tag, "ILOQR") {
			t.Fatalf("Tag(%d) = %q", i, tag)
		}
		seen[tag] = true
	}
}

func TestReason(t *testing.T) {
	in := measure.Inch
	r := Sum(Term{"opening", 1, 22 * in}, Term{"slide", -2, in / 2}, Term{"side", -2, in * 15 / 32}).RoundedBy(measure.Tape{}.Floor)
	if r.Result != 20*in+in/16 || r.Off != 0 {
		t.Errorf("22 − 2 × 1/2 − 2 × 15/32 = %v, off by %v; want 20 1/16", r.Result, r.Off)
	}
	r = Sum(Term{"a", 1, 10 * measure.MM}).RoundedBy(measure.Tape{}.Floor)
	if r.Result+(-r.Off) != 10*measure.MM || r.Off >= 0 {
		t.Errorf("what rounding takes is kept: %v, %v", r.Result, r.Off)
	}
}
