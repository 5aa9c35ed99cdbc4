package project

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"cartwright/engine/mark"
	"cartwright/engine/measure"
)

// Clone returns a copy of p that shares nothing with it that an edit changes.
func (p *Project) Clone() *Project {
	q := new(Project)
	cloneInto(reflect.ValueOf(q).Elem(), reflect.ValueOf(p).Elem())
	return q
}

var journalType = reflect.TypeFor[[]mark.Mark]()

func cloneInto(dst, src reflect.Value) {
	switch src.Kind() {
	case reflect.Struct:
		for i := range src.NumField() {
			cloneInto(dst.Field(i), src.Field(i))
		}
	case reflect.Pointer:
		if !src.IsNil() {
			dst.Set(reflect.New(src.Type().Elem()))
			cloneInto(dst.Elem(), src.Elem())
		}
	case reflect.Slice:
		if src.Type() == rawType || src.IsNil() {
			dst.Set(src) // raw text is never changed in place
			return
		}
		if src.Type() == journalType { // entries are only ever added
			dst.Set(src.Slice3(0, src.Len(), src.Len()))
			return
		}
		dst.Set(reflect.MakeSlice(src.Type(), src.Len(), src.Len()))
		for i := range src.Len() {
			cloneInto(dst.Index(i), src.Index(i))
		}
	default: // maps of unknown fields are never changed in place
		dst.Set(src)
	}
}

// find walks a dotted path of JSON names and list indices from the project.
// Missing pointers on the way are made.
func find(p *Project, path string) (reflect.Value, error) {
	v := reflect.ValueOf(p).Elem()
	for name := range strings.SplitSeq(path, ".") {
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				v.Set(reflect.New(v.Type().Elem()))
			}
			v = v.Elem()
		}
		switch v.Kind() {
		case reflect.Struct:
			found := false
			for i := range v.NumField() {
				if fieldName(v.Type().Field(i)) == name && name != "" {
					v, found = v.Field(i), true
					break
				}
			}
			if !found {
				return v, fmt.Errorf("there is no field %s", path)
			}
		case reflect.Slice:
			i, err := strconv.Atoi(name)
			if err != nil || i < 0 || i >= v.Len() || v.Type() == rawType {
				return v, fmt.Errorf("there is no entry %s", path)
			}
			v = v.Index(i)
		default:
			return v, fmt.Errorf("there is no field %s", path)
		}
	}
	return v, nil
}

// protected sections are changed by the program alone.
func protected(path string) bool {
	head, _, _ := strings.Cut(path, ".")
	return head == "journal" || head == "plan"
}

var errNotHere = errors.New("that cannot be typed in")

// SetAll sets several fields together: paths and texts stand on lines of their
// own, as many of one as of the other. Without a line break in paths it is
// [Set]. After an error p may be half changed.
func SetAll(p *Project, paths, texts string) error {
	for {
		path, rest, ok := strings.Cut(paths, "\n")
		if !ok {
			return Set(p, path, texts)
		}
		text, others, _ := strings.Cut(texts, "\n")
		if err := Set(p, path, text); err != nil {
			return err
		}
		paths, texts = rest, others
	}
}

// Set reads text into the field at path ("cabinet.bays.1.width"). Lengths and
// weights without a unit are in the unit of the tape; an empty text clears
// the field to its default. The error is a clause that follows "Could not
// read …: ". p is changed only if it is nil.
func Set(p *Project, path, text string) error {
	if protected(path) {
		return errNotHere
	}
	if len(text) > 10_000 {
		return errors.New("that is too long")
	}
	v, err := find(p, path)
	if err != nil {
		return err
	}
	text = strings.TrimSpace(text)
	tape := p.Measure()
	switch x := v.Addr().Interface().(type) {
	case *measure.Length:
		if text == "" {
			*x = 0
			return nil
		}
		l, err := tape.Parse(text)
		if err != nil {
			return err
		}
		*x = l
		return nil
	case **measure.Length: // one of which 0 says something
		if *x = nil; text == "" {
			return nil
		}
		l, err := tape.Parse(text)
		if err == nil {
			*x = &l
		}
		return err
	case *measure.Mass:
		if text == "" {
			*x = 0
			return nil
		}
		m, err := tape.ParseMass(text)
		if err == nil && m < 0 {
			err = errors.New("no weight is less than nothing")
		}
		if err != nil {
			return err
		}
		*x = m
		return nil
	case *measure.Money:
		if text == "" {
			*x = 0
			return nil
		}
		m, err := measure.ParseMoney(text)
		if err == nil && m < 0 {
			err = errors.New("no price is less than nothing")
		}
		if err != nil {
			return err
		}
		*x = m
		return nil
	case *json.RawMessage:
		return errNotHere
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(text)
	case reflect.Bool:
		v.SetBool(text == "true" || text == "on" || text == "yes")
	case reflect.Int:
		n, err := strconv.Atoi(text)
		if text == "" {
			n, err = 0, nil
		}
		if err != nil || n < 0 || n > 10_000 {
			return errors.New("that is not a whole number from 0 to 10000")
		}
		v.SetInt(int64(n))
	case reflect.Uint64:
		n, err := strconv.ParseUint(text, 10, 64)
		if err != nil {
			return errors.New("that is not a whole number")
		}
		v.SetUint(n)
	case reflect.Float64:
		f, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
		if text == "" {
			f, err = 0, nil
		}
		if err != nil || math.IsNaN(f) || f < 0 || f > 1e6 {
			return errors.New("that is not a number")
		}
		v.SetFloat(f)
	default:
		return errNotHere
	}
	return nil
}

