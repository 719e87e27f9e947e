package sdk

import (
	"context"
	"errors"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

// statusCodes pairs core's codes with gRPC's. Anything else is Internal.
var statusCodes = []struct {
	core core.Code
	grpc codes.Code
}{
	{core.Invalid, codes.InvalidArgument},
	{core.NotFound, codes.NotFound},
	{core.Conflict, codes.FailedPrecondition},
	{core.Unavailable, codes.Unavailable},
	{core.Newer, codes.Unimplemented},
	{core.Internal, codes.Internal},
}

// statusOf turns an Assessor's error into a gRPC status; what to do next travels as a Problem in the details.
func statusOf(err error) error {
	if errors.Is(err, context.DeadlineExceeded) || errors.Is(err, context.Canceled) {
		return status.FromContextError(err).Err()
	}
	code := codes.Internal
	for _, c := range statusCodes {
		if c.core == core.ErrorCode(err) {
			code = c.grpc
		}
	}
	s := status.New(code, sendable(err.Error()))
	detail := &pb.Problem{Severity: pb.Severity_SEVERITY_ERROR, Summary: s.Message(), Next: sendable(core.ErrorNext(err))}
	if with, err := s.WithDetails(detail); err == nil {
		s = with
	}
	return s.Err()
}

// errorOf turns a status that carries a Problem back into a *core.Error. Any other status is the connection's own
// and comes back as it is.
func errorOf(err error) error {
	s, ok := status.FromError(err)
	if !ok || s.Code() == codes.OK {
		return err
	}
	for _, d := range s.Details() {
		p, ok := d.(*pb.Problem)
		if !ok {
			continue
		}
		code := core.Internal
		for _, c := range statusCodes {
			if c.grpc == s.Code() {
				code = c.core
			}
		}
		return &core.Error{Code: code, What: p.GetSummary(), Next: p.GetNext()}
	}
	return err
}
