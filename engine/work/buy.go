package work

import (
	"strconv"

	"cartwright/engine/measure"
)

// A Buy is a row of the shopping list.
type Buy struct {
	Name  string        // "Birch plywood 3/4 in, 96 × 48 in"
	Count int           // to be bought: what is at home is taken off
	Home  int           // at home already
	Price measure.Money // of one, or of one pack
	Total measure.Money
	Why   string // "2 drawers × 1 pair"
	// ID is the stock ID ("ply-18-full") or hardware ID it is for.
	ID string
	// NoPrice reports that the project names no price for it.
	NoPrice bool
}

// BuyPrefix begins the names that purchases have in the journal.
const BuyPrefix = "buy/"

// Bought is the name of the purchase of r in the journal: so many of it, so
// that a tick does not hold for more than was bought.
func (r Buy) Bought(n int) string { return BuyPrefix + r.ID + "/" + strconv.Itoa(n) }

// A Shopping list, with what store cuts and delivery cost.
type Shopping struct {
	Rows     []Buy
	StoreCut measure.Money // what the store takes for its cuts
	Delivery measure.Money
	Total    measure.Money
	// Unpriced counts the rows without a price: Total is at least that.
	Unpriced int
}
