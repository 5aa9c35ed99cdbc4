package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"cartwright/engine"
	"cartwright/engine/check"
	"cartwright/engine/draw"
	"cartwright/engine/issue"
	"cartwright/engine/measure"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/project"
	"cartwright/engine/svg"
	"cartwright/engine/work"
)

// planProject plans the project in the file named by the only argument.
func planProject(o options, out, errOut io.Writer) int {
	begin := time.Now()
	if len(o.args) != 1 {
		fmt.Fprintln(errOut, "plan: name one project file, or a cut list and its stock (see -h)")
		return badInput
	}
	p, err := openProject(o.args[0])
	if err != nil {
		fmt.Fprintf(errOut, "plan: %s: %v\n", o.args[0], err)
		return badInput
	}
	if !o.seeded && p.Seed != 0 {
		o.seed = p.Seed
	}
	r := engine.Design(p)
	var best nest.Plan
	if found := search(r.Job, o, begin); found != nil {
		best = *found
	}
	r = engine.Finish(p, r, best)
	if err := writeProject(o, p, r); err != nil {
		fmt.Fprintln(errOut, "plan:", err)
		return badInput
	}
	printProject(out, p, r)
	if r.Findings.Blocked() {
		return blocked
	}
	return fine
}

// openProject reads a project file without taking in more than one can be.
func openProject(name string) (*project.Project, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, errors.Unwrap(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, project.MaxFile+1))
	if err != nil {
		return nil, err
	}
	return project.Open(data)
}

// writeProject writes the files that the flags name.
func writeProject(o options, p *project.Project, r engine.Result) error {
	if o.json != "" {
		b, err := json.MarshalIndent(r, "", "  ")
		if err != nil {
			return err
		}
		if err := os.WriteFile(o.json, append(b, '\n'), 0o644); err != nil {
			return err
		}
	}
	if o.cuts != "" {
		b, err := nest.Exchange(r.Job, r.Plan)
		if err != nil {
			return err
		}
		if err := os.WriteFile(o.cuts, b, 0o644); err != nil {
			return err
		}
	}
	if o.csv != "" {
		lines := slices.Clone(r.Cart.Lines)
		for i := range lines {
			lines[i].Name = lines[i].Tag + " " + lines[i].Name
		}
		if err := os.WriteFile(o.csv, []byte(page.CutList(p.Measure(), lines)), 0o644); err != nil {
			return err
		}
	}
	if o.svg != "" {
		return writeDrawings(o.svg, r)
	}
	return nil
}

