package check

import (
	"math"
	"math/rand/v2"
)

// A Source is one thing that can be off: a fence setting, the thickness of a
// sheet, one cut. Tol is how far it goes either way at most; nearly all of a
// normal spread lies within three of its deviations, so one is Tol/3. Mean is
// where it really lies, if that is known.
type Source struct {
	Name      string
	Tol, Mean float64 // metres
}

// A Term counts a source in a chain. One source may stand in it several times,
// and in other chains: what is shared adds up in full.
type Term struct {
	Source int
	Times  float64
}

// A Chain is a gap that comes of others: Gap as planned, which works from Least
// to Most. Metres.
type Chain struct {
	Name             string
	Gap, Least, Most float64
	Terms            []Term
	Known            []Known // what is in Gap for a known reason
	Path             string
	drawer           bool
}

// Known is what rounding a size to the tape did to a gap, in metres.
type Known struct {
	Name string
	Off  float64
}

// factors adds up the terms of each source, in the order they first stand.
func (c Chain) factors() []Term {
	out := make([]Term, 0, len(c.Terms))
terms:
	for _, t := range c.Terms {
		for i := range out {
			if out[i].Source == t.Source {
				out[i].Times += t.Times
				continue terms
			}
		}
		out = append(out, t)
	}
	return out
}

// Worst returns how far the gap can be off either way: Σ |times|·tol.
func (c Chain) Worst(s []Source) float64 {
	var sum float64
	for _, t := range c.factors() {
		sum += math.Abs(t.Times) * s[t.Source].Tol
	}
	return sum
}

// Likely returns how far it is off at most in nearly all carts, by the root of
// the sum of squares: √Σ (times·tol)² (Scholz, Tolerance Stack Analysis Methods,
// 1995). Sources are taken as independent, the terms of one source are not.
func (c Chain) Likely(s []Source) float64 { return rss(c.factors(), s) }

// Apart is the same with each term by itself, as if no error were shared: too
// small where one is.
func (c Chain) Apart(s []Source) float64 { return rss(c.Terms, s) }

func rss(terms []Term, s []Source) float64 {
	var sum float64
	for _, t := range terms {
		v := t.Times * s[t.Source].Tol
		sum += float64(v * v)
	}
	return math.Sqrt(sum)
}

// Odds are chances found by sampling.
type Odds struct {
	Chains  []ChainOdds
	Drawers float64 // all drawers run
	All     float64 // every chain holds
	Tries   int
}

// A ChainOdds is one chain with what was found for it.
type ChainOdds struct {
	Name                 string
	Gap, Least, Most     float64 // metres
	Worst, Likely, Apart float64
	Fits                 float64
}

// Error returns the standard error of a chance p found in n tries:
// √(p(1−p)/n), with p kept off 0 and 1 by half a try.
func Error(p float64, n int) float64 {
	if n <= 0 {
		return 1
	}
	half := .5 / float64(n)
	p = min(max(p, half), 1-half)
	return math.Sqrt(p * (1 - p) / float64(n))
}

// Sample makes n carts by chance, with each source normal about its mean, and
// counts how often each chain holds, all drawers do, and all chains. A normal
// value is the sum of twelve even ones, which ends at six deviations and needs
// nothing but sums, so that every machine finds the same.
func Sample(s []Source, chains []Chain, n int, seed uint64) Odds {
	rng := rand.NewPCG(seed, 0x66697473)
	off := make([]float64, len(s))
	factors := make([][]Term, len(chains))
	o := Odds{Tries: n, Chains: make([]ChainOdds, len(chains))}
	for i, c := range chains {
		factors[i] = c.factors()
		o.Chains[i] = ChainOdds{Name: c.Name, Gap: c.Gap, Least: c.Least, Most: c.Most, Worst: c.Worst(s), Likely: c.Likely(s), Apart: c.Apart(s)}
	}
	count := make([]int, len(chains))
	drawers, whole := 0, 0
	for range n {
		for i, v := range s {
			off[i] = v.Mean + float64(normal(rng)*v.Tol)/3
		}
		fit, run := true, true
		for i, c := range chains {
			g := c.Gap
			for _, t := range factors[i] {
				g += float64(t.Times * off[t.Source])
			}
			if g >= c.Least && g <= c.Most {
				count[i]++
				continue
			}
			fit = false
			run = run && !c.drawer
		}
		if fit {
			whole++
		}
		if run {
			drawers++
		}
	}
	for i := range count {
		o.Chains[i].Fits = float64(count[i]) / float64(max(n, 1))
	}
	o.Drawers, o.All = float64(drawers)/float64(max(n, 1)), float64(whole)/float64(max(n, 1))
	return o
}

// normal returns a value of mean 0 and deviation 1: the eight bytes of a
// number added up, which are even from 0 to 255 each.
func normal(rng *rand.PCG) float64 {
	const bytes = 0x00FF_00FF_00FF_00FF
	u := rng.Uint64()
	u = u&bytes + u>>8&bytes
	sum := u * 0x0001_0001_0001_0001 >> 48
	return (float64(sum) - 8*127.5) / 209.01674574 // √(8·(256² − 1)/12)
}
