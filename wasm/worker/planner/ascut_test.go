package planner

import (
	"strings"
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/issue"
	"cartwright/engine/page"
)

// TestMeasuredAfterCut: everything is cut, then bay 1 turns out 1/16 in wider
// than planned. The fronts keep their size: each is told to be 1/16 short, with
// 3/32 + 1/16 = 5/32 on the right, and the box fronts to have 1/32 + 1/16 play.
func TestMeasuredAfterCut(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "place", To: "saw"})
	for n := 0; n < 400; n++ {
		if d.do(Action{Do: "mark"}); d.last.Alert != "" {
			break
		}
	}
	has := func(code issue.Code) (n int, first string) {
		for _, f := range d.out.Findings {
			if f.Code == code {
				if n++; first == "" {
					first = page.Plain(page.Sentence(f, d.Planner.doc.Measure()))
				}
			}
		}
		return n, first
	}
	if n, s := has(design.FrontCut); n != 0 {
		t.Fatalf("all is cut as planned, yet: %s", s)
	}
	d.do(Action{Do: "set", Path: "cabinet.bays.0.measured.front", Value: "16 9/16"})
	if n, s := has(design.FrontCut); n != 3 || !strings.Contains(s, "1/16 short: reveal 5/32 on the right") {
		t.Errorf("%d fronts: %q", n, s)
	}
	if n, s := has(design.BoxCut); n == 0 || !strings.Contains(s, "3/32 of play") {
		t.Errorf("%d box parts: %q", n, s)
	}
	d.do(Action{Do: "undo"})
	if n, s := has(design.FrontCut); n != 0 {
		t.Errorf("undone, yet: %s", s)
	}
}
