package sdk

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// maxPositions bounds the positions of one part.
const maxPositions = 200

var (
	countName = regexp.MustCompile(`\{([A-Za-z_][A-Za-z0-9_]*)\}`)
	numbered  = regexp.MustCompile(`^(.*?)(\d+)$`)
)

// expand turns one entry of a list of positions into positions: "LF" is itself, "M1..M{mains}" is M1 to M3 where mains
// is 3. An entry whose end lies before its start gives none.
func expand(entry string, count func(fact string) (int, bool)) ([]string, error) {
	var unknown string
	entry = countName.ReplaceAllStringFunc(entry, func(m string) string {
		n, ok := count(m[1 : len(m)-1])
		if !ok {
			unknown = m[1 : len(m)-1]
		}
		return strconv.Itoa(n)
	})
	if unknown != "" {
		return nil, fmt.Errorf("%s is no count known here", unknown)
	}
	from, to, ranged := strings.Cut(entry, "..")
	if !ranged {
		return []string{entry}, nil
	}
	a, b := numbered.FindStringSubmatch(from), numbered.FindStringSubmatch(to)
	if a == nil || b == nil || a[1] != b[1] {
		return nil, fmt.Errorf("%q does not run from one number to another", entry)
	}
	first, err1 := strconv.Atoi(a[2])
	last, err2 := strconv.Atoi(b[2])
	if err1 != nil || err2 != nil || last-first >= maxPositions {
		return nil, fmt.Errorf("%q has more than %d positions", entry, maxPositions)
	}
	var ps []string
	for i := first; i <= last; i++ {
		ps = append(ps, a[1]+strconv.Itoa(i))
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
		for _, m := range countName.FindAllStringSubmatch(e.text, -1) {
			switch fact := d.fact(m[1]); {
			case fact == nil:
				f.add(e.place, "declare it under facts, with unit: count and a default", "positions count by %s, which is no fact", m[1])
				ok = false
			case fact.unit != "count" || fact.absent == nil:
				f.add(e.place, "give the fact unit: count and a default", "positions count by %s, which is no count with a default", m[1])
				ok = false
			}
		}
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
