package nest

import (
	"slices"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

// Limits of a job that is planned at all.
const (
	// MaxSide bounds every length of a job: 100 m, so that a side with its
	// kerf fits 32 bits.
	MaxSide = 100 * measure.Metre
	// MaxPieces bounds the pieces of a job.
	MaxPieces = 10_000
	// MaxPrice bounds prices, so that no sum overflows.
	MaxPrice measure.Money = 1_000_000_000_00
)

// Check returns what stands in the way of planning job: sizes out of bounds,
// parts that fit no stock or whose piece fits no car, stock that cannot be
// brought home. [Search] lists the parts concerned as left and plans the
// rest.
func Check(job Job) issue.List {
	var found issue.List
	sound := checkFigures(job, &found)
	checkIDs(job, &found)
	_ = checkPieces(job, &found)
	if !sound {
		found.Sort()
		return found
	}
	for _, s := range job.Stock {
		if soundStock(s) && s.Count != 0 && !s.AtShop && len(patternsOf(job, s)) == 0 {
			found.Add(issue.Warn, NoCut, []string{s.ID}, s.L, s.W, job.Store.Cuts)
		}
	}
	for _, name := range chainNames(job) {
		if _, ok := chainOf(job, name); !ok {
			found.Add(issue.Block, BadChain, idsOf(job, name), name)
		}
	}
	for i, q := range job.Parts {
		if q.Count <= 0 || !soundPart(q) {
			continue
		}
		if k := job.Kerf; k > min(q.L, q.W) {
			found.Add(issue.Warn, WideKerf, []string{q.ID}, k, min(q.L, q.W))
		}
		checkPart(job, i, &found)
	}
	found.Sort()
	return found
}

// checkFigures reports whether kerfs, trims and store prices are sound.
func checkFigures(job Job, found *issue.List) bool {
	n := len(*found)
	for _, k := range []struct {
		name string
		v    measure.Length
	}{
		{"kerf", job.Kerf}, {"store kerf", job.Store.Kerf}, {"store trim", job.Store.Trim},
		{"factory trim", job.FactoryTrim}, {"least strip", job.Store.Least},
	} {
		if k.v < 0 || k.v > MaxSide {
			found.Add(issue.Block, BadKerf, nil, k.v, k.name)
		}
	}
	if p := job.Store.Price; p < 0 || p > MaxPrice {
		found.Add(issue.Block, BadPrice, nil, p)
	}
	return len(*found) == n
}

func checkIDs(job Job, found *issue.List) {
	seen := map[string]bool{}
	for _, s := range job.Stock {
		if s.ID == "" || seen[s.ID] {
			found.Add(issue.Block, SameID, []string{s.ID}, s.ID)
		}
		seen[s.ID] = true
		if s.L <= 0 || s.W <= 0 || s.L > MaxSide || s.W > MaxSide || !soundEdges(s) {
			found.Add(issue.Block, BadSize, []string{s.ID}, s.L, s.W)
		}
		if s.Price < 0 || s.Price > MaxPrice {
			found.Add(issue.Block, BadPrice, []string{s.ID}, s.Price)
		}
	}
	clear(seen)
	for _, q := range job.Parts {
		if q.ID == "" || seen[q.ID] {
			found.Add(issue.Block, SameID, []string{q.ID}, q.ID)
		}
		seen[q.ID] = true
		if q.L <= 0 || q.W <= 0 || q.L > MaxSide || q.W > MaxSide {
			found.Add(issue.Block, BadSize, []string{q.ID}, q.L, q.W)
		}
	}
}

// checkPieces reports whether the number of pieces is sound.
func checkPieces(job Job, found *issue.List) bool {
	n, ok := 0, true
	for _, q := range job.Parts {
		if q.Count < 0 {
			ok = false
			found.Add(issue.Block, BadCount, []string{q.ID}, q.Count, MaxPieces)
			continue
		}
		n = min(n+min(q.Count, MaxPieces+1), MaxPieces+1)
	}
	if n > MaxPieces {
		found.Add(issue.Block, BadCount, nil, n, MaxPieces)
		return false
	}
	return ok
}

// soundJob reports whether job can be planned at all.
func soundJob(job Job) bool {
	var none issue.List
	return checkFigures(job, &none) && checkPieces(job, &none) || onlyNegative(job, none)
}

// onlyNegative reports whether nothing but negative counts is wrong; such
// parts are planned as none.
func onlyNegative(job Job, l issue.List) bool {
	for _, f := range l {
		if f.Code != BadCount || len(f.Where) == 0 {
			return false
		}
	}
	return true
}

func soundPart(q Part) bool {
	return q.L > 0 && q.W > 0 && q.L <= MaxSide && q.W <= MaxSide
}

func soundStock(s Stock) bool {
	return s.L > 0 && s.W > 0 && s.L <= MaxSide && s.W <= MaxSide && soundEdges(s) &&
		s.Price >= 0 && s.Price <= MaxPrice
}

func soundEdges(s Stock) bool {
	ok := s.Trim >= 0 && s.Trim <= MaxSide
	for _, off := range s.Off {
		ok = ok && off >= 0 && off <= MaxSide
	}
	return ok
}

// checkPart finds out whether part i fits anything.
func checkPart(job Job, i int, found *issue.List) {
	q := job.Parts[i]
	any, fitsStock, fitsPiece := false, false, false
	var largest Size
	for _, s := range job.Stock {
		if s.Material != q.Material || s.Count == 0 || !soundStock(s) {
			continue
		}
		any = true
		l, w := usable(s)
		if l > 0 && w > 0 && l.Times(w) > largest.L.Times(largest.W) {
			largest = Size{l, w}
		}
		for _, rot := range turns(q.L, q.W, q.Grain, s.Grain) {
			pl, pw := q.L, q.W
			if rot {
				pl, pw = pw, pl
			}
			if pl > l || pw > w {
				continue
			}
			fitsStock = true
			for _, p := range patternsOf(job, s) {
				fitsPiece = fitsPiece || p.holds(pl+job.Kerf, pw+job.Kerf)
			}
			fitsPiece = fitsPiece || !s.AtShop && patternFor(job, s, pl, pw) != nil
		}
	}
	switch {
	case !any:
		found.Add(issue.Block, NoStock, []string{q.ID}, q.Material)
	case !fitsStock:
		found.Add(issue.Block, TooLarge, []string{q.ID}, q.L, q.W, largest.L, largest.W)
	case !fitsPiece:
		var car Size
		for _, c := range job.Car {
			if c.L > 0 && c.W > 0 && (car.L == 0 || float64(c.L)*float64(c.W) > float64(car.L)*float64(car.W)) {
				car = c
			}
		}
		found.Add(issue.Block, NoCar, []string{q.ID}, q.L, q.W, car.L, car.W, job.Store.Trim)
	}
}

// usable is the stock's size less its own trim.
func usable(s Stock) (l, w measure.Length) {
	if s.AtShop {
		return s.L - max(s.Trim, s.Off[0]) - max(s.Trim, s.Off[1]), s.W - max(s.Trim, s.Off[2]) - max(s.Trim, s.Off[3])
	}
	return s.L, s.W
}

// turns lists the ways a part may lie on a stock: false as given, true
// turned. A square without grain has one.
func turns(l, w measure.Length, part, stock Grain) []bool {
	switch {
	case part == Free || stock == Free:
		if l == w {
			return []bool{false}
		}
		return []bool{false, true}
	case part == stock:
		return []bool{false}
	default:
		return []bool{true}
	}
}

// Short returns what a plan leaves undone: a finding for each part of which
// pieces found no place although they fit, since the stock ran out. Parts
// that fit nothing are [Check]'s business.
func Short(job Job, p Plan) issue.List {
	var found issue.List
	blocked := Check(job)
	left := make([]int, len(job.Parts))
	for _, i := range p.Left {
		left[i]++
	}
	for i, n := range left {
		known := slices.ContainsFunc(blocked, func(f issue.Finding) bool {
			return f.Level == issue.Block && (len(f.Where) == 0 || slices.Contains(f.Where, job.Parts[i].ID))
		})
		if n > 0 && !known {
			found.Add(issue.Block, ShortStock, []string{job.Parts[i].ID}, n, job.Parts[i].Count)
		}
	}
	return found
}
