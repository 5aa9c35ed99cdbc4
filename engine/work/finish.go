package work

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// A Coating is what the finish takes.
type Coating struct {
	Rows []Coat
	// Coats is how many, Area one coat of all rows in m², Litres what all
	// coats take; Cans of Can litres each, rounded up.
	Coats  int
	Area   float64
	Litres float64
	Cans   int
	Can    float64
	Rule   string // the rule used
	Plan   []Event
}

// A Coat is one row: what is finished, and how large it is in m².
type Coat struct {
	Name string
	Area float64
	// Masked is what is glued to, in m²: kept bare, and no part of Area.
	Masked float64
	// Bare is what is left out: pre-finished sheets.
	Bare bool
}

// An Event is one stretch of the finishing, in hours from its start.
type Event struct {
	Name     string
	At, Long int
}

// Rules of finishing. Oil and oil varnish on smooth wood cover 400 ft² to the US
// gallon (an oil seller's figure, at the low end of the usual 400 to 500); a
// drying oil dries for 24 h a coat (common practice, no source); three coats,
// light use after another day, hard use after a week.
const (
	gallon   = 3.785411784 // L, exactly 231 in³
	ft2      = 0.09290304  // m², exactly
	perLitre = 400 * ft2 / gallon
	quart    = gallon / 4
	coats    = 3
	dryHours = 24
)

// Coverage returns how many square feet a US gallon covers at a dry film of so
// many thousandths of an inch with that share of solids: 231 in³ over 144 in²
// times .001 in make 1604 at one (the coatings trade's rule).
func Coverage(solids, mils float64) float64 { return 231 / (144 * .001) * solids / mils }

// Surface returns the area of part i that lies open in the finished cart, in m²:
// its box's, less what others cover.
func Surface(c design.Cart, i int) float64 {
	b := c.Parts[i].Box
	side := func(a geom.Axis) measure.Area { return b.Size((a + 1) % 3).Times(b.Size((a + 2) % 3)) }
	open := 2 * (side(geom.X) + side(geom.Y) + side(geom.Z))
	for k, q := range c.Parts {
		if k != i {
			open -= cover(b, q.Box)
		}
	}
	return max(0, open.SquareMetres())
}

// cover is how much of the faces of b lies against or in c, tongues in grooves
// included.
func cover(b, c geom.Box) (area measure.Area) {
	for a := geom.X; a <= geom.Z; a++ {
		u, v := (a+1)%3, (a+2)%3
		du := min(b.Max[u], c.Max[u]) - max(b.Min[u], c.Min[u])
		dv := min(b.Max[v], c.Max[v]) - max(b.Min[v], c.Min[v])
		if du <= 0 || dv <= 0 {
			continue
		}
		if c.Min[a] < b.Min[a] && b.Min[a] <= c.Max[a] {
			area += du.Times(dv)
		}
		if c.Min[a] <= b.Max[a] && b.Max[a] < c.Max[a] {
			area += du.Times(dv)
		}
	}
	return area
}

// Finish reckons areas, cans and drying. Parts of materials that come finished
// are left bare.
func Finish(p *project.Project, c design.Cart) Coating {
	f := Coating{Coats: coats, Can: quart, Rule: "400 ft² to the gallon, " + strconv.Itoa(coats) + " coats"}
	if c.Tape.Metric {
		f.Can, f.Rule = 0.75, "9.8 m² to the litre, "+strconv.Itoa(coats)+" coats"
	}
	names := [...]string{"Case", "Worktop", "Fronts and doors", "Drawer boxes", "Finished as bought"}
	var area, masked [len(names)]float64
	for i, q := range c.Parts {
		k := 0
		switch id := string(q.ID); {
		case finished(p, q):
			k = 4
		case id == "top" || id == "top-2" || strings.HasPrefix(id, "strip-top"):
			k = 1
		case q.Door > 0 || q.Drawer > 0 && q.Front == "face":
			k = 2
		case q.Drawer > 0:
			k = 3
		}
		area[k] += Surface(c, i)
		masked[k] += Masked(c, i)
	}
	for k, a := range area {
		if a > 0 {
			f.Rows = append(f.Rows, Coat{names[k], a, masked[k], k == 4})
			if k < 4 {
				f.Area += a
			}
		}
	}
	f.Litres = f.Area * coats / perLitre
	f.Cans = int(math.Ceil(f.Litres/f.Can - 1e-9))
	if f.Area == 0 {
		return f
	}
	at := 0
	for n := 1; n <= coats; n++ {
		name := "Coat " + itoa(n)
		if n > 1 {
			name += ", sanded between"
		}
		f.Plan = append(f.Plan, Event{name, at, 2}, Event{"Coat " + itoa(n) + " dries", at + 2, dryHours - 2})
		at += dryHours
	}
	f.Plan = append(f.Plan, Event{"Dries on for light use", at, dryHours}, Event{"Gentle use until it is hard", at + dryHours, 6 * dryHours})
	return f
}

