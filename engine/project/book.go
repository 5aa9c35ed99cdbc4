package project

import (
	"encoding/json"
	"errors"

	"cartwright/engine/measure"
)

// BookFormat heads a file of offcuts.
const BookFormat = "cartwright-offcuts"

// A Book is the offcuts of all projects on a device.
type Book struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	Offcuts []Rest `json:"offcuts"`
}

// A Rest is an offcut in the book.
type Rest struct {
	Key      string         `json:"key"`  // sets it apart from all others
	Name     string         `json:"name"` // what is written on it: "Q7"
	From     string         `json:"from"` // the project it was left by
	Length   measure.Length `json:"length"`
	Width    measure.Length `json:"width"`
	Grain    string         `json:"grain"`
	Trim     measure.Length `json:"trim"` // to be taken off each edge
	Material string         `json:"material"`
	Called   string         `json:"called"` // name of the material
	Kind     string         `json:"kind"`
	Nominal  measure.Length `json:"nominal"`
	// Taken is the ID of the project that has it among its stock, "" for none.
	Taken string `json:"taken,omitempty"`
}

// Sound reports whether r can be a piece of wood.
func (r Rest) Sound() bool {
	const most = 100 * measure.Metre
	return r.Key != "" && r.Name != "" && len(r.Key)+len(r.Name)+len(r.From)+len(r.Called) < 1000 &&
		r.Length > 0 && r.Width > 0 && r.Length < most && r.Width < most && r.Trim >= 0 && 2*r.Trim < min(r.Length, r.Width) && r.Nominal >= 0 && r.Nominal < most
}

// OpenBook reads a file of offcuts. Entries that cannot be are left out; bad
// counts them.
func OpenBook(text []byte) (offcuts []Rest, bad int, err error) {
	var b Book
	switch err := json.Unmarshal(text, &b); {
	case err != nil:
		return nil, 0, errors.New("that is no book of offcuts, or it is damaged: " + err.Error())
	case b.Format != BookFormat:
		return nil, 0, errors.New("that is no book of offcuts")
	case b.Version != 1:
		return nil, 0, errors.New("this book of offcuts is of another version than this program reads")
	}
	for _, r := range b.Offcuts {
		if r.Sound() {
			offcuts = append(offcuts, r)
		} else {
			bad++
		}
	}
	return offcuts, bad, nil
}

// Same returns the ID of the material of p that the offcut is of: the same
// name or short name, kind and nominal thickness.
func (r Rest) Same(p *Project) (id string, ok bool) {
	for _, m := range p.Stock.Materials {
		if (m.ID == r.Material || m.Name == r.Called && m.Name != "") && (m.Kind == r.Kind || m.Kind == "" || r.Kind == "") && m.Nominal == r.Nominal {
			return m.ID, true
		}
	}
	return "", false
}
