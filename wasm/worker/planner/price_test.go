package planner

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"cartwright/engine"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// box is a box on feet with two loose panels 47 in long on its cut list, for
// sheets of 48 by 48 in at $84: both fit one sheet up to a width of
// (48 − 1/8)/2 = 23 15/16 in.
const box = `{"format":"cartwright-project","version":1,"seed":1,
	"lineUp":{"mode":"height","height":"29 in"},
	"cabinet":{"width":"20 in","depth":"19 in","material":"box","back":{"kind":"panel","skin":"box"},"top":{"material":"box"},
		"bays":[{"name":"Left","width":"9 in","openings":[{}]},{"name":"Right","openings":[{}]}]},
	"base":{"kind":"feet","foot":"2 in"},
	"extra":[{"name":"panel","length":"47 in","width":"24 in","count":2,"grain":"length","material":"ply"}],
	"stock":{"materials":[{"id":"ply","name":"Plywood 3/4 in","kind":"plywood","nominal":"3/4 in","density":600},
			{"id":"box","name":"Birch 3/4 in","kind":"plywood","nominal":"3/4 in","density":600}],
		"sheets":[{"id":"square","material":"ply","length":"48 in","width":"48 in","grain":"length","price":"84.00"},
			{"id":"full","material":"box","length":"96 in","width":"48 in","grain":"length","price":"61.00"}]},
	"shop":{"saws":[{"name":"table saw","kind":"table","kerf":"1/8 in","rip":"50 in","crosscut":"50 in","length":"100 in"}]}}`

const panel = "extra.0.width"

func boxDesk(t *testing.T) *desk {
	d := newDesk(t)
	d.do(Action{Do: "open", ID: "p1", Text: box})
	if d.last.Alert != "" || len(d.out.Plan.Sheets) == 0 {
		t.Fatalf("%q, %v", d.last.Alert, d.out.Findings)
	}
	return d
}

// searchEnds lets the search for the plan come to its end.
func (d *desk) searchEnds() {
	d.t.Helper()
	for now := int64(1); d.hunt.on; now += 1000 {
		if now > longest+2000 {
			d.t.Fatal("the search does not end")
		}
		d.keep(d.Found(Find{Seq: d.order().Seq, Seed: 3, Tries: int(now)}, now))
	}
}

// priced does the order for other sizes, as a worker does, until it ends or
// until says stop.
func (d *desk) pricesCome(until func(Find) bool) {
	d.t.Helper()
	o := d.last.Price
	if o.Seq == 0 || len(o.Seeds) != 1 || len(d.Prices()) == 0 {
		d.t.Fatalf("no order: %+v", o)
	}
	now := int64(1000)
	if err := Hunt(d.Prices(), o.Seq, o.Seeds[0], func(f Find) bool {
		text, err := json.Marshal(f)
		if err != nil {
			d.t.Fatal(err)
		}
		var g Find
		if err := json.Unmarshal(text, &g); err != nil {
			d.t.Fatal(err)
		}
		now += 10
		if r := d.Found(g, now); !r.Quiet {
			d.keep(r)
		} else {
			d.last.Price = r.Price
		}
		return !until(f)
	}); err != nil {
		d.t.Fatal(err)
	}
}

func never(Find) bool { return false }

