package planner

import (
	"encoding/json"
	"fmt"
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
	for path, v := range map[string]string{"name": "Shelf", "length": "11", "width": "7", "count": fmt.Sprint(60 - n), "material": d.out.Job.Parts[0].Material} {
		d.do(Action{Do: "set", Path: "extra.0." + path, Value: v})
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

// longJournal is n entries: all cuts marked, and the last ones taken back and
// marked again and again.
func longJournal(d *desk, n int) (marks []string) {
	journal := d.Planner.doc.Journal
	last := journal[len(journal)-1]
	for len(journal) < n {
		s := mark.Next(journal[len(journal)-1:], "tablet", "2026-11-25T10:00:00Z")
		s.Seq, s.Lamport = len(journal)+1, len(journal)+1
		if len(journal)%2 == 0 {
			journal = append(journal, s.Undo(last))
		} else {
			m := last
			m.Seq, m.Lamport = s.Seq, s.Lamport
			last = m
			journal = append(journal, m)
		}
	}
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
	for b.Loop() {
		e := newDesk(b)
		e.do(Action{Do: "open", ID: "p1", Text: d.doc, Marks: marks})
		if len(e.Planner.doc.Journal) != 10_000 || e.held == nil {
			b.Fatal(len(e.Planner.doc.Journal))
		}
	}
}
