package web

import (
	"net/http"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// sheetsPage lists what can be printed to write on.
type sheetsPage struct {
	frame
	Subsystems []Subsystem
	Tags       int // that labels can be printed for
}

func (s *Server) showSheets(w http.ResponseWriter, r *http.Request) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	list, err := s.Readings.Subsystems(r.Context(), story.Job.Number)
	if err != nil {
		return err
	}
	p := sheetsPage{frame: s.jobFrame(r, "Sheets", &story.Job), Subsystems: list}
	for _, t := range story.Tags {
		if !t.Gone() {
			p.Tags++
		}
	}
	return s.show(w, http.StatusOK, "sheets", p)
}

// sheetPage is one subsystem's questions on paper, with room to write; what was read already stands in its box.
type sheetPage struct {
	frame
	Subsystem  string
	SheetTitle string
	Read       int
	Parts      []sheetPart
	Cautions   []core.Caution
}

// sheetPart is a part with its checks, those of all its positions together.
type sheetPart struct {
	Name   string
	Safety bool
	Rows   []sheetRow
}

// sheetRow is one check with a box for each place where it is read.
type sheetRow struct {
	Check  core.Check
	Wanted string
	Boxes  []sheetBox
}

// Before reports that it can only be read before the unit comes apart.
func (r sheetRow) Before() bool { return r.Check.BeforeStrip }

// Ways are the words that one of is ringed, where the answer is no number.
func (r sheetRow) Ways() string {
	switch r.Check.Kind {
	case core.Judged:
		return "0   1   2   3"
	case core.GoNoGo:
		return "pass   fails"
	}
	return ""
}

// sheetBox is where one reading is written.
type sheetBox struct{ At, Answer string }

func (s *Server) showSheet(w http.ResponseWriter, r *http.Request) error {
	story, sheet, findings, err := s.sheetOf(r)
	if err != nil {
		return err
	}
	if r.FormValue("blank") != "" {
		findings = nil
	}
	p := sheetPage{frame: s.jobFrame(r, "Sheets", &story.Job), Subsystem: r.PathValue("subsystem"), SheetTitle: TitleOf(sheet), Cautions: sheet.Sheet.Cautions}
	p.Title = p.SheetTitle + ", inspection sheet, " + story.Job.Number
	for i := range sheet.Sheet.Parts {
		if part := sheetPartOf(sheet, &sheet.Sheet.Parts[i], findings); len(part.Rows) > 0 {
			p.Parts = append(p.Parts, part)
		}
	}
	p.Read, _ = Questions(sheet, findings)
	return s.show(w, http.StatusOK, "sheet", p)
}

// sheetPartOf lays a part out. Positions that are held against the same limit share a row.
func sheetPartOf(us core.UnitSheet, part *core.Part, findings []core.Finding) sheetPart {
	out := sheetPart{Name: part.Name, Safety: part.SafetyCritical}
	for _, c := range part.Checks {
		if c.Kind == core.OneUse {
			continue
		}
		var rows []sheetRow
		for _, t := range part.Targets() {
			wanted := c.Wanted(core.LimitFor(c, t, us.Overrides))
			i := slices.IndexFunc(rows, func(r sheetRow) bool { return r.Wanted == wanted })
			if i < 0 {
				i = len(rows)
				rows = append(rows, sheetRow{Check: c, Wanted: wanted})
			}
			b := benchPart{Place: core.Place{Subsystem: us.Subsystem, Unit: us.Unit, Target: t}}
			b.ask(us, core.Condition{}, c, findings)
			for _, q := range b.Questions {
				rows[i].Boxes = append(rows[i].Boxes, sheetBox{strings.TrimSpace(t.Position + " " + q.Station), q.Answered()})
			}
		}
		out.Rows = append(out.Rows, rows...)
	}
	return out
}
