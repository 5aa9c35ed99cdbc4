package work

import (
	"strconv"
	"strings"

	"cartwright/engine/issue"
	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/part"
)

// A builder walks the trees of a plan and lists the cuts, tree by tree.
type builder struct {
	job   nest.Job
	lines []part.Line
	tape  measure.Tape
	past  Past
	// sheets are those of the plan.
	sheets []nest.Layout
	shop   []pass // in the order of the trees
	steps  Steps
	// sheet is the sheet at hand, sheetStock the stock of each sheet.
	sheet      int
	sheetStock []int
	// strips counts the strips named so far of each rough piece.
	strips []int
}

// A pass is a shop cut before saws and order are known.
type pass struct {
	Cut
	prev  int      // the pass that frees its piece, -1 for none
	parts []int    // parts that it brings to size along Dir
	cross [2]rim   // the edges of the piece across Dir
	group []string // match groups of parts
	opts  []option // saws that can take it, the best first
	use   option
	big   bool
	stake int
	fixes bool // it gives a part a measure that may have to be larger
	rip   bool // its line runs along the grain, or the longer way of a sheet without
}

// sheetCuts walks one sheet.
func (b *builder) sheetCuts(i int, sh nest.Layout) {
	b.sheet = i
	if sh.Root == nil || sh.Stock < 0 || sh.Stock >= len(b.job.Stock) {
		b.broken(strconv.Itoa(i))
		return
	}
	stock := b.job.Stock[sh.Stock]
	is := FactoryEdge
	if stock.AtShop && stock.Price == 0 {
		is = OldEdge
	}
	s := stuff{at: mark.Piece{Sheet: i, L: stock.L, W: stock.W}, by: -1, rough: -1}
	for e := range s.rims {
		s.rims[e] = rim{is: is}
		if stock.AtShop {
			s.rims[e].off = b.job.EdgeOff(stock, e)
		}
	}
	if stock.AtShop {
		b.rough(sh.Root, s, "0", "")
		return
	}
	var store []Cut
	b.store(sh.Root, s, "0", "", &store)
	for k := range store {
		store[k].N = k + 1
		if k > 0 && store[k].Dir == store[k-1].Dir && store[k].Set == store[k-1].Set {
			store[k].Same = true
			store[k].SameAs = append(append([]int(nil), store[k-1].SameAs...), k)
		}
	}
	b.steps.Store = append(b.steps.Store, store...)
}

// rough takes a piece that has left the store's hands, or was at home.
func (b *builder) rough(n *nest.Node, s stuff, path, freed string) {
	stock := b.job.Stock[b.stockOf()]
	if n.Kind == nest.Waste && !stock.AtShop {
		s.at.Name = "waste"
		b.end(n, s, freed)
		return
	}
	r := Rough{Sheet: b.sheet, AtShop: stock.AtShop, Keep: n.Kind == nest.Offcut}
	if stock.AtShop {
		r.Name = b.fresh(stock.ID)
	} else {
		r.Name = b.nextR()
	}
	for e, rim := range s.rims {
		if rim.is == RoughEdge {
			r.RoughEdges = append(r.RoughEdges, side(e).edge())
		}
	}
	s.at.Name = r.Name
	s.rough = len(b.steps.Rough)
	r.Piece = s.at
	b.steps.Rough = append(b.steps.Rough, r)
	b.strips = append(b.strips, 0)

	if n.Kind == nest.Trim {
		for e := range s.rims {
			off := b.job.Store.Trim
			if s.rims[e].is != RoughEdge {
				off = b.job.EdgeOff(stock, e)
			}
			s.rims[e].off += off
		}
		if n.Core == nil {
			b.broken(path)
			return
		}
		n, path = n.Core, path+".c"
	}
	b.cutUp(n, s, path, freed)
}

// stockOf returns the stock of the sheet at hand.
func (b *builder) stockOf() int { return b.sheetStock[b.sheet] }