// After the search for the plan has ended, other sizes are looked at, each
// once; then nothing runs. What is offered can be taken and undone.
func TestPrices(t *testing.T) {
	d := boxDesk(t)
	if d.last.Search.Seq == 0 || d.last.Price.Seq != 0 {
		t.Fatalf("search %+v, prices %+v", d.last.Search, d.last.Price)
	}
	if !strings.Contains(d.panels["f-nearby"], "Still looking") {
		t.Errorf("while the search goes on: %s", d.panels["f-nearby"])
	}
	d.searchEnds()
	if !strings.Contains(d.panels["f-nearby"], "Trying other sizes") {
		t.Errorf("before the first report: %s", d.panels["f-nearby"])
	}
	d.pricesCome(never)
	if d.last.Price.Seq != 0 {
		t.Errorf("afterwards %+v runs", d.last.Price)
	}
	o := d.nears()
	if len(o) != 1 || o[0].Size != panel || o[0].By != -measure.Inch/16 || o[0].Buy.Total-d.out.Buy.Total != -8400 {
		t.Fatalf("%d offers: %s", len(o), d.panels["f-nearby"])
	}
	if html := d.panels["f-nearby"]; !strings.Contains(html, "−$84.00") || !strings.Contains(html, "1 sheet fewer") {
		t.Errorf("the list says %s", html)
	}

	before, strip := d.file(), d.strip()
	d.do(Action{Do: "cheaper", Ref: o[0].Size, Value: o[0].By.String()})
	if got := project.Text(d.Planner.doc, panel); got != "23 15/16" || d.last.Alert != "" || d.doc == "" || len(d.past) != 1 {
		t.Fatalf("%s is %s: %q", panel, got, d.last.Alert)
	}
	if d.out.Buy.Total != o[0].Buy.Total || d.out.Plan.Bought != o[0].Plan.Bought || d.was["strip/cost"] == "" {
		t.Errorf("it costs %v, %v was offered", d.out.Buy.Total, o[0].Buy.Total)
	}
	if found := nest.Verify(d.out.Job, d.out.Plan); len(found) > 0 {
		t.Errorf("the plan: %v", found)
	}
	if len(d.nears()) != 0 || d.last.Search.Seq == 0 || d.last.Price.Seq != 0 {
		t.Errorf("after the edit %d offers, search %+v, prices %+v", len(d.nears()), d.last.Search, d.last.Price)
	}
	d.do(Action{Do: "undo"})
	if d.file() != before || d.strip() != strip {
		t.Errorf("after undo the strip is %s, want %s", d.strip(), strip)
	}
	if d.do(Action{Do: "cheaper", Ref: o[0].Size, Value: o[0].By.String()}); d.last.Alert == "" || d.file() != before {
		t.Error("an offer that has gone was taken")
	}
}

// What is taken costs what was promised, also where a quick search would not
// find that plan again.
func TestPromiseIsKept(t *testing.T) {
	for _, name := range []string{"plain-box", "open-bench"} {
		d := demoDesk(t, name)
		d.searchEnds()
		d.hand = "cabinet.depth"
		d.pricesCome(func(f Find) bool { return f.Done })
		o := d.nears()
		if len(o) == 0 {
			t.Fatalf("%s: nothing is offered", name)
		}
		if o[0].Size != "cabinet.depth" {
			t.Errorf("%s: the size in hand does not come first: %s", name, o[0].Size)
		}
		d.do(Action{Do: "cheaper", Ref: o[0].Size, Value: o[0].By.String()})
		if d.out.Buy.Total > o[0].Buy.Total || d.out.Plan.Bought > o[0].Plan.Bought {
			t.Errorf("%s: %v and %d sheets, promised %v and %d", name, d.out.Buy.Total, d.out.Plan.Bought, o[0].Buy.Total, o[0].Plan.Bought)
		}
	}
}

// An edit, stop, another place, a plan in use end it; what comes late is
// dropped.
func TestPricesEnd(t *testing.T) {
	find := func() (*desk, Order, []Find) {
		d := boxDesk(t)
		d.searchEnds()
		o := d.last.Price
		var finds []Find
		if err := Hunt(d.Prices(), o.Seq, 1, func(f Find) bool {
			if f.News() {
				finds = append(finds, f)
			}
			return true
		}); err != nil {
			t.Fatal(err)
		}
		return d, o, finds
	}
	late := func(d *desk, finds []Find) {
		t.Helper()
		for _, f := range finds {
			d.keep(d.Found(f, 2000))
		}
		if len(d.nears()) > 0 || strings.Contains(d.panels["f-nearby"], "84.00") {
			t.Error("a late report was taken")
		}
	}
	for _, tt := range []struct {
		name string
		end  Action
	}{
		{"edit", Action{Do: "set", Path: "cabinet.depth", Value: "18"}},
		{"undoable edit", Action{Do: "nudge", Path: panel, Value: "24", Step: "step"}},
		{"stop", Action{Do: "stop"}},
		{"in use", Action{Do: "accept"}},
		{"another project", Action{Do: "open", ID: "p2", Text: strings.Replace(box, `"24 in"`, `"23 in"`, 1)}},
	} {
		d, o, finds := find()
		if d.do(tt.end); d.last.Price.Seq == o.Seq || d.last.Alert != "" {
			t.Errorf("%s: %+v goes on, %q", tt.name, d.last.Price, d.last.Alert)
		}
		late(d, finds)
	}

	d, o, _ := find()
	if d.do(Action{Do: "place", To: "store"}); d.last.Price.Seq != 0 {
		t.Error("at Store other sizes are looked at")
	}
	if d.do(Action{Do: "place", To: "size"}); d.last.Price.Seq != o.Seq {
		t.Error("back at Size they are not")
	}
	d.do(Action{Do: "stop"})
	if d.last.Price.Seq != 0 || !strings.Contains(d.panels["f-nearby"], "Stopped") {
		t.Errorf("stopped: %s", d.panels["f-nearby"])
	}
	d.do(Action{Do: "more"})
	d.searchEnds()
	if d.last.Price.Seq == 0 || d.last.Price.Seq == o.Seq {
		t.Errorf("looking further: %+v", d.last.Price)
	}
	d.pricesCome(never)
	if len(d.nears()) != 1 {
		t.Error("looking further finds nothing")
	}
	// A slow worker is not waited for without end.
	d, o, _ = find()
	for now := int64(1); d.last.Price.Seq != 0; now += 1000 {
		if now > longestPrices+5000 {
			t.Fatal("it has no end")
		}
		r := d.Found(Find{Seq: o.Seq, Size: panel}, now)
		d.last.Price = r.Price
	}
}

