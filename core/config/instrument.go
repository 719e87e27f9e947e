package config

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
)

type instrumentsFile struct {
	Instruments []struct {
		Mark      mark
		Name      text   `key:"name,need"`
		Aliases   []text `key:"aliases"`
		Unit      text   `key:"unit,need"`
		Bound     number `key:"bound,need"`
		BoundUnit text   `key:"bound_unit"`
	} `key:"instruments,need"`
}

// ReadInstruments reads what the bench measures with:
//
//	instruments:
//	  - name: micrometer
//	    aliases: [mic, outside micrometer]   # other names it is known by, in any case
//	    unit: in                             # of a bare number read off it
//	    bound: .0001                         # how far a reading may be off, plus or minus: a limit of error
//	    bound_unit: in                       # a unit of the same kind, or "%" of the reading; the unit if left out
//
// A name or an alias may stand once only.
func ReadInstruments(data []byte, file string) ([]core.Instrument, error) {
	d := &document{file: file}
	var f instrumentsFile
	d.read(data, "the list of instruments", &f)
	list := []core.Instrument{}
	names := map[string]bool{}
	for _, i := range f.Instruments {
		in := core.Instrument{Name: i.Name.s, Unit: d.unit(i.Unit), Bound: d.within(i.Bound, 0, 1e6)}
		in.BoundUnit = i.BoundUnit.or(in.Unit)
		for _, a := range append([]text{i.Name}, i.Aliases...) {
			key := strings.ToLower(strings.Join(strings.Fields(a.s), " "))
			if key != "" && names[key] {
				d.add(a.mark, "give it another name", "%q names two instruments", a.s)
			}
			names[key] = true
		}
		for _, a := range i.Aliases {
			in.Aliases = append(in.Aliases, a.s)
		}
		if in.BoundUnit != "%" && i.BoundUnit.s != "" {
			in.BoundUnit = d.unit(i.BoundUnit)
			if _, err := core.ConvertSpan(1, in.BoundUnit, in.Unit); err != nil && in.BoundUnit != "" && in.Unit != "" {
				d.add(i.BoundUnit.mark, `write a unit like `+in.Unit+`, or "%"`, "a reading in %s cannot be off by so many %s", in.Unit, in.BoundUnit)
			}
		}
		list = append(list, in)
	}
	if err := d.err(); err != nil {
		return nil, err
	}
	return list, nil
}

// unit checks a unit of measure and gives its name; "" if there is none.
func (d *document) unit(t text) string {
	if t.s == "" {
		return ""
	}
	u, ok := core.FindUnit(t.s)
	if !ok {
		next := "use one of: " + strings.Join(core.UnitNames(), ", ")
		d.add(t.mark, next, "unknown unit %q", t.s)
		return ""
	}
	return u.Name
}
