package main

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core/web"
)

// wholePages are pages of the demo's whole vehicle, and the shop's.
var wholePages = []string{"/", "/shop", "/shop/parties", "/shop/prices", "/shop/prices?job=J-001", "/new", "/offline", "/tags?q=head", "/tags/T-001",
	"/jobs/J-001", "/jobs/J-001/begin", "/jobs/J-001/arrive", "/jobs/J-001/strip", "/jobs/J-001/tags", "/jobs/J-001/sheets", "/jobs/J-001/sheets/bottom-end", "/jobs/J-001/sheets/brakes", "/jobs/J-001/labels",
	"/jobs/J-001/bench", "/jobs/J-001/bench/bottom-end", "/jobs/J-001/bench/head", "/jobs/J-001/bench/brakes", "/jobs/J-001/bench/body",
	"/jobs/J-001/look", "/jobs/J-001/choices", "/jobs/J-001/choices/body", "/jobs/J-001/choices/gearbox/synchro-ring/third",
	"/jobs/J-001/money", "/jobs/J-001/money/what-if", "/jobs/J-001/money/weighing", "/jobs/J-001/money/days",
	"/jobs/J-001/papers", "/jobs/J-001/papers/agree/budget", "/jobs/J-001/papers/J-001-S/1",
	"/jobs/J-001/out", "/jobs/J-001/out/send", "/jobs/J-001/out/send/new?for=work%3abottom-end%40engine%3arods", "/jobs/J-001/out/buy", "/jobs/J-001/out/buy/new?item=crank-thrust-washers&from=", "/jobs/J-001/out/O-001", "/jobs/J-001/out/B-001",
	"/jobs/J-001/build", "/jobs/J-001/build?of=head", "/jobs/J-001/build/fit?what=bottom-end/main-journal/M1", "/jobs/J-001/handover"}

// pagesOf serves the demo's shop in this process, with its plugins running.
func pagesOf(b *testing.B, f func(http.Handler)) {
	ctx, c := context.Background(), demoShop(b)
	require.NoError(b, c.withShop(ctx, func(s *shop) error {
		h, err := web.New(ctx, s.webConfig(ctx))
		require.NoError(b, err)
		f(h)
		return nil
	}))
}

func get(tb testing.TB, h http.Handler, page string) int {
	w := httptest.NewRecorder()
	r := httptest.NewRequest(http.MethodGet, page, nil)
	r.Header.Set("Accept-Encoding", "gzip")
	h.ServeHTTP(w, r)
	if w.Code != http.StatusOK {
		tb.Fatalf("%s: %d %s", page, w.Code, w.Body)
	}
	return w.Body.Len()
}

// BenchmarkPages is each page of the whole vehicle at the server, the book unchanged since it was last asked for, and what is sent of it. The aims are 30 ms
// and 60 kB.
func BenchmarkPages(b *testing.B) {
	pagesOf(b, func(h http.Handler) {
		for _, page := range wholePages {
			b.Run(page, func(b *testing.B) {
				size, took := get(b, h, page), []time.Duration{}
				for b.Loop() {
					start := time.Now()
					get(b, h, page)
					took = append(took, time.Since(start))
				}
				b.ReportMetric(float64(size)/1000, "kB")
				b.ReportMetric(milliseconds(middle(took)), "ms-median")
			})
		}
	})
}

// BenchmarkReadingToGrade is a reading sent, taken into the book, and the page of its subsystem made again with the new grade. The aim is 150 ms, the
// browser's share included.
func BenchmarkReadingToGrade(b *testing.B) {
	pagesOf(b, func(h http.Handler) {
		get(b, h, "/jobs/J-001/bench/bottom-end")
		n := 0
		for b.Loop() {
			n++
			body := fmt.Sprintf(`{"readings":[{"subsystem":"bottom-end","unit":"engine","part":"crankpin","position":"P1","check":"diameter","station":"FV","value":"1.99%02d in","note":"again"}]}`, n%90)
			r := httptest.NewRequest(http.MethodPost, "/jobs/J-001/readings", strings.NewReader(body))
			r.Header.Set("Content-Type", "application/json")
			w := httptest.NewRecorder()
			h.ServeHTTP(w, r)
			if !strings.Contains(w.Body.String(), `"ok":true`) {
				b.Fatal(w.Body)
			}
			get(b, h, "/jobs/J-001/bench/bottom-end")
		}
	})
}

// middle is the median.
func middle(took []time.Duration) time.Duration {
	slices.Sort(took)
	return took[len(took)/2]
}

func milliseconds(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// BenchmarkTwentyDevices is twenty devices that ask the real program for pages one after another: requests a second, the slowest in a hundred, and what the
// program holds in memory after it, its plugins not counted. The aims are 200 a second without an error, and 120 MB.
func BenchmarkTwentyDevices(b *testing.B) {
	x := demoBench(b)
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 20}}
	ask := func(page string) error {
		r, err := client.Get(x.url(page))
		if err != nil {
			return err
		}
		defer func() { _ = r.Body.Close() }()
		if _, err := io.Copy(io.Discard, r.Body); err != nil || r.StatusCode != http.StatusOK {
			return fmt.Errorf("%s: %s %w", page, r.Status, err)
		}
		return nil
	}
	for _, page := range wholePages {
		require.NoError(b, ask(page))
	}
	var mu sync.Mutex
	var took []time.Duration
	var n, failed atomic.Int64
	start := time.Now()
	for b.Loop() {
		var wg sync.WaitGroup
		for range 20 {
			wg.Go(func() {
				for range 10 {
					page, t := wholePages[int(n.Add(1))%len(wholePages)], time.Now()
					if err := ask(page); err != nil {
						failed.Add(1)
						b.Log(err)
					}
					mu.Lock()
					took = append(took, time.Since(t))
					mu.Unlock()
				}
			})
		}
		wg.Wait()
	}
	b.ReportMetric(float64(len(took))/time.Since(start).Seconds(), "requests/s")
	b.ReportMetric(float64(failed.Load()), "errors")
	b.ReportMetric(milliseconds(middle(took)), "ms-median")
	b.ReportMetric(milliseconds(took[len(took)*99/100]), "ms-p99")
	b.ReportMetric(residentMB(b, x.server.Process.Pid), "MB-resident")
}

// residentMB is what a process holds in memory, as the kernel counts it.
func residentMB(b *testing.B, pid int) float64 {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		b.Logf("memory is not told here: %v", err)
		return 0
	}
	var kB float64
	for line := range strings.Lines(string(status)) {
		if strings.HasPrefix(line, "VmRSS:") {
			_, _ = fmt.Sscanf(line, "VmRSS: %f kB", &kB)
		}
	}
	return kB / 1000
}
