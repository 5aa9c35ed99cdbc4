package page

import (
	"strconv"
	"strings"

	"cartwright/engine/issue"
)

// sign is the mark of a level: a filled octagon, an open triangle, a square.
func sign(l issue.Level) drawn {
	switch l {
	case issue.Block:
		return octagon
	case issue.Warn:
		return triangle
	}
	return square
}

// findingsPanel lists the findings, the heaviest first; most limits how many,
// 0 for all.
func (b *builder) findingsPanel(most int) node {
	if len(b.Findings) == 0 {
		if b.place() == Check {
			return el("p", attr{"class", "fine"}, icon(tick), text("Nothing stands in the way."))
		}
		return nil
	}
	items := nodes{}
	left := 0
	for i := 0; i < len(b.Findings); {
		if most > 0 && len(items) == most {
			left = len(b.Findings) - i
			break
		}
		// Many of one kind: the first, and the others on demand.
		n := i + 1
		for n < len(b.Findings) && b.Findings[n].Code == b.Findings[i].Code {
			n++
		}
		if n-i < 3 {
			n = i + 1
		}
		items = append(items, b.finding(i, b.Findings[i]))
		if n > i+1 {
			like := nodes{}
			for k := i + 1; k < n; k++ {
				like = append(like, b.finding(k, b.Findings[k]))
			}
			items[len(items)-1] = nodes{items[len(items)-1],
				more("like-"+string(b.Findings[i].Code), strconv.Itoa(n-i-1)+" more like it", like)}
		}
		i = n
	}
	out := nodes{div("findings", items)}
	if b.place() != Check {
		out = append(nodes{el("h2", text("To look at"))}, out...)
	}
	if left > 0 {
		out = append(out, button("plain", do(doPlace, "to", string(Check)), attr{"id", "all-findings"},
			text(strconv.Itoa(left)+" more at Check")))
	}
	return out
}

func (b *builder) finding(i int, f issue.Finding) node {
	class := [...]string{"note", "warn", "stop"}[f.Level]
	word := [...]string{"Worth knowing: ", "Will go wrong: ", "Stops the work: "}[f.Level]
	go_ := item(nil)
	for _, w := range f.Where {
		if place, ok := placeOf(w); ok {
			go_ = button("plain", do(doPlace, "to", string(place), "path", leaf(w)), attr{"id", "go-" + strconv.Itoa(i)}, text("Show"))
			break
		}
	}
	head, rest, _ := strings.Cut(b.say(f), ". ")
	body := nodes{el("b", span("sr", text(word)), span("", rich(strings.TrimSuffix(head, ".")+".")))}
	if rest != "" {
		body = append(body, el("p", rich(rest)))
	}
	return el("div", attr{"class", class}, attr{"id", "finding-" + strconv.Itoa(i)}, icon(sign(f.Level)), div("", body), go_)
}

// placeOf is the place where the field of a path stands.
func placeOf(path string) (Place, bool) {
	head, _, dotted := strings.Cut(path, ".")
	if !dotted {
		return "", false
	}
	switch path {
	case "drawers.slideRating", "drawers.interlock", "base.ballast":
		return Check, true // see countsOn
	}
	switch head {
	case "loads":
		return Check, true
	case "lineUp", "machine", "cabinet", "drawers", "base", "stock", "shop", "store", "car":
		return Size, true
	case "extra":
		return Parts, true
	}
	return "", false
}

// leaf is the path of a control: the first one of a list or a group.
func leaf(path string) string {
	last := path[strings.LastIndexByte(path, '.')+1:]
	switch {
	case path == "cabinet.bays":
		return path + ".0.width"
	case last == "openings":
		return path + ".0.height"
	case last == "holds":
		return path + ".width"
	case path == "cabinet.top.overhang":
		return path + ".front"
	case isDigit(last[0]) && strings.Contains(path, ".openings."):
		return path + ".height"
	case isDigit(last[0]) && strings.HasPrefix(path, "cabinet.bays."):
		return path + ".width"
	case isDigit(last[0]):
		return path + ".length"
	}
	return path
}
