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

// again has the uncut planned again and takes what is offered.
func (d *desk) again() {
	d.do(Action{Do: "replan"})
	if d.offer != nil {
		d.do(Action{Do: "take"})
	}
}

// cutParts marks cuts until n parts have come off.
func (d *desk) cutParts(n int) {
	d.t.Helper()
	d.do(Action{Do: "place", To: "saw"})
	for {
		made := 0
		for _, l := range work.LyingNow(d.out.Job, d.out.Plan, d.out.Steps, d.out.stands) {
			if l.Is == work.ToPart {
				made++
			}
		}
		if made >= n {
			return
		}
		if d.do(Action{Do: "mark"}); d.last.Alert != "" {
			d.t.Fatal(d.last.Alert)
		}
	}
}

// An offer changes nothing until it is taken, and then nothing that is cut; it
// says what it costs; undo takes it back; any change withdraws it.
func TestOffer(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.cutParts(4)
	names := map[string]bool{}
	for _, l := range work.LyingNow(d.out.Job, d.out.Plan, d.out.Steps, d.out.stands) {
		if l.By != "" && l.Is != work.ToWaste && l.Is != work.ToPart {
			names[l.Piece.Name] = true
		}
	}
	old, marks, total, strip := d.held.digest, len(d.marks), d.out.Buy.Total, d.strip()
	d.do(Action{Do: "replan"})
	if d.offer == nil || d.held.digest != old || len(d.marks) != marks || d.out.Buy.Total != total {
		t.Fatalf("offer %v, plan %q, %d entries: %s", d.offer != nil, d.held.digest, len(d.marks)-marks, d.last.Alert)
	}
	banner := d.panels["banner"]
	for _, want := range []string{`data-do="take"`, `data-do="leave"`, "It costs the same.", "Nothing that is cut moves."} {
		if !strings.Contains(banner, want) {
			t.Errorf("the offer lacks %q: %s", want, banner)
		}
	}
	if d.last.Search.Seq == 0 {
		t.Error("nothing better is looked for meanwhile")
	}
	d.do(Action{Do: "leave"})
	if d.offer != nil || strings.Contains(d.panels["banner"], "take") || d.last.Searching {
		t.Error("left, it is still there")
	}
	d.do(Action{Do: "replan"})
	d.do(Action{Do: "mark"})
	if d.offer != nil {
		t.Error("a cut does not withdraw it")
	}
	d.do(Action{Do: "undo"})
	d.do(Action{Do: "replan"})
	d.do(Action{Do: "take"})
	if d.held.digest == old || d.last.Alert != "" || len(nest.Verify(d.out.Job, d.out.Plan)) > 0 {
		t.Fatalf("taken: %q", d.last.Alert)
	}
	// The strip is that of the whole project, and pieces keep their names.
	if got := d.strip(); got != strip || d.out.Buy.Total != total {
		t.Errorf("the strip is %q, it was %q", got, strip)
	}
	for _, s := range d.out.Job.Stock[:d.held.Pieces] {
		if !names[s.ID] && !strings.HasPrefix(s.ID, "keep") && !strings.HasPrefix(s.ID, "rest of half-inch") {
			t.Errorf("a piece is called %q now", s.ID)
		}
		delete(names, s.ID)
	}
	seen := map[string]bool{}
	for _, r := range d.out.Steps.Rough {
		if seen[r.Name] {
			t.Errorf("two pieces are called %s", r.Name)
		}
		seen[r.Name] = true
	}
	d.do(Action{Do: "undo"})
	if d.held.digest != old || d.strip() != strip {
		t.Errorf("undone, the plan is %q, the strip %q", d.held.digest, d.strip())
	}
	d.do(Action{Do: "redo"})
	if d.held.digest == old {
		t.Error("redo does not bring it back")
	}
}

// plainSheets is a project with nothing but sheets of 96 × 48 in at 84.00 and
// six parts of 40 × 23 in: four fit a sheet, 2 × 40 + 1/8 < 96 and
// 2 × 23 + 1/8 < 48, so they take two; by hand.
const plainSheets = `{"format":"cartwright-project","version":1,"name":"six","store":{"kerf":"1/8 in","price":"2","cuts":""},
"shop":{"saws":[{"name":"saw","kind":"table","kerf":"1/8 in","rip":"50 in","crosscut":"60 in"},{"name":"track","kind":"track","kerf":"1/8 in","length":"100 in"}]},
"stock":{"materials":[{"id":"ply","name":"Ply","kind":"plywood","nominal":"3/4 in"}],
"sheets":[{"id":"full","material":"ply","length":"96 in","width":"48 in","grain":"length","price":"84"}]},
"extra":[{"name":"Panel","length":"40 in","width":"23 in","count":%d,"material":"ply"}]%s}`