// Reports that lie are not believed: a plan for another job, a saving that is
// none, a size that is not there.
func TestFalsePrices(t *testing.T) {
	d := boxDesk(t)
	d.searchEnds()
	seq := d.last.Price.Seq
	plan := d.out.Plan
	cheap := plan
	cheap.Cost, cheap.Sheets = 0, cheap.Sheets[:1]
	for _, f := range []Find{
		{Size: panel, By: -measure.Inch / 16, Plan: &plan},
		{Size: panel, By: -measure.Inch / 16, Plan: &cheap},
		{Size: panel, By: -100 * measure.Inch, Plan: &plan},
		{Size: panel, By: 1 << 62, Plan: &plan},
		{Size: "cabinet.bays.0.name", By: 1, Plan: &plan},
		{Size: "bay/7", By: 1, Plan: &plan},
		{Size: panel, Plan: &cheap},
	} {
		f.Seq = seq
		d.keep(d.Found(f, 5))
		if len(d.nears()) > 0 || d.out.Plan.Cost != plan.Cost {
			t.Errorf("%s by %v was believed", f.Size, f.By)
		}
	}
}

// While a handle is dragged its size alone is looked at, from where it was
// taken hold of; beside it stands what is known.
func TestPricesWhileDragging(t *testing.T) {
	d := boxDesk(t)
	d.do(Action{Do: "view", To: "both"})
	r := d.do(Action{Do: "drag", Ref: "bay/0", Phase: "start"})
	if r.Search.Seq != 0 || r.Price.Seq == 0 || strings.Join(d.prices.todo, " ") != "bay/0" {
		t.Fatalf("search %+v, prices %+v of %q", r.Search, r.Price, d.prices.todo)
	}
	d.do(Action{Do: "drag", Ref: "bay/0", Phase: "move", By: int64(measure.Inch)})
	if d.last.Price.Seq != r.Price.Seq {
		t.Error("a movement begins anew")
	}
	d.keep(d.Found(Find{Seq: r.Price.Seq, Size: "bay/0", By: 2 * measure.Inch, Sheets: 1}, 5))
	if note := d.besides(); len(note) != 1 || note[0] != "from 11 on needs 1 sheet or board more" {
		t.Errorf("beside the handle: %q", note)
	}
	d.keep(d.Found(Find{Seq: r.Price.Seq, Size: "bay/0", Done: true}, 6))
	if d.last.Price.Seq != 0 {
		t.Error("it goes on")
	}
	d.do(Action{Do: "drag", Ref: "bay/0", Phase: "cancel"})
	d.searchEnds()
	if d.last.Price.Seq == r.Price.Seq || d.last.Price.Seq == 0 {
		t.Errorf("after the drag: %+v", d.last.Price)
	}
	for _, size := range d.prices.todo {
		if size == "bay/0" {
			t.Error("what is done is looked at again")
		}
	}
}

