package issue

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestList(t *testing.T) {
	var l List
	if l.Blocked() || l.Problems() != 0 {
		t.Error("the zero list is clean")
	}
	l.Add(Note, "b.note", nil)
	l.Add(Warn, "z.warn", []string{"x"})
	l.Add(Block, "a.block", nil, 1)
	l.Add(Warn, "a.warn", nil)
	l.Sort()
	want := []Code{"a.block", "a.warn", "z.warn", "b.note"}
	for i, c := range want {
		if l[i].Code != c {
			t.Errorf("finding %d is %s, want %s", i, l[i].Code, c)
		}
	}
	if l.Problems() != 3 || !l.Blocked() || !l.Has("z.warn") || l.Has("z") {
		t.Error("problems are what blocks or warns; notes do not count")
	}
}

// TestCost: what can hurt comes before what spoils wood, that before money, and
// that before time; within a level.
func TestCost(t *testing.T) {
	var l List
	for _, c := range []Code{"work.clamps", "check.slide", "check.odds", "check.tips"} {
		l.Add(Warn, c, nil)
	}
	l.Add(Block, "work.reach", nil)
	l.Sort()
	for i, want := range []Code{"work.reach", "check.tips", "check.odds", "check.slide", "work.clamps"} {
		if l[i].Code != want {
			t.Errorf("finding %d is %s, want %s", i, l[i].Code, want)
		}
	}
}

// TestEveryCost: each code in the lists is raised somewhere, and stands in one;
// for each code of the checks and of the work at the saw somebody has decided.
func TestEveryCost(t *testing.T) {
	var source strings.Builder
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
			data, err := os.ReadFile(path)
			source.Write(data)
			return err
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, l := range costs {
		for _, c := range strings.Fields(l.codes) {
			if seen[c] {
				t.Errorf("%s stands in two lists", c)
			}
			seen[c] = true
			if !strings.Contains(source.String(), `Code = "`+c+`"`) {
				t.Errorf("no package raises %s", c)
			}
		}
	}
	const wood = " check.odds check.moves work.split work.hole-edge work.hole-meets work.plan work.store-edge work.no-way "
	for _, part := range strings.Split(source.String(), `Code = "`)[1:] {
		c, _, _ := strings.Cut(part, `"`)
		if (strings.HasPrefix(c, "check.") || strings.HasPrefix(c, "work.")) && !seen[c] && !strings.Contains(wood, " "+c+" ") {
			t.Errorf("nobody has said what %s costs", c)
		}
	}
}