func plainDesk(t testing.TB, parts int, more string) *desk {
	d := newDesk(t)
	d.do(Action{Do: "demo", ID: "p1", Text: fmt.Sprintf(plainSheets, parts, more)})
	if d.last.Alert != "" || len(d.out.Plan.Sheets) == 0 {
		t.Fatalf("%q, %d sheets, %v", d.last.Alert, len(d.out.Plan.Sheets), d.out.Findings)
	}
	return d
}

func TestCounter(t *testing.T) {
	d := plainDesk(t, 6, "")
	d.do(Action{Do: "place", To: "store"})
	if len(d.out.Plan.Sheets) != 2 || d.out.Buy.Total != 2*8400 || !strings.Contains(d.panels["block"], "counter-few") {
		t.Fatalf("%d sheets, %v", len(d.out.Plan.Sheets), d.out.Buy.Total)
	}
	offer := func() (text string) { return page.Plain(d.panels["banner"]) }
	file := d.file()

	// One sheet is not enough: it says for which, and cannot be taken.
	d.do(Action{Do: "counter", To: "few"})
	if d.atCounter.Left != 1 || !strings.Contains(d.panels["block"], "Plan with 1") {
		t.Errorf("%d left: %s", d.atCounter.Left, d.panels["block"])
	}
	d.do(Action{Do: "counter", To: "plan"})
	if d.offer == nil || len(d.offer.out.Plan.Left) != 2 || !strings.Contains(offer(), "No room for A.") || strings.Contains(offer(), `id="offer-take"`) {
		t.Errorf("with one sheet: %s", offer())
	}
	if d.do(Action{Do: "take"}); d.last.Alert == "" || d.file() != file {
		t.Error("a plan without all parts was taken")
	}
	d.do(Action{Do: "counter", To: "few"})
	d.do(Action{Do: "counter", To: "more"})
	d.do(Action{Do: "counter", To: "plan"})
	if d.offer == nil || len(d.offer.out.Plan.Left) != 0 || d.offer.out.Buy.Total != 16800 {
		t.Errorf("with two sheets: %s", offer())
	}
	d.do(Action{Do: "leave"})
	if d.file() != file || d.offer != nil {
		t.Error("what was left has changed something")
	}

	// Sheets of 60 × 60 at 50.00: 40 × 23 goes twice on each, since
	// 23 + 1/8 + 23 < 60 but 40 + 1/8 + 40 > 60: three sheets, 150.00.
	d.do(Action{Do: "counter", To: "size"})
	at := page.CounterPath + "stock.sheets.0."
	d.do(Action{Do: "set", Path: at + "length", Value: "five feet"})
	if d.do(Action{Do: "counter", To: "plan"}); d.last.Alert == "" || d.offer != nil {
		t.Error("a size that could not be read was planned with")
	}
	for _, v := range []string{"-5", "cheap"} {
		d.do(Action{Do: "set", Path: at + "length", Value: "60"})
		d.do(Action{Do: "set", Path: at + "price", Value: v})
		if d.do(Action{Do: "counter", To: "plan"}); d.last.Alert == "" || d.offer != nil {
			t.Errorf("a price of %q was planned with", v)
		}
		d.do(Action{Do: "set", Path: at + "price", Value: "50"})
		d.do(Action{Do: "set", Path: at + "length", Value: "-60"})
		if d.do(Action{Do: "counter", To: "plan"}); d.last.Alert == "" || d.offer != nil {
			t.Error("sheets of no size were planned with")
		}
	}
	for path, v := range map[string]string{"length": "60", "width": "5'", "price": "50"} {
		d.do(Action{Do: "set", Path: at + path, Value: v})
	}
	d.do(Action{Do: "counter", To: "plan"})
	if d.offer == nil || d.offer.out.Buy.Total != 15000 || !strings.Contains(offer(), "- $18.00: $150.00 in all.") {
		t.Errorf("with other sheets: %s", offer())
	}
	if d.file() != file {
		t.Error("the offer has changed the project")
	}
	d.do(Action{Do: "take"})
	if d.out.Buy.Total != 15000 || len(d.out.Plan.Sheets) != 3 || d.Planner.doc.Stock.Sheets[0].Price != 5000 {
		t.Errorf("taken: %v, %d sheets", d.out.Buy.Total, len(d.out.Plan.Sheets))
	}
	d.do(Action{Do: "undo"})
	if d.file() != file || d.out.Buy.Total != 16800 {
		t.Errorf("undone: %v", d.out.Buy.Total)
	}
}

