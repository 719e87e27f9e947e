package sdk

import (
	"context"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"time"

	"github.com/hashicorp/go-hclog"
	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

// What host and plugin must agree on before they speak. The cookie only tells a person who starts a plugin by hand
// that this is not how it is done; it protects nothing.
const (
	ProtocolVersion = 1           // of the contract in proto/fettle/subsystem/v1
	PluginName      = "subsystem" // key of the one thing a plugin serves
	CookieKey       = "FETTLE_PLUGIN"
	CookieValue     = "subsystem-v1"
	MaxMessage      = 4 << 20 // bytes of one message, both ways
	hostPipe        = 3       // descriptor whose end of file says that the host is gone
)

// Handshake is what go-plugin compares at the start.
func Handshake() plugin.HandshakeConfig {
	return plugin.HandshakeConfig{MagicCookieKey: CookieKey, MagicCookieValue: CookieValue}
}

// PluginSets gives go-plugin's versioned sets: for a plugin with the assessor it serves, for a host with nil.
func PluginSets(a core.Assessor) map[int]plugin.PluginSet {
	return map[int]plugin.PluginSet{ProtocolVersion: {PluginName: &wirePlugin{assessor: a}}}
}

// ServeAssessor serves a until the host ends it or is gone. It is the last call of a plugin's main; nothing may be
// printed to standard output before it.
func ServeAssessor(a core.Assessor) {
	if os.Getenv(CookieKey) == CookieValue {
		endWithHost(os.NewFile(hostPipe, "host"))
	}
	secured, err := mutualTLS()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	plugin.Serve(&plugin.ServeConfig{
		HandshakeConfig:  Handshake(),
		TLSProvider:      secured,
		VersionedPlugins: PluginSets(a),
		GRPCServer:       newServer,
		Logger:           hclog.New(&hclog.LoggerOptions{Level: hclog.Error, Output: os.Stderr}),
	})
}

// alive keeps the host's pipe from being closed by the garbage collector.
var alive *os.File //nolint:unused // holding it is its use

// endWithHost ends the process when the pipe that only the host holds open is closed. A descriptor that is no pipe is
// left alone: then the plugin was started by something else.
func endWithHost(pipe *os.File) {
	alive = pipe
	if info, err := pipe.Stat(); err != nil || info.Mode()&os.ModeNamedPipe == 0 {
		return
	}
	go func() {
		_, _ = io.Copy(io.Discard, pipe)
		os.Exit(0)
	}()
}

// newServer makes the gRPC server: bounded messages, deterministic bytes, panics turned into a status.
func newServer(options []grpc.ServerOption) *grpc.Server {
	return grpc.NewServer(append(options,
		grpc.MaxRecvMsgSize(MaxMessage),
		grpc.MaxSendMsgSize(MaxMessage),
		grpc.ForceServerCodecV2(servedCodec{}),
		grpc.ChainUnaryInterceptor(recovering, idling()),
	)...)
}

// recovering turns a panic of a handler into codes.Internal with a short message; the stack goes to standard error.
func recovering(ctx context.Context, req any, _ *grpc.UnaryServerInfo, handle grpc.UnaryHandler) (answer any, err error) {
	defer func() {
		if p := recover(); p != nil {
			fmt.Fprintf(os.Stderr, "panic: %v\n%s", p, debug.Stack())
			answer, err = nil, status.Errorf(codes.Internal, "panic: %.200s", fmt.Sprint(p))
		}
	}()
	return handle(ctx, req)
}

// idleAfter is how long after its last call a plugin gives memory back.
const idleAfter = time.Second

// idling gives what a call used back to the system once no call has come for a while: a plugin mostly waits. It collects
// twice, for what lies in pools is let go at the second time.
func idling() grpc.UnaryServerInterceptor {
	rest := time.AfterFunc(idleAfter, func() {
		runtime.GC()
		debug.FreeOSMemory()
	})
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, handle grpc.UnaryHandler) (any, error) {
		defer rest.Reset(idleAfter)
		return handle(ctx, req)
	}
}

// wirePlugin joins an Assessor to go-plugin, on either side.
type wirePlugin struct {
	plugin.NetRPCUnsupportedPlugin
	assessor core.Assessor
}

// GRPCServer registers the assessor: the plugin's side.
func (p *wirePlugin) GRPCServer(_ *plugin.GRPCBroker, s *grpc.Server) error {
	pb.RegisterSubsystemServiceServer(s, &server{assessor: p.assessor})
	return nil
}

// GRPCClient gives a core.Assessor over the connection: the host's side.
func (p *wirePlugin) GRPCClient(_ context.Context, _ *plugin.GRPCBroker, conn *grpc.ClientConn) (any, error) {
	return NewClient(conn), nil
}

// server answers the contract's calls with an Assessor.
type server struct {
	pb.UnimplementedSubsystemServiceServer
	assessor core.Assessor
}

func (s *server) Describe(ctx context.Context, r *pb.DescribeRequest) (*pb.DescribeResponse, error) {
	sheet, problems, err := s.assessor.Describe(ctx, convertAll(r.GetFacts(), factFromWire))
	if err != nil {
		return nil, statusOf(err)
	}
	return &pb.DescribeResponse{Sheet: sheetToWire(sheet), Problems: convertAll(problems, problemToWire)}, nil
}

func (s *server) Assess(ctx context.Context, r *pb.AssessRequest) (*pb.AssessResponse, error) {
	a, err := s.assessor.Assess(ctx, requestFromWire(r))
	if err != nil {
		return nil, statusOf(err)
	}
	return assessmentToWire(a), nil
}
