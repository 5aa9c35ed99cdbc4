package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/nest"
)

const (
	cartParts = "../../testdata/nest/cart-parts.csv"
	cartStock = "../../testdata/nest/cart-stock.csv"
)

// plan runs the command and returns its exit code and what it printed.
func plan(args ...string) (code int, out, errOut string) {
	var o, e bytes.Buffer
	code = run(args, &o, &e)
	return code, o.String(), e.String()
}

func TestCutlistWritesAllFiles(t *testing.T) {
	d := t.TempDir()
	cuts, all, list := filepath.Join(d, "cuts.json"), filepath.Join(d, "all.json"), filepath.Join(d, "list.csv")
	code, out, errOut := plan("-cutlist", cartParts, "-stock", cartStock, "-car", "44 in x 30 in", "-car", "60inx24in",
		"-storetrim", "1/4 in", "-storekerf", "1/8 in", "-tries", "2000", "-seconds", "0", "-cuts", cuts, "-json", all, "-csv", list)
	if code != fine {
		t.Fatalf("exit %d: %s", code, errOut)
	}
	for _, want := range []string{"store cut", "sheet 3/4", "drawer side, low, "} {
		if !strings.Contains(out, want) {
			t.Errorf("output lacks %q:\n%s", want, out)
		}
	}
	var x struct {
		Kerf, StoreTrim int64
		Car             []struct{ L, W int64 }
		Parts           []struct{ ID string }
		Sheets          []struct{ Stock string }
	}
	b, err := os.ReadFile(cuts)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, &x); err != nil {
		t.Fatal(err)
	}
	if x.Kerf != int64(measure.Inch/8) || x.StoreTrim != int64(measure.Inch/4) || len(x.Car) != 2 || len(x.Parts) != 10 || len(x.Sheets) < 4 {
		t.Errorf("exchange form: %+v", x)
	}
	var y struct {
		Job  nest.Job
		Plan nest.Plan
	}
	if b, err = os.ReadFile(all); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, &y); err != nil {
		t.Fatal(err)
	}
	if found := nest.Verify(y.Job, y.Plan); len(found) > 0 {
		t.Errorf("the plan read back: %v", found)
	}
	if b, err = os.ReadFile(list); err != nil || !strings.Contains(string(b), `"drawer side, low",20 in,4 1/2 in,4,length,`) {
		t.Errorf("cut list: %v\n%s", err, b)
	}
}

func TestSameSeedSameBytes(t *testing.T) {
	var got [2][]byte
	for i := range got {
		f := filepath.Join(t.TempDir(), "cuts.json")
		if code, _, e := plan("-cutlist", cartParts, "-stock", cartStock, "-tries", "1000", "-seconds", "0", "-seed", "7", "-cuts", f); code != fine {
			t.Fatal(e)
		}
		got[i], _ = os.ReadFile(f)
	}
	if len(got[0]) == 0 || !bytes.Equal(got[0], got[1]) {
		t.Error("two runs with one seed differ")
	}
}

