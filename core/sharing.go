package core

import "slices"

// Shared is the labour of a choice that is done once for it and for others.
type Shared struct {
	Alone float64 `json:"alone_hours"` // likely, if nothing else were done: to open, to do the work, to close
	Adds  float64 `json:"adds_hours"`  // likely, to this plan: what no other part and no extent asks for
	// With is the part whose work shares most of it; "" if it is the extent alone that opens the way.
	With     string `json:"with,omitempty"`
	WithName string `json:"with_name,omitempty"` // as spoken: "Layshaft cluster"
}

// Saves is how many hours less it takes than by itself.
func (s Shared) Saves() float64 { return s.Alone - s.Adds }

// leastShared is the least of a day's work worth telling: a quarter of an hour (common practice, no source).
const leastShared = .25

// sharing works out what the choices share.
type sharing struct {
	b      *bench
	d      *due
	open   *access      // with everything closed but what came apart
	serves [2][][]int   // by operation and by step: the parts that are worked on and use it
	takes  [][2][]int   // by part: its operations and steps, what is included left out
	hours  [2][]float64 // likely, by operation and by step
	common []float64    // by part: the labour in common with the one at hand; 0 but for others
	others []int
}

// share fills in what each part that is worked on shares with others, and what others then have for less because of it. A part
// shares with the one that has most of its labour in common; among equals with one that cannot be reused.
func (b *bench) share(d *due, choices []Choice) {
	s := &sharing{b: b, d: d, takes: make([][2][]int, len(b.parts)), common: make([]float64, len(b.parts))}
	s.open = b.access.allClosed()
	s.hours[0], s.hours[1] = make([]float64, len(b.ops)), make([]float64, len(b.access.steps))
	for o, x := range b.ops {
		s.hours[0][o] = x.op.Hours.Likely
	}
	for n, x := range b.access.steps {
		if !x.absent {
			s.hours[1][n] = x.step.Refit().Likely
			if !x.apart {
				s.hours[1][n] += x.step.StripHours.Likely
			}
		}
	}
	s.serves[0], s.serves[1] = make([][]int, len(b.ops)), make([][]int, len(b.access.steps))
	worked := make([]int, len(b.parts)) // the option, or -1
	for i := range b.parts {
		worked[i] = b.workedOn(i, choices[i])
		if worked[i] >= 0 {
			s.take(i, worked[i])
		}
	}
	for i, k := range worked {
		if k >= 0 {
			s.fill(i, choices)
		}
	}
}

// workedOn is the option of a part that is rebuilt or replaced; -1 for the others.
func (b *bench) workedOn(i int, c Choice) int {
	if c.Kind != Rebuild && c.Kind != Replace {
		return -1
	}
	return slices.IndexFunc(b.parts[i].options, func(r Remedy) bool { return r.ID == c.Remedy })
}

// take notes what an option takes.
func (s *sharing) take(i, option int) {
	o := s.b.sel.Parts[i].Options[option]
	for _, n := range o.Operations {
		if !slices.ContainsFunc(o.Operations, func(m int) bool { return m != n && slices.Contains(s.b.sel.Operations[m].Includes, n) }) {
			s.takes[i][0] = append(s.takes[i][0], n)
		}
	}
	s.takes[i][1] = s.open.closure(o.Steps, nil)
	for kind, list := range s.takes[i] {
		for _, n := range list {
			s.serves[kind][n] = append(s.serves[kind][n], i)
		}
	}
}

// fill says what part i shares, and adds it to what the part that it shares with drags along.
func (s *sharing) fill(i int, choices []Choice) {
	sh := Shared{}
	common, others := s.common, s.others[:0]
	for kind, list := range s.takes[i] {
		for _, n := range list {
			h := s.hours[kind][n]
			sh.Alone += h
			mine := true
			for _, j := range s.serves[kind][n] {
				if j == i {
					continue
				}
				if mine = false; common[j] == 0 && h > 0 {
					others = append(others, j)
				}
				common[j] += h
			}
			if mine && !s.otherwise(kind, n) {
				sh.Adds += h
			}
		}
	}
	s.others = others
	defer func() {
		for _, j := range others {
			common[j] = 0
		}
	}()
	if sh.Saves() < leastShared {
		return
	}
	best := -1
	forced := func(j int) bool { return !s.b.mayReuse(j) }
	for _, j := range others {
		more := best < 0 || common[j] > common[best]+Slack
		same := best >= 0 && common[j] >= common[best]-Slack
		if more || same && (forced(j) && !forced(best) || forced(j) == forced(best) && j < best) {
			best = j
		}
	}
	if best >= 0 {
		p := s.b.parts[best]
		sh.With, sh.WithName = p.place.String(), p.part.Name
		if p.place.Position != "" {
			sh.WithName += " " + p.place.Position
		}
		choices[best].Drags = append(choices[best].Drags, choices[i].Place.String())
	}
	choices[i].Shared = &sh
}

// otherwise reports whether an operation or a step is there whatever becomes of one part: in the extent, in work for parts that are not
// settled, or included in another operation.
func (s *sharing) otherwise(kind, n int) bool {
	if kind == 1 {
		return s.b.access.steps[n].open
	}
	return slices.ContainsFunc(s.b.sel.Operations, func(o SelectOperation) bool {
		return slices.Contains(o.Includes, n)
	}) && s.d.opPaid[n] == 0
}

// mayReuse reports whether every state of a part allows it to be reused.
func (b *bench) mayReuse(i int) bool {
	return !slices.ContainsFunc(b.sel.Parts[i].States, func(st SelectState) bool {
		return !slices.ContainsFunc(st.Options, func(o int) bool { return b.parts[i].options[o].Kind == Reuse })
	})
}
