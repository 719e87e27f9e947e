package sdk

import (
	"fmt"
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

// hostsOwn are the fields that are never sent, and why. Every other field of every noun on the wire must survive.
var hostsOwn = map[string]string{
	"Brief.OriginalityOf": "each subsystem is asked with its own level",
	"Brief.Most":          "the host chooses",
	"Brief.WeekWorth":     "the host chooses",
	"Finding.Subsystem":   "the plugin is that subsystem",
	"Finding.Unit":        "said once, by the request",
	"Finding.By":          "a person's name is nobody else's business",
	"Finding.At":          "an answer may not hang on the clock",
	"Finding.Note":        "for people",
	"Finding.Supersedes":  "only live findings are sent",
	"Problem.Lacks":       "only the host prices",
	"Problem.Subsystem":   "the plugin is that subsystem",
	"Problem.Unit":        "the request's",
}

// source supplies values to fill core's nouns with.
type source interface {
	text() string
	number() float64
	whole() int
	yes() bool
	length() int
	pick(n int) int
}

// everything fills each field with another value that is not zero.
type everything struct{ n, picked int }

func (e *everything) next() int       { e.n++; return e.n }
func (e *everything) text() string    { return fmt.Sprintf("text %d", e.next()) }
func (e *everything) number() float64 { return float64(e.next()) + .25 }
func (e *everything) whole() int      { return e.next() }
func (e *everything) yes() bool       { return true }
func (e *everything) length() int     { return 7 }
func (e *everything) pick(n int) int  { e.picked++; return e.picked % n }

// anything draws values, zero ones among them.
type anything struct{ t *rapid.T }

func (a anything) text() string    { return rapid.String().Draw(a.t, "text") }
func (a anything) number() float64 { return rapid.Float64().Draw(a.t, "number") }
func (a anything) whole() int      { return int(rapid.Int32().Draw(a.t, "whole")) }
func (a anything) yes() bool       { return rapid.Bool().Draw(a.t, "yes") }
func (a anything) length() int     { return rapid.IntRange(0, 2).Draw(a.t, "length") }
func (a anything) pick(n int) int  { return rapid.IntRange(0, n-1).Draw(a.t, "pick") }

// fill fills a core noun by reflection, so that a field added to core is filled, and fails, without being told of here.
func fill(v reflect.Value, s source) {
	switch v.Addr().Interface().(type) {
	case *core.CheckKind:
		v.SetString(string(checkKinds[s.pick(len(checkKinds))].core))
		return
	case *core.RemedyKind:
		v.SetString(string(remedyKinds[s.pick(len(remedyKinds))].core))
		return
	case *core.Severity:
		v.SetString(string(severities[s.pick(len(severities))].core))
		return
	case *core.NotRead:
		v.SetString(string(notReads[s.pick(len(notReads))].core))
		return
	case *core.Grade:
		v.SetInt(int64(grades[s.pick(len(grades))].core))
		return
	case *time.Time:
		v.Set(reflect.ValueOf(time.Unix(int64(s.whole()), 0).UTC()))
		return
	case *core.Value:
		fillValue(v, s)
		return
	case *core.Money: // the host's own: none is sent
		v.Set(reflect.ValueOf(core.MinorMoney(int64(s.whole()), "USD")))
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(s.text())
	case reflect.Float64:
		v.SetFloat(s.number())
	case reflect.Int:
		v.SetInt(int64(s.whole()))
	case reflect.Bool:
		v.SetBool(s.yes())
	case reflect.Pointer:
		if s.yes() {
			v.Set(reflect.New(v.Type().Elem()))
			fill(v.Elem(), s)
		}
	case reflect.Slice:
		for range s.length() {
			e := reflect.New(v.Type().Elem()).Elem()
			fill(e, s)
			v.Set(reflect.Append(v, e))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), s)
		}
		if set, ok := v.Addr().Interface().(*core.Set); ok && s.pick(2) == 0 {
			set.AgreeOn = "" // one rule a set
		} else if ok {
			set.SameKind = false
		}
	default:
		panic("core has a kind of field the wire does not know: " + v.Type().String())
	}
}

// fillValue sets exactly one of a Value's fields, by its kind.
func fillValue(v reflect.Value, s source) {
	value := core.Value{Kind: core.ValueKind(1 + s.pick(int(core.ValueNotRead)))}
	field := map[core.ValueKind]string{
		core.ValueQuantity: "Quantity", core.ValueCount: "Count", core.ValueClass: "Class", core.ValuePass: "Pass",
		core.ValueWord: "Word", core.ValueNotRead: "NotRead",
	}[value.Kind]
	fill(reflect.ValueOf(&value).Elem().FieldByName(field), s)
	v.Set(reflect.ValueOf(value))
}

// clearHostsOwn zeroes the fields that are never sent.
func clearHostsOwn(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			clearHostsOwn(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			clearHostsOwn(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if _, own := hostsOwn[v.Type().Name()+"."+v.Type().Field(i).Name]; own {
				v.Field(i).SetZero()
			} else if v.Field(i).CanSet() {
				clearHostsOwn(v.Field(i))
			}
		}
	}
}

