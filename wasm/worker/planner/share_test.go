package planner

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"cartwright/engine/project"
)

// demo reads a project of testdata.
func demo(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile("../../../testdata/projects/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// What is shared is the project as it is, without the journal, and for another
// page with the plan that is seen.
func TestShare(t *testing.T) {
	for _, name := range []string{"jointer-stand", "sharpening-cart"} {
		d := demoDesk(t, name)
		d.do(Action{Do: "share"})
		if d.last.Share == nil || d.last.Share.Picture != "" {
			t.Fatalf("%s: shared %+v", name, d.last.Share)
		}
		e := newDesk(t)
		e.do(Action{Do: "link", ID: "p2", Text: d.last.Share.Text})
		if got, want := project.Save(e.Planner.doc), project.Save(d.Planner.doc); !bytes.Equal(got, want) {
			t.Errorf("%s: out of the link came\n%s\nwant\n%s", name, got, want)
		}
		if e.doc == "" || !strings.Contains(e.last.Alert, "as a copy") {
			t.Errorf("%s: stored %v, said %q", name, e.doc != "", e.last.Alert)
		}

		d.do(Action{Do: "embed"})
		f := New(Config{Embedded: true})
		f.Do(Action{Do: "link", Text: d.last.Share.Text, ReadOnly: true})
		if f.held == nil || f.out.Plan.Cost != d.out.Plan.Cost || !strings.HasPrefix(d.last.Share.Picture, "<svg") {
			t.Errorf("%s: another page shows another plan", name)
		}
		if d.held != nil {
			t.Errorf("%s: embedding took the plan into use", name)
		}
		if r := f.Do(Action{Do: "share"}); strings.Contains(r.Share.Text, `"plan"`) {
			t.Errorf("%s: a copy to work on comes with a plan in use", name)
		}

		d.do(Action{Do: "mark"})
		d.do(Action{Do: "share"})
		e = newDesk(t)
		e.do(Action{Do: "link", ID: "p3", Text: d.last.Share.Text})
		if len(e.Planner.doc.Journal) != 0 || e.held == nil || e.held.digest != d.held.digest {
			t.Errorf("%s: %d marks came with the link, plan in use %v", name, len(e.Planner.doc.Journal), e.held != nil)
		}
	}
}