// Text returns the text of the field at path in the tape of the project, as
// [Set] reads it: lengths without their unit where they are whole steps.
func Text(p *Project, path string) string {
	v, err := find(p.Clone(), path)
	if err != nil {
		return ""
	}
	tape := p.Measure()
	switch x := v.Addr().Interface().(type) {
	case **measure.Length:
		if *x == nil {
			return ""
		}
		return tape.Exact(**x)
	case *measure.Length:
		switch {
		case *x == 0:
			return ""
		case tape.On(*x):
			return tape.Plain(*x)
		default:
			return tape.Exact(*x)
		}
	case *measure.Mass:
		if *x == 0 {
			return ""
		}
		return x.String()
	case *measure.Money:
		if *x == 0 {
			return ""
		}
		return x.String()
	}
	switch v.Kind() {
	case reflect.String:
		return v.String()
	case reflect.Bool:
		return strconv.FormatBool(v.Bool())
	case reflect.Int:
		if v.Int() == 0 {
			return ""
		}
		return strconv.FormatInt(v.Int(), 10)
	case reflect.Uint64:
		return strconv.FormatUint(v.Uint(), 10)
	case reflect.Float64:
		if v.Float() == 0 {
			return ""
		}
		return strconv.FormatFloat(v.Float(), 'g', -1, 64)
	}
	return ""
}

// most entries a person may add to one list by hand.
const mostByHand = 400

// Insert puts an empty entry into the list at path, before index at.
func Insert(p *Project, path string, at int) error {
	v, err := list(p, path)
	if err != nil {
		return err
	}
	if at < 0 || at > v.Len() {
		at = v.Len()
	}
	if v.Len() >= mostByHand {
		return fmt.Errorf("%d entries are as many as this list takes", mostByHand)
	}
	fresh := reflect.MakeSlice(v.Type(), v.Len()+1, v.Len()+1)
	reflect.Copy(fresh, v.Slice(0, at))
	reflect.Copy(fresh.Slice(at+1, v.Len()+1), v.Slice(at, v.Len()))
	v.Set(fresh)
	return nil
}

// Remove takes the entry at index at out of the list at path.
func Remove(p *Project, path string, at int) error {
	v, err := list(p, path)
	if err != nil {
		return err
	}
	if at < 0 || at >= v.Len() {
		return fmt.Errorf("there is no entry %d in %s", at+1, path)
	}
	fresh := reflect.MakeSlice(v.Type(), 0, v.Len()-1)
	fresh = reflect.AppendSlice(fresh, v.Slice(0, at))
	v.Set(reflect.AppendSlice(fresh, v.Slice(at+1, v.Len())))
	return nil
}

// Swap puts the entry at index at of the list at path after the next one.
func Swap(p *Project, path string, at int) error {
	v, err := list(p, path)
	if err != nil {
		return err
	}
	if at < 0 || at+1 >= v.Len() {
		return fmt.Errorf("there is no entry after entry %d in %s", at+1, path)
	}
	x := reflect.New(v.Type().Elem()).Elem()
	x.Set(v.Index(at))
	v.Index(at).Set(v.Index(at + 1))
	v.Index(at + 1).Set(x)
	return nil
}

func list(p *Project, path string) (reflect.Value, error) {
	v, err := find(p, path)
	switch {
	case err != nil:
		return v, err
	case protected(path) || v.Kind() != reflect.Slice || v.Type() == rawType:
		return v, fmt.Errorf("%s is not a list that can be changed", path)
	}
	return v, nil
}
