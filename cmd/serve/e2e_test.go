package main

import "testing"

func TestSmoke(t *testing.T) {
	h := newHost(t)
	b := newVisit(t)
	b.open(h.url(""))
	b.wait("the strip", "document.querySelector('#strip .cell')")
	t.Log(b.text("#strip"))
	b.shot("smoke-1")
	b.spots()
	b.shot("smoke-2")
}
