package paper

import (
	"time"

	"github.com/fettle-tools/fettle/core"
)

// fixedOn is when the fixture's acts were done, a day after another.
var fixedOn = time.Date(2026, 3, 2, 14, 0, 0, 0, time.UTC)

// told lays acts over a story, a day after another, and fails where the house would refuse one.
func told(s *core.Story, by string, acts ...core.Act) {
	for _, a := range acts {
		day := fixedOn.AddDate(0, 0, len(s.Moves)+len(s.Tags)+len(s.Hours)+len(s.Fits))
		if _, err := s.Do(a, core.Stamp{By: by, At: day}); err != nil {
			panic(err)
		}
	}
}

func ptr(v float64) *float64 { return &v }

func inches(v float64) core.Quantity { return core.Quantity{Value: v, Unit: "in"} }

// begun is the invented vehicle's job up to the agreed scope, with what came off tagged.
func begun() core.Story {
	p := packhorse()
	s := core.Story{Job: p.Job}
	s.Job.State = core.StateEnquiry
	s.Parties = []core.Party{{Name: "Tern Lane Grinding", Address: []string{"Tern Lane", "Ashdyke"}, Roles: []string{"outworker"}}}
	told(&s, "Jory", &core.Arrival{Mileage: "31 480 miles", Keys: 1, Boxes: 0, Counted: []string{"keys", "boxes"}, Loose: []string{"starting handle", "two tins of bolts"},
		Runs: "does not run", Signed: "Marta Wellbeck", Answers: []core.ArrivalAnswer{{Key: "hood", Words: "frame only, no canvas"}}},
		&core.Agreement{Gate: core.GateStrip, Who: "Marta Wellbeck", Capacity: "owner", How: "phone", Sum: usd("2500.00"), Words: "engine and gearbox only"},
		&core.StepDone{Step: "engine-out", Is: core.StepIsDone, Hours: 3, Who: "Jory", People: 2}, &core.StepDone{Step: "gearbox:shafts-out", Unit: "gearbox", Is: core.StepIsDone, Hours: 2, Who: "Jory"},
		&core.Worked{Who: "Jory", Task: "engine with clutch out", Hours: 3.25, Skill: "mechanic", Rate: usd("85.00")},
		&core.Worked{Who: "Marta Wellbeck", Task: "engine with clutch out", Hours: 3.25, Rate: usd("0.00")},
		&core.Tag{ID: "T-001", Unit: "engine", What: "engine, bare block", Lies: "engine stand", State: core.TagOff, Fasteners: []core.Fasteners{{Bag: "1", In: 6, Thread: "3/8 UNF", Length: "1 1/2 in", Note: "longest at rear"}}},
		&core.Tag{ID: "T-001-01", Subsystem: "bottom-end", Unit: "engine", Target: core.Target{Part: "crankshaft"}, What: "crankshaft", Lies: "rack 1, V-blocks", State: core.TagOff},
		&core.Tag{ID: "T-001-02", Subsystem: "bottom-end", Unit: "engine", What: "connecting rods 1 to 4, with their caps", Lies: "rack 1, tray A", State: core.TagOff, WayRound: "numbers to the camshaft", Mates: []string{"T-001-01"}},
		&core.Tag{ID: "T-002", Unit: "gearbox", What: "gearbox, four-speed", Lies: "pallet 3", State: core.TagOff, ShimSign: "thicker: less end float",
			Shims: []core.Shim{{Thickness: inches(.003), Side: "front"}, {Thickness: inches(.005), Side: "front"}}})
	s.Papers = []core.Issued{{Kind: "scope", Number: "J-001-S", Revision: 2, At: fixedOn, Lines: p.WorkOrder.Lines, Total: p.WorkOrder.Total, Expected: p.WorkOrder.TotalBeforeTax, Contingency: p.Budget.Contingency}}
	told(&s, "Wenna", &core.Move{To: core.StateScopeOut, Why: "J-001-S revision 2 issued"},
		&core.Agreement{Gate: core.GateBudget, Paper: "J-001-S", Revision: 2, Who: "Marta Wellbeck", Capacity: "owner", How: "signed", Sum: usd("9000.00"), Refused: []string{"gearbox/gear-pair-1st"}},
		&core.Payment{Is: core.PayAsked, Party: "Marta Wellbeck", Sum: usd("2700.00"), Stage: "deposit on approval of the scope"},
		&core.Payment{Is: core.PayReceived, Party: "Marta Wellbeck", Sum: usd("1200.00"), Stage: "deposit on approval of the scope", How: "transfer"})
	return s
}

