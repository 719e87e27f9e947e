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

// Code generated by protoc-gen-go-grpc. DO NOT EDIT.
// versions:
// - protoc-gen-go-grpc v1.6.2
// - protoc             v3.21.12
// source: fettle/subsystem/v1/subsystem.proto

package subsystemv1

import (
	context "context"
	grpc "google.golang.org/grpc"
	codes "google.golang.org/grpc/codes"
	status "google.golang.org/grpc/status"
)

// This is a compile-time assertion to ensure that this generated file
// is compatible with the grpc package it is being compiled against.
// Requires gRPC-Go v1.64.0 or later.
const _ = grpc.SupportPackageIsVersion9

const (
	SubsystemService_Describe_FullMethodName = "/fettle.subsystem.v1.SubsystemService/Describe"
	SubsystemService_Assess_FullMethodName   = "/fettle.subsystem.v1.SubsystemService/Assess"
)

// SubsystemServiceClient is the client API for SubsystemService service.
//
// For semantics around ctx use and closing/ending streaming RPCs, please refer to https://pkg.go.dev/google.golang.org/grpc/?tab=doc#ClientConn.NewStream.
//
// SubsystemService is the whole of what a plugin serves to fettle.
type SubsystemServiceClient interface {
	// Describe gives the sheet for a unit of which these facts are known. It is called with no facts at the start and
	// must then answer too: a limit or a list of positions that hangs on a missing fact is left out and named in a Problem.
	Describe(ctx context.Context, in *DescribeRequest, opts ...grpc.CallOption) (*DescribeResponse, error)
	// Assess judges one unit by what was found on it.
	Assess(ctx context.Context, in *AssessRequest, opts ...grpc.CallOption) (*AssessResponse, error)
}

type subsystemServiceClient struct {
	cc grpc.ClientConnInterface
}

func NewSubsystemServiceClient(cc grpc.ClientConnInterface) SubsystemServiceClient {
	return &subsystemServiceClient{cc}
}

func (c *subsystemServiceClient) Describe(ctx context.Context, in *DescribeRequest, opts ...grpc.CallOption) (*DescribeResponse, error) {
	cOpts := append([]grpc.CallOption{grpc.StaticMethod()}, opts...)
	out := new(DescribeResponse)
	err := c.cc.Invoke(ctx, SubsystemService_Describe_FullMethodName, in, out, cOpts...)
	if err != nil {
		return nil, err
	}
	return out, nil
}

func (c *subsystemServiceClient) Assess(ctx context.Context, in *AssessRequest, opts ...grpc.CallOption) (*AssessResponse, error) {
	cOpts := append([]grpc.CallOption{grpc.StaticMethod()}, opts...)
	out := new(AssessResponse)
	err := c.cc.Invoke(ctx, SubsystemService_Assess_FullMethodName, in, out, cOpts...)
	if err != nil {
		return nil, err
	}
	return out, nil
}

// SubsystemServiceServer is the server API for SubsystemService service.
// All implementations must embed UnimplementedSubsystemServiceServer
// for forward compatibility.
//
// SubsystemService is the whole of what a plugin serves to fettle.
type SubsystemServiceServer interface {
	// Describe gives the sheet for a unit of which these facts are known. It is called with no facts at the start and
	// must then answer too: a limit or a list of positions that hangs on a missing fact is left out and named in a Problem.
	Describe(context.Context, *DescribeRequest) (*DescribeResponse, error)
	// Assess judges one unit by what was found on it.
	Assess(context.Context, *AssessRequest) (*AssessResponse, error)
	mustEmbedUnimplementedSubsystemServiceServer()
}

// UnimplementedSubsystemServiceServer must be embedded to have
// forward compatible implementations.
//
// NOTE: this should be embedded by value instead of pointer to avoid a nil
// pointer dereference when methods are called.
type UnimplementedSubsystemServiceServer struct{}

func (UnimplementedSubsystemServiceServer) Describe(context.Context, *DescribeRequest) (*DescribeResponse, error) {
	return nil, status.Error(codes.Unimplemented, "method Describe not implemented")
}
func (UnimplementedSubsystemServiceServer) Assess(context.Context, *AssessRequest) (*AssessResponse, error) {
	return nil, status.Error(codes.Unimplemented, "method Assess not implemented")
}
func (UnimplementedSubsystemServiceServer) mustEmbedUnimplementedSubsystemServiceServer() {}
func (UnimplementedSubsystemServiceServer) testEmbeddedByValue()                          {}

// UnsafeSubsystemServiceServer may be embedded to opt out of forward compatibility for this service.
// Use of this interface is not recommended, as added methods to SubsystemServiceServer will
// result in compilation errors.
type UnsafeSubsystemServiceServer interface {
	mustEmbedUnimplementedSubsystemServiceServer()
}

func RegisterSubsystemServiceServer(s grpc.ServiceRegistrar, srv SubsystemServiceServer) {
	// If the following call panics, it indicates UnimplementedSubsystemServiceServer was
	// embedded by pointer and is nil.  This will cause panics if an
	// unimplemented method is ever invoked, so we test this at initialization
	// time to prevent it from happening at runtime later due to I/O.
	if t, ok := srv.(interface{ testEmbeddedByValue() }); ok {
		t.testEmbeddedByValue()
	}
	s.RegisterService(&SubsystemService_ServiceDesc, srv)
}

func _SubsystemService_Describe_Handler(srv interface{}, ctx context.Context, dec func(interface{}) error, interceptor grpc.UnaryServerInterceptor) (interface{}, error) {
	in := new(DescribeRequest)
	if err := dec(in); err != nil {
		return nil, err
	}
	if interceptor == nil {
		return srv.(SubsystemServiceServer).Describe(ctx, in)
	}
	info := &grpc.UnaryServerInfo{
		Server:     srv,
		FullMethod: SubsystemService_Describe_FullMethodName,
	}
	handler := func(ctx context.Context, req interface{}) (interface{}, error) {
		return srv.(SubsystemServiceServer).Describe(ctx, req.(*DescribeRequest))
	}
	return interceptor(ctx, in, info, handler)
}

func _SubsystemService_Assess_Handler(srv interface{}, ctx context.Context, dec func(interface{}) error, interceptor grpc.UnaryServerInterceptor) (interface{}, error) {
	in := new(AssessRequest)
	if err := dec(in); err != nil {
		return nil, err
	}
	if interceptor == nil {
		return srv.(SubsystemServiceServer).Assess(ctx, in)
	}
	info := &grpc.UnaryServerInfo{
		Server:     srv,
		FullMethod: SubsystemService_Assess_FullMethodName,
	}
	handler := func(ctx context.Context, req interface{}) (interface{}, error) {
		return srv.(SubsystemServiceServer).Assess(ctx, req.(*AssessRequest))
	}
	return interceptor(ctx, in, info, handler)
}

// SubsystemService_ServiceDesc is the grpc.ServiceDesc for SubsystemService service.
// It's only intended for direct use with grpc.RegisterService,
// and not to be introspected or modified (even as a copy)
var SubsystemService_ServiceDesc = grpc.ServiceDesc{
	ServiceName: "fettle.subsystem.v1.SubsystemService",
	HandlerType: (*SubsystemServiceServer)(nil),
	Methods: []grpc.MethodDesc{
		{
			MethodName: "Describe",
			Handler:    _SubsystemService_Describe_Handler,
		},
		{
			MethodName: "Assess",
			Handler:    _SubsystemService_Assess_Handler,
		},
	},
	Streams:  []grpc.StreamDesc{},
	Metadata: "fettle/subsystem/v1/subsystem.proto",
}
