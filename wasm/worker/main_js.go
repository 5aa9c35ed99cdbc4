// Command worker is the program behind the page, in two roles: the planner,
// which lives as long as the page, and the search, which is started with a job
// and ended at will. It holds no decisions: they are package planner's.
//
// What is said, by the kind of message; the first message to a worker gives its
// role and waits for the program to be loaded (site/worker.js):
//
//	page → planner    {role: "planner", device, embedded}
//	                  {kind: "do", action, marks} JSON of a planner.Action, and
//	                  its Marks, U+001E between them
//	                  {kind: "port"} + port       the canvas is at the other end
//	planner → page    {kind: "reply", reply, count, spent}   JSON of a
//	                  planner.Reply; how many actions of the page are
//	                  answered; ms until the drawing was sent, and in all
//	                  {kind: "dead", why}         it must be started anew
//	planner → canvas  ArrayBuffer                 scene.Encode
//	canvas → planner  {kind: "tap", ref}, {kind: "drag", ref, by, phase}
//	planner → search  {role: "search", module, job, seq, seed}
//	search → planner  {kind: "find", find}        JSON of a planner.Find; job is
//	                  one to plan, or sizes to be priced: [planner.Hunt] knows
package main

import (
	"encoding/json"
	"syscall/js"

	"cartwright/wasm/worker/planner"
)

var self = js.Global()

func main() {
	order := self.Get("order")
	if order.Get("role").String() == "search" {
		search(order)
		return
	}
	d := newDesk(planner.Config{
		Device:   order.Get("device").String(),
		Embedded: order.Get("embedded").Truthy(),
		Now:      func() string { return self.Get("Date").New().Call("toISOString").String() },
	})
	self.Set("receive", js.FuncOf(d.receive))
	self.Call("ready")
	select {}
}

// restAfter is how many ms a search runs on before it lets the browser have
// its say: one that is ended only hears of it then, and else keeps a core busy
// for two seconds more.
const restAfter = 40

// search does one order, until it is ended by the planner.
func search(order js.Value) {
	last, rested := 0.0, clock()
	rest := newPause()
	err := planner.Hunt([]byte(order.Get("job").String()), order.Get("seq").Int(), uint64(order.Get("seed").Int()),
		func(f planner.Find) bool {
			if now := clock(); f.News() || now-last > 200 {
				last = now
				self.Call("postMessage", map[string]any{"kind": "find", "find": text(f)})
			}
			if clock()-rested > restAfter {
				rest()
				rested = clock()
			}
			return true
		})
	if err != nil {
		self.Call("postMessage", map[string]any{"kind": "dead", "why": err.Error()})
	}
	select {}
}

// newPause returns a function that comes back once the browser has done what
// waits.
func newPause() func() {
	over := make(chan struct{}, 1)
	c := self.Get("MessageChannel").New()
	c.Get("port1").Set("onmessage", js.FuncOf(func(js.Value, []js.Value) any {
		over <- struct{}{}
		return nil
	}))
	return func() {
		c.Get("port2").Call("postMessage", 0)
		<-over
	}
}

// clock returns milliseconds since the worker began.
func clock() float64 { return self.Get("performance").Call("now").Float() }

func text(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic("worker: " + err.Error()) // plain structs always marshal
	}
	return string(b)
}