// cutUp lists the shop cuts that turn s into what n says. freed is the ID of
// the cut that frees s.
func (b *builder) cutUp(n *nest.Node, s stuff, path, freed string) {
	for _, d := range []nest.Dir{nest.X, nest.Y} {
		if s.core(d) != along(n, d) {
			b.broken(path)
			return
		}
	}
	switch n.Kind {
	case nest.Waste, nest.Offcut:
		b.end(n, s, freed)
	case nest.Piece:
		if !b.fits(n) {
			b.broken(path)
			return
		}
		for _, d := range []nest.Dir{b.ripDir(), other(b.ripDir())} {
			if s.rims[low(d)].off > 0 && s.rims[high(d)].off > 0 {
				s, freed = b.trim(n, s, b.worse(s, d), path, freed)
			}
			for _, e := range []side{low(d), high(d)} {
				if s.rims[e].off > 0 {
					s, freed = b.trim(n, s, e, path, freed)
				}
			}
		}
		s.at.Name = b.tag(n.Part)
		b.end(n, s, freed)
	case nest.Cut:
		if len(n.Kids) == 0 || n.Tier != nest.ShopTier {
			b.broken(path)
			return
		}
		b.run(n, s, path, freed)
	default:
		b.broken(path)
	}
}

// fits reports whether n has the size of its part.
func (b *builder) fits(n *nest.Node) bool {
	if n.Part < 0 || n.Part >= len(b.job.Parts) {
		return false
	}
	p := b.job.Parts[n.Part]
	return !n.Rot && n.L == p.L && n.W == p.W || n.Rot && n.L == p.W && n.W == p.L
}

// worse is the edge along d to take off first when neither is true: the one
// across from a straight edge, which can ride the fence meanwhile.
func (b *builder) worse(s stuff, d nest.Dir) side {
	if s.rims[low(d)].straight() && !s.rims[high(d)].straight() {
		return high(d)
	}
	return low(d)
}

// run lists the cuts that part s into the kids of n.
func (b *builder) run(n *nest.Node, s stuff, path, freed string) {
	d := n.Dir
	sum := b.job.Kerf * measure.Length(len(n.Kids)-1)
	for _, k := range n.Kids {
		sum += along(k, d)
	}
	if short := along(n, d) - sum; short < 0 || short > b.job.Kerf {
		b.broken(path)
		return
	}
	// Across: an edge that several parts need true comes off now, in one
	// pass; else each strip gets its own, at the size of its last part.
	for _, e := range []side{low(other(d)), high(other(d))} {
		if s.rims[e].off > 0 {
			full, chain := touch(n, e)
			if full > 0 && full+chain > 1 || full+b.trims(n, s, e) > 1 {
				s, freed = b.trim(n, s, e, path, freed)
			}
		}
	}
	// Along: which end to measure from.
	e, off, up := b.from(n, s)
	if off {
		s, freed = b.trim(n, s, e, path, freed)
	}
	ride, last := low(d), len(n.Kids)-1
	if !up {
		ride = high(d)
	}
	for i := range n.Kids {
		at := i
		if !up {
			at = last - i
		}
		k := n.Kids[at]
		kidPath := path + "." + strconv.Itoa(at)
		size := along(k, d)
		extra := s.size(d) - size
		if extra < 0 || along(k, other(d)) != along(n, other(d)) {
			b.broken(kidPath)
			return
		}
		if i == last && (extra == 0 || !needs(k, ride.far())) {
			s.rims[ride.far()].off = extra
			b.cutUp(k, s, kidPath, freed)
			return
		}
		var rest *nest.Node // what the rest is, if it is one thing
		if i == last-1 {
			next := at + 1
			if !up {
				next = at - 1
			}
			rest = n.Kids[next]
		}
		var off, left stuff
		off, left, freed = b.pass(passing{
			from: s, ride: ride, set: size, path: path + "-" + strconv.Itoa(at),
			kid: k, rest: rest, restIsWaste: i == last, freed: freed,
		})
		b.cutUp(k, off, kidPath, freed)
		s = left
	}
	if s.size(d) > 0 { // what the last pass cut off
		s.at.Name = "waste"
		b.end(&nest.Node{Kind: nest.Waste}, s, freed)
	}
}

// from says how n is cut from s: from the low end up, and whether the edge e is
// trimmed before.
func (b *builder) from(n *nest.Node, s stuff) (e side, trim, up bool) {
	d := n.Dir
	lo, hi := s.rims[low(d)], s.rims[high(d)]
	first, last := n.Kids[0], n.Kids[len(n.Kids)-1]
	switch {
	case lo.off > 0 && b.waitsAt(n, true): // what waits stays with what is left over
		return low(d), true, true
	case lo.off > 0 && hi.off > 0:
		e := b.worse(s, d)
		return e, true, e == low(d)
	// If the other end is scrap, take the rough edge off first and leave the
	// scrap for the end, where it needs no pass.
	case lo.off > 0:
		up := scrap(last) && needs(first, low(d))
		return low(d), up, up
	case hi.off > 0:
		down := scrap(first) && needs(last, high(d))
		return high(d), down, !down
	case lo.straight() != hi.straight():
		return 0, false, lo.straight()
	case b.waitsAt(n, false):
		return 0, false, false
	}
	return 0, false, !scrap(first) || scrap(last)
}

