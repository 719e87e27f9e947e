package core

import (
	"fmt"
	"slices"
	"strings"
)

// ReadLine reads findings as mechanics write them, one or many on a line:
//
//	bottom-end main-journal M2 diameter FV 2.4950 FH 2.4968 RV 2.4946 RH 2.4966 with micrometer
//	gearbox layshaft end-float 16 thou; interlock working fails; synchro-ring 3rd gap could not reach
//
// Clauses are parted by semicolons; a clause that names no subsystem, part or check goes on with the last one's. Within a clause come
// the part, its position, the check, and then the value, or a station before each of several values. "with" names the instrument, of the same check at the next place too,
// "by" who measured, "note" the rest. All faults of the line are told; what could be read is returned beside them.
func (r Recorder) ReadLine(line, subsystem string) ([]Typed, []error) {
	var out []Typed
	var faults []error
	last := Typed{Subsystem: subsystem}
	for clause := range strings.SplitSeq(line, ";") {
		words := strings.Fields(clause)
		if len(words) == 0 {
			continue
		}
		ts, err := r.clause(words, &last)
		if err != nil {
			faults = append(faults, &Error{Code: ErrorCode(err), What: err.Error(), Where: strings.TrimSpace(clause), Next: ErrorNext(err)})
			continue
		}
		out = append(out, ts...)
	}
	if len(out)+len(faults) == 0 {
		faults = append(faults, Errorf(Invalid, "write what was read, like: gearbox layshaft end-float 16 thou", "nothing is written in the line"))
	}
	return out, faults
}

// clause reads one clause, taking over from last what it leaves out.
func (r Recorder) clause(words []string, last *Typed) ([]Typed, error) {
	t := Typed{Subsystem: last.Subsystem, Part: last.Part, Position: last.Position, Check: last.Check, By: last.By}
	words = trailer(words, &t)
	if name, _, _ := strings.Cut(words[0], "@"); slices.ContainsFunc(r.Sheets, func(s UnitSheet) bool { return s.Subsystem == name }) {
		t = Typed{Subsystem: words[0], By: t.By, Instrument: t.Instrument, Note: t.Note}
		words = words[1:]
	}
	if t.Subsystem == "" {
		if n := Nearest(words[0], r.Served); n != "" {
			return nil, Errorf(NotFound, fmt.Sprintf("did you mean %q?", n), "no subsystem called %q", words[0])
		}
	}
	s, err := r.sheet(t.Subsystem, "")
	if err != nil {
		return nil, err
	}
	var part *Part
	if p, n := longest(words, s.Sheet.Parts, func(p Part) (string, string) { return p.ID, p.Name }); p != nil {
		part, words = p, words[n:]
		if part.ID != t.Part {
			t.Check = ""
		}
		t.Part, t.Position = part.ID, ""
	} else if part = s.Sheet.Part(t.Part); part == nil {
		return nil, noPart(words, s)
	}
	if len(words) > 0 && slices.ContainsFunc(part.Positions, func(q string) bool { return strings.EqualFold(q, words[0]) }) {
		t.Position, words = words[0], words[1:]
	}
	if c, n := longest(words, part.Checks, func(c Check) (string, string) { return c.ID, c.Name }); c != nil {
		t.Check, words = c.ID, words[n:]
	} else if err := noSuchWord(*part, t, words); err != nil {
		return nil, err
	}
	if t.Instrument == "" && t.Subsystem == last.Subsystem && t.Part == last.Part && t.Check == last.Check {
		t.Instrument = last.Instrument // the same question is asked at another place: the tool is still in the hand
	}
	*last = t
	check := part.Check(t.Check)
	if check == nil && len(part.Checks) == 1 {
		check = &part.Checks[0]
	}
	return values(t, check, words)
}

