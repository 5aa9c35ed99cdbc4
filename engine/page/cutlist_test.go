package page

import (
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/part"
)

func TestCutList(t *testing.T) {
	tape := measure.Tape{Metric: true}
	got := CutList(tape, []part.Line{
		{Name: "Side, left", Length: 600 * measure.MM, Width: 400 * measure.MM, Thick: 18 * measure.MM, Count: 2, Material: "ply"},
		{Name: `=1+1"`, Length: measure.MM, Width: measure.MM, Thick: measure.MM, Count: 1, Grain: part.AnyWay, Material: "@x"},
		{Name: "-", Length: measure.MM, Width: measure.MM, Thick: measure.MM, Count: 1, Grain: part.AlongWidth, Material: " y"},
	})
	want := "name,length,width,thickness,count,grain,material\r\n" +
		"\"Side, left\",600 mm,400 mm,18 mm,2,length,ply\r\n" +
		"\"'=1+1\"\"\",1 mm,1 mm,1 mm,1,free,'@x\r\n" +
		"'-,1 mm,1 mm,1 mm,1,width,\" y\"\r\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
