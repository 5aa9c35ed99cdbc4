package planner

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"cartwright/engine/measure"
	"cartwright/engine/part"
	"cartwright/engine/project"
)

// The columns of a cut list, as command plan reads and writes them.
var columns = []string{"name", "length", "width", "thickness", "count", "grain", "material"}

var grains = map[part.Grain]string{part.AlongLength: "length", part.AlongWidth: "width", part.AnyWay: "free"}

// CSV is a cut list as RFC 4180 has it, lengths with their unit. A text that a
// spreadsheet would take for a formula gets an apostrophe before it.
func CSV(tape measure.Tape, lines []part.Line) string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	w.Write(columns)
	for _, l := range lines {
		w.Write([]string{harmless(l.Name), tape.Exact(l.Length), tape.Exact(l.Width), tape.Exact(l.Thick),
			strconv.Itoa(l.Count), grains[l.Grain], harmless(l.Material)})
	}
	w.Flush()
	return b.String()
}

func harmless(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
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
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
	r.TrimLeadingSpace = true
	head, err := r.Read()
	if err != nil {
		return nil, errors.New("there is no heading")
	}
	at := map[string]int{}
	for i, h := range head {
		at[strings.ToLower(strings.TrimSpace(h))] = i
	}
	for _, c := range []string{"length", "width"} {
		if _, ok := at[c]; !ok {
			return nil, fmt.Errorf("the heading has no %q: it should be %s", c, strings.Join(columns, ","))
		}
	}
	var out []project.Extra
	for row := 2; ; row++ {
		rec, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("row %d: its columns do not match the heading", row)
		}
		if len(out) == mostRows {
			return nil, fmt.Errorf("it has more than %d rows", mostRows)
		}
		cell := func(name string) string {
			if i, ok := at[name]; ok && i < len(rec) {
				return strings.TrimPrefix(strings.TrimSpace(rec[i]), "'")
			}
			return ""
		}
		e := project.Extra{Name: cell("name"), Grain: cell("grain"), Material: cell("material")}
		for name, to := range map[string]*measure.Length{"length": &e.Length, "width": &e.Width, "thickness": &e.Thickness} {
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