// writeDrawings writes the cart and each sheet as SVG files into a folder.
func writeDrawings(dir string, r engine.Result) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	o := svg.Options{Standalone: true}
	cart := draw.Cart(r.Cart, 900, 640, draw.CartOptions{Print: true})
	if err := os.WriteFile(filepath.Join(dir, "cart.svg"), []byte(svg.Render(cart, o)), 0o644); err != nil {
		return err
	}
	for i := range r.Plan.Sheets {
		name := filepath.Join(dir, "sheet-"+strconv.Itoa(i+1)+".svg")
		// Nothing of it is cut yet.
		sheet := draw.Sheet(r.Job, r.Plan, r.Steps, work.Standing{}, r.Cart.Lines, r.Cart.Tape, i, 900, 640, draw.SheetOptions{Print: true})
		if err := os.WriteFile(name, []byte(svg.Render(sheet, o)), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// printProject prints parts, what to buy, store cuts, shop cuts and findings.
func printProject(w io.Writer, p *project.Project, r engine.Result) {
	t := p.Measure()
	unit := t.Unit()
	sign := p.Currency
	if sign == "" {
		sign = "$"
	}
	head := func(s string) { fmt.Fprintf(w, "\n%s\n%s\n", s, strings.Repeat("-", len([]rune(s)))) }
	plain := func(l measure.Length) string { return t.Plain(l) }

	fmt.Fprintln(w, p.Name)
	if p.Note != "" {
		fmt.Fprintln(w, p.Note)
	}
	for _, s := range p.Warnings {
		fmt.Fprintf(w, "note: %s is not known to this version; it is kept as it is.\n", s)
	}

	head("Height, from the floor (" + unit + ")")
	for _, l := range r.Cart.Chain {
		fmt.Fprintf(w, "  %-18s %12s\n", l.Name, plain(l.Height))
	}
	fmt.Fprintf(w, "  %-18s %12s\n", "together", t.Plain(r.Cart.Reached))
	exact := func(l measure.Length) string { return page.Plain(t.ShowExact(l)) }
	if l := r.Cart.Levelling; l.Floor > 0 || l.Range > 0 {
		fmt.Fprintf(w, "  on a floor out by %s the base is screwed out by up to %s, in by up to %s; it can be by %s\n", exact(l.Floor), exact(l.Out), exact(l.In), exact(l.Range))
	}

	head("Parts (" + unit + ", along the grain first)")
	for _, l := range r.Cart.Lines {
		fmt.Fprintf(w, "  %-3s %3d × %-22s %12s × %-12s %s\n", l.Tag, l.Count, l.Name, plain(l.Length), plain(l.Width), materialName(p, l.Material))
	}

	head("To buy")
	for _, b := range r.Buy.Rows {
		price := sign + b.Total.String()
		if b.NoPrice {
			price = "no price"
		}
		if b.Count == 0 {
			price = "at home"
		}
		fmt.Fprintf(w, "  %3d  %-48s %10s  %s\n", max(b.Count, b.Home*(1-min(b.Count, 1))), page.Plain(b.Name), price, page.Plain(b.Why))
	}
	if r.Buy.StoreCut > 0 {
		fmt.Fprintf(w, "       %-48s %10s\n", "store cuts", sign+r.Buy.StoreCut.String())
	}
	if r.Buy.Delivery > 0 {
		fmt.Fprintf(w, "       %-48s %10s\n", "delivery", sign+r.Buy.Delivery.String())
	}
	fmt.Fprintf(w, "       %-48s %10s\n", "together", sign+r.Buy.Total.String())
	switch {
	case r.Plan.Proven:
		fmt.Fprintln(w, "  Proven: no plan uses fewer sheets.")
	case r.Plan.AtLeast > 0:
		fmt.Fprintf(w, "  At least %d sheets and boards are needed.\n", r.Plan.AtLeast)
	}
	switch n := r.Plan.LeastCuts; {
	case n > 0 && n == r.Plan.LeastLeaving:
		fmt.Fprintf(w, "  So many sheets take at least %d store cuts.\n", n)
	case n > 0:
		fmt.Fprintf(w, "  To bring so many sheets home takes at least %d store cuts.\n", n)
	}

	head("At the store")
	sheet := -1
	for _, c := range r.Steps.Store {
		if c.Sheet != sheet {
			sheet = c.Sheet
			fmt.Fprintf(w, "  Sheet %d: %s\n", sheet+1, r.Job.Stock[r.Plan.Sheets[sheet].Stock].ID)
		}
		fmt.Fprintf(w, "    %2d  %s %s at %s from the %s edge: %s\n", c.N, c.Verb, pieceName(c.Piece.Name, sheet), plain(c.Set), c.Ride, makes(t, c))
	}
	if len(r.Steps.Store) == 0 {
		fmt.Fprintln(w, "  No cuts.")
	}

	head("At the saw (" + unit + ")")
	for _, c := range r.Steps.Shop {
		same := ""
		if c.Same {
			same = ", leave the setting"
		}
		fmt.Fprintf(w, "  %3d  %-8s %-14s at %-10s %s, %s edge %s%s: %s\n", c.N, c.Verb, c.Piece.Name, plain(c.Set), c.Saw, c.Ride, "("+c.RideIs+")", same, makes(t, c))
	}
	fmt.Fprintf(w, "  Fence and stops are moved %d times; sheet by sheet it would be %d.\n", r.Steps.Moves, r.Steps.Naive)

	for _, c := range page.BenchText(page.View{Project: p, Cart: r.Cart, Bench: r.Bench}) {
		head(c.Title)
		for _, l := range c.Lines {
			fmt.Fprintln(w, "  "+l)
		}
	}

	head("Weight")
	for _, x := range r.Report.Weights {
		fmt.Fprintf(w, "  %-32s %8s %s  %s\n", page.Plain(x.Name), t.ShowMass(x.Mass), t.MassUnit(), x.How)
	}
	fmt.Fprintf(w, "  %-32s %8s %s\n", "the cart alone", t.ShowMass(r.Report.Empty), t.MassUnit())
	fmt.Fprintf(w, "  %-32s %8s %s\n", "with all it carries", t.ShowMass(r.Report.Loaded), t.MassUnit())
	for _, x := range r.Report.States {
		fmt.Fprintf(w, "  centre of gravity, %-24s %s right, %s back, %s up\n", page.Plain(x.Name), away(t, x.At[0]), away(t, x.At[1]), away(t, x.At[2]))
	}

	head("Checks")
	for _, s := range r.Report.Sums {
		fmt.Fprintf(w, "  %s: %s\n", page.Plain(s.Title), page.Plain(s.Verdict))
		sum := func(indent string, rows []check.SumRow) {
			for _, row := range rows {
				fmt.Fprintf(w, "%s%-44s %14s  %s\n", indent, page.Plain(row.Cause), page.Plain(row.Result), page.Plain(row.Factors))
			}
		}
		sum("      ", s.Rows)
		for _, x := range s.Subs {
			fmt.Fprintf(w, "      %s: %s\n", page.Plain(x.Title), page.Plain(x.Result))
			sum("          ", x.Rows)
		}
		for _, m := range s.Mends {
			fmt.Fprintf(w, "      to mend it: %s: %s\n", page.Plain(m.Text), page.Plain(m.Result))
		}
		if s.Source != "" {
			fmt.Fprintf(w, "      %s\n", page.Plain(s.Source))
		}
	}

	head("Findings")
	for _, f := range r.Findings {
		fmt.Fprintf(w, "  %s: %s\n", word(f.Level), page.Plain(page.Sentence(f, t)))
	}
	if len(r.Findings) == 0 {
		fmt.Fprintln(w, "  None.")
	}
	fmt.Fprintln(w, "\nThis is a planning aid. Your tools' manuals, local codes and licensed practice come first.")
}

// away is a place in metres in the unit of the tape.
func away(t measure.Tape, m float64) string {
	if t.Metric {
		return strconv.FormatFloat(m*1000, 'f', 0, 64) + " mm"
	}
	return strconv.FormatFloat(m/0.0254, 'f', 1, 64) + " in"
}

func word(l issue.Level) string { return [...]string{"note", "warning", "stop"}[l] }

func materialName(p *project.Project, id string) string {
	if m, ok := p.Material(id); ok && m.Name != "" {
		return m.Name
	}
	return id
}

func pieceName(name string, sheet int) string {
	if name == "" {
		return "sheet " + strconv.Itoa(sheet+1)
	}
	return name
}

// makes says what comes off a cut.
func makes(t measure.Tape, c work.Cut) string {
	var s []string
	for i, m := range c.Makes {
		name := m.Name
		if i < len(c.Kinds) {
			switch c.Kinds[i] {
			case work.ToWaste:
				name = "waste"
			case work.ToKeep:
				name = "keep"
			}
		}
		s = append(s, strings.TrimSpace(name+" "+t.Plain(m.L)+" × "+t.Plain(m.W)))
	}
	return strings.Join(s, ", ")
}
