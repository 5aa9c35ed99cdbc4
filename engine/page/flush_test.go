package page

import (
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// TestFlushSaid: the bench, on screen, on paper and as text, says which strips
// are flushed, by how much, and what is planed before; with another allowance
// it says another number.
func TestFlushSaid(t *testing.T) {
	for _, tt := range []struct {
		proud     measure.Length
		says, not string
	}{
		{0, "1/32 thicker than the ply, both sides together", "before glue: "},
		{measure.Inch64, "1/64 thicker than the ply, both sides together", "1/32 thicker"},
	} {
		v := started(t, "jointer-stand", func(p *project.Project) { p.Cabinet.Face.Proud = tt.proud })
		var all []string
		for _, c := range BenchText(v) {
			all = append(all, c.Lines...)
		}
		lines := strings.Join(all, "\n")
		v.Place, v.Selected = Bench, "build/flush/case"
		shown := plainPanel(v, "list")
		paper := plainHTML(html(newBuilder(v).printBench("", func(int) item { return nil })))
		for name, s := range map[string]string{"text": lines, "screen": shown, "paper": paper} {
			if !strings.Contains(s, tt.says) || strings.Contains(s, tt.not) {
				t.Errorf("proud %v, %s: want %q, not %q", tt.proud, name, tt.says, tt.not)
			}
			if !strings.Contains(s, "Only then measure the openings for the boxes") || !strings.Contains(s, "Sanding makes the finest dust") {
				t.Errorf("%s does not say when, or at what danger", name)
			}
		}
		// 23/32 and 1/64 are 47/64.
		if tt.proud > 0 && !strings.Contains(lines, "to 47/64 before glue: 1/64 more than the ply") {
			t.Errorf("the text does not say to what the strips are planed: %s", lines)
		}
	}
}
