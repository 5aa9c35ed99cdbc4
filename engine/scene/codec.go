package scene

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// The binary form of a scene, as it crosses from the planner to the canvas.
// Both ends ship together, so the only version number is the first byte.
//
//	byte    codecVersion
//	varint  W, H
//	string  Title
//	count   Items, each: byte tag, then its fields in the order of the struct
//	count   Spots, each: its fields in the order of the struct
//
// Numbers are zigzag varints. A point is stored as its difference to the point
// before it, so that most of them take two bytes. A string is its length in
// bytes, then the bytes.
const codecVersion = 1

// MaxBytes is the size of the largest scene that [Decode] looks at.
const MaxBytes = 8 << 20

// Limit bounds the coordinates and sizes that [Decode] lets through, both ways
// from 0: a million pixels. Within it no sum of a renderer overflows.
const Limit = 1 << 24

const (
	tagLine = 1 + iota
	tagArea
	tagRound
	tagLabel
	tagBadge
)

// Encode returns the binary form of s. Decode(Encode(s)) is s for every scene
// within [Limit], an empty slice and a nil one being the same.
func Encode(s Scene) []byte {
	e := encoder{b: make([]byte, 0, 64+24*len(s.Items)+64*len(s.Spots))}
	e.byte(codecVersion)
	e.int(int64(s.W))
	e.int(int64(s.H))
	e.string(s.Title)
	e.count(len(s.Items))
	for _, it := range s.Items {
		e.item(it)
	}
	e.count(len(s.Spots))
	for _, sp := range s.Spots {
		e.pt(sp.At.Min)
		e.pt(sp.At.Max)
		e.string(sp.Ref)
		e.string(sp.Name)
		e.byte(sp.Drag)
		e.int(sp.PerPX)
		e.int(sp.Step)
	}
	return e.b
}

type encoder struct {
	b    []byte
	last Pt
}

func (e *encoder) byte(v byte) { e.b = append(e.b, v) }
func (e *encoder) int(v int64) { e.b = binary.AppendVarint(e.b, v) }
func (e *encoder) count(n int) { e.b = binary.AppendUvarint(e.b, uint64(n)) }

func (e *encoder) string(s string) {
	e.count(len(s))
	e.b = append(e.b, s...)
}

func (e *encoder) pt(p Pt) {
	e.int(int64(p.X) - int64(e.last.X))
	e.int(int64(p.Y) - int64(e.last.Y))
	e.last = p
}

func (e *encoder) pts(ps []Pt) {
	e.count(len(ps))
	for _, p := range ps {
		e.pt(p)
	}
}

func (e *encoder) item(it Item) {
	switch it := it.(type) {
	case Line:
		e.byte(tagLine)
		e.pts(it.Pts)
		e.byte(byte(it.Pen))
		e.byte(byte(it.Tone))
	case Area:
		e.byte(tagArea)
		e.pts(it.Pts)
		e.byte(byte(it.Fill))
		e.byte(byte(it.Hatch))
		e.byte(byte(it.Pen))
		e.byte(byte(it.Tone))
	case Round:
		e.byte(tagRound)
		e.pt(it.At)
		e.int(int64(it.R))
		e.byte(byte(it.Fill))
		e.byte(byte(it.Pen))
		e.byte(byte(it.Tone))
	case Label:
		e.byte(tagLabel)
		e.pt(it.At)
		e.string(it.Text)
		e.int(int64(it.Size))
		e.byte(byte(it.Align))
		e.byte(byte(it.Tone))
		e.byte(byte(it.Back))
		e.byte(flag(it.Bold, 1) | flag(it.Turn, 2) | flag(it.Strike, 4))
	case Badge:
		e.byte(tagBadge)
		e.pt(it.At)
		e.byte(byte(it.Shape))
		e.string(it.Text)
		e.int(int64(it.Size))
	default:
		panic(fmt.Sprintf("scene: unknown item %T", it))
	}
}

func flag(on bool, bit byte) byte {
	if on {
		return bit
	}
	return 0
}

var (
	errShort   = errors.New("scene: the data end too early")
	errVersion = errors.New("scene: made by another build")
	errBig     = errors.New("scene: too large")
	errValue   = errors.New("scene: a value is out of its range")
	errRest    = errors.New("scene: data after the end")
)

