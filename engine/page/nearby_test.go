package page

import (
	"strings"
	"testing"

	"cartwright/engine/issue"
)

// plainPanel is the text of a panel, tags left out.
func plainPanel(v View, id string) string {
	for _, p := range Panels(v) {
		if p.ID == id {
			return plainHTML(p.HTML)
		}
	}
	return ""
}

// plainHTML is the text of HTML, what only screen readers say left out.
func plainHTML(s string) string {
	for _, cut := range [][2]string{{"<span class=\"sr\">", "</span>"}, {"<", ">"}} {
		for {
			i := strings.Index(s, cut[0])
			if i < 0 {
				break
			}
			j := strings.Index(s[i:], cut[1])
			s = s[:i] + s[i+j+len(cut[1]):]
		}
	}
	return Plain(s)
}

// An offer says the size, the distance, what is saved and what it costs the
// cart; another price of what is bought is another saving.
func TestNearbyWords(t *testing.T) {
	v := small(Size)
	o := &v.Nearby.Offers[0]
	for _, tt := range []struct {
		change func()
		want   string
	}{
		{func() {}, "Case, depth205/83/8 less-$84.001 sheet fewer (Birch plywood 3/4 in), 1 store cut fewer.Gives up: slides 18 long instead of 20, 3/8 of depth in the case, inside. "},
		{func() { o.Trips++ }, "1 store cut fewer, 1 car trip more."},
		{func() { o.Trips -= 2 }, "1 store cut fewer, 1 car trip fewer."},
		{func() { o.Trips++ }, "1 store cut fewer."},
		{func() { o.Buy.Total -= 650 }, "-$90.50"},
		{func() { v.Plan.AtLeast = 0 }, "No plan that good was found at the present size."},
		{func() { v.Plan.AtLeast = 1 }, "Proven: no plan of the present size is that good."},
		{func() { v.Plan.Bound = v.Plan.Cost + 1 }, "Proven: no plan of the present size is that good."},
		{func() { o.Buy.Total = v.Buy.Total }, "3/8 less1 sheet fewer"},
		{func() { o.Findings = append(o.Findings, issue.Finding{Level: issue.Warn, Code: "design.no-back"}) }, "Nothing keeps the case square"},
		{func() { v.Nearby.Offers = nil; v.Nearby.Left = 0 }, "None found: no single size within 3 in saves"},
		{func() { v.Nearby.Why = "held" }, "A plan is in use."},
		{func() { v.Nearby.Why = "many" }, "too many parts"},
		{func() { v.Nearby.Why = "mend" }, "as soon as everything has found its place"},
	} {
		tt.change()
		if got := plainPanel(v, "f-nearby"); !strings.Contains(got, tt.want) {
			t.Errorf("%s\nsays not: %s", got, tt.want)
		}
	}
	v.Nearby.Why = ""
	v.Searching, v.Tries, v.Spent = true, 12345, 40
	if got := plainPanel(v, "f-nearby"); !strings.Contains(got, "12\u202f345 tries") {
		t.Errorf("the search: %s", got)
	}
	v.ReadOnly = true
	if got := plainPanel(v, "f-nearby"); got != "" {
		t.Errorf("read only: %s", got)
	}
}

// What stands beside a handle: values as the drawing shows them.
func TestDragNote(t *testing.T) {
	v := small(Size)
	o := nearer(v)
	o.Size, o.By = "bay/0", -in/2
	v.Nearby = Nearby{Offers: []Nearer{o, nearer(v)}, Dear: []Dear{{"bay/0", in / 4, 1, 8400}, {"bay/0", -in, 0, 1500}, {"bay/1", in, 2, 1}}}
	got := Plain(strings.Join(DragNote(v, "bay/0"), "; "))
	want := "at 15 1/2: 1 sheet fewer, 1 store cut fewer, -$84.00; from 16 1/4 on needs 1 sheet or board more; from 15 down at least $15.00 more"
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	v.Project.Cabinet.Top.Overhang.Front = in
	v.Nearby.Dear = []Dear{{"cabinet.top.overhang.front", in / 2, 1, 8400}}
	if got := Plain(strings.Join(DragNote(v, "cabinet.top.overhang.front"), "; ")); got != "from 1 1/2 on needs 1 sheet or board more" {
		t.Errorf("an overhang: %s", got)
	}
	for _, size := range []string{"", "bay/9", "bay/-1", "opening/0/0", "opening/0/7", "opening/9/0", "x/y/z", "cabinet.depth"} {
		if got := DragNote(v, size); len(got) > 0 {
			t.Errorf("%q: %q", size, got)
		}
	}
}
