package work

import (
	"strconv"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// A Cover says whether a part could be spoiled once.
type Cover struct {
	Line int
	Cut  string // ID of the cut that frees it
	// Kept: what is left when all is cut, waste included, has room for another, whenever it is
	// spoiled.
	Kept bool
	// Early: it can still be made, with all that is not yet cut, from what
	// lies there when this cut is made in its order.
	Early bool
}

// Insured reports whether the part could be spoiled once.
func (c Cover) Insured() bool { return c.Kept || c.Early }

// An Insurance is what a plan has in hand. Each part that counts as insured was
// proven so by a plan that [nest.Verify] accepts.
type Insurance struct {
	Covers []Cover // of each part still to be cut, in the order of the saw
}

// insureTries is how long a plan without a part is searched.
const insureTries = 600

// Insure finds what a plan has in hand, for cuts made in order; done says
// which cuts are made already. The answer is a function of what it is given.
func Insure(job nest.Job, plan nest.Plan, steps Steps, done []bool) (in Insurance) {
	at := map[string]int{}
	for i, c := range steps.Shop {
		at[c.ID] = i
	}
	u := underwriter{job: job, plan: plan, steps: steps, done: done}
	u.least = 1 << 40
	for _, q := range job.Parts {
		u.least = min(u.least, q.L-1, q.W-1)
	}
	seen := make([]Cover, len(job.Parts)) // what is kept is the same for all of a line
	known := make([]bool, len(job.Parts))
	ends := make([][]End, len(steps.Shop)+1) // by the cut that frees them
	for _, e := range steps.Ends {
		k, ok := at[e.By]
		if !ok {
			k = -1
		}
		if e.Is == ToPart && e.Line < len(job.Parts) && !(ok && k < len(done) && done[k]) {
			ends[k+1] = append(ends[k+1], e)
		}
	}
	for k, list := range ends {
		for _, e := range list {
			if !known[e.Line] {
				known[e.Line], seen[e.Line] = true, Cover{Kept: u.kept(e.Line)}
			}
			c := Cover{Line: e.Line, Cut: e.By, Kept: seen[e.Line].Kept}
			c.Early = !c.Kept && u.still(k, e.Line)
			in.Covers = append(in.Covers, c)
		}
	}
	return in
}

// An underwriter tries what a mistake would cost.
type underwriter struct {
	job   nest.Job
	plan  nest.Plan
	steps Steps
	done  []bool
	least measure.Length // what is no wider serves for no part
}

// kept reports whether a part of the line, with its chain, fits what is left
// when all is cut.
func (u *underwriter) kept(line int) bool {
	job := u.like()
	u.need(&job, line, 1)
	for _, e := range u.steps.Ends {
		if e.Is != ToPart && e.Rough >= 0 {
			u.offer(&job, e.Piece, edgesOff(u.job, u.plan, u.steps, e.Piece))
		}
	}
	u.atHome(&job)
	return whole(job, nest.Options{Tries: 50})
}

// still reports whether all can be made if a part of the line is spoiled, when
// k shop cuts are made in order, besides those made already.
func (u *underwriter) still(k, line int) bool {
	now := Standing{Store: make([]Stand, len(u.steps.Store)), Shop: make([]Stand, len(u.steps.Shop))}
	for i := range now.Store {
		now.Store[i].Done = true
	}
	for i := range now.Shop {
		now.Shop[i].Done = i < k || i < len(u.done) && u.done[i]
	}
	job := u.like()
	for i, q := range u.job.Parts {
		u.need(&job, i, q.Count)
	}
	stays := map[string]bool{} // waste of these stays at the store
	for _, c := range u.steps.Store {
		stays[c.ID] = true
	}
	var sketch nest.Plan
	for _, l := range LyingNow(u.job, u.plan, u.steps, now) {
		switch {
		case l.Is == ToPart && l.By != "":
			job.Parts[l.Line].Count--
		case l.Is == ToWaste && stays[l.By]:
		default:
			if root := u.steps.Under(l.Piece); u.offer(&job, l.Piece, l.Off) && root != nil {
				n := *root
				n.L, n.W = l.L-l.Off[0]-l.Off[1], l.W-l.Off[2]-l.Off[3]
				sketch.Sheets = append(sketch.Sheets, nest.Layout{Stock: len(job.Stock) - 1, Root: &n})
			}
		}
	}
	u.need(&job, line, job.Parts[line].Count+1)
	u.atHome(&job)
	return whole(job, nest.Options{Tries: insureTries, Previous: &sketch, Sketch: true})
}

// like is the job without parts and stock.
func (u *underwriter) like() nest.Job {
	job := u.job
	job.Parts, job.Stock = make([]nest.Part, len(u.job.Parts)), nil
	for i, q := range u.job.Parts {
		q.Count = 0
		job.Parts[i] = q
	}
	return job
}

// need asks for n parts of a line. Of a chain the whole is cut anew.
func (u *underwriter) need(job *nest.Job, line, n int) {
	job.Parts[line].Count = n
	if chain := u.job.Parts[line].Chain; chain != "" && n > 0 {
		for i, q := range u.job.Parts {
			if q.Chain == chain {
				job.Parts[i].Count = q.Count
			}
		}
	}
}

// offer makes a piece stock, if it is of use.
func (u *underwriter) offer(job *nest.Job, p mark.Piece, off [4]measure.Length) bool {
	s := u.job.Stock[u.plan.Sheets[p.Sheet].Stock]
	s.ID, s.L, s.W, s.Price, s.Count, s.Trim, s.Off, s.AtShop = strconv.Itoa(len(job.Stock)), p.L, p.W, 0, 1, 0, off, true
	ok := s.L-off[0]-off[1] > u.least && s.W-off[2]-off[3] > u.least
	if ok {
		job.Stock = append(job.Stock, s)
	}
	return ok
}

// atHome adds the offcuts that the plan leaves alone.
func (u *underwriter) atHome(job *nest.Job) {
	for i, s := range u.job.Stock {
		if !s.AtShop || s.Price > 0 {
			continue
		}
		for _, sh := range u.plan.Sheets {
			if sh.Stock == i {
				s.Count--
			}
		}
		if s.Count > 0 {
			s.ID = strconv.Itoa(len(job.Stock))
			job.Stock = append(job.Stock, s)
		}
	}
}

// whole reports whether a plan of all parts is found, and proven.
func whole(job nest.Job, o nest.Options) bool {
	for at := range nest.Search(job, o) {
		if at.Plan != nil && len(at.Plan.Left) == 0 {
			return len(nest.Verify(job, *at.Plan)) == 0
		}
	}
	return false
}
