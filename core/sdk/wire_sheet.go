package sdk

import (
	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

func sheetToWire(s core.Sheet) *pb.Sheet {
	return &pb.Sheet{
		Subsystem: s.Subsystem, Title: s.Title, Version: s.Version, UnitKind: s.UnitKind,
		DefaultFacts: convertAll(s.DefaultFacts, factToWire), Parts: convertAll(s.Parts, partToWire), Steps: convertAll(s.Steps, stepToWire),
		Sets: convertAll(s.Sets, setToWire), NoReuse: convertAll(s.NoReuse, noReuseToWire), Hidden: convertAll(s.Hidden, hiddenToWire),
		Operations: convertAll(s.Operations, operationToWire), Cautions: convertAll(s.Cautions, cautionToWire), OutlookWeight: s.OutlookWeight,
	}
}

func sheetFromWire(s *pb.Sheet) core.Sheet {
	return core.Sheet{
		Subsystem: s.GetSubsystem(), Title: s.GetTitle(), Version: s.GetVersion(), UnitKind: s.GetUnitKind(),
		DefaultFacts: convertAll(s.GetDefaultFacts(), factFromWire), Parts: convertAll(s.GetParts(), partFromWire),
		Steps: convertAll(s.GetSteps(), stepFromWire), Sets: convertAll(s.GetSets(), setFromWire),
		NoReuse: convertAll(s.GetNoReuse(), noReuseFromWire), Hidden: convertAll(s.GetHidden(), hiddenFromWire),
		Operations: convertAll(s.GetOperations(), operationFromWire), Cautions: convertAll(s.GetCautions(), cautionFromWire),
		OutlookWeight: s.GetOutlookWeight(),
	}
}

func partToWire(p core.Part) *pb.Part {
	w := &pb.Part{
		Id: p.ID, Name: p.Name, Positions: copyTexts(p.Positions), Count: int32(p.Count), SafetyCritical: p.SafetyCritical,
		OneUse: p.OneUse, Checks: convertAll(p.Checks, checkToWire), Reach: copyTexts(p.Reach), Outlook: convertAll(p.Outlook, stateToWire),
	}
	if l := p.Life; l != nil {
		w.Life = &pb.Life{Typical: l.Typical, Unit: l.Unit, Sigma: l.Sigma, Source: l.Source}
	}
	return w
}

func partFromWire(w *pb.Part) core.Part {
	p := core.Part{
		ID: w.GetId(), Name: w.GetName(), Positions: copyTexts(w.GetPositions()), Count: int(w.GetCount()),
		SafetyCritical: w.GetSafetyCritical(), OneUse: w.GetOneUse(), Checks: convertAll(w.GetChecks(), checkFromWire),
		Reach: copyTexts(w.GetReach()), Outlook: convertAll(w.GetOutlook(), stateFromWire),
	}
	if l := w.GetLife(); l != nil {
		p.Life = &core.Life{Typical: l.Typical, Unit: l.Unit, Sigma: l.Sigma, Source: l.Source}
	}
	return p
}

func checkToWire(c core.Check) *pb.Check {
	return &pb.Check{
		Id: c.ID, Name: c.Name, Kind: checkKinds.toWire(c.Kind), Unit: c.Unit, Stations: copyTexts(c.Stations), How: c.How,
		Instrument: c.Instrument, Limit: limitToWire(c.Limit), TwoSided: c.TwoSided, BeforeStrip: c.BeforeStrip,
		NeededForReuse: c.NeededForReuse, Minutes: c.Minutes, PlausibleLow: copyNumber(c.PlausibleLow),
		PlausibleHigh: copyNumber(c.PlausibleHigh), Formula: c.Formula, CountWhenFitted: c.CountWhenFitted,
	}
}

func checkFromWire(c *pb.Check) core.Check {
	if c == nil {
		return core.Check{}
	}
	return core.Check{
		ID: c.Id, Name: c.Name, Kind: checkKinds.fromWire(c.Kind), Unit: c.Unit, Stations: copyTexts(c.Stations), How: c.How,
		Instrument: c.Instrument, Limit: limitFromWire(c.Limit), TwoSided: c.TwoSided, BeforeStrip: c.BeforeStrip,
		NeededForReuse: c.NeededForReuse, Minutes: c.Minutes, PlausibleLow: copyNumber(c.PlausibleLow),
		PlausibleHigh: copyNumber(c.PlausibleHigh), Formula: c.Formula, CountWhenFitted: c.CountWhenFitted,
	}
}

func limitToWire(l core.Limit) *pb.Limit {
	w := &pb.Limit{
		NewLow: copyNumber(l.NewLow), NewHigh: copyNumber(l.NewHigh), WearLow: copyNumber(l.WearLow), WearHigh: copyNumber(l.WearHigh),
		Unit: l.Unit, Source: l.Source, Confidence: l.Confidence, Origin: l.Origin,
	}
	if l.WorstClass != nil {
		class := int32(*l.WorstClass)
		w.WorstClass = &class
	}
	return w
}

func limitFromWire(w *pb.Limit) core.Limit {
	if w == nil {
		return core.Limit{}
	}
	l := core.Limit{
		NewLow: copyNumber(w.NewLow), NewHigh: copyNumber(w.NewHigh), WearLow: copyNumber(w.WearLow), WearHigh: copyNumber(w.WearHigh),
		Unit: w.Unit, Source: w.Source, Confidence: w.Confidence, Origin: w.Origin,
	}
	if w.WorstClass != nil {
		class := int(*w.WorstClass)
		l.WorstClass = &class
	}
	return l
}

func stateToWire(s core.State) *pb.State {
	return &pb.State{Chance: s.Chance, Grade: grades.toWire(s.Grade), Remedies: copyTexts(s.Remedies), RegisterId: s.RegisterID}
}

func stateFromWire(s *pb.State) core.State {
	return core.State{
		Chance: s.GetChance(), Grade: grades.fromWire(s.GetGrade()), Remedies: copyTexts(s.GetRemedies()), RegisterID: s.GetRegisterId(),
	}
}

func setToWire(s core.Set) *pb.Set {
	w := &pb.Set{Id: s.ID, Name: s.Name, Members: convertAll(s.Members, memberToWire), CompleteBeforeOrder: s.CompleteBeforeOrder}
	switch {
	case s.AgreeOn != "":
		w.Rule = &pb.Set_AgreeOn{AgreeOn: s.AgreeOn}
	case s.SameKind:
		w.Rule = &pb.Set_SameKind{SameKind: true}
	}
	return w
}

// memberToWire keeps an empty target in its place in a list, where no message would be wrong.
func memberToWire(t core.Target) *pb.Target { return &pb.Target{Part: t.Part, Position: t.Position} }

func setFromWire(s *pb.Set) core.Set {
	return core.Set{
		ID: s.GetId(), Name: s.GetName(), Members: convertAll(s.GetMembers(), targetFromWire), SameKind: s.GetSameKind(),
		AgreeOn: s.GetAgreeOn(), CompleteBeforeOrder: s.GetCompleteBeforeOrder(),
	}
}

func noReuseToWire(n core.NoReuse) *pb.NoReuse {
	return &pb.NoReuse{
		Id: n.ID, Part: n.Part, Check: n.Check, Trigger: valueToWire(n.Trigger), Allowed: convertAll(n.Allowed, remedyKinds.toWire), Source: n.Source,
	}
}

func noReuseFromWire(n *pb.NoReuse) core.NoReuse {
	return core.NoReuse{
		ID: n.GetId(), Part: n.GetPart(), Check: n.GetCheck(), Trigger: valueFromWire(n.GetTrigger()),
		Allowed: convertAll(n.GetAllowed(), remedyKinds.fromWire), Source: n.GetSource(),
	}
}

func hiddenToWire(h core.Hidden) *pb.Hidden {
	return &pb.Hidden{
		Id: h.ID, Name: h.Name, Chance: h.Chance, Parts: convertAll(h.Parts, memberToWire), Operations: copyTexts(h.Operations),
		Times: h.Times, HistoryKeys: copyTexts(h.HistoryKeys),
	}
}

func hiddenFromWire(h *pb.Hidden) core.Hidden {
	return core.Hidden{
		ID: h.GetId(), Name: h.GetName(), Chance: h.GetChance(), Parts: convertAll(h.GetParts(), targetFromWire),
		Operations: copyTexts(h.GetOperations()), Times: h.GetTimes(), HistoryKeys: copyTexts(h.GetHistoryKeys()),
	}
}
