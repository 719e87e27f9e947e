// The contract between fettle (the host) and a subsystem plugin.
//
// A plugin is a program that knows one subsystem of a vehicle: a gearbox, an
// engine's bottom end. It answers two calls. Describe gives the sheet: what the
// mechanic should look at, and against which limits. Assess is handed what was
// found on one unit and says, part by part, how it stands and what could be
// done. The plugin says what is wrong and what each cure takes; the host chooses
// among the cures and prices them. Nothing is called back.
//
// # Starting
//
// The host starts the program itself, without a shell, in a process group of its
// own, with /dev/null as standard input and with an environment that holds only:
//
//   FETTLE_PLUGIN             subsystem-v1 (a sign that the host started it; no secret)
//   PLUGIN_PROTOCOL_VERSIONS  the versions the host speaks, by commas; now "1"
//   PLUGIN_CLIENT_CERT        the host's certificate for this run, PEM
//   PLUGIN_UNIX_SOCKET_DIR    the folder for the plugin's socket, removed afterwards
//   PLUGIN_MIN_PORT, PLUGIN_MAX_PORT   for systems without Unix sockets
//
// The plugin listens on a Unix socket inside that folder (keep its path within
// 107 bytes) and then writes one line to standard output, and nothing before it:
//
//   1|1|unix|<path of the socket>|grpc|<certificate>
//
// which is: the handshake's version (1), this contract's version (1), network,
// address, protocol, and the plugin's own certificate as base64 of its DER form
// without padding. Anything printed earlier is taken for the handshake and fails
// the start. Later output on standard output or standard error goes to the shop's
// log, up to a cap. The host waits 8 seconds for the line unless told otherwise,
// and then calls Describe without facts: Sheet.subsystem must be the name that
// the host has pinned for this program.
//
// # Connection
//
// gRPC over mutual TLS. The plugin makes a key and a self-signed certificate at
// each start (subject alternative name "localhost"; usable for client and server
// and as its own authority), presents it, and accepts only a client that presents
// exactly the certificate in PLUGIN_CLIENT_CERT. The host accepts only the
// certificate named in the handshake line.
//
// Beside SubsystemService the plugin serves grpc.health.v1.Health, answering
// SERVING for the service "plugin"; plugin.GRPCController, whose Shutdown ends
// the program; and plugin.GRPCStdio, whose StreamStdio may stay silent or answer
// UNIMPLEMENTED. The two latter are those of github.com/hashicorp/go-plugin,
// which serves all of this for Go authors through core/sdk.
//
// # Confinement
//
// On Linux the host may take rights away before the plugin's own code runs. What is left: reading the program, its own
// folder (unless it shares the host's), its sheet and the system's libraries; writing in PLUGIN_UNIX_SOCKET_DIR; 1 GiB
// of memory. No network, no other files, no signals to other programs. The working folder is PLUGIN_UNIX_SOCKET_DIR.
//
// # Ending
//
// Shutdown asks the plugin to end; the host may end it without asking. Descriptor 3 is the reading end of a pipe that
// the host holds open while it lives: when reading it gives end of file, the host
// is gone and the plugin must end at once. A plugin that stays is killed with its
// process group. It may be killed at any time: it keeps nothing.
//
// # Calls
//
// Every call carries a deadline (10 seconds unless told otherwise); past it the
// plugin is killed and started afresh at the next call. Messages are bounded at
// 4 MiB both ways; raise the receiving limit of your library if it is lower.
// Several calls may run at the same time.
//
// A status other than OK means that the call itself failed and costs the whole
// subsystem: use INVALID_ARGUMENT where the request cannot be understood at all
// and INTERNAL where the plugin is at fault, with a short message for a person;
// one Problem in the status details may add what to do next. Bad data is never a
// status: it is a Problem in the answer, pinned to its finding.
//
// # Answers
//
// The same request gives the same answer, byte for byte: no clock, no chance, no
// order taken from a hash table, no file read but the plugin's own. Lists stand
// in the order of the sheet. Numbers are finite; money and hours are not
// negative; chances lie between 0 and 1 and those of a part's states sum to 1.
// Every finding handed in is named by a Reason or by a Problem. Every id used is
// declared: a part, position or check by the sheet, an operation or remedy by the
// answer or the sheet. No remedy requires itself. Every target of the sheet has a
// condition and a remedy that is open and not only pinned, and every state keeps at
// least one such remedy. A safety-critical part is never graded better than its own
// readings allow by the limits of the sheet for these facts and of the overrides: a
// plugin may move the limits of other parts while it judges, of these it may not. A
// finding named by a Problem of severity ERROR counts as not usable and binds no
// grade. The host checks all of this on every answer and refuses one that fails; it
// works out the no-reuse rules itself, and may close a remedy but never opens one.
//
// # Names
//
// Ids are lower case letters, digits and dashes, and stay the same between
// versions: shops keep findings under them. A position is "M1", "LF", or "" for
// a single part. Steps of the vehicle's strip plan carry public names, with the
// position after a slash where there are several ("hub-off/LF"); a plugin's own
// bench steps carry its name and a colon ("gearbox:case-open").
//
// Units are those of core: in, thou, ft, mm, um, cm, m, km, mile, g, kg, oz, lb,
// N, lbf, kgf, "N m", lbf-in, lbf-ft, kPa, bar, psi, inHg, lbf/in, N/mm, degC,
// degF, deg, turn, %, 1, V, A, V/100A, ohm, kohm, Mohm, SG, min, h, a (years),
// count, "class 0-3", pass/fail. Money is decimal text and an ISO 4217 code.
//
// # Change
//
// Within version 1 fields and enum values are only added; a reader ignores what
// it does not know, and treats an enum number it does not know as unspecified.
// Numbers 90 to 99 of every message are kept free for private trial and are never
// given a meaning here.

// Code generated by protoc-gen-go. DO NOT EDIT.
// versions:
// 	protoc-gen-go v1.36.12
// 	protoc        v3.21.12
// source: fettle/subsystem/v1/subsystem.proto

package subsystemv1

import (
	protoreflect "google.golang.org/protobuf/reflect/protoreflect"
	protoimpl "google.golang.org/protobuf/runtime/protoimpl"
	reflect "reflect"
	sync "sync"
	unsafe "unsafe"
)

const (
	// Verify that this generated code is sufficiently up-to-date.
	_ = protoimpl.EnforceVersion(20 - protoimpl.MinVersion)
	// Verify that runtime/protoimpl is sufficiently up-to-date.
	_ = protoimpl.EnforceVersion(protoimpl.MaxVersion - 20)
)

// CheckKind is how a check is answered.
type CheckKind int32

const (
	// Not stated: the answer is refused.
	CheckKind_CHECK_KIND_UNSPECIFIED CheckKind = 0
	// By a reading with a unit.
	CheckKind_CHECK_KIND_MEASURED CheckKind = 1
	// Worked out from stations or other checks by a formula; may also be typed as a reading.
	CheckKind_CHECK_KIND_DERIVED CheckKind = 2
	// By a whole number of pieces, teeth, cracks.
	CheckKind_CHECK_KIND_COUNTED CheckKind = 3
	// By a damage class: 0 none, 1 light, 2 repairable, 3 past repair.
	CheckKind_CHECK_KIND_JUDGED CheckKind = 4
	// By pass or fails.
	CheckKind_CHECK_KIND_GO_NO_GO CheckKind = 5
	// Not by looking at all: the part is always renewed.
	CheckKind_CHECK_KIND_ONE_USE CheckKind = 6
)

// Enum value maps for CheckKind.
var (
	CheckKind_name = map[int32]string{
		0: "CHECK_KIND_UNSPECIFIED",
		1: "CHECK_KIND_MEASURED",
		2: "CHECK_KIND_DERIVED",
		3: "CHECK_KIND_COUNTED",
		4: "CHECK_KIND_JUDGED",
		5: "CHECK_KIND_GO_NO_GO",
		6: "CHECK_KIND_ONE_USE",
	}
	CheckKind_value = map[string]int32{
		"CHECK_KIND_UNSPECIFIED": 0,
		"CHECK_KIND_MEASURED":    1,
		"CHECK_KIND_DERIVED":     2,
		"CHECK_KIND_COUNTED":     3,
		"CHECK_KIND_JUDGED":      4,
		"CHECK_KIND_GO_NO_GO":    5,
		"CHECK_KIND_ONE_USE":     6,
	}
)

func (x CheckKind) Enum() *CheckKind {
	p := new(CheckKind)
	*p = x
	return p
}

func (x CheckKind) String() string {
	return protoimpl.X.EnumStringOf(x.Descriptor(), protoreflect.EnumNumber(x))
}

func (CheckKind) Descriptor() protoreflect.EnumDescriptor {
	return file_fettle_subsystem_v1_subsystem_proto_enumTypes[0].Descriptor()
}

func (CheckKind) Type() protoreflect.EnumType {
	return &file_fettle_subsystem_v1_subsystem_proto_enumTypes[0]
}

func (x CheckKind) Number() protoreflect.EnumNumber {
	return protoreflect.EnumNumber(x)
}

// Deprecated: Use CheckKind.Descriptor instead.
func (CheckKind) EnumDescriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{0}
}

// Grade is how a part stands against its limits, w being its wear: 0 at the near edge of new, 1 at the limit.
type Grade int32

const (
	// Not stated: the answer is refused.
	Grade_GRADE_UNSPECIFIED Grade = 0
	// w is 0 or less.
	Grade_GRADE_WITHIN_NEW Grade = 1
	// w is over 0, at most one half.
	Grade_GRADE_WORN_FIT Grade = 2
	// w is over one half, at most 1.
	Grade_GRADE_NEAR_LIMIT Grade = 3
	// The chance of being past the limit is .95 or more.
	Grade_GRADE_PAST_LIMIT Grade = 4
	// Beyond new on the tight side.
	Grade_GRADE_TOO_TIGHT Grade = 5
	// A no-reuse rule holds, or a damage class is past the worst allowed.
	Grade_GRADE_FAILED Grade = 6
	// The true value may lie on either side of the limit, or the reading is better than new where that cannot be.
	Grade_GRADE_MEASURE_AGAIN Grade = 7
	// A reading needed for reuse is not there.
	Grade_GRADE_NOT_SEEN Grade = 8
	// The part is not there.
	Grade_GRADE_MISSING Grade = 9
)

// Enum value maps for Grade.
var (
	Grade_name = map[int32]string{
		0: "GRADE_UNSPECIFIED",
		1: "GRADE_WITHIN_NEW",
		2: "GRADE_WORN_FIT",
		3: "GRADE_NEAR_LIMIT",
		4: "GRADE_PAST_LIMIT",
		5: "GRADE_TOO_TIGHT",
		6: "GRADE_FAILED",
		7: "GRADE_MEASURE_AGAIN",
		8: "GRADE_NOT_SEEN",
		9: "GRADE_MISSING",
	}
	Grade_value = map[string]int32{
		"GRADE_UNSPECIFIED":   0,
		"GRADE_WITHIN_NEW":    1,
		"GRADE_WORN_FIT":      2,
		"GRADE_NEAR_LIMIT":    3,
		"GRADE_PAST_LIMIT":    4,
		"GRADE_TOO_TIGHT":     5,
		"GRADE_FAILED":        6,
		"GRADE_MEASURE_AGAIN": 7,
		"GRADE_NOT_SEEN":      8,
		"GRADE_MISSING":       9,
	}
)

func (x Grade) Enum() *Grade {
	p := new(Grade)
	*p = x
	return p
}

func (x Grade) String() string {
	return protoimpl.X.EnumStringOf(x.Descriptor(), protoreflect.EnumNumber(x))
}

func (Grade) Descriptor() protoreflect.EnumDescriptor {
	return file_fettle_subsystem_v1_subsystem_proto_enumTypes[1].Descriptor()
}

func (Grade) Type() protoreflect.EnumType {
	return &file_fettle_subsystem_v1_subsystem_proto_enumTypes[1]
}

func (x Grade) Number() protoreflect.EnumNumber {
	return protoreflect.EnumNumber(x)
}

// Deprecated: Use Grade.Descriptor instead.
func (Grade) EnumDescriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{1}
}

// RemedyKind is what becomes of a part. Leaving it as it is belongs to the host and is not offered here.
type RemedyKind int32

const (
	// Not stated: the answer is refused.
	RemedyKind_REMEDY_KIND_UNSPECIFIED RemedyKind = 0
	// Back as it is, cleaned and adjusted.
	RemedyKind_REMEDY_KIND_REUSE RemedyKind = 1
	// The part is worked on and goes back.
	RemedyKind_REMEDY_KIND_REBUILD RemedyKind = 2
	// Another part takes its place.
	RemedyKind_REMEDY_KIND_REPLACE RemedyKind = 3
)

// Enum value maps for RemedyKind.
var (
	RemedyKind_name = map[int32]string{
		0: "REMEDY_KIND_UNSPECIFIED",
		1: "REMEDY_KIND_REUSE",
		2: "REMEDY_KIND_REBUILD",
		3: "REMEDY_KIND_REPLACE",
	}
	RemedyKind_value = map[string]int32{
		"REMEDY_KIND_UNSPECIFIED": 0,
		"REMEDY_KIND_REUSE":       1,
		"REMEDY_KIND_REBUILD":     2,
		"REMEDY_KIND_REPLACE":     3,
	}
)

func (x RemedyKind) Enum() *RemedyKind {
	p := new(RemedyKind)
	*p = x
	return p
}

func (x RemedyKind) String() string {
	return protoimpl.X.EnumStringOf(x.Descriptor(), protoreflect.EnumNumber(x))
}

func (RemedyKind) Descriptor() protoreflect.EnumDescriptor {
	return file_fettle_subsystem_v1_subsystem_proto_enumTypes[2].Descriptor()
}

func (RemedyKind) Type() protoreflect.EnumType {
	return &file_fettle_subsystem_v1_subsystem_proto_enumTypes[2]
}

func (x RemedyKind) Number() protoreflect.EnumNumber {
	return protoreflect.EnumNumber(x)
}

// Deprecated: Use RemedyKind.Descriptor instead.
func (RemedyKind) EnumDescriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{2}
}

// NotRead is why there is no reading. It is an answer; a blank is not.
type NotRead int32

const (
	// Not stated; counts as no value at all.
	NotRead_NOT_READ_UNSPECIFIED NotRead = 0
	// Nobody has measured it yet.
	NotRead_NOT_READ_NOT_MEASURED NotRead = 1
	// It was tried and could not be reached.
	NotRead_NOT_READ_COULD_NOT_REACH NotRead = 2
	// The part is not there.
	NotRead_NOT_READ_PART_MISSING NotRead = 3
	// Looked at without an instrument.
	NotRead_NOT_READ_BY_EYE NotRead = 4
	// It came already apart: the reading can never be taken.
	NotRead_NOT_READ_LOST NotRead = 5
)

// Enum value maps for NotRead.
var (
	NotRead_name = map[int32]string{
		0: "NOT_READ_UNSPECIFIED",
		1: "NOT_READ_NOT_MEASURED",
		2: "NOT_READ_COULD_NOT_REACH",
		3: "NOT_READ_PART_MISSING",
		4: "NOT_READ_BY_EYE",
		5: "NOT_READ_LOST",
	}
	NotRead_value = map[string]int32{
		"NOT_READ_UNSPECIFIED":     0,
		"NOT_READ_NOT_MEASURED":    1,
		"NOT_READ_COULD_NOT_REACH": 2,
		"NOT_READ_PART_MISSING":    3,
		"NOT_READ_BY_EYE":          4,
		"NOT_READ_LOST":            5,
	}
)

func (x NotRead) Enum() *NotRead {
	p := new(NotRead)
	*p = x
	return p
}

func (x NotRead) String() string {
	return protoimpl.X.EnumStringOf(x.Descriptor(), protoreflect.EnumNumber(x))
}

func (NotRead) Descriptor() protoreflect.EnumDescriptor {
	return file_fettle_subsystem_v1_subsystem_proto_enumTypes[3].Descriptor()
}

func (NotRead) Type() protoreflect.EnumType {
	return &file_fettle_subsystem_v1_subsystem_proto_enumTypes[3]
}

func (x NotRead) Number() protoreflect.EnumNumber {
	return protoreflect.EnumNumber(x)
}

// Deprecated: Use NotRead.Descriptor instead.
func (NotRead) EnumDescriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{3}
}

// Severity of a Problem.
type Severity int32