// The edges of the worktop are handles too: they move its overhangs.
func TestPricesOfTheWorktop(t *testing.T) {
	for ref, want := range map[string]string{"top/left": "left", "top/back": "back", "side/front": "front"} {
		d := demoDesk(t, "jointer-stand")
		r := d.do(Action{Do: "drag", Ref: ref, Phase: "start"})
		if want = "cabinet.top.overhang." + want; r.Price.Seq == 0 || strings.Join(d.prices.todo, " ") != want {
			t.Errorf("%s: %q is looked at, want %s", ref, d.prices.todo, want)
		}
		d.keep(d.Found(Find{Seq: r.Price.Seq, Size: want, By: measure.Inch, Sheets: 1}, 5))
		if note := d.besides(); len(note) != 1 || !strings.HasPrefix(note[0], "from ") {
			t.Errorf("%s: beside it stands %q", ref, note)
		}
	}
}

func TestSizeInHand(t *testing.T) {
	d := demoDesk(t, "jointer-stand")
	all := engine.Sizes(d.Planner.doc, d.out.made)
	for _, tt := range []struct{ path, want string }{
		{"cabinet.bays.0.width", "bay/0"},
		{"cabinet.bays.1.width", "bay/0"}, // the last one's handle is the one before
		{"cabinet.bays.0.openings.0.height", "opening/0/0"},
		{"cabinet.bays.0.openings.2.height", "opening/0/1"},
		{"cabinet.depth", "cabinet.depth"},
		{"cabinet.bays.x.width", "cabinet.bays.x.width"},
		{"cabinet.bays.9.width", "cabinet.bays.9.width"},
		{"name", "name"},
	} {
		d.inHand(tt.path)
		if d.hand != tt.want {
			t.Errorf("%s: %s is in hand, want %s", tt.path, d.hand, tt.want)
		}
		d.prices.list(all, d.hand)
		if len(d.prices.todo) != len(all) || strings.Contains(tt.want, "/") && d.prices.todo[0] != tt.want {
			t.Errorf("%s: %d of %d sizes, %s first", tt.path, len(d.prices.todo), len(all), d.prices.todo[0])
		}
	}
}

// Embedded, read only, blocked, in use: nothing is looked at, and the list says
// why where there is one.
func TestNoPrices(t *testing.T) {
	d := newDesk(t)
	d.do(Action{Do: "open", ID: "p1", Text: box, ReadOnly: true})
	if d.last.Price.Seq != 0 || d.panels["f-nearby"] != "" {
		t.Errorf("read only: %+v, %q", d.last.Price, d.panels["f-nearby"])
	}
	d = boxDesk(t)
	d.do(Action{Do: "accept"})
	if d.last.Price.Seq != 0 || !strings.Contains(d.panels["f-nearby"], "A plan is in use") {
		t.Errorf("in use: %+v, %q", d.last.Price, d.panels["f-nearby"])
	}
	d = boxDesk(t)
	d.do(Action{Do: "set", Path: panel, Value: "60"}) // fits no sheet
	d.searchEnds()
	if d.last.Price.Seq != 0 || !strings.Contains(d.panels["f-nearby"], "found its place") {
		t.Errorf("blocked: %+v, %q", d.last.Price, d.panels["f-nearby"])
	}
}

