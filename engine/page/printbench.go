package page

import "strconv"

// printBench is what is wanted at the bench on paper: the steps, then a sheet
// for each part with holes, four a page; spacers, drawer cards, finish.
func (b *builder) printBench(when string, picture func(int) item) node {
	b.ReadOnly = true // no buttons on paper
	tags := b.partTags()
	var cells []node
	for i := range b.Bench.Steps {
		cells = append(cells, div("quarter", el("p", attr{"class", "from"}, span("square"), text(" Step "+strconv.Itoa(i+1))), when4(len(b.Bench.Steps[i].Adds)+len(b.Bench.Steps[i].Have) > 0, picture, i), b.step(i, tags)))
	}
	out := fours("Steps, in order", cells, b.foot("Steps.", when))
	cells = nil
	for i, p := range b.Cart.Parts {
		has := false
		for _, d := range b.Bench.Drills {
			has = has || d.Part == i
		}
		if has {
			cells = append(cells, div("quarter", el("p", attr{"class", "from"}, span("square"), tag(tags[p.ID], false), text(" "+b.partName(p))), picture(-1-i), b.drillRows(i)))
		}
	}
	out = append(out, fours("Holes, part by part", cells, b.foot("Holes.", when))...)
	return append(out, el("article", attr{"class", "page list"}, el("h1", text("Spacers, drawers, finish")),
		opened(b.spacers()), opened(b.cards()), opened(b.finish()), b.foot("Spacers, drawers, finish.", when)))
}

func when4(ok bool, picture func(int) item, i int) item {
	if !ok {
		return nil
	}
	return picture(i)
}

// fours puts cells on pages, four on each.
func fours(title string, cells []node, foot node) nodes {
	out := nodes{}
	for i := 0; i < len(cells); i += 4 {
		page := nodes{}
		for _, c := range cells[i:min(i+4, len(cells))] {
			page = append(page, c)
		}
		out = append(out, el("article", attr{"class", "page four"}, el("h1", text(title)), div("quarters", page), foot))
	}
	return out
}

// opened is a fold-out on paper: always open.
func opened(n node) node {
	switch e := n.(type) {
	case nodes:
		for i := range e {
			e[i] = opened(e[i])
		}
	case *element:
		switch e.tag {
		case "details":
			e.tag = "section"
		case "summary":
			e.tag = "h2"
		case "input", "label":
			return nodes{}
		}
		for i := range e.kids {
			e.kids[i] = opened(e.kids[i])
		}
	}
	return n
}
