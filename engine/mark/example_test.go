package mark_test

import (
	"fmt"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// Two devices kept a journal each; together they tell what stands.
func Example() {
	tablet := []mark.Mark{mark.Next(nil, "tablet", "").Entry(mark.Bought, "ply-18")}
	phone := []mark.Mark{mark.Next(nil, "phone", "").Entry(mark.Measured, "stock.birch-18")}
	phone[0].Value = 18 * measure.MM

	all := mark.Merge(tablet, phone)
	all = append(all, mark.Next(all, "tablet", "").Undo(tablet[0]))
	s := mark.Fold(all)
	thick, _ := s.Value("stock.birch-18")
	fmt.Println(s.Bought("ply-18"), measure.Tape{Metric: true}.Text(thick))
	// Output: false 18 mm
}

// A journal is put in order, and equal entries stand once.
func ExampleMerge() {
	a := mark.Mark{Device: "a", Seq: 1, Lamport: 1, Kind: mark.Bought, On: "glue"}
	b := mark.Mark{Device: "b", Seq: 1, Lamport: 2, Kind: mark.Bought, On: "screws"}
	for _, m := range mark.Merge([]mark.Mark{b, a}, []mark.Mark{a}) {
		fmt.Println(m.Device, m.On)
	}
	// Output:
	// a glue
	// b screws
}