// Decode reads what [Encode] wrote. It trusts nothing: every count is checked
// against the bytes that are left before memory is taken, and every value
// against its range.
func Decode(b []byte) (Scene, error) {
	if len(b) > MaxBytes {
		return Scene{}, errBig
	}
	d := decoder{b: b}
	if v := d.byte(255); d.err == nil && v != codecVersion {
		return Scene{}, errVersion
	}
	var s Scene
	s.W, s.H = d.unit(), d.unit()
	s.Title = d.string()
	if n := d.count(4); n > 0 { // the smallest item, an empty line, has 4 bytes
		s.Items = make([]Item, 0, n)
		for range n {
			s.Items = append(s.Items, d.item())
			if d.err != nil {
				return Scene{}, d.err
			}
		}
	}
	if n := d.count(9); n > 0 {
		s.Spots = make([]Spot, 0, n)
		for range n {
			s.Spots = append(s.Spots, d.spot())
			if d.err != nil {
				return Scene{}, d.err
			}
		}
	}
	switch {
	case d.err != nil:
		return Scene{}, d.err
	case len(d.b) > 0:
		return Scene{}, errRest
	}
	return s, nil
}

// A decoder remembers its first error; after it every read gives zero.
type decoder struct {
	b    []byte
	last Pt
	err  error
}

func (d *decoder) fail(err error) {
	if d.err == nil {
		d.err = err
	}
	d.b = nil
}

// byte reads a byte that must be at most limit.
func (d *decoder) byte(limit byte) byte {
	if len(d.b) == 0 {
		d.fail(errShort)
		return 0
	}
	v := d.b[0]
	d.b = d.b[1:]
	if v > limit {
		d.fail(errValue)
		return 0
	}
	return v
}

func (d *decoder) int() int64 {
	v, n := binary.Varint(d.b)
	if n <= 0 {
		d.fail(errShort)
		return 0
	}
	d.b = d.b[n:]
	return v
}

// count reads the number of things that take at least size bytes each.
func (d *decoder) count(size int) int {
	v, n := binary.Uvarint(d.b)
	if n <= 0 || v > uint64(len(d.b)-n)/uint64(size) {
		d.fail(errShort)
		return 0
	}
	d.b = d.b[n:]
	return int(v)
}

func (d *decoder) string() string {
	n := d.count(1)
	s := string(d.b[:n])
	d.b = d.b[n:]
	return s
}

func (d *decoder) unit() Unit {
	v := d.int()
	if v < -Limit || v > Limit {
		d.fail(errValue)
		return 0
	}
	return Unit(v)
}

func (d *decoder) pt() Pt {
	x, y := int64(d.last.X)+d.int(), int64(d.last.Y)+d.int()
	if x < -Limit || x > Limit || y < -Limit || y > Limit {
		d.fail(errValue)
		return Pt{}
	}
	d.last = Pt{Unit(x), Unit(y)}
	return d.last
}

func (d *decoder) pts() []Pt {
	n := d.count(2)
	if n == 0 {
		return nil
	}
	ps := make([]Pt, n)
	for i := range ps {
		ps[i] = d.pt()
	}
	return ps
}

func (d *decoder) tone() Tone { return Tone(d.byte(byte(tones - 1))) }
func (d *decoder) pen() Pen   { return Pen(d.byte(byte(pens - 1))) }

func (d *decoder) item() Item {
	switch d.byte(tagBadge) {
	case tagLine:
		return Line{Pts: d.pts(), Pen: d.pen(), Tone: d.tone()}
	case tagArea:
		return Area{Pts: d.pts(), Fill: d.tone(), Hatch: Hatch(d.byte(byte(hatches - 1))), Pen: d.pen(), Tone: d.tone()}
	case tagRound:
		return Round{At: d.pt(), R: d.unit(), Fill: d.tone(), Pen: d.pen(), Tone: d.tone()}
	case tagLabel:
		l := Label{At: d.pt(), Text: d.string(), Size: d.unit(), Align: Align(d.byte(byte(aligns - 1))), Tone: d.tone(), Back: d.tone()}
		f := d.byte(7)
		l.Bold, l.Turn, l.Strike = f&1 != 0, f&2 != 0, f&4 != 0
		return l
	case tagBadge:
		return Badge{At: d.pt(), Shape: Shape(d.byte(byte(shapes - 1))), Text: d.string(), Size: d.unit()}
	}
	d.fail(errValue)
	return nil
}

func (d *decoder) spot() Spot {
	s := Spot{At: Rect{d.pt(), d.pt()}, Ref: d.string(), Name: d.string()}
	s.Drag = d.byte('y')
	if s.Drag != 0 && s.Drag != 'x' && s.Drag != 'y' {
		d.fail(errValue)
	}
	s.PerPX, s.Step = d.int(), d.int()
	return s
}