// Undo and redo bring back the plans that were there, not such as a quick
// search finds again.
func TestUndoKeepsThePlan(t *testing.T) {
	d := demoDesk(t, "tall-tool-cabinet")
	first := d.out.Plan
	for seed := range uint64(4) { // a while of searching
		if err := Hunt(d.Task(), d.order().Seq, seed, func(f Find) bool {
			d.keep(d.Found(f, 100))
			return f.Tries < 30_000
		}); err != nil {
			t.Fatal(err)
		}
	}
	if !d.out.Plan.Better(&first) {
		t.Fatal("the search finds nothing better: choose another example")
	}
	found, strip := d.out.Plan, d.strip()
	d.do(Action{Do: "set", Path: "cabinet.width", Value: "650"})
	wide := d.out.Plan
	d.do(Action{Do: "undo"})
	if found.Better(&d.out.Plan) || d.strip() != strip {
		t.Errorf("undone, the strip is %s, was %s", d.strip(), strip)
	}
	d.do(Action{Do: "redo"})
	if wide.Better(&d.out.Plan) {
		t.Error("done again, the plan is worse")
	}
	d.do(Action{Do: "undo"})
	d.do(Action{Do: "drag", Ref: "opening/0/0", Phase: "start"})
	d.do(Action{Do: "drag", Ref: "opening/0/0", Phase: "move", By: int64(10 * measure.MM)})
	d.do(Action{Do: "drag", Ref: "opening/0/0", Phase: "cancel"})
	if found.Better(&d.out.Plan) {
		t.Error("after a drag that was given up the plan is worse")
	}
	d.do(Action{Do: "drag", Ref: "opening/0/0", Phase: "start"})
	d.do(Action{Do: "drag", Ref: "opening/0/0", Phase: "end", By: int64(10 * measure.MM)})
	d.do(Action{Do: "undo"})
	if found.Better(&d.out.Plan) || d.strip() != strip {
		t.Errorf("after a drag was undone the strip is %s, was %s", d.strip(), strip)
	}
	if l := nest.Verify(d.out.Job, d.out.Plan); len(l) > 0 {
		t.Errorf("the plan: %v", l)
	}
}

// A file may hold anything: other sizes of it are looked at without harm, and
// what is offered can be taken.
func TestSpoiltPrices(t *testing.T) {
	looked, taken := 0, 0
	for seed := range uint64(20) {
		r := rand.New(rand.NewPCG(seed, 2))
		var v any
		if err := json.Unmarshal(demo(t, []string{"plain-box", "open-bench", "low-assembly-cart"}[seed%3]), &v); err != nil {
			t.Fatal(err)
		}
		file, err := json.Marshal(spoil(r, v, []float64{0.005, 0.02}[r.IntN(2)]))
		if err != nil {
			t.Fatal(err)
		}
		d := newDesk(t)
		d.do(Action{Do: "open", ID: "p1", Text: string(file)})
		if d.Planner.doc == nil || len(d.out.Plan.Sheets) == 0 {
			continue
		}
		d.do(Action{Do: "stop"})
		d.prices.stopped = false
		d.do(Action{Do: "settle"})
		if d.last.Price.Seq == 0 {
			continue
		}
		n := 0
		d.pricesCome(func(Find) bool { n++; return n > 30 })
		looked++
		for _, o := range d.nears() {
			if d.do(Action{Do: "cheaper", Ref: o.Size, Value: o.By.String()}); d.last.Alert != "" {
				t.Errorf("seed %d: %s by %v: %q", seed, o.Size, o.By, d.last.Alert)
			}
			if found := nest.Verify(d.out.Job, d.out.Plan); len(found) > 0 {
				t.Errorf("seed %d: %v", seed, found)
			}
			taken++
			break
		}
	}
	t.Logf("%d spoilt projects looked at, %d offers taken", looked, taken)
	if looked < 5 || taken == 0 {
		t.Error("the test sees too little")
	}
}

// A worker that dies over a size takes only that size with it; one that dies
// over the plan ends its search.
func TestLostWorker(t *testing.T) {
	d := boxDesk(t)
	seq := d.last.Search.Seq
	if d.Lost(seq+1, false); !d.hunt.on {
		t.Error("a worker of an old order ended the search")
	}
	if r := d.Lost(seq, false); d.hunt.on || r.Search.Seq == seq || r.Price.Seq == 0 {
		t.Fatalf("after the last worker died: search %+v, prices %+v", r.Search, r.Price)
	}
	all, first := len(d.prices.todo), d.prices.todo[0]
	was := d.prices.seq
	d.keep(d.Lost(was, true))
	if d.last.Price.Seq == 0 || d.last.Price.Seq == was || slices.Contains(d.prices.todo, first) || len(d.prices.todo) != all-1 {
		t.Fatalf("after a worker died over %s: %+v, %v to do", first, d.last.Price, d.prices.todo)
	}
	d.pricesCome(never)
	want := strconv.Itoa(all-1) + " sizes were tried"
	if len(d.nears()) == 0 {
		want = "None found"
	}
	if d.last.Price.Seq != 0 || len(d.prices.todo) > 0 || !strings.Contains(d.panels["f-nearby"], want) {
		t.Errorf("at the end %+v: %s", d.last.Price, d.panels["f-nearby"])
	}
}
