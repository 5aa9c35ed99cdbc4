package design

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"cartwright/engine/measure"
	"cartwright/engine/project"
)

// TestHostile puts sizes that nobody means into one to three fields at a time:
// nothing crashes, and no law of the model is broken on top of it.
func TestHostile(t *testing.T) {
	odd := []measure.Length{-1, 1, -in, in / 64, in / 8, in, 7 * in, 40 * in, 1000 * in, -1 << 40, 1 << 40}
	samples := samplesOf(t)
	for _, name := range []string{"jointer-stand", "sharpening-cart", "options/framed", "options/strips", "options/uprights", "options/bare"} {
		for seed := range uint64(700) {
			r := rand.New(rand.NewPCG(seed, 9))
			p := samples[name].Clone()
			var fields []reflect.Value
			var paths []string
			for _, sec := range []string{"tape", "lineUp", "machine", "cabinet", "drawers", "base", "stock"} {
				v := section(p, sec)
				walk(v, sec, func(path string, v reflect.Value) {
					if v.Type() == reflect.TypeFor[measure.Length]() {
						fields, paths = append(fields, v), append(paths, path)
					}
				})
			}
			what := ""
			for range 1 + r.IntN(3) {
				i, l := r.IntN(len(fields)), odd[r.IntN(len(odd))]
				fields[i].SetInt(int64(l))
				what += " " + paths[i] + "=" + l.String()
			}
			func() {
				defer func() {
					if x := recover(); x != nil {
						t.Errorf("%s, seed %d:%s: %v", name, seed, what, x)
					}
				}()
				_, f := Build(p)
				for _, x := range f {
					switch x.Code {
					case Overlap, Loose, OpenJoint, Undeclared, Stuck:
						t.Errorf("%s, seed %d:%s: %v %v", name, seed, what, x.Code, x.Where)
						return
					}
				}
			}()
		}
	}
}

func section(p *project.Project, name string) reflect.Value {
	v := reflect.ValueOf(p).Elem()
	for i := range v.NumField() {
		if v.Type().Field(i).Tag.Get("json") == name {
			return v.Field(i)
		}
	}
	return reflect.Value{}
}
