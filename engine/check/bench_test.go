package check

import (
	"testing"

	"cartwright/engine/design"
)

// BenchmarkRun: a report is made after every edit, a quick one at every step of
// a drag.
func BenchmarkRun(b *testing.B) {
	all := samples(b)
	for _, name := range []string{"jointer-stand", "tall-tool-cabinet", "outfeed-cabinet"} {
		c, _ := design.Build(all[name])
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Run(all[name], c)
			}
		})
		b.Run(name+"/moving", func(b *testing.B) {
			for b.Loop() {
				Quick(all[name], c)
			}
		})
	}
}
