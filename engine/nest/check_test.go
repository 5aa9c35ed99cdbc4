package nest

import (
	"math"
	"testing"
	"time"

	"cartwright/engine/issue"
	"cartwright/engine/measure"
)

const inch = measure.Inch

// plainJob has one sheet that the store can cut and one part on it.
func plainJob() Job {
	return Job{Kerf: inch / 8, Store: Store{Cuts: -1, Kerf: inch / 8, Trim: inch / 4}, Car: []Size{{44 * inch, 30 * inch}},
		Stock: []Stock{{ID: "sheet", Material: "ply", L: 96 * inch, W: 48 * inch, Price: 8400, Count: -1, Grain: Along}},
		Parts: []Part{{ID: "side", Material: "ply", L: 30 * inch, W: 20 * inch, Count: 4, Grain: Along}}}
}

// Each row spoils plainJob; Check must find it, and Search must neither hang
// nor panic nor give a plan that does not verify. left is the number of
// pieces that the plan leaves, or -1 if there is no plan at all.
var hostileTests = []struct {
	name  string
	spoil func(j *Job)
	code  issue.Code
	left  int
}{
	{"part fits nothing", func(j *Job) { j.Parts[0].L = 97 * inch }, TooLarge, 4},
	{"part fits only against the grain", func(j *Job) { j.Parts[0].Grain, j.Parts[0].L = Across, 50*inch }, TooLarge, 4},
	{"part fits the sheet but no piece that fits the car", func(j *Job) { j.Parts[0].L = 45 * inch }, NoCar, 4},
	{"part fits the car but not with its trim", func(j *Job) { j.Parts[0].L = 44 * inch }, NoCar, 4},
	{"no stock of the material", func(j *Job) { j.Stock[0].Material = "pine" }, NoStock, 4},
	{"no stock at all", func(j *Job) { j.Stock = nil }, NoStock, 4},
	{"none of the stock left", func(j *Job) { j.Stock[0].Count = 0 }, NoStock, 4},
	{"the store does not cut", func(j *Job) { j.Store.Cuts = 0 }, NoCut, 4},
	{"the store cuts too seldom", func(j *Job) { j.Store.Cuts = 1 }, NoCut, 4},
	{"no strip is wide enough for the store", func(j *Job) { j.Store.Least = 45 * inch }, NoCut, 4},
	{"a car of no size", func(j *Job) { j.Car = []Size{{}} }, NoCut, 4},
	{"a car below zero", func(j *Job) { j.Car = []Size{{math.MinInt64, math.MinInt64}} }, NoCut, 4},
	{"stock of zero", func(j *Job) { j.Stock[0].L = 0 }, BadSize, 4},
	{"stock of minus one", func(j *Job) { j.Stock[0].W = -1 }, BadSize, 4},
	{"stock without end", func(j *Job) { j.Stock[0].L = math.MaxInt64 }, BadSize, 4},
	{"stock trimmed to nothing", func(j *Job) { j.Stock[0].AtShop, j.Stock[0].Trim = true, 24*inch }, TooLarge, 4},
	{"trim without end", func(j *Job) { j.Stock[0].AtShop, j.Stock[0].Trim = true, math.MaxInt64 }, BadSize, 4},
	{"part of zero", func(j *Job) { j.Parts[0].W = 0 }, BadSize, 4},
	{"part without end", func(j *Job) { j.Parts[0].W = math.MaxInt64 }, BadSize, 4},
	{"part at the other end", func(j *Job) { j.Parts[0].L = math.MinInt64 }, BadSize, 4},
	{"kerf larger than the sheet", func(j *Job) { j.Kerf = 99 * measure.Metre }, WideKerf, 0},
	{"kerf larger than the part", func(j *Job) { j.Kerf = 21 * inch }, WideKerf, 0},
	{"kerf without end", func(j *Job) { j.Kerf = math.MaxInt64 }, BadKerf, -1},
	{"kerf below zero", func(j *Job) { j.Kerf = -1 }, BadKerf, -1},
	{"store kerf without end", func(j *Job) { j.Store.Kerf = math.MaxInt64 }, BadKerf, -1},
	{"trim of rough edges without end", func(j *Job) { j.Store.Trim = math.MaxInt64 }, BadKerf, -1},
	{"trim of factory edges below zero", func(j *Job) { j.FactoryTrim = -5 }, BadKerf, -1},
	{"least strip without end", func(j *Job) { j.Store.Least = math.MaxInt64 }, BadKerf, -1},
	{"price below zero", func(j *Job) { j.Stock[0].Price = -1 }, BadPrice, 4},
	{"price without end", func(j *Job) { j.Stock[0].Price = math.MaxInt64 }, BadPrice, 4},
	{"store price without end", func(j *Job) { j.Store.Price = math.MaxInt64 }, BadPrice, -1},
	{"more parts than can be listed", func(j *Job) { j.Parts[0].Count = math.MaxInt64 }, BadCount, -1},
	{"one piece too many", func(j *Job) { j.Parts[0].Count = MaxPieces + 1 }, BadCount, -1},
	{"many kinds, together too many", func(j *Job) {
		for range 3 {
			j.Parts = append(j.Parts, Part{ID: "x" + string(rune('a'+len(j.Parts))), Material: "ply", L: inch, W: inch, Count: math.MaxInt64 / 2})
		}
	}, BadCount, -1},
	{"a count below zero", func(j *Job) { j.Parts[0].Count = -3 }, BadCount, 0},
	{"no name", func(j *Job) { j.Parts[0].ID = "" }, SameID, 0},
	{"one name twice", func(j *Job) { j.Stock = append(j.Stock, j.Stock[0]) }, SameID, 0},
	{"a chain of two widths and two lengths", func(j *Job) {
		j.Parts[0].Chain = "fronts"
		j.Parts = append(j.Parts, Part{ID: "front", Material: "ply", L: 20 * inch, W: 10 * inch, Count: 1, Grain: Along, Chain: "fronts"})
	}, BadChain, 5},
	{"a chain of two grains", func(j *Job) {
		j.Parts[0].Chain = "fronts"
		j.Parts = append(j.Parts, Part{ID: "front", Material: "ply", L: 30 * inch, W: 10 * inch, Count: 1, Chain: "fronts"})
	}, BadChain, 5},
}

