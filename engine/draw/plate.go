package draw

import "cartwright/engine/scene"

// tagLeast is the smallest tag whose letter is still text of the least size.
const tagLeast = 25 * px

// A plate is what stands on a piece of a sheet: its tag, if it is a part, and
// words under it or beside it.
type plate struct {
	tag     string
	solid   bool
	tagSize scene.Unit
	words   block
	row     bool // the words stand beside the tag
	turn    bool // one line, set upright
}

const plateGap = 6 * px

// tagExtent is the rectangle of the tag about mid.
func (p plate) badge(mid scene.Pt) scene.Badge {
	shape := scene.PartTag
	if p.solid {
		shape = scene.PartSolid
	}
	return scene.Badge{At: mid, Shape: shape, Text: p.tag, Size: p.tagSize}
}

// size returns the width and the height of p.
func (p plate) size() (w, h scene.Unit) {
	w, h = p.words.size()
	if p.turn {
		w, h = h, w
	}
	if p.tag == "" {
		return w, h
	}
	e := p.badge(scene.Pt{}).Extent()
	switch {
	case len(p.words.lines) == 0:
		return e.W(), e.H()
	case p.row:
		return w + plateGap + e.W(), max(h, e.H())
	}
	return max(w, e.W()), h + plateGap + e.H()
}

// plate draws p about mid.
func (k *sketch) plate(p plate, mid scene.Pt) {
	w, h := p.size()
	ww, wh := p.words.size()
	switch {
	case p.turn:
		l := p.words.lines[0]
		l.At, l.Align, l.Turn = mid, scene.Middle, true
		k.label(l)
	case p.tag == "":
		k.block(p.words, mid)
	case p.row:
		e := p.badge(scene.Pt{}).Extent()
		k.badge(p.badge(scene.Pt{X: mid.X - w/2 + e.W()/2, Y: mid.Y}))
		k.block(p.words, scene.Pt{X: mid.X + w/2 - ww/2, Y: mid.Y})
	default:
		e := p.badge(scene.Pt{}).Extent()
		k.badge(p.badge(scene.Pt{X: mid.X, Y: mid.Y - h/2 + e.H()/2}))
		if len(p.words.lines) > 0 {
			k.block(p.words, scene.Pt{X: mid.X, Y: mid.Y + h/2 - wh/2})
		}
	}
}

// extent is the rectangle of p about mid.
func (p plate) extent(mid scene.Pt) scene.Rect {
	w, h := p.size()
	return scene.R(mid.X-w/2, mid.Y-h/2, w, h)
}

// partPlates returns the forms that the plate of a part can take, the best
// first: tag over size, tag beside size, size on two lines, the tag alone.
func partPlates(tag, l, w string, done bool, size scene.Unit) []plate {
	line := l + " × " + w
	lines := func(bold ...string) block {
		b := words(size, true, scene.Ink, bold...)
		if done {
			b.lines = append(b.lines, scene.Label{Text: "cut", Size: least, Bold: true, Tone: scene.Good})
		}
		return b
	}
	beside := words(size, true, scene.Ink, line)
	big := plate{tag: tag, solid: done, tagSize: 32 * px}
	small := plate{tag: tag, solid: done, tagSize: tagLeast}
	with := func(p plate, b block, row bool) plate {
		p.words, p.row = b, row
		return p
	}
	letter := plate{words: words(least, true, scene.Ink, tag)}
	if done {
		letter.words = words(least, true, scene.Good, tag+" cut")
	}
	return []plate{
		with(big, lines(line), false),
		with(big, lines(l+" ×", w), false),
		with(small, lines(line), false),
		with(small, lines(l+" ×", w), false),
		with(big, beside, true),
		with(small, beside, true),
		with(small, words(size, true, scene.Ink, line), false),
		big, small,
		letter,
	}
}

// unequalPlates returns the forms of a part that came out at another size: the
// planned one struck out, the real one on a ground of its own.
func unequalPlates(tag, planned, real string, size scene.Unit) []plate {
	was := scene.Label{Text: planned, Size: least, Tone: scene.Ink2, Strike: true}
	is := scene.Label{Text: real, Size: size, Bold: true, Tone: scene.Ink, Back: scene.Lit}
	p := plate{tag: tag, solid: true, tagSize: 32 * px, words: block{lines: []scene.Label{was, is}, gap: 9 * px}}
	small := p
	small.tagSize = tagLeast
	row := small
	row.row = true
	bare := small
	bare.words = block{}
	return []plate{p, small, row, bare, {words: words(least, true, scene.Bad, tag+" ≠")}}
}

// keepPlates returns the forms of the words on an offcut worth keeping.
func keepPlates(l, w string) []plate {
	one := "keep " + l + " × " + w
	set := func(lines ...string) plate {
		p := plate{words: words(least, false, scene.Ink2, lines...)}
		for i := range p.words.lines {
			p.words.lines[i].Back = scene.Sheet
		}
		return p
	}
	up := set(one)
	up.turn = true
	return []plate{set(one), set("keep", l+" × "+w), set("keep", l+" ×", w), up, set("keep")}
}
