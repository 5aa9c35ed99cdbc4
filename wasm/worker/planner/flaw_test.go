package planner

import (
	"fmt"
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/work"
)

// TestRoundBadCorner: a sheet of 96 × 48 in gives a panel of 80 × 48 and a strip of
// 15 × 38. With a corner of 15 7/8 × b bad, what is right of the corner is
// 96 − 15 7/8 − 1/8 = 80 by 48, and beside the corner 15 7/8 by 48 − b − 1/8 are
// left: the strip must go there. It does up to b = 9 7/8; at 9 29/32 it takes
// another sheet, 84.00, by hand. A corner of 16 leaves too little for the panel.
// The same lying across: 38 along, and so in all four corners.
func TestRoundBadCorner(t *testing.T) {
	const doc = `{"format":"cartwright-project","version":1,"name":"round","store":{"kerf":"1/8 in","price":"2","cuts":""},"tape":{"step":"1/32 in"},
"shop":{"saws":[{"name":"saw","kind":"table","kerf":"1/8 in","rip":"50 in","crosscut":"60 in"},{"name":"track","kind":"track","kerf":"1/8 in","length":"100 in"}]},
"stock":{"materials":[{"id":"ply","name":"Ply","kind":"plywood","nominal":"3/4 in"}],
"sheets":[{"id":"full","material":"ply","length":"96 in","width":"48 in","grain":"none","price":"84"}]},
"extra":[{"name":"Panel","length":"80 in","width":"48 in","count":1,"material":"ply"},{"name":"Strip","length":"15 in","width":"38 in","count":1,"material":"ply"}]}`
	for _, tt := range []struct {
		l, w string
		more measure.Money
	}{{"15 7/8", "9 7/8", 0}, {"15 7/8", "9 29/32", 8400}, {"15 29/32", "9", 8400}} {
		for corner := range 4 {
			d := newDesk(t)
			d.do(Action{Do: "demo", ID: "p1", Text: doc})
			if len(d.out.Plan.Sheets) != 1 || len(d.out.Plan.Left) > 0 {
				t.Fatalf("%d sheets, %v", len(d.out.Plan.Sheets), d.out.Findings)
			}
			total := d.out.Buy.Total
			d.do(Action{Do: "place", To: "saw"})
			d.do(Action{Do: "flaw", To: "open"})
			d.do(Action{Do: "flaw", To: "corner", Value: fmt.Sprint(corner)})
			d.do(Action{Do: "set", Path: page.FlawPath + "l", Value: tt.l})
			d.do(Action{Do: "set", Path: page.FlawPath + "w", Value: tt.w})
			d.do(Action{Do: "flaw", To: "note"})
			if d.offer == nil {
				t.Fatalf("%s × %s: %q", tt.l, tt.w, d.last.Alert)
			}
			if got := d.offer.out.Buy.Total - total; got != tt.more || len(nest.Verify(d.offer.out.Job, d.offer.out.Plan)) > 0 {
				t.Errorf("%s × %s, corner %d costs %v more, want %v: %v", tt.l, tt.w, corner, got, tt.more, nest.Verify(d.offer.out.Job, d.offer.out.Plan))
			}
			d.do(Action{Do: "take"})
			d.clear(fmt.Sprintf("%s × %s, corner %d", tt.l, tt.w, corner))
			// Opened again, and planned again after the first cut, it stays so.
			e := newDesk(t)
			e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
			e.cutParts(1)
			e.again()
			e.clear(fmt.Sprintf("%s × %s, corner %d, again", tt.l, tt.w, corner))
			if e.out.Buy.Total != total+tt.more || len(nest.Verify(e.out.Job, e.out.Plan)) > 0 {
				t.Errorf("%s × %s, corner %d: planned again it costs %v: %s", tt.l, tt.w, corner, e.out.Buy.Total, e.last.Alert)
			}
		}
	}
}

// clear checks that no part lies on what is not to be used, and that all cuts
// are there.
func (d *desk) clear(what string) {
	d.t.Helper()
	for _, e := range d.out.Steps.Ends {
		for _, f := range d.out.Steps.Bad {
			if e.Is == work.ToPart && e.Piece.Sheet == f.Sheet && meets(e.Piece, f) {
				d.t.Errorf("%s: a part lies on the bad corner: %+v on %+v", what, e.Piece, f)
			}
		}
	}
	for _, f := range d.out.Steps.Findings {
		if f.Code == work.BadPlan {
			d.t.Errorf("%s: %v", what, f)
		}
	}
}

func meets(a, b mark.Piece) bool {
	return a.X < b.X+b.L && b.X < a.X+a.L && a.Y < b.Y+b.W && b.Y < a.Y+a.W
}

// TestSavedAfterReplan: four panels of 40 × 23 in take one sheet at 84.00, whole
// or not. A bad corner of 16 × 9 costs another one, by hand: the list says so,
// for the whole project, before a cut and after it.
func TestSavedAfterReplan(t *testing.T) {
	d := plainDesk(t, 4, "")
	d.do(Action{Do: "place", To: "store"})
	if s := d.panels["list"]; !strings.Contains(s, "for $84.00: no difference in price.") {
		t.Errorf("whole sheets compare as %s", s)
	}
	d.do(Action{Do: "flaw", To: "open"})
	d.do(Action{Do: "set", Path: page.FlawPath + "l", Value: "16"})
	d.do(Action{Do: "set", Path: page.FlawPath + "w", Value: "9"})
	d.do(Action{Do: "flaw", To: "note"})
	d.do(Action{Do: "take"})
	want := "for $84.00: with what was spoiled or planned again this comes to $84.00 more."
	if s := d.panels["list"]; d.out.Buy.Total != 16800 || !strings.Contains(s, want) {
		t.Errorf("%v in all; it says %s", d.out.Buy.Total, s)
	}
	d.cutParts(1)
	d.again()
	d.do(Action{Do: "place", To: "store"})
	if s := d.panels["list"]; d.out.Buy.Total != 16800 || !strings.Contains(s, want) {
		t.Errorf("planned again, %v in all; it says %s", d.out.Buy.Total, s)
	}
}
