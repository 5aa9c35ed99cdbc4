package page

import (
	"strconv"

	"cartwright/engine/check"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// cardNotes stand under the cuts of a store card: what to write on the pieces,
// what must not be turned, what the cuts cost, what it weighs.
func (b *builder) cardNotes(sheet int, names string, cuts int) node {
	st := b.Job.Stock[b.Plan.Sheets[sheet].Stock]
	turn := "Lay the sheet as drawn. Each measure is from the edge named, not from the last cut."
	if st.Grain != nest.Free {
		turn = "The grain runs as the arrows say: do not turn a piece before the next cut. Each measure is from the edge named."
	}
	kg := b.kg(st, st.L, st.W)
	most := 0.0
	for _, r := range b.Steps.Rough {
		if r.Sheet == sheet {
			most = max(most, b.kg(st, r.Piece.L, r.Piece.W))
		}
	}
	weigh := "About " + b.heavy(kg) + " the sheet"
	if kg > 23 { // 51 lb, the most for one person by NIOSH publication 94-110
		weigh += ": two people"
	}
	weigh += "; the heaviest piece " + b.heavy(most) + "."
	note := func(head, say string) node { return div("", el("p", el("b", text(head))), el("p", rich(say))) }
	return div("notes", note("Please write on each piece", names+", and an arrow along the grain."),
		note("Not to be turned", turn), note("Cuts and cost", b.cutCost(sheet, cuts)), note("Weight", weigh))
}

// cutCost is what the store takes for the cuts of one sheet, after those of
// the sheets before it have used up the free ones.
func (b *builder) cutCost(sheet, cuts int) string {
	before := 0
	for i := range sheet {
		before += b.storeCuts(i)
	}
	free := b.Job.Store.FreeCuts
	paid := max(0, before+cuts-free) - max(0, before-free)
	s := count(cuts, "cut", "cuts")
	switch {
	case paid == 0:
		return s + ", free of charge."
	case paid < cuts:
		s += ", " + strconv.Itoa(cuts-paid) + " free"
	}
	return s + ": " + b.money(measure.Money(paid)*b.Job.Store.Price) + "."
}

// kg is what a piece of stock weighs.
func (b *builder) kg(st nest.Stock, l, w measure.Length) float64 {
	m, _ := b.Project.Material(st.Material)
	rho, _ := check.Density(m)
	return l.Metres() * w.Metres() * m.Thick().Metres() * rho
}

// heavy is a weight to the whole pound or kilogram: densities vary by 15 %.
func (b *builder) heavy(kg float64) string {
	unit := measure.Kilogram
	if !b.t.Metric {
		unit = measure.Pound
	}
	n := int((measure.FromKg(kg) + unit/2) / unit)
	return strconv.Itoa(n) + " " + b.t.MassUnit()
}
