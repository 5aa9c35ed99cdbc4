package issue

import "strings"

// A Cost is what a finding costs whoever does not heed it.
type Cost int

const (
	Hurts  Cost = iota // something falls, rolls off, breaks under its load or is thrown by a saw
	Spoils             // parts that do not fit, or a sheet: cut again
	Money              // bought twice, or too weak to last
	Time               // another way is slower, or only looks are at stake
)

// costs lists the codes by cost. What stands in no list costs wood.
var costs = [...]struct {
	cost  Cost
	codes string
}{
	{Hurts, " check.tips check.barely check.push check.sill check.creeps check.caster check.screws check.racks check.corner check.dense work.fence work.small work.no-edge work.foot-off work.face-glue design.no-back design.bottom-hangs "},
	{Money, " check.slide check.bottom check.sag check.heavy nest.nostock nest.short nest.price nest.toolarge nest.nocar nest.nocut nest.car work.nosaw "},
	{Time, " check.offset work.clamps work.reach work.foot-hits design.thin-joint design.short-joint design.no-place design.off-tape design.odd mark.orphan mark.conflict mark.restored "},
}

// Cost returns what a finding of the code costs.
func (c Code) Cost() Cost {
	for _, l := range costs {
		if strings.Contains(l.codes, " "+string(c)+" ") {
			return l.cost
		}
	}
	return Spoils
}
