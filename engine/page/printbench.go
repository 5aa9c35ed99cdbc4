package page

import (
	"strconv"

	"cartwright/engine/work"
)

// printBench is what is wanted at the bench on paper: the steps four a page,
// then a quarter page for each part with holes, more where its rows need it;
// the spacer card, the drawer cards, the finish.
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
		var cell *element
		room, n := 0, 0
		for _, d := range b.Bench.Drills {
			if d.Part != i {
				continue
			}
			n++
			need := b.rowHeight(d)
			if cell == nil || room < need {
				head := el("p", attr{"class", "from"}, span("square"), tag(tags[p.ID], false), text(" "+b.partName(p)))
				pic := item(nil)
				if room = quarterRoom; n > 1 {
					text(", continued").join(head)
				} else {
					room, pic = quarterRoom*4/5, picture(-1-i)
				}
				list := el("ul", attr{"class", "plainlist drills"})
				cells = append(cells, div("quarter", head, pic, list))
				cell = list
			}
			room -= need
			b.drillRow(d, strconv.Itoa(n)+". ", nodes{}).join(cell)
		}
	}
	out = append(out, fours("Holes, part by part, from the edges named ("+Plain(tapeName(b.t))+")", cells, b.foot("Holes.", when))...)
	list := func(title string, n node) {
		if e, ok := n.(nodes); !ok || len(e) > 0 {
			out = append(out, el("article", attr{"class", "page list"}, el("h1", text(title)), opened(n), b.foot(title+".", when)))
		}
	}
	list("Spacers", b.spacers())
	cells = nil
	for _, h := range work.Hang(b.Project, b.Cart, b.State) {
		cells = append(cells, div("quarter", el("p", attr{"class", "from"}, span("square"), text(" "+b.drawerName(h))), b.hangList(h),
			el("p", attr{"class", "write"}, text("Box as built, at the front ________ at the back ________"))))
	}
	out = append(out, fours("Hanging the drawers, the lowest first", cells, b.foot("Drawers.", when))...)
	list("Finish", b.finish())
	return out
}

// quarterRoom is the height of a quarter page for rows of holes, and rowHeight
// that of a row, in tenths of a millimetre: by its letters, some 54 to a line of
// 4.1 mm.
const quarterRoom = 840

func (b *builder) rowHeight(d work.Drill) int {
	what, more := b.drillText(d)
	places, pairs := b.places(d)
	n := len(Plain(what)) + 4
	tall := 24
	for _, p := range places {
		if pairs {
			tall = 24 + 46*(len(p.at)+1)
			continue
		}
		for _, s := range p.at {
			n += len(Plain(s)) * 5 / 4
		}
		n += len(p.from) + 4
	}
	return tall + (n/54+1)*41 + (len(Plain(more))/62+1)*36
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
