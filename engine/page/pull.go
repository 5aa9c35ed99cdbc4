package page

import "strconv"

// pullFields are how many pulls a front has, the spacing of their holes, and
// their height.
func (b *builder) pullFields() nodes {
	d := b.Project.Drawers
	return nodes{
		b.choice("drawers.pulls", "Pulls on a front", strconv.Itoa(d.Pulls), option{"0", "by its width"}, option{"1", "one"}, option{"2", "two"}),
		b.length("drawers.pull", "Pull, hole spacing", d.Pull, hint{note: "by the front's width"}),
		b.length("drawers.pullAt", "Pull under the front's upper edge", d.PullAt, hint{note: "its middle; empty: half way down"}),
	}
}