// A car that takes 50 × 40 in needs store cuts at 2.00; without them it must be
// delivered, at 30.00.
func TestCounterCar(t *testing.T) {
	d := plainDesk(t, 4, `,"car":{"floorLength":"50 in","floorWidth":"40 in"}`)
	d.do(Action{Do: "place", To: "store"})
	cuts := d.out.Plan.StoreCuts
	if cuts == 0 || d.out.Buy.Total != measure.Money(8400*len(d.out.Plan.Sheets)+200*cuts) {
		t.Fatalf("%d store cuts, %v", cuts, d.out.Buy.Total)
	}
	d.do(Action{Do: "counter", To: "none"})
	if d.offer == nil || len(d.offer.out.Plan.Left) != 4 {
		t.Fatalf("without cuts: %s", d.panels["banner"])
	}
	d.do(Action{Do: "leave"})
	d.do(Action{Do: "counter", To: "delivered"})
	d.do(Action{Do: "set", Path: page.CounterPath + "car.delivery", Value: "30"})
	d.do(Action{Do: "counter", To: "plan"})
	if d.offer == nil || d.offer.out.Plan.StoreCuts != 0 || d.offer.out.Buy.Total != 8400+3000 {
		t.Fatalf("delivered: %s", d.panels["banner"])
	}
	// In use already, it is in use again with the other plan.
	d.do(Action{Do: "leave"})
	d.do(Action{Do: "accept"})
	old := d.held.digest
	d.do(Action{Do: "counter", To: "delivered"})
	d.do(Action{Do: "counter", To: "plan"})
	d.do(Action{Do: "take"})
	if d.held == nil || d.held.digest == old || d.out.Plan.StoreCuts != 0 || mark.Fold(d.Planner.doc.Journal).Plan != d.held.digest {
		t.Errorf("held %v: %s", d.held != nil, d.last.Alert)
	}
	if d.do(Action{Do: "counter", To: "tomorrow"}); d.last.Alert == "" {
		t.Error("an answer that there is not")
	}
}

// A part is spoiled: it is cut again, from what is left; nothing else moves.
func TestSpoiled(t *testing.T) {
	d, c := partOff(t)
	at := c.SetPiece()
	total, left := d.out.Buy.Total, 0
	for _, q := range d.out.Job.Parts {
		left += q.Count
	}
	d.do(Action{Do: "size", Cut: c.ID})
	if !strings.Contains(d.panels["buttons"], "is spoiled") {
		t.Fatal("nobody asks whether it is spoiled")
	}
	n := len(d.marks)
	d.do(Action{Do: "spoil", Cut: c.ID, At: at})
	if d.last.Alert != "" || len(d.marks) != n+1 || d.offer == nil || !d.out.stands.Spoilt(c.Makes[at]) {
		t.Fatalf("%q, %d entries", d.last.Alert, len(d.marks)-n)
	}
	e := newDesk(t)
	e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: d.marks})
	if !e.out.stands.Spoilt(c.Makes[at]) || !strings.Contains(e.panels["banner"], "is spoiled") {
		t.Error("opened again, it is not spoiled")
	}
	if d.do(Action{Do: "spoil", Cut: c.ID, At: at}); d.last.Alert == "" {
		t.Error("spoiled twice")
	}
	d.do(Action{Do: "undo"})
	if d.out.stands.Spoilt(c.Makes[at]) || len(d.marks) != n+2 {
		t.Error("undo does not take it back")
	}
	d.do(Action{Do: "redo"})
	if !d.out.stands.Spoilt(c.Makes[at]) {
		t.Error("redo does not bring it back")
	}
	d.again()
	now := 0
	for _, q := range d.out.Job.Parts {
		now += q.Count
	}
	if now != left || len(nest.Verify(d.out.Job, d.out.Plan)) > 0 || strings.Contains(d.panels["banner"], "spoiled") {
		t.Errorf("%d parts to cut, it was %d; alert %q", now, left, d.last.Alert)
	}
	if d.out.Buy.Total < total {
		t.Errorf("a spoiled part makes it cheaper: %v, it was %v", d.out.Buy.Total, total)
	}
	for _, s := range d.out.Job.Stock[:d.held.Pieces] {
		if strings.HasPrefix(s.ID, "old ") {
			t.Error("the spoiled part is stock")
		}
	}
}

