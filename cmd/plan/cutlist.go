package main

import (
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

// cutlistOptions are the flags of the plain cut list.
type cutlistOptions struct {
	parts, stock          string // CSV files
	kerf, storeKerf, trim length
	cars                  sizes
	storeCuts             int
}

func (o *cutlistOptions) register(fs *flag.FlagSet) {
	fs.StringVar(&o.parts, "cutlist", "", "plan the cut list in `FILE.csv` instead of a project")
	fs.StringVar(&o.stock, "stock", "", "cut it from the sheets and boards in `FILE.csv`")
	o.kerf = length(measure.Inch / 8)
	o.storeKerf = -1
	fs.Var(&o.kerf, "kerf", "`L` is what the shop's widest saw takes away, with its unit (default 1/8 in)")
	fs.Var(&o.cars, "car", "`LxW` is a rectangle that fits the car, such as \"44 in x 30 in\"; may be given again; left out, the sheets are cut at home and the store does not cut")
	fs.IntVar(&o.storeCuts, "storecuts", -1, "the store makes at most `N` cuts a sheet (0: it does not cut; negative: no limit)")
	fs.Var(&o.storeKerf, "storekerf", "`L` is what the store's saw takes away (default: as -kerf)")
	fs.Var(&o.trim, "storetrim", "`L` is taken off each edge that the store cut (default 0)")
}

// A length is a flag that holds one.
type length measure.Length

func (l *length) String() string {
	if l == nil || *l <= 0 {
		return ""
	}
	return measure.Length(*l).String()
}

func (l *length) Set(s string) error {
	v, err := measure.Parse(s)
	if err == nil && v < 0 {
		err = errors.New("it cannot be below zero")
	}
	*l = length(v)
	return err
}

// sizes is a flag that may be given again: "44 in x 30 in".
type sizes []nest.Size

func (s *sizes) String() string { return "" }

func (s *sizes) Set(text string) error {
	v, err := parseSize(text)
	*s = append(*s, v)
	return err
}

// parseSize reads "44 in x 30 in", "44x30 in" or "1.1 m × 700 mm".
func parseSize(text string) (nest.Size, error) {
	a, b, ok := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(text), "x")
	if !ok {
		return nest.Size{}, errors.New("write two lengths with an x between them, such as 44 in x 30 in")
	}
	w, err := measure.Parse(b)
	if err != nil {
		return nest.Size{}, fmt.Errorf("%q: %w", b, err)
	}
	l, err := measure.Parse(a)
	if err != nil { // "44x30 in": the unit stands once
		for _, unit := range []string{" in", " mm", " cm", " m", " ft"} {
			if strings.HasSuffix(strings.TrimSpace(b), strings.TrimSpace(unit)) {
				if v, again := measure.Parse(a + unit); again == nil {
					l, err = v, nil
					break
				}
			}
		}
	}
	if err != nil {
		return nest.Size{}, fmt.Errorf("%q: %w", a, err)
	}
	if l <= 0 || w <= 0 {
		return nest.Size{}, errors.New("both lengths must be above zero")
	}
	return nest.Size{L: l, W: w}, nil
}

// Columns of the two lists.
var (
	partColumns  = []string{"name", "length", "width", "thickness", "count", "grain", "material"}
	stockColumns = []string{"name", "length", "width", "thickness", "grain", "price", "count", "material"}
)

// table reads a CSV file with a heading and returns its rows by column, with
// the line each began on. Columns may stand in any order; name, length and
// width must be there.
func table(file string, columns []string) (rows []map[string]string, lines []int, err error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	r := csv.NewReader(io.LimitReader(f, 16<<20))
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	head, err := r.Read()
	if err == io.EOF {
		return nil, nil, fmt.Errorf("%s: the file is empty; its first line names the columns %s", file, strings.Join(columns, ","))
	}
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", file, err)
	}
	head[0] = strings.TrimPrefix(head[0], "\ufeff")
	seen := map[string]bool{}
	for i, h := range head {
		h = strings.ToLower(strings.TrimSpace(h))
		head[i] = h
		known := false
		for _, c := range columns {
			known = known || c == h
		}
		if !known {
			return nil, nil, fmt.Errorf("%s line 1: there is no column %q; the columns are %s", file, h, strings.Join(columns, ","))
		}
		if seen[h] {
			return nil, nil, fmt.Errorf("%s line 1: the column %q stands twice", file, h)
		}
		seen[h] = true
	}
	for _, must := range columns[:3] {
		if !seen[must] {
			return nil, nil, fmt.Errorf("%s line 1: the column %q is missing; the columns are %s", file, must, strings.Join(columns, ","))
		}
	}
	for {
		rec, err := r.Read()
		if err == io.EOF {
			return rows, lines, nil
		}
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", file, err)
		}
		line, _ := r.FieldPos(0)
		if len(rec) > len(head) {
			return nil, nil, fmt.Errorf("%s line %d: %d fields, but the heading has %d; put text with a comma in quotes", file, line, len(rec), len(head))
		}
		row := map[string]string{}
		for i, v := range rec {
			row[head[i]] = strings.TrimSpace(v)
		}
		rows, lines = append(rows, row), append(lines, line)
	}
}