// A moment is minutes since the start of 1970 on a clock without a zone.
type moment int64

var errStart = errors.New("the start must be a date from 1970 to 2199 and an hour, as 2026-11-28T09:00")

// parseMoment reads "2026-11-28T09:00", seconds allowed.
func parseMoment(s string) (moment, error) {
	if len(s) < 16 || s[4] != '-' || s[7] != '-' || s[10] != 'T' || s[13] != ':' {
		return 0, errStart
	}
	var v [5]int
	for i, f := range []string{s[:4], s[5:7], s[8:10], s[11:13], s[14:16]} {
		n, err := strconv.Atoi(f)
		if err != nil || n < 0 {
			return 0, errStart
		}
		v[i] = n
	}
	y, m, d := v[0], v[1], v[2]
	if y < 1970 || y > 2199 || m < 1 || m > 12 || d < 1 || d > days(y, m) || v[3] > 23 || v[4] > 59 {
		return 0, errStart
	}
	n := d - 1
	for k := 1; k < m; k++ {
		n += days(y, k)
	}
	for k := 1970; k < y; k++ {
		n += 337 + days(k, 2)
	}
	return moment((n*24+v[3])*60 + v[4]), nil
}

// days returns the days of a month (Gregorian calendar).
func days(y, m int) int {
	switch m {
	case 2:
		if y%4 == 0 && (y%100 != 0 || y%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// String is the moment as RFC 5545 writes a local time, 20261128T090000.
func (t moment) String() string {
	two := func(n int) string { return string([]byte{byte('0' + n/10), byte('0' + n%10)}) }
	n, rest := int(t)/1440, int(t)%1440
	y := 1970
	for ; n >= 337+days(y, 2); y++ {
		n -= 337 + days(y, 2)
	}
	m := 1
	for ; n >= days(y, m); m++ {
		n -= days(y, m)
	}
	return strconv.Itoa(y) + two(m) + two(n+1) + "T" + two(rest/60) + two(rest%60) + "00"
}

// Calendar writes events as an iCalendar file (RFC 5545): local times without
// a zone, lines folded at 75 octets and ended by CRLF. start is the local hour
// of the first event, "2026-11-28T09:00"; now the time of writing in UTC, RFC
// 3339.
func Calendar(name, start, now string, events []Event) (string, error) {
	from, err := parseMoment(start)
	if err != nil {
		return "", err
	}
	stamp, err := parseMoment(now)
	if err != nil {
		stamp = 0
	}
	var b strings.Builder
	line := func(s string) {
		for first := true; ; first = false {
			n := 75
			if !first {
				b.WriteByte(' ')
				n-- // the space counts
			}
			if len(s) <= n {
				break
			}
			for n > 0 && s[n]&0xC0 == 0x80 { // not inside a character
				n--
			}
			b.WriteString(s[:n] + "\r\n")
			s = s[n:]
		}
		b.WriteString(s + "\r\n")
	}
	text := strings.NewReplacer("\\", "\\\\", ";", "\\;", ",", "\\,", "\r\n", "\\n", "\n", "\\n", "\r", "\\n").Replace
	line("BEGIN:VCALENDAR")
	line("VERSION:2.0")
	line("PRODID:-//Cartwright//Workshop planner//EN")
	h := uint64(14695981039346656037) // FNV-1a of name and start
	for _, c := range []byte(name + start) {
		h = (h ^ uint64(c)) * 1099511628211
	}
	for i, e := range events {
		at := from + moment(e.At*60)
		line("BEGIN:VEVENT")
		line("UID:" + strconv.FormatUint(h, 36) + "-" + itoa(i+1) + "@cartwright.invalid")
		line("DTSTAMP:" + stamp.String() + "Z")
		line("DTSTART:" + at.String())
		line("DTEND:" + (at + moment(e.Long*60)).String())
		line("SUMMARY:" + text(name+": "+e.Name))
		line("END:VEVENT")
	}
	line("END:VCALENDAR")
	return b.String(), nil
}