var badInputTests = []struct {
	name         string
	parts, stock string // contents, under the usual heading unless it brings its own
	flags        string
	code         int
	says         string
}{
	{"no unit", "a,20,4 in,,1,,ply", "s,96 in,48 in,,,,,ply", "", badInput, "line 2, length: the unit is missing"},
	{"junk length", "a,20 in,4 in,,1,,ply\nb,x,4 in,,1,,ply", "s,96 in,48 in,,,,,ply", "", badInput, "line 3, length:"},
	{"zero length", "a,0 in,4 in,,1,,ply", "s,96 in,48 in,,,,,ply", "", badInput, "above zero"},
	{"half a part", "a,20 in,4 in,,1.5,,ply", "s,96 in,48 in,,,,,ply", "", badInput, `count: "1.5" is not a whole number`},
	{"grain", "a,20 in,4 in,,1,up,ply", "s,96 in,48 in,,,,,ply", "", badInput, `"up" is not length, width or free`},
	{"price", "a,20 in,4 in,,1,,ply", "s,96 in,48 in,,,dear,,ply", "", badInput, "line 2, price"},
	{"unknown column", "name,length,width,colour\na,1 in,1 in,red", "s,96 in,48 in,,,,,ply", "", badInput, `no column "colour"`},
	{"missing column", "name,length\na,1 in", "s,96 in,48 in,,,,,ply", "", badInput, `"width" is missing`},
	{"column twice", "name,length,width,width\na,1 in,1 in,1 in", "s,96 in,48 in,,,,,ply", "", badInput, "stands twice"},
	{"too many fields", "a,20 in,4 in,,1,,ply,,,", "s,96 in,48 in,,,,,ply", "", badInput, "line 2: 10 fields"},
	{"open quote", "\"a,20 in,4 in", "s,96 in,48 in,,,,,ply", "", badInput, "quote"},
	{"bad flag", "a,20 in,4 in,,1,,ply", "s,96 in,48 in,,,,,ply", "-kerf thin", badInput, "kerf"},
	{"bad car", "a,20 in,4 in,,1,,ply", "s,96 in,48 in,,,,,ply", "-car 44in", badInput, "two lengths with an x"},
	{"too large", "a,97 in,4 in,,1,,ply", "s,96 in,48 in,,,,,ply", "", blocked, "a: 97 in x 4 in fits no stock; the largest is 96 in x 48 in"},
	{"other thickness", "a,20 in,4 in,1/2 in,1,,ply", "s,96 in,48 in,3/4 in,,,,ply", "", blocked, `no stock of "ply 1/2 in"`},
	{"no car", "a,50 in,40 in,,1,,ply", "s,96 in,48 in,,,,,ply", "-car 44inx30in", blocked, "fits the car"},
	{"no store cuts", "a,20 in,4 in,,1,,ply", "s,96 in,48 in,,,,,ply", "-car 44inx30in -storecuts 0", blocked, "cannot cut it"},
	{"too few sheets", "a,60 in,40 in,,3,,ply", "s,96 in,48 in,,,,2,ply", "", blocked, "a: 1 of 3 pieces found no place"},
	{"fine", "a,20 in,4 in,,1,,ply", "s,96 in,48 in,,,,,ply", "-car 44x30in", fine, ""},
}

func TestBadInput(t *testing.T) {
	for _, tt := range badInputTests {
		d := t.TempDir()
		write := func(name, heading, text string) string {
			if !strings.HasPrefix(text, "name,") {
				text = heading + "\n" + text
			}
			f := filepath.Join(d, name)
			if err := os.WriteFile(f, []byte(text+"\n"), 0o644); err != nil {
				t.Fatal(err)
			}
			return f
		}
		args := []string{"-cutlist", write("parts.csv", strings.Join(partColumns, ","), tt.parts),
			"-stock", write("stock.csv", strings.Join(stockColumns, ","), tt.stock), "-tries", "50", "-seconds", "0"}
		if tt.flags != "" {
			for _, f := range strings.Split(tt.flags, " ") {
				args = append(args, strings.ReplaceAll(f, "in x", " in x"))
			}
		}
		code, out, errOut := plan(args...)
		if code != tt.code || !strings.Contains(out+errOut, tt.says) {
			t.Errorf("%s: exit %d, want %d, saying %q; said\n%s%s", tt.name, code, tt.code, tt.says, out, errOut)
		}
	}
}

func TestHelpExplainsEachFlag(t *testing.T) {
	code, _, errOut := plan("-h")
	if code != fine {
		t.Errorf("exit %d", code)
	}
	for _, f := range strings.Fields("cutlist stock kerf car storecuts storekerf storetrim cuts tries seconds seed json csv") {
		if !strings.Contains(errOut, "-"+f+" ") && !strings.Contains(errOut, "-"+f+"\n") {
			t.Errorf("-h does not explain -%s", f)
		}
	}
}

func TestMissingFiles(t *testing.T) {
	if code, _, e := plan("-cutlist", "nowhere.csv", "-stock", cartStock); code != badInput || !strings.Contains(e, "nowhere.csv") {
		t.Errorf("exit %d, %q", code, e)
	}
	if code, _, e := plan("-cutlist", cartParts); code != badInput || !strings.Contains(e, "go together") {
		t.Errorf("exit %d, %q", code, e)
	}
}
