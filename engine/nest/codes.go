package nest

import "cartwright/engine/issue"

// Findings of [Check] and [Short]: about the job. Where names the part or the
// stock. The comment gives the Args in order.
const (
	// BadSize: a size that cannot be planned: not above zero, or over
	// [MaxSide]. Args: L, W measure.Length.
	BadSize issue.Code = "nest.size"
	// BadKerf: a kerf or trim below zero or over [MaxSide]. Args: the value
	// measure.Length, its name string ("kerf", "store kerf", "store trim",
	// "factory trim", "least strip").
	BadKerf issue.Code = "nest.kerf"
	// BadCount: a part's count below zero, or the job has more than
	// [MaxPieces] pieces (Where is empty then). Args: count int, most int.
	BadCount issue.Code = "nest.number"
	// BadPrice: a price below zero or over [MaxPrice]. Args: price
	// measure.Money.
	BadPrice issue.Code = "nest.price"
	// SameID: an ID is empty or used twice. Args: the ID string.
	SameID issue.Code = "nest.id"
	// NoStock: no stock of the part's material. Args: material string.
	NoStock issue.Code = "nest.nostock"
	// TooLarge: the part fits no stock of its material the way its grain must
	// lie. Args: the part's L, W, the largest stock's L, W less trim
	// measure.Length.
	TooLarge issue.Code = "nest.toolarge"
	// NoCar: the part fits a sheet, but no piece that holds it fits the car.
	// Args: the part's L, W, the largest car rectangle's L, W measure.Length,
	// the trim of a store-cut edge measure.Length.
	NoCar issue.Code = "nest.nocar"
	// NoCut: the sheet does not fit the car and the store cannot cut it so
	// that it does. Where is the stock. Args: its L, W measure.Length, most
	// store cuts int (negative: no limit).
	NoCut issue.Code = "nest.nocut"
	// WideKerf: the kerf is wider than the part; surely a slip. Args: kerf,
	// the part's shorter side measure.Length.
	WideKerf issue.Code = "nest.widekerf"
	// BadChain: parts of a chain differ in material, in grain, or share no
	// dimension. Args: the chain's name string.
	BadChain issue.Code = "nest.badchain"
	// ShortStock: pieces that found no place since the stock ran out. Where
	// is the part. Args: pieces missing int, pieces wanted int.
	ShortStock issue.Code = "nest.short"
)

// Findings of [Verify]: about a plan. Where[0] is "sheet N" (from 1), then
// the way down its tree ("0.1"), or "plan"; for counts the part, for stock
// counts the stock.
const (
	// Malformed: a node, index or reference that is no plan. Args: what
	// string.
	Malformed issue.Code = "nest.malformed"
	// Root: the tree is not its stock less trim. Args: has L, W, should be L,
	// W measure.Length.
	Root issue.Code = "nest.root"
	// Edge: a kid does not span its parent, so the cut is not edge to edge.
	// Args: has, should be measure.Length.
	Edge issue.Code = "nest.edge"
	// Sum: kids and kerfs do not add up to the node. Args: sum, size
	// measure.Length.
	Sum issue.Code = "nest.sum"
	// Uncut: a cut node that nothing cuts: one kid of full size. No Args.
	Uncut issue.Code = "nest.uncut"
	// Tiers: a store cut below a shop cut, or on stock that is at the shop.
	// No Args.
	Tiers issue.Code = "nest.tier"
	// StoreLimit: more store cuts on a sheet than the store makes. Args: cuts
	// int, limit int.
	StoreLimit issue.Code = "nest.storecuts"
	// Strip: a store cut makes a strip that is too narrow. Args: width, least
	// measure.Length.
	Strip issue.Code = "nest.strip"
	// Car: a piece that leaves the store does not fit the car. Args: L, W
	// measure.Length.
	Car issue.Code = "nest.car"
	// Untrimmed: a rough edge is used, a core is larger than its piece less
	// trim, or a trim stands where there is no store piece. Args: has L, W,
	// may have L, W measure.Length.
	Untrimmed issue.Code = "nest.trim"
	// WrongSize: a piece is not exactly its part. Args: has L, W, part's L, W
	// as laid measure.Length.
	WrongSize issue.Code = "nest.piece"
	// AgainstGrain: a part lies the wrong way. No Args; Where[1] is the part.
	AgainstGrain issue.Code = "nest.grain"
	// WrongMaterial: a part from stock of another material. Args: part's,
	// stock's string; Where[1] is the part.
	WrongMaterial issue.Code = "nest.material"
	// WrongCount: made and listed as left do not add up to what was asked.
	// Args: made int, left int, asked int.
	WrongCount issue.Code = "nest.count"
	// Overlap: two pieces on one sheet are closer than the kerf. Args: x, y
	// of the one, x, y of the other measure.Length.
	Overlap issue.Code = "nest.overlap"
	// Outside: a piece lies outside its stock. Args: x, y measure.Length.
	Outside issue.Code = "nest.outside"
	// TooMany: more of a stock used than there is. Args: used int, there int.
	TooMany issue.Code = "nest.stock"
	// BrokenChain: parts of a chain are not side by side in order in one
	// strip. Args: the chain's name string.
	BrokenChain issue.Code = "nest.chain"
	// Unmatched: parts that must match get a shared dimension from different
	// saws. Args: the group's name string, the dimension measure.Length.
	Unmatched issue.Code = "nest.match"
	// Claim: a figure of the plan is not true. Args: the figure's name
	// string, claimed int64, true int64.
	Claim issue.Code = "nest.claim"
)
