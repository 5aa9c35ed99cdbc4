package planner

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/work"
)

// A rest is what is still to be made, and what there is to make it from.
type rest struct {
	job  nest.Job
	past work.Past
	// flaws are rectangles not to be used, each on the stock named.
	flaws []mark.Piece
	// sketch is the plan in use for what is not cut, and the job it is for.
	sketch    nest.Plan
	sketchJob nest.Job

	// again lists, by letter, the parts that are there at another size: they
	// are made again.
	again []string
	names map[string]bool
	h     *held
}

// rest takes from a job what is made already, under this plan or one before it,
// and offers it the pieces that exist besides new stock. The order of parts and
// the index of each stay.
func (p *Planner) rest(job nest.Job) rest {
	h, old, plan := p.held, p.held.Job, p.held.plan
	r := rest{job: job, past: h.Past, names: map[string]bool{}, h: h}
	r.job.Parts, r.job.Stock = slices.Clone(job.Parts), nil
	if r.past.Spent = maps.Clone(h.Spent); r.past.Spent == nil {
		r.past.Spent = map[string]int{}
	}
	for _, s := range job.Stock {
		r.names[s.ID] = true
	}

	// What no cut of this plan touches keeps its name: pieces of earlier plans.
	begun := make([]int, len(old.Stock))
	sheets := make([]bool, len(plan.Sheets))
	lying := work.LyingNow(old, plan, p.out.Steps, p.out.stands)
	for _, l := range lying {
		at := plan.Sheets[l.Sheet].Stock
		if (l.By != "" || old.Stock[at].AtShop && len(p.flawsOn(l)) > 0) && !sheets[l.Sheet] {
			sheets[l.Sheet] = true
			begun[at]++
		}
	}
	for i, s := range old.Stock {
		switch {
		case strings.Contains(s.ID, work.BadCorner): // spent since it is known
		case !h.isPiece(i):
			r.past.Spent[base(s.ID)] += begun[i]
		case s.Count > begun[i]:
			s.Count -= begun[i]
			r.keep(s, s.ID, h.flawsOf(s.ID))
		}
	}
	for i, n := range h.before() {
		q, good := old.Parts[i], max(0, n-work.MostEarlier)
		keep := func(l, w measure.Length, n int) {
			r.keep(nest.Stock{Material: q.Material, L: l, W: w, Count: min(n, 99), Grain: q.Grain, AtShop: true}, "old "+h.Lines[i].Tag, nil)
		}
		for k := range min(n, work.MostEarlier) {
			m := h.earlier(i, k)
			if p.out.stands.AsCut(m) {
				good++
				continue
			}
			r.again = append(r.again, h.Lines[i].Tag)
			if l, w := p.out.stands.Size(m); !p.out.stands.Spoilt(m) {
				keep(l, w, 1)
			}
		}
		for ; good > 0 && takeOne(r.job.Parts, q, i); good-- {
		}
		keep(q.L, q.W, good)
	}
	type sketched struct {
		stock string
		root  *nest.Node
	}
	var sketch []sketched
	for _, l := range lying {
		at := plan.Sheets[l.Sheet].Stock
		s, flaws := old.Stock[at], p.flawsOn(l)
		switch {
		case !sheets[l.Sheet] && (s.AtShop || len(flaws) == 0): // it is stock like any other
			sketch = append(sketch, sketched{s.ID, plan.Sheets[l.Sheet].Root})
			continue
		case !sheets[l.Sheet]: // a new sheet that is not perfect
			if s.Count, s.Off = 1, [4]measure.Length{}; !strings.Contains(s.ID, work.BadCorner) {
				r.past.Spent[s.ID]++ // it is here, so it is paid for
			}
			s.Price = 0
			id := r.keep(s, base(s.ID)+work.BadCorner, flaws)
			sketch = append(sketch, sketched{id, plan.Sheets[l.Sheet].Root})
			continue
		case l.Is == work.ToWaste || l.Is == work.ToPart && l.L == l.Piece.L && l.W == l.Piece.W &&
			takeOne(r.job.Parts, old.Parts[l.Line], l.Line):
			continue
		}
		name := l.Piece.Name
		switch {
		case l.By == "":
			name = s.ID
		case l.Is == work.ToPart:
			r.again = append(r.again, name)
			name = "old " + name
		}
		s.L, s.W, s.Price, s.Count, s.Trim, s.Off, s.AtShop = l.L, l.W, 0, 1, 0, l.Off, true
		id := r.keep(s, name, flaws)
		if root := p.out.Steps.Under(l.Piece); root != nil && id != "" {
			n := *root
			n.L, n.W = l.L-l.Off[0]-l.Off[1], l.W-l.Off[2]-l.Off[3]
			sketch = append(sketch, sketched{id, &n})
		}
	}
	for i, st := range old.Stock { // flawed sheets that this plan does not use
		if flaws := h.flawsOf(st.ID); len(flaws) > 0 && !st.AtShop && !slices.ContainsFunc(plan.Sheets, func(s nest.Layout) bool { return s.Stock == i }) {
			r.keep(st, st.ID, flaws)
		}
	}
	r.past.Pieces = len(r.job.Stock)
	fresh := slices.Clone(job.Stock)
	for j := range fresh {
		if s := &fresh[j]; s.Count > 0 {
			s.Count = max(0, s.Count-r.past.Spent[s.ID])
		}
	}
	r.job.Stock = append(r.job.Stock, fresh...)

	for n, list := range [][]work.Stand{p.out.stands.Store, p.out.stands.Shop} {
		for _, s := range list {
			if s.Done {
				*[]*int{&r.past.StoreCuts, &r.past.ShopCuts}[n]++
			}
		}
	}
	n := h.Rough
	for _, x := range p.out.Steps.Rough {
		if !x.AtShop {
			n++
			if sheets[x.Sheet] {
				r.past.Rough = n
			}
		}
	}
	r.job.Store.FreeCuts = max(0, job.Store.FreeCuts-r.past.StoreCuts)

	r.sketchJob = r.job
	r.sketchJob.Parts = old.Parts
	for _, s := range sketch {
		if i := slices.IndexFunc(r.job.Stock, func(t nest.Stock) bool { return t.ID == s.stock }); i >= 0 {
			r.sketch.Sheets = append(r.sketch.Sheets, nest.Layout{Stock: i, Root: s.root})
		}
	}
	return r
}

