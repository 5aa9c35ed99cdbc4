package work

import (
	"strings"
	"testing"
	"time"

	ical "github.com/arran4/golang-ical"

	"cartwright/engine/design"
)

// TestCalendarByOthers: a reader of RFC 5545 that others wrote reads the
// finishing of every starting point: so many events, at those hours on a clock
// without a zone, with the names that went in.
func TestCalendarByOthers(t *testing.T) {
	for name, p := range startingPoints(t) {
		c, _ := design.Build(p)
		plan := Finish(p, c).Plan
		title := "Cart; of \\ all, sorts\nand ünusually long names that must be folded at seventy-five octets " + name
		text, err := Calendar(title, "2027-12-31T22:30", "2026-11-25T09:23:04Z", plan)
		if err != nil {
			t.Fatal(err)
		}
		cal, err := ical.ParseCalendar(strings.NewReader(text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if n := len(cal.Events()); n != len(plan) || n == 0 {
			t.Fatalf("%s: %d events, went in %d", name, n, len(plan))
		}
		if v := cal.CalendarProperties; len(v) != 2 || v[0].IANAToken != "VERSION" || v[0].Value != "2.0" || v[1].IANAToken != "PRODID" || v[1].Value == "" {
			t.Errorf("%s: %+v", name, v)
		}
		begin := time.Date(2027, 12, 31, 22, 30, 0, 0, time.Local)
		ids := map[string]bool{}
		for i, e := range cal.Events() {
			from, err := e.GetStartAt()
			if err != nil {
				t.Fatal(err)
			}
			to, err := e.GetEndAt()
			if err != nil {
				t.Fatal(err)
			}
			stamp, err := e.GetDtStampTime()
			if err != nil || !stamp.Equal(time.Date(2026, 11, 25, 9, 23, 0, 0, time.UTC)) {
				t.Errorf("%s: stamp %v %v", name, stamp, err)
			}
			at := begin.Add(time.Duration(plan[i].At) * time.Hour)
			if !from.Equal(at) || to.Sub(from) != time.Duration(plan[i].Long)*time.Hour {
				t.Errorf("%s, %s: %v to %v, want %v for %d h", name, plan[i].Name, from, to, at, plan[i].Long)
			}
			sum := ical.FromText(e.GetProperty(ical.ComponentPropertySummary).Value)
			if got := e.GetProperty(ical.ComponentPropertySummary).Value; sum != title+": "+plan[i].Name && got != title+": "+plan[i].Name {
				t.Errorf("%s: %q", name, got)
			}
			ids[e.Id()] = true
		}
		if len(ids) != len(plan) {
			t.Errorf("%s: events share a UID", name)
		}
	}
	// A date that no calendar of ours takes: a clear word, no file.
	for _, start := range []string{"1900-01-01T09:00", "2200-01-01T00:00"} {
		text, err := Calendar("cart", start, "2026-11-25T09:23:04Z", nil)
		if err == nil || text != "" || !strings.Contains(err.Error(), "1970 to 2199") {
			t.Errorf("%s: %q, %v", start, text, err)
		}
	}
}
