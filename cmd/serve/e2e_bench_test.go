package main

import "testing"

// TestAtTheBench marks a step and a row of holes at Bench; both are there after
// a reload, and the drawing follows what is chosen.
func TestAtTheBench(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	start(b, h.url(""))
	b.click("#place-bench")
	b.wait("the first step", `document.querySelector('#title h2')?.textContent.startsWith('Step 1 of')`)
	b.shot("bench")
	b.click(".done")
	b.wait("the second step", `document.querySelector('#title h2')?.textContent.startsWith('Step 2 of')`)
	b.click("#s-bench-drill")
	b.click("[id='row-drill/side-left']")
	b.wait("the holes of a side", `document.querySelector('#title h2')?.textContent.includes('holes')`)
	b.shot("bench-part")
	b.click("[id='mark-drill/side-left/pocket/bottom']")
	b.wait("the row is marked", `document.getElementById('mark-drill/side-left/pocket/bottom')?.textContent==='Not done'`)
	b.saved()
	b.open(h.url(""))
	b.planned()
	b.click("#place-bench")
	b.wait("the mark after a reload", `document.querySelector('#title h2')?.textContent.startsWith('Step 2 of')`)
}