// trims counts the strips of n, lying in s, that would each have their edge e
// trimmed.
func (b *builder) trims(n *nest.Node, s stuff, e side) (count int) {
	for _, k := range n.Kids {
		if k.Kind == nest.Cut && k.Dir != n.Dir {
			if at, trim, _ := b.from(k, s); trim && at == e {
				count++
			}
		}
	}
	return count
}

// trim takes what is too much off the edge e of s, in one pass measured from
// the opposite edge.
func (b *builder) trim(n *nest.Node, s stuff, e side, path, freed string) (stuff, string) {
	keep := s.size(e.dir()) - s.rims[e].off
	off, left, id := b.pass(passing{
		from: s, ride: e.far(), set: keep, path: path + "-" + string(e.edge()),
		kid: n, restIsWaste: true, freed: freed, trim: true,
	})
	if left.size(e.dir()) > 0 {
		left.at.Name = "waste"
		b.end(&nest.Node{Kind: nest.Waste}, left, id)
	}
	return off, id
}

// A passing is what pass needs to know.
type passing struct {
	from        stuff
	ride        side
	set         measure.Length
	path        string
	kid         *nest.Node // what lies between ride and blade
	rest        *nest.Node // what lies beyond, nil if it is cut on
	restIsWaste bool
	freed       string
	trim        bool
}

// pass adds one shop cut: the stretch of set from the edge ride becomes off,
// what lies beyond the kerf left.
func (b *builder) pass(a passing) (off, left stuff, id string) {
	s, d := a.from, a.ride.dir()
	size, kerf := s.size(d), min(b.job.Kerf, s.size(d)-a.set)
	id = b.id(a.path)
	me := len(b.shop)
	at := a.set
	if a.ride == low(d) {
		off = s.span(d, 0, a.set, SawnEdge, me)
		left = s.span(d, a.set+kerf, size, SawnEdge, me)
	} else {
		at = size - a.set - kerf
		off = s.span(d, size-a.set, size, SawnEdge, me)
		left = s.span(d, 0, at, SawnEdge, me)
	}
	p := pass{
		Cut: Cut{
			ID: id, Tier: nest.ShopTier, Sheet: b.sheet, Dir: d, Piece: s.at, At: at, Kerf: kerf,
			Set: a.set, Ride: a.ride.edge(), RideIs: s.rims[a.ride].is, Verb: b.verb(d), Line: -1,
		},
		prev: s.by, rip: d == b.ripDir(), parts: spanning(nil, a.kid, d),
		cross: [2]rim{s.rims[low(other(d))], s.rims[high(other(d))]},
	}
	p.fixes = b.job.Waits(a.kid, d) || a.rest != nil && a.rest.Kind == nest.Piece && b.job.Waits(a.rest, d)
	if a.freed != "" {
		p.After = []string{a.freed}
	}
	offIs, offLine := b.becomes(a.kid, off)
	if a.trim && offIs != ToPart {
		p.Verb = TrimOff
	}
	switch {
	case offIs == ToPart:
		off.at.Name, p.Line = b.tag(offLine), offLine
	case offIs == ToKeep:
		off.at.Name = "keep"
	case offIs == ToWaste:
		off.at.Name = "waste"
	case !a.trim && !a.restIsWaste && (a.rest == nil || !scrap(a.rest)):
		off.at.Name = b.strip(s) // two pieces go on: the rest keeps the name
	}
	restIs, restLine := ToCut, -1
	switch {
	case a.restIsWaste:
		restIs, left.at.Name = ToWaste, "waste"
	case a.rest != nil:
		restIs, restLine = b.becomes(a.rest, left)
		switch restIs {
		case ToPart:
			left.at.Name, p.Rest = b.tag(restLine), left.size(d)
		case ToKeep:
			left.at.Name = "keep"
		case ToWaste:
			left.at.Name = "waste"
		}
	}
	p.Makes, p.Kinds, p.Lines = []mark.Piece{off.at}, []Outcome{offIs}, []int{offLine}
	if left.size(d) > 0 {
		p.Makes = append(p.Makes, left.at)
		p.Kinds, p.Lines = append(p.Kinds, restIs), append(p.Lines, restLine)
		if a.ride == high(d) {
			p.Makes[0], p.Makes[1] = p.Makes[1], p.Makes[0]
			p.Kinds[0], p.Kinds[1] = p.Kinds[1], p.Kinds[0]
			p.Lines[0], p.Lines[1] = p.Lines[1], p.Lines[0]
		}
	}
	b.shop = append(b.shop, p)
	return off, left, id
}

