package nest

// dice is a small source of chance: SplitMix64 (Steele, Lea and Flood, "Fast
// splittable pseudorandom number generators", OOPSLA 2014). Equal seeds give
// equal rolls on every machine.
type dice struct{ state uint64 }

func (d *dice) next() uint64 {
	d.state += 0x9e3779b97f4a7c15
	z := d.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below returns a number from 0 to n−1; 0 if n is 0. n is below 2³².
func (d *dice) below(n int) int {
	return int(d.next() >> 32 * uint64(n) >> 32)
}

// oneIn is true once in n rolls.
func (d *dice) oneIn(n int) bool { return d.below(n) == 0 }