const (
	// Not stated: the answer is refused.
	Severity_SEVERITY_UNSPECIFIED Severity = 0
	// The finding or fact could not be used.
	Severity_SEVERITY_ERROR Severity = 1
	// It was used, and deserves a second look.
	Severity_SEVERITY_WARNING Severity = 2
	// Good to know.
	Severity_SEVERITY_NOTE Severity = 3
)

// Enum value maps for Severity.
var (
	Severity_name = map[int32]string{
		0: "SEVERITY_UNSPECIFIED",
		1: "SEVERITY_ERROR",
		2: "SEVERITY_WARNING",
		3: "SEVERITY_NOTE",
	}
	Severity_value = map[string]int32{
		"SEVERITY_UNSPECIFIED": 0,
		"SEVERITY_ERROR":       1,
		"SEVERITY_WARNING":     2,
		"SEVERITY_NOTE":        3,
	}
)

func (x Severity) Enum() *Severity {
	p := new(Severity)
	*p = x
	return p
}

func (x Severity) String() string {
	return protoimpl.X.EnumStringOf(x.Descriptor(), protoreflect.EnumNumber(x))
}

func (Severity) Descriptor() protoreflect.EnumDescriptor {
	return file_fettle_subsystem_v1_subsystem_proto_enumTypes[4].Descriptor()
}

func (Severity) Type() protoreflect.EnumType {
	return &file_fettle_subsystem_v1_subsystem_proto_enumTypes[4]
}

func (x Severity) Number() protoreflect.EnumNumber {
	return protoreflect.EnumNumber(x)
}

// Deprecated: Use Severity.Descriptor instead.
func (Severity) EnumDescriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{4}
}

// Range3 is low, likely and high in the unit of the field that holds it, never falling, never negative.
type Range3 struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// What it is at best.
	Low float64 `protobuf:"fixed64,1,opt,name=low,proto3" json:"low,omitempty"`
	// What it mostly is.
	Likely float64 `protobuf:"fixed64,2,opt,name=likely,proto3" json:"likely,omitempty"`
	// What it is at worst.
	High          float64 `protobuf:"fixed64,3,opt,name=high,proto3" json:"high,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Range3) Reset() {
	*x = Range3{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[0]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Range3) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Range3) ProtoMessage() {}

func (x *Range3) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[0]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Range3.ProtoReflect.Descriptor instead.
func (*Range3) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{0}
}

func (x *Range3) GetLow() float64 {
	if x != nil {
		return x.Low
	}
	return 0
}

func (x *Range3) GetLikely() float64 {
	if x != nil {
		return x.Likely
	}
	return 0
}

func (x *Range3) GetHigh() float64 {
	if x != nil {
		return x.High
	}
	return 0
}

// Money3 is a three-point price. All empty: no price.
type Money3 struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Decimal text with a point, such as "12.50"; empty is taken as likely.
	Low string `protobuf:"bytes,1,opt,name=low,proto3" json:"low,omitempty"`
	// Decimal text; empty if there is no price.
	Likely string `protobuf:"bytes,2,opt,name=likely,proto3" json:"likely,omitempty"`
	// Decimal text; empty is taken as likely.
	High string `protobuf:"bytes,3,opt,name=high,proto3" json:"high,omitempty"`
	// ISO 4217 code, such as "USD".
	Currency      string `protobuf:"bytes,4,opt,name=currency,proto3" json:"currency,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Money3) Reset() {
	*x = Money3{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[1]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Money3) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Money3) ProtoMessage() {}

func (x *Money3) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[1]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Money3.ProtoReflect.Descriptor instead.
func (*Money3) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{1}
}

func (x *Money3) GetLow() string {
	if x != nil {
		return x.Low
	}
	return ""
}

func (x *Money3) GetLikely() string {
	if x != nil {
		return x.Likely
	}
	return ""
}

func (x *Money3) GetHigh() string {
	if x != nil {
		return x.High
	}
	return ""
}

func (x *Money3) GetCurrency() string {
	if x != nil {
		return x.Currency
	}
	return ""
}

// Quantity is a reading or a size.
type Quantity struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// The number, in unit.
	Value float64 `protobuf:"fixed64,1,opt,name=value,proto3" json:"value,omitempty"`
	// A unit of core, as typed or as the sheet states it.
	Unit string `protobuf:"bytes,2,opt,name=unit,proto3" json:"unit,omitempty"`
	// The instrument's plus or minus in the same unit: a bound, so that the standard uncertainty is bound / sqrt(3)
	// (JCGM 100, rectangular distribution). 0 if none is known. Filled by the host.
	Bound         float64 `protobuf:"fixed64,3,opt,name=bound,proto3" json:"bound,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Quantity) Reset() {
	*x = Quantity{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[2]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Quantity) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Quantity) ProtoMessage() {}

func (x *Quantity) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[2]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Quantity.ProtoReflect.Descriptor instead.
func (*Quantity) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{2}
}

func (x *Quantity) GetValue() float64 {
	if x != nil {
		return x.Value
	}
	return 0
}

func (x *Quantity) GetUnit() string {
	if x != nil {
		return x.Unit
	}
	return ""
}

func (x *Quantity) GetBound() float64 {
	if x != nil {
		return x.Bound
	}
	return 0
}

// Value is what a finding or a fact says. None set is no value, and never a pass.
type Value struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Exactly one of these.
	//
	// Types that are valid to be assigned to Kind:
	//
	//	*Value_Quantity
	//	*Value_Count
	//	*Value_DamageClass
	//	*Value_Pass
	//	*Value_Word
	//	*Value_NotRead
	Kind          isValue_Kind `protobuf_oneof:"kind"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Value) Reset() {
	*x = Value{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[3]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Value) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Value) ProtoMessage() {}

func (x *Value) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[3]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Value.ProtoReflect.Descriptor instead.
func (*Value) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{3}
}

func (x *Value) GetKind() isValue_Kind {
	if x != nil {
		return x.Kind
	}
	return nil
}

func (x *Value) GetQuantity() *Quantity {
	if x != nil {
		if x, ok := x.Kind.(*Value_Quantity); ok {
			return x.Quantity
		}
	}
	return nil
}

func (x *Value) GetCount() int64 {
	if x != nil {
		if x, ok := x.Kind.(*Value_Count); ok {
			return x.Count
		}
	}
	return 0
}

func (x *Value) GetDamageClass() int32 {
	if x != nil {
		if x, ok := x.Kind.(*Value_DamageClass); ok {
			return x.DamageClass
		}
	}
	return 0
}

func (x *Value) GetPass() bool {
	if x != nil {
		if x, ok := x.Kind.(*Value_Pass); ok {
			return x.Pass
		}
	}
	return false
}

func (x *Value) GetWord() string {
	if x != nil {
		if x, ok := x.Kind.(*Value_Word); ok {
			return x.Word
		}
	}
	return ""
}

func (x *Value) GetNotRead() NotRead {
	if x != nil {
		if x, ok := x.Kind.(*Value_NotRead); ok {
			return x.NotRead
		}
	}
	return NotRead_NOT_READ_UNSPECIFIED
}

type isValue_Kind interface {
	isValue_Kind()
}

type Value_Quantity struct {
	// A reading with its unit.
	Quantity *Quantity `protobuf:"bytes,1,opt,name=quantity,proto3,oneof"`
}

type Value_Count struct {
	// A whole number of things.
	Count int64 `protobuf:"varint,2,opt,name=count,proto3,oneof"`
}

type Value_DamageClass struct {
	// Damage class, 0 none to 3 past repair.
	DamageClass int32 `protobuf:"varint,3,opt,name=damage_class,json=damageClass,proto3,oneof"`
}

type Value_Pass struct {
	// True: pass. False: fails.
	Pass bool `protobuf:"varint,4,opt,name=pass,proto3,oneof"`
}

type Value_Word struct {
	// Free words, such as a make of steel.
	Word string `protobuf:"bytes,5,opt,name=word,proto3,oneof"`
}

type Value_NotRead struct {
	// Why there is no reading.
	NotRead NotRead `protobuf:"varint,6,opt,name=not_read,json=notRead,proto3,enum=fettle.subsystem.v1.NotRead,oneof"`
}

func (*Value_Quantity) isValue_Kind() {}

func (*Value_Count) isValue_Kind() {}

func (*Value_DamageClass) isValue_Kind() {}

func (*Value_Pass) isValue_Kind() {}

func (*Value_Word) isValue_Kind() {}

func (*Value_NotRead) isValue_Kind() {}

// Fact is something known of a unit, or worked out on the way to a grade.
type Fact struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Its name in the sheet's formulas, such as "D" or "mains".
	Name string `protobuf:"bytes,1,opt,name=name,proto3" json:"name,omitempty"`
	// What it is.
	Value *Value `protobuf:"bytes,2,opt,name=value,proto3" json:"value,omitempty"`
	// Where it comes from: a pack's manual page, a mark on the unit, a formula, the sheet's default.
	Source        string `protobuf:"bytes,3,opt,name=source,proto3" json:"source,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Fact) Reset() {
	*x = Fact{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[4]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Fact) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Fact) ProtoMessage() {}

func (x *Fact) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[4]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Fact.ProtoReflect.Descriptor instead.
func (*Fact) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{4}
}

func (x *Fact) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Fact) GetValue() *Value {
	if x != nil {
		return x.Value
	}
	return nil
}

func (x *Fact) GetSource() string {
	if x != nil {
		return x.Source
	}
	return ""
}

// Target is a part at one position.
type Target struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Part id of the sheet.
	Part string `protobuf:"bytes,1,opt,name=part,proto3" json:"part,omitempty"`
	// One of the part's positions; "" for a single part.
	Position      string `protobuf:"bytes,2,opt,name=position,proto3" json:"position,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Target) Reset() {
	*x = Target{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[5]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Target) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Target) ProtoMessage() {}

func (x *Target) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[5]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Target.ProtoReflect.Descriptor instead.
func (*Target) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{5}
}

func (x *Target) GetPart() string {
	if x != nil {
		return x.Part
	}
	return ""
}

func (x *Target) GetPosition() string {
	if x != nil {
		return x.Position
	}
	return ""
}

// RemedyRef names a remedy of a part of the same answer.
type RemedyRef struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Whose remedy.
	Target *Target `protobuf:"bytes,1,opt,name=target,proto3" json:"target,omitempty"`
	// Remedy id, unique within its target.
	Remedy        string `protobuf:"bytes,2,opt,name=remedy,proto3" json:"remedy,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *RemedyRef) Reset() {
	*x = RemedyRef{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[6]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *RemedyRef) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*RemedyRef) ProtoMessage() {}

func (x *RemedyRef) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[6]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use RemedyRef.ProtoReflect.Descriptor instead.
func (*RemedyRef) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{6}
}

func (x *RemedyRef) GetTarget() *Target {
	if x != nil {
		return x.Target
	}
	return nil
}

func (x *RemedyRef) GetRemedy() string {
	if x != nil {
		return x.Remedy
	}
	return ""
}

// Yield is something a remedy leaves behind that other parts must agree with: main-undersize = ".020".
type Yield struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Key, as in Set.agree_on.
	Key string `protobuf:"bytes,1,opt,name=key,proto3" json:"key,omitempty"`
	// Value, compared letter by letter.
	Value         string `protobuf:"bytes,2,opt,name=value,proto3" json:"value,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Yield) Reset() {
	*x = Yield{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[7]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Yield) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Yield) ProtoMessage() {}

func (x *Yield) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[7]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Yield.ProtoReflect.Descriptor instead.
func (*Yield) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{7}
}

func (x *Yield) GetKey() string {
	if x != nil {
		return x.Key
	}
	return ""
}

func (x *Yield) GetValue() string {
	if x != nil {
		return x.Value
	}
	return ""
}

// Reason is one sentence of why, with the ids behind it. Filled by the plugin.
type Reason struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// A sentence for the mechanic.
	Text string `protobuf:"bytes,1,opt,name=text,proto3" json:"text,omitempty"`
	// Ids of the findings it rests on, of this request only.
	FindingIds []string `protobuf:"bytes,2,rep,name=finding_ids,json=findingIds,proto3" json:"finding_ids,omitempty"`
	// Check id, if it speaks of one.
	Check string `protobuf:"bytes,3,opt,name=check,proto3" json:"check,omitempty"`
	// Rule id, such as a no-reuse rule's, if one decided.
	Rule string `protobuf:"bytes,4,opt,name=rule,proto3" json:"rule,omitempty"`
	// Where the limit or the rule comes from.
	Source        string `protobuf:"bytes,5,opt,name=source,proto3" json:"source,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Reason) Reset() {
	*x = Reason{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[8]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Reason) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Reason) ProtoMessage() {}

func (x *Reason) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[8]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Reason.ProtoReflect.Descriptor instead.
func (*Reason) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{8}
}

func (x *Reason) GetText() string {
	if x != nil {
		return x.Text
	}
	return ""
}

func (x *Reason) GetFindingIds() []string {
	if x != nil {
		return x.FindingIds
	}
	return nil
}

func (x *Reason) GetCheck() string {
	if x != nil {
		return x.Check
	}
	return ""
}

func (x *Reason) GetRule() string {
	if x != nil {
		return x.Rule
	}
	return ""
}

func (x *Reason) GetSource() string {
	if x != nil {
		return x.Source
	}
	return ""
}

// Limit is what a reading is judged against. A bound that is not there is not set; no bound at all means that the
// check's limit hangs on a fact that is not known, or that its kind needs none (go / no-go, one-use).
type Limit struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Lower edge of new, in unit.
	NewLow *float64 `protobuf:"fixed64,1,opt,name=new_low,json=newLow,proto3,oneof" json:"new_low,omitempty"`
	// Upper edge of new, in unit.
	NewHigh *float64 `protobuf:"fixed64,2,opt,name=new_high,json=newHigh,proto3,oneof" json:"new_high,omitempty"`
	// Under it: past limit. In unit.
	WearLow *float64 `protobuf:"fixed64,3,opt,name=wear_low,json=wearLow,proto3,oneof" json:"wear_low,omitempty"`
	// Over it: past limit. In unit.
	WearHigh *float64 `protobuf:"fixed64,4,opt,name=wear_high,json=wearHigh,proto3,oneof" json:"wear_high,omitempty"`
	// Worst damage class that may still be used, 0 to 3.
	WorstClass *int32 `protobuf:"varint,5,opt,name=worst_class,json=worstClass,proto3,oneof" json:"worst_class,omitempty"`
	// Unit of the four bounds.
	Unit string `protobuf:"bytes,6,opt,name=unit,proto3" json:"unit,omitempty"`
	// Where it comes from: a published source, a pack's manual page, or "common practice, no source". Never empty.
	Source string `protobuf:"bytes,7,opt,name=source,proto3" json:"source,omitempty"`
	// high, medium or low: how far the source may be trusted.
	Confidence string `protobuf:"bytes,8,opt,name=confidence,proto3" json:"confidence,omitempty"`
	// Who set it: sheet, vehicle, unit or job. A plugin writes "sheet"; the others come in as overrides.
	Origin        string `protobuf:"bytes,9,opt,name=origin,proto3" json:"origin,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Limit) Reset() {
	*x = Limit{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[9]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Limit) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Limit) ProtoMessage() {}

func (x *Limit) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[9]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Limit.ProtoReflect.Descriptor instead.
func (*Limit) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{9}
}

func (x *Limit) GetNewLow() float64 {
	if x != nil && x.NewLow != nil {
		return *x.NewLow
	}
	return 0
}

func (x *Limit) GetNewHigh() float64 {
	if x != nil && x.NewHigh != nil {
		return *x.NewHigh
	}
	return 0
}

func (x *Limit) GetWearLow() float64 {
	if x != nil && x.WearLow != nil {
		return *x.WearLow
	}
	return 0
}

func (x *Limit) GetWearHigh() float64 {
	if x != nil && x.WearHigh != nil {
		return *x.WearHigh
	}
	return 0
}

func (x *Limit) GetWorstClass() int32 {
	if x != nil && x.WorstClass != nil {
		return *x.WorstClass
	}
	return 0
}

func (x *Limit) GetUnit() string {
	if x != nil {
		return x.Unit
	}
	return ""
}

func (x *Limit) GetSource() string {
	if x != nil {
		return x.Source
	}
	return ""
}

func (x *Limit) GetConfidence() string {
	if x != nil {
		return x.Confidence
	}
	return ""
}

func (x *Limit) GetOrigin() string {
	if x != nil {
		return x.Origin
	}
	return ""
}

