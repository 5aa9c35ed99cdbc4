package planner

import (
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// cutAll marks every cut.
func (d *desk) cutAll() {
	d.t.Helper()
	d.do(Action{Do: "place", To: "saw"})
	for d.held == nil || d.out.stands.Done < d.out.stands.Total {
		if d.do(Action{Do: "mark"}); d.last.Alert != "" {
			d.t.Fatal(d.last.Alert)
		}
	}
}

// shelf is the part of storage that keeps the book.
func (d *desk) shelve(shelf map[string]string) {
	for _, r := range d.last.Records {
		switch {
		case r.Kind == "book" && r.Text == "":
			delete(shelf, r.Name)
		case r.Kind == "book":
			shelf[r.Name] = r.Text
		}
	}
}

func kept(shelf map[string]string) (a Action) {
	a.Do = "kept"
	for _, t := range shelf {
		a.Marks = append(a.Marks, t)
	}
	return a
}

// TestBook: two panels of 40 × 23 in from 96 × 48: what is left, 55 7/8 × 48
// or less by how it is cut, goes into the book; the next project takes it as
// stock, for one panel more without a sheet; by hand: 84.00 less.
func TestBook(t *testing.T) {
	shelf := map[string]string{}
	d := plainDesk(t, 2, "")
	d.cutAll()
	if !strings.Contains(d.panels["block"], "book-put") {
		t.Fatalf("nobody asks: %s", d.panels["block"])
	}
	d.do(Action{Do: "book", To: "put"})
	d.shelve(shelf)
	if len(shelf) == 0 || len(shelf) != len(d.book) || d.book[0].Name != "Q1" || !strings.Contains(d.panels["block"], "Q1") || !strings.Contains(d.panels["menu-body"], "Q1") {
		t.Fatalf("%d in the book: %s", len(shelf), d.panels["block"])
	}
	n := len(shelf)
	if d.do(Action{Do: "book", To: "put"}); len(d.last.Records) != 0 || len(d.book) != n {
		t.Error("put in twice")
	}
	d.do(Action{Do: "undo"})
	if d.shelve(shelf); len(shelf) != 0 || len(d.book) != 0 {
		t.Errorf("after undo there are %d", len(shelf))
	}
	d.do(Action{Do: "redo"})
	if d.shelve(shelf); len(shelf) != n {
		t.Errorf("after redo there are %d", len(shelf))
	}

	e := newDesk(t)
	e.do(Action{Do: "demo", ID: "p2", Text: strings.Replace(strings.Replace(plainSheets, "%d", "1", 1), "%s", "", 1)})
	e.do(kept(shelf))
	e.do(Action{Do: "place", To: "store"})
	if e.out.Buy.Total != 8400 || !strings.Contains(e.panels["list"], "book-take-") {
		t.Fatalf("the next project is not offered it: %v, %s", e.out.Buy.Total, e.panels["list"])
	}
	e.do(Action{Do: "book", To: "take"})
	e.shelve(shelf)
	if e.out.Buy.Total != 0 || len(e.Planner.doc.Stock.Offcuts) != n || strings.Contains(e.panels["list"], "book-take-") {
		t.Errorf("taken, it costs %v, %d offcuts", e.out.Buy.Total, len(e.Planner.doc.Stock.Offcuts))
	}
	// A third does not see it any more.
	f := newDesk(t)
	f.do(Action{Do: "demo", ID: "p3", Text: strings.Replace(strings.Replace(plainSheets, "%d", "1", 1), "%s", "", 1)})
	f.do(kept(shelf))
	f.do(Action{Do: "place", To: "store"})
	if strings.Contains(f.panels["list"], "book-take-") {
		t.Error("it is offered twice")
	}
	e.do(Action{Do: "undo"})
	e.shelve(shelf)
	if e.out.Buy.Total != 8400 || len(e.Planner.doc.Stock.Offcuts) != 0 || !strings.Contains(e.panels["list"], "book-take-") {
		t.Error("undo does not give it back")
	}
	// Taken and cut into, it leaves the book; what is left of it comes in.
	e.do(Action{Do: "redo"})
	e.cutAll()
	used := ""
	for i, s := range e.held.Job.Stock {
		for _, sh := range e.held.plan.Sheets {
			if sh.Stock == i {
				used = s.ID
			}
		}
	}
	e.do(Action{Do: "book", To: "put"})
	for _, r := range e.book {
		if r.Name == used {
			t.Errorf("%s was cut into and is in the book", used)
		}
	}
	if !strings.HasPrefix(used, "Q") || e.last.Alert != "" {
		t.Errorf("%q was used: %s", used, e.last.Alert)
	}
	e.do(Action{Do: "book", To: "strike", ID: e.book[0].Key})
	if r := e.last.Records; len(r) != 1 || r[0].Kind != "book" || r[0].Text != "" {
		t.Errorf("struck out: %+v", r)
	}
}

func TestBookFile(t *testing.T) {
	d := plainDesk(t, 2, "")
	d.cutAll()
	d.do(Action{Do: "book", To: "put"})
	n := len(d.book)
	r := d.do(Action{Do: "book", To: "file"})
	if r.File == nil || !strings.Contains(r.File.Text, `"cartwright-offcuts"`) || !strings.Contains(r.File.Text, ` in"`) {
		t.Fatalf("%+v", r.File)
	}
	e := plainDesk(t, 1, "")
	e.do(Action{Do: "file", ID: "p9", Text: r.File.Text, Value: "offcuts.json"})
	if len(e.book) != n || e.Planner.id != "p1" || len(e.last.Records) != n {
		t.Errorf("%d read of %d: %s", len(e.book), n, e.last.Alert)
	}
	e.do(Action{Do: "file", ID: "p9", Text: r.File.Text, Value: "offcuts.json"})
	if len(e.book) != n {
		t.Error("read twice, it is there twice")
	}
	file := e.file()
	for _, text := range []string{`{"format":"cartwright-offcuts"`, `{"format":"cartwright-offcuts","version":9}`, `{"format":"cartwright-offcuts","version":1,"offcuts":[{"key":"x","name":"<b>","length":"-3 in","width":"1 in"}]}`,
		`{"format":"cartwright-offcuts","version":1,"offcuts":[{"key":"x","name":"Q1","length":"9999999 in","width":"1 in"}]}`, `{"format":"cartwright-offcuts","version":1,"offcuts":7}`} {
		e.do(Action{Do: "file", ID: "p9", Text: text, Value: "x.json"})
		if e.last.Alert == "" || len(e.book) != n || e.file() != file {
			t.Errorf("%s: %q, %d in the book", text, e.last.Alert, len(e.book))
		}
	}
	e.do(Action{Do: "kept", Marks: []string{"", "{", `{"key":"k","name":"<script>","length":"20 in","width":"20 in","material":"ply","called":"<img>","nominal":"3/4 in","kind":"plywood"}`}})
	e.do(Action{Do: "place", To: "store"})
	if len(e.book) != 1 || strings.Contains(e.panels["list"]+e.panels["menu-body"], "<script") || strings.Contains(e.panels["list"], "<img") {
		t.Errorf("%d entries, or markup", len(e.book))
	}
	for _, a := range []Action{{Do: "book", To: "take", ID: "no"}, {Do: "book", To: "strike"}, {Do: "book", To: "x"}} {
		if e.do(a); e.last.Alert == "" {
			t.Errorf("%+v is done", a)
		}
	}
}

// An offcut of a material that the project does not have brings it along.
func TestBookBringsMaterial(t *testing.T) {
	d := plainDesk(t, 1, "")
	d.readBook([]string{`{"key":"k","name":"Q4","length":"20 in","width":"20 in","grain":"length","material":"ply","called":"Oak","kind":"solid","nominal":"1 in"}`})
	if d.offers(d.book[0]) {
		t.Error("it is of no use here")
	}
	d.do(Action{Do: "book", To: "take", ID: "k"})
	m, ok := d.Planner.doc.Material("ply-2")
	if !ok || m.Name != "Oak" || m.Nominal != measure.Inch || len(d.Planner.doc.Stock.Offcuts) != 1 || d.Planner.doc.Stock.Offcuts[0].Material != "ply-2" {
		t.Errorf("%+v, %+v", d.Planner.doc.Stock.Materials, d.Planner.doc.Stock.Offcuts)
	}
	if _, err := project.Open(project.Save(d.Planner.doc)); err != nil {
		t.Error(err)
	}
}