// keep lists stock under a name that nothing else has, with its flaws. It
// returns the name, "" if there is nothing to keep.
func (r *rest) keep(s nest.Stock, name string, flaws []mark.Piece) string {
	if s.L <= s.Off[0]+s.Off[1]+2*s.Trim || s.W <= s.Off[2]+s.Off[3]+2*s.Trim || s.Count <= 0 {
		return ""
	}
	if name == "" {
		name = "keep"
	}
	if r.names[name] && !strings.HasPrefix(name, "keep") && !strings.Contains(name, work.BadCorner) {
		name = "rest of " + name
	}
	s.ID = name
	for n := 2; r.names[s.ID]; n++ {
		s.ID = name + " " + strconv.Itoa(n)
	}
	r.names[s.ID] = true
	for _, f := range flaws {
		f.Name, f.Sheet = s.ID, 0
		r.flaws = append(r.flaws, f)
	}
	r.job.Stock = append(r.job.Stock, s)
	return s.ID
}

// left reports whether anything is still to be made.
func (r *rest) left() bool {
	return slices.ContainsFunc(r.job.Parts, func(q nest.Part) bool { return q.Count > 0 })
}

// around returns the job with every flaw but skip kept clear of: the strip
// along one of the two nearest edges is not used. Bit i of way says which for
// flaw i.
func (r *rest) around(way, skip int) nest.Job {
	job := r.job
	job.Stock = slices.Clone(job.Stock)
	for i, f := range r.flaws {
		for j := range job.Stock {
			s := &job.Stock[j]
			if s.ID != f.Name || i == skip {
				continue
			}
			e, lo, hi := 0, f.X+f.L, s.L-f.X
			if way>>i&1 != 0 {
				e, lo, hi = 2, f.Y+f.W, s.W-f.Y
			}
			if hi < lo {
				e, lo = e+1, hi
			}
			s.Off[e] = max(s.Off[e], s.Trim, lo)
		}
	}
	return job
}

