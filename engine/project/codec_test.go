package project

import (
	"bytes"
	"errors"
	"os"
	"reflect"
	"strings"
	"testing"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// TestSamples: every sample project opens, and what Save writes opens to the
// same document and saves to the same bytes.
func TestSamples(t *testing.T) {
	for _, name := range samples(t) {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		once := Save(p)
		q, err := Open(once)
		if err != nil {
			t.Errorf("%s: saved, it does not open: %v", name, err)
			continue
		}
		if !reflect.DeepEqual(p, q) {
			t.Errorf("%s: Open(Save(p)) is not p", name)
		}
		if twice := Save(q); !bytes.Equal(once, twice) {
			t.Errorf("%s: saving twice gives other bytes", name)
		}
	}
}

func TestOpenRefuses(t *testing.T) {
	head := `{"format":"cartwright-project","version":1`
	for _, tt := range []struct{ name, file, says string }{
		{"nothing", "", "not a project file"},
		{"binary junk", "\x7fELF\x00\x01\xff\xfe", "not a project file"},
		{"another format", `{"format":"something","version":1}`, "not a Cartwright project"},
		{"cut short", head + `,"name":"x`, "not a project file"},
		{"a later version", `{"format":"cartwright-project","version":3}`, "made by version 3; this program reads up to 1"},
		{"needs a later reader", `{"format":"cartwright-project","version":1,"needs":2}`, "made by version 2; this program reads up to 1"},
		{"version 0", `{"format":"cartwright-project","version":0}`, "version 0 does not exist"},
		{"a length without unit", head + `,"cabinet":{"width":"36"}}`, "cabinet.width"},
		{"a length that is a number", head + `,"cabinet":{"width":36}}`, "cabinet.width"},
		{"a list that is none", head + `,"cabinet":{"bays":{}}}`, "cabinet.bays"},
		{"deep inside", head + `,"cabinet":{"bays":[{"openings":[{"height":"4 furlongs"}]}]}}`, "cabinet.bays.0.openings.0.height"},
		{"a huge count", head + `,"extra":[{"count":99999999999999}]}`, "extra.0.count"},
		{"too many entries", head + `,"extra":[` + strings.Repeat("{},", 20_001) + `{}]}`, "more than 20000 entries"},
		{"too many marks", head + `,"journal":[` + strings.Repeat("{},", 100_000) + `{}]}`, "more than 100000 entries"},
	} {
		p, err := Open([]byte(tt.file))
		if err == nil {
			t.Errorf("%s: opened: %+v", tt.name, p)
		} else if !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %q does not say %q", tt.name, err, tt.says)
		}
	}
	var newer ErrNewer
	if _, err := Open([]byte(`{"format":"cartwright-project","version":7}`)); !errors.As(err, &newer) || newer.File != 7 || newer.Reader != Version {
		t.Errorf("a newer file gives %v", err)
	}
	if _, err := Open(make([]byte, 50<<20)); err == nil || !strings.Contains(err.Error(), "50 MB") {
		t.Errorf("50 MB: %v", err)
	}
}

// TestLongJournal: what a shop marks in years goes into a file and out of it.
func TestLongJournal(t *testing.T) {
	p := new(Project)
	for i := range 10_000 {
		m := mark.Stamp{Device: "tablet-in-the-shop", Seq: i + 1, Lamport: i + 1, Time: "2026-11-25T10:00:00Z"}.Entry(mark.Done, "cut/0/1/2/3")
		m.Plan, m.Axis, m.At, m.Saw = "3x5k2m8q1z", "x", measure.Length(i)*measure.UM, "table"
		m.Piece = &mark.Piece{L: 8 * measure.Foot, W: 48 * measure.Inch, Name: "R2"}
		m.Pieces = []mark.Piece{{L: 48 * measure.Inch, W: 48 * measure.Inch, Name: "C"}, {X: 49 * measure.Inch, L: 47 * measure.Inch, W: 48 * measure.Inch, Name: "keep"}}
		p.Journal = append(p.Journal, m)
	}
	file := Save(p)
	q, err := Open(file)
	if err != nil {
		t.Fatalf("%d kB: %v", len(file)>>10, err)
	}
	if !reflect.DeepEqual(q.Journal, p.Journal) {
		t.Error("another journal came out")
	}
}

// TestUnknown: fields of a later build are kept verbatim, in their place.
func TestUnknown(t *testing.T) {
	file := `{"format":"cartwright-project","version":1,"name":"x","future":{"a":[1,2.50,"<b>"]},
		"cabinet":{"width":"36 in","colour":"red","bays":[{"name":"a","lamp":true}]}}`
	p, err := Open([]byte(file))
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"cabinet.bays.0.lamp", "cabinet.colour", "future"}
	if !reflect.DeepEqual(p.Warnings, want) {
		t.Errorf("told of %q, want %q", p.Warnings, want)
	}
	if err := Insert(p, "cabinet.bays", 0); err != nil { // the field moves with its bay
		t.Fatal(err)
	}
	out := string(Save(p))
	for _, s := range []string{`"colour": "red"`, `"lamp": true`, `2.50`, `"<b>"`} {
		if !strings.Contains(out, s) {
			t.Errorf("%s is lost:\n%s", s, out)
		}
	}
	q, err := Open([]byte(out))
	if err != nil || !reflect.DeepEqual(q.Warnings, []string{"cabinet.bays.1.lamp", "cabinet.colour", "future"}) {
		t.Errorf("after saving: %q, %v", q.Warnings, err)
	}
}

