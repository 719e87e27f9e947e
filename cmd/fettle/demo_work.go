package main

import (
	"context"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/store"
)

// demoParties are those the demo's shop deals with, all invented.
func (s *shop) demoParties(ctx context.Context) error {
	free, err := core.NewMoney("0", s.settings().Currency)
	if err != nil {
		return err
	}
	may, err := core.NewMoney("150", s.settings().Currency)
	if err != nil {
		return err
	}
	for _, p := range []core.Party{
		{Name: "Marta Wellbeck", Address: []string{"Thorngill Farm"}, Roles: []string{"owner", "volunteer"}, Standing: "owner", HourRate: &free},
		{Name: "Ned Wellbeck", Contact: "at the farm", Roles: []string{"volunteer"}, MayAuthorise: &may, HourRate: &free},
		{Name: "Cottam Bros", Address: []string{"Hayrick Lane"}, Roles: []string{"owner"}, Standing: "trade"},
		{Name: "Tern Lane Grinding", Roles: []string{"outworker"}, Note: "crankshafts, bores, heads"},
		{Name: "Pellow Spring Smiths", Roles: []string{"outworker"}},
		{Name: "Orme Radiator Repairs", Roles: []string{"outworker"}},
		{Name: "Kestrel Row Reproductions", Roles: []string{"supplier"}},
	} {
		if err := s.book.SetParty(ctx, "Wenna", p); err != nil {
			return err
		}
	}
	return nil
}

// demoWork carries the demo's vehicle from the trailer into the work: taken in, stripped by agreement, its scope issued and agreed, its
// crankshaft ground and measured, its springs out, and one surprise put to the owner. It gives the plan that the scope was issued from.
func (s *shop) demoWork(ctx context.Context, job core.Job) (core.Plan, error) {
	p, err := s.plan(ctx, job)
	if err != nil {
		return p, err
	}
	if err := s.demoStrip(ctx, p); err != nil {
		return p, err
	}
	if p, err = s.planFinish(ctx, job); err != nil {
		return p, err
	}
	if _, err := s.write(ctx, scopePaper, p, filepath.Join(s.dir, store.PapersDir, scopePaper.name), true); err != nil {
		return p, err
	}
	return p, s.demoOut(ctx, p)
}

// demoStrip takes the vehicle in, has the strip-down agreed, takes it down to the bare frame, writes off what nobody read before, and
// tags what comes off.
func (s *shop) demoStrip(ctx context.Context, p core.Plan) error {
	upTo, err := core.NewMoney("9000", s.settings().Currency)
	if err != nil {
		return err
	}
	hour := core.Money{}
	for _, r := range s.settings().Rates {
		if r.Skill == "mechanic" {
			hour = r.Hour
		}
	}
	acts := []core.Act{
		&core.Arrival{Mileage: "31 480 miles", Keys: 1, Boxes: 2, Loose: []string{"starting handle", "a spare wheel", "two tins of bolts"}, Fluids: "no fuel, oil like tar", Runs: "does not run", Signed: "Marta Wellbeck"},
		&core.Agreement{Gate: core.GateStrip, Who: "Marta Wellbeck", Capacity: "owner", How: "signed", Sum: upTo, Words: "to the bare frame, and tell me what you find"},
	}
	for _, st := range p.Steps {
		if st.ID == "frame-blasted" { // goes out with the frame, later
			continue
		}
		acts = append(acts, &core.StepDone{Step: st.ID, Unit: st.Unit, Is: core.StepIsDone, Hours: st.StripHours.Likely, Who: "Jory", People: st.People})
		if st.StripHours.Likely > 0 {
			acts = append(acts, &core.Worked{Who: "Jory", Task: st.Name, Hours: st.StripHours.Likely, Skill: "mechanic", Rate: hour})
		}
	}
	acts = append(acts, demoTags()...)
	acts = append(acts, &core.Move{To: core.StateInspected, Why: "all eighteen subsystems looked at"})
	story, err := s.book.Act(ctx, p.Job.Number, "Jory", acts...)
	if err != nil {
		return err
	}
	var read arrivalJSON // what the steps destroyed before anybody read it is written off by name
	if err := s.readBefore(ctx, story, &read); err != nil {
		return err
	}
	var lost []core.Finding
	for _, u := range read.Gone {
		lost = append(lost, u.Lost("Jory"))
	}
	_, err = s.book.AddFindings(ctx, p.Job.Number, lost)
	return err
}