// overWire is what arrives of a noun at the other end.
func overWire[C any, W proto.Message](t require.TestingT, in C, toWire func(C) W, fromWire func(W) C, empty W) (C, W) {
	bytes, err := proto.Marshal(toWire(in))
	require.NoError(t, err)
	require.NoError(t, proto.Unmarshal(bytes, empty))
	return fromWire(empty), empty
}

type wireCase struct {
	sheet   core.Sheet
	request core.AssessRequest
	answer  core.Assessment
}

// requireLossless sends one of each noun over the wire and compares; it returns the messages.
func requireLossless(t require.TestingT, s source) []proto.Message {
	var c wireCase
	fill(reflect.ValueOf(&c.sheet).Elem(), s)
	fill(reflect.ValueOf(&c.request).Elem(), s)
	fill(reflect.ValueOf(&c.answer).Elem(), s)
	sheet, m1 := overWire(t, c.sheet, sheetToWire, sheetFromWire, &pb.Sheet{})
	request, m2 := overWire(t, c.request, requestToWire, requestFromWire, &pb.AssessRequest{})
	answer, m3 := overWire(t, c.answer, assessmentToWire, assessmentFromWire, &pb.AssessResponse{})
	for i := range request.Findings {
		require.Equal(t, c.request.Unit, request.Findings[i].Unit)
		request.Findings[i].Unit = ""
	}
	clearHostsOwn(reflect.ValueOf(&c.sheet))
	clearHostsOwn(reflect.ValueOf(&c.request))
	clearHostsOwn(reflect.ValueOf(&c.answer))
	require.Equal(t, c.sheet, sheet)
	require.Equal(t, c.request, request)
	require.Equal(t, c.answer, answer)
	return []proto.Message{m1, m2, m3}
}

func TestEveryFieldOfEveryNounSurvivesTheWire(t *testing.T) {
	seen := map[protoreflect.FullName]bool{}
	for _, m := range requireLossless(t, &everything{}) {
		noteFields(m.ProtoReflect(), seen)
	}
	messages := pb.File_fettle_subsystem_v1_subsystem_proto.Messages()
	for i := range messages.Len() {
		switch messages.Get(i).Name() {
		case "DescribeRequest", "DescribeResponse": // made by hand at the two ends, covered by the tests of serving
			continue
		}
		for j := range messages.Get(i).Fields().Len() {
			name := messages.Get(i).Fields().Get(j).FullName()
			require.True(t, seen[name], "%s is filled from nothing in core", name)
		}
	}
}

// noteFields notes every field that is set in m and below.
func noteFields(m protoreflect.Message, seen map[protoreflect.FullName]bool) {
	m.Range(func(f protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		seen[f.FullName()] = true
		if f.Kind() != protoreflect.MessageKind {
			return true
		}
		if !f.IsList() {
			noteFields(v.Message(), seen)
			return true
		}
		for i := range v.List().Len() {
			noteFields(v.List().Get(i).Message(), seen)
		}
		return true
	})
}

func TestAnyNounSurvivesTheWire(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { requireLossless(t, anything{t}) })
}

func TestEveryWordOfAnEnumHasItsNumber(t *testing.T) {
	requireWords(t, checkKinds, pb.CheckKind(0).Descriptor())
	requireWords(t, grades, pb.Grade(0).Descriptor())
	requireWords(t, remedyKinds, pb.RemedyKind(0).Descriptor())
	requireWords(t, notReads, pb.NotRead(0).Descriptor())
	requireWords(t, severities, pb.Severity(0).Descriptor())
	for g := core.WithinNew; g <= core.Failed; g++ {
		require.Equal(t, g, grades.fromWire(grades.toWire(g)))
	}
	for _, n := range core.NotReadWords {
		require.Equal(t, n, notReads.fromWire(notReads.toWire(n)))
	}
	require.Equal(t, core.GradeNone, grades.fromWire(77), "a number of a later version is unspecified here")
	require.Zero(t, remedyKinds.toWire(core.LeftAsIs), "left is the host's, never a plugin's")
}

func requireWords[C comparable, W ~int32](t *testing.T, table wireWords[C, W], enum protoreflect.EnumDescriptor) {
	t.Helper()
	require.Len(t, table, enum.Values().Len()-1, "%s", enum.FullName())
	for _, p := range table {
		require.NotZero(t, p.wire)
		require.Equal(t, p.core, table.fromWire(table.toWire(p.core)))
	}
}

func TestTextThatIsNoUTF8IsSentWithItsBadBytesReplaced(t *testing.T) {
	f := core.Finding{ID: "1", AsTyped: "24.9 \xb5m", Value: core.Value{Kind: core.ValueWord, Word: "\xff"}}
	back, _ := overWire(t, f, findingToWire, findingFromWire, &pb.Finding{})
	require.Equal(t, "24.9 \uFFFDm", back.AsTyped)
	require.Equal(t, "\uFFFD", back.Value.Word)
}
