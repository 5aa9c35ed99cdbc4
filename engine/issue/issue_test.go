package issue

import "testing"

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