// A bad corner of 10 × 9 in on a sheet of 96 × 48: with four panels of 40 × 23
// the strip along one edge must go. 96 − 10 = 86 still takes two of 40, so it
// costs nothing; at 16 × 9 only 80 are left, not 80 1/8, and 48 − 9 takes one
// row: one more sheet, 84.00, by hand.
func TestBadCorner(t *testing.T) {
	for _, tt := range []struct {
		l, w, corner string
		more         measure.Money
	}{{"10", "9", "0", 0}, {"10", "9", "3", 0}, {"15 7/8", "9", "1", 0}, {"16", "9", "2", 8400}, {"40", "1", "1", 0}} {
		d := plainDesk(t, 4, "")
		d.do(Action{Do: "place", To: "saw"})
		total := d.out.Buy.Total
		d.do(Action{Do: "flaw", To: "open"})
		d.do(Action{Do: "flaw", To: "corner", Value: tt.corner})
		d.do(Action{Do: "set", Path: page.FlawPath + "l", Value: tt.l})
		d.do(Action{Do: "set", Path: page.FlawPath + "w", Value: tt.w})
		d.do(Action{Do: "flaw", To: "note"})
		if d.offer == nil || d.last.Alert != "" || len(d.out.Steps.Bad) != 1 {
			t.Fatalf("%s × %s: %q", tt.l, tt.w, d.last.Alert)
		}
		if got := d.offer.out.Buy.Total - total; got != tt.more {
			t.Errorf("%s × %s, corner %s costs %v more, want %v", tt.l, tt.w, tt.corner, got, tt.more)
		}
		d.do(Action{Do: "take"})
		clear := 0
		for _, e := range d.out.Steps.Ends {
			for _, f := range d.out.Steps.Bad {
				if e.Is == work.ToPart && e.Piece.Sheet == f.Sheet && e.Piece.X < f.X+f.L && f.X < e.Piece.X+e.Piece.L && e.Piece.Y < f.Y+f.W && f.Y < e.Piece.Y+e.Piece.W {
					t.Errorf("%s × %s: a part lies on the bad corner: %+v on %+v", tt.l, tt.w, e.Piece, f)
				} else if e.Is == work.ToPart {
					clear++
				}
			}
		}
		if clear == 0 && len(d.held.Flaws) == 0 {
			t.Errorf("%s × %s: the flaw is forgotten", tt.l, tt.w)
		}
		if len(nest.Verify(d.out.Job, d.out.Plan)) > 0 {
			t.Error("the plan does not verify")
		}
		// It stays what it is, cut into and planned again.
		d.cutParts(1)
		d.again()
		if d.last.Alert != "" || d.out.Buy.Total != total+tt.more {
			t.Errorf("%s × %s: planned again it is %v, want %v: %s", tt.l, tt.w, d.out.Buy.Total, total+tt.more, d.last.Alert)
		}
	}
}

// A store's cut came out narrow: what follows is planned from the real piece.
func TestStoreCutMeasured(t *testing.T) {
	d := plainDesk(t, 4, `,"car":{"floorLength":"50 in","floorWidth":"40 in"}`)
	d.do(Action{Do: "place", To: "store"})
	var ids []string
	for _, c := range d.out.Steps.Store {
		ids = append(ids, c.ID)
	}
	d.do(Action{Do: "mark", Cut: strings.Join(ids, " ")})
	var c work.Cut
	for _, s := range d.out.Steps.Store {
		if _, _, lies := d.out.stands.Came(d.out.Steps, s); lies {
			c = s
		}
	}
	if c.ID == "" || !strings.Contains(d.panels["block"], "another size") {
		t.Fatalf("no store cut can be measured: %s", d.panels["block"])
	}
	wanted := d.short(c)
	if is, _, _ := d.out.stands.Came(d.out.Steps, c); is != wanted-eighth {
		t.Fatalf("it came out %v", is)
	}
	if !strings.Contains(d.panels["banner"], "came out") {
		t.Errorf("nobody asks: %s", d.panels["banner"])
	}
	d.do(Action{Do: "replan"})
	if d.offer == nil {
		t.Fatal(d.last.Alert)
	}
	name, there := c.Makes[c.SetPiece()].Name, false
	for _, s := range d.offer.job.Stock {
		if s.ID == name {
			there = c.Along(s.L, s.W) == wanted-eighth
		}
	}
	if !there {
		t.Errorf("%s of %v is not stock: %+v", name, wanted-eighth, d.offer.job.Stock)
	}
}

