package paper

import (
	"math"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// usd reads an amount of the fixture's currency.
func usd(s string) core.Money {
	m, err := core.NewMoney(s, "USD")
	if err != nil {
		panic(err)
	}
	return m
}

func cents(v float64) core.Money { return core.MinorMoney(int64(math.Round(v)), "USD") }

func at(subsystem, unit, part, pos string) core.Place {
	return core.Place{Subsystem: subsystem, Unit: unit, Target: core.Target{Part: part, Position: pos}}
}

func be(part, pos string) core.Place { return at("bottom-end", "engine", part, pos) }
func gb(part, pos string) core.Place { return at("gearbox", "gearbox", part, pos) }

const practice = "common practice, no source"

// inch is a gauge in inches read with an outside micrometer good to a tenth of a thou.
func inch(check, name string, fresh, limit, reading float64, source string) *core.Gauge {
	return &core.Gauge{Check: check, Name: name, Unit: "in", New: fresh, Limit: limit, Reading: reading, Bound: .0001, Source: source}
}

// cond is a condition of the fixture.
func cond(p core.Place, name string, safety bool, g core.Grade, gauge *core.Gauge, reasons ...core.Reason) core.UnitCondition {
	c := core.UnitCondition{Place: p, PartName: name, SafetyCritical: safety, Gauge: gauge,
		Condition: core.Condition{Target: p.Target, Grade: g, Reasons: reasons, ReadingsTaken: 4, ReadingsNeeded: 4}}
	if gauge != nil {
		c.GoverningCheck = gauge.Check
		w := (gauge.Reading - gauge.New) / (gauge.Limit - gauge.New)
		c.Wear = &w
	}
	return c
}

func why(text, source string) core.Reason { return core.Reason{Text: text, Source: source} }

// conditions of an engine's bottom end and a gearbox as a mechanic may find them.
func conditions() []core.UnitCondition {
	var cs []core.UnitCondition
	add := func(c core.UnitCondition) { cs = append(cs, c) }
	for i, d := range []float64{2.4992, 2.4987, 2.4979} {
		g := []core.Grade{core.WornFit, core.NearLimit, core.PastLimit}[i]
		add(cond(be("main-journal", "M"+string(rune('1'+i))), "crankshaft main journal", false, g,
			inch("diameter", "diameter", 2.4995, 2.4985, d, practice), why("the smallest reading governs", practice)))
	}
	for i, d := range []float64{1.9991, 1.9972, 1.9989, 1.9984} {
		g := []core.Grade{core.WornFit, core.PastLimit, core.NearLimit, core.MeasureAgain}[i]
		add(cond(be("crankpin", "P"+string(rune('1'+i))), "crankpin", false, g,
			inch("diameter", "diameter", 1.9995, 1.9985, d, practice), why("the smallest reading governs", practice)))
	}
	add(cond(be("crankshaft", ""), "crankshaft", true, core.WornFit, inch("runout", "runout at the centre main", .001, .003, .0018, "TM 55-1930-208-24")))
	add(cond(be("thrust-washers", ""), "thrust washers", false, core.PastLimit, inch("end-float", "crankshaft end float", .008, .012, .0175, practice)))
	for i := range 4 {
		p := be("connecting-rod", string(rune('1'+i)))
		if i == 2 {
			add(cond(p, "connecting rod", true, core.PastLimit, inch("bend", "bend over 4 in", .001, .002, .0034, "TM 10-3930-671-24"),
				why("rod 3 is bent past the limit", "TM 10-3930-671-24")))
			continue
		}
		if i == 3 {
			c := cond(p, "connecting rod", true, core.NotSeen, nil, why("the crack test has not been made", practice))
			c.ReadingsTaken, c.ReadingsNeeded, c.ChecksNotRead = 3, 4, []string{"crack-test"}
			add(c)
			continue
		}
		add(cond(p, "connecting rod", true, core.WithinNew, inch("bend", "bend over 4 in", .001, .002, .0006, "TM 10-3930-671-24")))
	}
	one := cond(be("big-end-bolts", ""), "big-end bolts", true, core.WornFit, nil, why("one-use: always new", practice))
	add(one)
	add(cond(be("oil-pump", ""), "oil pump", false, core.WornFit, inch("end-clearance", "gear end clearance", .0035, .006, .0044, practice)))
	tunnel := cond(be("tunnel", ""), "main bearing tunnel", false, core.NotSeen, nil, why("not read yet", practice))
	tunnel.ReadingsTaken, tunnel.ReadingsNeeded, tunnel.ChecksNotRead = 0, 2, []string{"alignment"}
	add(tunnel)
	for _, x := range []struct {
		part, name string
		grade      core.Grade
		reason     string
	}{
		{"gear-pair-1st", "first gear pair", core.Failed, "two teeth chipped in the contact"},
		{"gear-pair-2nd", "second gear pair", core.WornFit, "class 1: light wear on both flanks"},
		{"gear-pair-3rd", "third gear pair", core.Failed, "tooth counts do not agree: the gear is from another year"},
	} {
		c := cond(gb(x.part, ""), x.name, false, x.grade, nil, why(x.reason, "TM 5-3810-300-24&P2"))
		if x.grade == core.Failed {
			c.Reasons[0].Rule = "N-gear"
		}
		add(c)
	}
	add(cond(gb("layshaft-spindle", ""), "layshaft spindle", false, core.PastLimit, inch("track-wear", "wear in the roller track", .0003, .0015, .0019, practice)))
	short := cond(gb("rollers", ""), "layshaft rollers", false, core.Missing, nil, why("one of 44 rollers is not there: find it before going on", practice))
	add(short)
	inter := cond(gb("interlock", ""), "interlock", true, core.Failed, nil, core.Reason{Text: "two gears can be selected together: a plunger is missing", Rule: "N-interlock", Source: practice})
	add(inter)
	for i, pos := range []string{"3rd", "4th"} {
		g := []core.Grade{core.PastLimit, core.NearLimit}[i]
		add(cond(gb("synchro-ring", pos), "synchro ring", false, g, inch("gap", "gap ring to gear", .04, .02, []float64{.016, .026}[i], practice)))
	}
	add(cond(gb("selector-fork", "1"), "selector fork", false, core.TooTight, inch("side-clearance", "side clearance in the groove", .012, .025, .003, practice)))
	case0 := cond(gb("case", ""), "gearbox case", false, core.WithinNew, nil, why("no cracks or welds found with dye", practice))
	add(case0)
	spline := cond(gb("clutch-spline", ""), "clutch spline of the first-motion shaft", false, core.NotSeen, nil, why("could not reach", practice))
	spline.ReadingsTaken, spline.ReadingsNeeded, spline.ChecksNotRead = 0, 1, []string{"wear-step"}
	add(spline)
	return cs
}

// choices follow the conditions.
func choices() []core.Choice {
	names := map[core.Place]string{}
	for _, c := range conditions() {
		names[c.Place] = c.PartName
	}
	var out []core.Choice
	add := func(p core.Place, k core.RemedyKind, remedy, name string, edit ...func(*core.Choice)) {
		c := core.Choice{Place: p, PartName: names[p], Kind: k, Remedy: remedy, Name: name}
		for _, e := range edit {
			e(&c)
		}
		out = append(out, c)
	}
	or := func(name, more string) func(*core.Choice) {
		return func(c *core.Choice) {
			flip := usd("1939.85")
			c.FlipPrice, c.FlipOn = &flip, "the dearest operation"
			c.RunnerUp = &core.RunnerUp{Remedy: "other", Name: name, CostsMore: new(usd(more))}
		}
	}
	for _, m := range []string{"M1", "M2", "M3"} {
		add(be("main-journal", m), core.Rebuild, "regrind", "Regrind all mains to .010 under, oilways out and cleaned, shells to suit", or("Another crankshaft, ground", "812.35"))
	}
	for _, m := range []string{"P1", "P2", "P3", "P4"} {
		add(be("crankpin", m), core.Rebuild, "regrind", "Regrind all pins to .020 under, shells to suit", or("Another crankshaft, ground", "812.35"))
	}
	add(be("crankshaft", ""), core.Reuse, "reuse", "Used again after the crack test")
	add(be("thrust-washers", ""), core.Replace, "washers", "Thrust washers to bring the end float back")
	for i, r := range []string{"1", "2", "3", "4"} {
		switch i {
		case 2:
			add(be("connecting-rod", r), core.Replace, "replace", "Another rod in matched weight")
		case 3:
			add(be("connecting-rod", r), core.Undecided, "", "")
		default:
			add(be("connecting-rod", r), core.Reuse, "reuse", "Used again with new bolts", or("Resize and bush", "96.50"))
		}
	}
	add(be("big-end-bolts", ""), core.Replace, "new", "New, always")
	add(be("oil-pump", ""), core.Rebuild, "overhaul", "Lap the body face, new gears", func(c *core.Choice) {
		c.Pinned = &core.Pin{By: "the shop", Reason: "it is apart, and oil pressure was low on arrival"}
		m := usd("143.20")
		c.PinCosts = &m
	})
	add(be("tunnel", ""), core.Undecided, "", "")
	add(gb("gear-pair-1st", ""), core.Replace, "pair", "New pair")
	add(gb("gear-pair-2nd", ""), core.Reuse, "reuse", "Used again as a pair", or("New pair", "388.00"))
	add(gb("gear-pair-3rd", ""), core.Replace, "pair", "A pair of the right year")
	add(gb("layshaft-spindle", ""), core.Replace, "overhaul", "New spindle, rollers and thrust washers")
	add(gb("rollers", ""), core.Replace, "overhaul", "New set of rollers")
	add(gb("interlock", ""), core.Replace, "plungers", "New plungers; the box is not built without them")
	for _, pos := range []string{"3rd", "4th"} {
		add(gb("synchro-ring", pos), core.Replace, "overhaul", "New rings", or("Keep the fourth-gear ring", "31.75"))
	}
	add(gb("selector-fork", "1"), core.LeftAsIs, "left", "")
	add(gb("case", ""), core.Reuse, "reuse", "Used again")
	add(gb("clutch-spline", ""), core.Undecided, "", "")
	return out
}

func three(low, likely, high float64) core.Range3 {
	return core.Range3{Low: low, Likely: likely, High: high}
}

// line prices hours at 85 and adds goods and outwork, all three-point; tax on it is 6 per cent.
func line(id string, k core.LineKind, subsystem, unit, name string, h, goods, out core.Range3) core.Line {
	t := h.Scale(85).Add(goods).Add(out)
	l := core.Line{ID: id, Kind: k, Subsystem: subsystem, Unit: unit, Name: name, Hours: h,
		Low: cents(t.Low * 100), Likely: cents(t.Likely * 100), High: cents(t.High * 100), Amount: cents(t.Mean() * 100)}
	l.Tax = cents(t.Mean() * 6)
	l.Typical = usd("0.00")
	if h != (core.Range3{}) {
		l.Skill = "mechanic"
	}
	return l
}

func reserve(id, subsystem, unit, name string, chance float64, full core.Range3, places ...core.Place) core.Line {
	l := line(id, core.LineReserve, subsystem, unit, name, core.Range3{}, full, core.Range3{})
	l.Amount, l.Chance, l.Places = cents(full.Mean()*chance*100), &chance, places
	l.Low, l.Likely, l.Name = usd("0.00"), usd("0.00"), "Reserve: "+name
	l.Tax = cents(full.Mean() * chance * 6)
	return l
}

func item(key, name string, n float64, each, supplier, kind string) core.OrderItem {
	return core.OrderItem{Key: key, Name: name, Count: n, Each: usd(each), Supplier: supplier, Kind: kind, Typical: supplier == ""}
}

// lines of the order.
func lines() []core.Line {
	var ls []core.Line
	none := core.Range3{}
	for _, s := range steps() {
		if !s.Done {
			l := line("strip:"+s.ID, core.LineStrip, "", s.Unit, "Strip: "+s.Name, s.StripHours, none, none)
			l.Shared = s.ServedBy
			ls = append(ls, l)
		}
		l := line("refit:"+s.ID, core.LineRefit, "", s.Unit, "Refit: "+s.Name, s.Refit(), none, none)
		l.Shared = s.ServedBy
		ls = append(ls, l)
	}
	grind := line("op:regrind", core.LineWork, "bottom-end", "engine", "regrind mains and pins, oilways cleaned, shells fitted", three(4, 6, 9), three(180, 260, 420), three(220, 320, 480))
	grind.Outwork, grind.LeadWeeks, grind.Shared = "Tern Lane Grinding", three(2, 4, 10), 7
	for _, m := range []string{"M1", "M2", "M3"} {
		grind.Places = append(grind.Places, be("main-journal", m))
	}
	for _, m := range []string{"P1", "P2", "P3", "P4"} {
		grind.Places = append(grind.Places, be("crankpin", m))
	}
	grind.Items = []core.OrderItem{item("main-shells", "main shells, set", 1, "118.00", "Wold Old-Stock Spares", "new old stock"), item("big-end-shells", "big-end shells, set", 1, "146.50", "Kestrel Row Reproductions", "reproduction")}
	grind.Items[0].Old, grind.Items[1].OneUse = true, true
	crack := line("op:crack", core.LineWork, "bottom-end", "engine", "crack test of crankshaft and rods", three(.5, .5, .5), none, three(100, 100, 100))
	crack.Outwork, crack.LeadWeeks, crack.Places = "Tern Lane Grinding", three(1, 2, 4), []core.Place{be("crankshaft", "")}
	rod := line("op:rod", core.LineWork, "bottom-end", "engine", "another rod, matched for weight", three(.5, .8, 1.2), three(70, 120, 240), none)
	rod.Items, rod.LeadWeeks, rod.Places = []core.OrderItem{item("rod", "connecting rod", 1, "120.00", "Birch Yard Dismantlers", "used"), item("big-end-bolt", "big-end bolt and nut", 8, "6.25", "", "")}, three(1, 3, 8), []core.Place{be("connecting-rod", "3")}
	rod.Items[1].OneUse = true
	rod.Typical = usd("50.00")
	pump := line("op:pump", core.LineWork, "bottom-end", "engine", "oil pump overhaul", three(1.5, 2, 3.5), three(40, 90, 220), none)
	pump.Items, pump.Typical, pump.Places = []core.OrderItem{item("pump-gears", "oil pump gears, pair", 1, "84.00", "", "")}, usd("84.00"), []core.Place{be("oil-pump", "")}
	box := line("op:overhaul", core.LineWork, "gearbox", "gearbox", "full overhaul: bearings, spindle, rollers, thrust washers, rings", three(9, 13, 20), three(220, 380, 720), none)
	box.Items = []core.OrderItem{item("bearings", "ball bearings, set of 4", 1, "172.00", "Kestrel Row Reproductions", "reproduction"), item("rollers", "rollers", 44, "1.15", "", ""), item("rings", "synchro rings", 2, "48.00", "Wold Old-Stock Spares", "new old stock")}
	box.Typical, box.Shared, box.LeadWeeks = usd("50.60"), 4, three(1, 4, 16)
	box.Places = []core.Place{gb("layshaft-spindle", ""), gb("rollers", ""), gb("synchro-ring", "3rd"), gb("synchro-ring", "4th")}
	box.Cautions = []core.Caution{{Text: "count the rollers onto a tray", Source: practice}}
	first := line("op:pair-1st", core.LineWork, "gearbox", "gearbox", "first gear pair made new", three(1, 2, 3), none, three(350, 650, 1400))
	first.Outwork, first.LeadWeeks, first.Places = "Oakshott Gear and Spline", three(8, 14, 30), []core.Place{gb("gear-pair-1st", "")}
	third := line("op:pair-3rd", core.LineWork, "gearbox", "gearbox", "third gear pair of the right year", three(1, 2, 3), three(150, 320, 800), none)
	third.Items, third.LeadWeeks, third.Places = []core.OrderItem{item("pair-3rd", "third gear pair", 1, "320.00", "Birch Yard Dismantlers", "used")}, three(2, 8, 40), []core.Place{gb("gear-pair-3rd", "")}
	plungers := line("op:interlock", core.LineWork, "gearbox", "gearbox", "interlock plungers", three(.3, .5, .8), three(8, 8, 8), none)
	plungers.Items, plungers.Typical, plungers.Places = []core.OrderItem{item("plunger", "interlock plunger", 2, "4.00", "", "")}, usd("8.00"), []core.Place{gb("interlock", "")}
	ls = append(ls, grind, crack, rod, pump,
		reserve("res:rod-4", "bottom-end", "engine", "connecting rod 4, if the crack test condemns it", .08, three(110, 190, 340), be("connecting-rod", "4")),
		reserve("res:tunnel", "bottom-end", "engine", "main bearing tunnel out of line: align bore", .07, three(265, 440, 650), be("tunnel", "")),
		box, first, third, plungers,
		reserve("res:spline", "gearbox", "gearbox", "clutch spline worn: another first-motion shaft", .2, three(260, 340, 520), gb("clutch-spline", "")),
		reserve("res:lost", "gearbox", "gearbox", "parts lost inside before the job arrived", .05, three(40, 90, 200)))
	return ls
}

func steps() []core.PlannedStep {
	st := func(id, name string, people int, h core.Range3, served int) core.PlannedStep {
		return core.PlannedStep{Step: core.Step{ID: id, Name: name, StripHours: h, People: people}, ServedBy: served}
	}
	wheels := st("wheels-off", "wheels off, vehicle on four stands", 1, three(.3, .5, .8), 2)
	wheels.ConfirmHelp = "the stands stand under the frame, not the axle"
	wheels.Cautions = []core.Caution{{Text: "the hand brake works on the transmission: chock the wheels both ways before any is raised", Source: practice}}
	tunnel := st("tunnel-out", "seats, floors and transmission tunnel out", 1, three(1, 2, 5), 6)
	engine := st("engine-out", "engine with clutch out", 2, three(2, 3, 5), 9)
	engine.Load = "engine"
	engine.Lift = &core.Lift{Weight: core.Quantity{Value: 430, Unit: "lb"}, Source: "vehicle pack", Leg60: core.Quantity{Value: 248.26, Unit: "lbf"},
		Leg45: core.Quantity{Value: 304.06, Unit: "lbf"}, LopSided45: core.Quantity{Value: 608.11, Unit: "lbf"}, CastorEach: core.Quantity{Value: 179.17, Unit: "lb"}, HoistAtLeast: core.Quantity{Value: 860, Unit: "lb"}}
	engine.Cautions = []core.Caution{{Text: "hold the gearbox front up before the last engine bolt", Source: practice}}
	gearbox := st("gearbox-out", "gearbox and transfer box out", 2, three(1.5, 2.5, 4), 8)
	gearbox.Load = "gearbox"
	shafts := st("gearbox:shafts-out", "gearbox shafts out", 1, three(1.2, 2, 3.5), 6)
	shafts.Unit = "gearbox"
	shafts.Lost = []string{"gearbox/gear-pair-2nd/backlash", "gearbox/case/end-float"}
	crank := st("crankshaft-out", "crankshaft out", 1, three(.8, 1, 1.5), 7)
	crank.Unit = "engine"
	crank.Done = true
	return []core.PlannedStep{wheels, tunnel, engine, gearbox, shafts, crank}
}

func sheets() []core.UnitSheet {
	return []core.UnitSheet{
		{Subsystem: "bottom-end", Unit: "engine", Sheet: core.Sheet{Subsystem: "bottom-end", Title: "Engine bottom end", Parts: []core.Part{
			{ID: "big-end-bolts", Name: "big-end bolts", OneUse: true}, {ID: "connecting-rod", Name: "connecting rod", Checks: []core.Check{{ID: "crack-test", Name: "crack test"}}},
			{ID: "tunnel", Name: "main bearing tunnel", Reach: []string{"crankshaft-out"}, Checks: []core.Check{{ID: "alignment", Name: "bore alignment, any adjacent pair"}}}}}},
		{Subsystem: "gearbox", Unit: "gearbox", Sheet: core.Sheet{Subsystem: "gearbox", Title: "Gearbox", Parts: []core.Part{
			{ID: "gear-pair-2nd", Name: "second gear pair", Checks: []core.Check{{ID: "backlash", Name: "backlash"}}},
			{ID: "clutch-spline", Name: "clutch spline", Reach: []string{"gearbox-out", "gearbox:shafts-out"}, Checks: []core.Check{{ID: "wear-step", Name: "wear step"}}}}}},
		{Subsystem: "transfer-box", Unit: "transfer-box", Failed: true},
	}
}

// packhorse is a plan of the invented vehicle, its sums made from its lines.
func packhorse() core.Plan {
	p := core.Plan{Sheets: sheets(), Conditions: conditions(), Choices: choices(), Steps: steps(), OldPrices: []string{"main-shells"}, Finish: finish()}
	p.Job = core.Job{Number: "J-001", Title: "Bottom end and gearbox of a 1956 Packhorse", Owner: core.Party{Name: "Marta Wellbeck", Address: []string{"Thorngill Farm"}},
		Vehicle: &core.Vehicle{Title: "1956 Calder & Finch Packhorse Mark B, 15-cwt 4x4 estate truck", Marks: []core.Mark{
			{Where: "bulkhead plate", Text: "PK-15-20417", Expected: "PK-15-20417", Says: "agrees"}}},
		Units: []core.Unit{{ID: "engine", Kind: "engine", Title: "four-cylinder engine", Marks: []core.Mark{{Where: "block, left side", Text: "D4-31882", Expected: "D4-20466", Says: "later or earlier type", Note: "Not the engine it left with."}}},
			{ID: "gearbox", Kind: "gearbox", Title: "four-speed gearbox", Marks: []core.Mark{{Where: "case, top", Text: "PK4-0711", Says: "unknown"}}},
			{ID: "transfer-box", Kind: "transfer-box", Title: "transfer box", Marks: []core.Mark{{Where: "case, rear", Text: "HW-22-118", Expected: "PT2-....", Says: "from another model"}}}},
		Brief:  core.Brief{Use: "correct 1956 look, use on farm tracks and to shows, 50 mph, no concours", Originality: 2, HorizonKM: 20000, HorizonYears: 10},
		Extent: core.Extent{Kind: core.ExtentNamed, Names: []string{"bottom-end", "gearbox"}, Apart: []string{"crankshaft-out"}},
		Left:   []core.Left{{Place: gb("selector-fork", "1"), Reason: "it runs free when warm", By: "Marta Wellbeck"}}}
	p.NotSeen = []core.NotSeenItem{
		{Place: be("connecting-rod", "4"), PartName: "connecting rod", Taken: 3, Needed: 4, Checks: []string{"crack-test"}, Reserve: usd("16.13")},
		{Place: be("tunnel", ""), PartName: "main bearing tunnel", Needed: 2, Checks: []string{"alignment"}, Reserve: usd("31.21")},
		{Place: gb("clutch-spline", ""), PartName: "clutch spline of the first-motion shaft", Needed: 1, Checks: []string{"wear-step"}, Reserve: usd("71.33")}}
	p.Problems = []core.Problem{
		{Severity: core.SeverityError, Subsystem: "transfer-box", Unit: "transfer-box", Summary: "not assessed: the subsystem stopped while it was asked", Next: "run the plan again; the readings are kept"},
		{Severity: core.SeverityWarning, Subsystem: "bottom-end", Summary: "crankpin P4 straddles its limit", Next: "measure P4 again with the micrometer checked"}}
	p.Cautions = []core.Caution{
		{Text: "the crankshaft is stored on end or on three supports, never on two ends for weeks", Source: practice},
		{Text: "bearings are never spun by air", Source: practice},
		{Text: "blow oilways out with eye cover", Source: practice},
		{Text: "clutch and brake dust may hold asbestos: damp it down, never blow it", Source: practice}}
	p.WorkOrder = order(lines())
	p.Budget = budget(p.WorkOrder)
	p.Proof = core.Proof{Value: usd("7611.40"), Bound: usd("7611.40"), Proven: true, Width: 3}
	return p
}

func order(ls []core.Line) core.WorkOrder {
	o := core.WorkOrder{Lines: ls, DoneOnce: 14.3}
	var total, tax, typical int64
	base := map[string]int64{}
	for _, l := range ls {
		total += core.Minor(l.Amount)
		tax += core.Minor(l.Tax)
		typical += core.Minor(l.Typical)
		labour := int64(math.Round(l.Hours.Mean() * 8500))
		if l.Kind != core.LineReserve {
			o.HoursExpected += l.Hours.Mean()
		}
		base["labour"] += labour
		base["parts and outwork"] += core.Minor(l.Amount) - labour
	}
	sumTax := tax
	for _, c := range []string{"labour", "parts and outwork"} {
		part := int64(math.Round(float64(base[c]) * .06))
		if c != "labour" {
			part = sumTax
		}
		sumTax -= part
		o.Taxes = append(o.Taxes, core.TaxTotal{Class: c, Name: "County tax", Percent: "6", Base: core.MinorMoney(base[c], "USD"), Tax: core.MinorMoney(part, "USD")})
	}
	o.TotalBeforeTax, o.Tax, o.Total, o.Typical = core.MinorMoney(total, "USD"), core.MinorMoney(tax, "USD"), core.MinorMoney(total+tax, "USD"), core.MinorMoney(typical, "USD")
	return o
}

// budget is a normal distribution about the expected amount, which is all that a printer needs.
func budget(o core.WorkOrder) core.Budget {
	mean, sd := float64(core.Minor(o.TotalBeforeTax)), 98000.0
	at := func(p float64) core.Money { return cents(mean + sd*math.Sqrt2*math.Erfinv(2*p-1)) }
	b := core.Budget{Expected: o.TotalBeforeTax, P10: at(.1), P50: at(.5), P80: at(.8), P90: at(.9), Mean: cents(mean), SD: cents(sd), Trials: 100000, Seed: 1956}
	b.Contingency = core.MinorMoney(core.Minor(b.P80)-core.Minor(b.Expected), "USD")
	likelies := int64(0)
	for _, l := range o.Lines {
		if l.Kind != core.LineReserve {
			likelies += core.Minor(l.Likely)
		}
	}
	b.SumOfLikelies, b.OverLikelies = core.MinorMoney(likelies, "USD"), core.MinorMoney(core.Minor(b.P80)-likelies, "USD")
	b.StandardErrors = []core.Money{usd("4.12"), usd("3.05"), usd("3.61"), usd("4.40")}
	for i := range 101 {
		b.Curve = append(b.Curve, at(min(max(float64(i)/100, .002), .998)))
	}
	b.Widest = []core.Widener{{Name: "first gear pair made new", Share: .31}, {Name: "full overhaul", Share: .22}, {Name: "regrind", Share: .11}}
	return b
}

// finish of the fixture: 120 hours at 12 a week, with a gear that is long in coming.
func finish() *core.Finish {
	return &core.Finish{From: time.Date(2026, 3, 17, 15, 0, 0, 0, time.UTC), P10: 12.2, P50: 17, P80: 23.4, P90: 27.1, Hours: 121.4, HoursWeek: 12, OtherHours: 86.3, OtherJobs: 2,
		HeldUp: []core.HoldUp{{Name: "First gear pair made new, gear work", Chance: .63}, {Name: "Regrind mains and pins, crankshaft grinding", Chance: .06}, {Name: "Oil pump", Chance: .01}}, Bench: .28}
}

// input is the fixture's paper.
func input() Input {
	zone := time.FixedZone("shop", -5*3600)
	return Input{Plan: packhorse(), Shop: Shop{Name: "Ashdyke Vehicle Works", Address: []string{"The Old Sawmill", "Ashdyke"}, Contact: []string{"workshop open 8 to 5"}},
		Number: "S-014", Revision: "2", Replaces: "S-014 revision 1 of 3 March 2026", Date: time.Date(2026, 3, 17, 15, 0, 0, 0, time.UTC), Zone: zone,
		ValidUntil: time.Date(2026, 4, 16, 15, 0, 0, 0, time.UTC), ApprovalRule: "the shop may spend up to 150 USD or 2 hours on a single surprise without asking, 500 USD in all; beyond that a change note is signed first",
		Terms: []string{"Storage after 30 days of waiting for a decision is charged by the week", "Work stops if a stage payment is 14 days overdue", "Outwork is paid as it is spent"},
		Rates: []core.Rate{{Skill: "mechanic", Hour: usd("85.00")}}, Storage: "The vehicle stands under cover and is insured by its owner. 30 percent is paid on signing, 25 percent when it is apart, the rest at handover",
		Declined: []Declined{{Text: "reconditioning the transfer box while it is out"}}}
}
