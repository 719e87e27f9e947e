package sdk

import (
	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

func stepToWire(s core.Step) *pb.Step {
	return &pb.Step{
		Id: s.ID, Name: s.Name, StripHours: rangeToWire(s.StripHours), RefitHours: rangeToWire(s.RefitHours),
		People: int32(s.People), Skill: s.Skill, AllOf: copyTexts(s.AllOf),
		AnyOf:    convertAll(s.AnyOf, func(c []string) *pb.AnyOf { return &pb.AnyOf{Steps: copyTexts(c)} }),
		Destroys: copyTexts(s.Destroys), OneUse: convertAll(s.OneUse, itemToWire), Cautions: convertAll(s.Cautions, cautionToWire),
		Scope: s.Scope, BareFrame: s.BareFrame, ConfirmHelp: s.ConfirmHelp, Load: s.Load, NoRefit: s.NoRefit,
	}
}

func stepFromWire(s *pb.Step) core.Step {
	if s == nil {
		return core.Step{}
	}
	return core.Step{
		ID: s.Id, Name: s.Name, StripHours: rangeFromWire(s.StripHours), RefitHours: rangeFromWire(s.RefitHours),
		People: int(s.People), Skill: s.Skill, AllOf: copyTexts(s.AllOf),
		AnyOf:    convertAll(s.AnyOf, func(c *pb.AnyOf) []string { return copyTexts(c.GetSteps()) }),
		Destroys: copyTexts(s.Destroys), OneUse: convertAll(s.OneUse, itemFromWire), Cautions: convertAll(s.Cautions, cautionFromWire),
		Scope: s.Scope, BareFrame: s.BareFrame, ConfirmHelp: s.ConfirmHelp, Load: s.Load, NoRefit: s.NoRefit,
	}
}

func itemToWire(i core.Item) *pb.Item {
	return &pb.Item{
		Key: i.Key, Name: i.Name, Count: i.Count, TypicalEach: moneyToWire(i.TypicalEach), OneUse: i.OneUse, TaxClass: i.TaxClass,
	}
}

func itemFromWire(i *pb.Item) core.Item {
	return core.Item{
		Key: i.GetKey(), Name: i.GetName(), Count: i.GetCount(), TypicalEach: moneyFromWire(i.GetTypicalEach()),
		OneUse: i.GetOneUse(), TaxClass: i.GetTaxClass(),
	}
}

func operationToWire(o core.Operation) *pb.Operation {
	return &pb.Operation{
		Id: o.ID, Name: o.Name, Skill: o.Skill, Hours: rangeToWire(o.Hours), Items: convertAll(o.Items, itemToWire),
		Outwork: moneyToWire(o.Outwork), OutworkKind: o.OutworkKind, LeadWeeks: rangeToWire(o.LeadWeeks),
		ServedPer: o.ServedPer, Includes: copyTexts(o.Includes), After: copyTexts(o.After), Cautions: convertAll(o.Cautions, cautionToWire),
	}
}

func operationFromWire(o *pb.Operation) core.Operation {
	return core.Operation{
		ID: o.GetId(), Name: o.GetName(), Skill: o.GetSkill(), Hours: rangeFromWire(o.GetHours()),
		Items: convertAll(o.GetItems(), itemFromWire), Outwork: moneyFromWire(o.GetOutwork()), OutworkKind: o.GetOutworkKind(),
		LeadWeeks: rangeFromWire(o.GetLeadWeeks()), ServedPer: o.GetServedPer(), Includes: copyTexts(o.GetIncludes()), After: copyTexts(o.GetAfter()),
		Cautions: convertAll(o.GetCautions(), cautionFromWire),
	}
}

func cautionToWire(c core.Caution) *pb.Caution {
	return &pb.Caution{Text: c.Text, Part: c.Part, Step: c.Step, Source: c.Source}
}

func cautionFromWire(c *pb.Caution) core.Caution {
	return core.Caution{Text: c.GetText(), Part: c.GetPart(), Step: c.GetStep(), Source: c.GetSource()}
}

func reasonToWire(r core.Reason) *pb.Reason {
	return &pb.Reason{Text: r.Text, FindingIds: copyTexts(r.FindingIDs), Check: r.Check, Rule: r.Rule, Source: r.Source}
}

func reasonFromWire(r *pb.Reason) core.Reason {
	return core.Reason{
		Text: r.GetText(), FindingIDs: copyTexts(r.GetFindingIds()), Check: r.GetCheck(), Rule: r.GetRule(), Source: r.GetSource(),
	}
}

func remedyRefToWire(r core.RemedyRef) *pb.RemedyRef {
	return &pb.RemedyRef{Target: targetToWire(r.Target), Remedy: r.Remedy}
}

func remedyRefFromWire(r *pb.RemedyRef) core.RemedyRef {
	return core.RemedyRef{Target: targetFromWire(r.GetTarget()), Remedy: r.GetRemedy()}
}

func yieldToWire(y core.Yield) *pb.Yield { return &pb.Yield{Key: y.Key, Value: y.Value} }

func yieldFromWire(y *pb.Yield) core.Yield { return core.Yield{Key: y.GetKey(), Value: y.GetValue()} }

func remedyToWire(r core.Remedy) *pb.Remedy {
	return &pb.Remedy{
		Id: r.ID, Target: targetToWire(r.Target), Kind: remedyKinds.toWire(r.Kind), Name: r.Name, Feasible: r.Feasible,
		Why: convertAll(r.Why, reasonToWire), Operations: copyTexts(r.Operations), Steps: copyTexts(r.Steps), WearAfter: copyNumber(r.WearAfter),
		ResidualChance: r.ResidualChance, CollateralOperations: copyTexts(r.CollateralOperations), Yields: convertAll(r.Yields, yieldToWire),
		Requires: convertAll(r.Requires, remedyRefToWire), Excludes: convertAll(r.Excludes, remedyRefToWire),
		OriginalityMin: int32(r.OriginalityMin), OriginalityMax: int32(r.OriginalityMax), PinOnly: r.PinOnly,
	}
}

func remedyFromWire(r *pb.Remedy) core.Remedy {
	if r == nil {
		return core.Remedy{}
	}
	return core.Remedy{
		ID: r.Id, Target: targetFromWire(r.Target), Kind: remedyKinds.fromWire(r.Kind), Name: r.Name, Feasible: r.Feasible,
		Why: convertAll(r.Why, reasonFromWire), Operations: copyTexts(r.Operations), Steps: copyTexts(r.Steps), WearAfter: copyNumber(r.WearAfter),
		ResidualChance: r.ResidualChance, CollateralOperations: copyTexts(r.CollateralOperations), Yields: convertAll(r.Yields, yieldFromWire),
		Requires: convertAll(r.Requires, remedyRefFromWire), Excludes: convertAll(r.Excludes, remedyRefFromWire),
		OriginalityMin: int(r.OriginalityMin), OriginalityMax: int(r.OriginalityMax), PinOnly: r.PinOnly,
	}
}

func conditionToWire(c core.Condition) *pb.Condition {
	return &pb.Condition{
		Target: targetToWire(c.Target), Grade: grades.toWire(c.Grade), Wear: copyNumber(c.Wear), WearU: copyNumber(c.WearU),
		PPast: copyNumber(c.PPast), GoverningCheck: c.GoverningCheck, Reasons: convertAll(c.Reasons, reasonToWire),
		ChecksNotRead: copyTexts(c.ChecksNotRead), ReadingsTaken: int32(c.ReadingsTaken), ReadingsNeeded: int32(c.ReadingsNeeded),
		States: convertAll(c.States, stateToWire), Facts: convertAll(c.Facts, factToWire),
	}
}

func conditionFromWire(c *pb.Condition) core.Condition {
	if c == nil {
		return core.Condition{}
	}
	return core.Condition{
		Target: targetFromWire(c.Target), Grade: grades.fromWire(c.Grade), Wear: copyNumber(c.Wear), WearU: copyNumber(c.WearU),
		PPast: copyNumber(c.PPast), GoverningCheck: c.GoverningCheck, Reasons: convertAll(c.Reasons, reasonFromWire),
		ChecksNotRead: copyTexts(c.ChecksNotRead), ReadingsTaken: int(c.ReadingsTaken), ReadingsNeeded: int(c.ReadingsNeeded),
		States: convertAll(c.States, stateFromWire), Facts: convertAll(c.Facts, factFromWire),
	}
}
