package work

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
	"cartwright/engine/stock"
)

// Shop lists what to buy for a plan: sheets and boards, then hardware; what is
// at home is taken off. Offcuts at home are listed with nothing to pay.
func Shop(p *project.Project, c design.Cart, job nest.Job, plan nest.Plan) Shopping {
	var s Shopping
	t := p.Measure()
	used := make([]int, len(job.Stock))
	cuts := 0
	for _, sh := range plan.Sheets {
		if sh.Stock >= 0 && sh.Stock < len(used) {
			used[sh.Stock]++
		}
		cuts += storeCuts(sh.Root, job.Store.Kerf)
	}
	for i, n := range used {
		if n == 0 {
			continue
		}
		st := job.Stock[i]
		name, why := st.Material, times(n, "sheet", "sheets")+" in the plan"
		if slices.ContainsFunc(p.Stock.Boards, func(b project.Board) bool { return b.ID == st.ID }) {
			why = times(n, "board", "boards") + " in the plan"
		}
		m, ok := p.Material(st.Material)
		if ok && m.Name != "" {
			name = m.Name
		}
		if m.Kind == "solid" && !t.Metric {
			why += ", " + strconv.FormatFloat(stock.BoardFeet(m.Nominal, st.W, st.L, n), 'f', 1, 64) + " board feet as sized"
		}
		name += ", " + t.Show(st.L) + " × " + t.Show(st.W) + " " + t.Unit()
		row := Buy{ID: st.ID, Name: name, Count: n, Price: st.Price, Total: measure.Money(n) * st.Price, Why: why}
		switch {
		case st.AtShop && st.Price == 0:
			row.Home, row.Count, row.Why = n, 0, "offcut at home: "+st.ID
		case st.Price == 0:
			row.NoPrice = true
		}
		s.Rows = append(s.Rows, row)
	}
	home := map[string]int{} // of a thing that comes in several sizes, what is not used up
	for _, h := range supplies(p, c) {
		row := Buy{ID: h.ID, Name: h.Name, Count: h.Count, Why: h.Why, NoPrice: true}
		base, _, _ := strings.Cut(h.ID, "/")
		for _, k := range p.Stock.Hardware {
			if k.ID != base {
				continue
			}
			if _, ok := home[base]; !ok {
				home[base] = k.AtHome
			}
			pack := max(k.Pack, 1)
			row.Home = min(home[base], h.Count)
			home[base] -= row.Home
			need := h.Count - row.Home
			row.Count = (need + pack - 1) / pack
			if pack > 1 {
				row.Why = strconv.Itoa(h.Count) + " needed, " + strconv.Itoa(pack) + " in a pack: " + h.Why
			}
			if h.ID != "slides" && !sized(h.ID) { // those say their length
				row.Name = cmp.Or(k.Name, h.Name)
			}
			row.Price, row.Total = k.Price, measure.Money(row.Count)*k.Price
			row.NoPrice = k.Price == 0 && row.Count > 0
			break
		}
		s.Rows = append(s.Rows, row)
	}
	if paid := cuts - job.Store.FreeCuts; paid > 0 {
		s.StoreCut = measure.Money(paid) * job.Store.Price
	}
	if p.Car.Delivered {
		s.Delivery = p.Car.Delivery
	}
	s.Total = s.StoreCut + s.Delivery
	for _, r := range s.Rows {
		s.Total += r.Total
		if r.NoPrice && r.Count > 0 {
			s.Unpriced++
		}
	}
	return s
}

// sized reports whether a thing is counted by its size, which the project's
// name for it does not know.
func sized(id string) bool {
	return strings.HasPrefix(id, "pocket-screw") || strings.HasPrefix(id, "wood-screw") || strings.HasPrefix(id, "front-screw") || strings.HasPrefix(id, "pin")
}

// storeCuts counts the passes of the store's saw in a tree.
func storeCuts(n *nest.Node, kerf measure.Length) int {
	if n == nil || n.Kind != nest.Cut || n.Tier != nest.StoreTier {
		return 0
	}
	cuts := len(n.Kids) - 1
	size, sum := n.L, kerf*measure.Length(cuts)
	if n.Dir == nest.Y {
		size = n.W
	}
	for _, k := range n.Kids {
		d := k.L
		if n.Dir == nest.Y {
			d = k.W
		}
		sum += d
	}
	if sum < size { // the last pass runs off the edge
		cuts++
	}
	for _, k := range n.Kids {
		cuts += storeCuts(k, kerf)
	}
	return cuts
}

func times(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
