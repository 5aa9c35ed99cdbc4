package svg

import "cartwright/engine/scene"

// A theme's names and, for files and old viewers, its light colours.
var tones = [...]struct{ name, light string }{
	scene.Ink:    {"ink", "#14201e"},
	scene.Ink2:   {"ink2", "#46534f"},
	scene.Rule:   {"rule", "#78857f"},
	scene.Hair:   {"hair", "#cbd4ce"},
	scene.Paper:  {"paper", "#edf1ee"},
	scene.Sheet:  {"sheet", "#fbfcfa"},
	scene.Tint:   {"tint", "#e3e9e4"},
	scene.Now:    {"now", "#ffb81c"},
	scene.NowInk: {"nowink", "#14201e"},
	scene.Lit:    {"lit", "#fff0c9"},
	scene.Store:  {"store", "#0a5a9c"},
	scene.Bad:    {"bad", "#a83600"},
	scene.Good:   {"good", "#00664a"},
}

// color returns the paint of t, "" for none.
func (w *writer) color(t scene.Tone) string {
	switch {
	case t == scene.Clear:
		return ""
	case w.o.Mono:
		switch t {
		case scene.Hair:
			return "#999"
		case scene.Paper, scene.Sheet, scene.Tint, scene.Lit, scene.Now:
			return "#fff"
		}
		return "#000"
	case w.o.Standalone:
		return tones[t].light
	}
	return "var(--" + tones[t].name + "," + tones[t].light + ")"
}
