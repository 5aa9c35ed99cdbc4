package check_test

import (
	"os"
	"testing"

	"cartwright/engine/check"
	"cartwright/engine/design"
	"cartwright/engine/project"
)

// BenchmarkRun: a report is made at every step of a drag.
func BenchmarkRun(b *testing.B) {
	for _, name := range []string{"jointer-stand", "tall-tool-cabinet", "outfeed-cabinet"} {
		b.Run(name, func(b *testing.B) {
			data, err := os.ReadFile("../../testdata/projects/" + name + ".json")
			if err != nil {
				b.Fatal(err)
			}
			p, err := project.Open(data)
			if err != nil {
				b.Fatal(err)
			}
			c, _ := design.Build(p)
			for b.Loop() {
				check.Run(p, c)
			}
		})
	}
}
