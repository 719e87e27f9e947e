package sdk

import (
	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

// wireWords pairs core's word for something with its number on the wire. The zero number stands for anything unknown.
type wireWords[C comparable, W ~int32] []struct {
	core C
	wire W
}

func (t wireWords[C, W]) toWire(c C) W {
	for _, p := range t {
		if p.core == c {
			return p.wire
		}
	}
	return 0
}

func (t wireWords[C, W]) fromWire(w W) C {
	for _, p := range t {
		if p.wire == w {
			return p.core
		}
	}
	var none C
	return none
}

var checkKinds = wireWords[core.CheckKind, pb.CheckKind]{
	{core.Measured, pb.CheckKind_CHECK_KIND_MEASURED},
	{core.Derived, pb.CheckKind_CHECK_KIND_DERIVED},
	{core.Counted, pb.CheckKind_CHECK_KIND_COUNTED},
	{core.Judged, pb.CheckKind_CHECK_KIND_JUDGED},
	{core.GoNoGo, pb.CheckKind_CHECK_KIND_GO_NO_GO},
	{core.OneUse, pb.CheckKind_CHECK_KIND_ONE_USE},
}

var grades = wireWords[core.Grade, pb.Grade]{
	{core.WithinNew, pb.Grade_GRADE_WITHIN_NEW},
	{core.WornFit, pb.Grade_GRADE_WORN_FIT},
	{core.NearLimit, pb.Grade_GRADE_NEAR_LIMIT},
	{core.PastLimit, pb.Grade_GRADE_PAST_LIMIT},
	{core.TooTight, pb.Grade_GRADE_TOO_TIGHT},
	{core.Failed, pb.Grade_GRADE_FAILED},
	{core.MeasureAgain, pb.Grade_GRADE_MEASURE_AGAIN},
	{core.NotSeen, pb.Grade_GRADE_NOT_SEEN},
	{core.Missing, pb.Grade_GRADE_MISSING},
}

var remedyKinds = wireWords[core.RemedyKind, pb.RemedyKind]{
	{core.Reuse, pb.RemedyKind_REMEDY_KIND_REUSE},
	{core.Rebuild, pb.RemedyKind_REMEDY_KIND_REBUILD},
	{core.Replace, pb.RemedyKind_REMEDY_KIND_REPLACE},
}

var notReads = wireWords[core.NotRead, pb.NotRead]{
	{core.NotMeasured, pb.NotRead_NOT_READ_NOT_MEASURED},
	{core.CouldNotReach, pb.NotRead_NOT_READ_COULD_NOT_REACH},
	{core.PartMissing, pb.NotRead_NOT_READ_PART_MISSING},
	{core.ByEye, pb.NotRead_NOT_READ_BY_EYE},
	{core.Lost, pb.NotRead_NOT_READ_LOST},
}

var severities = wireWords[core.Severity, pb.Severity]{
	{core.SeverityError, pb.Severity_SEVERITY_ERROR},
	{core.SeverityWarning, pb.Severity_SEVERITY_WARNING},
	{core.SeverityNote, pb.Severity_SEVERITY_NOTE},
}

func targetToWire(t core.Target) *pb.Target {
	if t == (core.Target{}) {
		return nil
	}
	return &pb.Target{Part: t.Part, Position: t.Position}
}

func targetFromWire(t *pb.Target) core.Target {
	return core.Target{Part: t.GetPart(), Position: t.GetPosition()}
}

func valueToWire(v core.Value) *pb.Value {
	switch v.Kind {
	case core.ValueQuantity:
		q := &pb.Quantity{Value: v.Quantity.Value, Unit: v.Quantity.Unit, Bound: v.Quantity.Bound}
		return &pb.Value{Kind: &pb.Value_Quantity{Quantity: q}}
	case core.ValueCount:
		return &pb.Value{Kind: &pb.Value_Count{Count: int64(v.Count)}}
	case core.ValueClass:
		return &pb.Value{Kind: &pb.Value_DamageClass{DamageClass: int32(v.Class)}}
	case core.ValuePass:
		return &pb.Value{Kind: &pb.Value_Pass{Pass: v.Pass}}
	case core.ValueWord:
		return &pb.Value{Kind: &pb.Value_Word{Word: sendable(v.Word)}}
	case core.ValueNotRead:
		return &pb.Value{Kind: &pb.Value_NotRead{NotRead: notReads.toWire(v.NotRead)}}
	}
	return nil
}

func valueFromWire(v *pb.Value) core.Value {
	switch k := v.GetKind().(type) {
	case *pb.Value_Quantity:
		q := core.Quantity{Value: k.Quantity.GetValue(), Unit: k.Quantity.GetUnit(), Bound: k.Quantity.GetBound()}
		return core.Value{Kind: core.ValueQuantity, Quantity: q}
	case *pb.Value_Count:
		return core.Value{Kind: core.ValueCount, Count: int(k.Count)}
	case *pb.Value_DamageClass:
		return core.Value{Kind: core.ValueClass, Class: int(k.DamageClass)}
	case *pb.Value_Pass:
		return core.Value{Kind: core.ValuePass, Pass: k.Pass}
	case *pb.Value_Word:
		return core.Value{Kind: core.ValueWord, Word: k.Word}
	case *pb.Value_NotRead:
		if n := notReads.fromWire(k.NotRead); n != "" {
			return core.Value{Kind: core.ValueNotRead, NotRead: n}
		}
	}
	return core.Value{}
}

func factToWire(f core.Fact) *pb.Fact {
	return &pb.Fact{Name: f.Name, Value: valueToWire(f.Value), Source: f.Source}
}

func factFromWire(f *pb.Fact) core.Fact {
	return core.Fact{Name: f.GetName(), Value: valueFromWire(f.GetValue()), Source: f.GetSource()}
}

func rangeToWire(r core.Range3) *pb.Range3 {
	if r == (core.Range3{}) {
		return nil
	}
	return &pb.Range3{Low: r.Low, Likely: r.Likely, High: r.High}
}

func rangeFromWire(r *pb.Range3) core.Range3 {
	return core.Range3{Low: r.GetLow(), Likely: r.GetLikely(), High: r.GetHigh()}
}

func moneyToWire(m core.Money3) *pb.Money3 {
	if m == (core.Money3{}) {
		return nil
	}
	return &pb.Money3{Low: m.Low, Likely: m.Likely, High: m.High, Currency: m.Currency}
}

func moneyFromWire(m *pb.Money3) core.Money3 {
	return core.Money3{Low: m.GetLow(), Likely: m.GetLikely(), High: m.GetHigh(), Currency: m.GetCurrency()}
}
