package ink

import (
	"strconv"
	"strings"
)

// ParseColor reads a colour as a style sheet states it: #rgb, #rrggbb,
// rgb(r, g, b), rgb(r g b) or with an alpha as the fourth number.
func ParseColor(s string) (Color, bool) {
	s = strings.ToLower(strings.TrimSpace(s))
	if hex, ok := strings.CutPrefix(s, "#"); ok {
		if len(hex) == 3 {
			hex = hex[:1] + hex[:1] + hex[1:2] + hex[1:2] + hex[2:] + hex[2:]
		}
		v, err := strconv.ParseUint(hex, 16, 32)
		if err != nil || len(hex) != 6 {
			return Color{}, false
		}
		return rgb(float64(v>>16), float64(v>>8&255), float64(v&255), 1), true
	}
	_, list, ok := strings.Cut(s, "(")
	list, ok2 := strings.CutSuffix(list, ")")
	if !ok || !ok2 || !strings.HasPrefix(s, "rgb") {
		return Color{}, false
	}
	n := strings.FieldsFunc(list, func(r rune) bool { return r == ' ' || r == ',' || r == '/' })
	if len(n) < 3 || len(n) > 4 {
		return Color{}, false
	}
	v := [4]float64{3: 1}
	for i, f := range n {
		x, err := strconv.ParseFloat(f, 64)
		if err != nil || !(x >= 0) || x > 255 {
			return Color{}, false
		}
		v[i] = x
	}
	return rgb(v[0], v[1], v[2], min(1, v[3])), true
}

func rgb(r, g, b, a float64) Color {
	return Color{float32(r / 255 * a), float32(g / 255 * a), float32(b / 255 * a), float32(a)}
}
