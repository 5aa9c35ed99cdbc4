package main

import (
	"cartwright/engine/scene"
	"cartwright/wasm/bridge"
	"cartwright/wasm/view/ink"
)

// A theme is a colour for each tone. Clear is the zero Color: nothing.
type theme [scene.Good + 1]ink.Color

// names are the custom properties of the style sheet, and the light colours.
var names = [scene.Good + 1][2]string{
	scene.Ink: {"ink", "#14201e"}, scene.Ink2: {"ink2", "#46534f"}, scene.Rule: {"rule", "#78857f"},
	scene.Hair: {"hair", "#cbd4ce"}, scene.Paper: {"paper", "#edf1ee"}, scene.Sheet: {"sheet", "#fbfcfa"},
	scene.Tint: {"tint", "#e3e9e4"}, scene.Now: {"now", "#ffb81c"}, scene.NowInk: {"nowink", "#14201e"},
	scene.Lit: {"lit", "#fff0c9"}, scene.Store: {"store", "#0a5a9c"}, scene.Bad: {"bad", "#a83600"},
	scene.Good: {"good", "#00664a"},
}

func lightTheme() theme {
	var t theme
	for i, n := range names {
		t[i], _ = ink.ParseColor(n[1])
	}
	return t
}

// dress takes colours over from an object with the names of the tones; what
// is missing or cannot be read stays as it is.
func (g *game) dress(v bridge.Value) {
	for i, n := range names {
		if n[0] == "" {
			continue
		}
		if c, ok := ink.ParseColor(bridge.Text(v.Get(n[0]))); ok {
			g.theme[i] = c
		}
	}
	g.wake()
}
