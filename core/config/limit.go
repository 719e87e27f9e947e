package config

import (
	"github.com/fettle-tools/fettle/core"
)

type limitFile struct {
	Mark       mark
	Subsystem  text   `key:"subsystem,need"`
	Part       text   `key:"part,need"`
	Position   text   `key:"position"`
	Check      text   `key:"check,need"`
	New        span   `key:"new"`
	WearLow    number `key:"wear_low"`
	WearHigh   number `key:"wear_high"`
	WorstClass number `key:"worst_class"`
	Unit       text   `key:"unit"`
	Source     text   `key:"source"`
	Confidence text   `key:"confidence"`
}

// limits reads the limits of a pack; origin is vehicle or unit.
func (d *document) limits(files []limitFile, source text, origin string) (os []core.SubsystemOverride) {
	seen := map[[4]string]bool{}
	for i := range files {
		f := &files[i]
		key := [4]string{f.Subsystem.s, f.Part.s, f.Position.s, f.Check.s}
		if seen[key] {
			d.add(f.Mark, "keep one of them", "the check %s of %s/%s has two limits", f.Check.s, f.Subsystem.s, f.Part.s)
		}
		seen[key] = true
		os = append(os, core.SubsystemOverride{Subsystem: d.id(f.Subsystem), Override: core.Override{
			Target: core.Target{Part: d.id(f.Part), Position: f.Position.s}, Check: d.id(f.Check), Limit: d.limit(f, source, origin)}})
	}
	return os
}

func (d *document) limit(f *limitFile, source text, origin string) core.Limit {
	l := core.Limit{NewLow: f.New.low.pointer(), NewHigh: f.New.high.pointer(), WearLow: f.WearLow.pointer(), WearHigh: f.WearHigh.pointer(),
		Unit: d.unit(f.Unit), Source: f.Source.or(source.s), Confidence: d.oneOf(f.Confidence, "confidence", "high", "medium", "low"), Origin: origin}
	if l.Confidence == "" {
		l.Confidence = "medium"
	}
	sizes := f.New.low.set || f.New.high.set || f.WearLow.set || f.WearHigh.set
	if f.WorstClass.set {
		class := d.whole(f.WorstClass, 0, 3)
		l.WorstClass = &class
		if f.Unit.s == "" {
			l.Unit = "class 0-3"
		}
	}
	switch {
	case !sizes && !f.WorstClass.set:
		d.add(f.Mark, "write new, wear_low, wear_high or worst_class", "this limit limits nothing")
	case sizes && f.WorstClass.set:
		d.add(f.WorstClass.mark, "keep the sizes or the class", "a limit is of sizes or of a damage class")
	case sizes && f.Unit.s == "":
		d.add(f.Mark, "add unit: in, mm ...", "this limit has no unit")
	}
	below := func(a, b number, what string) {
		if a.set && b.set && a.v > b.v {
			d.add(f.Mark, "check which is which", "%s", what)
		}
	}
	below(f.WearLow, f.New.low, "wear_low is above the low end of new")
	below(f.WearLow, f.New.high, "wear_low is above the high end of new")
	below(f.New.high, f.WearHigh, "wear_high is below the high end of new")
	below(f.New.low, f.WearHigh, "wear_high is below the low end of new")
	return l
}
