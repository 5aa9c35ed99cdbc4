package mark

import (
	"encoding/json"
	"reflect"
	"testing"

	"cartwright/engine/measure"
)

// full says something in every field there is.
var full = Mark{Device: "tablet", Seq: 12, Lamport: 34, Time: "2026-11-25T10:00:00Z", Kind: Done, On: "cut/0/1", Plan: "3x", Prior: "2x",
	Piece: &Piece{Sheet: 1, X: measure.Inch / 64, Y: -3 * measure.UM, L: 48 * measure.Inch, W: 600 * measure.MM, Name: "R2"},
	Axis:  "x", At: 23*measure.Inch + 5*measure.Inch/8, Pieces: []Piece{{Name: "C", L: measure.Inch}, {Sheet: -2, W: measure.MM}},
	Value: 17600 * measure.UM, Saw: "table", Undoes: &Ref{"phone", 7}}

// readTests are texts of entries; quick are those in the form that is written.
var readTests = []struct {
	text  string
	quick bool
}{
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"bought","on":"glue"}`, true},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"undone","undoes":{"device":"b","seq":3}}`, true},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"done","pieces":[{"sheet":0,"x":"0 in","y":"0 in","l":"1 in","w":"0.000125 mm"}]}`, true},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"bought","on":"3\/4 \"ply\" \u00bd"}`, false},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"bought","on":"½"}`, false},
	{"{\"device\":\"a\",\"seq\":1,\"lamport\":2,\"time\":\"\",\"kind\":\"bought\",\"on\":\"\xff\"}", false},
	{`{"seq":1,"device":"a","lamport":2,"time":"","kind":"bought"}`, false},
	{` {"device": "a", "seq": 1, "lamport": 2, "time": "", "kind": "bought"} `, false},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"bought","later":[1,2]}`, false},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"bought","on":null,"piece":null}`, false},
	{`{"device":"a","seq":01,"lamport":2,"time":"","kind":"bought"}`, false},
	{`{"device":"a","seq":-0,"lamport":2,"time":"","kind":"bought"}`, false},
	{`{"device":"a","seq":1.5,"lamport":2,"time":"","kind":"bought"}`, false},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"measured","value":"18"}`, false},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"done","pieces":[]}`, false},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"bought"}}`, false},
	{`{"device":"a","seq":1,"lamport":2,"time":"","kind":"bought"`, false},
	{"{\"device\":\"a\n\",\"seq\":1,\"lamport\":2,\"time\":\"\",\"kind\":\"bought\"}", false},
	{`{"device":"a`, false},
	{``, false},
}

// quickly reads text without package json.
func quickly(text string) (m Mark, ok bool) {
	r := reader{rest: text}
	r.mark(&m)
	return m, !r.lost && r.rest == ""
}

// TestReadAll: every field is written, and read without package json.
func TestReadAll(t *testing.T) {
	for v := reflect.ValueOf(full); ; v = v.FieldByName("Piece").Elem() {
		for i := range v.NumField() {
			if v.Field(i).IsZero() {
				t.Errorf("the test says nothing in %s", v.Type().Field(i).Name)
			}
		}
		if v.Type() != reflect.TypeFor[Mark]() {
			break
		}
	}
	text, err := json.Marshal(full)
	if err != nil {
		t.Fatal(err)
	}
	if m, ok := quickly(string(text)); !ok || !reflect.DeepEqual(m, full) {
		t.Errorf("%s\nis read as %+v, %t", text, m, ok)
	}
}

func TestReadQuickly(t *testing.T) {
	for _, tt := range readTests {
		if _, ok := quickly(tt.text); ok != tt.quick {
			t.Errorf("%s: read without package json: %t", tt.text, ok)
		}
		same(t, tt.text)
	}
}

// same holds Read against package json.
func same(t *testing.T, text string) {
	var want Mark
	wrong := json.Unmarshal([]byte(text), &want)
	var got Mark
	err := Read(text, &got)
	if (err == nil) != (wrong == nil) || err == nil && !reflect.DeepEqual(got, want) {
		t.Errorf("%s: %+v, %v\npackage json: %+v, %v", text, got, err, want, wrong)
	}
}

// FuzzRead: an entry is read as package json reads it, whatever the text.
func FuzzRead(f *testing.F) {
	text, _ := json.Marshal(full)
	f.Add(string(text))
	for _, tt := range readTests {
		f.Add(tt.text)
	}
	f.Fuzz(same)
}
