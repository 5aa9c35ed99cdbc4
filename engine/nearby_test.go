package engine_test

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"cartwright/engine"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// two is a box on feet, 20 in deep, with two loose panels on its cut list,
// 47 in long and so wide, for sheets of 48 by 48 in: both fit one sheet if
// twice the width and a kerf of 1/8 in are at most 48 in, that is up to
// (48 − 1/8)/2 = 23 15/16 in.
//
// The sides and the bottom of the box come from sheets of its own, 47 by 40 in:
// a side of at most 27 in and the bottom of 20 in make one strip of at most
// 47 1/8 in, a second side another. So they fit one sheet if twice the depth
// and a kerf are at most 40 in, that is up to 19 15/16 in.
const two = `{"format":"cartwright-project","version":1,"seed":1,
	"lineUp":{"mode":"height","height":"29 in"},
	"cabinet":{"width":"20 in","depth":%q,"material":"box","back":{"kind":"none"},"top":{"material":"board"},"bays":[{"openings":[{}]}]},
	"base":{"kind":"feet","foot":"2 in"},
	"extra":[{"name":"panel","length":"47 in","width":%q,"count":2,"grain":"length","material":"ply"}],
	"stock":{"materials":[{"id":"ply","name":"Plywood 3/4 in","kind":"plywood","nominal":"3/4 in","density":600},
			{"id":"box","name":"Birch 3/4 in","kind":"plywood","nominal":"3/4 in","density":600},
			{"id":"board","name":"Board 3/4 in","kind":"plywood","nominal":"3/4 in","density":600}],
		"sheets":[{"id":"square","material":"ply","length":"48 in","width":"48 in","grain":"length","price":%q},
			{"id":"oblong","material":"box","length":"47 in","width":"40 in","grain":"length","price":"61.00"}],
		"offcuts":[{"id":"left over","material":"board","length":"60 in","width":"40 in","grain":"length"}]},
	"shop":{"saws":[{"name":"table saw","kind":"table","kerf":"1/8 in","rip":"50 in","crosscut":"50 in","length":"100 in"}]},
	"car":{"floorLength":"100 in","floorWidth":"50 in","openingWidth":"50 in","openingHeight":"50 in","most":%q}}`

const panelWidth = "extra.0.width"

