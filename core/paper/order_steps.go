package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// steps lists how it comes apart, in order, with people, hours, loads, hazards and readings about to be lost.
func (in Input) steps() []Block {
	bs := []Block{Heading{1, "Steps, in order"}}
	if len(in.Plan.Steps) == 0 {
		return append(bs, Paragraph{Text: "Nothing has to be opened."})
	}
	t := Table{Compact: true, Columns: []Column{{Share: .35}, {Head: "No", Right: true}, {Head: "Step", Share: 7}, {Head: "People", Right: true}, {Head: "Apart, h", Right: true}, {Head: "Back, h", Right: true}, {Head: "Apart, sum", Right: true}, {Head: "Back, sum", Right: true}}}
	told := map[string]bool{}
	for i, s := range in.Plan.Steps {
		t.Rows = append(t.Rows, in.stepRow(i+1, s, told))
	}
	for _, l := range in.Plan.WorkOrder.Lines {
		if told[l.ID] || l.Kind != core.LineStrip && l.Kind != core.LineRefit {
			continue
		}
		cells := []Cell{{Box: true}, {}, {Text: lineName(l)}, {Text: strconv.Itoa(max(l.People, 1))}, {Text: hours(l.Hours)}, {}, {Text: amount(l.Amount)}}
		if l.Kind == core.LineRefit {
			cells = append(cells[:4], Cell{}, cells[4], Cell{}, cells[6])
		}
		t.Rows = append(t.Rows, Row{Cells: cells})
	}
	text := "Measure as found, then remove, never the other way. Each step is done once for all that needs it; hours are expected man-hours. Where it says done, it is apart already and only goes back."
	if h := in.Plan.WorkOrder.DoneOnce; h > 0 {
		text += fmt.Sprintf(" Doing it all while it is open saves %s hours of stripping against doing each subsystem by itself.", number(h, 1))
	}
	return append(bs, Paragraph{Text: text}, t)
}

// stepLines finds the lines of a step: its opening, its closing, and what is held back where it may not be opened at all.
func (in Input) stepLines(s core.PlannedStep) map[core.LineKind]core.Line {
	out := map[core.LineKind]core.Line{}
	for _, l := range in.Plan.WorkOrder.Lines {
		if l.Kind == core.LineWork || l.Unit != s.Unit {
			continue
		}
		if key := stepKey(l); key == s.ID || strings.HasPrefix(key, s.ID+"@") {
			out[l.Kind] = l
		}
	}
	return out
}

func (in Input) stepRow(n int, s core.PlannedStep, told map[string]bool) Row {
	strip := hours(s.StripHours)
	if s.Done {
		strip = "done"
	}
	r := Row{Cells: []Cell{{Box: true}, {Text: strconv.Itoa(n)}, {Text: core.Capital(s.Name)}, {Text: strconv.Itoa(max(s.People, 1))}, {Text: strip}, {Text: hours(s.Refit())}, {}, {}}}
	lines := in.stepLines(s)
	for i, k := range []core.LineKind{core.LineStrip, core.LineRefit} {
		if l, ok := lines[k]; ok {
			told[l.ID] = true
			r.Cells[6+i].Text = amount(l.Amount)
		}
	}
	if l, ok := lines[core.LineReserve]; ok && l.Chance != nil {
		r.Cells[2].Note = fmt.Sprintf("Only if it is needed, chance %s: see the reserves.", percent(*l.Chance))
	} else if s.ServedBy > 1 && !s.Done {
		r.Cells[2].Note = fmt.Sprintf("Done once for %d parts.", s.ServedBy)
	}
	var lost []string
	for _, l := range s.Lost {
		lost = append(lost, in.reading(l))
	}
	if len(lost) > 0 && !s.Done {
		r.Notes = append(r.Notes, "READ FIRST, lost with this step: "+strings.Join(lost, "; "))
	}
	if s.ConfirmHelp != "" && !s.Done {
		r.Notes = append(r.Notes, "Confirm first: "+sentence(s.ConfirmHelp))
	}
	if s.Lift != nil && !s.Done {
		r.Notes = append(r.Notes, liftText(*s.Lift))
	} else if s.Load != "" && !s.Done {
		r.Notes = append(r.Notes, "Load: weight unknown, weigh it. No sling, stand or castor figure without a weight.")
	}
	for _, c := range s.Cautions {
		r.Notes = append(r.Notes, "Hazard: "+sentence(c.Text))
	}
	return r
}

