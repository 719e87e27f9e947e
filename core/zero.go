package core

// ZeroCheck is one look at an instrument's zero: what it read closed, or on its standard.
type ZeroCheck struct {
	Instrument string `json:"instrument"`
	Off        string `json:"off,omitempty"` // as it read, "+.0002 in"; "" on zero
	Stamp
}

// Check refuses a look at an instrument that the shop does not have, and gives its name as the shop writes it.
func (z ZeroCheck) Check(list []Instrument) (ZeroCheck, error) {
	i, ok := FindInstrument(list, z.Instrument)
	if !ok {
		var names []string
		for _, i := range list {
			names = append(names, i.Name)
		}
		next := "add it to instruments.yaml"
		if n := Nearest(z.Instrument, names); n != "" {
			next = "did you mean " + n + "? Or add it to instruments.yaml"
		}
		return z, Errorf(NotFound, next, "the shop has no instrument %q", z.Instrument)
	}
	z.Instrument = i.Name
	if z.Off == "" {
		return z, nil
	}
	if _, err := ParseReading(z.Off); err != nil {
		return z, Errorf(Invalid, `write it like "+.0002 in", or leave it out where it is on zero`, "%q is not how far a zero is off", z.Off)
	}
	return z, nil
}
