package project

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"cartwright/engine/measure"
)

// MaxFile is the size above which a file is refused unread: an honest project
// is a few hundred kilobytes, and as much again for each thousand of marks.
const MaxFile = 16 << 20

// limits of an honest project: more bays and lines than these, or more marks
// with their pieces, are an attack or an accident.
const (
	maxItems = 20_000
	maxMarks = 100_000
)

// ErrNewer is the error of a file made for a later reader.
type ErrNewer struct{ File, Reader int }

func (e ErrNewer) Error() string {
	return fmt.Sprintf("This file was made by version %d; this program reads up to %d. Open it with a newer Cartwright. Nothing was changed.", e.File, e.Reader)
}

type header struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	Needs   int    `json:"needs"`
}

// Open reads a project file. Fields that this build does not know are kept in
// the Unknown of the section they stand in and named in Warnings; Save writes
// them back. Errors are sentences that name the field.
func Open(data []byte) (*Project, error) {
	if len(data) > MaxFile {
		return nil, fmt.Errorf("This file is %d MB large; a project is never more than %d MB. It was not opened.", len(data)>>20, MaxFile>>20)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	var h header
	if err := json.Unmarshal(data, &h); err != nil {
		if h.Format != Format {
			return nil, fmt.Errorf("This is not a project file, or it is damaged: %v.", reason(err))
		}
		return nil, fmt.Errorf("This project file is damaged: %v.", reason(err))
	}
	if h.Format != Format {
		return nil, errors.New("This is not a Cartwright project: it does not begin with \"format\": \"" + Format + "\".")
	}
	if needs := cmpOr(h.Needs, h.Version); needs > Version {
		return nil, ErrNewer{needs, Version}
	}
	if h.Version < 1 {
		return nil, fmt.Errorf("This project file is damaged: version %d does not exist.", h.Version)
	}
	p := new(Project)
	d := decoder{}
	if err := d.value(data, reflect.ValueOf(p).Elem(), ""); err != nil {
		return nil, err
	}
	for _, k := range []string{"format", "version", "needs"} {
		delete(p.Unknown, k)
	}
	if len(p.Unknown) == 0 {
		p.Unknown = nil
	}
	p.Warnings = slices.DeleteFunc(d.unknown, func(s string) bool { return s == "format" || s == "version" || s == "needs" })
	return p, nil
}

func cmpOr(a, b int) int {
	if a != 0 {
		return a
	}
	return b
}

// reason shortens an error of encoding/json to what helps a person.
func reason(err error) string {
	var syn *json.SyntaxError
	if errors.As(err, &syn) {
		return fmt.Sprintf("after %d bytes: %v", syn.Offset, strings.TrimPrefix(err.Error(), "json: "))
	}
	return strings.TrimPrefix(err.Error(), "json: ")
}

var (
	unknownType = reflect.TypeFor[Unknown]()
	rawType     = reflect.TypeFor[json.RawMessage]()
	textType    = reflect.TypeFor[encoding.TextUnmarshaler]()
	lengthType  = reflect.TypeFor[measure.Length]()
)

type decoder struct {
	unknown      []string
	items, marks int
}

// fieldName returns the JSON name of a field, "" if it is not in the file.
func fieldName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	if name == "-" {
		return ""
	}
	return name
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// value reads data into v; path names the place for errors.
func (d *decoder) value(data json.RawMessage, v reflect.Value, path string) error {
	bad := func(want string) error {
		s := string(data)
		if len(s) > 40 {
			s = s[:40] + "…"
		}
		return fmt.Errorf("%s: %s is not %s.", path, s, want)
	}
	if v.Type() == rawType {
		v.SetBytes(bytes.Clone(data))
		return nil
	}
	if string(data) == "null" {
		return nil
	}
	if v.CanAddr() && v.Addr().Type().Implements(textType) {
		var s string
		if json.Unmarshal(data, &s) != nil {
			return bad("a text such as \"23 5/8 in\"")
		}
		if err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(s)); err != nil {
			return fmt.Errorf("%s: could not read %q: %v.", path, s, err)
		}
		return nil
	}
	switch v.Kind() {
	case reflect.Struct:
		var fields map[string]json.RawMessage
		if json.Unmarshal(data, &fields) != nil {
			return bad("a section in braces")
		}
		var unknown reflect.Value
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if f.Type == unknownType {
				unknown = v.Field(i)
				continue
			}
			name := fieldName(f)
			raw, ok := fields[name]
			if name == "" || !ok {
				continue
			}
			delete(fields, name)
			if err := d.value(raw, v.Field(i), join(path, name)); err != nil {
				return err
			}
		}
		if len(fields) > 0 && unknown.IsValid() {
			unknown.Set(reflect.ValueOf(Unknown(fields)))
		}
		for _, k := range slices.Sorted(maps.Keys(fields)) {
			d.unknown = append(d.unknown, join(path, k))
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		return d.value(data, v.Elem(), path)
	case reflect.Slice:
		var items []json.RawMessage
		if json.Unmarshal(data, &items) != nil {
			return bad("a list in brackets")
		}
		n, most := &d.items, maxItems
		if path == "journal" || strings.HasPrefix(path, "journal.") {
			n, most = &d.marks, maxMarks
		}
		if *n += len(items); *n > most {
			return fmt.Errorf("%s: the file holds more than %d entries in its lists. It was not opened.", path, most)
		}
		if len(items) == 0 {
			return nil
		}
		v.Set(reflect.MakeSlice(v.Type(), len(items), len(items)))
		for i, raw := range items {
			if err := d.value(raw, v.Index(i), join(path, strconv.Itoa(i))); err != nil {
				return err
			}
		}
	case reflect.String:
		var s string
		if json.Unmarshal(data, &s) != nil {
			return bad("a text in quotes")
		}
		v.SetString(s)
	case reflect.Bool:
		var b bool
		if json.Unmarshal(data, &b) != nil {
			return bad("true or false")
		}
		v.SetBool(b)
	case reflect.Int:
		var n int64
		if json.Unmarshal(data, &n) != nil || n > 1e9 || n < -1e9 {
			return bad("a whole number")
		}
		v.SetInt(n)
	case reflect.Uint64:
		var n uint64
		if json.Unmarshal(data, &n) != nil {
			return bad("a whole number")
		}
		v.SetUint(n)
	case reflect.Float64:
		var f float64
		if json.Unmarshal(data, &f) != nil || math.Abs(f) > 1e9 {
			return bad("a number")
		}
		v.SetFloat(f)
	default:
		panic("project: no codec for " + v.Type().String())
	}
	return nil
}

