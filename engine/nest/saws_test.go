package nest

import (
	"strings"
	"testing"

	"cartwright/engine/measure"
)

// bench is a shop with a table saw with a sled, a mitre saw and a track saw.
var bench = Saws{Fence: 30 * measure.Inch, Long: 96 * measure.Inch, Sled: 24 * measure.Inch, Mitre: 12 * measure.Inch, Track: true}

// TestTakes changes one thing about a cut at a time, by hand.
func TestTakes(t *testing.T) {
	const in = measure.Inch
	tests := []struct {
		name      string
		saws      Saws
		l, w, set measure.Length
		dir       Dir
		grain     Grain
		want      uint8
	}{
		{"unknown saws: one setting a distance", Saws{}, 96 * in, 48 * in, 20 * in, Y, Along, onFence},
		{"a rip", bench, 40 * in, 20 * in, 6 * in, Y, Along, onFence},
		{"a rip at the fence's limit", bench, 40 * in, 35 * in, 30 * in, Y, Along, onFence},
		{"and beyond it", bench, 40 * in, 35 * in, 30*in + 1, Y, Along, onTrack},
		{"a crosscut of a strip as wide as the mitre saw takes", bench, 40 * in, 12 * in, 20 * in, X, Along, onMitre | onSled},
		{"a wider one", bench, 40 * in, 12*in + 1, 20 * in, X, Along, onSled},
		{"with enough edge to ride", bench, 40 * in, 20 * in, 20 * in, X, Along, onSled | onFence},
		{"wider than the sled takes", bench, 40 * in, 24*in + 1, 20 * in, X, Along, onFence},
		{"and longer than its edge", bench, 40 * in, 24*in + 1, 25 * in, X, Along, onTrack},
		{"grain across: the same cut is a rip", bench, 40 * in, 20 * in, 20 * in, X, Across, onFence},
		{"no grain, along the strip", bench, 40 * in, 20 * in, 20 * in, Y, Free, onFence},
		{"no grain, off the end of a strip", bench, 40 * in, 10 * in, 20 * in, X, Free, onMitre | onSled},
		{"40 by 48 is for the bench", bench, 48 * in, 40 * in, 20 * in, Y, Along, onFence},
		{"a hair more is not", bench, 48*in + 1, 40 * in, 20 * in, Y, Along, onTrack},
		{"unless there is no other saw", Saws{Fence: 30 * in, Long: 96 * in}, 48*in + 1, 40 * in, 20 * in, Y, Along, onFence},
	}
	for _, tt := range tests {
		if got := tt.saws.takes(tt.l, tt.w, tt.set, tt.dir, tt.grain); got != tt.want {
			t.Errorf("%s: %04b, want %04b", tt.name, got, tt.want)
		}
	}
	for asked, want := range map[uint32]int{
		0:                       0,
		1 << onTrack:            0,
		1<<onFence | 1<<onTrack: 1,
		1<<onFence | 1<<(onFence|onSled) | 1<<(onSled|onFence|onMitre): 1,
		1<<onFence | 1<<onMitre:                   2,
		1<<onFence | 1<<onMitre | 1<<onSled:       3,
		1<<(onFence|onSled) | 1<<(onMitre|onSled): 1,
		1<<onFence | 1<<(onFence+lateAsked):       2, // the same, and again late
		1 << (onFence + lateAsked):                1,
		1 << (onTrack + lateAsked):                0,
	} {
		if got := settings(asked); got != want {
			t.Errorf("cuts %09b: %d settings, want %d", asked, got, want)
		}
	}
}

// TestSettingsOfSaws cuts two parts 20 long: from a strip 10 wide on the mitre
// saw, from one 26 wide along the fence, since the sled takes 24. At 23 a stop
// on the sled takes both, and there is a setting less.
func TestSettingsOfSaws(t *testing.T) {
	const in = measure.Inch
	for _, tt := range []struct {
		wide measure.Length
		saws Saws
		want int // 20 twice or once, and the widths
	}{{26 * in, bench, 4}, {23 * in, bench, 3}, {26 * in, Saws{}, 3}} {
		job := Job{Kerf: in / 8, Saws: tt.saws,
			Stock: []Stock{{ID: "s", L: 30 * in, W: 40 * in, Grain: Along, Count: 1, AtShop: true}},
			Parts: []Part{{ID: "a", L: 20 * in, W: 10 * in, Count: 1, Grain: Along}, {ID: "b", L: 20 * in, W: tt.wide, Count: 1, Grain: Along}}}
		strip := func(part int) *Node {
			w := job.Parts[part].W
			return &Node{Kind: Cut, Dir: X, L: 30 * in, W: w, Kids: []*Node{
				{Kind: Piece, L: 20 * in, W: w, Part: part}, {L: 10*in - in/8, W: w}}}
		}
		rest := 40*in - tt.wide - 10*in - in/4
		plan := Plan{ShopCuts: 4, Settings: tt.want, Sheets: []Layout{{0, &Node{Kind: Cut, Dir: Y, L: 30 * in, W: 40 * in,
			Kids: []*Node{strip(1), strip(0), {L: 30 * in, W: rest}}}}}}
		if found := Verify(job, plan); len(found) > 0 {
			t.Errorf("wide %v, %v: %v", tt.wide, tt.saws, found)
		}
		if plan.Settings++; len(Verify(job, plan)) == 0 {
			t.Error("a false number of settings passes")
		}
	}
}

// Of two strips at 20 one is of parts that are measured late: it is set for
// twice, and so is a width that only late parts have.
func TestSettingsLate(t *testing.T) {
	const in = measure.Inch
	for late, want := range map[int]int{0: 2, 1: 3, 2: 2} {
		job := Job{Saws: bench, Parts: []Part{{L: 20 * in, W: 10 * in}, {L: 20 * in, W: 10 * in}}}
		for i := range late {
			job.Parts[i].Reserve = Size{L: in / 8}
		}
		b := build{job: &job, dists: map[measure.Length]uint32{}, grain: Along}
		strip := &Node{Kind: Cut, Dir: X, L: 50 * in, W: 10 * in, Kids: []*Node{
			{Kind: Piece, L: 20 * in, W: 10 * in, Part: 1}, {Kind: Piece, L: 20 * in, W: 10 * in}, {L: 10 * in, W: 10 * in}}}
		b.tally(&Node{Kind: Cut, Dir: Y, L: 50 * in, W: 20 * in, Kids: []*Node{strip, {L: 50 * in, W: 10 * in}}}, false)
		if got := b.settings(); got != want {
			t.Errorf("%d late: %d settings, want %d", late, got, want)
		}
	}
}

// TestSawsTold: what the search says of its settings holds before the judge,
// for jobs of all kinds with the saws of a shop.
func TestSawsTold(t *testing.T) {
	for seed := range uint64(30) {
		job := cartJob(seed)
		job.Saws = bench
		if seed%3 == 0 {
			job.Saws.Track = false
		}
		if seed%2 == 0 { // fronts are measured late
			for i := range job.Parts {
				if strings.HasSuffix(job.Parts[i].ID, "front") {
					job.Parts[i].Reserve = Size{W: measure.Inch / 8}
				}
			}
		}
		p := last(job, Options{Seed: seed, Tries: 300})
		if found := Verify(job, *p); len(found) > 0 {
			t.Errorf("cart %d: %v", seed, found)
		}
	}
}