func TestSaveSpeaksTheTape(t *testing.T) {
	p := &Project{Cabinet: Cabinet{Width: 127 * measure.MM}}
	if out := string(Save(p)); !strings.Contains(out, `"5 in"`) {
		t.Errorf("inch tape: %s", out)
	}
	p.Tape.Unit = "metric"
	if out := string(Save(p)); !strings.Contains(out, `"127 mm"`) {
		t.Errorf("metric tape: %s", out)
	}
}

func TestEdit(t *testing.T) {
	p := &Project{Cabinet: Cabinet{Bays: []Bay{{Name: "a"}, {Name: "b"}}}}
	before := p.Clone()
	q := p.Clone()
	for _, tt := range []struct{ path, text, shown string }{
		{"cabinet.width", "36 1/2", "36 1/2"},
		{"cabinet.width", "600 mm", "600 mm"},
		{"cabinet.bays.1.width", `1' 4 1/2"`, "16 1/2"},
		{"cabinet.bays.1.name", " Reel ", "Reel"},
		{"cabinet.top.strips", "true", "true"},
		{"base.caster.rating", "220", "220 lb"},
		{"stock.sheets", "x", ""},
		{"store.price", "$1.5", "1.50"},
		{"cabinet.width", "", ""},
	} {
		err := Set(q, tt.path, tt.text)
		if tt.path == "stock.sheets" {
			if err == nil {
				t.Error("a list cannot be typed in")
			}
			continue
		}
		if err != nil {
			t.Errorf("Set(%s, %q): %v", tt.path, tt.text, err)
		}
		if got := Text(q, tt.path); got != tt.shown {
			t.Errorf("Set(%s, %q) shows %q, want %q", tt.path, tt.text, got, tt.shown)
		}
	}
	if !reflect.DeepEqual(p, before) {
		t.Error("an edit of the clone changed the original")
	}
	for _, tt := range []struct{ path, text string }{
		{"cabinet.width", "23 5/"}, {"cabinet.nothing", "1"}, {"cabinet.bays.7.width", "1"}, {"cabinet.bays.-1.width", "1"},
		{"journal", "1"}, {"plan.digest", "x"}, {"", "1"}, {"cabinet.bays.0.share", "-3"}, {"machine.weight", "-5 lb"}, {"base.ballast", "-1 kg"}, {"seed", "x"}, {"cabinet.width.x", "3"},
		{"name", strings.Repeat("x", 10_001)},
	} {
		before := q.Clone()
		if err := Set(q, tt.path, tt.text); err == nil {
			t.Errorf("Set(%s, %q) was taken", tt.path, tt.text)
		}
		if !reflect.DeepEqual(q, before) {
			t.Errorf("Set(%s, %q) was refused and changed the project", tt.path, tt.text)
		}
	}
	first := q.Cabinet.Bays[0].Name
	if err := Swap(q, "cabinet.bays", 0); err != nil || len(q.Cabinet.Bays) != 2 || q.Cabinet.Bays[0].Name != "Reel" || q.Cabinet.Bays[1].Name != first {
		t.Errorf("Swap: %v, %+v", err, q.Cabinet.Bays)
	}
	if err := Swap(q, "cabinet.bays", 0); err != nil || q.Cabinet.Bays[0].Name != first {
		t.Errorf("Swap and swap again: %v, %+v", err, q.Cabinet.Bays)
	}
	for _, at := range []int{-1, 1, 2, 1 << 40} {
		if err := Swap(q, "cabinet.bays", at); err == nil {
			t.Errorf("entry %d has no next one, and was swapped", at+1)
		}
	}
	if err := Remove(q, "cabinet.bays", 0); err != nil || len(q.Cabinet.Bays) != 1 || q.Cabinet.Bays[0].Name != "Reel" {
		t.Errorf("Remove: %v, %+v", err, q.Cabinet.Bays)
	}
	for range mostByHand {
		Insert(q, "extra", 0)
	}
	if err := Insert(q, "extra", 0); err == nil {
		t.Error("a list grows without end")
	}
}

// FuzzOpen: no file makes Open panic; what opens saves to a fixed point.
func FuzzOpen(f *testing.F) {
	for _, name := range samples(f) {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(`{"format":"cartwright-project","version":1,"x":null,"plan":{"job":[]},"journal":[{"at":"1 in"}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := Open(data)
		if err != nil {
			return
		}
		once := Save(p)
		q, err := Open(once)
		if err != nil {
			t.Fatalf("saved, it does not open: %v\n%s", err, once)
		}
		if twice := Save(q); !bytes.Equal(once, twice) {
			t.Errorf("saving twice gives other bytes:\n%s\n%s", once, twice)
		}
	})
}
