package core

import (
	"fmt"
	"strconv"
	"strings"
)

// ParseFasteners reads what goes into one bag: "6 x 3/8 UNF 1 1/2 in, bag 3, longest at rear". The thread runs up to the length; after commas
// come the bag, the marks on the heads, and notes. Errors are of code Invalid.
func ParseFasteners(text string) (Fasteners, error) {
	pieces := strings.Split(text, ",")
	words := strings.Fields(strings.Replace(pieces[0], "×", "x", 1))
	if len(words) > 0 { // "6x" and "6 x" alike
		if count, ok := strings.CutSuffix(words[0], "x"); ok && count != "" {
			words = append([]string{count, "x"}, words[1:]...)
		}
	}
	bad := func(why string) (Fasteners, error) {
		return Fasteners{}, Errorf(Invalid, `write them like "6 x 3/8 UNF 1 1/2 in, bag 3"`, "cannot read the fasteners %q: %s", text, why)
	}
	if len(words) < 1 {
		return bad("nothing is said")
	}
	n, err := strconv.Atoi(words[0])
	if err != nil || n < 1 || n > 10_000 {
		return bad("no count at the start")
	}
	f := Fasteners{In: n}
	rest := words[1:]
	if len(rest) > 0 && rest[0] == "x" {
		rest = rest[1:]
	}
	f.Thread = strings.Join(rest, " ")
	for i := 1; i < len(rest); i++ {
		if r, err := ParseReading(strings.Join(rest[i:], " ")); err == nil && isLength(r.Unit) {
			f.Thread, f.Length = strings.Join(rest[:i], " "), strings.Join(rest[i:], " ")
			break
		}
	}
	var notes []string
	for _, p := range pieces[1:] {
		p = strings.TrimSpace(p)
		word, after, _ := strings.Cut(p, " ")
		switch {
		case strings.EqualFold(word, "bag") && after != "":
			f.Bag = after
		case (strings.EqualFold(word, "head") || strings.EqualFold(word, "heads")) && after != "":
			f.Head = after
		case p != "":
			notes = append(notes, p)
		}
	}
	f.Note = strings.Join(notes, ", ")
	return f, nil
}

func isLength(unit string) bool {
	u, ok := FindUnit(unit)
	return ok && u.Dimension == "length"
}

// String writes the fasteners as they are read.
func (f Fasteners) String() string {
	s := strings.Join(strings.Fields(fmt.Sprintf("%d x %s %s", f.In, f.Thread, f.Length)), " ")
	for _, p := range []struct{ name, text string }{{"bag ", f.Bag}, {"heads ", f.Head}, {"", f.Note}} {
		if p.text != "" {
			s += ", " + p.name + p.text
		}
	}
	if f.Out != nil {
		s += fmt.Sprintf(": %d went back", *f.Out)
	}
	return s
}

// ParseShims reads a pack in its order from the outside: "outer: .003 .005 .010 in", or each with its own unit. A thickness without any unit
// is asked back: thousandths of an inch and tenths of a millimetre look alike. Errors are of code Invalid.
func ParseShims(text string) ([]Shim, error) {
	side, list, ok := strings.Cut(text, ":")
	if !ok {
		side, list = "", text
	}
	var shims []Shim
	for _, w := range strings.Fields(list) {
		if u, isUnit := FindUnit(w); isUnit {
			for i := range shims { // it is the unit of those before that have none
				if shims[i].Thickness.Unit == "" {
					shims[i].Thickness.Unit = u.Name
				}
			}
			continue
		}
		r, err := ParseReading(w)
		if err != nil {
			return nil, err
		}
		if r.Value <= 0 {
			return nil, Errorf(Invalid, "measure it again", "a shim of %s has no thickness", w)
		}
		shims = append(shims, Shim{Thickness: Quantity{Value: r.Value, Unit: r.Unit}, Side: strings.TrimSpace(side)})
	}
	for _, s := range shims {
		if !isLength(s.Thickness.Unit) {
			return nil, Errorf(Invalid, `write the unit behind: "outer: .003 .005 in"`, "a shim of %s: of what?", FormatNumber(s.Thickness.Value))
		}
	}
	if len(shims) == 0 {
		return nil, Errorf(Invalid, `write them like "outer: .003 .005 in"`, "cannot read the shims %q", text)
	}
	return shims, nil
}
