package planner

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"runtime/debug"
	"strings"
	"testing"

	"cartwright/engine/page"
)

// What a damaged or hostile file may hold where a demo has something sensible.
var (
	oddSizes = []any{"0 in", "0.001 mm", "1/64 in", "3 in", "11 1/2 in", "30 in", "47 in", "999 in", "400 ft", "1000000 mm", "-5 in"}
	oddWords = []any{"", "none", "drawer", "shelf", "open", "door", "between", "under", "frame", "panel", "strips", "length", "width",
		"ply18", "x", strings.Repeat("W", 500)}
	oddNumbers = []any{0.0, 1.0, 2.0, 3.0, 7.0, 400.0, 0.5, -1.0}
	oddRest    = []any{true, false, nil, "", 1.0, []any{}, map[string]any{}}
)

// pick returns something of the kind of v, mostly.
func pick(r *rand.Rand, v any) any {
	from := oddRest
	switch v := v.(type) {
	case string:
		if from = oddWords; strings.ContainsAny(v, "0123456789") {
			from = oddSizes
		}
	case float64:
		from = oddNumbers
	}
	if r.IntN(60) == 0 {
		from = oddRest
	}
	return from[r.IntN(len(from))]
}

// spoil changes some leaves of a project, doubles or drops entries of lists.
func spoil(r *rand.Rand, v any, chance float64) any {
	switch v := v.(type) {
	case map[string]any:
		for _, k := range sortedKeys(v) {
			if k == "format" || k == "version" {
				continue
			}
			if r.Float64() < chance/4 {
				delete(v, k)
				continue
			}
			v[k] = spoil(r, v[k], chance)
		}
		return v
	case []any:
		var out []any
		for _, e := range v {
			n := 1
			if r.Float64() < chance {
				n = r.IntN(4)
			}
			for range n {
				out = append(out, spoil(r, clone(e), chance))
			}
		}
		return out
	default:
		if r.Float64() < chance {
			return pick(r, v)
		}
		return v
	}
}

func sortedKeys(m map[string]any) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	for i := range keys { // few: no need to be clever
		for j := i + 1; j < len(keys); j++ {
			if keys[j] < keys[i] {
				keys[i], keys[j] = keys[j], keys[i]
			}
		}
	}
	return keys
}

func clone(v any) any {
	b, _ := json.Marshal(v)
	var out any
	_ = json.Unmarshal(b, &out)
	return out
}

// A file may hold anything. It is refused with a sentence, or it opens, and
// then everything can be looked at and done that the page offers.
func TestSpoiltProjects(t *testing.T) {
	opened := 0
	const tries = 120
	for seed := range uint64(tries) {
		r := rand.New(rand.NewPCG(seed, 1))
		name := []string{"jointer-stand", "sharpening-cart"}[r.IntN(2)]
		var v any
		if err := json.Unmarshal(demo(t, name), &v); err != nil {
			t.Fatal(err)
		}
		file, err := json.Marshal(spoil(r, v, []float64{0.01, 0.03, 0.1}[r.IntN(3)]))
		if err != nil {
			t.Fatal(err)
		}
		if poke(t, seed, file) {
			opened++
		}
	}
	t.Logf("%d of %d spoilt projects opened", opened, tries)
	if opened < tries/5 {
		t.Error("most were refused: the test sees too little")
	}
}

// poke opens a file and does all kinds of things with it; a panic fails the
// test with the file.
func poke(t *testing.T, seed uint64, file []byte) (opened bool) {
	var last string
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("seed %d, at %q: panic: %v\n%s", seed, last, p, firstFrames())
		}
	}()
	d := newDesk(t)
	do := func(a Action) {
		last = fmt.Sprintf("%s %s%s%s", a.Do, a.To, a.Ref, a.Path)
		d.do(a)
	}
	do(Action{Do: "file", ID: "p1", Value: "spoilt.json", Text: string(file)})
	if d.Planner.doc == nil {
		if d.last.Alert == "" {
			t.Errorf("seed %d: nothing opened and nothing was said", seed)
		}
		return false
	}
	do(Action{Do: "view", To: "both"})
	for _, place := range []string{"parts", "store", "saw", "bench", "check", "size"} {
		do(Action{Do: "place", To: place})
	}
	for _, ref := range []string{"bay/0", "opening/0/0", "part/A", "cut/0/r"} {
		do(Action{Do: "tap", Ref: ref})
		for _, phase := range []string{"start", "move", "end"} {
			do(Action{Do: "drag", Ref: ref, Phase: phase, By: 3_000_000})
		}
	}
	for range 3 {
		do(Action{Do: "mark"})
	}
	do(Action{Do: "set", Path: "cabinet.width", Value: "31"})
	do(Action{Do: "replan"})
	for _, what := range []string{"parts", "cards", "saw"} {
		do(Action{Do: "print", To: what})
	}
	for _, what := range []string{"export", "csv", "share", "embed", "undo", "undo", "redo"} {
		do(Action{Do: what})
	}
	return true
}

// What a user can name never becomes markup.
func TestNamesAreOnlyText(t *testing.T) {
	const evil = `<img src=x onerror=alert(1)>"'&`
	var v map[string]any
	if err := json.Unmarshal(demo(t, "jointer-stand"), &v); err != nil {
		t.Fatal(err)
	}
	var rename func(any)
	rename = func(x any) {
		switch x := x.(type) {
		case map[string]any:
			for k, e := range x {
				if _, isText := e.(string); isText && (k == "name" || k == "note") {
					x[k] = evil
				}
				rename(e)
			}
		case []any:
			for _, e := range x {
				rename(e)
			}
		}
	}
	rename(v)
	file, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	d := newDesk(t)
	d.do(Action{Do: "file", ID: "p1", Value: evil, Text: string(file)})
	d.do(Action{Do: "projects", List: []stored{{ID: evil, Name: evil, When: evil}}})
	d.do(Action{Do: "set", Path: "cabinet.width", Value: evil})
	for _, place := range []string{"parts", "store", "saw", "bench", "check", "size"} {
		d.do(Action{Do: "place", To: place})
		d.do(Action{Do: "mark", Cut: evil})
		for id, html := range d.panels {
			if strings.Contains(html, "<img") || strings.Contains(html, "onerror=alert(1)>\"") {
				t.Errorf("at %s, panel %s holds markup of the user's", place, id)
			}
		}
	}
	for _, what := range []string{"parts", "cards", "saw"} {
		if d.do(Action{Do: "print", To: what}); strings.Contains(d.panels["print"], "<img") {
			t.Errorf("printed %s holds markup of the user's", what)
		}
	}
}

type stored = page.Stored

// firstFrames is where a panic came from.
func firstFrames() string {
	var out []string
	for _, line := range strings.Split(string(debug.Stack()), "\n") {
		if strings.Contains(line, ".go:") && strings.Contains(line, "cartwright") || strings.Contains(line, "/engine/") {
			out = append(out, strings.TrimSpace(line))
		}
	}
	return strings.Join(out[:min(len(out), 8)], "\n")
}
