package nest

// mend builds a draft from the plan that was made for job old: each sheet
// keeps its store cuts and the order of its shop cuts, with the sizes that
// the parts have now. What has no room any more, or is new, is put where it
// fits. It becomes the champion unless that is the better draft.
func (h *hunt) mend(old *Job, p *Plan) {
	d := h.blank()
	h.start(&d)
	m := mending{hunt: h, old: old, kinds: map[string]int32{}, seen: map[string]bool{}}
	for i := range h.kinds {
		c := &h.kinds[i]
		if c.run != nil {
			m.kinds["chain "+h.job.Parts[c.run.order[0]].Chain] = int32(i)
			continue
		}
		for _, q := range c.parts {
			m.kinds["part "+h.job.Parts[q].ID] = int32(i)
		}
	}
	for _, s := range p.Sheets {
		if s.Stock >= 0 && s.Stock < len(old.Stock) && s.Root != nil {
			m.sheet(old.Stock[s.Stock], s.Root)
		}
	}
	h.refresh()
	h.collect()
	h.blink, h.taste, h.even, h.local = 0, likesArea, false, false
	h.recreate(&unlimited)
	h.settle()
	if h.before(&h.champ, &h.cand) {
		return
	}
	h.hold(&h.champ, &h.cand)
}

// A mending reads an old plan into a hunt.
type mending struct {
	*hunt
	old   *Job
	kinds map[string]int32 // by part or chain
	seen  map[string]bool  // chains laid
	src   sheet            // the tree at hand, with today's sizes
	fresh []int32          // twigs of src whose part has another size now
	items []int32          // all its pieces
}

func (m *mending) sheet(st Stock, root *Node) {
	for j := range m.shelf {
		s := &m.shelf[j]
		now := s.yard.stock
		if now.ID != st.ID || now.AtShop != st.AtShop || now.Material != st.Material {
			continue
		}
		l, w := usable(now)
		if root.L != l || root.W != w || s.count >= 0 && int(m.cand.used[j]) >= s.count {
			return
		}
		var leaves []*Node
		p, ok := s.yard.finish(m.block(root, &leaves, 0))
		if !ok {
			return
		}
		m.lay(int32(j), p, leaves)
		return
	}
}

// block reads the store's part of a tree, and lists what lies on its leaves.
func (m *mending) block(n *Node, leaves *[]*Node, depth int) block {
	b := block{l: n.L, w: n.W, dir: n.Dir, leaf: -1}
	if n.Kind == Cut && n.Tier == StoreTier && depth < deepest {
		for _, kid := range n.Kids {
			if kid != nil {
				b.kids = append(b.kids, m.block(kid, leaves, depth+1))
			}
		}
		return b
	}
	if n.Kind == Trim && n.Core != nil {
		n = n.Core
	}
	*leaves = append(*leaves, n)
	return b
}

// lay opens a sheet of shelf j and lays the old leaves on it as far as they
// fit.
func (m *mending) lay(j int32, p *pattern, leaves []*Node) {
	h := m.hunt
	m.src.reset(j, p)
	m.items, m.fresh = m.items[:0], m.fresh[:0]
	at := 0
	for _, b := range p.tree {
		if b.kids == 0 {
			if b.leaf >= 0 {
				m.tree(b.leaf, -1, leaves[at], 0)
			}
			at++
		}
	}
	h.form.size(len(m.src.twigs))
	for i := range p.leaves {
		m.fit(int32(i), p.leaves[i])
	}
	i := h.open(j, p)
	h.form.lay(&h.pool[h.cand.sheets[i]], &m.src, p, h.cand.out)
}

// tree reads node n into src: as leaf i if up is below zero, else as a kid of
// twig up.
func (m *mending) tree(i, up int32, n *Node, depth int) {
	if n == nil || depth > deepest {
		return
	}
	s := &m.src
	put := func(w, h, what int32) int32 {
		if up < 0 {
			s.twigs[i].what = what
			return i
		}
		k := s.take(w, h, what, up)
		s.link(up, k)
		return k
	}
	switch n.Kind {
	case Piece:
		k, w, h, ok := m.piece(n)
		if !ok {
			return
		}
		if up < 0 { // a cut node of its own, so that the size of the leaf stays
			s.twigs[i].what = cutX
			up = i
		}
		t := put(w, h, k)
		m.items = append(m.items, t)
		if q := m.old.Parts[n.Part]; m.kinds["part "+q.ID] != k || !m.sameSize(n, w, h) {
			m.fresh = append(m.fresh, t)
		}
	case Cut:
		dir := cutX
		if n.Dir == Y {
			dir = cutY
		}
		c := up
		if up < 0 || s.twigs[up].what != dir {
			c = put(0, 0, dir)
		}
		for _, kid := range n.Kids {
			m.tree(-1, c, kid, depth+1)
		}
		if s.twigs[c].kid < 0 && c != up {
			if up < 0 {
				s.twigs[i].what = empty
			} else {
				s.unlink(c)
				s.drop(c)
			}
		}
	}
}

func (m *mending) sameSize(n *Node, w, h int32) bool {
	k := m.job.Kerf
	return int32(n.L+k) == w && int32(n.W+k) == h
}

// piece finds what piece n is in today's job and takes it off what waits.
func (m *mending) piece(n *Node) (k, w, h int32, ok bool) {
	if n.Part < 0 || n.Part >= len(m.old.Parts) {
		return 0, 0, 0, false
	}
	q := m.old.Parts[n.Part]
	name := "part " + q.ID
	if q.Chain != "" {
		name = "chain " + q.Chain
		if m.seen[name] {
			return 0, 0, 0, false
		}
	}
	k, ok = m.kinds[name]
	if !ok || m.cand.out[k] == 0 {
		return 0, 0, 0, false
	}
	c := &m.hunt.kinds[k]
	w, h = c.w, c.h
	way := uint8(asGiven)
	if n.Rot && w != h {
		w, h, way = h, w, turned
	}
	if lie := m.lie[int(k)*len(m.shelf)+int(m.src.shelf)]; w != h && lie&way == 0 {
		if lie == 0 {
			return 0, 0, 0, false
		}
		w, h = h, w
	}
	m.seen[name] = q.Chain != ""
	m.cand.out[k]--
	return k, w, h, true
}

// fit takes pieces off leaf i of src until it needs no more than b: first
// those that have changed, the last laid first.
func (m *mending) fit(i int32, b box) {
	for m.src.twigs[i].what != empty {
		w, h := m.form.measure(&m.src, i)
		if w <= b.w && h <= b.h {
			return
		}
		if !m.dropFrom(i, &m.fresh) && !m.dropFrom(i, &m.items) {
			return
		}
	}
}

// dropFrom takes the last of the listed pieces that lies on leaf i off it.
func (m *mending) dropFrom(i int32, list *[]int32) bool {
	s := &m.src
	for n := len(*list) - 1; n >= 0; n-- {
		t := (*list)[n]
		if s.twigs[t].what < 0 || m.leafOf(t) != i {
			continue
		}
		*list = append((*list)[:n], (*list)[n+1:]...)
		m.cand.out[s.twigs[t].what]++
		for up := s.twigs[t].up; ; t, up = up, s.twigs[up].up {
			s.unlink(t)
			s.twigs[t].what = unused // not taken again: lists may name it
			if s.twigs[up].kid >= 0 {
				return true
			}
			if s.twigs[up].up < 0 {
				s.twigs[up].what = empty
				return true
			}
		}
	}
	return false
}

func (m *mending) leafOf(t int32) int32 {
	for m.src.twigs[t].up >= 0 {
		t = m.src.twigs[t].up
	}
	return t
}