// noSuchWord tells of a word that stands where a position or a check should: a part with several must have one named, here or in the
// clause before.
func noSuchWord(p Part, t Typed, words []string) error {
	if len(words) == 0 || isNotRead(strings.Join(words, " ")) {
		return nil
	}
	if len(p.Positions) > 0 && t.Position == "" && !startsNumber(words[0]) {
		_, err := placePosition(p, words[0])
		return err
	}
	if t.Check != "" || len(p.Checks) < 2 {
		return nil
	}
	_, err := lookup("check of "+p.Name, words[0], p.Checks, func(c Check) (string, string) { return c.ID, c.Name })
	return err
}

// values reads one value, or a station before each of several.
func values(t Typed, c *Check, words []string) ([]Typed, error) {
	if len(words) == 0 {
		return nil, Errorf(Invalid, `write the reading last, like "24.87 mm", or why there is none: "could not reach"`, "no value is given")
	}
	station := func(w string) bool {
		return c != nil && slices.ContainsFunc(c.Stations, func(s string) bool { return strings.EqualFold(s, w) })
	}
	if !station(words[0]) {
		t.Value = strings.Join(words, " ")
		if c != nil && len(c.Stations) > 0 && len(words) > 1 && !isNotRead(t.Value) && !startsNumber(words[0]) {
			return nil, Errorf(Invalid, "use one of: "+strings.Join(c.Stations, ", "), "%s has no station %q", c.Name, words[0])
		}
		return []Typed{t}, nil
	}
	var out []Typed
	for i := 0; i < len(words); {
		one := t
		one.Station = words[i]
		i++
		from := i
		for i < len(words) && !station(words[i]) {
			i++
		}
		if one.Value = strings.Join(words[from:i], " "); one.Value == "" {
			return nil, Errorf(Invalid, "write the reading after its station", "no value is given at %s", one.Station)
		}
		out = append(out, one)
	}
	return out, nil
}

// startsNumber reports whether a word can begin a reading.
func startsNumber(w string) bool {
	return strings.ContainsAny(w[:1], "+-.0123456789") || startsVulgar(w) || strings.HasPrefix(w, "−")
}

// trailer takes "with INSTRUMENT", "by NAME" and "note TEXT" off the end of a clause.
func trailer(words []string, t *Typed) []string {
	for i := 1; i < len(words); i++ {
		switch words[i] {
		case "with", "by", "note":
		default:
			continue
		}
		end := len(words)
		if words[i] != "note" {
			for j := i + 1; j < len(words); j++ {
				if words[j] == "with" || words[j] == "by" || words[j] == "note" {
					end = j
					break
				}
			}
		}
		text := strings.Join(words[i+1:end], " ")
		switch words[i] {
		case "with":
			t.Instrument = text
		case "by":
			// "by eye" is why there is no reading, not who took it.
			if text == "eye" {
				continue
			}
			t.By = text
		case "note":
			t.Note = text
		}
		rest := trailer(append(slices.Clone(words[:i]), words[end:]...), t)
		return rest
	}
	return words
}

// longest finds the thing whose id or name is the longest run of leading words.
func longest[T any](words []string, list []T, names func(T) (id, name string)) (*T, int) {
	for n := min(len(words), 6); n > 0; n-- {
		word := strings.Join(words[:n], " ")
		for i := range list {
			id, name := names(list[i])
			if strings.EqualFold(id, word) || strings.EqualFold(name, word) || strings.EqualFold(strings.ReplaceAll(id, "-", " "), word) {
				return &list[i], n
			}
		}
	}
	return nil, 0
}

func noPart(words []string, s *UnitSheet) error {
	if len(words) == 0 {
		return Errorf(Invalid, "see: fettle sheet "+s.Subsystem, "no part of %s is named", s.Subsystem)
	}
	var ids []string
	for _, p := range s.Sheet.Parts {
		ids = append(ids, p.ID)
	}
	next := "see: fettle sheet " + s.Subsystem
	if n := Nearest(words[0], ids); n != "" {
		next = "did you mean \"" + n + "\"? see: fettle sheet " + s.Subsystem
	}
	return Errorf(NotFound, next, "%s has no part called %q", s.Subsystem, words[0])
}