// Check is one question about a part. Filled by the plugin.
type Check struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Unique within the part.
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// In the words of the trade.
	Name string `protobuf:"bytes,2,opt,name=name,proto3" json:"name,omitempty"`
	// How it is answered.
	Kind CheckKind `protobuf:"varint,3,opt,name=kind,proto3,enum=fettle.subsystem.v1.CheckKind" json:"kind,omitempty"`
	// Unit in which it is asked and judged.
	Unit string `protobuf:"bytes,4,opt,name=unit,proto3" json:"unit,omitempty"`
	// Places at which it is read, all of them needed, graded by the worst; empty: one reading.
	Stations []string `protobuf:"bytes,5,rep,name=stations,proto3" json:"stations,omitempty"`
	// How to do it, in a sentence or two a helper could follow.
	How string `protobuf:"bytes,6,opt,name=how,proto3" json:"how,omitempty"`
	// What to read it with.
	Instrument string `protobuf:"bytes,7,opt,name=instrument,proto3" json:"instrument,omitempty"`
	// What it is judged against.
	Limit *Limit `protobuf:"bytes,8,opt,name=limit,proto3" json:"limit,omitempty"`
	// True: beyond new on the side without a wear limit is too tight; false: there it is "measure again".
	TwoSided bool `protobuf:"varint,9,opt,name=two_sided,json=twoSided,proto3" json:"two_sided,omitempty"`
	// True: can only be read before the unit comes apart.
	BeforeStrip bool `protobuf:"varint,10,opt,name=before_strip,json=beforeStrip,proto3" json:"before_strip,omitempty"`
	// True: without it the part counts as not seen.
	NeededForReuse bool `protobuf:"varint,11,opt,name=needed_for_reuse,json=neededForReuse,proto3" json:"needed_for_reuse,omitempty"`
	// Minutes of one person for the whole check; 0: the host's default for its kind.
	Minutes float64 `protobuf:"fixed64,12,opt,name=minutes,proto3" json:"minutes,omitempty"`
	// Smallest reading that can be true, in unit: a bare number outside the range is asked back.
	PlausibleLow *float64 `protobuf:"fixed64,13,opt,name=plausible_low,json=plausibleLow,proto3,oneof" json:"plausible_low,omitempty"`
	// Largest reading that can be true, in unit.
	PlausibleHigh *float64 `protobuf:"fixed64,14,opt,name=plausible_high,json=plausibleHigh,proto3,oneof" json:"plausible_high,omitempty"`
	// CEL, for derived checks; shown, never run by the host.
	Formula string `protobuf:"bytes,15,opt,name=formula,proto3" json:"formula,omitempty"`
	// For counted checks: how many there are when all are fitted; 0: not stated.
	CountWhenFitted float64 `protobuf:"fixed64,16,opt,name=count_when_fitted,json=countWhenFitted,proto3" json:"count_when_fitted,omitempty"`
	unknownFields   protoimpl.UnknownFields
	sizeCache       protoimpl.SizeCache
}

func (x *Check) Reset() {
	*x = Check{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[10]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Check) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Check) ProtoMessage() {}

func (x *Check) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[10]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Check.ProtoReflect.Descriptor instead.
func (*Check) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{10}
}

func (x *Check) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *Check) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Check) GetKind() CheckKind {
	if x != nil {
		return x.Kind
	}
	return CheckKind_CHECK_KIND_UNSPECIFIED
}

func (x *Check) GetUnit() string {
	if x != nil {
		return x.Unit
	}
	return ""
}

func (x *Check) GetStations() []string {
	if x != nil {
		return x.Stations
	}
	return nil
}

func (x *Check) GetHow() string {
	if x != nil {
		return x.How
	}
	return ""
}

func (x *Check) GetInstrument() string {
	if x != nil {
		return x.Instrument
	}
	return ""
}

func (x *Check) GetLimit() *Limit {
	if x != nil {
		return x.Limit
	}
	return nil
}

func (x *Check) GetTwoSided() bool {
	if x != nil {
		return x.TwoSided
	}
	return false
}

func (x *Check) GetBeforeStrip() bool {
	if x != nil {
		return x.BeforeStrip
	}
	return false
}

func (x *Check) GetNeededForReuse() bool {
	if x != nil {
		return x.NeededForReuse
	}
	return false
}

func (x *Check) GetMinutes() float64 {
	if x != nil {
		return x.Minutes
	}
	return 0
}

func (x *Check) GetPlausibleLow() float64 {
	if x != nil && x.PlausibleLow != nil {
		return *x.PlausibleLow
	}
	return 0
}

func (x *Check) GetPlausibleHigh() float64 {
	if x != nil && x.PlausibleHigh != nil {
		return *x.PlausibleHigh
	}
	return 0
}

func (x *Check) GetFormula() string {
	if x != nil {
		return x.Formula
	}
	return ""
}

func (x *Check) GetCountWhenFitted() float64 {
	if x != nil {
		return x.CountWhenFitted
	}
	return 0
}

// Life is how long a part mostly lasts. Filled by the plugin.
type Life struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Median distance or time, over 0, in unit.
	Typical float64 `protobuf:"fixed64,1,opt,name=typical,proto3" json:"typical,omitempty"`
	// km, or a for years (rubber, tyres and linings age).
	Unit string `protobuf:"bytes,2,opt,name=unit,proto3" json:"unit,omitempty"`
	// Standard deviation of its natural logarithm.
	Sigma float64 `protobuf:"fixed64,3,opt,name=sigma,proto3" json:"sigma,omitempty"`
	// Where it comes from.
	Source        string `protobuf:"bytes,4,opt,name=source,proto3" json:"source,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Life) Reset() {
	*x = Life{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[11]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Life) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Life) ProtoMessage() {}

func (x *Life) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[11]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Life.ProtoReflect.Descriptor instead.
func (*Life) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{11}
}

func (x *Life) GetTypical() float64 {
	if x != nil {
		return x.Typical
	}
	return 0
}

func (x *Life) GetUnit() string {
	if x != nil {
		return x.Unit
	}
	return ""
}

func (x *Life) GetSigma() float64 {
	if x != nil {
		return x.Sigma
	}
	return 0
}

func (x *Life) GetSource() string {
	if x != nil {
		return x.Source
	}
	return ""
}

// State is one thing a part may turn out to be. A part that was seen has one.
type State struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// 0 to 1; the states of a part sum to 1.
	Chance float64 `protobuf:"fixed64,1,opt,name=chance,proto3" json:"chance,omitempty"`
	// Its grade, if it turns out so.
	Grade Grade `protobuf:"varint,2,opt,name=grade,proto3,enum=fettle.subsystem.v1.Grade" json:"grade,omitempty"`
	// Ids of the part's remedies that are then open; never empty in an answer.
	Remedies []string `protobuf:"bytes,3,rep,name=remedies,proto3" json:"remedies,omitempty"`
	// The row of the register (Hidden.id) whose chance this is; "" if none.
	RegisterId    string `protobuf:"bytes,4,opt,name=register_id,json=registerId,proto3" json:"register_id,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *State) Reset() {
	*x = State{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[12]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *State) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*State) ProtoMessage() {}

func (x *State) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[12]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use State.ProtoReflect.Descriptor instead.
func (*State) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{12}
}

func (x *State) GetChance() float64 {
	if x != nil {
		return x.Chance
	}
	return 0
}

func (x *State) GetGrade() Grade {
	if x != nil {
		return x.Grade
	}
	return Grade_GRADE_UNSPECIFIED
}

func (x *State) GetRemedies() []string {
	if x != nil {
		return x.Remedies
	}
	return nil
}

func (x *State) GetRegisterId() string {
	if x != nil {
		return x.RegisterId
	}
	return ""
}

// Part is one kind of part at each of its positions. Filled by the plugin.
type Part struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Unique in the sheet.
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// In the words of the trade.
	Name string `protobuf:"bytes,2,opt,name=name,proto3" json:"name,omitempty"`
	// Its positions, such as M1, M2, M3; empty: a single part.
	Positions []string `protobuf:"bytes,3,rep,name=positions,proto3" json:"positions,omitempty"`
	// Pieces at each position, 1 or more.
	Count int32 `protobuf:"varint,4,opt,name=count,proto3" json:"count,omitempty"`
	// True: its loss takes steering, braking, a wheel or a spring mount, starts a fire, or a no-reuse rule names it.
	SafetyCritical bool `protobuf:"varint,5,opt,name=safety_critical,json=safetyCritical,proto3" json:"safety_critical,omitempty"`
	// True: always renewed.
	OneUse bool `protobuf:"varint,6,opt,name=one_use,json=oneUse,proto3" json:"one_use,omitempty"`
	// What to look at.
	Checks []*Check `protobuf:"bytes,7,rep,name=checks,proto3" json:"checks,omitempty"`
	// Steps that must be open to get at it; "{position}" stands for the position.
	Reach []string `protobuf:"bytes,8,rep,name=reach,proto3" json:"reach,omitempty"`
	// How long it lasts; not set: judged by grade alone.
	Life *Life `protobuf:"bytes,9,opt,name=life,proto3" json:"life,omitempty"`
	// What it may turn out to be before anything of it is seen.
	Outlook       []*State `protobuf:"bytes,10,rep,name=outlook,proto3" json:"outlook,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Part) Reset() {
	*x = Part{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[13]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Part) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Part) ProtoMessage() {}

func (x *Part) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[13]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Part.ProtoReflect.Descriptor instead.
func (*Part) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{13}
}

func (x *Part) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *Part) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Part) GetPositions() []string {
	if x != nil {
		return x.Positions
	}
	return nil
}

func (x *Part) GetCount() int32 {
	if x != nil {
		return x.Count
	}
	return 0
}

func (x *Part) GetSafetyCritical() bool {
	if x != nil {
		return x.SafetyCritical
	}
	return false
}

func (x *Part) GetOneUse() bool {
	if x != nil {
		return x.OneUse
	}
	return false
}

func (x *Part) GetChecks() []*Check {
	if x != nil {
		return x.Checks
	}
	return nil
}

func (x *Part) GetReach() []string {
	if x != nil {
		return x.Reach
	}
	return nil
}

func (x *Part) GetLife() *Life {
	if x != nil {
		return x.Life
	}
	return nil
}

func (x *Part) GetOutlook() []*State {
	if x != nil {
		return x.Outlook
	}
	return nil
}

// AnyOf is a clause of steps of which at least one is needed.
type AnyOf struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Step names.
	Steps         []string `protobuf:"bytes,1,rep,name=steps,proto3" json:"steps,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *AnyOf) Reset() {
	*x = AnyOf{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[14]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *AnyOf) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*AnyOf) ProtoMessage() {}

func (x *AnyOf) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[14]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use AnyOf.ProtoReflect.Descriptor instead.
func (*AnyOf) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{14}
}

func (x *AnyOf) GetSteps() []string {
	if x != nil {
		return x.Steps
	}
	return nil
}

// Step is one step of coming apart and going back together: here, a bench step of the plugin's own.
type Step struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Name, the subsystem's name and a colon first.
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// In the words of the trade.
	Name string `protobuf:"bytes,2,opt,name=name,proto3" json:"name,omitempty"`
	// Man-hours to open.
	StripHours *Range3 `protobuf:"bytes,3,opt,name=strip_hours,json=stripHours,proto3" json:"strip_hours,omitempty"`
	// Man-hours to close; all zero: opening times 1.2, 1.35, 1.5.
	RefitHours *Range3 `protobuf:"bytes,4,opt,name=refit_hours,json=refitHours,proto3" json:"refit_hours,omitempty"`
	// Hands needed at once; 0 means 1.
	People int32 `protobuf:"varint,5,opt,name=people,proto3" json:"people,omitempty"`
	// Whose hour it is; "" means mechanic.
	Skill string `protobuf:"bytes,6,opt,name=skill,proto3" json:"skill,omitempty"`
	// Steps that must be open first.
	AllOf []string `protobuf:"bytes,7,rep,name=all_of,json=allOf,proto3" json:"all_of,omitempty"`
	// Of each clause, at least one must be open first.
	AnyOf []*AnyOf `protobuf:"bytes,8,rep,name=any_of,json=anyOf,proto3" json:"any_of,omitempty"`
	// Readings that can no longer be taken afterwards: "subsystem/part/check".
	Destroys []string `protobuf:"bytes,9,rep,name=destroys,proto3" json:"destroys,omitempty"`
	// What closing it again uses up.
	OneUse []*Item `protobuf:"bytes,10,rep,name=one_use,json=oneUse,proto3" json:"one_use,omitempty"`
	// Warnings to show beside it.
	Cautions []*Caution `protobuf:"bytes,11,rep,name=cautions,proto3" json:"cautions,omitempty"`
	// "vehicle", or the unit kind whose bench work it is; "" is taken as the sheet's unit kind.
	Scope string `protobuf:"bytes,12,opt,name=scope,proto3" json:"scope,omitempty"`
	// Open when a vehicle goes to the bare frame; used by strip plans only.
	BareFrame bool `protobuf:"varint,13,opt,name=bare_frame,json=bareFrame,proto3" json:"bare_frame,omitempty"`
	// What a person must confirm before it is offered; "" if nothing.
	ConfirmHelp string `protobuf:"bytes,14,opt,name=confirm_help,json=confirmHelp,proto3" json:"confirm_help,omitempty"`
	// Key of the weight that is lifted, in the vehicle's pack; "" if none.
	Load string `protobuf:"bytes,15,opt,name=load,proto3" json:"load,omitempty"`
	// True: nothing is put back, and zero refit_hours are meant so.
	NoRefit       bool `protobuf:"varint,16,opt,name=no_refit,json=noRefit,proto3" json:"no_refit,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Step) Reset() {
	*x = Step{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[15]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Step) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Step) ProtoMessage() {}

func (x *Step) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[15]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Step.ProtoReflect.Descriptor instead.
func (*Step) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{15}
}

func (x *Step) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *Step) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Step) GetStripHours() *Range3 {
	if x != nil {
		return x.StripHours
	}
	return nil
}

func (x *Step) GetRefitHours() *Range3 {
	if x != nil {
		return x.RefitHours
	}
	return nil
}

func (x *Step) GetPeople() int32 {
	if x != nil {
		return x.People
	}
	return 0
}

func (x *Step) GetSkill() string {
	if x != nil {
		return x.Skill
	}
	return ""
}

func (x *Step) GetAllOf() []string {
	if x != nil {
		return x.AllOf
	}
	return nil
}

func (x *Step) GetAnyOf() []*AnyOf {
	if x != nil {
		return x.AnyOf
	}
	return nil
}

func (x *Step) GetDestroys() []string {
	if x != nil {
		return x.Destroys
	}
	return nil
}

func (x *Step) GetOneUse() []*Item {
	if x != nil {
		return x.OneUse
	}
	return nil
}

func (x *Step) GetCautions() []*Caution {
	if x != nil {
		return x.Cautions
	}
	return nil
}

func (x *Step) GetScope() string {
	if x != nil {
		return x.Scope
	}
	return ""
}

func (x *Step) GetBareFrame() bool {
	if x != nil {
		return x.BareFrame
	}
	return false
}

func (x *Step) GetConfirmHelp() string {
	if x != nil {
		return x.ConfirmHelp
	}
	return ""
}

func (x *Step) GetLoad() string {
	if x != nil {
		return x.Load
	}
	return ""
}

func (x *Step) GetNoRefit() bool {
	if x != nil {
		return x.NoRefit
	}
	return false
}

// Set binds parts that may only be used together. Filled by the plugin.
type Set struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Unique in the sheet.
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// In the words of the trade.
	Name string `protobuf:"bytes,2,opt,name=name,proto3" json:"name,omitempty"`
	// Parts bound by it, each at a position.
	Members []*Target `protobuf:"bytes,3,rep,name=members,proto3" json:"members,omitempty"`
	// What binds them.
	//
	// Types that are valid to be assigned to Rule:
	//
	//	*Set_SameKind
	//	*Set_AgreeOn
	Rule isSet_Rule `protobuf_oneof:"rule"`
	// True: nothing is ordered for it before every member has been read.
	CompleteBeforeOrder bool `protobuf:"varint,6,opt,name=complete_before_order,json=completeBeforeOrder,proto3" json:"complete_before_order,omitempty"`
	unknownFields       protoimpl.UnknownFields
	sizeCache           protoimpl.SizeCache
}

func (x *Set) Reset() {
	*x = Set{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[16]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Set) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Set) ProtoMessage() {}

func (x *Set) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[16]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Set.ProtoReflect.Descriptor instead.
func (*Set) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{16}
}

func (x *Set) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *Set) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Set) GetMembers() []*Target {
	if x != nil {
		return x.Members
	}
	return nil
}

func (x *Set) GetRule() isSet_Rule {
	if x != nil {
		return x.Rule
	}
	return nil
}

func (x *Set) GetSameKind() bool {
	if x != nil {
		if x, ok := x.Rule.(*Set_SameKind); ok {
			return x.SameKind
		}
	}
	return false
}

func (x *Set) GetAgreeOn() string {
	if x != nil {
		if x, ok := x.Rule.(*Set_AgreeOn); ok {
			return x.AgreeOn
		}
	}
	return ""
}

func (x *Set) GetCompleteBeforeOrder() bool {
	if x != nil {
		return x.CompleteBeforeOrder
	}
	return false
}

type isSet_Rule interface {
	isSet_Rule()
}

type Set_SameKind struct {
	// All take the same kind of remedy.
	SameKind bool `protobuf:"varint,4,opt,name=same_kind,json=sameKind,proto3,oneof"`
}

type Set_AgreeOn struct {
	// All agree on the value of this yielded key.
	AgreeOn string `protobuf:"bytes,5,opt,name=agree_on,json=agreeOn,proto3,oneof"`
}

func (*Set_SameKind) isSet_Rule() {}

func (*Set_AgreeOn) isSet_Rule() {}

// NoReuse is a rule that nobody can override. The host works it out itself.
type NoReuse struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Unique in the sheet.
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// Part it speaks of.
	Part string `protobuf:"bytes,2,opt,name=part,proto3" json:"part,omitempty"`
	// Check of that part; "" means any of its checks.
	Check string `protobuf:"bytes,3,opt,name=check,proto3" json:"check,omitempty"`
	// This value or worse: pass false; a damage class or more; a count or more; not_read PART_MISSING; the word
	// "past limit" for a reading past its limit.
	Trigger *Value `protobuf:"bytes,4,opt,name=trigger,proto3" json:"trigger,omitempty"`
	// What may still be done.
	Allowed []RemedyKind `protobuf:"varint,5,rep,packed,name=allowed,proto3,enum=fettle.subsystem.v1.RemedyKind" json:"allowed,omitempty"`
	// Where the rule comes from. Never empty.
	Source        string `protobuf:"bytes,6,opt,name=source,proto3" json:"source,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *NoReuse) Reset() {
	*x = NoReuse{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[17]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *NoReuse) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*NoReuse) ProtoMessage() {}

