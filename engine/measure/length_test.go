package measure

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

var parseTests = []struct {
	in   string
	want Length // 0 with err: refused
	err  string // a part of the sentence
}{
	{"18 mm", 18 * MM, ""},
	{"23 5/8 in", 23*Inch + Inch*5/8, ""},
	{`23-5/8"`, 23*Inch + Inch*5/8, ""},
	{`1' 11 5/8"`, 23*Inch + Inch*5/8, ""},
	{`1'-11 5/8"`, 23*Inch + Inch*5/8, ""},
	{"1' 11 5/8", 23*Inch + Inch*5/8, ""},
	{"2 ft 3 in", 27 * Inch, ""},
	{"3'", 36 * Inch, ""},
	{"23.625 in", 23*Inch + Inch*5/8, ""},
	{"23,625in", 23*Inch + Inch*5/8, ""},
	{"23⁄32 in", Inch * 23 / 32, ""},
	{"2 3⁄32 in", 2*Inch + Inch*3/32, ""}, // never the same as the line above
	{"5/8in", Inch * 5 / 8, ""},
	{"⅝ in", Inch * 5 / 8, ""},
	{"23⅝″", 23*Inch + Inch*5/8, ""},
	{"60 cm", 600 * MM, ""},
	{"600,5 mm", 600*MM + MM/2, ""},
	{"1.2 m", 1200 * MM, ""},
	{".5 in", Inch / 2, ""},
	{"5. in", 5 * Inch, ""},
	{"-3 mm", -3 * MM, ""},
	{"−1 1/4 in", -(Inch + Inch/4), ""},
	{"+7 mm", 7 * MM, ""},
	{"0.000125 mm", 1, ""},
	{"0.0000625 mm", 1, ""}, // half a tick: away from zero
	{"-0.0000625 mm", -1, ""},
	{"0.00006 mm", 0, ""},
	{"1/3 in", 67733, ""},  // 203200/3 = 67733.33
	{"2/3 in", 135467, ""}, // 135466.67
	{"1000 m", MaxLength, ""},
	{"", 0, "type a number"},
	{"   ", 0, "type a number"},
	{"23", 0, "unit is missing"},
	{"23 5/ in", 0, "after the slash"},
	{"23 5/0 in", 0, "divided by 0"},
	{"1/0 in", 0, "divided by 0"},
	{"23 9/8 in", 0, "smaller than its bottom"},
	{"in", 0, "number is missing"},
	{"-", 0, "number is missing"},
	{"1 mm 2 in", 0, "not a length"},
	{"1 ft 2 ft", 0, "not a length"},
	{"5 in 3 ft", 0, "not a length"},
	{"5 furlongs", 0, "not a length"},
	{"1000.1 m", 0, "longer than a kilometre"},
	{"99999999999999999999999 mm", 0, ""},
	{"1e5 mm", 0, "not a length"},
	{"0x10 mm", 0, "not a length"},
	{strings.Repeat("1", 500) + " mm", 0, "not a length"},
	{"12 5/8 5/8 in", 0, "not a length"},
	{"NaN in", 0, "number is missing"},
}

func TestParse(t *testing.T) {
	for _, tt := range parseTests {
		got, err := Parse(tt.in)
		switch {
		case tt.want != 0 || tt.err == "" && tt.in == "0.00006 mm":
			if err != nil || got != tt.want {
				t.Errorf("Parse(%q) = %d, %v; want %d", tt.in, got, err, tt.want)
			}
		case err == nil:
			t.Errorf("Parse(%q) = %v, want an error", tt.in, got)
		case !strings.Contains(err.Error(), tt.err):
			t.Errorf("Parse(%q): %q does not say %q", tt.in, err, tt.err)
		}
	}
}

func TestTapeParse(t *testing.T) {
	inch, metric := Tape{}, Tape{Metric: true}
	for _, tt := range []struct {
		t    Tape
		in   string
		want Length
	}{
		{inch, "23 5/8", 23*Inch + Inch*5/8},
		{inch, "23.625", 23*Inch + Inch*5/8},
		{inch, "600 mm", 600 * MM}, // a number with its own unit is taken in either tape
		{metric, "600", 600 * MM},
		{metric, "60 cm", 600 * MM},
		{metric, "600,5", 600*MM + MM/2},
		{metric, "3/4 in", Inch * 3 / 4},
	} {
		if got, err := tt.t.Parse(tt.in); err != nil || got != tt.want {
			t.Errorf("%+v.Parse(%q) = %v, %v; want %v", tt.t, tt.in, got, err, tt.want)
		}
	}
}