// parted returns the job with every flaw kept clear of, but i, round which its
// stock can be parted, first along dir, if the stock is at the shop or fits the
// car as it is.
func (r *rest) parted(way, i int, dir nest.Dir) (nest.Job, nest.Split) {
	job, f := r.around(way, i), r.flaws[i]
	at := slices.IndexFunc(job.Stock, func(s nest.Stock) bool { return s.ID == f.Name })
	if at < 0 || job.Stock[at].Count != 1 {
		return job, nest.Split{}
	}
	s := &job.Stock[at]
	fits := s.AtShop || len(job.Car) == 0
	for _, c := range job.Car {
		fits = fits || min(s.L, s.W) <= min(c.L, c.W) && max(s.L, s.W) <= max(c.L, c.W)
	}
	if s.AtShop = true; !fits || s.Price > 0 {
		return job, nest.Split{}
	}
	p := nest.Split{Stock: at, Dir: dir, Bad: nest.Size{L: f.X + f.L - job.EdgeOff(*s, 0), W: f.Y + f.W - job.EdgeOff(*s, 2)}}
	if l := s.L - f.X - job.EdgeOff(*s, 1); l < p.Bad.L {
		p.Right, p.Bad.L = true, l
	}
	if w := s.W - f.Y - job.EdgeOff(*s, 3); w < p.Bad.W {
		p.Low, p.Bad.W = true, w
	}
	return job, p
}

// base is the name of the kind of sheet that one with a flaw is.
func base(id string) string {
	id, _, _ = strings.Cut(id, work.BadCorner)
	return id
}

// flawsOn lists what must not be used of a piece, from its corner: as the plan
// knew when it was made, and as was found since.
func (p *Planner) flawsOn(l work.Lying) (out []mark.Piece) {
	s := p.held.Job.Stock[p.held.plan.Sheets[l.Sheet].Stock]
	add := func(f mark.Piece) {
		x, y := max(f.X, l.Piece.X), max(f.Y, l.Piece.Y)
		f.L, f.W = min(f.X+f.L, l.Piece.X+l.Piece.L)-x, min(f.Y+f.W, l.Piece.Y+l.Piece.W)-y
		if f.X, f.Y = x-l.Piece.X, y-l.Piece.Y; f.L > 0 && f.W > 0 {
			out = append(out, f)
		}
	}
	for _, f := range p.held.flawsOf(s.ID) {
		add(f)
	}
	for _, m := range p.newFlaws() {
		if m.Piece.Sheet == l.Sheet {
			add(*m.Piece)
		}
	}
	return out
}

// newFlaws lists what was found since the plan in use was made.
func (p *Planner) newFlaws() (out []mark.Mark) {
	for _, m := range p.out.state.Flaws {
		if p.held == nil || m.Plan != p.held.digest {
			continue
		}
		if s := m.Piece.Sheet; s >= 0 && s < len(p.held.plan.Sheets) && within(*m.Piece, p.held.Job.Stock[p.held.plan.Sheets[s].Stock]) {
			out = append(out, m)
		}
	}
	return out
}

// flawsOf lists the flaws that the plan knew of, of a stock.
func (h *held) flawsOf(stock string) (out []mark.Piece) {
	for _, f := range h.Flaws {
		for _, s := range h.Job.Stock {
			if f.Name == stock && s.ID == stock && within(f, s) {
				out = append(out, f)
			}
		}
	}
	return out
}

// within reports whether a flaw lies on its stock: a damaged file may hold
// anything.
func within(f mark.Piece, s nest.Stock) bool {
	return f.L > 0 && f.W > 0 && f.L <= s.L && f.W <= s.W && f.X >= 0 && f.Y >= 0 && f.X <= s.L-f.L && f.Y <= s.W-f.W
}

// isPiece reports whether stock of a held plan is what an earlier one left.
func (h *held) isPiece(i int) bool {
	s := h.Job.Stock[i]
	return s.AtShop && (i < h.Pieces || strings.HasPrefix(s.ID, "piece "))
}

// before counts for each line the parts that were made before this plan.
func (h *held) before() []int {
	out := make([]int, len(h.Job.Parts))
	for i, q := range h.Job.Parts {
		out[i] = max(0, h.Lines[i].Count-q.Count)
	}
	return out
}

// earlier is the kth part of a line that was made before this plan.
func (h *held) earlier(line, k int) mark.Piece {
	m := work.Earlier(line, k, h.Job.Parts[line].L, h.Job.Parts[line].W)
	m.Name = h.Lines[line].Tag
	return m
}

// takeOne takes a part that is made off the list of those to be made: off its
// own line if that still asks for it, else off any that asks for the same.
func takeOne(parts []nest.Part, made nest.Part, line int) bool {
	for k := range parts {
		q := &parts[(line+k)%len(parts)]
		if q.Count > 0 && q.Material == made.Material && q.L == made.L && q.W == made.W && q.Grain == made.Grain {
			q.Count--
			return true
		}
	}
	return false
}
