package sdk

import (
	"cmp"
	"math"
	"slices"

	"github.com/fettle-tools/fettle/core"
)

// slot is where a reading stands: a check and its station's index.
type slot struct{ check, station int }

// origin lists the slots that a derived check is worked out from, itself where it was typed directly, each once.
func (l *look) origin(check int) []slot {
	var all []slot
	var follow func(check int)
	follow = func(check int) {
		for _, in := range l.doc.checks[check].inputs {
			if in.check < 0 {
				continue
			}
			s := slot{in.check, l.direct(in.check)}
			if in.station != "" {
				s.station = slices.Index(l.part.Checks[in.check].Stations, in.station)
			} else if l.part.Checks[in.check].Kind == core.Derived && len(l.numbers(in.check, s.station)) == 0 {
				follow(in.check)
				continue
			}
			if !slices.Contains(all, s) {
				all = append(all, s)
			}
		}
	}
	follow(check)
	return all
}

// work evaluates a derived check from values for its origin's slots; ok is false if a fact is not known or there is no
// finite result.
func (l *look) work(check int, from []slot, values []float64) (float64, bool) {
	x := l.doc.checks[check].formula
	inputs := make([]float64, len(x.names))
	for i, in := range l.doc.checks[check].inputs {
		v, unit, ok := 0.0, "", true
		switch {
		case in.check < 0:
			v, ok = l.r.fact(in.name, x.unit)
			unit = x.unit
		default:
			unit = l.part.Checks[in.check].Unit
			s := slot{in.check, l.direct(in.check)}
			if in.station != "" {
				s.station = slices.Index(l.part.Checks[in.check].Stations, in.station)
			}
			if k := slices.Index(from, s); k >= 0 {
				v = values[k]
			} else {
				v, ok = l.work(in.check, from, values)
			}
		}
		if !ok {
			return 0, false
		}
		inputs[i] = toResult(v, unit, x.unit)
	}
	return x.work(inputs)
}

// maxCombinations bounds how many sets of disagreeing readings a derived value is worked out for; beyond it only the least
// and the largest at each station are tried.
const maxCombinations = 256

// outer keeps the least and the largest of the readings of each slot.
func outer(options [][]reading) (total int) {
	total = 1
	for i, rs := range options {
		by := func(a, b reading) int { return cmp.Compare(a.q.Value, b.q.Value) }
		if low, high := slices.MinFunc(rs, by), slices.MaxFunc(rs, by); low.q.Value < high.q.Value {
			options[i] = []reading{low, high}
		} else {
			options[i] = rs[:1]
		}
		total *= len(options[i])
	}
	return min(total, maxCombinations)
}

// worked gives the worst judgement of a derived check over the live readings of its origin; ok is false if a reading or
// a fact is wanting.
func (l *look) worked(check int) (best judged, ok bool) {
	from := l.origin(check)
	options := make([][]reading, len(from))
	total := 1
	var ids []string
	for i, s := range from {
		options[i] = l.numbers(s.check, s.station)
		if len(options[i]) == 0 {
			return judged{}, false
		}
		for _, r := range options[i] {
			ids = append(ids, r.finding.ID)
		}
		total = min(total*len(options[i]), maxCombinations+1)
	}
	if total > maxCombinations {
		total = outer(options)
	}
	for n := range total {
		in := make([]Estimate, len(from))
		for i, k := 0, n; i < len(from); i++ {
			r := options[i][k%len(options[i])]
			k /= len(options[i])
			in[i] = Estimate{Value: r.q.Value, U: StandardUncertainty(r.q.Bound)}
		}
		good := true
		c := Combine(func(x []float64) float64 {
			v, ok := l.work(check, from, x)
			good = good && ok
			return v
		}, in...)
		if !good || math.IsNaN(c.U) || math.IsInf(c.U, 0) {
			continue
		}
		q := core.Quantity{Value: c.Value, Unit: l.part.Checks[check].Unit, Bound: c.U * math.Sqrt(3)}
		if j := l.judge(check, q, "", nil); !ok || j.worseThan(best) {
			best, ok = j, true
		}
	}
	best.findings = sortedIDs(ids)
	best.worked = true
	return best, ok
}

// sortedIDs gives ids in order, each once, blanks left out.
func sortedIDs(ids []string) []string {
	ids = slices.DeleteFunc(slices.Clone(ids), func(s string) bool { return s == "" })
	slices.Sort(ids)
	return slices.Compact(ids)
}
