package nest

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the digests")

// TestSameBytes compares the plans of seeded jobs with their digests, so that
// every machine that runs this test, native or wasm, gives the same bytes.
func TestSameBytes(t *testing.T) {
	var got bytes.Buffer
	for seed := range uint64(12) {
		job := randomJob(rand.New(rand.NewPCG(seed, 3)))
		fmt.Fprintf(&got, "random %d %x\n", seed, sha256.Sum256(checkRun(t, job, Options{Seed: seed, Tries: 2000})))
	}
	for seed := range uint64(4) {
		fmt.Fprintf(&got, "cart %d %x\n", seed, sha256.Sum256(checkRun(t, cartJob(seed), Options{Seed: seed, Tries: 2000})))
	}
	many := equalsJob(1, 300, 30)
	fmt.Fprintf(&got, "equals %x\n", sha256.Sum256(checkRun(t, many, Options{Seed: 1, Tries: 8000})))
	stocks := equalsJob(2, 240, 30)
	stocks.Stock = append(stocks.Stock, Stock{ID: "offcut", L: 900 * mm, W: 600 * mm, Count: 1, Grain: Across, AtShop: true},
		Stock{ID: "other", L: 1525 * mm, W: 1525 * mm, Price: 5000, Count: -1, Grain: Along, AtShop: true})
	fmt.Fprintf(&got, "stocks %x\n", sha256.Sum256(checkRun(t, stocks, Options{Seed: 1, Tries: 8000})))
	car := cartJob(2)
	for i := range car.Parts {
		car.Parts[i].Count *= 8
	}
	fmt.Fprintf(&got, "car %x\n", sha256.Sum256(checkRun(t, car, Options{Seed: 1, Tries: 8000})))
	const file = "../../testdata/nest/digests.txt"
	if *update {
		if err := os.WriteFile(file, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got.Bytes(), want) {
		t.Errorf("digests differ; if the search was changed, go test -update\ngot\n%swant\n%s", got.Bytes(), want)
	}
}

// No search rolls what another one has rolled or will: their seeds are more
// than a few thousand rolls apart.
func TestSeedsLieApart(t *testing.T) {
	job := halvesJob(4, 11*inch)
	rolled := map[uint64]uint64{}
	for seed := range uint64(64) {
		d := newSearch(&job, Options{Seed: seed}).hunts[0].dice
		for range 4000 {
			z := d.next()
			if was, ok := rolled[z]; ok {
				t.Fatalf("seeds %d and %d roll the same", was, seed)
			}
			rolled[z] = seed
		}
	}
}
