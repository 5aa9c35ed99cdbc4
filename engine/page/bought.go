package page

import (
	"strconv"

	"cartwright/engine/work"
)

// tickOff is the box of a row of the buying list: empty while it is to be
// bought, ticked when the journal says it is.
func (b *builder) tickOff(i int, r work.Buy) node {
	name := attr{"id", "buy-" + strconv.Itoa(i)}
	id := r.Bought(r.Count)
	switch has := b.State.Bought(id); {
	case r.Count == 0:
		return nodes{}
	case b.ReadOnly && has:
		return icon(tick)
	case b.ReadOnly:
		return nodes{}
	case has:
		return button("tickoff on", do(doUnmark, "cut", id), name, attr{"aria-pressed", "true"}, attr{"aria-label", "Bought: " + r.Name}, icon(tick))
	default:
		return button("tickoff", do(doMark, "cut", id), name, attr{"aria-pressed", "false"}, attr{"aria-label", "Bought: " + r.Name})
	}
}

// part is how many of a row were bought when it asked for fewer, 0 if all are
// bought or none.
func (b *builder) part(r work.Buy) int {
	for k := r.Count; k > 0; k-- {
		if b.State.Bought(r.Bought(k)) {
			return k % r.Count
		}
	}
	return 0
}

// saved says what the plan saves against whole sheets, without store cuts and
// without offcuts.
func (b *builder) saved() node {
	s := b.Saving
	if !s.Known {
		return nodes{}
	}
	say := "Whole sheets, without store cuts or offcuts, would be " + count(s.Sheets, "sheet or board", "sheets and boards") + " for " + b.money(s.Whole)
	switch {
	case s.Delivery > 0:
		say += " and " + b.money(s.Delivery) + " to bring them"
	case s.TooLarge:
		say += ", too large for the car"
	}
	switch d := s.Saves(b.Buy, b.Job.Stock); {
	case d > 0:
		say += ": this plan saves " + b.money(d) + "."
	case d < 0:
		why := "store cuts cost "
		if len(b.Past.Spent) > 0 {
			why = "with what was spoiled or planned again this comes to "
		}
		say += ": " + why + b.money(-d) + " more."
	default:
		say += ": no difference in price."
	}
	return smallLine(say)
}
