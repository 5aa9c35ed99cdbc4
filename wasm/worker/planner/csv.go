package planner

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"cartwright/engine/measure"
	"cartwright/engine/page"
	"cartwright/engine/project"
)

// rows takes a text of RFC 4180 apart; empty lines are left out. Package
// encoding/csv would do, for 10 kB of everyone's download.
func rows(text string) (out [][]string, err error) {
	var row []string
	var cell strings.Builder
	quoted := false
	text = strings.ReplaceAll(text, "\r\n", "\n")
	end := func() {
		if row = append(row, cell.String()); len(row) > 1 || strings.TrimSpace(row[0]) != "" {
			out = append(out, row)
		}
		row = nil
		cell.Reset()
	}
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case quoted && c == '"' && i+1 < len(text) && text[i+1] == '"':
			cell.WriteByte('"')
			i++
		case c == '"' && (quoted || strings.TrimSpace(cell.String()) == ""):
			if quoted = !quoted; quoted {
				cell.Reset()
			}
		case quoted:
			cell.WriteByte(c)
		case c == ',':
			row = append(row, cell.String())
			cell.Reset()
		case c == '\n':
			end()
		default:
			cell.WriteByte(c)
		}
	}
	if quoted {
		return nil, fmt.Errorf("row %d: a quotation mark is never closed", len(out)+1)
	}
	end()
	return out, nil
}

// mostRows is the longest cut list that is read.
const mostRows = 400

// readCSV adds the rows of a cut list to the extra parts, as one step.
func (p *Planner) readCSV(name, text string) error {
	if p.doc == nil || p.readOnly {
		return refuse("“%s” is a cut list: open a project first that can be changed.", name)
	}
	extra, err := ParseCSV(p.doc.Measure(), text)
	if err != nil {
		return refuse("“%s”: %s Nothing was added.", name, sentence(err))
	}
	next := p.doc.Clone()
	next.Extra = append(next.Extra, extra...)
	p.before()
	p.change(next)
	p.keepDoc()
	p.reply.Alert = fmt.Sprintf("“%s”: %d lines were added to the extra parts. Undo takes them out again.", name, len(extra))
	return nil
}

// ParseCSV reads a cut list: a heading, then a row for each line. Lengths
// without a unit are in the tape's. Errors name the row.
func ParseCSV(tape measure.Tape, text string) ([]project.Extra, error) {
	table, err := rows(strings.TrimPrefix(text, "\ufeff"))
	switch {
	case err != nil:
		return nil, err
	case len(table) == 0:
		return nil, errors.New("there is no heading")
	case len(table) > mostRows+1:
		return nil, fmt.Errorf("it has more than %d rows", mostRows)
	}
	head := table[0]
	at := map[string]int{}
	for i, h := range head {
		at[strings.ToLower(strings.TrimSpace(h))] = i
	}
	for _, c := range []string{"length", "width"} {
		if _, ok := at[c]; !ok {
			return nil, fmt.Errorf("the heading has no %q: it should be %s", c, strings.Join(page.CutListColumns[:], ","))
		}
	}
	var out []project.Extra
	for i, rec := range table[1:] {
		row := i + 2
		if len(rec) != len(head) {
			return nil, fmt.Errorf("row %d has %d columns, the heading %d", row, len(rec), len(head))
		}
		cell := func(name string) string {
			if i, ok := at[name]; ok {
				return strings.TrimPrefix(strings.TrimSpace(rec[i]), "'")
			}
			return ""
		}
		e := project.Extra{Name: cell("name"), Grain: cell("grain"), Material: cell("material")}
		for i, to := range []*measure.Length{&e.Length, &e.Width, &e.Thickness} {
			name := page.CutListColumns[1+i]
			s := cell(name)
			if s == "" && name == "thickness" {
				continue
			}
			if *to, err = tape.Parse(s); err != nil {
				return nil, fmt.Errorf("row %d, %s: could not read %q: %v", row, name, s, err)
			}
		}
		if s := cell("count"); s != "" {
			if e.Count, err = strconv.Atoi(s); err != nil || e.Count < 1 || e.Count > 1000 {
				return nil, fmt.Errorf("row %d, count: %q is not a number from 1 to 1000", row, s)
			}
		}
		if g := e.Grain; g != "" && g != "length" && g != "width" && g != "free" {
			return nil, fmt.Errorf("row %d, grain: %q is not length, width or free", row, g)
		}
		out = append(out, e)
	}
	if len(out) == 0 {
		return nil, errors.New("there are no rows under the heading")
	}
	return out, nil
}
