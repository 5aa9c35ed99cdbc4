package work

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"cartwright/engine/design"
	"cartwright/engine/geom"
	"cartwright/engine/measure"
)

// TestCoverage: published examples of the coatings trade: 65 % solids at 5 mils
// 208.52 ft² to the gallon; 10 mils wet 160.417; 52 % through 30 % transfer at
// 1.5 mils 166.8.
func TestCoverage(t *testing.T) {
	for _, tt := range []struct{ solids, mils, want float64 }{{.65, 5, 208.52}, {1, 10, 160.417}, {.52 * .30, 1.5, 166.8}, {1, 1, 1604.17}} {
		if got := Coverage(tt.solids, tt.mils); math.Abs(got-tt.want) > .05 {
			t.Errorf("Coverage(%v, %v) = %.3f, published %v", tt.solids, tt.mils, got, tt.want)
		}
	}
}

// TestSurface sums the open area of parts anew, by points scattered over their
// faces: a point is covered if it lies in another part a hair further out.
func TestSurface(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		var ours, points float64
		for i, q := range c.Parts {
			ours += Surface(c, i)
			for a := geom.X; a <= geom.Z; a++ {
				u, v := (a+1)%3, (a+2)%3
				face := q.Box.Size(u).Times(q.Box.Size(v)).SquareMetres()
				for _, high := range []bool{false, true} {
					const n = 300
					open := 0
					for range n {
						var pt geom.Pt
						pt[u] = q.Box.Min[u] + measure.Length(r.Int64N(int64(q.Box.Size(u))))
						pt[v] = q.Box.Min[v] + measure.Length(r.Int64N(int64(q.Box.Size(v))))
						s := design.Side{Axis: a, High: high}
						pt[a] = s.Out(s.Of(q.Box), 1)
						if !high {
							pt[a] = q.Box.Min[a] - 1
						} else {
							pt[a] = q.Box.Max[a]
						}
						free := true
						for k, o := range c.Parts {
							if k != i && o.Box.Contains(geom.Box{Min: pt, Max: geom.Pt{pt[0] + 1, pt[1] + 1, pt[2] + 1}}) {
								free = false
							}
						}
						if free {
							open++
						}
					}
					points += face * float64(open) / n
				}
			}
		}
		if math.Abs(ours-points) > .01*points {
			t.Errorf("%s: %.3f m² open, by points %.3f", name, ours, points)
		}
	}
}

// TestFinish: a can more than is needed is never bought, nor one too few; what
// comes finished takes none.
func TestFinish(t *testing.T) {
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		f := Finish(p, c)
		if need := f.Area * 3 / (400 * .09290304 / 3.785411784); math.Abs(f.Litres-need) > 1e-9 || float64(f.Cans)*f.Can < need-1e-6 || float64(f.Cans-1)*f.Can > need {
			t.Errorf("%s: %.2f m², %d cans of %.2f L for %.2f L", name, f.Area, f.Cans, f.Can, need)
		}
		for i := range p.Stock.Materials {
			p.Stock.Materials[i].Finish = "varnished"
		}
		if f := Finish(p, c); f.Cans != 0 || len(f.Plan) != 0 || len(f.Rows) != 1 || !f.Rows[0].Bare {
			t.Errorf("%s: finished sheets still take %+v", name, f)
		}
	}
}

// readCalendar reads a calendar by the rules of RFC 5545 and returns its events.
func readCalendar(t *testing.T, s string) []map[string]string {
	t.Helper()
	if !strings.HasSuffix(s, "\r\n") || strings.Contains(strings.ReplaceAll(s, "\r\n", ""), "\n") {
		t.Fatal("lines do not end in CRLF")
	}
	for _, l := range strings.Split(s, "\r\n") {
		if len(l) > 75 {
			t.Errorf("%d octets in one line: %q", len(l), l)
		}
	}
	s = strings.ReplaceAll(s, "\r\n ", "") // unfold
	lines := strings.Split(strings.TrimSuffix(s, "\r\n"), "\r\n")
	if lines[0] != "BEGIN:VCALENDAR" || lines[len(lines)-1] != "END:VCALENDAR" {
		t.Fatalf("not a calendar: %q", lines)
	}
	var out []map[string]string
	var now map[string]string
	for _, l := range lines[1 : len(lines)-1] {
		key, value, ok := strings.Cut(l, ":")
		if !ok || key == "" {
			t.Fatalf("no content line: %q", l)
		}
		switch l {
		case "BEGIN:VEVENT":
			now = map[string]string{}
		case "END:VEVENT":
			for _, must := range []string{"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY"} {
				if now[must] == "" {
					t.Errorf("an event without %s", must)
				}
			}
			out = append(out, now)
			now = nil
		default:
			if now != nil {
				if now[key] != "" {
					t.Errorf("%s twice", key)
				}
				now[key] = value
			}
		}
	}
	return out
}

// TestCalendar writes events across new year and a leap day, with a name that
// needs escapes and folding, and reads them back with the time of package time.
func TestCalendar(t *testing.T) {
	events := []Event{{"Coat 1; thin, even", 0, 2}, {"Coat 2", 24, 2}, {"Gentle use until it is hard", 96, 144}}
	for _, start := range []string{"2027-12-31T22:30", "2028-02-28T08:00", "2100-02-27T09:00", "1970-01-01T00:00", "2199-12-20T23:59"} {
		s, err := Calendar("Schrank für die Späne, ein ziemlich langer Name mit Umlauten äöü bis über die Zeile", start, "2026-11-25T09:23:04Z", events)
		if err != nil {
			t.Fatal(start, err)
		}
		got := readCalendar(t, s)
		if len(got) != len(events) {
			t.Fatalf("%d events", len(got))
		}
		begin, err := time.Parse("2006-01-02T15:04", start)
		if err != nil {
			t.Fatal(err)
		}
		ids := map[string]bool{}
		for i, e := range events {
			at := begin.Add(time.Duration(e.At) * time.Hour)
			if want := at.Format("20060102T150405"); got[i]["DTSTART"] != want {
				t.Errorf("%s: event %d starts %s, want %s", start, i, got[i]["DTSTART"], want)
			}
			if want := at.Add(time.Duration(e.Long) * time.Hour).Format("20060102T150405"); got[i]["DTEND"] != want {
				t.Errorf("%s: event %d ends %s, want %s", start, i, got[i]["DTEND"], want)
			}
			if got[i]["DTSTAMP"] != "20261125T092300Z" {
				t.Errorf("stamp %s", got[i]["DTSTAMP"])
			}
			ids[got[i]["UID"]] = true
		}
		if len(ids) != len(events) {
			t.Error("two events of one name")
		}
		if !strings.Contains(got[0]["SUMMARY"], `Coat 1\; thin\, even`) || !strings.Contains(got[0]["SUMMARY"], "für") {
			t.Errorf("%q", got[0]["SUMMARY"])
		}
	}
	for _, bad := range []string{"1900-01-01T09:00", "2026-02-29T09:00", "2026-13-01T09:00", "2026-11-31T09:00", "2026-11-28", "2026-11-28T24:00", "x", ""} {
		if s, err := Calendar("cart", bad, "", events); err == nil || s != "" {
			t.Errorf("%q was taken", bad)
		}
	}
}