// demoTags are what came off, with what goes with it.
func demoTags() []core.Act {
	bag := func(text string) core.Fasteners {
		f, err := core.ParseFasteners(text)
		if err != nil {
			panic(err) // written just above
		}
		return f
	}
	shims := func(text string) []core.Shim {
		ss, err := core.ParseShims(text)
		if err != nil {
			panic(err) // written just above
		}
		return ss
	}
	at := func(subsystem, unit, part, position string) core.Tag {
		return core.Tag{Subsystem: subsystem, Unit: unit, Target: core.Target{Part: part, Position: position}}
	}
	tag := func(number string, t core.Tag, what, lies string, more ...func(*core.Tag)) core.Act {
		t.ID, t.What, t.Lies, t.State = number, what, lies, core.TagOff
		for _, m := range more {
			m(&t)
		}
		return &t
	}
	return []core.Act{
		tag("T-001", core.Tag{}, "engine D4-31882, bare block", "engine stand", func(t *core.Tag) {
			t.Fasteners = []core.Fasteners{bag("6 x 3/8 UNF 1 1/2 in, bag 1, longest at rear")}
		}),
		tag("T-001-01", at("bottom-end", "engine", "crankshaft", ""), "crankshaft", "rack 1, V-blocks", func(t *core.Tag) {
			t.Fasteners = []core.Fasteners{bag("6 x 1/2 UNF 3 in, bag 2, in their own holes")}
		}),
		tag("T-001-02", at("bottom-end", "engine", "rod", "1"), "connecting rods 1 to 4, with their caps", "rack 1, tray A", func(t *core.Tag) { t.WayRound = "numbers to the camshaft" }),
		tag("T-001-03", at("cylinders", "engine", "piston", "1"), "pistons 1 to 4", "rack 1, tray B"),
		tag("T-001-04", at("head", "engine", "head", ""), "cylinder head, valves in a numbered board", "rack 2, shelf 1"),
		tag("T-002", core.Tag{}, "gearbox, four-speed", "pallet 3", func(t *core.Tag) { t.Fasteners = []core.Fasteners{bag("10 x 3/8 UNF 1 1/4 in, bag 3")} }),
		tag("T-002-01", at("gearbox", "gearbox", "layshaft-cluster", ""), "layshaft cluster with its rollers, 43 of 44", "rack 2, shelf 2", func(t *core.Tag) {
			t.Shims, t.ShimSign = shims("front: .003 .005 in"), "thicker: less end float"
		}),
		tag("T-003", core.Tag{}, "transfer box", "pallet 3"),
		tag("T-004", core.Tag{}, "front axle, both swivels", "axle stands, bay 2", func(t *core.Tag) { t.Shims = shims("left upper: .010 .005 in") }),
		tag("T-005", core.Tag{}, "rear axle", "axle stands, bay 2"),
		tag("T-006", core.Tag{}, "front springs, left and right, packs whole", "floor, bay 1", func(t *core.Tag) { t.WayRound = "fixed eye to the front" }),
		tag("T-007", core.Tag{}, "radiator", "rack 3, top"),
		tag("T-008", core.Tag{}, "frame, bare, number masked", "trestles, yard"),
	}
}

