package sdk

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// maxPositions bounds the positions of one part.
const maxPositions = 200

// numbered splits M12 into M and 12; ok is false without a number at the end.
func numbered(s string) (before, number string, ok bool) {
	i := len(s)
	for i > 0 && isDigit(s[i-1]) {
		i--
	}
	return s[:i], s[i:], i < len(s)
}

// withCounts writes the counts into {name}s; unknown is the last of them that is none.
func withCounts(entry string, count func(fact string) (int, bool)) (written, unknown string) {
	for {
		before, rest, found := strings.Cut(entry, "{")
		name, after, closed := strings.Cut(rest, "}")
		switch {
		case !found:
			return written + entry, unknown
		case !closed || !isName(name):
			written, entry = written+before+"{", rest
			continue
		}
		n, ok := count(name)
		if !ok {
			unknown = name
		}
		written, entry = written+before+strconv.Itoa(n), after
	}
}

// expand turns one entry of a list of positions into positions: "LF" is itself, "M1..M{mains}" is M1 to M3 where mains
// is 3. An entry whose end lies before its start gives none.
func expand(entry string, count func(fact string) (int, bool)) ([]string, error) {
	entry, unknown := withCounts(entry, count)
	if unknown != "" {
		return nil, fmt.Errorf("%s is no count known here", unknown)
	}
	from, to, ranged := strings.Cut(entry, "..")
	if !ranged {
		return []string{entry}, nil
	}
	name, a, isFrom := numbered(from)
	same, b, isTo := numbered(to)
	if !isFrom || !isTo || name != same {
		return nil, fmt.Errorf("%q does not run from one number to another", entry)
	}
	first, err1 := strconv.Atoi(a)
	last, err2 := strconv.Atoi(b)
	if err1 != nil || err2 != nil || last-first >= maxPositions {
		return nil, fmt.Errorf("%q has more than %d positions", entry, maxPositions)
	}
	var ps []string
	for i := first; i <= last; i++ {
		ps = append(ps, name+strconv.Itoa(i))
	}
	return ps, nil
}

// expandAll expands a list; a position that comes twice is kept once.
func expandAll(entries []word, count func(fact string) (int, bool)) ([]string, error) {
	var all []string
	for _, e := range entries {
		ps, err := expand(e.text, count)
		if err != nil {
			return nil, err
		}
		for _, p := range ps {
			if !slices.Contains(all, p) {
				all = append(all, p)
			}
		}
	}
	return all, nil
}

// usualCount gives the default of a count.
func (d *document) usualCount(name string) (int, bool) {
	if f := d.fact(name); f != nil && f.absent != nil {
		return *f.absent, true
	}
	return 0, false
}

// checkPositions wants positions that can be worked out from counts with a default.
func (f *faults) checkPositions(d *document, entries []word) []string {
	var all []string
	for _, e := range entries {
		ok := true
		withCounts(e.text, func(name string) (int, bool) {
			switch fact := d.fact(name); {
			case fact == nil:
				f.add(e.place, "declare it under facts, with unit: count and a default", "positions count by %s, which is no fact", name)
				ok = false
			case fact.unit != "count" || fact.absent == nil:
				f.add(e.place, "give the fact unit: count and a default", "positions count by %s, which is no count with a default", name)
				ok = false
			}
			return 0, ok
		})
		if !ok {
			continue
		}
		ps, err := expand(e.text, d.usualCount)
		if err != nil {
			f.add(e.place, "write positions such as LF, or M1..M{mains}", "%s", err)
		}
		for _, p := range ps {
			if strings.ContainsAny(p, "/#{} ") {
				f.add(e.place, "use letters, digits, dashes", "%q is no position", p)
			}
			if slices.Contains(all, p) {
				f.add(e.place, "take one out", "the position %s comes twice", p)
			}
			all = append(all, p)
		}
	}
	if len(all) > maxPositions {
		f.add(entries[0].place, "list fewer", "more than %d positions", maxPositions)
		all = all[:maxPositions]
	}
	return all
}