// liftText says what the load asks of the tackle, rounded up.
func liftText(l core.Lift) string {
	return fmt.Sprintf("Load: %s (%s). Two legs, each: %s at 60°, %s at 45°; lop-sided at 45°: %s a leg. Legs flatter than 45° are warned against, under 30° refused. Castors: %s each. Hoist: at least %s.",
		load(l.Weight), l.Source, load(l.Leg60), load(l.Leg45), load(l.LopSided45), load(l.CastorEach), load(l.HoistAtLeast))
}

// load writes a weight or a force in whole units, rounded up.
func load(q core.Quantity) string {
	return core.Quantity{Value: math.Ceil(q.Value - 1e-9), Unit: q.Unit}.String()
}

// reading turns "subsystem/part/check" or "subsystem/part/position/check" into words by the sheets; words stay as they are.
func (in Input) reading(path string) string {
	f := strings.Split(path, "/")
	if len(f) < 3 || strings.Contains(path, ": ") {
		return path
	}
	check, at := f[len(f)-1], f[2:len(f)-1]
	part := strings.ReplaceAll(f[1], "-", " ")
	name := strings.ReplaceAll(check, "-", " ")
	for _, s := range in.Plan.Sheets {
		subsystem, _, _ := strings.Cut(f[0], "@")
		if s.Subsystem != subsystem {
			continue
		}
		if p := s.Sheet.Part(f[1]); p != nil {
			part = p.Name
		}
		if c := s.Sheet.Check(f[1], check); c != nil {
			name = c.Name
		}
	}
	return strings.Join(append([]string{part}, at...), " ") + ": " + name
}

// opened are the words in a step's or subsystem's name that ask for a second person's check at the end.
var opened = map[string]string{"brake": "brakes", "brakes": "brakes", "steering": "steering", "drag": "steering", "track": "steering",
	"swivel": "steering", "hub": "hubs", "hubs": "hubs", "wheel": "wheels", "wheels": "wheels", "spring": "springs", "springs": "springs", "shackle": "springs", "axle": "hubs", "axles": "hubs",
	"links": "steering"}

// openedGroups says which of brakes, steering, hubs, wheels and springs the job opens, in that order.
func (in Input) openedGroups() []string {
	hit := map[string]bool{}
	look := func(s string) {
		for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r < 'a' || r > 'z' }) {
			if g, ok := opened[w]; ok {
				hit[g] = true
			}
		}
	}
	for _, s := range in.Plan.Steps {
		look(s.ID)
		look(s.Name)
	}
	for _, l := range in.Plan.WorkOrder.Lines {
		look(l.Subsystem)
	}
	var out []string
	for _, g := range []string{"brakes", "steering", "hubs", "wheels", "springs"} {
		if hit[g] {
			out = append(out, g)
		}
	}
	return out
}

// finalCheck is a second person's, wherever the job opens what stops, steers or carries the vehicle.
func (in Input) finalCheck() []Block {
	gs := in.openedGroups()
	if len(gs) == 0 {
		return nil
	}
	return []Block{Heading{1, "Final check by a second person"},
		Paragraph{Text: "This job opens " + and(gs) + ". Somebody who did not do the work checks it before the vehicle moves: every fastener of it tightened and locked, " +
			"nothing leaking, everything free and full in its travel, the first move at walking pace. No cap and no pin removes this check. " +
			"Safety work is to be verified by a licensed or otherwise competent person."},
		Signature{Statement: "I did not do this work; I have checked it.", Signers: []Signer{{"Second person", []string{"Name", "Signature", "Date"}}}}}
}