func (x *NoReuse) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[17]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use NoReuse.ProtoReflect.Descriptor instead.
func (*NoReuse) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{17}
}

func (x *NoReuse) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *NoReuse) GetPart() string {
	if x != nil {
		return x.Part
	}
	return ""
}

func (x *NoReuse) GetCheck() string {
	if x != nil {
		return x.Check
	}
	return ""
}

func (x *NoReuse) GetTrigger() *Value {
	if x != nil {
		return x.Trigger
	}
	return nil
}

func (x *NoReuse) GetAllowed() []RemedyKind {
	if x != nil {
		return x.Allowed
	}
	return nil
}

func (x *NoReuse) GetSource() string {
	if x != nil {
		return x.Source
	}
	return ""
}

// Hidden is one row of the register of damage that is usually found late. Filled by the plugin.
type Hidden struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Unique in the sheet.
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// What turns up.
	Name string `protobuf:"bytes,2,opt,name=name,proto3" json:"name,omitempty"`
	// 0 to 1, before history and before what this job has shown: the host applies both.
	Chance float64 `protobuf:"fixed64,3,opt,name=chance,proto3" json:"chance,omitempty"`
	// Parts it speaks of: it is then their chance of being past limit.
	Parts []*Target `protobuf:"bytes,4,rep,name=parts,proto3" json:"parts,omitempty"`
	// What it raises where it speaks of no part.
	Operations []string `protobuf:"bytes,5,rep,name=operations,proto3" json:"operations,omitempty"`
	// How often those are paid; 0 means once.
	Times float64 `protobuf:"fixed64,6,opt,name=times,proto3" json:"times,omitempty"`
	// What in the vehicle's history moves the chance: "water", "good-oil".
	HistoryKeys   []string `protobuf:"bytes,7,rep,name=history_keys,json=historyKeys,proto3" json:"history_keys,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Hidden) Reset() {
	*x = Hidden{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[18]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Hidden) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Hidden) ProtoMessage() {}

func (x *Hidden) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[18]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Hidden.ProtoReflect.Descriptor instead.
func (*Hidden) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{18}
}

func (x *Hidden) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *Hidden) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Hidden) GetChance() float64 {
	if x != nil {
		return x.Chance
	}
	return 0
}

func (x *Hidden) GetParts() []*Target {
	if x != nil {
		return x.Parts
	}
	return nil
}

func (x *Hidden) GetOperations() []string {
	if x != nil {
		return x.Operations
	}
	return nil
}

func (x *Hidden) GetTimes() float64 {
	if x != nil {
		return x.Times
	}
	return 0
}

func (x *Hidden) GetHistoryKeys() []string {
	if x != nil {
		return x.HistoryKeys
	}
	return nil
}

// Caution is a usual warning. Filled by the plugin.
type Caution struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// The warning, for the mechanic.
	Text string `protobuf:"bytes,1,opt,name=text,proto3" json:"text,omitempty"`
	// Part beside which it is shown; "" if it belongs to a step or to all.
	Part string `protobuf:"bytes,2,opt,name=part,proto3" json:"part,omitempty"`
	// Step beside which it is shown; "" likewise.
	Step string `protobuf:"bytes,3,opt,name=step,proto3" json:"step,omitempty"`
	// Where it comes from.
	Source        string `protobuf:"bytes,4,opt,name=source,proto3" json:"source,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Caution) Reset() {
	*x = Caution{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[19]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Caution) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Caution) ProtoMessage() {}

func (x *Caution) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[19]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Caution.ProtoReflect.Descriptor instead.
func (*Caution) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{19}
}

func (x *Caution) GetText() string {
	if x != nil {
		return x.Text
	}
	return ""
}

func (x *Caution) GetPart() string {
	if x != nil {
		return x.Part
	}
	return ""
}

func (x *Caution) GetStep() string {
	if x != nil {
		return x.Step
	}
	return ""
}

func (x *Caution) GetSource() string {
	if x != nil {
		return x.Source
	}
	return ""
}

// Item is something bought, or taken from the shelf, for an operation. Filled by the plugin.
type Item struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Joins it to the shop's price book.
	Key string `protobuf:"bytes,1,opt,name=key,proto3" json:"key,omitempty"`
	// As it would be asked for at a counter.
	Name string `protobuf:"bytes,2,opt,name=name,proto3" json:"name,omitempty"`
	// How many, 0 or more; need not be whole (litres, metres).
	Count float64 `protobuf:"fixed64,3,opt,name=count,proto3" json:"count,omitempty"`
	// What one mostly costs; the price book goes first.
	TypicalEach *Money3 `protobuf:"bytes,4,opt,name=typical_each,json=typicalEach,proto3" json:"typical_each,omitempty"`
	// True: used up even when the rest is reused.
	OneUse bool `protobuf:"varint,5,opt,name=one_use,json=oneUse,proto3" json:"one_use,omitempty"`
	// Class for tax, such as parts; "" means parts.
	TaxClass      string `protobuf:"bytes,6,opt,name=tax_class,json=taxClass,proto3" json:"tax_class,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Item) Reset() {
	*x = Item{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[20]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Item) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Item) ProtoMessage() {}

func (x *Item) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[20]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Item.ProtoReflect.Descriptor instead.
func (*Item) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{20}
}

func (x *Item) GetKey() string {
	if x != nil {
		return x.Key
	}
	return ""
}

func (x *Item) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Item) GetCount() float64 {
	if x != nil {
		return x.Count
	}
	return 0
}

func (x *Item) GetTypicalEach() *Money3 {
	if x != nil {
		return x.TypicalEach
	}
	return nil
}

func (x *Item) GetOneUse() bool {
	if x != nil {
		return x.OneUse
	}
	return false
}

func (x *Item) GetTaxClass() string {
	if x != nil {
		return x.TaxClass
	}
	return ""
}

// Operation is work paid once a job, however many remedies name it. Filled by the plugin.
type Operation struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Unique in its list. An answer instances it for the pieces it serves: "drum-turn/front".
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// For the work order.
	Name string `protobuf:"bytes,2,opt,name=name,proto3" json:"name,omitempty"`
	// Whose hour it is, such as mechanic.
	Skill string `protobuf:"bytes,3,opt,name=skill,proto3" json:"skill,omitempty"`
	// Man-hours on the bench.
	Hours *Range3 `protobuf:"bytes,4,opt,name=hours,proto3" json:"hours,omitempty"`
	// What it uses.
	Items []*Item `protobuf:"bytes,5,rep,name=items,proto3" json:"items,omitempty"`
	// What an outworker mostly charges; empty if it is done here.
	Outwork *Money3 `protobuf:"bytes,6,opt,name=outwork,proto3" json:"outwork,omitempty"`
	// What sort of outwork, such as "crankshaft grinding"; "" if none.
	OutworkKind string `protobuf:"bytes,7,opt,name=outwork_kind,json=outworkKind,proto3" json:"outwork_kind,omitempty"`
	// Weeks until it or its items come.
	LeadWeeks *Range3 `protobuf:"bytes,8,opt,name=lead_weeks,json=leadWeeks,proto3" json:"lead_weeks,omitempty"`
	// What one payment serves: job, unit, piece, pair, axle or set. Of a unit it is paid once, also where another sheet of the
	// unit has an operation of the same id: it is the same piece of work.
	ServedPer string `protobuf:"bytes,9,opt,name=served_per,json=servedPer,proto3" json:"served_per,omitempty"`
	// Ids of operations it contains: never paid beside it.
	Includes []string `protobuf:"bytes,10,rep,name=includes,proto3" json:"includes,omitempty"`
	// Warnings to print with it.
	Cautions []*Caution `protobuf:"bytes,11,rep,name=cautions,proto3" json:"cautions,omitempty"`
	// Ids of operations of its sheet that are done before its piece goes out, or before it is begun: as a whole, whatever pieces they
	// were instanced for. It decides nothing but when the job is done.
	After         []string `protobuf:"bytes,12,rep,name=after,proto3" json:"after,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Operation) Reset() {
	*x = Operation{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[21]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Operation) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Operation) ProtoMessage() {}

func (x *Operation) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[21]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Operation.ProtoReflect.Descriptor instead.
func (*Operation) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{21}
}

func (x *Operation) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *Operation) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Operation) GetSkill() string {
	if x != nil {
		return x.Skill
	}
	return ""
}

func (x *Operation) GetHours() *Range3 {
	if x != nil {
		return x.Hours
	}
	return nil
}

func (x *Operation) GetItems() []*Item {
	if x != nil {
		return x.Items
	}
	return nil
}

func (x *Operation) GetOutwork() *Money3 {
	if x != nil {
		return x.Outwork
	}
	return nil
}

func (x *Operation) GetOutworkKind() string {
	if x != nil {
		return x.OutworkKind
	}
	return ""
}

func (x *Operation) GetLeadWeeks() *Range3 {
	if x != nil {
		return x.LeadWeeks
	}
	return nil
}

func (x *Operation) GetServedPer() string {
	if x != nil {
		return x.ServedPer
	}
	return ""
}

func (x *Operation) GetIncludes() []string {
	if x != nil {
		return x.Includes
	}
	return nil
}

func (x *Operation) GetCautions() []*Caution {
	if x != nil {
		return x.Cautions
	}
	return nil
}

func (x *Operation) GetAfter() []string {
	if x != nil {
		return x.After
	}
	return nil
}

// Sheet is what a subsystem asks the mechanic to look at, for one set of facts. Filled by the plugin.
type Sheet struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// The plugin's own name: the one it is pinned under.
	Subsystem string `protobuf:"bytes,1,opt,name=subsystem,proto3" json:"subsystem,omitempty"`
	// For people.
	Title string `protobuf:"bytes,2,opt,name=title,proto3" json:"title,omitempty"`
	// The sheet's version, in the author's own counting.
	Version string `protobuf:"bytes,3,opt,name=version,proto3" json:"version,omitempty"`
	// Facts taken where none were given, with their source.
	DefaultFacts []*Fact `protobuf:"bytes,4,rep,name=default_facts,json=defaultFacts,proto3" json:"default_facts,omitempty"`
	// The parts, in the order in which they are looked at.
	Parts []*Part `protobuf:"bytes,5,rep,name=parts,proto3" json:"parts,omitempty"`
	// Bench steps of its own.
	Steps []*Step `protobuf:"bytes,6,rep,name=steps,proto3" json:"steps,omitempty"`
	// Parts that belong together.
	Sets []*Set `protobuf:"bytes,7,rep,name=sets,proto3" json:"sets,omitempty"`
	// Rules that nobody can override.
	NoReuse []*NoReuse `protobuf:"bytes,8,rep,name=no_reuse,json=noReuse,proto3" json:"no_reuse,omitempty"`
	// Its rows of the register of hidden damage.
	Hidden []*Hidden `protobuf:"bytes,9,rep,name=hidden,proto3" json:"hidden,omitempty"`
	// All operations its remedies may name.
	Operations []*Operation `protobuf:"bytes,10,rep,name=operations,proto3" json:"operations,omitempty"`
	// Warnings for the whole subsystem.
	Cautions []*Caution `protobuf:"bytes,11,rep,name=cautions,proto3" json:"cautions,omitempty"`
	// How many parts seen weigh as much as the sheet's own chances; 0 means 4.
	OutlookWeight float64 `protobuf:"fixed64,12,opt,name=outlook_weight,json=outlookWeight,proto3" json:"outlook_weight,omitempty"`
	// The kind of unit it describes: engine, gearbox, transfer-box, front-axle, rear-axle, vehicle ...
	UnitKind      string `protobuf:"bytes,13,opt,name=unit_kind,json=unitKind,proto3" json:"unit_kind,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Sheet) Reset() {
	*x = Sheet{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[22]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Sheet) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Sheet) ProtoMessage() {}

func (x *Sheet) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[22]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Sheet.ProtoReflect.Descriptor instead.
func (*Sheet) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{22}
}

func (x *Sheet) GetSubsystem() string {
	if x != nil {
		return x.Subsystem
	}
	return ""
}

func (x *Sheet) GetTitle() string {
	if x != nil {
		return x.Title
	}
	return ""
}

func (x *Sheet) GetVersion() string {
	if x != nil {
		return x.Version
	}
	return ""
}

func (x *Sheet) GetDefaultFacts() []*Fact {
	if x != nil {
		return x.DefaultFacts
	}
	return nil
}

func (x *Sheet) GetParts() []*Part {
	if x != nil {
		return x.Parts
	}
	return nil
}

func (x *Sheet) GetSteps() []*Step {
	if x != nil {
		return x.Steps
	}
	return nil
}

func (x *Sheet) GetSets() []*Set {
	if x != nil {
		return x.Sets
	}
	return nil
}

func (x *Sheet) GetNoReuse() []*NoReuse {
	if x != nil {
		return x.NoReuse
	}
	return nil
}

func (x *Sheet) GetHidden() []*Hidden {
	if x != nil {
		return x.Hidden
	}
	return nil
}

func (x *Sheet) GetOperations() []*Operation {
	if x != nil {
		return x.Operations
	}
	return nil
}

func (x *Sheet) GetCautions() []*Caution {
	if x != nil {
		return x.Cautions
	}
	return nil
}

func (x *Sheet) GetOutlookWeight() float64 {
	if x != nil {
		return x.OutlookWeight
	}
	return 0
}

func (x *Sheet) GetUnitKind() string {
	if x != nil {
		return x.UnitKind
	}
	return ""
}

// Remedy is one way to deal with one part. Filled by the plugin; the host may close it.
type Remedy struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Unique within its target; "reuse" for the plain reuse.
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// The part.
	Target *Target `protobuf:"bytes,2,opt,name=target,proto3" json:"target,omitempty"`
	// What becomes of the part.
	Kind RemedyKind `protobuf:"varint,3,opt,name=kind,proto3,enum=fettle.subsystem.v1.RemedyKind" json:"kind,omitempty"`
	// What is done, in words for the customer.
	Name string `protobuf:"bytes,4,opt,name=name,proto3" json:"name,omitempty"`
	// False: closed as things stand, for the reasons in why.
	Feasible bool `protobuf:"varint,5,opt,name=feasible,proto3" json:"feasible,omitempty"`
	// Why it is open or closed.
	Why []*Reason `protobuf:"bytes,6,rep,name=why,proto3" json:"why,omitempty"`
	// Ids of the operations it takes, as instanced in this answer.
	Operations []string `protobuf:"bytes,7,rep,name=operations,proto3" json:"operations,omitempty"`
	// Steps it opens beyond the part's reach.
	Steps []string `protobuf:"bytes,8,rep,name=steps,proto3" json:"steps,omitempty"`
	// Wear it leaves, 0 as new to 1 at the limit; not set: as found (reuse) or 0 (others).
	WearAfter *float64 `protobuf:"fixed64,9,opt,name=wear_after,json=wearAfter,proto3,oneof" json:"wear_after,omitempty"`
	// Chance, 0 to 1, that it fails within the horizon for reasons other than wear.
	ResidualChance float64 `protobuf:"fixed64,10,opt,name=residual_chance,json=residualChance,proto3" json:"residual_chance,omitempty"`
	// Ids of operations paid again if it fails.
	CollateralOperations []string `protobuf:"bytes,11,rep,name=collateral_operations,json=collateralOperations,proto3" json:"collateral_operations,omitempty"`
	// What it leaves for others to agree with.
	Yields []*Yield `protobuf:"bytes,12,rep,name=yields,proto3" json:"yields,omitempty"`
	// Remedies that must be taken with it; never itself.
	Requires []*RemedyRef `protobuf:"bytes,13,rep,name=requires,proto3" json:"requires,omitempty"`
	// Remedies that cannot be taken with it.
	Excludes []*RemedyRef `protobuf:"bytes,14,rep,name=excludes,proto3" json:"excludes,omitempty"`
	// Least originality at which it is offered, 1 to 4; 0: any.
	OriginalityMin int32 `protobuf:"varint,15,opt,name=originality_min,json=originalityMin,proto3" json:"originality_min,omitempty"`
	// Greatest originality at which it is offered, 1 to 4; 0: any.
	OriginalityMax int32 `protobuf:"varint,16,opt,name=originality_max,json=originalityMax,proto3" json:"originality_max,omitempty"`
	// True: it touches an identity mark: never chosen, only pinned with the owner's recorded word.
	PinOnly       bool `protobuf:"varint,17,opt,name=pin_only,json=pinOnly,proto3" json:"pin_only,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Remedy) Reset() {
	*x = Remedy{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[23]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Remedy) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Remedy) ProtoMessage() {}

