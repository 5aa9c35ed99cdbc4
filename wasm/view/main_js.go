// Command view draws scenes in the browser: it pans, zooms and picks, and
// tells the planner what was tapped or dragged. It knows ink, not wood. The
// page that carries it is site/canvas.js.
package main

import (
	"cartwright/engine/scene"
	"cartwright/wasm/bridge"
	"cartwright/wasm/view/camera"

	"github.com/hajimehoshi/ebiten/v2"
)

func main() {
	g := newGame()
	bridge.Export("viewScene", func(a []bridge.Value) any {
		s, err := scene.Decode(bridge.Bytes(a[0]))
		if err != nil {
			bridge.Call("viewTell", bridge.Object("kind", "error", "why", err.Error()))
			return nil
		}
		g.show(s)
		return nil
	})
	bridge.Export("viewTheme", func(a []bridge.Value) any {
		g.dress(a[0])
		return nil
	})
	bridge.Export("viewState", func(a []bridge.Value) any {
		g.cam.State = camera.State{
			Zoom: bridge.Number(a[0].Get("zoom"), 1), X: bridge.Number(a[0].Get("x"), 0.5), Y: bridge.Number(a[0].Get("y"), 0.5),
		}
		g.settle(false)
		return nil
	})
	bridge.Export("viewCommand", func(a []bridge.Value) any { return g.command(a[0].String()) })
	bridge.Export("viewPointer", func(a []bridge.Value) any {
		g.pointer(a[0].String(), a[1].Int(), a[2].Float(), a[3].Float(), a[4].Float(), a[5].Bool())
		return nil
	})
	bridge.Export("viewWheel", func(a []bridge.Value) any {
		g.wheel(a[0].Float(), a[1].Float(), a[2].Float())
		return nil
	})
	bridge.Export("viewFrame", func([]bridge.Value) any {
		g.flush()
		return nil
	})
	bridge.Export("viewStats", func([]bridge.Value) any { return g.stats() })

	//lint:ignore SA1019 the other modes draw sixty times a second for nothing
	ebiten.SetFPSMode(ebiten.FPSModeVsyncOffMinimum)
	bridge.Call("viewReady")
	if err := ebiten.RunGameWithOptions(g, &ebiten.RunGameOptions{InitUnfocused: true, ScreenTransparent: true}); err != nil {
		panic(err)
	}
}
