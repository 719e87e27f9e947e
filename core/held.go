package core

// Held says how often closed jobs came in under a figure of their scope.
type Held struct {
	Figure string  `json:"figure"` // P50, P80 or P90
	Want   float64 `json:"want"`   // the share that it should be
	Under  int     `json:"under"`  // jobs that came to no more
	Of     int     `json:"of"`
	Low    float64 `json:"low"` // the bounds of the share, 95 in 100
	High   float64 `json:"high"`
	Says   string  `json:"says"`
}

// tellWidth is how wide the bounds of a share may be for it to say something (common practice, no source).
const tellWidth = .4

// HowHeld holds what closed jobs came to against their scopes: against the first of each, and against the last.
func HowHeld(closed []Closed) (first, last []Held) {
	var a, z []*ScopeHeld
	for _, c := range closed {
		if c.Taught != nil && c.Taught.First != nil && c.Taught.Last != nil {
			a, z = append(a, c.Taught.First), append(z, c.Taught.Last)
		}
	}
	return held(a), held(z)
}

func held(scopes []*ScopeHeld) []Held {
	var out []Held
	for _, f := range []struct {
		name string
		want float64
		of   func(*ScopeHeld) Money
	}{
		{"P50", .5, func(s *ScopeHeld) Money { return s.P50 }}, {"P80", .8, func(s *ScopeHeld) Money { return s.P80 }}, {"P90", .9, func(s *ScopeHeld) Money { return s.P90 }},
	} {
		h := Held{Figure: f.name, Want: f.want, Of: len(scopes)}
		for _, s := range scopes {
			if Minor(s.Came) <= Minor(f.of(s)) {
				h.Under++
			}
		}
		h.Low, h.High = share{h.Under, h.Of}.bounds()
		h.Says = h.words()
		out = append(out, h)
	}
	return out
}

// words say whether the figure holds as often as it should, as far as so few jobs can tell.
func (h Held) words() string {
	switch {
	case h.Of == 0:
		return "no job to go by"
	case h.Want < h.Low:
		return "more often than it should be: the figure is too high"
	case h.Want > h.High:
		return "less often than it should be: the figure is too low"
	case h.High-h.Low > tellWidth:
		return "too few to tell"
	}
	return "as it should be, as far as so many can tell"
}
