package main

import (
	"cartwright/engine"
	"cartwright/engine/draw"
	"cartwright/engine/scene"
)

// sheetScene draws sheet i of the plan.
func sheetScene(r engine.Result, i int) scene.Scene {
	_ = i
	return draw.Cart(r.Cart, 900, 640, draw.CartOptions{Print: true})
}
