package cylinders

import (
	"fmt"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// pressures are the compressions of all cylinders, in psi, with their findings.
func pressures(s *core.Sheet, r readings) (row []sdk.Pressed, ids [][]string) {
	for _, t := range targets(s, "cylinder") {
		p := sdk.Pressed{Position: t.Position}
		var from []string
		if q, id, ok := r.Reading(t, "dry-pressure", ""); ok {
			p.Dry, from = &q.Value, append(from, id)
		}
		if q, id, ok := r.Reading(t, "wet-pressure", ""); ok {
			p.Wet, from = &q.Value, append(from, id)
		}
		row, ids = append(row, p), append(ids, from)
	}
	return row, ids
}

// compression gives each cylinder's share of the best, where two or more were read: no formula of one cylinder can.
func compression(p *sdk.Prepare) {
	row, _ := pressures(p.Sheet, p)
	all, _ := sdk.UsualCompression().Read(row)
	if len(all) < 2 {
		return
	}
	best := 0.0
	for _, r := range row {
		if r.Dry != nil {
			best = max(best, *r.Dry)
		}
	}
	for _, s := range all {
		t := core.Target{Part: "cylinder", Position: s.Position}
		own, id, _ := p.Reading(t, "dry-pressure", "")
		if _, _, said := p.Reading(t, "compression", ""); !said && best > own.Bound { // of what the gauge cannot tell from nothing there is no share
			bound := sdk.RootSumSquare(own.Bound, own.Bound*s.OfBest/100) / best * 100 // of its own reading and of the best one's, by one gauge
			p.Supply(t, "compression", core.Quantity{Value: s.OfBest, Unit: "%", Bound: bound}, id)
		}
	}
}

// sealing says what the pattern of compressions points to, and where to listen.
func sealing(b *sdk.Bench) {
	row, ids := pressures(b.Sheet, b)
	all, neighbours := sdk.UsualCompression().Read(row)
	for _, s := range all {
		if !s.Low || len(all) < 2 {
			continue
		}
		next := "repeat it with a spoonful of oil, and listen with air in the cylinder: " + listen()
		switch s.Points {
		case "valves":
			next = "look at its valves, seats and the head joint; listen with air in the cylinder: " + listen()
		case "rings":
			next = "measure its bore, and look for a broken ring"
		}
		t := core.Target{Part: "cylinder", Position: s.Position}
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: t, Check: "compression", FindingID: first(row, ids, s.Position),
			Summary: fmt.Sprintf("cylinder %s: %s", s.Position, s.Words()), Next: next})
	}
	for _, n := range neighbours {
		b.Problem(core.Problem{Severity: core.SeverityNote, Target: core.Target{Part: "cylinder", Position: n[0]}, Check: "compression",
			Summary: fmt.Sprintf("cylinders %s and %s are both low, side by side", n[0], n[1]), Next: "look first at the head joint between them, and for a crack there"})
	}
}

// listen tells where air may be heard: "at the exhaust pipe: exhaust valve; ...".
func listen() string {
	var ws []string
	for _, p := range sdk.LeakPaths() {
		ws = append(ws, p.Heard+": "+p.Says)
	}
	return strings.Join(ws, "; ")
}

func first(row []sdk.Pressed, ids [][]string, position string) string {
	for i, p := range row {
		if p.Position == position && len(ids[i]) > 0 {
			return ids[i][0]
		}
	}
	return ""
}
