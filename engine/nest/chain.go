package nest

import (
	"slices"

	"cartwright/engine/measure"
)

// A run is a chain as one rectangle: its parts side by side.
type run struct {
	order  []int // indices of Job.Parts, once a piece
	alongW bool  // the parts lie side by side along their W, else along L
	l, w   measure.Length
	grain  Grain
}

// chainNames lists the chains of a job in the order of their first part.
func chainNames(job Job) []string {
	var names []string
	for _, q := range job.Parts {
		if q.Chain != "" && q.Count > 0 && !slices.Contains(names, q.Chain) {
			names = append(names, q.Chain)
		}
	}
	return names
}

func idsOf(job Job, chain string) []string {
	var ids []string
	for _, q := range job.Parts {
		if q.Chain == chain && q.Count > 0 {
			ids = append(ids, q.ID)
		}
	}
	return ids
}

// chainOf builds the run of a chain. ok is false if its parts cannot lie in
// one strip.
func chainOf(job Job, name string) (r run, ok bool) {
	sameL, sameW, first := true, true, -1
	for i, q := range job.Parts {
		if q.Chain != name || q.Count <= 0 {
			continue
		}
		if first < 0 {
			first = i
		}
		f := job.Parts[first]
		if q.Material != f.Material || q.Grain != f.Grain || !soundPart(q) {
			return r, false
		}
		sameL, sameW = sameL && q.L == f.L, sameW && q.W == f.W
		for range min(q.Count, MaxPieces) {
			r.order = append(r.order, i)
		}
	}
	if first < 0 || !sameL && !sameW {
		return r, false
	}
	slices.SortStableFunc(r.order, func(a, b int) int { return job.Parts[a].Link - job.Parts[b].Link })
	r.alongW, r.grain = sameL, job.Parts[first].Grain
	for n, i := range r.order {
		q := job.Parts[i]
		k := job.Kerf
		if n == 0 {
			k = 0
		}
		if r.alongW {
			r.l, r.w = q.L, r.w+q.W+k
		} else {
			r.l, r.w = r.l+q.L+k, q.W
		}
	}
	return r, true
}