// demoOut has the scope agreed, a deposit paid, the crankshaft ground and measured, the springs sent, goods bought, and a surprise asked about.
func (s *shop) demoOut(ctx context.Context, p core.Plan) error {
	story, err := s.book.Story(ctx, p.Job.Number)
	if err != nil {
		return err
	}
	scope := story.Papers[len(story.Papers)-1]
	var failed error
	money := func(text string) core.Money {
		m, err := core.NewMoney(text, s.settings().Currency)
		if err != nil {
			failed = err
		}
		return m
	}
	due := func(text string) time.Time {
		day, err := s.typedDate("due", text)
		if err != nil {
			failed = err
		}
		return day
	}
	upTo := core.MinorMoney((core.Minor(p.WorkOrder.Total)+core.Minor(p.Budget.Contingency))/100_000*100_000+100_000, s.settings().Currency)
	deposit := core.MinorMoney(core.Minor(p.WorkOrder.Total)*3/10, s.settings().Currency)
	size := func(low, high float64) (*float64, *float64) { return &low, &high }
	mains, mainsTo := size(2.4795, 2.4800)
	pins, pinsTo := size(1.9795, 1.9800)
	asked := []core.Asked{{What: "main journal diameter", Low: mains, High: mainsTo, Unit: "in"}, {What: "crankpin diameter", Low: pins, High: pinsTo, Unit: "in"}}
	got := func(what, text string, value float64) core.Result {
		return core.Result{What: what, As: text, Got: core.Quantity{Value: value, Unit: "in"}, OK: true}
	}
	plate := money("245")
	plateTax := story.TaxIn(plate, nil)
	acts := []core.Act{
		&core.Agreement{Gate: core.GateBudget, Paper: scope.Number, Revision: scope.Revision, Who: "Marta Wellbeck", Capacity: "owner", How: "signed", Sum: upTo},
		&core.Payment{Is: core.PayAsked, Party: "Marta Wellbeck", Sum: deposit, Stage: p.Job.StageNames()[0]},
		&core.Payment{Is: core.PayReceived, Party: "Marta Wellbeck", Sum: deposit, Stage: p.Job.StageNames()[0], How: "transfer"},
		&core.Outwork{ID: "O-001", To: "Tern Lane Grinding", Lines: orderLines(p, "bottom-end/main-journal", true), Tags: []string{"T-001-01", "T-001-02"}, Work: "Mains and pins to one common step, shells with it",
			Asked: asked, Price: money("640"), Type: "fixed", Due: due("3 weeks")},
		&core.Received{Outwork: "O-001", Accepted: true, Lies: "rack 1, wrapped", Results: []core.Result{got("main journal diameter", "2.4797 in", 2.4797), got("crankpin diameter", "1.9798 in", 1.9798)}},
		&core.Outwork{ID: "O-002", To: "Pellow Spring Smiths", Lines: orderLines(p, "springs/spring-pair/front", true), Tags: []string{"T-006"}, Work: "Both front springs re-set alike", Price: money("420"), Type: "fixed", Due: due("4 weeks")},
		&core.Purchase{ID: "B-001", From: "Kestrel Row Reproductions", What: "Gearbox overhaul set", Count: 1, Lines: orderLines(p, "gearbox/layshaft-rollers", false), Price: money("395"), Due: due("2 weeks")},
		&core.Delivery{Purchase: "B-001", State: core.PurchaseArrived, Lies: "rack 2, shelf 2"},
		&core.Payment{Is: core.PayOut, Party: "Tern Lane Grinding", Sum: money("640"), Ref: "O-001", How: "transfer"},
		&core.Surprise{ID: "C-001", Subsystem: "frame", Unit: "vehicle", Tag: "T-008", Found: "Frame, left rail behind the outrigger: a third old repair under the paint, plate lapped over rust", NotBefore: "it was under paint and filler until the frame was scraped",
			Safety: true, Options: []core.SurpriseOption{
				{Do: "Cut it out and let a plate in, as the other two", Sum: plate, Tax: plateTax, Weeks: .5, DrawsOn: core.MinorMoney(core.Minor(plate)-core.Minor(plateTax), s.settings().Currency)},
				{Do: "Leave it", Leaves: true, Risk: "the rail may crack there; the vehicle then leaves on a trailer"}}},
		&core.Note{ID: "N-001", Surprises: []string{"C-001"}},
	}
	if failed != nil {
		return failed
	}
	_, err = s.book.Act(ctx, p.Job.Number, "Wenna", acts...)
	return err
}

// orderLines are the ids of the lines of work that serve a part: of outwork, or of all.
func orderLines(p core.Plan, part string, outwork bool) []string {
	var ids []string
	for _, l := range p.WorkOrder.Lines {
		if l.Kind == core.LineWork && (!outwork || l.Outwork != "") && slices.ContainsFunc(l.Places, func(q core.Place) bool {
			return q.String() == part || strings.HasPrefix(core.Place{Subsystem: q.Subsystem, Target: q.Target}.String()+"/", part+"/")
		}) {
			ids = append(ids, l.ID)
		}
	}
	return ids
}
