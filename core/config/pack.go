package config

import (
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"github.com/fettle-tools/fettle/core"
)

type packFile struct {
	ID       text         `key:"id,need"`
	Title    text         `key:"title,need"`
	Kind     text         `key:"kind,need"`
	UnitKind text         `key:"unit_kind"`
	Source   text         `key:"source,need"`
	Currency text         `key:"currency"`
	Facts    []factFile   `key:"facts"`
	Limits   []limitFile  `key:"limits"`
	Weights  []weightFile `key:"weights"`
	Marks    []markFile   `key:"marks"`
	Steps    []stepFile   `key:"steps"`
	Sets     []setFile    `key:"sets"`
}

type factFile struct {
	Mark      mark
	Subsystem text `key:"subsystem,need"`
	Name      text `key:"name,need"`
	Value     raw  `key:"value,need"`
	Source    text `key:"source"`
}

type weightFile struct {
	Mark   mark
	Load   text `key:"load,need"`
	Weight text `key:"weight,need"`
	Source text `key:"source"`
}

type markFile struct {
	Where    text `key:"where,need"`
	Expected text `key:"expected,need"`
	Says     text `key:"says"`
	Note     text `key:"note"`
}

type setFile struct {
	Mark     mark
	ID       text   `key:"id,need"`
	Name     text   `key:"name,need"`
	Members  []text `key:"members,need"`
	SameKind yes    `key:"same_kind"`
	AgreeOn  text   `key:"agree_on"`
	Source   text   `key:"source"`
}

// ReadPack reads what is known of one vehicle model or of one kind of unit:
//
//	id: packhorse-b
//	title: Packhorse Mark B, 1956
//	kind: vehicle                  # vehicle or unit
//	unit_kind: engine              # of a unit's pack only
//	source: Workshop manual        # what everything below is from, unless it names its own source
//	currency: USD                  # of prices in the steps
//	facts:
//	  - {subsystem: bottom-end, name: D, value: 2.5 in, source: manual page 12}   # a size with its unit,
//	  - {subsystem: bottom-end, name: mains, value: 3}                            # a whole number,
//	  - {subsystem: gearbox, name: interlock, value: pin}                         # or a word
//	limits:                        # these win over the sheet's; null where an end is open
//	  - {subsystem: gearbox, part: layshaft, position: "", check: end-float, new: [.004, .008], wear_high: .012, unit: in,
//	     source: manual page 40, confidence: high}
//	  - {subsystem: gearbox, part: case, check: surface, worst_class: 1}
//	weights: [{load: engine, weight: 430 lb, source: manual page 3}]   # of what the strip plan lifts
//	marks: [{where: engine block left, expected: D4-xxxxx, says: agrees, note: a casting date stands beside it}]
//	steps: []                      # as in a strip plan: they replace or extend the generic plan's, see MergeStrip
//	sets:                          # matched sets whose members lie in several subsystems: subsystem/part[/position]
//	  - {id: M20, name: Axle ratios, members: [rear-axle/crown-wheel-pinion, front-axle/crown-wheel-pinion], agree_on: ratio}
//
// A set says same_kind: true or agree_on: a key. Confidence is high, medium or low; medium if left out.
func ReadPack(data []byte, file string) (core.Pack, error) {
	d := &document{file: file}
	var f packFile
	d.read(data, "the pack", &f)
	p := core.Pack{ID: d.id(f.ID), Title: f.Title.s, Kind: d.oneOf(f.Kind, "kind of pack", "vehicle", "unit"), UnitKind: f.UnitKind.s, Source: f.Source.s}
	if p.Kind == "unit" && p.UnitKind == "" {
		d.add(f.Kind.mark, "add unit_kind: engine, gearbox ...", "a unit's pack does not say what kind of unit")
	}
	if p.Kind == "vehicle" && p.UnitKind != "" {
		d.add(f.UnitKind.mark, "take it out, or write kind: unit", "a vehicle's pack has no unit_kind")
	}
	p.Facts = d.facts(f.Facts, f.Source)
	p.Overrides = d.limits(f.Limits, f.Source, p.Kind)
	p.Weights = d.weights(f.Weights, f.Source)
	for _, m := range f.Marks {
		p.Marks = append(p.Marks, core.Mark{Where: m.Where.s, Expected: m.Expected.s, Says: d.oneOf(m.Says, "word of a mark", core.MarkWords...), Note: m.Note.s})
	}
	p.Steps, _ = d.steps(f.Steps, f.Currency)
	for _, s := range f.Steps {
		if s.Before {
			d.add(s.ID.mark, "take it out: only the strip plan frees a step", "before_agreement in a pack")
		}
	}
	p.Sets = d.sets(f.Sets, f.Source)
	if err := d.err(); err != nil {
		return core.Pack{}, err
	}
	return p, nil
}

