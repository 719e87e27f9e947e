package config

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/fettle-tools/fettle/core"
)

// table is a CSV file with named columns (RFC 4180), as spreadsheets of many lands write it: with or without a byte
// order mark, lines ended by CR LF, LF or CR, parted by commas, semicolons or tabs. An inch mark inside a cell that
// does not begin with a quote is itself.
type table struct {
	file    string
	columns []string // in the order asked for
	rows    []record
	comma   byte
	faults  Faults
}

// record is one row: its cells in the order of the table's columns, "" where the row ends early.
type record struct {
	line  int // where it begins, from 1
	cells []string
}

func (t *table) add(line int, field, next, format string, args ...any) {
	t.faults = append(t.faults, Fault{File: t.file, Line: line, Field: field, What: fmt.Sprintf(format, args...), Next: next})
}

// readTable reads a CSV file. A column that is missing, unknown or there twice is a fault and gives no rows; a row that
// cannot be read is a fault, and the others are given.
func readTable(data []byte, file string, need, optional []string) *table {
	t := &table{file: file, columns: slices.Concat(need, optional), comma: ','}
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		t.add(1, "", "save it as CSV UTF-8", "the file is UTF-16")
		return t
	}
	s := string(bytes.TrimPrefix(data, []byte("\ufeff")))
	t.comma = separator(s)
	records := t.split(s)
	if len(records) == 0 {
		if len(t.faults) == 0 {
			t.add(0, "", "its first line must be: "+strings.Join(need, ","), "the file is empty")
		}
		return t
	}
	order, ok := t.header(records[0], need)
	if !ok {
		return t
	}
	for _, r := range records[1:] {
		if row, ok := t.row(r, order, len(records[0].cells)); ok {
			t.rows = append(t.rows, row)
		}
	}
	return t
}

// separator is what parts the names in the first line.
func separator(s string) byte {
	if rest, ok := strings.CutPrefix(s, "sep="); ok && rest != "" && strings.IndexByte(";,\t", rest[0]) >= 0 {
		return rest[0]
	}
	line := s
	if i := strings.IndexAny(s, "\r\n"); i >= 0 {
		line = s[:i]
	}
	best := byte(',')
	for _, c := range []byte(";\t") {
		if strings.Count(line, string(c)) > strings.Count(line, string(best)) {
			best = c
		}
	}
	return best
}

// header finds the columns: order[i] is the column that the file's cell i belongs to.
func (t *table) header(h record, need []string) (order []int, ok bool) {
	before := len(t.faults)
	seen := map[string]bool{}
	key := func(name string) string { return strings.ToLower(strings.TrimSpace(name)) }
	if !slices.ContainsFunc(h.cells, func(name string) bool { return slices.Contains(t.columns, key(name)) }) {
		t.add(h.line, "", "the first line must be: "+strings.Join(need, ","), "the first line does not name the columns")
		return nil, false
	}
	for i, name := range h.cells {
		key := key(name)
		k := slices.Index(t.columns, key)
		switch {
		case key == "" && i >= len(need):
		case key == "":
			t.add(h.line, "", "name it, or take it out", "column %d has no name", i+1)
		case k < 0:
			next := "the columns are: " + strings.Join(t.columns, ",")
			if near := core.Nearest(key, t.columns); near != "" {
				next = "did you mean " + near + "?"
			}
			t.add(h.line, name, next, "unknown column")
		case seen[key]:
			t.add(h.line, key, "keep one of them", "the column stands here twice")
		}
		seen[key] = true
		order = append(order, k)
	}
	for _, n := range need {
		if !seen[n] {
			t.add(h.line, n, "the first line must be: "+strings.Join(need, ","), "the column is missing")
		}
	}
	return order, len(t.faults) == before
}

// row puts a record's cells in the table's order.
func (t *table) row(r record, order []int, columns int) (record, bool) {
	row := record{line: r.line, cells: make([]string, len(t.columns))}
	before := len(t.faults)
	for i, c := range r.cells {
		if i >= columns {
			if strings.TrimSpace(c) != "" {
				t.add(r.line, "", "put quotes round a cell that holds the separator", "%d cells, but there are %d columns", len(r.cells), columns)
				break
			}
			continue
		}
		if order[i] < 0 {
			continue
		}
		name := t.columns[order[i]]
		switch {
		case !utf8.ValidString(c):
			t.add(r.line, name, "save the file as UTF-8", "this is not UTF-8 text")
		case strings.ContainsFunc(c, func(x rune) bool { return unicode.IsControl(x) && !unicode.IsSpace(x) }):
			t.add(r.line, name, "take it out", "there is an unprintable character in the cell")
		}
		row.cells[order[i]] = strings.TrimSpace(c)
	}
	return row, len(t.faults) == before
}

// split parts the text into records, without blank ones. A quote that is not closed, or closed in the middle of a cell,
// is a fault of the line it stands in; reading goes on with the next line, so that one bad quote costs one row.
func (t *table) split(s string) (records []record) {
	line := 1
	for s != "" {
		cells, rest, ok := t.splitRecord(s)
		if !ok {
			t.add(line, "", `write two quotes for one inside a quoted cell, and close it: "9/16"""`, "a quote is opened and not closed as it should be")
			_, rest = cutLine(s)
		} else if strings.Join(cells, "") != "" && !(line == 1 && len(cells) <= 2 && strings.HasPrefix(cells[0], "sep=")) && !blankCells(cells) {
			records = append(records, record{line, cells})
		}
		line += lines(s[:len(s)-len(rest)])
		s = rest
	}
	return records
}

func blankCells(cells []string) bool {
	return !slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" })
}

// splitRecord takes one record off the text; ok is false if a quote goes wrong.
func (t *table) splitRecord(s string) (cells []string, rest string, ok bool) {
	for {
		var cell string
		if q := strings.TrimLeft(s, " "); strings.HasPrefix(q, `"`) {
			if cell, s, ok = quoted(q[1:]); !ok {
				return nil, "", false
			}
			s = strings.TrimLeft(s, " ")
		} else {
			i := strings.IndexAny(s, string(t.comma)+"\r\n")
			if i < 0 {
				i = len(s)
			}
			cell, s = s[:i], s[i:]
		}
		cells = append(cells, cell)
		switch {
		case s == "":
			return cells, "", true
		case s[0] == t.comma:
			s = s[1:]
		case s[0] == '\r' || s[0] == '\n':
			_, rest = cutLine(s)
			return cells, rest, true
		default:
			return nil, "", false
		}
	}
}

// quoted reads a cell up to its closing quote.
func quoted(s string) (cell, rest string, ok bool) {
	var b strings.Builder
	for {
		i := strings.IndexByte(s, '"')
		if i < 0 {
			return "", "", false
		}
		b.WriteString(s[:i])
		if s = s[i+1:]; !strings.HasPrefix(s, `"`) {
			return b.String(), s, true
		}
		b.WriteByte('"')
		s = s[1:]
	}
}

// cutLine takes the first line and its end off the text.
func cutLine(s string) (line, rest string) {
	i := strings.IndexAny(s, "\r\n")
	if i < 0 {
		return s, ""
	}
	if strings.HasPrefix(s[i:], "\r\n") {
		return s[:i], s[i+2:]
	}
	return s[:i], s[i+1:]
}

// lines counts the ends of lines.
func lines(s string) int {
	return strings.Count(s, "\n") + strings.Count(s, "\r") - strings.Count(s, "\r\n")
}
