package sdk

import (
	"context"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/mem"
	"google.golang.org/grpc/status"
	"google.golang.org/grpc/test/bufconn"

	"github.com/fettle-tools/fettle/core"
	pb "github.com/fettle-tools/fettle/proto/fettle/subsystem/v1"
)

// fakeAssessor answers with what its fields say.
type fakeAssessor struct {
	describe func(facts []core.Fact) (core.Sheet, []core.Problem, error)
	assess   func(core.AssessRequest) (core.Assessment, error)
}

func (f fakeAssessor) Describe(_ context.Context, facts []core.Fact) (core.Sheet, []core.Problem, error) {
	return f.describe(facts)
}

func (f fakeAssessor) Assess(_ context.Context, r core.AssessRequest) (core.Assessment, error) {
	return f.assess(r)
}

// overConnection serves a and gives the other end.
func overConnection(t *testing.T, a core.Assessor) core.Assessor {
	t.Helper()
	s := newServer(nil)
	require.NoError(t, (&wirePlugin{assessor: a}).GRPCServer(nil, s))
	listener := bufconn.Listen(1 << 16)
	go func() { _ = s.Serve(listener) }()
	t.Cleanup(s.Stop)
	conn, err := grpc.NewClient("passthrough:///plugin", grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return listener.DialContext(ctx) }))
	require.NoError(t, err)
	t.Cleanup(func() { _ = conn.Close() })
	return NewClient(conn)
}

func TestBothCallsReachTheAssessorAndComeBack(t *testing.T) {
	fact := core.Fact{Name: "D", Value: core.Value{Kind: core.ValueQuantity, Quantity: core.Quantity{Value: 2.5, Unit: "in"}}, Source: "pack"}
	problem := core.Problem{Severity: core.SeverityWarning, Summary: "odd", Target: core.Target{Part: "gear"}}
	far := overConnection(t, fakeAssessor{
		describe: func(facts []core.Fact) (core.Sheet, []core.Problem, error) {
			return core.Sheet{Subsystem: "gearbox", DefaultFacts: facts}, []core.Problem{problem}, nil
		},
		assess: func(r core.AssessRequest) (core.Assessment, error) {
			return core.Assessment{Problems: []core.Problem{{Severity: core.SeverityNote, Summary: r.Unit + r.Findings[0].ID}}}, nil
		},
	})
	sheet, problems, err := far.Describe(t.Context(), []core.Fact{fact})
	require.NoError(t, err)
	require.Equal(t, core.Sheet{Subsystem: "gearbox", DefaultFacts: []core.Fact{fact}}, sheet)
	require.Equal(t, []core.Problem{problem}, problems)
	a, err := far.Assess(t.Context(), core.AssessRequest{Unit: "gearbox-2", Findings: []core.Finding{{ID: "f1"}}})
	require.NoError(t, err)
	require.Equal(t, "gearbox-2f1", a.Problems[0].Summary)
}

func TestAPanicCostsTheCallAndNotTheProcess(t *testing.T) {
	stderr, err := os.Create(filepath.Join(t.TempDir(), "stderr"))
	require.NoError(t, err)
	defer func(was *os.File) { os.Stderr = was; _ = stderr.Close() }(os.Stderr)
	os.Stderr = stderr
	far := overConnection(t, fakeAssessor{
		assess: func(core.AssessRequest) (core.Assessment, error) { panic(strings.Repeat("too long ", 100)) },
		describe: func([]core.Fact) (core.Sheet, []core.Problem, error) {
			return core.Sheet{Subsystem: "still here"}, nil, nil
		},
	})
	_, err = far.Assess(t.Context(), core.AssessRequest{})
	require.Equal(t, codes.Internal, status.Code(err))
	require.Contains(t, err.Error(), "panic: too long")
	require.Less(t, len(err.Error()), 300)
	sheet, _, err := far.Describe(t.Context(), nil)
	require.NoError(t, err)
	require.Equal(t, "still here", sheet.Subsystem)
	trace, err := os.ReadFile(stderr.Name())
	require.NoError(t, err)
	require.Contains(t, string(trace), "serve_test.go", "the stack goes to the log")
}

func TestAnErrorKeepsItsCodeAndItsAdvice(t *testing.T) {
	for _, code := range []core.Code{core.Invalid, core.NotFound, core.Conflict, core.Unavailable, core.Internal, core.Newer} {
		far := overConnection(t, fakeAssessor{assess: func(core.AssessRequest) (core.Assessment, error) {
			return core.Assessment{}, core.Errorf(code, "do this", "this happened")
		}})
		_, err := far.Assess(t.Context(), core.AssessRequest{})
		require.Equal(t, code, core.ErrorCode(err))
		require.Equal(t, "do this", core.ErrorNext(err))
		require.Equal(t, "this happened", err.Error())
	}
}

func TestMessagesAreBoundedBothWays(t *testing.T) {
	big := strings.Repeat("x", MaxMessage)
	far := overConnection(t, fakeAssessor{
		assess: func(core.AssessRequest) (core.Assessment, error) { return core.Assessment{}, nil },
		describe: func([]core.Fact) (core.Sheet, []core.Problem, error) {
			return core.Sheet{Title: big}, nil, nil
		},
	})
	_, err := far.Assess(t.Context(), core.AssessRequest{Unit: big})
	require.Equal(t, codes.ResourceExhausted, status.Code(err))
	_, _, err = far.Describe(t.Context(), nil)
	require.Equal(t, codes.ResourceExhausted, status.Code(err))
}

func TestAnAnswerOfVeryManyPartsIsRefusedUnread(t *testing.T) {
	far := overConnection(t, fakeAssessor{assess: func(core.AssessRequest) (core.Assessment, error) {
		return core.Assessment{Conditions: []core.Condition{{Reasons: make([]core.Reason, maxParts)}}}, nil
	}})
	_, err := far.Assess(t.Context(), core.AssessRequest{})
	require.ErrorContains(t, err, errTooManyParts.Error())
	for _, broken := range []string{"\x0a", "\x0a\x05ab", "\xff\xff", "\x0b\x0a"} {
		require.Error(t, wireCodec{}.Unmarshal(mem.BufferSlice{mem.SliceBuffer(broken)}, &pb.AssessResponse{}), "%q", broken)
	}
}

func TestTheSameAnswerIsTheSameBytes(t *testing.T) {
	var a core.Assessment
	for range 3 {
		a.Remedies = append(a.Remedies, core.Remedy{ID: "reuse", Kind: core.Reuse, Yields: []core.Yield{{Key: "k", Value: "v"}}})
	}
	first, err := wireCodec{}.Marshal(assessmentToWire(a))
	require.NoError(t, err)
	second, err := wireCodec{}.Marshal(assessmentToWire(a))
	require.NoError(t, err)
	require.Equal(t, first.Materialize(), second.Materialize())
}

func TestWhatIsServedIsWhatWasPinned(t *testing.T) {
	path := filepath.Join(t.TempDir(), "sheet.yaml")
	require.NoError(t, os.WriteFile(path, []byte("abc"), 0o600))
	const pin = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" // of "abc": FIPS 180-4, example B.1
	data, err := PinnedSheet(path, pin)
	require.NoError(t, err)
	require.Equal(t, "abc", string(data))
	require.NoError(t, os.WriteFile(path, []byte("abd"), 0o600))
	_, err = PinnedSheet(path, pin)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	_, err = PinnedSheet(path+"x", pin)
	require.Equal(t, core.Unavailable, core.ErrorCode(err))
}