func TestHostileJobs(t *testing.T) {
	for _, tt := range hostileTests {
		job := plainJob()
		tt.spoil(&job)
		if found := Check(job); !found.Has(tt.code) {
			t.Errorf("%s: found %q, want %s", tt.name, codes(found), tt.code)
		}
		n := -1
		for p := range Search(job, Options{Tries: 300}) {
			if p.Plan != nil {
				n = len(p.Plan.Left)
				for _, f := range Verify(job, *p.Plan) {
					t.Errorf("%s: the plan does not verify: %s %v %v", tt.name, f.Code, f.Where, f.Args)
				}
				if f := Short(job, *p.Plan); len(f) > 0 {
					t.Errorf("%s: said twice: %v", tt.name, f)
				}
			}
		}
		if n != tt.left {
			t.Errorf("%s: %d pieces left, want %d", tt.name, n, tt.left)
		}
	}
}

func TestSoundJobHasNoFindings(t *testing.T) {
	if found := Check(plainJob()); len(found) > 0 {
		t.Errorf("found %v", found)
	}
}

func TestShortStock(t *testing.T) {
	job := plainJob()
	job.Stock[0].Count, job.Parts[0].Count = 1, 9
	p := last(job, Options{Tries: 2000})
	found := Short(job, *p)
	if len(found) != 1 || found[0].Code != ShortStock || found[0].Args[0] != len(p.Left) || len(p.Left) == 0 {
		t.Errorf("left %v, found %v", p.Left, found)
	}
}

// Ten thousand pieces are planned, if slowly, and the search can still be
// stopped at any heartbeat.
func TestTenThousandPieces(t *testing.T) {
	job := plainJob()
	job.Car = nil
	job.Parts = nil
	for i := range 100 {
		job.Parts = append(job.Parts, Part{ID: "p" + string(rune('A'+i)), Material: "ply", L: measure.Length(4+i%17) * inch,
			W: measure.Length(3+i%11) * inch, Count: 100})
	}
	checkRun(t, job, Options{Tries: 64})
	// The caller can stop soon, also while strips are laid: the beats are not
	// far apart.
	var longest time.Duration
	begin := time.Now()
	for p := range Search(equalsJob(1, 9960, 60), Options{Tries: 6000}) {
		if took := time.Since(begin); p.Tries > 0 {
			longest = max(longest, took)
		}
		begin = time.Now()
	}
	t.Logf("longest time between heartbeats: %v", longest)
	if longest > 5*time.Second {
		t.Errorf("%v without a heartbeat", longest)
	}
}

// A thousand sizes at the largest that is planned: no sum overflows.
func TestLargestSizes(t *testing.T) {
	job := plainJob()
	job.Car = nil
	job.Kerf = MaxSide
	job.Stock[0].L, job.Stock[0].W, job.Stock[0].AtShop = MaxSide, MaxSide, true
	job.Parts[0].L, job.Parts[0].W, job.Parts[0].Count = MaxSide, MaxSide, 3
	job.Parts = append(job.Parts, Part{ID: "tick", Material: "ply", L: 1, W: 1, Count: 5})
	checkRun(t, job, Options{Tries: 300})
}
