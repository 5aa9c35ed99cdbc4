package mark

import (
	"encoding/json"
	"strconv"
	"strings"

	"cartwright/engine/measure"
)

// Read reads an entry of a stored journal into m. The form that package json
// writes is read in one go, since a long journal has to open at once; any other
// is left to package json, and means what it says there.
func Read(text string, m *Mark) error {
	r := reader{rest: text}
	if r.mark(m); !r.lost && r.rest == "" {
		return nil
	}
	*m = Mark{}
	return json.Unmarshal([]byte(text), m)
}

// A reader reads the form that package json writes, from the front of rest. It
// is lost at anything else.
type reader struct {
	rest string
	lost bool
}

// has reports whether s comes next, and goes on behind it.
func (r *reader) has(s string) bool {
	rest, ok := strings.CutPrefix(r.rest, s)
	if ok {
		r.rest = rest
	}
	return ok
}

func (r *reader) must(s string) { r.lost = !r.has(s) || r.lost }

func (r *reader) mark(m *Mark) {
	r.must(`{"device":`)
	m.Device = r.text()
	r.must(`,"seq":`)
	m.Seq = r.number()
	r.must(`,"lamport":`)
	m.Lamport = r.number()
	r.must(`,"time":`)
	m.Time = r.text()
	r.must(`,"kind":`)
	m.Kind = Kind(r.text())
	if r.has(`,"on":`) {
		m.On = r.text()
	}
	if r.has(`,"plan":`) {
		m.Plan = r.text()
	}
	if r.has(`,"prior":`) {
		m.Prior = r.text()
	}
	if r.has(`,"piece":`) {
		p := r.piece()
		m.Piece = &p
	}
	if r.has(`,"axis":`) {
		m.Axis = r.text()
	}
	if r.has(`,"at":`) {
		m.At = r.length()
	}
	if r.has(`,"pieces":[`) {
		m.Pieces = append(make([]Piece, 0, 2), r.piece())
		for r.has(",") {
			m.Pieces = append(m.Pieces, r.piece())
		}
		r.must("]")
	}
	if r.has(`,"value":`) {
		m.Value = r.length()
	}
	if r.has(`,"saw":`) {
		m.Saw = r.text()
	}
	if r.has(`,"undoes":{"device":`) {
		m.Undoes = &Ref{Device: r.text()}
		r.must(`,"seq":`)
		m.Undoes.Seq = r.number()
		r.must("}")
	}
	r.must("}")
}

func (r *reader) piece() (p Piece) {
	r.must(`{"sheet":`)
	p.Sheet = r.number()
	r.must(`,"x":`)
	p.X = r.length()
	r.must(`,"y":`)
	p.Y = r.length()
	r.must(`,"l":`)
	p.L = r.length()
	r.must(`,"w":`)
	p.W = r.length()
	if r.has(`,"name":`) {
		p.Name = r.text()
	}
	r.must("}")
	return p
}

// text reads a text of plain letters; what package json would have to decode,
// or to mend, is not one.
func (r *reader) text() string {
	r.must(`"`)
	for i := range len(r.rest) {
		switch c := r.rest[i]; {
		case c == '"':
			s := r.rest[:i]
			r.rest = r.rest[i+1:]
			return s
		case c < ' ' || c == '\\' || c >= 0x80:
			r.lost = true
			return ""
		}
	}
	r.lost = true
	return ""
}

func (r *reader) number() int {
	i := 0
	for i < len(r.rest) && (r.rest[i] >= '0' && r.rest[i] <= '9' || r.rest[i] == '-') {
		i++
	}
	s := r.rest[:i]
	n, err := strconv.Atoi(s)
	r.lost = r.lost || err != nil || strconv.Itoa(n) != s // no 007, no -0
	r.rest = r.rest[i:]
	return n
}

func (r *reader) length() measure.Length {
	l, err := measure.Parse(r.text())
	r.lost = r.lost || err != nil
	return l
}
