package nest

// What a climb goes on leaving out grows dearer for it, so that something else
// has to give way: penalties as of Nagata and Bräysy, "A powerful route
// minimization heuristic for the vehicle routing problem with time windows",
// Operations Research Letters 37, 2009.
const (
	dearerAfter = 20  // times round its ring
	dearer      = 0.2 // of the price at first
)

// priced is the share of what d leaves out, at the prices of climb c; where the
// stock does not suffice it counts as it is.
func (h *hunt) priced(c *climb, d *draft) (a float64) {
	if c.price == nil || h.champ.area > 0 {
		return d.area
	}
	for k, n := range d.out {
		if n > 0 {
			a += float64(float64(n) * h.kinds[k].share * c.price[k])
		}
	}
	return a
}

// reprice makes dearer what climb c leaves out now, and c goes on from there.
func (h *hunt) reprice(c *climb) {
	for k, n := range c.cur.out {
		if n > 0 {
			c.price[k] += dearer
		}
	}
	c.now.a = h.priced(c, &c.cur)
	for i := range c.ring {
		c.ring[i] = c.now
	}
}