// becomes says what s is if it is to be n, and which line if it is a part as
// it lies there.
func (b *builder) becomes(n *nest.Node, s stuff) (Outcome, int) {
	switch n.Kind {
	case nest.Waste:
		return ToWaste, -1
	case nest.Offcut:
		return ToKeep, -1
	case nest.Piece:
		if s.at.L == n.L && s.at.W == n.W {
			return ToPart, n.Part
		}
	}
	return ToCut, -1
}

// end lists s as something that is not cut further.
func (b *builder) end(n *nest.Node, s stuff, freed string) {
	e := End{Piece: s.at, Line: -1, By: freed, Rough: s.rough}
	switch n.Kind {
	case nest.Piece:
		e.Is, e.Line, e.Rot = ToPart, n.Part, n.Rot
	case nest.Offcut:
		e.Is = ToKeep
	default:
		e.Is = ToWaste
	}
	b.steps.Ends = append(b.steps.Ends, e)
}

// ripDir is the axis whose cuts run along the grain of the sheet at hand;
// without grain, along its longer side.
func (b *builder) ripDir() nest.Dir {
	st := b.job.Stock[b.stockOf()]
	if st.Grain == nest.Across || st.Grain == nest.Free && st.W > st.L {
		return nest.X
	}
	return nest.Y
}

// verb names a shop cut along d.
func (b *builder) verb(d nest.Dir) Verb {
	switch {
	case b.job.Stock[b.stockOf()].Grain == nest.Free:
		return Breakup
	case d == b.ripDir():
		return Rip
	}
	return Crosscut
}

// tag returns the letter of a cut-list line.
func (b *builder) tag(line int) string {
	if line >= 0 && line < len(b.lines) && b.lines[line].Tag != "" {
		return b.lines[line].Tag
	}
	return part.Tag(max(line, 0))
}

// strip names the next strip of the rough piece that s came from: R2a, R2b, …
func (b *builder) strip(s stuff) string {
	i := b.strips[s.rough]
	b.strips[s.rough]++
	name := ""
	for ; ; i = i/26 - 1 {
		name = string(rune('a'+i%26)) + name
		if i < 26 {
			break
		}
	}
	of := b.steps.Rough[s.rough].Name
	if strings.Contains(of, " ") { // stock at home has a name of words
		of += " "
	}
	name = of + name
	if b.isStock(name) {
		return b.strip(s)
	}
	return name
}

// isStock reports whether a name is that of a piece that is there already.
func (b *builder) isStock(name string) bool {
	for _, s := range b.job.Stock {
		if s.ID == name && s.AtShop {
			return true
		}
	}
	return false
}

// nextR returns the next name of a piece from the store.
func (b *builder) nextR() string {
	n := 1 + b.past.Rough
	for _, r := range b.steps.Rough {
		if !r.AtShop {
			n++
		}
	}
	return "R" + strconv.Itoa(n)
}

// fresh returns the name of stock at home, numbered from the second on.
func (b *builder) fresh(id string) string {
	n := 1
	for _, r := range b.steps.Rough {
		if r.AtShop && b.job.Stock[b.sheetStock[r.Sheet]].ID == id {
			n++
		}
	}
	if n == 1 {
		return id
	}
	return id + " (" + strconv.Itoa(n) + ")"
}

// id returns the name of the cut at path on the sheet at hand.
func (b *builder) id(path string) string {
	return "cut/" + strconv.Itoa(b.sheet) + "/" + path
}

// broken reports that the plan does not hold together at a place of a tree.
func (b *builder) broken(path string) {
	b.steps.Findings.Add(issue.Block, BadPlan, []string{b.id(path)}, b.sheet+1)
}
