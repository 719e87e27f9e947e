package sdk

import (
	"context"

	"google.golang.org/grpc"

	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

// client is a core.Assessor at the other end of a gRPC connection.
type client struct {
	rpc     pb.SubsystemServiceClient
	options []grpc.CallOption
}

// NewClient gives the Assessor that a plugin serves on a connection. Messages over MaxMessage bytes are refused with
// codes.ResourceExhausted. An error the plugin itself answered with comes back as a *core.Error, a failure of the
// connection as a gRPC status.
func NewClient(conn grpc.ClientConnInterface) core.Assessor {
	return &client{rpc: pb.NewSubsystemServiceClient(conn), options: []grpc.CallOption{
		grpc.MaxCallRecvMsgSize(MaxMessage),
		grpc.MaxCallSendMsgSize(MaxMessage),
		grpc.ForceCodecV2(wireCodec{}),
	}}
}

// Describe asks the plugin for its sheet.
func (c *client) Describe(ctx context.Context, facts []core.Fact) (core.Sheet, []core.Problem, error) {
	r, err := c.rpc.Describe(ctx, &pb.DescribeRequest{Facts: convertAll(facts, factToWire)}, c.options...)
	if err != nil {
		return core.Sheet{}, nil, errorOf(err)
	}
	return sheetFromWire(r.GetSheet()), convertAll(r.GetProblems(), problemFromWire), nil
}

// Assess asks the plugin to judge one unit.
func (c *client) Assess(ctx context.Context, q core.AssessRequest) (core.Assessment, error) {
	r, err := c.rpc.Assess(ctx, requestToWire(q), c.options...)
	if err != nil {
		return core.Assessment{}, errorOf(err)
	}
	return assessmentFromWire(r), nil
}
