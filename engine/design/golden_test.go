package design

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite golden files")

// TestGolden keeps the cut list of every starting point and option sample, with the sum behind
// each size and the joints, as text that is read as a difference in review.
func TestGolden(t *testing.T) {
	for name, p := range samplesOf(t) {
		c, f := Build(p)
		var b bytes.Buffer
		for _, l := range c.Lines {
			fmt.Fprintf(&b, "%s  %d × %s, %s\n", l.Tag, l.Count, l.Name, l.Material)
			for i, r := range l.Reasons {
				fmt.Fprintf(&b, "    %-6s %s =", [...]string{"length", "width", "thick"}[i], c.Tape.Exact(r.Result))
				for _, term := range r.Terms {
					fmt.Fprintf(&b, " %+d × %s (%s)", term.Times, c.Tape.Exact(term.Value), term.Name)
				}
				if r.Off != 0 {
					fmt.Fprintf(&b, " %+d ticks of rounding", r.Off)
				}
				b.WriteByte('\n')
			}
		}
		b.WriteByte('\n')
		for _, j := range c.Joints {
			fmt.Fprintf(&b, "%s to %s: %v\n", j.A, j.B, j.Kind)
		}
		for _, h := range c.Hardware {
			fmt.Fprintf(&b, "%d %s: %s\n", h.Count, h.Name, h.Why)
		}
		b.WriteString(codes(f))
		golden := filepath.Join("testdata", strings.ReplaceAll(name, "/", "-")+".golden")
		if *update {
			if err := os.MkdirAll("testdata", 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if want, err := os.ReadFile(golden); err != nil || !bytes.Equal(b.Bytes(), want) {
			t.Errorf("%s is not its golden file (%v): run make golden and read the difference", name, err)
		}
	}
}