func (x *Remedy) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[23]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Remedy.ProtoReflect.Descriptor instead.
func (*Remedy) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{23}
}

func (x *Remedy) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *Remedy) GetTarget() *Target {
	if x != nil {
		return x.Target
	}
	return nil
}

func (x *Remedy) GetKind() RemedyKind {
	if x != nil {
		return x.Kind
	}
	return RemedyKind_REMEDY_KIND_UNSPECIFIED
}

func (x *Remedy) GetName() string {
	if x != nil {
		return x.Name
	}
	return ""
}

func (x *Remedy) GetFeasible() bool {
	if x != nil {
		return x.Feasible
	}
	return false
}

func (x *Remedy) GetWhy() []*Reason {
	if x != nil {
		return x.Why
	}
	return nil
}

func (x *Remedy) GetOperations() []string {
	if x != nil {
		return x.Operations
	}
	return nil
}

func (x *Remedy) GetSteps() []string {
	if x != nil {
		return x.Steps
	}
	return nil
}

func (x *Remedy) GetWearAfter() float64 {
	if x != nil && x.WearAfter != nil {
		return *x.WearAfter
	}
	return 0
}

func (x *Remedy) GetResidualChance() float64 {
	if x != nil {
		return x.ResidualChance
	}
	return 0
}

func (x *Remedy) GetCollateralOperations() []string {
	if x != nil {
		return x.CollateralOperations
	}
	return nil
}

func (x *Remedy) GetYields() []*Yield {
	if x != nil {
		return x.Yields
	}
	return nil
}

func (x *Remedy) GetRequires() []*RemedyRef {
	if x != nil {
		return x.Requires
	}
	return nil
}

func (x *Remedy) GetExcludes() []*RemedyRef {
	if x != nil {
		return x.Excludes
	}
	return nil
}

func (x *Remedy) GetOriginalityMin() int32 {
	if x != nil {
		return x.OriginalityMin
	}
	return 0
}

func (x *Remedy) GetOriginalityMax() int32 {
	if x != nil {
		return x.OriginalityMax
	}
	return 0
}

func (x *Remedy) GetPinOnly() bool {
	if x != nil {
		return x.PinOnly
	}
	return false
}

// Condition is how one part at one position was found. Filled by the plugin, one for each target of the sheet.
type Condition struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// The part.
	Target *Target `protobuf:"bytes,1,opt,name=target,proto3" json:"target,omitempty"`
	// Its grade: the worst of its checks'.
	Grade Grade `protobuf:"varint,2,opt,name=grade,proto3,enum=fettle.subsystem.v1.Grade" json:"grade,omitempty"`
	// w of the governing check; not set where it has none (no wear allowed, counted, judged, go / no-go). Never infinite.
	Wear *float64 `protobuf:"fixed64,3,opt,name=wear,proto3,oneof" json:"wear,omitempty"`
	// Standard uncertainty of wear.
	WearU *float64 `protobuf:"fixed64,4,opt,name=wear_u,json=wearU,proto3,oneof" json:"wear_u,omitempty"`
	// Chance, 0 to 1, that the true value is past the limit (JCGM 106).
	PPast *float64 `protobuf:"fixed64,5,opt,name=p_past,json=pPast,proto3,oneof" json:"p_past,omitempty"`
	// Id of the check that decided; "" if none did.
	GoverningCheck string `protobuf:"bytes,6,opt,name=governing_check,json=governingCheck,proto3" json:"governing_check,omitempty"`
	// Why, the deciding sentence first.
	Reasons []*Reason `protobuf:"bytes,7,rep,name=reasons,proto3" json:"reasons,omitempty"`
	// Ids of checks that are needed and not read.
	ChecksNotRead []string `protobuf:"bytes,8,rep,name=checks_not_read,json=checksNotRead,proto3" json:"checks_not_read,omitempty"`
	// Readings there are, of those needed.
	ReadingsTaken int32 `protobuf:"varint,9,opt,name=readings_taken,json=readingsTaken,proto3" json:"readings_taken,omitempty"`
	// Readings needed for reuse.
	ReadingsNeeded int32 `protobuf:"varint,10,opt,name=readings_needed,json=readingsNeeded,proto3" json:"readings_needed,omitempty"`
	// What it may turn out to be; one state if it was seen.
	States []*State `protobuf:"bytes,11,rep,name=states,proto3" json:"states,omitempty"`
	// What was worked out on the way, such as out-of-round, each with its unit.
	Facts         []*Fact `protobuf:"bytes,12,rep,name=facts,proto3" json:"facts,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Condition) Reset() {
	*x = Condition{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[24]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Condition) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Condition) ProtoMessage() {}

func (x *Condition) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[24]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Condition.ProtoReflect.Descriptor instead.
func (*Condition) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{24}
}

func (x *Condition) GetTarget() *Target {
	if x != nil {
		return x.Target
	}
	return nil
}

func (x *Condition) GetGrade() Grade {
	if x != nil {
		return x.Grade
	}
	return Grade_GRADE_UNSPECIFIED
}

func (x *Condition) GetWear() float64 {
	if x != nil && x.Wear != nil {
		return *x.Wear
	}
	return 0
}

func (x *Condition) GetWearU() float64 {
	if x != nil && x.WearU != nil {
		return *x.WearU
	}
	return 0
}

func (x *Condition) GetPPast() float64 {
	if x != nil && x.PPast != nil {
		return *x.PPast
	}
	return 0
}

func (x *Condition) GetGoverningCheck() string {
	if x != nil {
		return x.GoverningCheck
	}
	return ""
}

func (x *Condition) GetReasons() []*Reason {
	if x != nil {
		return x.Reasons
	}
	return nil
}

func (x *Condition) GetChecksNotRead() []string {
	if x != nil {
		return x.ChecksNotRead
	}
	return nil
}

func (x *Condition) GetReadingsTaken() int32 {
	if x != nil {
		return x.ReadingsTaken
	}
	return 0
}

func (x *Condition) GetReadingsNeeded() int32 {
	if x != nil {
		return x.ReadingsNeeded
	}
	return 0
}

func (x *Condition) GetStates() []*State {
	if x != nil {
		return x.States
	}
	return nil
}

func (x *Condition) GetFacts() []*Fact {
	if x != nil {
		return x.Facts
	}
	return nil
}

// Problem is something wrong with the data, pinned to its place. It is part of the answer.
type Problem struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// How bad it is.
	Severity Severity `protobuf:"varint,1,opt,name=severity,proto3,enum=fettle.subsystem.v1.Severity" json:"severity,omitempty"`
	// What is wrong, in a sentence. Never empty.
	Summary string `protobuf:"bytes,2,opt,name=summary,proto3" json:"summary,omitempty"`
	// More of it; "" if the summary says all.
	Detail string `protobuf:"bytes,3,opt,name=detail,proto3" json:"detail,omitempty"`
	// What the person can do.
	Next string `protobuf:"bytes,4,opt,name=next,proto3" json:"next,omitempty"`
	// The finding; "" if it is not about one.
	FindingId string `protobuf:"bytes,5,opt,name=finding_id,json=findingId,proto3" json:"finding_id,omitempty"`
	// The part; empty if it is not about one.
	Target *Target `protobuf:"bytes,6,opt,name=target,proto3" json:"target,omitempty"`
	// The check id; "" if it is not about one.
	Check         string `protobuf:"bytes,7,opt,name=check,proto3" json:"check,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Problem) Reset() {
	*x = Problem{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[25]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Problem) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Problem) ProtoMessage() {}

func (x *Problem) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[25]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Problem.ProtoReflect.Descriptor instead.
func (*Problem) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{25}
}

func (x *Problem) GetSeverity() Severity {
	if x != nil {
		return x.Severity
	}
	return Severity_SEVERITY_UNSPECIFIED
}

func (x *Problem) GetSummary() string {
	if x != nil {
		return x.Summary
	}
	return ""
}

func (x *Problem) GetDetail() string {
	if x != nil {
		return x.Detail
	}
	return ""
}

func (x *Problem) GetNext() string {
	if x != nil {
		return x.Next
	}
	return ""
}

func (x *Problem) GetFindingId() string {
	if x != nil {
		return x.FindingId
	}
	return ""
}

func (x *Problem) GetTarget() *Target {
	if x != nil {
		return x.Target
	}
	return nil
}

func (x *Problem) GetCheck() string {
	if x != nil {
		return x.Check
	}
	return ""
}

// Brief is what the owner wants and how the vehicle has lived. Filled by the host.
type Brief struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// What it will be used for, in words.
	Use string `protobuf:"bytes,1,opt,name=use,proto3" json:"use,omitempty"`
	// 1 usable, 2, 3, 4 conserve; 0: not stated.
	Originality int32 `protobuf:"varint,2,opt,name=originality,proto3" json:"originality,omitempty"`
	// Kilometres it should last.
	HorizonKm float64 `protobuf:"fixed64,3,opt,name=horizon_km,json=horizonKm,proto3" json:"horizon_km,omitempty"`
	// Years it should last.
	HorizonYears float64 `protobuf:"fixed64,4,opt,name=horizon_years,json=horizonYears,proto3" json:"horizon_years,omitempty"`
	// Stored: dry, damp, outdoors, water; "" unknown.
	Stored string `protobuf:"bytes,5,opt,name=stored,proto3" json:"stored,omitempty"`
	// Last ran: within 2 years, longer, never seen; "" unknown.
	Ran string `protobuf:"bytes,6,opt,name=ran,proto3" json:"ran,omitempty"`
	// Worked: hard, light; "" unknown.
	Worked string `protobuf:"bytes,7,opt,name=worked,proto3" json:"worked,omitempty"`
	// Kilometres since new or since the last rebuild; not set: unknown.
	ServiceKm *float64 `protobuf:"fixed64,8,opt,name=service_km,json=serviceKm,proto3,oneof" json:"service_km,omitempty"`
	// Years since new or since the last rebuild; not set: unknown.
	AgeYears      *float64 `protobuf:"fixed64,9,opt,name=age_years,json=ageYears,proto3,oneof" json:"age_years,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Brief) Reset() {
	*x = Brief{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[26]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Brief) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Brief) ProtoMessage() {}

func (x *Brief) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[26]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Brief.ProtoReflect.Descriptor instead.
func (*Brief) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{26}
}

func (x *Brief) GetUse() string {
	if x != nil {
		return x.Use
	}
	return ""
}

func (x *Brief) GetOriginality() int32 {
	if x != nil {
		return x.Originality
	}
	return 0
}

func (x *Brief) GetHorizonKm() float64 {
	if x != nil {
		return x.HorizonKm
	}
	return 0
}

func (x *Brief) GetHorizonYears() float64 {
	if x != nil {
		return x.HorizonYears
	}
	return 0
}

func (x *Brief) GetStored() string {
	if x != nil {
		return x.Stored
	}
	return ""
}

func (x *Brief) GetRan() string {
	if x != nil {
		return x.Ran
	}
	return ""
}

func (x *Brief) GetWorked() string {
	if x != nil {
		return x.Worked
	}
	return ""
}

func (x *Brief) GetServiceKm() float64 {
	if x != nil && x.ServiceKm != nil {
		return *x.ServiceKm
	}
	return 0
}

func (x *Brief) GetAgeYears() float64 {
	if x != nil && x.AgeYears != nil {
		return *x.AgeYears
	}
	return 0
}

// Finding is one thing observed on one part of this unit. Filled by the host; who found it, when, and what it
// replaces stay with the host.
type Finding struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Unique in the request; named again in Reason or Problem.
	Id string `protobuf:"bytes,1,opt,name=id,proto3" json:"id,omitempty"`
	// The part as recorded; it may not exist in the sheet, which is a Problem.
	Target *Target `protobuf:"bytes,2,opt,name=target,proto3" json:"target,omitempty"`
	// Check id as recorded.
	Check string `protobuf:"bytes,3,opt,name=check,proto3" json:"check,omitempty"`
	// Station as recorded; "" for none.
	Station string `protobuf:"bytes,4,opt,name=station,proto3" json:"station,omitempty"`
	// What was found.
	Value *Value `protobuf:"bytes,5,opt,name=value,proto3" json:"value,omitempty"`
	// The text as the mechanic typed it.
	AsTyped string `protobuf:"bytes,6,opt,name=as_typed,json=asTyped,proto3" json:"as_typed,omitempty"`
	// What it was read with; "" unknown.
	Instrument    string `protobuf:"bytes,7,opt,name=instrument,proto3" json:"instrument,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Finding) Reset() {
	*x = Finding{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[27]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Finding) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Finding) ProtoMessage() {}

func (x *Finding) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[27]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Finding.ProtoReflect.Descriptor instead.
func (*Finding) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{27}
}

func (x *Finding) GetId() string {
	if x != nil {
		return x.Id
	}
	return ""
}

func (x *Finding) GetTarget() *Target {
	if x != nil {
		return x.Target
	}
	return nil
}

func (x *Finding) GetCheck() string {
	if x != nil {
		return x.Check
	}
	return ""
}

func (x *Finding) GetStation() string {
	if x != nil {
		return x.Station
	}
	return ""
}

func (x *Finding) GetValue() *Value {
	if x != nil {
		return x.Value
	}
	return nil
}

func (x *Finding) GetAsTyped() string {
	if x != nil {
		return x.AsTyped
	}
	return ""
}

func (x *Finding) GetInstrument() string {
	if x != nil {
		return x.Instrument
	}
	return ""
}

// Override replaces one check's limit for this unit, by a pack or by the job. Filled by the host.
type Override struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// The part; position "" means every position.
	Target *Target `protobuf:"bytes,1,opt,name=target,proto3" json:"target,omitempty"`
	// Check id.
	Check string `protobuf:"bytes,2,opt,name=check,proto3" json:"check,omitempty"`
	// The limit that holds instead.
	Limit         *Limit `protobuf:"bytes,3,opt,name=limit,proto3" json:"limit,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *Override) Reset() {
	*x = Override{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[28]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *Override) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*Override) ProtoMessage() {}

func (x *Override) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[28]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use Override.ProtoReflect.Descriptor instead.
func (*Override) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{28}
}

func (x *Override) GetTarget() *Target {
	if x != nil {
		return x.Target
	}
	return nil
}

func (x *Override) GetCheck() string {
	if x != nil {
		return x.Check
	}
	return ""
}

func (x *Override) GetLimit() *Limit {
	if x != nil {
		return x.Limit
	}
	return nil
}

// DescribeRequest asks for the sheet.
type DescribeRequest struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// What is known of the unit; empty: nothing.
	Facts         []*Fact `protobuf:"bytes,1,rep,name=facts,proto3" json:"facts,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *DescribeRequest) Reset() {
	*x = DescribeRequest{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[29]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *DescribeRequest) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*DescribeRequest) ProtoMessage() {}