// FuzzParse: whatever is read is printed so that it is read back to the tick,
// in either tape.
func FuzzParse(f *testing.F) {
	for _, tt := range parseTests {
		f.Add(tt.in)
	}
	f.Fuzz(func(t *testing.T, in string) {
		l, err := Parse(in)
		if err != nil {
			return
		}
		for _, tape := range []Tape{{}, {Metric: true}, {Step: Inch / 64}, {Metric: true, Step: MM}} {
			s := tape.Exact(l)
			if back, err := Parse(s); err != nil || back != l {
				t.Errorf("Parse(%q) = %d; %+v prints %q, read back as %d, %v", in, l, tape, s, back, err)
			}
			if tape.On(l) {
				if back, err := tape.Parse(tape.Plain(l)); err != nil || back != l {
					t.Errorf("%+v shows %d as %q, reads back %d, %v", tape, l, tape.Plain(l), back, err)
				}
				if back, err := tape.Parse(tape.Show(l)); err != nil || back != l {
					t.Errorf("%+v draws %d as %q, reads back %d, %v", tape, l, tape.Show(l), back, err)
				}
			}
		}
	})
}

// TestExactRandom is the identity of FuzzParse over a hundred thousand lengths,
// ticks and steps mixed.
func TestExactRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 0))
	for range 100_000 {
		l := Length(r.Int64N(int64(10*Metre))) - 5*Metre
		if r.IntN(2) == 0 {
			l = l / Inch64 * Inch64
		}
		for _, tape := range []Tape{{}, {Metric: true}} {
			if back, err := Parse(tape.Exact(l)); err != nil || back != l {
				t.Fatalf("%d prints as %q, reads back %d, %v", l, tape.Exact(l), back, err)
			}
		}
	}
}

func TestShow(t *testing.T) {
	inch := Tape{}
	for _, tt := range []struct {
		t    Tape
		l    Length
		want string
	}{
		{inch, 23*Inch + Inch*5/8, "23 5/8 in"},
		{inch, Inch * 8 / 16, "1/2 in"}, // reduced
		{inch, 0, "0 in"},
		{inch, -(Inch + Inch/4), "-1 1/4 in"},
		{Tape{Step: Inch / 16}, 16*Inch - Inch/100, "16 in"}, // 15.99 carries to 16, never 15 16/16
		{Tape{Step: Inch / 16}, 12*Inch - Inch/32, "12 in"},  // 11 31/32 to 1/16: halves away from zero
		{Tape{Metric: true}, 600*MM + MM/2, "600.5 mm"},
		{Tape{Metric: true, Step: MM}, 600*MM + MM/2, "601 mm"}, // halves away from zero
		{Tape{Metric: true, Step: MM}, -600*MM - MM/2, "-601 mm"},
	} {
		if got := tt.t.Text(tt.l); got != tt.want {
			t.Errorf("%+v.Text(%d) = %q, want %q", tt.t, tt.l, got, tt.want)
		}
	}
	if got := inch.Show(Inch * 23 / 32); got != "23⁄32" {
		t.Errorf("Show = %q", got)
	}
	if got := inch.Say(23*Inch + Inch/4); got != "23 and 1/4 inches" {
		t.Errorf("Say = %q", got)
	}
	if w, n, d := inch.Figure(23*Inch + Inch/4); w != "23" || n != "1" || d != "4" {
		t.Errorf("Figure = %q %q %q", w, n, d)
	}
	if got := inch.ShowExact(18 * MM); got != "0.7087" {
		t.Errorf("ShowExact(18 mm) = %q, want 0.7087", got)
	}
}

// TestInches32 checks rounding to 1/32 in against values worked by hand from
// 1 in = 25.4 mm: 18 mm = 22.677/32 in, and so on.
func TestInches32(t *testing.T) {
	for _, tt := range []struct {
		mm   Length
		want string
	}{
		{18, "23/32"}, {12, "15/32"}, {6, "1/4"}, {5, "3/16"}, {19, "3/4"}, {37, "1 15/32"},
		{96, "3 25/32"}, {128, "5 1/32"}, {160, "6 5/16"}, {192, "7 9/16"},
	} {
		if got := (Tape{}).Plain(tt.mm * MM); got != tt.want {
			t.Errorf("%d mm = %q in to 1/32, want %q", tt.mm, got, tt.want)
		}
	}
}

