package config

import (
	"strings"
	"time"
)

// The columns of a file of findings, in their usual order. Their names and words are fixed: other programs write them.
var (
	FindingColumns         = []string{"subsystem", "part", "position", "check", "station", "value", "instrument", "by", "at", "note"}
	FindingOptionalColumns = []string{"unit"}
)

// Row is one finding of a file, as written and trimmed; nothing is looked up yet.
type Row struct {
	Line       int // where it stands in the file, from 1
	Nth        int // how many equal rows stand before it
	Subsystem  string
	Part       string
	Position   string
	Check      string
	Station    string
	Value      string // a reading, or why there is none
	Instrument string
	By         string
	At         string // as written
	Note       string
	Unit       string
	Time       time.Time // At in UTC; zero if it is blank
}

// Normalised is the row as one text, the same for rows that say the same: runs of blanks count as one, the order of
// columns and the place in the file do not count. With Nth it is what the id of an imported finding is made from.
func (r Row) Normalised() string {
	cells := []string{r.Subsystem, r.Part, r.Position, r.Check, r.Station, r.Value, r.Instrument, r.By, r.At, r.Note, r.Unit}
	for i, c := range cells {
		cells[i] = strings.Join(strings.Fields(c), " ")
	}
	return strings.Join(cells, "\x1f")
}

// timeLayouts are the ways a time may be written; without a zone it is the shop's.
var timeLayouts = []string{time.RFC3339Nano, "2006-01-02 15:04:05", "2006-01-02T15:04:05", "2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02"}

// ReadFindings reads a CSV file of findings:
//
//	subsystem,part,position,check,station,value,instrument,by,at,note
//	bottom-end,main-journal,M1,diameter,FV,2.4985 in,micrometer,Wren,2026-03-02 10:15,again after cleaning
//
// with an optional last column unit. Names may be in any case and order; separators may be commas, semicolons or tabs.
// A time is written 2026-03-02, 2026-03-02 10:15 or by RFC 3339, and is the shop's (zone) if it names no zone. A row
// that cannot be read is told with its line and column, and is not among the rows; the others are. Without a header
// that can be understood there are no rows.
func ReadFindings(data []byte, file string, zone *time.Location) ([]Row, Faults) {
	t := readTable(data, file, FindingColumns, FindingOptionalColumns)
	var rows []Row
	seen := map[string]int{}
	for _, r := range t.rows {
		c := r.cells
		row := Row{Line: r.line, Subsystem: c[0], Part: c[1], Position: c[2], Check: c[3], Station: c[4], Value: c[5], Instrument: c[6], By: c[7],
			At: c[8], Note: c[9], Unit: c[10]}
		before := len(t.faults)
		if row.Subsystem == "" {
			t.add(r.line, "subsystem", "write the name of a sheet, like gearbox", "the subsystem is blank")
		}
		if row.Part == "" {
			t.add(r.line, "part", "write the part's name on the sheet", "the part is blank")
		}
		if row.Value == "" {
			t.add(r.line, "value", "write the reading, or why there is none: not measured, could not reach, missing", "a blank is not a reading")
		}
		row.Time = t.time(r.line, row.At, zone)
		if len(t.faults) > before {
			continue
		}
		key := row.Normalised()
		row.Nth = seen[key]
		seen[key]++
		rows = append(rows, row)
	}
	return rows, t.faults.sorted()
}

// time reads a time; a blank one is zero.
func (t *table) time(line int, s string, zone *time.Location) time.Time {
	if s == "" {
		return time.Time{}
	}
	if zone == nil {
		zone = time.UTC
	}
	for _, l := range timeLayouts {
		if x, err := time.ParseInLocation(l, s, zone); err == nil {
			return x.UTC()
		}
	}
	t.add(line, "at", "write 2026-03-02 10:15, year first", "%q is no time", s)
	return time.Time{}
}