func (x *DescribeRequest) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[29]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use DescribeRequest.ProtoReflect.Descriptor instead.
func (*DescribeRequest) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{29}
}

func (x *DescribeRequest) GetFacts() []*Fact {
	if x != nil {
		return x.Facts
	}
	return nil
}

// DescribeResponse gives the sheet.
type DescribeResponse struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// The sheet for these facts.
	Sheet *Sheet `protobuf:"bytes,1,opt,name=sheet,proto3" json:"sheet,omitempty"`
	// What is wrong with or missing from the facts.
	Problems      []*Problem `protobuf:"bytes,2,rep,name=problems,proto3" json:"problems,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *DescribeResponse) Reset() {
	*x = DescribeResponse{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[30]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *DescribeResponse) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*DescribeResponse) ProtoMessage() {}

func (x *DescribeResponse) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[30]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use DescribeResponse.ProtoReflect.Descriptor instead.
func (*DescribeResponse) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{30}
}

func (x *DescribeResponse) GetSheet() *Sheet {
	if x != nil {
		return x.Sheet
	}
	return nil
}

func (x *DescribeResponse) GetProblems() []*Problem {
	if x != nil {
		return x.Problems
	}
	return nil
}

// AssessRequest is everything a plugin is given to judge one unit.
type AssessRequest struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// Id of the unit within the job: three gearboxes to make one are three calls.
	Unit string `protobuf:"bytes,1,opt,name=unit,proto3" json:"unit,omitempty"`
	// What is known of the unit, as for Describe.
	Facts []*Fact `protobuf:"bytes,2,rep,name=facts,proto3" json:"facts,omitempty"`
	// What the owner wants.
	Brief *Brief `protobuf:"bytes,3,opt,name=brief,proto3" json:"brief,omitempty"`
	// Limits that differ from the sheet's; a later one for the same target and check wins.
	Overrides []*Override `protobuf:"bytes,4,rep,name=overrides,proto3" json:"overrides,omitempty"`
	// The live findings of this unit and subsystem. Their order has no meaning.
	Findings      []*Finding `protobuf:"bytes,5,rep,name=findings,proto3" json:"findings,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *AssessRequest) Reset() {
	*x = AssessRequest{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[31]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *AssessRequest) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*AssessRequest) ProtoMessage() {}

func (x *AssessRequest) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[31]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use AssessRequest.ProtoReflect.Descriptor instead.
func (*AssessRequest) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{31}
}

func (x *AssessRequest) GetUnit() string {
	if x != nil {
		return x.Unit
	}
	return ""
}

func (x *AssessRequest) GetFacts() []*Fact {
	if x != nil {
		return x.Facts
	}
	return nil
}

func (x *AssessRequest) GetBrief() *Brief {
	if x != nil {
		return x.Brief
	}
	return nil
}

func (x *AssessRequest) GetOverrides() []*Override {
	if x != nil {
		return x.Overrides
	}
	return nil
}

func (x *AssessRequest) GetFindings() []*Finding {
	if x != nil {
		return x.Findings
	}
	return nil
}

// AssessResponse is what the plugin says of the unit.
type AssessResponse struct {
	state protoimpl.MessageState `protogen:"open.v1"`
	// One for each target of the sheet, in its order.
	Conditions []*Condition `protobuf:"bytes,1,rep,name=conditions,proto3" json:"conditions,omitempty"`
	// All remedies, open and closed.
	Remedies []*Remedy `protobuf:"bytes,2,rep,name=remedies,proto3" json:"remedies,omitempty"`
	// The operations the remedies name, instanced per piece, pair, axle or set.
	Operations []*Operation `protobuf:"bytes,3,rep,name=operations,proto3" json:"operations,omitempty"`
	// What is wrong with the data.
	Problems      []*Problem `protobuf:"bytes,4,rep,name=problems,proto3" json:"problems,omitempty"`
	unknownFields protoimpl.UnknownFields
	sizeCache     protoimpl.SizeCache
}

func (x *AssessResponse) Reset() {
	*x = AssessResponse{}
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[32]
	ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
	ms.StoreMessageInfo(mi)
}

func (x *AssessResponse) String() string {
	return protoimpl.X.MessageStringOf(x)
}

func (*AssessResponse) ProtoMessage() {}

func (x *AssessResponse) ProtoReflect() protoreflect.Message {
	mi := &file_fettle_subsystem_v1_subsystem_proto_msgTypes[32]
	if x != nil {
		ms := protoimpl.X.MessageStateOf(protoimpl.Pointer(x))
		if ms.LoadMessageInfo() == nil {
			ms.StoreMessageInfo(mi)
		}
		return ms
	}
	return mi.MessageOf(x)
}

// Deprecated: Use AssessResponse.ProtoReflect.Descriptor instead.
func (*AssessResponse) Descriptor() ([]byte, []int) {
	return file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP(), []int{32}
}

func (x *AssessResponse) GetConditions() []*Condition {
	if x != nil {
		return x.Conditions
	}
	return nil
}

func (x *AssessResponse) GetRemedies() []*Remedy {
	if x != nil {
		return x.Remedies
	}
	return nil
}

func (x *AssessResponse) GetOperations() []*Operation {
	if x != nil {
		return x.Operations
	}
	return nil
}

func (x *AssessResponse) GetProblems() []*Problem {
	if x != nil {
		return x.Problems
	}
	return nil
}

var File_fettle_subsystem_v1_subsystem_proto protoreflect.FileDescriptor

