package planner

import (
	"encoding/json"

	"cartwright/engine/page"
	"cartwright/engine/work"
)

// A policy is what a search worker finds out of the plan on the screen, once
// nothing better is looked for: which parts could be spoiled once.
type policy struct {
	seq  int    // of its order
	plan string // what it is about
	done string // cuts made out of order, which change the answer
	in   *work.Insurance
}

// quarryName names the plan on the screen by what is in it: held, it is the same.
func (p *Planner) quarryName() string {
	if root := p.out.Plan.Sheets[0].Root; root != p.named.root {
		job, _ := json.Marshal(p.out.Job)
		plan, _ := json.Marshal(p.out.Plan.Sheets)
		p.named.root, p.named.name = root, digest(job, plan)
	}
	return p.named.name
}

// A proof is what such a worker must know.
type proof struct {
	Steps work.Steps
	Done  []bool
}

// insurable reports whether the plan on the screen can be insured now: it is
// whole, and nothing that lies there is otherwise than planned.
func (p *Planner) insurable() bool {
	s := p.out.stands
	return len(p.out.Plan.Sheets) > 0 && len(p.out.Plan.Left) == 0 && !p.hunt.on && p.moving == nil &&
		len(s.Sizes) == 0 && len(p.newFlaws()) == 0 && p.out.differ == 0 && !p.readOnly && !p.cfg.Embedded && !p.anySpoilt()
}

func (p *Planner) anySpoilt() bool {
	for _, c := range p.out.Steps.Shop {
		for _, m := range c.Makes {
			if p.out.stands.Spoilt(m) {
				return true
			}
		}
	}
	return false
}

// made says which shop cuts are made, and names those if they are not simply
// the first ones: the answer holds for cuts made in order.
func (p *Planner) made() (done []bool, name string) {
	gap, out := false, false
	b := make([]byte, len(p.out.stands.Shop))
	for i, s := range p.out.stands.Shop {
		b[i] = '.'
		if s.Done {
			out, b[i] = out || gap, '|'
		} else {
			gap = true
		}
		done = append(done, s.Done)
	}
	if out {
		name = string(b)
	}
	return done, name
}

// insure sees to it that what is known of the plan is asked for.
func (p *Planner) insure() {
	if !p.insurable() {
		if p.policy.in == nil {
			p.policy = policy{}
		}
		return
	}
	plan := p.quarryName()
	if _, name := p.made(); p.policy.seq == 0 || p.policy.plan != plan || p.policy.done != name {
		p.hunt.seq++
		p.policy = policy{seq: p.hunt.seq, plan: plan, done: name}
	}
}

// insured is what is known of the plan on the screen, nil if nothing is yet.
func (p *Planner) insured() *work.Insurance {
	if p.policy.in == nil || !p.insurable() || p.policy.plan != p.quarryName() {
		return nil
	}
	return p.policy.in
}

// proof is the task of the worker.
func (p *Planner) proof() *proof {
	done, _ := p.made()
	return &proof{Steps: p.out.Steps, Done: done}
}

// covered takes the worker's answer.
func (p *Planner) covered(f Find) Reply {
	return p.answer(func() error {
		if f.Seq == p.policy.seq {
			p.policy.in = f.Insured
		}
		return nil
	})
}

// insurance is what the page shows of it: parts that are cut already are of no
// matter any more.
func (p *Planner) insurance() (out *page.Insurance) {
	in := p.insured()
	if in == nil {
		return nil
	}
	out = &page.Insurance{}
	for _, c := range in.Covers {
		if c.Cut != "" && p.isDone(c.Cut) {
			continue
		}
		out.Parts++
		tag := p.out.Job.Parts[c.Line].ID
		switch {
		case c.Kept:
			out.Insured++
		case c.Early:
			out.Insured++
			out.Early = addTo(out.Early, tag)
		default:
			out.Not = addTo(out.Not, tag)
		}
	}
	return out
}

func addTo(list []string, s string) []string {
	for _, t := range list {
		if t == s {
			return list
		}
	}
	return append(list, s)
}
