package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/spf13/viper"
	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// demoShop is a command in a demo shop of its own, with every subsystem that is built in.
func demoShop(tb testing.TB) *command {
	tb.Helper()
	subsystems, alone := filepath.Join(programs(tb), "fettle-subsystems"), builtinSubsystems
	names, err := made()
	require.NoError(tb, err)
	builtinSubsystems = names
	tb.Cleanup(func() { builtinSubsystems = alone })
	env := environment{in: bytes.NewReader(nil), out: io.Discard, err: io.Discard, clock: time.Now, folder: filepath.Dir(subsystems),
		getenv: func(string) string { return "" }}
	dir := filepath.Join(tb.TempDir(), "shop")
	require.Zero(tb, run(context.Background(), []string{"demo", dir}, env))
	c := &command{environment: env, flags: viper.New()}
	c.root()
	c.flags.Set("dir", dir)
	return c
}

// BenchmarkWarmPlan is a plan of the demo job with the shop open and the plugins running: of its engine's bottom end and its gearbox alone (the
// aim is 50 ms), of the whole vehicle (150 ms), and of the whole vehicle within a sum of money, where parts may be left (no aim: 25 plans and more).
func BenchmarkWarmPlan(b *testing.B) {
	ctx, c := context.Background(), demoShop(b)
	require.NoError(b, c.withShop(ctx, func(s *shop) error {
		whole, err := s.job(ctx, "J-001")
		require.NoError(b, err)
		two := whole
		two.Extent = core.Extent{Kind: core.ExtentNamed, Names: []string{"bottom-end", "gearbox"}}
		within, most := whole, core.MinorMoney(90_000_00, s.settings().Currency)
		within.Brief.Most = &most
		for _, of := range []struct {
			name string
			job  core.Job
		}{{"two subsystems", two}, {"whole vehicle", whole}, {"within a sum", within}} {
			b.Run(of.name, func(b *testing.B) {
				_, err = s.plan(ctx, of.job) // the plugins start
				require.NoError(b, err)
				for b.Loop() {
					if _, err := s.plan(ctx, of.job); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
		return nil
	}))
}

// BenchmarkWarmFinish is the same plan of the whole vehicle with the finish drawn beside it. The aim is 250 ms.
func BenchmarkWarmFinish(b *testing.B) {
	ctx, c := context.Background(), demoShop(b)
	require.NoError(b, c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, "J-001")
		require.NoError(b, err)
		p, err := s.planFinish(ctx, job) // the plugins start
		require.NoError(b, err)
		require.NotNil(b, p.Finish)
		for b.Loop() {
			if _, err := s.planFinish(ctx, job); err != nil {
				b.Fatal(err)
			}
		}
		return nil
	}))
}

// BenchmarkImport2000 takes 2,000 findings in, looked up against the sheets, durable when it returns. The aim is 1 s.
func BenchmarkImport2000(b *testing.B) {
	ctx, c := context.Background(), demoShop(b)
	require.NoError(b, c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, "J-001")
		require.NoError(b, err)
		_, err = s.recorder(ctx, job) // the plugins start
		require.NoError(b, err)
		n := 0
		for b.Loop() {
			b.StopTimer()
			n++
			data := findings2000(n)
			b.StartTimer()
			r, err := s.importFindings(ctx, job.Number, data, "many.csv", true)
			if err != nil || r.New != 2000 {
				b.Fatalf("%d new of 2000: %v", r.New, err)
			}
		}
		return nil
	}))
}

// findings2000 is a file of 2,000 rows that differ from those of every other call.
func findings2000(n int) []byte {
	var f bytes.Buffer
	f.WriteString("subsystem,part,position,check,station,value,instrument,by,at,note\n")
	pins, stations := []string{"P1", "P2", "P3", "P4"}, []string{"FV", "FH", "RV", "RH"}
	for i := range 2000 {
		fmt.Fprintf(&f, "bottom-end,crankpin,%s,diameter,%s,%.4f in,micrometer,Jory,2026-10-06T08:00:00Z,round %d reading %d\n",
			pins[i%4], stations[i/4%4], 1.99+float64(i%90)/10000, n, i)
	}
	return f.Bytes()
}

// BenchmarkColdPlan is fettle plan as a process of its own, plugins started and ended. The aim is 1 s.
func BenchmarkColdPlan(b *testing.B) {
	c := demoShop(b)
	program := filepath.Join(programs(b), "fettle")
	for b.Loop() {
		cmd := exec.Command(program, "-C", c.dir(), "plan", "J-001")
		cmd.Stderr = os.Stderr
		out, err := cmd.Output()
		if err != nil || len(out) == 0 {
			b.Fatalf("%v: %d bytes", err, len(out))
		}
	}
}

// BenchmarkLook ranks what to look at next on the whole vehicle with the plugins running (the aim is 1 s), and shows how much of the price's
// variance is settled after 30, 60 and 120 minutes at the bench in that order, in the sheets' order, and in a random one (the mean of ten),
// in per cent: of the demo's job as it stands, and of the same before anything was read.
func BenchmarkLook(b *testing.B) {
	ctx, c := context.Background(), demoShop(b)
	require.NoError(b, c.withShop(ctx, func(s *shop) error {
		job, err := s.job(ctx, "J-001")
		require.NoError(b, err)
		req, err := s.request(ctx, job)
		require.NoError(b, err)
		unread := req
		unread.Findings = nil
		for _, of := range []struct {
			name string
			req  core.PlanRequest
		}{{"as it stands", req}, {"nothing read", unread}} {
			b.Run(of.name, func(b *testing.B) {
				p := s.planner()
				var looks []core.Look
				for b.Loop() {
					if looks, err = p.LookNext(ctx, of.req); err != nil {
						b.Fatal(err)
					}
				}
				in := func(order func([]core.Look) []core.Look) []core.Look {
					looks, err := p.LookInOrder(ctx, of.req, order)
					require.NoError(b, err)
					return looks
				}
				sheet := in(func(looks []core.Look) []core.Look { return looks })
				for _, minutes := range []float64{30, 60, 120} {
					b.ReportMetric(100*settledAfter(looks, minutes), fmt.Sprintf("%%-next-%.0f", minutes))
					b.ReportMetric(100*settledAfter(sheet, minutes), fmt.Sprintf("%%-sheet-%.0f", minutes))
				}
				random := map[float64]float64{}
				const tries = 10
				for try := range uint64(tries) {
					r := rand.New(rand.NewPCG(try, 1))
					looks := in(func(looks []core.Look) []core.Look {
						r.Shuffle(len(looks), func(i, j int) { looks[i], looks[j] = looks[j], looks[i] })
						return looks
					})
					for _, minutes := range []float64{30, 60, 120} {
						random[minutes] += settledAfter(looks, minutes) / tries
					}
				}
				for minutes, share := range random {
					b.ReportMetric(100*share, fmt.Sprintf("%%-random-%.0f", minutes))
				}
			})
		}
		return nil
	}))
}

// settledAfter is what the looks that fit into so many minutes, one after another, settle together.
func settledAfter(looks []core.Look, minutes float64) (share float64) {
	for _, l := range looks {
		if minutes -= l.Minutes; minutes < 0 {
			break
		}
		share = l.Together
	}
	return share
}