const file_fettle_subsystem_v1_subsystem_proto_rawDesc = "" +
	"\n" +
	"#fettle/subsystem/v1/subsystem.proto\x12\x13fettle.subsystem.v1\"L\n" +
	"\x06Range3\x12\x10\n" +
	"\x03low\x18\x01 \x01(\x01R\x03low\x12\x16\n" +
	"\x06likely\x18\x02 \x01(\x01R\x06likely\x12\x12\n" +
	"\x04high\x18\x03 \x01(\x01R\x04highJ\x04\bZ\x10d\"h\n" +
	"\x06Money3\x12\x10\n" +
	"\x03low\x18\x01 \x01(\tR\x03low\x12\x16\n" +
	"\x06likely\x18\x02 \x01(\tR\x06likely\x12\x12\n" +
	"\x04high\x18\x03 \x01(\tR\x04high\x12\x1a\n" +
	"\bcurrency\x18\x04 \x01(\tR\bcurrencyJ\x04\bZ\x10d\"P\n" +
	"\bQuantity\x12\x14\n" +
	"\x05value\x18\x01 \x01(\x01R\x05value\x12\x12\n" +
	"\x04unit\x18\x02 \x01(\tR\x04unit\x12\x14\n" +
	"\x05bound\x18\x03 \x01(\x01R\x05boundJ\x04\bZ\x10d\"\xf6\x01\n" +
	"\x05Value\x12;\n" +
	"\bquantity\x18\x01 \x01(\v2\x1d.fettle.subsystem.v1.QuantityH\x00R\bquantity\x12\x16\n" +
	"\x05count\x18\x02 \x01(\x03H\x00R\x05count\x12#\n" +
	"\fdamage_class\x18\x03 \x01(\x05H\x00R\vdamageClass\x12\x14\n" +
	"\x04pass\x18\x04 \x01(\bH\x00R\x04pass\x12\x14\n" +
	"\x04word\x18\x05 \x01(\tH\x00R\x04word\x129\n" +
	"\bnot_read\x18\x06 \x01(\x0e2\x1c.fettle.subsystem.v1.NotReadH\x00R\anotReadB\x06\n" +
	"\x04kindJ\x04\bZ\x10d\"j\n" +
	"\x04Fact\x12\x12\n" +
	"\x04name\x18\x01 \x01(\tR\x04name\x120\n" +
	"\x05value\x18\x02 \x01(\v2\x1a.fettle.subsystem.v1.ValueR\x05value\x12\x16\n" +
	"\x06source\x18\x03 \x01(\tR\x06sourceJ\x04\bZ\x10d\">\n" +
	"\x06Target\x12\x12\n" +
	"\x04part\x18\x01 \x01(\tR\x04part\x12\x1a\n" +
	"\bposition\x18\x02 \x01(\tR\bpositionJ\x04\bZ\x10d\"^\n" +
	"\tRemedyRef\x123\n" +
	"\x06target\x18\x01 \x01(\v2\x1b.fettle.subsystem.v1.TargetR\x06target\x12\x16\n" +
	"\x06remedy\x18\x02 \x01(\tR\x06remedyJ\x04\bZ\x10d\"5\n" +
	"\x05Yield\x12\x10\n" +
	"\x03key\x18\x01 \x01(\tR\x03key\x12\x14\n" +
	"\x05value\x18\x02 \x01(\tR\x05valueJ\x04\bZ\x10d\"\x85\x01\n" +
	"\x06Reason\x12\x12\n" +
	"\x04text\x18\x01 \x01(\tR\x04text\x12\x1f\n" +
	"\vfinding_ids\x18\x02 \x03(\tR\n" +
	"findingIds\x12\x14\n" +
	"\x05check\x18\x03 \x01(\tR\x05check\x12\x12\n" +
	"\x04rule\x18\x04 \x01(\tR\x04rule\x12\x16\n" +
	"\x06source\x18\x05 \x01(\tR\x06sourceJ\x04\bZ\x10d\"\xdb\x02\n" +
	"\x05Limit\x12\x1c\n" +
	"\anew_low\x18\x01 \x01(\x01H\x00R\x06newLow\x88\x01\x01\x12\x1e\n" +
	"\bnew_high\x18\x02 \x01(\x01H\x01R\anewHigh\x88\x01\x01\x12\x1e\n" +
	"\bwear_low\x18\x03 \x01(\x01H\x02R\awearLow\x88\x01\x01\x12 \n" +
	"\twear_high\x18\x04 \x01(\x01H\x03R\bwearHigh\x88\x01\x01\x12$\n" +
	"\vworst_class\x18\x05 \x01(\x05H\x04R\n" +
	"worstClass\x88\x01\x01\x12\x12\n" +
	"\x04unit\x18\x06 \x01(\tR\x04unit\x12\x16\n" +
	"\x06source\x18\a \x01(\tR\x06source\x12\x1e\n" +
	"\n" +
	"confidence\x18\b \x01(\tR\n" +
	"confidence\x12\x16\n" +
	"\x06origin\x18\t \x01(\tR\x06originB\n" +
	"\n" +
	"\b_new_lowB\v\n" +
	"\t_new_highB\v\n" +
	"\t_wear_lowB\f\n" +
	"\n" +
	"_wear_highB\x0e\n" +
	"\f_worst_classJ\x04\bZ\x10d\"\xbe\x04\n" +
	"\x05Check\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x12\x12\n" +
	"\x04name\x18\x02 \x01(\tR\x04name\x122\n" +
	"\x04kind\x18\x03 \x01(\x0e2\x1e.fettle.subsystem.v1.CheckKindR\x04kind\x12\x12\n" +
	"\x04unit\x18\x04 \x01(\tR\x04unit\x12\x1a\n" +
	"\bstations\x18\x05 \x03(\tR\bstations\x12\x10\n" +
	"\x03how\x18\x06 \x01(\tR\x03how\x12\x1e\n" +
	"\n" +
	"instrument\x18\a \x01(\tR\n" +
	"instrument\x120\n" +
	"\x05limit\x18\b \x01(\v2\x1a.fettle.subsystem.v1.LimitR\x05limit\x12\x1b\n" +
	"\ttwo_sided\x18\t \x01(\bR\btwoSided\x12!\n" +
	"\fbefore_strip\x18\n" +
	" \x01(\bR\vbeforeStrip\x12(\n" +
	"\x10needed_for_reuse\x18\v \x01(\bR\x0eneededForReuse\x12\x18\n" +
	"\aminutes\x18\f \x01(\x01R\aminutes\x12(\n" +
	"\rplausible_low\x18\r \x01(\x01H\x00R\fplausibleLow\x88\x01\x01\x12*\n" +
	"\x0eplausible_high\x18\x0e \x01(\x01H\x01R\rplausibleHigh\x88\x01\x01\x12\x18\n" +
	"\aformula\x18\x0f \x01(\tR\aformula\x12*\n" +
	"\x11count_when_fitted\x18\x10 \x01(\x01R\x0fcountWhenFittedB\x10\n" +
	"\x0e_plausible_lowB\x11\n" +
	"\x0f_plausible_highJ\x04\bZ\x10d\"h\n" +
	"\x04Life\x12\x18\n" +
	"\atypical\x18\x01 \x01(\x01R\atypical\x12\x12\n" +
	"\x04unit\x18\x02 \x01(\tR\x04unit\x12\x14\n" +
	"\x05sigma\x18\x03 \x01(\x01R\x05sigma\x12\x16\n" +
	"\x06source\x18\x04 \x01(\tR\x06sourceJ\x04\bZ\x10d\"\x94\x01\n" +
	"\x05State\x12\x16\n" +
	"\x06chance\x18\x01 \x01(\x01R\x06chance\x120\n" +
	"\x05grade\x18\x02 \x01(\x0e2\x1a.fettle.subsystem.v1.GradeR\x05grade\x12\x1a\n" +
	"\bremedies\x18\x03 \x03(\tR\bremedies\x12\x1f\n" +
	"\vregister_id\x18\x04 \x01(\tR\n" +
	"registerIdJ\x04\bZ\x10d\"\xd5\x02\n" +
	"\x04Part\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x12\x12\n" +
	"\x04name\x18\x02 \x01(\tR\x04name\x12\x1c\n" +
	"\tpositions\x18\x03 \x03(\tR\tpositions\x12\x14\n" +
	"\x05count\x18\x04 \x01(\x05R\x05count\x12'\n" +
	"\x0fsafety_critical\x18\x05 \x01(\bR\x0esafetyCritical\x12\x17\n" +
	"\aone_use\x18\x06 \x01(\bR\x06oneUse\x122\n" +
	"\x06checks\x18\a \x03(\v2\x1a.fettle.subsystem.v1.CheckR\x06checks\x12\x14\n" +
	"\x05reach\x18\b \x03(\tR\x05reach\x12-\n" +
	"\x04life\x18\t \x01(\v2\x19.fettle.subsystem.v1.LifeR\x04life\x124\n" +
	"\aoutlook\x18\n" +
	" \x03(\v2\x1a.fettle.subsystem.v1.StateR\aoutlookJ\x04\bZ\x10d\"#\n" +
	"\x05AnyOf\x12\x14\n" +
	"\x05steps\x18\x01 \x03(\tR\x05stepsJ\x04\bZ\x10d\"\xb5\x04\n" +
	"\x04Step\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x12\x12\n" +
	"\x04name\x18\x02 \x01(\tR\x04name\x12<\n" +
	"\vstrip_hours\x18\x03 \x01(\v2\x1b.fettle.subsystem.v1.Range3R\n" +
	"stripHours\x12<\n" +
	"\vrefit_hours\x18\x04 \x01(\v2\x1b.fettle.subsystem.v1.Range3R\n" +
	"refitHours\x12\x16\n" +
	"\x06people\x18\x05 \x01(\x05R\x06people\x12\x14\n" +
	"\x05skill\x18\x06 \x01(\tR\x05skill\x12\x15\n" +
	"\x06all_of\x18\a \x03(\tR\x05allOf\x121\n" +
	"\x06any_of\x18\b \x03(\v2\x1a.fettle.subsystem.v1.AnyOfR\x05anyOf\x12\x1a\n" +
	"\bdestroys\x18\t \x03(\tR\bdestroys\x122\n" +
	"\aone_use\x18\n" +
	" \x03(\v2\x19.fettle.subsystem.v1.ItemR\x06oneUse\x128\n" +
	"\bcautions\x18\v \x03(\v2\x1c.fettle.subsystem.v1.CautionR\bcautions\x12\x14\n" +
	"\x05scope\x18\f \x01(\tR\x05scope\x12\x1d\n" +
	"\n" +
	"bare_frame\x18\r \x01(\bR\tbareFrame\x12!\n" +
	"\fconfirm_help\x18\x0e \x01(\tR\vconfirmHelp\x12\x12\n" +
	"\x04load\x18\x0f \x01(\tR\x04load\x12\x19\n" +
	"\bno_refit\x18\x10 \x01(\bR\anoRefitJ\x04\bZ\x10d\"\xde\x01\n" +
	"\x03Set\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x12\x12\n" +
	"\x04name\x18\x02 \x01(\tR\x04name\x125\n" +
	"\amembers\x18\x03 \x03(\v2\x1b.fettle.subsystem.v1.TargetR\amembers\x12\x1d\n" +
	"\tsame_kind\x18\x04 \x01(\bH\x00R\bsameKind\x12\x1b\n" +
	"\bagree_on\x18\x05 \x01(\tH\x00R\aagreeOn\x122\n" +
	"\x15complete_before_order\x18\x06 \x01(\bR\x13completeBeforeOrderB\x06\n" +
	"\x04ruleJ\x04\bZ\x10d\"\xd2\x01\n" +
	"\aNoReuse\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x12\x12\n" +
	"\x04part\x18\x02 \x01(\tR\x04part\x12\x14\n" +
	"\x05check\x18\x03 \x01(\tR\x05check\x124\n" +
	"\atrigger\x18\x04 \x01(\v2\x1a.fettle.subsystem.v1.ValueR\atrigger\x129\n" +
	"\aallowed\x18\x05 \x03(\x0e2\x1f.fettle.subsystem.v1.RemedyKindR\aallowed\x12\x16\n" +
	"\x06source\x18\x06 \x01(\tR\x06sourceJ\x04\bZ\x10d\"\xd6\x01\n" +
	"\x06Hidden\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x12\x12\n" +
	"\x04name\x18\x02 \x01(\tR\x04name\x12\x16\n" +
	"\x06chance\x18\x03 \x01(\x01R\x06chance\x121\n" +
	"\x05parts\x18\x04 \x03(\v2\x1b.fettle.subsystem.v1.TargetR\x05parts\x12\x1e\n" +
	"\n" +
	"operations\x18\x05 \x03(\tR\n" +
	"operations\x12\x14\n" +
	"\x05times\x18\x06 \x01(\x01R\x05times\x12!\n" +
	"\fhistory_keys\x18\a \x03(\tR\vhistoryKeysJ\x04\bZ\x10d\"c\n" +
	"\aCaution\x12\x12\n" +
	"\x04text\x18\x01 \x01(\tR\x04text\x12\x12\n" +
	"\x04part\x18\x02 \x01(\tR\x04part\x12\x12\n" +
	"\x04step\x18\x03 \x01(\tR\x04step\x12\x16\n" +
	"\x06source\x18\x04 \x01(\tR\x06sourceJ\x04\bZ\x10d\"\xbe\x01\n" +
	"\x04Item\x12\x10\n" +
	"\x03key\x18\x01 \x01(\tR\x03key\x12\x12\n" +
	"\x04name\x18\x02 \x01(\tR\x04name\x12\x14\n" +
	"\x05count\x18\x03 \x01(\x01R\x05count\x12>\n" +
	"\ftypical_each\x18\x04 \x01(\v2\x1b.fettle.subsystem.v1.Money3R\vtypicalEach\x12\x17\n" +
	"\aone_use\x18\x05 \x01(\bR\x06oneUse\x12\x1b\n" +
	"\ttax_class\x18\x06 \x01(\tR\btaxClassJ\x04\bZ\x10d\"\xd0\x03\n" +
	"\tOperation\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x12\x12\n" +
	"\x04name\x18\x02 \x01(\tR\x04name\x12\x14\n" +
	"\x05skill\x18\x03 \x01(\tR\x05skill\x121\n" +
	"\x05hours\x18\x04 \x01(\v2\x1b.fettle.subsystem.v1.Range3R\x05hours\x12/\n" +
	"\x05items\x18\x05 \x03(\v2\x19.fettle.subsystem.v1.ItemR\x05items\x125\n" +
	"\aoutwork\x18\x06 \x01(\v2\x1b.fettle.subsystem.v1.Money3R\aoutwork\x12!\n" +
	"\foutwork_kind\x18\a \x01(\tR\voutworkKind\x12:\n" +
	"\n" +
	"lead_weeks\x18\b \x01(\v2\x1b.fettle.subsystem.v1.Range3R\tleadWeeks\x12\x1d\n" +
	"\n" +
	"served_per\x18\t \x01(\tR\tservedPer\x12\x1a\n" +
	"\bincludes\x18\n" +
	" \x03(\tR\bincludes\x128\n" +
	"\bcautions\x18\v \x03(\v2\x1c.fettle.subsystem.v1.CautionR\bcautions\x12\x14\n" +
	"\x05after\x18\f \x03(\tR\x05afterJ\x04\bZ\x10d\"\xd7\x04\n" +
	"\x05Sheet\x12\x1c\n" +
	"\tsubsystem\x18\x01 \x01(\tR\tsubsystem\x12\x14\n" +
	"\x05title\x18\x02 \x01(\tR\x05title\x12\x18\n" +
	"\aversion\x18\x03 \x01(\tR\aversion\x12>\n" +
	"\rdefault_facts\x18\x04 \x03(\v2\x19.fettle.subsystem.v1.FactR\fdefaultFacts\x12/\n" +
	"\x05parts\x18\x05 \x03(\v2\x19.fettle.subsystem.v1.PartR\x05parts\x12/\n" +
	"\x05steps\x18\x06 \x03(\v2\x19.fettle.subsystem.v1.StepR\x05steps\x12,\n" +
	"\x04sets\x18\a \x03(\v2\x18.fettle.subsystem.v1.SetR\x04sets\x127\n" +
	"\bno_reuse\x18\b \x03(\v2\x1c.fettle.subsystem.v1.NoReuseR\anoReuse\x123\n" +
	"\x06hidden\x18\t \x03(\v2\x1b.fettle.subsystem.v1.HiddenR\x06hidden\x12>\n" +
	"\n" +
	"operations\x18\n" +
	" \x03(\v2\x1e.fettle.subsystem.v1.OperationR\n" +
	"operations\x128\n" +
	"\bcautions\x18\v \x03(\v2\x1c.fettle.subsystem.v1.CautionR\bcautions\x12%\n" +
	"\x0eoutlook_weight\x18\f \x01(\x01R\routlookWeight\x12\x1b\n" +
	"\tunit_kind\x18\r \x01(\tR\bunitKindJ\x04\bZ\x10d\"\xc7\x05\n" +
	"\x06Remedy\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x123\n" +
	"\x06target\x18\x02 \x01(\v2\x1b.fettle.subsystem.v1.TargetR\x06target\x123\n" +
	"\x04kind\x18\x03 \x01(\x0e2\x1f.fettle.subsystem.v1.RemedyKindR\x04kind\x12\x12\n" +
	"\x04name\x18\x04 \x01(\tR\x04name\x12\x1a\n" +
	"\bfeasible\x18\x05 \x01(\bR\bfeasible\x12-\n" +
	"\x03why\x18\x06 \x03(\v2\x1b.fettle.subsystem.v1.ReasonR\x03why\x12\x1e\n" +
	"\n" +
	"operations\x18\a \x03(\tR\n" +
	"operations\x12\x14\n" +
	"\x05steps\x18\b \x03(\tR\x05steps\x12\"\n" +
	"\n" +
	"wear_after\x18\t \x01(\x01H\x00R\twearAfter\x88\x01\x01\x12'\n" +
	"\x0fresidual_chance\x18\n" +
	" \x01(\x01R\x0eresidualChance\x123\n" +
	"\x15collateral_operations\x18\v \x03(\tR\x14collateralOperations\x122\n" +
	"\x06yields\x18\f \x03(\v2\x1a.fettle.subsystem.v1.YieldR\x06yields\x12:\n" +
	"\brequires\x18\r \x03(\v2\x1e.fettle.subsystem.v1.RemedyRefR\brequires\x12:\n" +
	"\bexcludes\x18\x0e \x03(\v2\x1e.fettle.subsystem.v1.RemedyRefR\bexcludes\x12'\n" +
	"\x0foriginality_min\x18\x0f \x01(\x05R\x0eoriginalityMin\x12'\n" +
	"\x0foriginality_max\x18\x10 \x01(\x05R\x0eoriginalityMax\x12\x19\n" +
	"\bpin_only\x18\x11 \x01(\bR\apinOnlyB\r\n" +
	"\v_wear_afterJ\x04\bZ\x10d\"\xa5\x04\n" +
	"\tCondition\x123\n" +
	"\x06target\x18\x01 \x01(\v2\x1b.fettle.subsystem.v1.TargetR\x06target\x120\n" +
	"\x05grade\x18\x02 \x01(\x0e2\x1a.fettle.subsystem.v1.GradeR\x05grade\x12\x17\n" +
	"\x04wear\x18\x03 \x01(\x01H\x00R\x04wear\x88\x01\x01\x12\x1a\n" +
	"\x06wear_u\x18\x04 \x01(\x01H\x01R\x05wearU\x88\x01\x01\x12\x1a\n" +
	"\x06p_past\x18\x05 \x01(\x01H\x02R\x05pPast\x88\x01\x01\x12'\n" +
	"\x0fgoverning_check\x18\x06 \x01(\tR\x0egoverningCheck\x125\n" +
	"\areasons\x18\a \x03(\v2\x1b.fettle.subsystem.v1.ReasonR\areasons\x12&\n" +
	"\x0fchecks_not_read\x18\b \x03(\tR\rchecksNotRead\x12%\n" +
	"\x0ereadings_taken\x18\t \x01(\x05R\rreadingsTaken\x12'\n" +
	"\x0freadings_needed\x18\n" +
	" \x01(\x05R\x0ereadingsNeeded\x122\n" +
	"\x06states\x18\v \x03(\v2\x1a.fettle.subsystem.v1.StateR\x06states\x12/\n" +
	"\x05facts\x18\f \x03(\v2\x19.fettle.subsystem.v1.FactR\x05factsB\a\n" +
	"\x05_wearB\t\n" +
	"\a_wear_uB\t\n" +
	"\a_p_pastJ\x04\bZ\x10d\"\xfa\x01\n" +
	"\aProblem\x129\n" +
	"\bseverity\x18\x01 \x01(\x0e2\x1d.fettle.subsystem.v1.SeverityR\bseverity\x12\x18\n" +
	"\asummary\x18\x02 \x01(\tR\asummary\x12\x16\n" +
	"\x06detail\x18\x03 \x01(\tR\x06detail\x12\x12\n" +
	"\x04next\x18\x04 \x01(\tR\x04next\x12\x1d\n" +
	"\n" +
	"finding_id\x18\x05 \x01(\tR\tfindingId\x123\n" +
	"\x06target\x18\x06 \x01(\v2\x1b.fettle.subsystem.v1.TargetR\x06target\x12\x14\n" +
	"\x05check\x18\a \x01(\tR\x05checkJ\x04\bZ\x10d\"\xaa\x02\n" +
	"\x05Brief\x12\x10\n" +
	"\x03use\x18\x01 \x01(\tR\x03use\x12 \n" +
	"\voriginality\x18\x02 \x01(\x05R\voriginality\x12\x1d\n" +
	"\n" +
	"horizon_km\x18\x03 \x01(\x01R\thorizonKm\x12#\n" +
	"\rhorizon_years\x18\x04 \x01(\x01R\fhorizonYears\x12\x16\n" +
	"\x06stored\x18\x05 \x01(\tR\x06stored\x12\x10\n" +
	"\x03ran\x18\x06 \x01(\tR\x03ran\x12\x16\n" +
	"\x06worked\x18\a \x01(\tR\x06worked\x12\"\n" +
	"\n" +
	"service_km\x18\b \x01(\x01H\x00R\tserviceKm\x88\x01\x01\x12 \n" +
	"\tage_years\x18\t \x01(\x01H\x01R\bageYears\x88\x01\x01B\r\n" +
	"\v_service_kmB\f\n" +
	"\n" +
	"_age_yearsJ\x04\bZ\x10d\"\xf1\x01\n" +
	"\aFinding\x12\x0e\n" +
	"\x02id\x18\x01 \x01(\tR\x02id\x123\n" +
	"\x06target\x18\x02 \x01(\v2\x1b.fettle.subsystem.v1.TargetR\x06target\x12\x14\n" +
	"\x05check\x18\x03 \x01(\tR\x05check\x12\x18\n" +
	"\astation\x18\x04 \x01(\tR\astation\x120\n" +
	"\x05value\x18\x05 \x01(\v2\x1a.fettle.subsystem.v1.ValueR\x05value\x12\x19\n" +
	"\bas_typed\x18\x06 \x01(\tR\aasTyped\x12\x1e\n" +
	"\n" +
	"instrument\x18\a \x01(\tR\n" +
	"instrumentJ\x04\bZ\x10d\"\x8d\x01\n" +
	"\bOverride\x123\n" +
	"\x06target\x18\x01 \x01(\v2\x1b.fettle.subsystem.v1.TargetR\x06target\x12\x14\n" +
	"\x05check\x18\x02 \x01(\tR\x05check\x120\n" +
	"\x05limit\x18\x03 \x01(\v2\x1a.fettle.subsystem.v1.LimitR\x05limitJ\x04\bZ\x10d\"H\n" +
	"\x0fDescribeRequest\x12/\n" +
	"\x05facts\x18\x01 \x03(\v2\x19.fettle.subsystem.v1.FactR\x05factsJ\x04\bZ\x10d\"\x84\x01\n" +
	"\x10DescribeResponse\x120\n" +
	"\x05sheet\x18\x01 \x01(\v2\x1a.fettle.subsystem.v1.SheetR\x05sheet\x128\n" +
	"\bproblems\x18\x02 \x03(\v2\x1c.fettle.subsystem.v1.ProblemR\bproblemsJ\x04\bZ\x10d\"\x83\x02\n" +
	"\rAssessRequest\x12\x12\n" +
	"\x04unit\x18\x01 \x01(\tR\x04unit\x12/\n" +
	"\x05facts\x18\x02 \x03(\v2\x19.fettle.subsystem.v1.FactR\x05facts\x120\n" +
	"\x05brief\x18\x03 \x01(\v2\x1a.fettle.subsystem.v1.BriefR\x05brief\x12;\n" +
	"\toverrides\x18\x04 \x03(\v2\x1d.fettle.subsystem.v1.OverrideR\toverrides\x128\n" +
	"\bfindings\x18\x05 \x03(\v2\x1c.fettle.subsystem.v1.FindingR\bfindingsJ\x04\bZ\x10d\"\x89\x02\n" +
	"\x0eAssessResponse\x12>\n" +
	"\n" +
	"conditions\x18\x01 \x03(\v2\x1e.fettle.subsystem.v1.ConditionR\n" +
	"conditions\x127\n" +
	"\bremedies\x18\x02 \x03(\v2\x1b.fettle.subsystem.v1.RemedyR\bremedies\x12>\n" +
	"\n" +
	"operations\x18\x03 \x03(\v2\x1e.fettle.subsystem.v1.OperationR\n" +
	"operations\x128\n" +
	"\bproblems\x18\x04 \x03(\v2\x1c.fettle.subsystem.v1.ProblemR\bproblemsJ\x04\bZ\x10d*\xb8\x01\n" +
	"\tCheckKind\x12\x1a\n" +
	"\x16CHECK_KIND_UNSPECIFIED\x10\x00\x12\x17\n" +
	"\x13CHECK_KIND_MEASURED\x10\x01\x12\x16\n" +
	"\x12CHECK_KIND_DERIVED\x10\x02\x12\x16\n" +
	"\x12CHECK_KIND_COUNTED\x10\x03\x12\x15\n" +
	"\x11CHECK_KIND_JUDGED\x10\x04\x12\x17\n" +
	"\x13CHECK_KIND_GO_NO_GO\x10\x05\x12\x16\n" +
	"\x12CHECK_KIND_ONE_USE\x10\x06*\xdb\x01\n" +
	"\x05Grade\x12\x15\n" +
	"\x11GRADE_UNSPECIFIED\x10\x00\x12\x14\n" +
	"\x10GRADE_WITHIN_NEW\x10\x01\x12\x12\n" +
	"\x0eGRADE_WORN_FIT\x10\x02\x12\x14\n" +
	"\x10GRADE_NEAR_LIMIT\x10\x03\x12\x14\n" +
	"\x10GRADE_PAST_LIMIT\x10\x04\x12\x13\n" +
	"\x0fGRADE_TOO_TIGHT\x10\x05\x12\x10\n" +
	"\fGRADE_FAILED\x10\x06\x12\x17\n" +
	"\x13GRADE_MEASURE_AGAIN\x10\a\x12\x12\n" +
	"\x0eGRADE_NOT_SEEN\x10\b\x12\x11\n" +
	"\rGRADE_MISSING\x10\t*r\n" +
	"\n" +
	"RemedyKind\x12\x1b\n" +
	"\x17REMEDY_KIND_UNSPECIFIED\x10\x00\x12\x15\n" +
	"\x11REMEDY_KIND_REUSE\x10\x01\x12\x17\n" +
	"\x13REMEDY_KIND_REBUILD\x10\x02\x12\x17\n" +
	"\x13REMEDY_KIND_REPLACE\x10\x03*\x9f\x01\n" +
	"\aNotRead\x12\x18\n" +
	"\x14NOT_READ_UNSPECIFIED\x10\x00\x12\x19\n" +
	"\x15NOT_READ_NOT_MEASURED\x10\x01\x12\x1c\n" +
	"\x18NOT_READ_COULD_NOT_REACH\x10\x02\x12\x19\n" +
	"\x15NOT_READ_PART_MISSING\x10\x03\x12\x13\n" +
	"\x0fNOT_READ_BY_EYE\x10\x04\x12\x11\n" +
	"\rNOT_READ_LOST\x10\x05*a\n" +
	"\bSeverity\x12\x18\n" +
	"\x14SEVERITY_UNSPECIFIED\x10\x00\x12\x12\n" +
	"\x0eSEVERITY_ERROR\x10\x01\x12\x14\n" +
	"\x10SEVERITY_WARNING\x10\x02\x12\x11\n" +
	"\rSEVERITY_NOTE\x10\x032\xbe\x01\n" +
	"\x10SubsystemService\x12W\n" +
	"\bDescribe\x12$.fettle.subsystem.v1.DescribeRequest\x1a%.fettle.subsystem.v1.DescribeResponse\x12Q\n" +
	"\x06Assess\x12\".fettle.subsystem.v1.AssessRequest\x1a#.fettle.subsystem.v1.AssessResponseBFZDgithub.com/fettle-tools/fettle/proto/fettle/subsystem/v1;subsystemv1b\x06proto3"

