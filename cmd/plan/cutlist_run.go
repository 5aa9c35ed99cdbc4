package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// planCutlist plans a plain cut list and writes what was asked for.
func planCutlist(o options, out, errOut io.Writer) int {
	begin := time.Now()
	if len(o.args) > 0 {
		fmt.Fprintf(errOut, "plan: %q is not needed beside a cut list\n", o.args[0])
		return badInput
	}
	job, err := o.list.readJob()
	if err != nil {
		fmt.Fprintln(errOut, "plan:", err)
		return badInput
	}
	found := nest.Check(job)
	p := search(job, o, begin)
	if p != nil {
		found = append(found, nest.Short(job, *p)...)
		found = append(found, nest.Verify(job, *p)...)
	}
	found.Sort()
	if err := writeCutlist(o, job, p, found); err != nil {
		fmt.Fprintln(errOut, "plan:", err)
		return badInput
	}
	report(out, job, p, found)
	if found.Blocked() {
		for _, f := range found {
			if f.Level == issue.Block {
				fmt.Fprintln(errOut, "plan:", sentence(f))
			}
		}
		return blocked
	}
	return fine
}

// search returns the best plan within the tries and the seconds, or nil. The
// first plan is always waited for.
func search(job nest.Job, o options, begin time.Time) (best *nest.Plan) {
	if o.tries <= 0 && o.seconds <= 0 {
		o.tries = 10_000
	}
	until := begin.Add(time.Duration(o.seconds * float64(time.Second)))
	for p := range nest.Search(job, nest.Options{Seed: o.seed, Tries: o.tries}) {
		if p.Plan != nil {
			best = p.Plan
		}
		if o.seconds > 0 && !time.Now().Before(until) {
			break
		}
	}
	if best == nil {
		return nil
	}
	*best, _ = nest.Settled(job, *best)
	larger, any := nest.Reserving(job)
	if !any {
		return best
	}
	again := nest.Options{Seed: o.seed, Tries: max(o.tries, 2000) / 2, Previous: best, PreviousJob: &job, Sketch: true}
	for p := range nest.Search(larger, again) {
		if p.Plan != nil {
			if q, ok := nest.Settled(job, p.Plan.Bounded(*best)); ok && q.Better(best) {
				best = &q
			}
		}
	}
	return best
}

func writeCutlist(o options, job nest.Job, p *nest.Plan, found issue.List) error {
	if o.cuts != "" && p != nil {
		b, err := nest.Exchange(job, *p)
		if err != nil {
			return err
		}
		if err := os.WriteFile(o.cuts, b, 0o644); err != nil {
			return err
		}
	}
	if o.json != "" {
		b, err := json.MarshalIndent(struct {
			Job      nest.Job
			Plan     *nest.Plan
			Findings issue.List
		}{job, p, found}, "", "  ")
		if err != nil {
			return err
		}
		if err := os.WriteFile(o.json, append(b, '\n'), 0o644); err != nil {
			return err
		}
	}
	if o.csv != "" {
		f, err := os.Create(o.csv)
		if err != nil {
			return err
		}
		defer f.Close()
		w := csv.NewWriter(f)
		w.Write([]string{"name", "length", "width", "count", "grain", "material"})
		for _, q := range job.Parts {
			w.Write([]string{q.ID, q.L.String(), q.W.String(), fmt.Sprint(q.Count),
				[...]string{"free", "length", "width"}[q.Grain], q.Material})
		}
		w.Flush()
		if err := w.Error(); err != nil {
			return err
		}
		return f.Close()
	}
	return nil
}

