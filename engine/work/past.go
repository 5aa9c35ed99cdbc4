package work

import (
	"strconv"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/project"
)

// BadCorner sets the name of a new sheet with a flaw apart from its kind. It is
// the user's already: counted in Past.Spent, and without a price.
const BadCorner = ", bad corner"

// A Past is what was done under plans before the one at hand.
type Past struct {
	// Spent counts the stock, by ID, that was cut into.
	Spent map[string]int `json:",omitempty"`
	// StoreCuts and ShopCuts are the cuts made.
	StoreCuts int `json:",omitempty"`
	ShopCuts  int `json:",omitempty"`
	// Rough is the highest number of a piece from the store: new ones go on.
	Rough int `json:",omitempty"`
	// Pieces counts the pieces they left: they stand first in the job's stock.
	Pieces int `json:",omitempty"`
}

// Before adds to the list what was bought under earlier plans, so that it is
// that of the whole project.
func (s *Shopping) Before(p *project.Project, plan nest.Plan, past Past) {
	t := p.Measure()
	for i := 0; i < len(s.Rows); i++ {
		if strings.Contains(s.Rows[i].ID, BadCorner) {
			if s.Rows[i].NoPrice {
				s.Unpriced--
			}
			s.Rows = append(s.Rows[:i], s.Rows[i+1:]...)
			i--
		}
	}
	add := func(id, material string, l, w measure.Length, price measure.Money) {
		n := past.Spent[id]
		if n == 0 {
			return
		}
		sum := measure.Money(n) * price
		s.Total += sum
		why := strconv.Itoa(n) + " here already"
		for i := range s.Rows {
			if r := &s.Rows[i]; r.ID == id {
				r.Count, r.Total, r.Why = r.Count+n, r.Total+sum, r.Why+"; "+why
				return
			}
		}
		name := material
		if m, ok := p.Material(material); ok && m.Name != "" {
			name = m.Name
		}
		s.Rows = append([]Buy{{ID: id, Name: name + ", " + t.Show(l) + " × " + t.Show(w) + " " + t.Unit(), Count: n,
			Price: price, Total: sum, Why: why, NoPrice: price == 0}}, s.Rows...)
	}
	for _, x := range p.Stock.Sheets {
		add(x.ID, x.Material, x.Length, x.Width, x.Price)
	}
	for _, x := range p.Stock.Boards {
		add(x.ID, x.Material, x.Length, x.Width, x.Price)
	}
	if past.StoreCuts > 0 {
		was := s.StoreCut
		s.StoreCut = measure.Money(max(0, plan.StoreCuts+past.StoreCuts-p.Store.FreeCuts)) * p.Store.Price
		s.Total += s.StoreCut - was
	}
}

// Under is a sketch of the cuts that the plan still has for a piece, without
// those that only take an edge off: nil if nothing useful comes of it. Sizes
// are those of the real pieces; see [nest.Options].
func (s *Steps) Under(p mark.Piece) *nest.Node {
	for _, list := range [][]Cut{s.Store, s.Shop} {
		for _, c := range list {
			if !same(c.Piece, p) {
				continue
			}
			n := &nest.Node{Kind: nest.Cut, L: p.L, W: p.W, Dir: c.Dir}
			for _, m := range c.Makes {
				if k := s.Under(m); k != nil {
					n.Kids = append(n.Kids, k)
				}
			}
			switch len(n.Kids) {
			case 0:
				return nil
			case 1:
				return n.Kids[0]
			}
			return n
		}
	}
	for _, e := range s.Ends {
		if same(e.Piece, p) && e.Is == ToPart {
			return &nest.Node{Kind: nest.Piece, L: p.L, W: p.W, Part: e.Line, Rot: e.Rot}
		}
	}
	return nil
}