var (
	file_fettle_subsystem_v1_subsystem_proto_rawDescOnce sync.Once
	file_fettle_subsystem_v1_subsystem_proto_rawDescData []byte
)

func file_fettle_subsystem_v1_subsystem_proto_rawDescGZIP() []byte {
	file_fettle_subsystem_v1_subsystem_proto_rawDescOnce.Do(func() {
		file_fettle_subsystem_v1_subsystem_proto_rawDescData = protoimpl.X.CompressGZIP(unsafe.Slice(unsafe.StringData(file_fettle_subsystem_v1_subsystem_proto_rawDesc), len(file_fettle_subsystem_v1_subsystem_proto_rawDesc)))
	})
	return file_fettle_subsystem_v1_subsystem_proto_rawDescData
}

var file_fettle_subsystem_v1_subsystem_proto_enumTypes = make([]protoimpl.EnumInfo, 5)
var file_fettle_subsystem_v1_subsystem_proto_msgTypes = make([]protoimpl.MessageInfo, 33)
var file_fettle_subsystem_v1_subsystem_proto_goTypes = []any{
	(CheckKind)(0),           // 0: fettle.subsystem.v1.CheckKind
	(Grade)(0),               // 1: fettle.subsystem.v1.Grade
	(RemedyKind)(0),          // 2: fettle.subsystem.v1.RemedyKind
	(NotRead)(0),             // 3: fettle.subsystem.v1.NotRead
	(Severity)(0),            // 4: fettle.subsystem.v1.Severity
	(*Range3)(nil),           // 5: fettle.subsystem.v1.Range3
	(*Money3)(nil),           // 6: fettle.subsystem.v1.Money3
	(*Quantity)(nil),         // 7: fettle.subsystem.v1.Quantity
	(*Value)(nil),            // 8: fettle.subsystem.v1.Value
	(*Fact)(nil),             // 9: fettle.subsystem.v1.Fact
	(*Target)(nil),           // 10: fettle.subsystem.v1.Target
	(*RemedyRef)(nil),        // 11: fettle.subsystem.v1.RemedyRef
	(*Yield)(nil),            // 12: fettle.subsystem.v1.Yield
	(*Reason)(nil),           // 13: fettle.subsystem.v1.Reason
	(*Limit)(nil),            // 14: fettle.subsystem.v1.Limit
	(*Check)(nil),            // 15: fettle.subsystem.v1.Check
	(*Life)(nil),             // 16: fettle.subsystem.v1.Life
	(*State)(nil),            // 17: fettle.subsystem.v1.State
	(*Part)(nil),             // 18: fettle.subsystem.v1.Part
	(*AnyOf)(nil),            // 19: fettle.subsystem.v1.AnyOf
	(*Step)(nil),             // 20: fettle.subsystem.v1.Step
	(*Set)(nil),              // 21: fettle.subsystem.v1.Set
	(*NoReuse)(nil),          // 22: fettle.subsystem.v1.NoReuse
	(*Hidden)(nil),           // 23: fettle.subsystem.v1.Hidden
	(*Caution)(nil),          // 24: fettle.subsystem.v1.Caution
	(*Item)(nil),             // 25: fettle.subsystem.v1.Item
	(*Operation)(nil),        // 26: fettle.subsystem.v1.Operation
	(*Sheet)(nil),            // 27: fettle.subsystem.v1.Sheet
	(*Remedy)(nil),           // 28: fettle.subsystem.v1.Remedy
	(*Condition)(nil),        // 29: fettle.subsystem.v1.Condition
	(*Problem)(nil),          // 30: fettle.subsystem.v1.Problem
	(*Brief)(nil),            // 31: fettle.subsystem.v1.Brief
	(*Finding)(nil),          // 32: fettle.subsystem.v1.Finding
	(*Override)(nil),         // 33: fettle.subsystem.v1.Override
	(*DescribeRequest)(nil),  // 34: fettle.subsystem.v1.DescribeRequest
	(*DescribeResponse)(nil), // 35: fettle.subsystem.v1.DescribeResponse
	(*AssessRequest)(nil),    // 36: fettle.subsystem.v1.AssessRequest
	(*AssessResponse)(nil),   // 37: fettle.subsystem.v1.AssessResponse
}
var file_fettle_subsystem_v1_subsystem_proto_depIdxs = []int32{
	7,  // 0: fettle.subsystem.v1.Value.quantity:type_name -> fettle.subsystem.v1.Quantity
	3,  // 1: fettle.subsystem.v1.Value.not_read:type_name -> fettle.subsystem.v1.NotRead
	8,  // 2: fettle.subsystem.v1.Fact.value:type_name -> fettle.subsystem.v1.Value
	10, // 3: fettle.subsystem.v1.RemedyRef.target:type_name -> fettle.subsystem.v1.Target
	0,  // 4: fettle.subsystem.v1.Check.kind:type_name -> fettle.subsystem.v1.CheckKind
	14, // 5: fettle.subsystem.v1.Check.limit:type_name -> fettle.subsystem.v1.Limit
	1,  // 6: fettle.subsystem.v1.State.grade:type_name -> fettle.subsystem.v1.Grade
	15, // 7: fettle.subsystem.v1.Part.checks:type_name -> fettle.subsystem.v1.Check
	16, // 8: fettle.subsystem.v1.Part.life:type_name -> fettle.subsystem.v1.Life
	17, // 9: fettle.subsystem.v1.Part.outlook:type_name -> fettle.subsystem.v1.State
	5,  // 10: fettle.subsystem.v1.Step.strip_hours:type_name -> fettle.subsystem.v1.Range3
	5,  // 11: fettle.subsystem.v1.Step.refit_hours:type_name -> fettle.subsystem.v1.Range3
	19, // 12: fettle.subsystem.v1.Step.any_of:type_name -> fettle.subsystem.v1.AnyOf
	25, // 13: fettle.subsystem.v1.Step.one_use:type_name -> fettle.subsystem.v1.Item
	24, // 14: fettle.subsystem.v1.Step.cautions:type_name -> fettle.subsystem.v1.Caution
	10, // 15: fettle.subsystem.v1.Set.members:type_name -> fettle.subsystem.v1.Target
	8,  // 16: fettle.subsystem.v1.NoReuse.trigger:type_name -> fettle.subsystem.v1.Value
	2,  // 17: fettle.subsystem.v1.NoReuse.allowed:type_name -> fettle.subsystem.v1.RemedyKind
	10, // 18: fettle.subsystem.v1.Hidden.parts:type_name -> fettle.subsystem.v1.Target
	6,  // 19: fettle.subsystem.v1.Item.typical_each:type_name -> fettle.subsystem.v1.Money3
	5,  // 20: fettle.subsystem.v1.Operation.hours:type_name -> fettle.subsystem.v1.Range3
	25, // 21: fettle.subsystem.v1.Operation.items:type_name -> fettle.subsystem.v1.Item
	6,  // 22: fettle.subsystem.v1.Operation.outwork:type_name -> fettle.subsystem.v1.Money3
	5,  // 23: fettle.subsystem.v1.Operation.lead_weeks:type_name -> fettle.subsystem.v1.Range3
	24, // 24: fettle.subsystem.v1.Operation.cautions:type_name -> fettle.subsystem.v1.Caution
	9,  // 25: fettle.subsystem.v1.Sheet.default_facts:type_name -> fettle.subsystem.v1.Fact
	18, // 26: fettle.subsystem.v1.Sheet.parts:type_name -> fettle.subsystem.v1.Part
	20, // 27: fettle.subsystem.v1.Sheet.steps:type_name -> fettle.subsystem.v1.Step
	21, // 28: fettle.subsystem.v1.Sheet.sets:type_name -> fettle.subsystem.v1.Set
	22, // 29: fettle.subsystem.v1.Sheet.no_reuse:type_name -> fettle.subsystem.v1.NoReuse
	23, // 30: fettle.subsystem.v1.Sheet.hidden:type_name -> fettle.subsystem.v1.Hidden
	26, // 31: fettle.subsystem.v1.Sheet.operations:type_name -> fettle.subsystem.v1.Operation
	24, // 32: fettle.subsystem.v1.Sheet.cautions:type_name -> fettle.subsystem.v1.Caution
	10, // 33: fettle.subsystem.v1.Remedy.target:type_name -> fettle.subsystem.v1.Target
	2,  // 34: fettle.subsystem.v1.Remedy.kind:type_name -> fettle.subsystem.v1.RemedyKind
	13, // 35: fettle.subsystem.v1.Remedy.why:type_name -> fettle.subsystem.v1.Reason
	12, // 36: fettle.subsystem.v1.Remedy.yields:type_name -> fettle.subsystem.v1.Yield
	11, // 37: fettle.subsystem.v1.Remedy.requires:type_name -> fettle.subsystem.v1.RemedyRef
	11, // 38: fettle.subsystem.v1.Remedy.excludes:type_name -> fettle.subsystem.v1.RemedyRef
	10, // 39: fettle.subsystem.v1.Condition.target:type_name -> fettle.subsystem.v1.Target
	1,  // 40: fettle.subsystem.v1.Condition.grade:type_name -> fettle.subsystem.v1.Grade
	13, // 41: fettle.subsystem.v1.Condition.reasons:type_name -> fettle.subsystem.v1.Reason
	17, // 42: fettle.subsystem.v1.Condition.states:type_name -> fettle.subsystem.v1.State
	9,  // 43: fettle.subsystem.v1.Condition.facts:type_name -> fettle.subsystem.v1.Fact
	4,  // 44: fettle.subsystem.v1.Problem.severity:type_name -> fettle.subsystem.v1.Severity
	10, // 45: fettle.subsystem.v1.Problem.target:type_name -> fettle.subsystem.v1.Target
	10, // 46: fettle.subsystem.v1.Finding.target:type_name -> fettle.subsystem.v1.Target
	8,  // 47: fettle.subsystem.v1.Finding.value:type_name -> fettle.subsystem.v1.Value
	10, // 48: fettle.subsystem.v1.Override.target:type_name -> fettle.subsystem.v1.Target
	14, // 49: fettle.subsystem.v1.Override.limit:type_name -> fettle.subsystem.v1.Limit
	9,  // 50: fettle.subsystem.v1.DescribeRequest.facts:type_name -> fettle.subsystem.v1.Fact
	27, // 51: fettle.subsystem.v1.DescribeResponse.sheet:type_name -> fettle.subsystem.v1.Sheet
	30, // 52: fettle.subsystem.v1.DescribeResponse.problems:type_name -> fettle.subsystem.v1.Problem
	9,  // 53: fettle.subsystem.v1.AssessRequest.facts:type_name -> fettle.subsystem.v1.Fact
	31, // 54: fettle.subsystem.v1.AssessRequest.brief:type_name -> fettle.subsystem.v1.Brief
	33, // 55: fettle.subsystem.v1.AssessRequest.overrides:type_name -> fettle.subsystem.v1.Override
	32, // 56: fettle.subsystem.v1.AssessRequest.findings:type_name -> fettle.subsystem.v1.Finding
	29, // 57: fettle.subsystem.v1.AssessResponse.conditions:type_name -> fettle.subsystem.v1.Condition
	28, // 58: fettle.subsystem.v1.AssessResponse.remedies:type_name -> fettle.subsystem.v1.Remedy
	26, // 59: fettle.subsystem.v1.AssessResponse.operations:type_name -> fettle.subsystem.v1.Operation
	30, // 60: fettle.subsystem.v1.AssessResponse.problems:type_name -> fettle.subsystem.v1.Problem
	34, // 61: fettle.subsystem.v1.SubsystemService.Describe:input_type -> fettle.subsystem.v1.DescribeRequest
	36, // 62: fettle.subsystem.v1.SubsystemService.Assess:input_type -> fettle.subsystem.v1.AssessRequest
	35, // 63: fettle.subsystem.v1.SubsystemService.Describe:output_type -> fettle.subsystem.v1.DescribeResponse
	37, // 64: fettle.subsystem.v1.SubsystemService.Assess:output_type -> fettle.subsystem.v1.AssessResponse
	63, // [63:65] is the sub-list for method output_type
	61, // [61:63] is the sub-list for method input_type
	61, // [61:61] is the sub-list for extension type_name
	61, // [61:61] is the sub-list for extension extendee
	0,  // [0:61] is the sub-list for field type_name
}

func init() { file_fettle_subsystem_v1_subsystem_proto_init() }
func file_fettle_subsystem_v1_subsystem_proto_init() {
	if File_fettle_subsystem_v1_subsystem_proto != nil {
		return
	}
	file_fettle_subsystem_v1_subsystem_proto_msgTypes[3].OneofWrappers = []any{
		(*Value_Quantity)(nil),
		(*Value_Count)(nil),
		(*Value_DamageClass)(nil),
		(*Value_Pass)(nil),
		(*Value_Word)(nil),
		(*Value_NotRead)(nil),
	}
	file_fettle_subsystem_v1_subsystem_proto_msgTypes[9].OneofWrappers = []any{}
	file_fettle_subsystem_v1_subsystem_proto_msgTypes[10].OneofWrappers = []any{}
	file_fettle_subsystem_v1_subsystem_proto_msgTypes[16].OneofWrappers = []any{
		(*Set_SameKind)(nil),
		(*Set_AgreeOn)(nil),
	}
	file_fettle_subsystem_v1_subsystem_proto_msgTypes[23].OneofWrappers = []any{}
	file_fettle_subsystem_v1_subsystem_proto_msgTypes[24].OneofWrappers = []any{}
	file_fettle_subsystem_v1_subsystem_proto_msgTypes[26].OneofWrappers = []any{}
	type x struct{}
	out := protoimpl.TypeBuilder{
		File: protoimpl.DescBuilder{
			GoPackagePath: reflect.TypeOf(x{}).PkgPath(),
			RawDescriptor: unsafe.Slice(unsafe.StringData(file_fettle_subsystem_v1_subsystem_proto_rawDesc), len(file_fettle_subsystem_v1_subsystem_proto_rawDesc)),
			NumEnums:      5,
			NumMessages:   33,
			NumExtensions: 0,
			NumServices:   1,
		},
		GoTypes:           file_fettle_subsystem_v1_subsystem_proto_goTypes,
		DependencyIndexes: file_fettle_subsystem_v1_subsystem_proto_depIdxs,
		EnumInfos:         file_fettle_subsystem_v1_subsystem_proto_enumTypes,
		MessageInfos:      file_fettle_subsystem_v1_subsystem_proto_msgTypes,
	}.Build()
	File_fettle_subsystem_v1_subsystem_proto = out.File
	file_fettle_subsystem_v1_subsystem_proto_goTypes = nil
	file_fettle_subsystem_v1_subsystem_proto_depIdxs = nil
}