// planned designs and plans a project.
func planned(t *testing.T, text string) (*project.Project, engine.Result) {
	t.Helper()
	p, err := project.Open([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	r := engine.Design(p)
	for s := range nest.Search(r.Job, nest.Options{Seed: 1, Tries: 4096}) {
		if s.Plan != nil {
			r.Plan = *s.Plan
		}
	}
	return p, engine.Finish(p, r, r.Plan)
}

// savings are the values that save something, as "by: sheets, cost".
func savings(t *testing.T, p *project.Project, r engine.Result, size string) []string {
	t.Helper()
	var out []string
	for n := range engine.Nearby(p, r, size) {
		if n.Plan == nil || n.By == 0 {
			continue
		}
		q := p.Clone()
		if !engine.Turn(q, r.Cart, size, n.By) {
			t.Fatalf("%s by %v cannot be turned", size, n.By)
		}
		d := engine.Design(q)
		if found := nest.Verify(d.Job, *n.Plan); len(found) > 0 {
			t.Errorf("%s by %v: %v", size, n.By, found)
		}
		d = engine.Finish(q, d, *n.Plan)
		if !engine.Saves(&d, &r) {
			t.Errorf("%s by %v saves nothing: %v after %v", size, n.By, d.Buy.Total, r.Buy.Total)
		}
		out = append(out, fmt.Sprintf("%v: %d sheets, %v", n.By, d.Plan.Bought-r.Plan.Bought, d.Buy.Total-r.Buy.Total))
	}
	return out
}

// A row: the width of the panels as it is, the price of a sheet, what is said.
var nearbyTests = []struct {
	width, price string
	want         string
}{
	{"24 in", "84.00", "-1/16 in: -1 sheets, -84.00"},
	{"24 in", "90.50", "-1/16 in: -1 sheets, -90.50"},       // another price, another saving
	{"24 1/2 in", "84.00", "-9/16 in: -1 sheets, -84.00"},   // 24 1/2 − 23 15/16
	{"23 31/32 in", "84.00", "-1/32 in: -1 sheets, -84.00"}, // one step of the tape
	{"26 15/16 in", "84.00", "-3 in: -1 sheets, -84.00"},    // the last that is looked at
	{"27 in", "84.00", ""},                                  // 3 1/16 in away: too far
	{"23 15/16 in", "84.00", ""},                            // on one sheet already
	{"24 in", "0", "-1/16 in: -1 sheets, 0.00"},             // without prices sheets are counted
	{"24.01 in", "84.00", "-1.8415 mm: -1 sheets, -84.00"},  // off the tape, to its mark: 0.0725 in
}

func TestNearbyHandWorked(t *testing.T) {
	for _, tt := range nearbyTests {
		p, r := planned(t, fmt.Sprintf(two, "19 in", tt.width, tt.price, "900 lb"))
		if r.Findings.Blocked() {
			t.Fatalf("%s: %v", tt.width, r.Findings)
		}
		got := strings.Join(savings(t, p, r, panelWidth), "; ")
		if got != tt.want {
			t.Errorf("%s at %s: %q, want %q", tt.width, tt.price, got, tt.want)
		}
	}
}

// The depth of the box, by hand: see two.
func TestNearbyDepth(t *testing.T) {
	for _, tt := range []struct{ depth, want string }{
		{"20 in", "-1/16 in: -1 sheets, -61.00"},
		{"21 3/8 in", "-1 7/16 in: -1 sheets, -61.00"},
		{"19 15/16 in", ""},
	} {
		p, r := planned(t, fmt.Sprintf(two, tt.depth, "23 in", "84.00", "900 lb"))
		if got := strings.Join(savings(t, p, r, "cabinet.depth"), "; "); got != tt.want {
			t.Errorf("%s deep: %q, want %q", tt.depth, got, tt.want)
		}
	}
}

// The handle between two bays, the left one 20 in wide with two drawers whose
// fronts are 12 and 13 7/32 in high, from sheets of 39 by 14 in. A front is narrower than
// its bay by two gaps of 3/32 in; side by side with a kerf of 1/8 in two fit if
// 2·(w − 3/16) + 1/8 is at most 39 in: up to w = 19 5/8 in.
const fronts = `{"format":"cartwright-project","version":1,"seed":1,
	"lineUp":{"mode":"height","height":"29 in"},
	"cabinet":{"width":"40 in","depth":"19 in","material":"box","back":{"kind":"panel","skin":"box"},"top":{"material":"box"},
		"bays":[{"name":"Left","width":"20 in","openings":[{"kind":"drawer","height":"12 in"},{"kind":"drawer"}]},{"name":"Right","openings":[{}]}]},
	"drawers":{"box":"box","bottom":"box","joint":"inside","front":"show","gap":"3/32 in","slideLength":"16 in"},
	"base":{"kind":"feet","foot":"2 in"},
	"stock":{"materials":[{"id":"show","name":"Walnut plywood","kind":"plywood","nominal":"3/4 in","density":600},
			{"id":"box","name":"Birch 3/4 in","kind":"plywood","nominal":"3/4 in","density":600}],
		"sheets":[{"id":"small","material":"show","length":"39 in","width":"14 in","grain":"length","price":%q}],
		"offcuts":[{"id":"plenty","material":"box","length":"300 in","width":"60 in","grain":"length"}]},
	"shop":{"saws":[{"name":"table saw","kind":"table","kerf":"1/8 in","rip":"60 in","crosscut":"60 in","length":"300 in"}]}}`

func TestNearbyHandle(t *testing.T) {
	for _, tt := range []struct{ price, want string }{
		{"84.00", "-3/8 in: -1 sheets, -84.00"},
		{"70.25", "-3/8 in: -1 sheets, -70.25"},
	} {
		p, r := planned(t, fmt.Sprintf(fronts, tt.price))
		if r.Plan.Bought != 2 {
			t.Fatalf("%d sheets, %v", r.Plan.Bought, r.Findings)
		}
		if got := strings.Join(savings(t, p, r, "bay/0"), "; "); got != tt.want {
			t.Errorf("at %s: %q, want %q", tt.price, got, tt.want)
		}
	}
}

// Two panels of more than 23 15/16 in with their kerfs are each over half of a
// sheet and its kerf, so no sheet takes both: one step of the tape more needs a
// sheet more, and the bound says so.
func TestNearbyDearer(t *testing.T) {
	p, r := planned(t, fmt.Sprintf(two, "19 in", "23 15/16 in", "84.00", "900 lb"))
	for n := range engine.Nearby(p, r, panelWidth) {
		if n.Plan == nil && n.By != 0 {
			if n.By != in/32 || n.Sheets != 1 || n.Cost != 8400 {
				t.Errorf("dearer by %v: %d sheets, %v", n.By, n.Sheets, n.Cost)
			}
			return
		}
	}
	t.Error("nothing gets dearer")
}

// A sheet of 48 × 48 × 3/4 in at 600 kg/m³ weighs 0.02832 m³ × 600 = 16.99 kg,
// one of 47 × 40 in 13.86 kg: two and one are 47.84 kg, one and one 30.85. A
// car that takes 20 kg goes three times, then twice.
func TestNearbyTrips(t *testing.T) {
	p, r := planned(t, fmt.Sprintf(two, "19 in", "24 in", "0", "20 kg"))
	n := 0
	for x := range engine.Nearby(p, r, panelWidth) {
		if x.Plan == nil || x.By == 0 {
			continue
		}
		n++
		q := p.Clone()
		engine.Turn(q, r.Cart, panelWidth, x.By)
		d := engine.Design(q)
		d = engine.Finish(q, d, *x.Plan)
		if a, b := engine.Trips(&r), engine.Trips(&d); a != 3 || b != 2 {
			t.Errorf("%d trips before, %d after", a, b)
		}
	}
	if n != 1 {
		t.Errorf("%d savings", n)
	}
}

// The same project, plan and size give the same sequence, byte for byte.
func TestNearbyIsDeterministic(t *testing.T) {
	text, err := os.ReadFile("../testdata/projects/plain-box.json")
	if err != nil {
		t.Fatal(err)
	}
	run := func() string {
		p, r := planned(t, string(text))
		var b strings.Builder
		for n := range engine.Nearby(p, r, "cabinet.depth") {
			s, _ := json.Marshal(n)
			b.Write(s)
		}
		return b.String()
	}
	if a, b := run(), run(); a != b || len(a) < 1000 {
		t.Errorf("two runs differ, or say little: %d and %d bytes", len(a), len(b))
	}
}

// Sizes that cannot be turned, designs that are blocked, plans that are not
// whole: nothing is said, nothing fails.
func TestNearbyRefuses(t *testing.T) {
	p, r := planned(t, fmt.Sprintf(two, "19 in", "24 in", "84.00", "900 lb"))
	for _, size := range []string{"", "extra", "extra.7.width", "extra.0.name", "bay/0", "bay/-1", "opening/0/0", "cabinet.depth", "journal.0", "plan.job", "machine.table", "/", "drawers.slideLength", strings.Repeat("x.", 5000)} {
		for n := range engine.Nearby(p, r, size) {
			if n.Plan != nil && n.By != 0 {
				t.Errorf("%.20q: %+v", size, n)
			}
		}
	}
	none := r
	none.Plan = nest.Plan{}
	left := r
	left.Plan.Left = []int{0}
	broken := r
	broken.Plan.Sheets = broken.Plan.Sheets[:1]
	for _, bad := range []engine.Result{none, left, broken} {
		for n := range engine.Nearby(p, bad, panelWidth) {
			t.Errorf("%+v", n)
		}
	}
	for range engine.Nearby(p, r, panelWidth) { // the caller may stop at once
		break
	}
	q, _ := planned(t, fmt.Sprintf(two, "19 in", "60 in", "84.00", "900 lb"))
	d := engine.Design(q)
	for n := range engine.Nearby(q, d, panelWidth) {
		t.Errorf("fits no sheet: %+v", n)
	}
}

// What every starting point says: each saving is a plan that verifies, from a
// design without anything new wrong; each size is there and can be turned.
func TestNearbyOnStarts(t *testing.T) {
	for _, name := range []string{"plain-box", "low-assembly-cart", "tall-tool-cabinet"} {
		text, err := os.ReadFile("../testdata/projects/" + name + ".json")
		if err != nil {
			t.Fatal(err)
		}
		p, r := planned(t, string(text))
		found := 0
		for _, size := range engine.Sizes(p, r.Cart) {
			step := measure.Length(0)
			for _, by := range []measure.Length{-r.Cart.Tape.Ceil(in / 4), r.Cart.Tape.Ceil(in / 4)} {
				q := p.Clone()
				if size == "drawers.slideLength" || !engine.Turn(q, r.Cart, size, by) {
					continue
				}
				d := engine.Design(q)
				was, _ := engine.Size(p, r.Cart, size)
				if is, ok := engine.Size(q, d.Cart, size); ok && !d.Findings.Blocked() && is != was+by {
					t.Errorf("%s: %s was %v, by %v it is %v", name, size, was, by, is)
				}
				step = by
			}
			if step == 0 && size != "drawers.slideLength" {
				t.Errorf("%s: %s cannot be turned", name, size)
			}
			if size == "cabinet.depth" || size == "cabinet.face.rail" {
				found += len(savings(t, p, r, size))
			}
		}
		if found == 0 {
			t.Errorf("%s: nothing is cheaper nearby: choose other examples", name)
		}
	}
}
