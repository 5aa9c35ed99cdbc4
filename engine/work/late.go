package work

import "cartwright/engine/nest"

// lates says of each pass whether it waits until the case is measured: it takes
// wood that a part may need, and no part hangs on it but those with a reserve;
// or it comes after such a pass.
func (b *builder) lates() {
	index := map[string]int{}
	for i := range b.shop {
		index[b.shop[i].ID] = i
	}
	early := make([]bool, len(b.shop))
	for _, e := range b.steps.Ends {
		i, ok := index[e.By]
		if !ok || e.Is != ToPart {
			continue
		}
		for is := b.isLate(e.Line); i >= 0; i = b.shop[i].prev {
			b.shop[i].Late = is && b.shop[i].fixes || b.shop[i].Late
			early[i] = early[i] || !is
		}
	}
	for i := range b.shop {
		b.shop[i].Late = b.shop[i].Late && !early[i]
	}
	for i := range b.shop { // what is cut off a piece after that, an offcut say, waits as well
		for j := b.shop[i].prev; j >= 0 && !b.shop[i].Late; j = b.shop[j].prev {
			b.shop[i].Late = b.shop[j].Late
		}
	}
}

func (b *builder) isLate(line int) bool {
	return line >= 0 && line < len(b.job.Parts) && b.job.Parts[line].Reserve != nest.Size{}
}

// waitsAt reports whether n ends with what waits at its high end, or at its low
// one, and begins with what does not.
func (b *builder) waitsAt(n *nest.Node, high bool) bool {
	first, last := 0, len(n.Kids)-1
	for last > 0 && scrap(n.Kids[last]) {
		last--
	}
	for first < last && scrap(n.Kids[first]) {
		first++
	}
	if !high {
		first, last = last, first
	}
	return first != last && b.job.Waits(n.Kids[last], n.Dir) && !b.job.Waits(n.Kids[first], n.Dir)
}

// HeldBack counts for each line the parts that are measured late and not yet
// cut, and those of them whose reserve is there when all cuts are made but
// those that wait.
func HeldBack(job nest.Job, plan nest.Plan, steps Steps, now Standing) (left, held []int) {
	left, held = make([]int, len(job.Parts)), make([]int, len(job.Parts))
	then := Standing{Store: make([]Stand, len(steps.Store)), Shop: make([]Stand, len(steps.Shop))}
	for i := range then.Store {
		then.Store[i].Done = true
	}
	made := map[string]bool{}
	for i, c := range steps.Shop {
		made[c.ID] = i < len(now.Shop) && now.Shop[i].Done
		then.Shop[i].Done = !c.Late || made[c.ID]
	}
	for _, e := range steps.Ends {
		if e.Is == ToPart && !made[e.By] && (job.Parts[e.Line].Reserve != nest.Size{}) {
			left[e.Line]++
		}
	}
	for _, l := range LyingNow(job, plan, steps, then) {
		root := steps.Under(l.Piece)
		if root != nil && nest.Holds(job, root, l.L-l.Off[0]-l.Off[1], l.W-l.Off[2]-l.Off[3]) {
			tally(root, held)
		}
	}
	return left, held
}

// tally adds the pieces of n to those of their lines.
func tally(n *nest.Node, out []int) {
	if n.Kind == nest.Piece {
		out[n.Part]++
	}
	for _, k := range n.Kids {
		tally(k, out)
	}
}