// TestConversions: 1 in = 25.4 mm exactly, 1 ft = 0.3048 m exactly (16 CFR
// 500.19; NIST Special Publication 811, B.8); 1 in² = 6.4516 cm² exactly;
// 1 ft² = 929.0304 cm²; 1 lb = 0.45359237 kg exactly.
func TestConversions(t *testing.T) {
	if 10*Inch != 254*MM {
		t.Errorf("10 in = %v, want 254 mm", 10*Inch)
	}
	if 10000*Foot != 3048*Metre {
		t.Errorf("10000 ft = %d, want %d", 10000*Foot, 3048*Metre)
	}
	if got := Inch.Times(Inch) * 10000; got != 64516*CM.Times(CM) {
		t.Errorf("10000 in² = %d, want 64516 cm² = %d", got, 64516*CM.Times(CM))
	}
	if got := Foot.Times(Foot) * 10000; got != 9290304*CM.Times(CM) {
		t.Errorf("10000 ft² = %d, want 9290304 cm² = %d", got, 9290304*CM.Times(CM))
	}
	if 100_000_000*Pound != 45_359_237*Kilogram {
		t.Errorf("10⁸ lb = %d, want %d", 100_000_000*Pound, 45_359_237*Kilogram)
	}
	if Inch64*64 != Inch || Inch64 != 3175 {
		t.Errorf("1/64 in is %d ticks, want 3175 whole ones", Inch64)
	}
}

func TestRounding(t *testing.T) {
	tape := Tape{}
	step := Inch / 32
	r := rand.New(rand.NewPCG(1, 0))
	for range 10_000 {
		l := Length(r.Int64N(int64(100*Inch))) - 50*Inch
		lo, hi, near := tape.Floor(l), tape.Ceil(l), tape.Round(l)
		if lo > l || l-lo >= step || lo%step != 0 {
			t.Fatalf("Floor(%d) = %d", l, lo)
		}
		if hi < l || hi-l >= step || hi%step != 0 {
			t.Fatalf("Ceil(%d) = %d", l, hi)
		}
		if (near-l).Abs()*2 > step || near%step != 0 {
			t.Fatalf("Round(%d) = %d", l, near)
		}
	}
}

func TestMass(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want Mass
	}{
		{"85 lb", 85 * Pound}, {"38.5 kg", 38*Kilogram + Kilogram/2}, {"38,5 kg", 38*Kilogram + Kilogram/2},
		{"900 g", 900 * Gram}, {"1 lb", 45_359_237}, {"0 kg", 0},
	} {
		got, err := ParseMass(tt.in)
		if err != nil || got != tt.want {
			t.Errorf("ParseMass(%q) = %v, %v; want %v", tt.in, got, err, tt.want)
		}
		if back, err := ParseMass(got.String()); err != nil || back != got {
			t.Errorf("%q prints as %q, reads back %v, %v", tt.in, got, back, err)
		}
	}
	for _, in := range []string{"", "85", "lb", "85 stone", "1e9 kg", "1/0 kg"} {
		if got, err := ParseMass(in); err == nil {
			t.Errorf("ParseMass(%q) = %v, want an error", in, got)
		}
	}
}

func TestMoney(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want Money
	}{{"84", 8400}, {"84.5", 8450}, {"84,50", 8450}, {"$84.05", 8405}, {"1.50 €", 150}, {"-3", -300}, {"0", 0}} {
		got, err := ParseMoney(tt.in)
		if err != nil || got != tt.want {
			t.Errorf("ParseMoney(%q) = %v, %v; want %v", tt.in, got, err, tt.want)
		}
		if back, err := ParseMoney(got.String()); err != nil || back != got {
			t.Errorf("%v does not read back: %v, %v", got, back, err)
		}
	}
	for _, in := range []string{"", "x", "1.234", "1.2.3", "$", "99999999999999999"} {
		if got, err := ParseMoney(in); err == nil {
			t.Errorf("ParseMoney(%q) = %v, want an error", in, got)
		}
	}
}

func FuzzMass(f *testing.F) {
	f.Add("85 lb")
	f.Add("38,5 kg")
	f.Fuzz(func(t *testing.T, in string) {
		m, err := ParseMass(in)
		if err != nil {
			return
		}
		if back, err := ParseMass(m.String()); err != nil || back != m {
			t.Errorf("%q = %d prints as %q, reads back %d, %v", in, m, m, back, err)
		}
	})
}

func ExampleTape_Text() {
	t := Tape{}
	l, err := t.Parse("23-5/8")
	if err != nil {
		fmt.Println(err)
	}
	fmt.Println(t.Text(l), "is", Tape{Metric: true}.Text(l))
	_, err = t.Parse("23 5/")
	fmt.Println(err)
	// Output:
	// 23 5/8 in is 600 mm
	// a number is missing after the slash
}
