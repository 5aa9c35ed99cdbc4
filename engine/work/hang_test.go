package work

import (
	"testing"

	"cartwright/engine/design"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// TestHang: a box in a bay of 16 1/2, slides of 1/2, so 15 1/2 less the play;
// planned with 1/32 of play. Worked by hand, front and back apart.
func TestHang(t *testing.T) {
	L := func(s string) measure.Length { return inches(t, s) }
	for _, tt := range []struct {
		front, back      string // as built; "" not measured
		play, take, shim [2]string
	}{
		{"", "", [2]string{"1/32", "1/32"}, [2]string{"0", "0"}, [2]string{"0", "0"}},
		// 1/32 too wide at the back: no play there, 1/64 must come off.
		{"", "15 1/2", [2]string{"1/32", "0"}, [2]string{"0", "1/64"}, [2]string{"0", "0"}},
		// 1/16 too wide: 1/32 less than nothing, 3/64 must come off.
		{"15 17/32", "15 17/32", [2]string{"-1/32", "-1/32"}, [2]string{"3/64", "3/64"}, [2]string{"0", "0"}},
		// 1/8 of play: 11/128 of shims bring it to the middle of 1/64 and 1/16.
		{"15 3/8", "", [2]string{"1/8", "1/32"}, [2]string{"0", "0"}, [2]string{"11/128", "0"}},
		{"15 7/16", "", [2]string{"1/16", "1/32"}, [2]string{"0", "0"}, [2]string{"0", "0"}},
	} {
		p := startingPoints(t)["jointer-stand"]
		c, _ := design.Build(p)
		var journal []mark.Mark
		for i, v := range []string{tt.front, tt.back} {
			if v == "" {
				continue
			}
			m := mark.Stamp{Device: "d", Seq: i + 1, Lamport: i + 1}.Entry(mark.Measured, BuiltOn("bay1/drawer2", i))
			m.Value = L(v)
			journal = append(journal, m)
		}
		all := Hang(p, c, mark.Fold(journal))
		if len(all) != 3 || all[0].Drawer != 2 || all[1].ID != "bay1/drawer2" {
			t.Fatalf("%+v", all)
		}
		h := all[1]
		for i := range 2 {
			eighth := func(s string) measure.Length { // 1/128 in is no mark of a tape
				if s == "11/128" {
					return measure.Inch * 11 / 128
				}
				return L(s)
			}
			if h.Play[i] != L(tt.play[i]) || h.Take[i] != L(tt.take[i]) || (h.Shim[i]-eighth(tt.shim[i])).Abs() > 1 || h.Side[i] != (L("16 1/2")-h.Box[i])/2 {
				t.Errorf("%q %q, end %d: %+v", tt.front, tt.back, i, h)
			}
			if h.Built[i] != ([2]string{tt.front, tt.back}[i] != "") {
				t.Errorf("%q %q, end %d: built %t", tt.front, tt.back, i, h.Built[i])
			}
		}
		if all[0].Play[0] != L("1/32") {
			t.Errorf("drawer 3 follows drawer 2: %+v", all[0])
		}
	}
}
