package main

import (
	"encoding/json"
	"strings"
	"syscall/js"

	"cartwright/wasm/worker/planner"
)

// A desk joins the planner to the page, the canvas and the search workers.
type desk struct {
	p      *planner.Planner
	count  int      // actions of the page so far
	began  float64  // ms
	drawn  float64  // from began to the drawing on its way
	canvas js.Value // the port to the canvas, or undefined
	// next is a movement of a drag that waits for the newer ones behind it.
	next *planner.Action
	// owed: panels are still to be made; waited is how often movements came
	// before them.
	owed   bool
	waited int

	move, panels, found js.Func
	plan, price         crew // look for better plans, and at other sizes
}

// A crew is the workers of one order, or the timer until they start.
type crew struct {
	order   planner.Order
	timer   js.Value
	workers []js.Value
	task    func() []byte
	start   js.Func
}

func newDesk(c planner.Config) *desk {
	d := &desk{canvas: js.Undefined()}
	c.Draw = d.draw
	d.p = planner.New(c)
	d.plan.task, d.price.task = d.p.Task, d.p.Prices
	for _, w := range [...]*crew{&d.plan, &d.price} {
		w.timer = js.Undefined()
		w.start = js.FuncOf(func(js.Value, []js.Value) any {
			d.launch(w)
			return nil
		})
	}
	d.move = js.FuncOf(func(js.Value, []js.Value) any {
		if a := d.next; a != nil {
			d.next = nil
			d.do(*a)
		}
		return nil
	})
	d.panels = js.FuncOf(func(js.Value, []js.Value) any {
		if d.owed && d.next != nil && d.waited < 2 { // the drawing first
			d.waited++
			self.Call("setTimeout", d.panels, 0)
		} else if d.owed {
			d.owed, d.waited = false, 0
			d.answer(d.p.Panels())
		}
		return nil
	})
	d.found = js.FuncOf(d.heard)
	return d
}

// receive takes a message of the page.
func (d *desk) receive(_ js.Value, args []js.Value) any {
	data := args[0].Get("data")
	switch data.Get("kind").String() {
	case "do":
		var a planner.Action
		if err := json.Unmarshal([]byte(data.Get("action").String()), &a); err != nil {
			panic("worker: " + err.Error())
		}
		if marks := data.Get("marks").String(); marks != "" {
			a.Marks = strings.Split(marks, "\x1e") // which stands in no JSON
		}
		d.count++
		d.take(a)
	case "port":
		d.canvas = args[0].Get("ports").Index(0)
		d.canvas.Set("onmessage", js.FuncOf(d.touch))
		d.do(planner.Action{Do: "view", To: "both"})
	}
	return nil
}

// touch takes what happens on the canvas.
func (d *desk) touch(_ js.Value, args []js.Value) any {
	m := args[0].Get("data")
	a := planner.Action{Do: m.Get("kind").String(), Ref: m.Get("ref").String()}
	if a.Do == "drag" {
		a.Phase, a.By = m.Get("phase").String(), int64(m.Get("by").Float())
	}
	d.take(a)
	return nil
}

// take does an action. Movements of a drag are put off until what is in the
// queue has been heard: only the newest is worth an answer.
func (d *desk) take(a planner.Action) {
	if a.Do == "drag" && a.Phase == "move" {
		if d.next == nil {
			self.Call("setTimeout", d.move, 0)
		}
		d.next = &a
		return
	}
	if d.next != nil && a.Do != "drag" { // keep the order
		late := *d.next
		d.next = nil
		d.do(late)
	}
	d.next = nil
	d.do(a)
}

// draw sends a drawing to the canvas.
func (d *desk) draw(scene []byte) {
	if d.canvas.IsUndefined() {
		return
	}
	b := self.Get("Uint8Array").New(len(scene))
	js.CopyBytesToJS(b, scene)
	d.canvas.Call("postMessage", b.Get("buffer"), []any{b.Get("buffer")})
	d.drawn = clock() - d.began
}

// do times what the planner does.
func (d *desk) do(a planner.Action) {
	d.began = clock()
	d.answer(d.p.Do(a))
}

// answer sends the page its panels; spent says how many ms the drawing took, and
// all of it.
func (d *desk) answer(r planner.Reply) {
	if r.Late {
		if !d.owed {
			self.Call("setTimeout", d.panels, 0)
		}
		d.owed = true
		d.search(r)
		return
	}
	d.owed = false
	reply := text(r)
	spent := []any{d.drawn, clock() - d.began}
	self.Call("postMessage", map[string]any{"kind": "reply", "count": d.count, "reply": reply, "spent": spent})
	d.search(r)
}

// search sees to it that the ordered searches run, and no others.
func (d *desk) search(r planner.Reply) {
	d.plan.follow(r.Search)
	d.price.follow(r.Price)
}

func (w *crew) follow(o planner.Order) {
	if o.Seq == w.order.Seq {
		return
	}
	if !w.timer.IsUndefined() {
		self.Call("clearTimeout", w.timer)
		w.timer = js.Undefined()
	}
	for _, one := range w.workers {
		one.Call("terminate")
	}
	w.workers, w.order = nil, o
	if o.Seq != 0 {
		w.timer = self.Call("setTimeout", w.start, o.Wait)
	}
}

// launch starts the workers of a crew's order, on all cores but one.
func (d *desk) launch(c *crew) {
	n := max(1, min(len(c.order.Seeds), self.Get("navigator").Get("hardwareConcurrency").Int()-1))
	job := string(c.task())
	for _, seed := range c.order.Seeds[:n] {
		w := self.Get("Worker").New(self.Get("location").Get("href"))
		w.Set("onmessage", d.found)
		w.Set("onerror", d.found)
		w.Call("postMessage", map[string]any{"role": "search", "module": self.Get("module"),
			"job": job, "seq": c.order.Seq, "seed": float64(seed)})
		c.workers = append(c.workers, w)
	}
}

// lost takes note of a worker that has died.
func (d *desk) lost(w js.Value) {
	for _, c := range []*crew{&d.plan, &d.price} {
		for i, one := range c.workers {
			if !one.Equal(w) {
				continue
			}
			one.Call("terminate")
			if c.workers = append(c.workers[:i], c.workers[i+1:]...); len(c.workers) == 0 {
				d.answer(d.p.Lost(c.order.Seq, c == &d.price))
			}
			return
		}
	}
}

// heard takes the report of a search worker.
func (d *desk) heard(_ js.Value, args []js.Value) any {
	m := args[0].Get("data")
	var f planner.Find
	if m.IsUndefined() || m.Get("kind").String() == "dead" {
		d.lost(args[0].Get("target"))
		return nil
	}
	if m.Get("kind").String() != "find" || json.Unmarshal([]byte(m.Get("find").String()), &f) != nil {
		return nil
	}
	r := d.p.Found(f, int64(clock()))
	if r.Quiet {
		d.search(r)
		return nil
	}
	d.answer(r)
	return nil
}
