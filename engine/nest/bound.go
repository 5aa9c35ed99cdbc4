package nest

import "cartwright/engine/measure"

// bound is the least number of bought sheets, and the least cost of stock,
// that any plan for the trade can have.
func (t *trade) bound() (sheets int, cost measure.Money) {
	return 0, 0
}