func (d *document) facts(files []factFile, source text) (facts []core.PackFact) {
	seen := map[[2]string]bool{}
	for _, f := range files {
		key := [2]string{f.Subsystem.s, f.Name.s}
		if seen[key] {
			d.add(f.Mark, "keep one of them", "%s has the fact %s twice", f.Subsystem.s, f.Name.s)
		}
		seen[key] = true
		facts = append(facts, core.PackFact{Subsystem: d.id(f.Subsystem), Fact: core.Fact{Name: f.Name.s, Value: d.value(f.Value.n), Source: f.Source.or(source.s)}})
	}
	return facts
}

// value reads what a fact says: a whole number, a size with its unit, or a word.
func (d *document) value(n *yaml.Node) core.Value {
	if n == nil {
		return core.Value{}
	}
	var t text
	before := len(d.faults)
	t.scan(d, n)
	if len(d.faults) > before {
		return core.Value{}
	}
	if i, err := strconv.Atoi(t.s); err == nil && n.Tag == "!!int" {
		return core.Value{Kind: core.ValueCount, Count: i}
	}
	if !strings.ContainsAny(t.s[:1], "0123456789.+-") {
		return core.Value{Kind: core.ValueWord, Word: t.s}
	}
	r, err := core.ParseReading(t.s)
	if err != nil {
		d.add(t.mark, "write a whole number, a size with its unit like 2.5 in, or a word that begins with a letter", "%v", err)
		return core.Value{}
	}
	if r.Unit == "" {
		if n.Tag == "!!str" {
			d.add(t.mark, "write the unit, or take the quotes off", "%q is a size without a unit", t.s)
		}
		r.Unit = "1" // a ratio: 4.7
	}
	return core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: r.Value, Unit: r.Unit}}
}

func (d *document) weights(files []weightFile, source text) (ws []core.Weight) {
	seen := map[string]bool{}
	for _, f := range files {
		if seen[f.Load.s] {
			d.add(f.Load.mark, "keep one of them", "the load %s stands here twice", f.Load.s)
		}
		seen[f.Load.s] = true
		w := core.Weight{Key: d.id(f.Load), Source: f.Source.or(source.s)}
		if f.Weight.s != "" {
			r, err := core.ParseReading(f.Weight.s)
			u, _ := core.FindUnit(r.Unit)
			if err != nil || u.Dimension != "mass" || r.Value <= 0 {
				d.add(f.Weight.mark, "write a weight with its unit, like 430 lb or 195 kg", "%q is no weight", f.Weight.s)
			}
			w.Weight = core.Quantity{Value: r.Value, Unit: r.Unit}
		}
		ws = append(ws, w)
	}
	return ws
}

func (d *document) sets(files []setFile, source text) (sets []core.CrossSet) {
	seen := map[string]bool{}
	for _, f := range files {
		if seen[f.ID.s] {
			d.add(f.ID.mark, "give it another id", "the set %s stands here twice", f.ID.s)
		}
		seen[f.ID.s] = true
		if bool(f.SameKind) == (f.AgreeOn.s != "") {
			d.add(f.Mark, "write same_kind: true, or agree_on: and a key", "the set %s needs one rule", f.ID.s)
		}
		if len(f.Members) == 1 {
			d.add(f.Members[0].mark, "name the others", "the set %s has one member", f.ID.s)
		}
		s := core.CrossSet{ID: d.id(f.ID), Name: f.Name.s, SameKind: bool(f.SameKind), AgreeOn: f.AgreeOn.s, Source: f.Source.or(source.s)}
		for _, m := range f.Members {
			s.Members = append(s.Members, d.place(m))
		}
		sets = append(sets, s)
	}
	return sets
}

// place reads subsystem[@unit]/part[/position].
func (d *document) place(t text) (p core.Place) {
	if t.s == "" {
		return p
	}
	bits := strings.SplitN(t.s, "/", 3)
	p.Subsystem, p.Unit, _ = strings.Cut(bits[0], "@")
	if len(bits) > 1 {
		p.Part = bits[1]
	}
	if len(bits) > 2 {
		p.Position = bits[2]
	}
	if p.Subsystem == "" || p.Part == "" || strings.ContainsAny(t.s, " \t") {
		d.add(t.mark, "write subsystem/part or subsystem/part/position", "%q names no part", t.s)
	}
	return p
}