// atWork goes on with outwork out and back, goods ordered, and a change note that nobody has answered.
func atWork() core.Story {
	s := begun()
	told(&s, "Wenna",
		&core.Outwork{ID: "O-001", To: "Tern Lane Grinding", Lines: []string{"op:regrind"}, Tags: []string{"T-001-01", "T-001-02"}, Work: "mains and pins to one common step, shells with it", Price: usd("640.00"), Type: "fixed",
			Due: time.Date(2026, 3, 16, 5, 0, 0, 0, time.UTC), Parts: "the outworker, shells", Asked: []core.Asked{{What: "mains, all three", Low: ptr(2.4795), High: ptr(2.48), Unit: "in"}, {What: "pins, all four", Low: ptr(1.9795), High: ptr(1.98), Unit: "in"}, {What: "oilways plugged and clean"}}},
		&core.Purchase{ID: "B-001", From: "Kestrel Row Reproductions", Item: "bearings", What: "ball bearings, set of 4", Count: 1, Lines: []string{"op:overhaul"}, Price: usd("172.00"), Exchange: exchange("60.00"), Due: time.Date(2026, 3, 10, 5, 0, 0, 0, time.UTC)},
		&core.Surprise{ID: "C-001", Subsystem: "bottom-end", Unit: "engine", Target: core.Target{Part: "tunnel"}, Tag: "T-001", Found: "main bearing tunnel .003 in out of line, limit .0015 in (common practice, no source)", NotBefore: "it was read when the crankshaft was out", Safety: false,
			Options: []core.SurpriseOption{{Do: "align bore the tunnel", Sum: usd("466.40"), Tax: usd("26.40"), Weeks: 2, DrawsOn: usd("440.00")}, {Do: "leave it", Leaves: true, Risk: "the new shells wear in one season"}}},
		&core.Surprise{ID: "C-002", Subsystem: "gearbox", Unit: "gearbox", Found: "clutch fork bent, brake on the drive line with it", NotBefore: "behind the bell housing", Safety: true,
			Options: []core.SurpriseOption{{Do: "another fork", Sum: usd("85.00"), Weeks: 1}, {Do: "leave it", Leaves: true, Risk: "the clutch drags; the vehicle then leaves on a trailer"}}},
		&core.Note{ID: "N-001", Surprises: []string{"C-001", "C-002"}})
	return s
}

func exchange(sum string) *core.Money {
	m := usd(sum)
	return &m
}

// finished goes on to the road, with a matter of safety left, a snag of safety and another open, and a bag that came out short.
func finished() core.Story {
	s := atWork()
	short := 5
	told(&s, "Wenna",
		&core.Received{Outwork: "O-001", Accepted: true, Lies: "rack 1, wrapped", Results: []core.Result{{What: "mains, all three", Got: inches(2.4797), As: "2.4797 in", OK: true}, {What: "pins, all four", Got: inches(1.9798), As: "1.9798 in", OK: true}, {What: "oilways plugged and clean", As: "clean", OK: true}}},
		&core.Delivery{Purchase: "B-001", State: core.PurchaseArrived, Lies: "rack 2"},
		&core.Answer{Note: "N-001", State: core.NoteApproved, Who: "Marta Wellbeck", How: "message", Options: []core.NoteAnswer{{Surprise: "C-001", Option: 1}, {Surprise: "C-002", Option: 2}}},
		&core.Worked{Who: "Jory", Task: "op:overhaul", Line: "op:overhaul", Hours: 12.5, Skill: "mechanic", Rate: usd("85.00")},
		&core.Fit{Subsystem: "bottom-end", Unit: "engine", Target: core.Target{Part: "crankshaft"}, Tag: "T-001-01", Safety: true, Second: "Wenna", OneUse: []string{"big-end bolts, 8"},
			Readings: []core.Fitted{{Check: "end-float", Name: "end float", Got: inches(.006), As: ".006 in", Low: ptr(.004), High: ptr(.008), Unit: "in", New: true, Source: practice},
				{Check: "clearance", Name: "main clearance", Station: "M2", Got: inches(.0026), As: ".0026 in", Low: ptr(.001), High: ptr(.0025), Unit: "in", New: false, Source: practice}},
			Torques: []core.Torque{{Fastener: "main bearing bolts", Value: core.Quantity{Value: 85, Unit: "lbf.ft"}, By: "Jory"}}, Why: "a tenth over, with fresh oil pressure to be read",
			Shims: []core.Shim{{Thickness: inches(.093), Side: "rear"}}},
		&core.Fit{Subsystem: "gearbox", Unit: "gearbox", Target: core.Target{Part: "synchro-ring", Position: "3rd"}, What: "new ring"},
		&core.Tag{ID: "T-001", Unit: "engine", What: "engine, bare block", State: core.TagFitted, Fasteners: []core.Fasteners{{Bag: "1", In: 6, Out: &short, Thread: "3/8 UNF", Length: "1 1/2 in"}}},
		&core.RoadTest{What: "first start", Readings: []core.RunReading{{What: "oil pressure, hot", As: "38 lbf/in2"}}},
		&core.Snag{ID: "G-001", What: "gaiter of the second lever loose"}, &core.Snag{ID: "G-002", What: "rattle at the tailgate"}, &core.Snag{ID: "G-002", What: "rattle at the tailgate", Cleared: "new buffer"},
		&core.Snag{ID: "G-003", What: "pulls left under braking", Safety: true})
	return s
}

// storyInput is a paper's input of a story.
func storyInput(s core.Story, number string) StoryInput {
	in := input()
	return StoryInput{Story: s, Plan: in.Plan, Shop: in.Shop, Number: number, Revision: "1", Date: in.Date, Zone: in.Zone, Photos: []string{"Front", "Front", "Box 1, open"},
		Views: core.ArrivalList{Photos: []core.PhotoItem{{Key: "front", Name: "Front", Count: 1}, {Key: "under", Name: "Underside", Count: 4, On: core.OnVehicle}}, Asked: []core.ArrivalQuestion{{Key: "hood", Ask: "hood and side screens"}}}}
}