// field reads the values of one row and remembers the first that is wrong.
type field struct {
	file string
	line int
	row  map[string]string
	err  error
}

func (f *field) fail(column string, err error) {
	if f.err == nil {
		f.err = fmt.Errorf("%s line %d, %s: %w", f.file, f.line, column, err)
	}
}

func (f *field) length(column string, empty measure.Length) measure.Length {
	s := f.row[column]
	if s == "" && empty != 0 {
		return empty
	}
	v, err := measure.Parse(s)
	if err == nil && v <= 0 {
		err = errors.New("it must be above zero")
	}
	if err != nil {
		f.fail(column, err)
	}
	return v
}

func (f *field) count(column string, empty int) int {
	s := f.row[column]
	if s == "" {
		return empty
	}
	n, err := strconv.Atoi(s)
	if err != nil || n < 0 {
		f.fail(column, fmt.Errorf("%q is not a whole number", s))
	}
	return n
}

func (f *field) grain() nest.Grain {
	switch strings.ToLower(f.row["grain"]) {
	case "", "free":
		return nest.Free
	case "length":
		return nest.Along
	case "width":
		return nest.Across
	}
	f.fail("grain", fmt.Errorf("%q is not length, width or free", f.row["grain"]))
	return nest.Free
}

func (f *field) price() measure.Money {
	if f.row["price"] == "" {
		return 0
	}
	m, err := measure.ParseMoney(f.row["price"])
	if err == nil && m < 0 {
		err = errors.New("a price cannot be below zero")
	}
	if err != nil {
		f.fail("price", err)
	}
	return m
}

// material is the name that parts and stock must share: the material with
// its thickness.
func (f *field) material() string {
	m := f.row["material"]
	if t := f.row["thickness"]; t != "" {
		v := f.length("thickness", 0)
		m = strings.TrimSpace(m + " " + v.String())
	}
	return m
}

// unique returns name, or name with a number if it was used before.
func unique(used map[string]bool, name, what string) string {
	if name == "" {
		name = what
	}
	id := name
	for n := 2; used[id]; n++ {
		id = fmt.Sprintf("%s (%d)", name, n)
	}
	used[id] = true
	return id
}

// readJob makes the job that the flags and files describe.
func (o *cutlistOptions) readJob() (nest.Job, error) {
	job := nest.Job{Kerf: measure.Length(o.kerf), Car: o.cars}
	job.Store = nest.Store{Cuts: o.storeCuts, Kerf: measure.Length(o.storeKerf), Trim: measure.Length(o.trim)}
	if o.storeKerf < 0 {
		job.Store.Kerf = job.Kerf
	}
	if o.parts == "" || o.stock == "" {
		return job, errors.New("a cut list and its stock go together: -cutlist FILE.csv -stock FILE.csv")
	}
	rows, lines, err := table(o.parts, partColumns)
	if err != nil {
		return job, err
	}
	used := map[string]bool{}
	for i, row := range rows {
		f := field{file: o.parts, line: lines[i], row: row}
		job.Parts = append(job.Parts, nest.Part{ID: unique(used, row["name"], "part"), Material: f.material(),
			L: f.length("length", 0), W: f.length("width", 0), Count: f.count("count", 1), Grain: f.grain()})
		if f.err != nil {
			return job, f.err
		}
	}
	if rows, lines, err = table(o.stock, stockColumns); err != nil {
		return job, err
	}
	clear(used)
	for i, row := range rows {
		f := field{file: o.stock, line: lines[i], row: row}
		// Without a car there is no store tier: everything is cut at home.
		job.Stock = append(job.Stock, nest.Stock{ID: unique(used, row["name"], "stock"), Material: f.material(),
			L: f.length("length", 0), W: f.length("width", 0), Price: f.price(), Count: f.count("count", -1),
			Grain: f.grain(), AtShop: len(o.cars) == 0})
		if f.err != nil {
			return job, f.err
		}
	}
	return job, nil
}
