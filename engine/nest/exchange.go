package nest

import (
	"encoding/json"
	"errors"

	"cartwright/engine/measure"
)

// The exchange form of a cut plan: one JSON object that another program can
// judge. Lengths are ticks, x along the stock's length.
type (
	exPlan struct {
		Kerf         int64     `json:"kerf"`
		StoreKerf    int64     `json:"storeKerf"`
		StoreTrim    int64     `json:"storeTrim"`
		FactoryTrim  int64     `json:"factoryTrim"`
		MaxStoreCuts *int      `json:"maxStoreCuts,omitempty"`
		MinCut       int64     `json:"minCut"`
		Car          []exSize  `json:"car,omitempty"`
		Stocks       []exStock `json:"stocks"`
		Parts        []exPart  `json:"parts"`
		Sheets       []exSheet `json:"sheets"`
		Claims       exClaims  `json:"claims"`
	}
	exSize struct {
		L int64 `json:"l"`
		W int64 `json:"w"`
	}
	exStock struct {
		ID       string  `json:"id"`
		Material string  `json:"material"`
		L        int64   `json:"l"`
		W        int64   `json:"w"`
		Cost     float64 `json:"cost"` // whole units of currency
		Qty      int     `json:"qty"`  // -1: as many as needed
		Grain    string  `json:"grain"`
		Trim     int64   `json:"trim"`
		AtShop   bool    `json:"atShop"`
	}
	exPart struct {
		ID       string `json:"id"`
		Material string `json:"material"`
		L        int64  `json:"l"`
		W        int64  `json:"w"`
		Qty      int    `json:"qty"`
		Grain    bool   `json:"grain"` // l lies along the stock's grain
	}
	exSheet struct {
		Stock string  `json:"stock"`
		Tree  *exNode `json:"tree"`
	}
	exNode struct {
		L      int64     `json:"l"`
		W      int64     `json:"w"`
		Tier   string    `json:"tier,omitempty"`
		Cut    string    `json:"cut,omitempty"`
		Kids   []*exNode `json:"kids,omitempty"`
		Part   string    `json:"part,omitempty"`
		Rot    bool      `json:"rot,omitempty"`
		Offcut bool      `json:"offcut,omitempty"`
		Waste  bool      `json:"waste,omitempty"`
		Core   *exNode   `json:"core,omitempty"`
	}
	exClaims struct {
		Cost      float64 `json:"cost"` // of the stock alone
		StoreCuts int     `json:"storeCuts"`
		Setups    int     `json:"setups"`
	}
)

var errTree = errors.New("nest: the plan does not belong to the job")

// Exchange writes p in the exchange form for cut plans. The count asked of a
// part is what the plan made of it: parts listed as left are not asked for.
// The claimed cost is that of the stock, since the form knows no price of a
// store cut.
func Exchange(job Job, p Plan) ([]byte, error) {
	x := exPlan{Kerf: int64(job.Kerf), StoreKerf: int64(job.Store.Kerf), StoreTrim: int64(job.Store.Trim),
		FactoryTrim: int64(job.FactoryTrim), MinCut: int64(job.Store.Least),
		Stocks: []exStock{}, Parts: []exPart{}, Sheets: []exSheet{}}
	if c := job.Store.Cuts; c >= 0 {
		x.MaxStoreCuts = &c
	}
	for _, c := range job.Car {
		x.Car = append(x.Car, exSize{int64(c.L), int64(c.W)})
	}
	for _, s := range job.Stock {
		trim := s.Trim
		if !s.AtShop {
			trim = 0
		}
		x.Stocks = append(x.Stocks, exStock{s.ID, s.Material, int64(s.L), int64(s.W), float64(s.Price) / 100,
			max(s.Count, -1), [...]string{"none", "x", "y"}[s.Grain], int64(trim), s.AtShop})
	}
	left := make([]int, len(job.Parts))
	for _, i := range p.Left {
		if i < 0 || i >= len(left) {
			return nil, errTree
		}
		left[i]++
	}
	for i, q := range job.Parts {
		l, w := q.L, q.W
		if q.Grain == Across {
			l, w = w, l
		}
		x.Parts = append(x.Parts, exPart{q.ID, q.Material, int64(l), int64(w), max(q.Count, 0) - left[i], q.Grain != Free})
	}
	var cost measure.Money
	dists := map[int64]bool{} // the form counts distances, not the saws they are set on
	for _, s := range p.Sheets {
		if s.Stock < 0 || s.Stock >= len(job.Stock) {
			return nil, errTree
		}
		tree, err := exTree(job, s.Root, dists)
		if err != nil {
			return nil, err
		}
		cost += job.Stock[s.Stock].Price
		x.Sheets = append(x.Sheets, exSheet{job.Stock[s.Stock].ID, tree})
	}
	x.Claims = exClaims{float64(cost) / 100, p.StoreCuts, len(dists)}
	b, err := json.Marshal(x)
	if err != nil {
		return nil, err
	}
	return append(b, '\n'), nil
}

func exTree(job Job, n *Node, dists map[int64]bool) (*exNode, error) {
	if n == nil {
		return nil, errTree
	}
	x := &exNode{L: int64(n.L), W: int64(n.W)}
	var err error
	switch n.Kind {
	case Waste:
		x.Waste = true
	case Offcut:
		x.Offcut = true
	case Piece:
		if n.Part < 0 || n.Part >= len(job.Parts) {
			return nil, errTree
		}
		q := job.Parts[n.Part]
		x.Part, x.Rot = q.ID, n.Rot != (q.Grain == Across)
	case Trim:
		x.Core, err = exTree(job, n.Core, dists)
	case Cut:
		x.Tier, x.Cut = "shop", "x"
		if n.Tier == StoreTier {
			x.Tier = "store"
		}
		if n.Dir == Y {
			x.Cut = "y"
		}
		for _, kid := range n.Kids {
			k, err := exTree(job, kid, dists)
			if err != nil {
				return nil, err
			}
			x.Kids = append(x.Kids, k)
			if n.Tier == ShopTier && !k.Waste && !k.Offcut {
				dists[[...]int64{k.L, k.W}[n.Dir]] = true
			}
		}
	}
	return x, err
}