// report prints a plan as text: what to buy, the store's cuts, the shop's.
func report(w io.Writer, job nest.Job, p *nest.Plan, found issue.List) {
	for _, f := range found {
		fmt.Fprintf(w, "%s: %s\n", f.Level, sentence(f))
	}
	if p == nil {
		return
	}
	fmt.Fprintf(w, "%d sheets and boards, cost %v; %d store cuts, %d shop cuts, %d trims, %d fence settings\n",
		len(p.Sheets), p.Cost, p.StoreCuts, p.ShopCuts, p.Trims, p.Settings)
	switch {
	case p.Proven:
		fmt.Fprintln(w, "proven: no plan uses fewer sheets")
	case p.AtLeast > 0:
		fmt.Fprintf(w, "at least %d sheets are needed\n", p.AtLeast)
	}
	switch {
	case p.LeastLeaving > 0 && p.LeastLeaving == p.LeastCuts:
		fmt.Fprintf(w, "so many sheets take at least %d store cuts\n", p.LeastCuts)
	case p.LeastCuts > 0:
		fmt.Fprintf(w, "to bring so many sheets home takes at least %d store cuts\n", p.LeastCuts)
	}
	for i, s := range p.Sheets {
		st := job.Stock[s.Stock]
		fmt.Fprintf(w, "\n%d: %s, %v x %v\n", i+1, st.ID, st.L, st.W)
		branch(w, job, s.Root, 1)
	}
}

// branch prints node n and all below it, indented.
func branch(w io.Writer, job nest.Job, n *nest.Node, depth int) {
	pad := strings.Repeat("  ", depth)
	size := fmt.Sprintf("%v x %v", n.L, n.W)
	switch n.Kind {
	case nest.Waste:
		fmt.Fprintf(w, "%swaste %s\n", pad, size)
	case nest.Offcut:
		fmt.Fprintf(w, "%soffcut %s\n", pad, size)
	case nest.Piece:
		fmt.Fprintf(w, "%s%s, %s\n", pad, job.Parts[n.Part].ID, size)
	case nest.Trim:
		fmt.Fprintf(w, "%s%s, trim the edges to\n", pad, size)
		branch(w, job, n.Core, depth+1)
	case nest.Cut:
		who, along := "cut", "along its length at"
		if n.Tier == nest.StoreTier {
			who = "store cut"
		}
		var at []string
		for _, kid := range n.Kids {
			d := kid.L
			if n.Dir == nest.Y {
				d, along = kid.W, "along its width at"
			}
			at = append(at, d.String())
		}
		fmt.Fprintf(w, "%s%s, %s %s %s\n", pad, size, who, along, strings.Join(at, ", "))
		for _, kid := range n.Kids {
			branch(w, job, kid, depth+1)
		}
	}
}

// sentence puts a finding into words.
func sentence(f issue.Finding) string {
	who := strings.Join(f.Where, ", ")
	arg := func(i int) any {
		if i < len(f.Args) {
			return f.Args[i]
		}
		return "?"
	}
	switch f.Code {
	case nest.BadSize:
		return fmt.Sprintf("%s: %v x %v cannot be planned; sizes go from above zero to %v", who, arg(0), arg(1), measure.Length(nest.MaxSide))
	case nest.BadKerf:
		return fmt.Sprintf("the %v of %v cannot be planned", arg(1), arg(0))
	case nest.BadCount:
		if who == "" {
			return fmt.Sprintf("more than %v pieces", arg(1))
		}
		return fmt.Sprintf("%s: a count of %v cannot be planned", who, arg(0))
	case nest.BadPrice:
		return fmt.Sprintf("%s: a price of %v cannot be planned", who, arg(0))
	case nest.SameID:
		return fmt.Sprintf("the name %q is empty or used twice", arg(0))
	case nest.NoStock:
		return fmt.Sprintf("%s: there is no stock of %q", who, arg(0))
	case nest.TooLarge:
		return fmt.Sprintf("%s: %v x %v fits no stock; the largest is %v x %v", who, arg(0), arg(1), arg(2), arg(3))
	case nest.NoCar:
		return fmt.Sprintf("%s: no piece that holds %v x %v fits the car; it takes %v x %v, and %v comes off each store-cut edge",
			who, arg(0), arg(1), arg(2), arg(3), arg(4))
	case nest.NoCut:
		return fmt.Sprintf("%s: %v x %v does not fit the car, and the store cannot cut it so that it does", who, arg(0), arg(1))
	case nest.WideKerf:
		return fmt.Sprintf("%s: the kerf of %v is wider than the part's %v", who, arg(0), arg(1))
	case nest.BadChain:
		return fmt.Sprintf("%s: the parts of chain %v share no dimension, material or grain", who, arg(0))
	case nest.ShortStock:
		return fmt.Sprintf("%s: %v of %v pieces found no place; there is not enough stock", who, arg(0), arg(1))
	}
	return fmt.Sprintf("%s %s %v", f.Code, who, f.Args)
}
