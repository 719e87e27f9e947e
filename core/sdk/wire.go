package sdk

import (
	"strings"

	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

// The wire_*.go files turn core's nouns into the contract's messages and back. Both ways are lossless but for what
// is the host's own and never sent: who found something and when, what it replaces, and the subsystem and unit of a
// finding or a problem. An empty list and no list are the same on the wire and come back as nil.

// convertAll converts a list; an empty one gives nil.
func convertAll[A, B any](in []A, convert func(A) B) []B {
	if len(in) == 0 {
		return nil
	}
	out := make([]B, len(in))
	for i, a := range in {
		out[i] = convert(a)
	}
	return out
}

// copyTexts copies a list of strings; an empty one gives nil.
func copyTexts(in []string) []string { return append([]string(nil), in...) }

// sendable replaces bytes that are no UTF-8, which no message can carry: an old CSV file must not cost a subsystem.
func sendable(s string) string { return strings.ToValidUTF8(s, "\uFFFD") }

// copyNumber copies an optional number.
func copyNumber(in *float64) *float64 {
	if in == nil {
		return nil
	}
	v := *in
	return &v
}

func requestToWire(r core.AssessRequest) *pb.AssessRequest {
	return &pb.AssessRequest{
		Unit: r.Unit, Facts: convertAll(r.Facts, factToWire), Brief: briefToWire(r.Brief),
		Overrides: convertAll(r.Overrides, overrideToWire), Findings: convertAll(r.Findings, findingToWire),
	}
}

func requestFromWire(r *pb.AssessRequest) core.AssessRequest {
	q := core.AssessRequest{
		Unit: r.GetUnit(), Facts: convertAll(r.GetFacts(), factFromWire), Brief: briefFromWire(r.GetBrief()),
		Overrides: convertAll(r.GetOverrides(), overrideFromWire), Findings: convertAll(r.GetFindings(), findingFromWire),
	}
	for i := range q.Findings {
		q.Findings[i].Unit = q.Unit
	}
	return q
}

func assessmentToWire(a core.Assessment) *pb.AssessResponse {
	return &pb.AssessResponse{
		Conditions: convertAll(a.Conditions, conditionToWire), Remedies: convertAll(a.Remedies, remedyToWire),
		Operations: convertAll(a.Operations, operationToWire), Problems: convertAll(a.Problems, problemToWire),
	}
}

func assessmentFromWire(a *pb.AssessResponse) core.Assessment {
	return core.Assessment{
		Conditions: convertAll(a.GetConditions(), conditionFromWire), Remedies: convertAll(a.GetRemedies(), remedyFromWire),
		Operations: convertAll(a.GetOperations(), operationFromWire), Problems: convertAll(a.GetProblems(), problemFromWire),
	}
}

func briefToWire(b core.Brief) *pb.Brief {
	return &pb.Brief{
		Use: b.Use, Originality: int32(b.Originality), HorizonKm: b.HorizonKM, HorizonYears: b.HorizonYears,
		Stored: b.Stored, Ran: b.Ran, Worked: b.Worked, ServiceKm: copyNumber(b.ServiceKM), AgeYears: copyNumber(b.AgeYears),
	}
}

func briefFromWire(b *pb.Brief) core.Brief {
	if b == nil {
		return core.Brief{}
	}
	return core.Brief{
		Use: b.Use, Originality: int(b.Originality), HorizonKM: b.HorizonKm, HorizonYears: b.HorizonYears,
		Stored: b.Stored, Ran: b.Ran, Worked: b.Worked, ServiceKM: copyNumber(b.ServiceKm), AgeYears: copyNumber(b.AgeYears),
	}
}

func findingToWire(f core.Finding) *pb.Finding {
	return &pb.Finding{
		Id: f.ID, Target: targetToWire(f.Target), Check: sendable(f.Check), Station: sendable(f.Station),
		Value: valueToWire(f.Value), AsTyped: sendable(f.AsTyped), Instrument: sendable(f.Instrument),
	}
}

func findingFromWire(f *pb.Finding) core.Finding {
	return core.Finding{
		ID: f.GetId(), Target: targetFromWire(f.GetTarget()), Check: f.GetCheck(), Station: f.GetStation(),
		Value: valueFromWire(f.GetValue()), AsTyped: f.GetAsTyped(), Instrument: f.GetInstrument(),
	}
}

func overrideToWire(o core.Override) *pb.Override {
	return &pb.Override{Target: targetToWire(o.Target), Check: o.Check, Limit: limitToWire(o.Limit)}
}

func overrideFromWire(o *pb.Override) core.Override {
	return core.Override{Target: targetFromWire(o.GetTarget()), Check: o.GetCheck(), Limit: limitFromWire(o.GetLimit())}
}

func problemToWire(p core.Problem) *pb.Problem {
	return &pb.Problem{
		Severity: severities.toWire(p.Severity), Summary: p.Summary, Detail: p.Detail, Next: p.Next,
		FindingId: p.FindingID, Target: targetToWire(p.Target), Check: p.Check,
	}
}

func problemFromWire(p *pb.Problem) core.Problem {
	return core.Problem{
		Severity: severities.fromWire(p.GetSeverity()), Summary: p.GetSummary(), Detail: p.GetDetail(), Next: p.GetNext(),
		FindingID: p.GetFindingId(), Target: targetFromWire(p.GetTarget()), Check: p.GetCheck(),
	}
}