// The ply measures 1/64 in less after some parts are cut: what moves is named,
// by letter and by how much; the offer plans it; what is cut stays.
func TestMeasuredThickness(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.cutParts(6)
	mat := d.Planner.doc.Stock.Materials[0]
	d.do(Action{Do: "set", Path: "stock.materials.0.measured", Value: d.Planner.doc.Measure().Exact(mat.Thick() - measure.Inch/16)})
	uncut, cut := d.strays()
	if d.out.differ == 0 || len(uncut)+len(cut) == 0 || d.offer != nil {
		t.Fatalf("%d differ, %v, %v", d.out.differ, uncut, cut)
	}
	banner := page.Plain(d.panels["banner"])
	for _, s := range append(uncut, cut...)[:1] {
		if !strings.Contains(banner, s.Tag+" (") || !strings.Contains(banner, ", was ") {
			t.Errorf("%s is not named: %s", s.Tag, banner)
		}
	}
	for _, s := range cut {
		if s.Was == s.Now {
			t.Errorf("%+v has not moved", s)
		}
	}
	_, made := d.wood()
	d.do(Action{Do: "replan"})
	if d.offer == nil {
		t.Fatal(d.last.Alert)
	}
	if len(cut) > 0 && !strings.Contains(page.Plain(d.panels["banner"]), "cut again; what is there becomes stock") {
		t.Errorf("nobody says that %v are made again: %s", cut, d.panels["banner"])
	}
	d.do(Action{Do: "take"})
	if d.out.differ != 0 || len(nest.Verify(d.out.Job, d.out.Plan)) > 0 {
		t.Errorf("%d differ after all", d.out.differ)
	}
	n := 0
	for _, b := range d.held.before() {
		n += b
	}
	if again := len(cut); n > made || n < made-2*again-4 {
		t.Errorf("%d parts are made, before it were %d, %d misfits", n, made, again)
	}
	d.do(Action{Do: "undo"})
	d.do(Action{Do: "undo"})
	if d.out.differ != 0 {
		t.Error("undone, something differs")
	}
}

// A journal out of a damaged file may hold anything: nothing breaks, and what is
// planned verifies.
func TestAbsurdFlaws(t *testing.T) {
	for _, v := range []measure.Length{-1 << 63, -1, 0, 1, 1 << 40, 1 << 62, 1<<63 - 1} {
		for _, sheet := range []int{-1, 0, 1, 99} {
			d := plainDesk(t, 4, "")
			d.do(Action{Do: "accept"})
			digest := d.held.digest
			for _, kind := range []mark.Kind{mark.Flawed, mark.Spoiled} {
				for _, p := range []*mark.Piece{nil, {Sheet: sheet, X: v, Y: v, L: v, W: v}, {Sheet: sheet, L: v, W: 1}, {Sheet: sheet, X: v, L: 1 << 30, W: 1 << 30}} {
					m := mark.Next(d.Planner.doc.Journal, "x", "").Entry(kind, "<b>")
					m.Plan, m.Piece = digest, p
					d.Planner.doc.Journal = append(d.Planner.doc.Journal, m)
				}
			}
			d.do(Action{Do: "set", Path: "name", Value: "x"})
			for _, to := range []string{"store", "saw"} {
				d.do(Action{Do: "place", To: to})
			}
			d.do(Action{Do: "flaw", To: "open"})
			d.do(Action{Do: "mark"})
			d.again()
			if found := nest.Verify(d.out.Job, d.out.Plan); len(found) > 0 {
				t.Errorf("%d on sheet %d: %v", v, sheet, found)
			}
		}
	}
}
