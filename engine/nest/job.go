// Package nest lays parts out on sheets and boards so that straight cuts from
// edge to edge free them, in two tiers: store cuts that make the pieces fit
// the car, then shop cuts to final size.
package nest

import "cartwright/engine/measure"

// A Grain says how a part or a sheet may lie.
type Grain int

const (
	Free   Grain = iota // a part may turn; a sheet has no grain
	Along               // the grain runs along L
	Across              // the grain runs along W
)

// A Job is what is to be cut, and from what. Lengths are whole ticks.
type Job struct {
	// Parts to be made. The order is the order in which ties are settled.
	Parts []Part
	// Stock to make them from.
	Stock []Stock
	// Kerf is the planning kerf of the shop: the widest saw that is used.
	Kerf measure.Length
	// Saws of the shop, for [Plan.Settings].
	Saws Saws `json:",omitzero"`
	// Store says what the store's saw does. The zero Store makes no limit on
	// the number of cuts; see [Store.Cuts].
	Store Store
	// Car lists the rectangles that fit the car; a piece must fit one of
	// them, in either turn. Empty: no limit.
	Car []Size
	// FactoryTrim is what a factory edge of a store-cut sheet's piece loses
	// before use. Usually 0: factory edges are trusted.
	FactoryTrim measure.Length
	// Keep is the least offcut worth keeping, L the longer side. The default
	// (zero) is 300 mm by 100 mm. A leftover below it is [Waste].
	Keep Size
}

// A Size is a length by a width.
type Size struct{ L, W measure.Length }

// A Part is a kind of part: Count equal pieces.
type Part struct {
	ID       string // unique in the job
	Material string // only stock of the same material serves
	L, W     measure.Length
	Count    int
	Grain    Grain // Along: L lies along the stock's grain; Across: W does; Free: either
	// Match: parts with the same non-empty Match must be cut on one fence
	// setting where they share a dimension.
	Match string
	// Chain and Link keep parts together: parts with the same non-empty
	// Chain come from one strip in the order of Link, so that the grain runs
	// on from one to the next. They lie side by side across the dimension
	// they share: along W if all have one L, else along L if all have one W.
	Chain string
	Link  int
	// Reserve is how much longer and wider the piece may have to be once
	// something has been measured. It is cut after all that has none, from
	// wood that has room for that if it costs nothing; see [Settled]. The
	// default (zero) is none: the size is known.
	Reserve Size `json:",omitzero"`
}

// A Stock is a kind of sheet, board or offcut.
type Stock struct {
	ID       string // unique in the job
	Material string
	L, W     measure.Length
	Price    measure.Money
	Count    int   // how many there are; negative: as many as needed
	Grain    Grain // Along, Across or Free (none)
	// Trim is taken off each edge before use. Only for stock AtShop.
	Trim measure.Length
	// AtShop stock is already at the shop, or needs no store cut and no car
	// limit: offcuts at home, boards that fit.
	AtShop bool
	// Off is what must come off an edge before use, where that is more than
	// Trim or the job's FactoryTrim says: of the low and the high edge along x,
	// then along y. A rough edge, a bad corner.
	Off [4]measure.Length `json:",omitzero"`
}

// EdgeOff is what comes off edge e of stock s, counted as in Off, if no store
// cut made it.
func (j *Job) EdgeOff(s Stock, e int) measure.Length {
	if s.AtShop {
		return max(s.Trim, s.Off[e])
	}
	return max(j.FactoryTrim, s.Off[e])
}

// A Store describes the store's panel saw.
type Store struct {
	// Cuts is the most cuts per sheet: negative for no limit, 0 if the store
	// does not cut.
	Cuts int
	// Kerf of the store's saw.
	Kerf measure.Length
	// Trim is taken off each store-cut edge at home, kerf included.
	Trim measure.Length
	// Least is the narrowest strip the store cuts. 0: no limit.
	Least measure.Length
	// Step is what store measures are rounded to, since the store's scale
	// shows no more. The default (zero) is 1/16 in for a sheet whose sides
	// are whole sixteenths, else 1 mm.
	Step measure.Length
	// FreeCuts are free over the whole plan; each further one costs Price.
	FreeCuts int
	Price    measure.Money
}

// A Tier says who makes a cut.
type Tier int

const (
	ShopTier Tier = iota
	StoreTier
)

// A Dir is the axis of a sheet along which the pieces of a cut lie side by
// side: X along the stock's length, Y along its width. The cut line runs the
// other way.
type Dir int

const (
	X Dir = iota
	Y
)

// A Kind says what a [Node] is.
type Kind int

const (
	Waste  Kind = iota
	Offcut      // worth keeping
	Piece       // a finished part
	Cut         // cut further into Kids
	Trim        // a store piece whose rough edges come off; Core is what remains
)

// A Node is a piece of a sheet at some moment of its cutting. Kids of a Cut
// add up along Dir, with the tier's kerf between them, to the node, or fall
// short by at most one kerf: the last pass runs off the edge.
type Node struct {
	Kind Kind
	L, W measure.Length // along the stock's x and y
	Tier Tier           // Cut only: who cuts
	Dir  Dir            // Cut only
	Kids []*Node        // Cut only
	Part int            // Piece only: index in Job.Parts
	Rot  bool           // Piece only: the part's L lies along y
	Core *Node          // Trim only
}

// A Layout is one sheet as cut.
type Layout struct {
	Stock int // index in Job.Stock
	Root  *Node
}

// A Plan is layouts for a job, with its figures. It is never modified once
// yielded.
type Plan struct {
	Sheets []Layout
	// Left lists the indices of Job.Parts that could not be placed, once a
	// piece. Empty for a complete plan.
	Left []int
	// Cost of the stock and of the store cuts.
	Cost measure.Money
	// Bought is the number of sheets that count: all but free pieces at home,
	// that is stock AtShop without a price of which there are only so many.
	Bought int
	// StoreCuts and ShopCuts are numbers of passes; Trims are edge trims.
	StoreCuts, ShopCuts, Trims int
	// Settings is the least number of settings for the cuts that free what is
	// cut on or kept: distinct distances, where no saw takes them all more than
	// once. See [Saws].
	Settings int
	// Rest is the value of what is left over: the sum over the offcuts of
	// a·⁴√a, a the area in whole square millimetres, each rounded down. A large offcut is
	// worth more than its halves.
	Rest int64
	// Reserved counts pieces whose [Part.Reserve] the plan holds, all of them
	// if it was [Settled]: the wood that is left when all is cut but the pieces with a reserve has room for
	// each of those in it being larger by its own.
	Reserved int `json:",omitempty"`
	// Bound is the least cost of stock that any plan can have, AtLeast the
	// least number of bought sheets; Proven: no plan uses fewer sheets.
	Bound   measure.Money
	AtLeast int
	Proven  bool
	// LeastCuts is the least number of store cuts that any plan can have on
	// so many sheets of each material that come home whole, as far as known.
	LeastCuts int
	// LeastLeaving is the same for plans that may leave pieces at the store
	// that are too large for the car. It is known of plans with LeastCuts.
	LeastLeaving int
	// Tries is the number of tries made when this plan was found.
	Tries int
}
