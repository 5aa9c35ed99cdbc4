package planner

import (
	"fmt"
	"strings"
	"testing"

	"cartwright/engine/page"
	"cartwright/engine/project"
)

// A desk is a planner with what a page would have on the screen and in
// storage.
type desk struct {
	*Planner
	t      testing.TB
	panels map[string]string
	doc    string
	marks  []string
	last   Reply
	stored int // transactions
}

func newDesk(t testing.TB) *desk {
	clock := 0
	return &desk{t: t, panels: map[string]string{}, Planner: New(Config{Device: "tablet", Now: func() string {
		clock++
		return fmt.Sprintf("2026-11-25T10:%02d:%02dZ", clock/60%60, clock%60)
	}})}
}

func (d *desk) keep(r Reply) Reply {
	for _, p := range r.Panels {
		d.panels[p.ID] = p.HTML
	}
	for _, rec := range r.Records {
		switch rec.Kind {
		case "doc":
			d.doc = rec.Text
		case "mark":
			d.marks = append(d.marks, rec.Text)
		}
	}
	if len(r.Records) > 0 {
		d.stored++
	}
	d.last = r
	return r
}

func (d *desk) do(a Action) Reply { return d.keep(d.Do(a)) }

// demoDesk is a desk with a starting point open.
func demoDesk(t testing.TB, name string) *desk {
	d := newDesk(t)
	d.do(Action{Do: "demo", ID: "p1", Text: string(demo(t, name))})
	return d
}

// file is the document without its journal and plan.
func (d *desk) file() string {
	c := d.Planner.doc.Clone()
	c.Journal, c.Plan = nil, nil
	return string(project.Save(c))
}

func (d *desk) strip() string {
	var out []string
	for _, c := range page.Strip(d.view()) {
		out = append(out, c.Value)
	}
	return strings.Join(out, " ")
}
