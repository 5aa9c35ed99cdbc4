package work

import (
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// TestFollows: the strip of R1 is ripped 1/8 in short. A, cut from it, is as
// narrow, and the offcut beside it has the 1/8 in.
func TestFollows(t *testing.T) {
	job, plan, lines := planer()
	s := Saw(job, plan, lines, shop(), measure.Tape{})
	journal, _ := board(t, s, "s1 s2 1 7")
	rip, cut := s.Shop[0], s.Shop[6]
	strip := rip.Makes[rip.SetPiece()]
	if rip.Dir != nest.Y || rip.Along(strip.L, strip.W) != rip.Set || len(rip.Makes) != 2 {
		t.Fatalf("cut 1 is %+v", rip)
	}
	journal = append(journal, rip.Measured("p", mark.Next(journal, "a", ""), rip.Set-in("1/8")))
	p := Progress(s, mark.Fold(journal), "p")
	if is, wanted, lies := p.Came(s, rip); is != wanted-in("1/8") || lies {
		t.Errorf("the strip came out %v, not %v; it lies there: %v", is, wanted, lies)
	}
	a := cut.Makes[cut.SetPiece()]
	if l, w := p.Size(a); l != a.L || w != a.W-in("1/8") {
		t.Errorf("%s is %v × %v, planned %v × %v", a.Name, l, w, a.L, a.W)
	}
	rest := rip.Makes[1-rip.SetPiece()]
	if l, w := p.Size(rest); l != rest.L || w != rest.W+in("1/8") {
		t.Errorf("%s is %v × %v, planned %v × %v", rest.Name, l, w, rest.L, rest.W)
	}
	if is, wanted, lies := p.Came(s, cut); is != wanted || !lies {
		t.Errorf("along, %s came out %v, not %v; it lies there: %v", a.Name, is, wanted, lies)
	}
}