// Save returns the file form of p: fields in fixed order, two spaces of indent,
// default values left out. Lengths are written in the tape of the project
// where that is exact. Save(Open(x)) is a fixed point.
func Save(p *Project) []byte {
	e := encoder{tape: p.Measure()}
	e.b = append(e.b, "{\n  \"format\": \""+Format+"\",\n  \"version\": 1"...)
	e.fields(reflect.ValueOf(p).Elem(), 1, true)
	e.b = append(e.b, "\n}\n"...)
	return e.b
}

type encoder struct {
	b    []byte
	tape measure.Tape
}

func (e *encoder) newline(depth int) {
	e.b = append(e.b, '\n')
	for range depth {
		e.b = append(e.b, "  "...)
	}
}

// fields writes the non-zero fields of a struct; more says that something
// stands before them.
func (e *encoder) fields(v reflect.Value, depth int, more bool) {
	put := func(name string, write func()) {
		if more {
			e.b = append(e.b, ',')
		}
		more = true
		e.newline(depth)
		e.quote(name)
		e.b = append(e.b, ": "...)
		write()
	}
	var unknown Unknown
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if f.Type == unknownType {
			unknown = v.Field(i).Interface().(Unknown)
			continue
		}
		if name := fieldName(f); name != "" && !empty(v.Field(i)) {
			put(name, func() { e.value(v.Field(i), depth) })
		}
	}
	for _, k := range slices.Sorted(maps.Keys(unknown)) {
		put(k, func() { e.raw(unknown[k], depth) })
	}
}

// empty reports whether a value is its default and need not be written.
func empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map:
		return v.Len() == 0
	case reflect.Struct:
		for i := range v.NumField() {
			if !empty(v.Field(i)) {
				return false
			}
		}
		return true
	}
	return v.IsZero()
}

func (e *encoder) raw(raw json.RawMessage, depth int) {
	var out bytes.Buffer
	if json.Indent(&out, raw, strings.Repeat("  ", depth), "  ") != nil {
		e.b = append(e.b, "null"...)
		return
	}
	e.b = append(e.b, out.Bytes()...)
}

func (e *encoder) quote(s string) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(s); err != nil {
		panic("project: " + err.Error())
	}
	e.b = append(e.b, bytes.TrimRight(out.Bytes(), "\n")...)
}

func (e *encoder) value(v reflect.Value, depth int) {
	switch {
	case v.Type() == rawType:
		e.raw(v.Bytes(), depth)
		return
	case v.Type() == lengthType:
		e.quote(e.tape.Exact(measure.Length(v.Int())))
		return
	}
	if t, ok := v.Interface().(encoding.TextMarshaler); ok {
		b, err := t.MarshalText()
		if err != nil {
			panic("project: " + err.Error())
		}
		e.quote(string(b))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		e.b = append(e.b, '{')
		n := len(e.b)
		e.fields(v, depth+1, false)
		if len(e.b) > n {
			e.newline(depth)
		}
		e.b = append(e.b, '}')
	case reflect.Pointer:
		e.value(v.Elem(), depth)
	case reflect.Slice:
		e.b = append(e.b, '[')
		for i := range v.Len() {
			if i > 0 {
				e.b = append(e.b, ',')
			}
			e.newline(depth + 1)
			e.value(v.Index(i), depth+1)
		}
		e.newline(depth)
		e.b = append(e.b, ']')
	case reflect.String:
		e.quote(v.String())
	case reflect.Bool:
		e.b = strconv.AppendBool(e.b, v.Bool())
	case reflect.Int:
		e.b = strconv.AppendInt(e.b, v.Int(), 10)
	case reflect.Uint64:
		e.b = strconv.AppendUint(e.b, v.Uint(), 10)
	case reflect.Float64:
		e.b = strconv.AppendFloat(e.b, v.Float(), 'g', -1, 64)
	default:
		panic("project: no codec for " + v.Type().String())
	}
}
