package paper

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// pictures are the photographs that show a finding or a mark, each with the part and what was found on it.
func (in Input) pictures() []Block {
	var items []Picture
	taken := map[int]bool{}
	for _, ph := range in.Photos {
		text := in.shows(ph)
		if text == "" {
			continue
		}
		p := Picture{Title: ph.Title, Text: text, Fault: ph.Fault}
		if p.Fault == "" {
			var err error
			if p.JPEG, p.Width, p.Height, err = shrink(ph.Bytes, taken); err != nil {
				p.Fault = "It is kept in the book and cannot be printed: " + err.Error() + "."
			}
		}
		items = append(items, p)
	}
	if len(items) == 0 {
		return nil
	}
	return []Block{Heading{2, "Photographs"}, Pictures{items}}
}

// shows names what a photograph is of: the marks that it belongs to, and the findings with what was typed. "" if it is of neither.
func (in Input) shows(ph Photo) string {
	var out []string
	mark := func(of string, ms []core.Mark) {
		for _, m := range ms {
			if m.Photo != "" && m.Photo == ph.SHA256 {
				out = append(out, fmt.Sprintf("%s, %s: “%s”", of, m.Where, m.Text))
			}
		}
	}
	j := in.Plan.Job
	if j.Vehicle != nil {
		mark("Vehicle", j.Vehicle.Marks)
	}
	for _, u := range j.Units {
		mark(core.Capital(unitTitle(j, u.ID)), u.Marks)
	}
	of := map[string]bool{}
	for _, id := range ph.FindingIDs {
		of[id] = true
	}
	seen := map[core.Place][]string{}
	var places []core.Place
	for _, f := range in.Plan.Findings {
		if !of[f.ID] {
			continue
		}
		if seen[f.Place()] == nil {
			places = append(places, f.Place())
		}
		seen[f.Place()] = append(seen[f.Place()], in.typed(f))
	}
	for _, p := range places {
		out = append(out, in.placeName(p)+": "+strings.Join(unique(seen[p]), ", "))
	}
	return strings.Join(out, "; ")
}

// typed is a finding as it was typed, with its check and station.
func (in Input) typed(f core.Finding) string {
	s := strings.Join(in.checkWords(f.Place(), []string{f.Check}), "")
	if f.Station != "" {
		s += " " + strings.ReplaceAll(f.Station, "_", " ")
	}
	return lower(s) + " " + f.AsTyped
}

// placeName is a part's name with its position, by the plan's words.
func (in Input) placeName(p core.Place) string {
	for _, c := range in.Plan.Conditions {
		if c.Subsystem == p.Subsystem && c.Place.Target == p.Target && (c.Unit == p.Unit || p.Unit == "") && c.PartName != "" {
			return named(c.PartName, p.Position)
		}
	}
	return named(strings.ReplaceAll(p.Part, "-", " "), p.Position)
}
