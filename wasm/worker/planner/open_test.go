package planner

import (
	"bytes"
	"strings"
	"testing"

	"cartwright/engine/project"
)

func TestReadOnlyChangesNothing(t *testing.T) {
	d := newDesk(t)
	d.do(Action{Do: "open", ID: "p1", Text: string(demo(t, "jointer-stand")), ReadOnly: true})
	before := d.file()
	for name := range changes {
		d.do(Action{Do: name, Path: drawerHeight, Value: "5", Ref: "bay/0", Phase: "start", To: "mm/1"})
		if d.last.Alert == "" || len(d.last.Records) > 0 {
			t.Errorf("%s: alert %q, %d records", name, d.last.Alert, len(d.last.Records))
		}
	}
	d.do(Action{Do: "place", To: "saw"})
	d.do(Action{Do: "tap", Ref: d.out.Steps.Shop[0].ID})
	if d.file() != before || len(d.Planner.doc.Journal) != 0 || len(d.last.Records) > 0 {
		t.Error("something was changed")
	}
}

func TestBadFilesLeaveTheProjectAlone(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "set", Path: drawerHeight, Value: "5"})
	before := d.file()
	for _, tt := range []struct{ name, text, says string }{
		{"junk.json", "\x7fELF junk", "junk.json"},
		{"empty.json", "", "empty.json"},
		{"other.json", `{"format":"else"}`, "not a Cartwright project"},
		{"newer.json", `{"format":"cartwright-project","version":3}`, "3"},
		{"cut.json", string(demo(t, "jointer-stand"))[:900], "damaged"},
		{"list.csv", "name,length\nside,30 in", "width"},
		{"list.csv", "length,width\nthirty,3", "Row 2"},
	} {
		d.do(Action{Do: "file", ID: "p2", Value: tt.name, Text: tt.text})
		if !strings.Contains(d.last.Alert, tt.says) || d.file() != before || d.last.ID != "p1" || len(d.last.Records) > 0 {
			t.Errorf("%s: alert %q, project %s", tt.name, d.last.Alert, d.last.ID)
		}
	}
	d.do(Action{Do: "file", ID: "p2", Value: "good.json", Text: string(demo(t, "sharpening-cart"))})
	if d.last.ID != "p2" || d.last.Alert != "" || len(d.last.Records) == 0 {
		t.Errorf("a good file: project %s, alert %q, %d records", d.last.ID, d.last.Alert, len(d.last.Records))
	}
}

func TestCSVThereAndBack(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "csv"})
	extra, err := ParseCSV(d.Planner.doc.Measure(), d.last.File.Text)
	if err != nil {
		t.Fatal(err)
	}
	for i, l := range d.out.made.Lines {
		if e := extra[i]; e.Length != l.Length || e.Width != l.Width || e.Thickness != l.Thick || e.Count != l.Count {
			t.Errorf("line %d: %+v, want %+v", i, e, l)
		}
	}
	n := len(d.Planner.doc.Extra)
	d.do(Action{Do: "file", ID: "p9", Value: "More.CSV", Text: "name,length,width,count,material\nshelf,20,10,2,ply18\n"})
	if d.last.ID != "p1" || len(d.Planner.doc.Extra) != n+1 || len(d.past) != 1 {
		t.Errorf("a cut list: %q, %d extra after %d", d.last.Alert, len(d.Planner.doc.Extra), n)
	}
}

func TestExportOpens(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	d.do(Action{Do: "mark"})
	d.do(Action{Do: "export"})
	f := d.last.File
	if f == nil || f.Name != "jointer-stand.json" {
		t.Fatalf("file %+v", f)
	}
	e := newDesk(t)
	e.do(Action{Do: "file", ID: "p2", Value: f.Name, Text: f.Text})
	if e.out.stands.Done != d.out.stands.Done || len(e.marks) != len(d.marks) {
		t.Errorf("%d cuts done after opening the file, want %d", e.out.stands.Done, d.out.stands.Done)
	}
	if !bytes.Equal(project.Save(e.Planner.doc), project.Save(d.Planner.doc)) {
		t.Error("the file opens to another document")
	}
}

// From the file to the first plan and all of the page.
func BenchmarkOpen(b *testing.B) {
	text := string(demo(b, "jointer-stand"))
	for b.Loop() {
		newDesk(b).do(Action{Do: "demo", ID: "p1", Text: text})
	}
}
