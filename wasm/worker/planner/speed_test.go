package planner

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"cartwright/engine/mark"
)

// sixty is a desk with sixty parts, of which some are cut and one is spoiled;
// the offer is left.
func sixty(t testing.TB) *desk {
	d := demoDesk(t, "jointer-stand")
	n := 0
	for _, q := range d.out.Job.Parts {
		n += q.Count
	}
	d.do(Action{Do: "add", Path: "extra", At: -1})
	for _, set := range [][2]string{{"name", "Shelf"}, {"length", "11"}, {"width", "7"}, {"count", fmt.Sprint(60 - n)}, {"material", d.out.Job.Parts[0].Material}} {
		d.do(Action{Do: "set", Path: "extra.0." + set[0], Value: set[1]})
	}
	d.cutParts(5)
	for _, c := range d.out.Steps.Shop {
		if at := c.SetPiece(); d.isDone(c.ID) && c.Lines[at] >= 0 {
			d.do(Action{Do: "spoil", Cut: c.ID, At: at})
			break
		}
	}
	d.do(Action{Do: "leave"})
	return d
}

// BenchmarkReplan is the first answer after a mis-cut, sixty parts: the aim is
// 50 ms in the worker.
func BenchmarkReplan(b *testing.B) {
	d := sixty(b)
	for b.Loop() {
		d.do(Action{Do: "replan"})
		if d.offer == nil {
			b.Fatal(d.last.Alert)
		}
		d.do(Action{Do: "leave"})
	}
}

// longJournal is n entries of two devices, as storage lists them: device by
// device. All cuts are marked; the last ones are taken back and marked again
// and again, a third of the times on the other device.
func longJournal(d *desk, n int) (marks []string) {
	journal := slices.Clone(d.Planner.doc.Journal)
	var cuts []mark.Mark
	for _, m := range journal {
		if m.Kind == mark.Done && len(m.Pieces) == 2 {
			cuts = append(cuts, m)
		}
	}
	seq := map[string]int{"tablet": len(journal)}
	for i := 0; len(journal) < n; i++ {
		m := &cuts[len(cuts)-1-i/2%3]
		s := mark.Stamp{Device: "tablet", Lamport: len(journal) + 1, Time: "2026-11-25T10:00:00Z"}
		if i/2%3 == 1 {
			s.Device = "phone"
		}
		seq[s.Device]++
		s.Seq = seq[s.Device]
		if i%2 == 0 {
			journal = append(journal, s.Undo(*m))
		} else {
			m.Device, m.Seq, m.Lamport = s.Device, s.Seq, s.Lamport
			journal = append(journal, *m)
		}
	}
	slices.SortStableFunc(journal, func(a, b mark.Mark) int { return strings.Compare(a.Device, b.Device) })
	for _, m := range journal {
		text, _ := json.Marshal(m)
		marks = append(marks, string(text))
	}
	return marks
}

// BenchmarkOpenLong opens a project with ten thousand entries: the aim is 200 ms
// in the worker.
func BenchmarkOpenLong(b *testing.B) {
	d := sixty(b)
	marks := longJournal(d, 10_000)
	done := d.out.stands.Done
	for b.Loop() {
		e := newDesk(b)
		e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: marks})
		if len(e.Planner.doc.Journal) != 10_000 || e.held == nil || e.out.stands.Done != done {
			b.Fatal(len(e.Planner.doc.Journal), e.out.stands.Done, done)
		}
	}
}

// BenchmarkEdit types another width and the old one again.
func BenchmarkEdit(b *testing.B) {
	d := demoDesk(b, "jointer-stand")
	was := d.Planner.doc.Cabinet.Width.String()
	for b.Loop() {
		for _, v := range []string{"37 in", was} {
			d.do(Action{Do: "set", Path: "cabinet.width", Value: v})
		}
	}
}
