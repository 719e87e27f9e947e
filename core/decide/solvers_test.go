package decide

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// otherSolver is an integer programming solver that is asked what we answer too.
type otherSolver struct {
	name, program, install string
	solve                  func(t testing.TB, dir string, n int) []int64 // optima of the programmes of a folder, -1 where there is none
}

// GLPK 5.0, CBC 2.10.8 and HiGHS 1.15.3, the last compiled to WebAssembly and run by Node.js.
var otherSolvers = []otherSolver{
	{"GLPK", "glpsol", "the package glpk-utils", solveGLPK},
	{"CBC", "cbc", "the package coinor-cbc", solveCBC},
	{"HiGHS", "node", "the package nodejs, then make tools", solveHiGHS},
}

// highsFolder is where make tools puts HiGHS.
const highsFolder = "../../bin/highs"

// look makes sure that the solver is here. Without it the test fails where everything is mandatory, and says loudly what is
// not checked elsewhere.
func (s otherSolver) look(t testing.TB) {
	t.Helper()
	_, err := exec.LookPath(s.program)
	if err == nil && s.name == "HiGHS" {
		_, err = os.Stat(filepath.Join(highsFolder, "node_modules", "highs", "package.json"))
	}
	switch {
	case err == nil:
	case os.Getenv("FETTLE_MANDATORY") == "1":
		t.Fatalf("%s is missing and FETTLE_MANDATORY=1: install %s", s.name, s.install)
	default:
		t.Skipf("NOT CHECKED AGAINST %s: it is missing; install %s", s.name, s.install)
	}
}

func programmeOf(dir string, i int) string { return filepath.Join(dir, fmt.Sprintf("%d.lp", i)) }

// each runs a program for every programme of a folder, as many at a time as there are processors.
func each(t testing.TB, n int, run func(ctx context.Context, i int) (int64, error)) []int64 {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	next := make(chan int, n)
	for i := range n {
		next <- i
	}
	close(next)
	optima := make([]int64, n)
	var wg sync.WaitGroup
	var mu sync.Mutex
	var failed error
	for range runtime.NumCPU() {
		wg.Go(func() {
			for i := range next {
				var err error
				if optima[i], err = run(ctx, i); err != nil {
					mu.Lock()
					failed = fmt.Errorf("instance %d: %w", i, err)
					mu.Unlock()
				}
			}
		})
	}
	wg.Wait()
	require.NoError(t, failed)
	return optima
}

func solveGLPK(t testing.TB, dir string, n int) []int64 {
	return each(t, n, func(ctx context.Context, i int) (int64, error) {
		solution := programmeOf(dir, i) + ".glpk"
		out, err := exec.CommandContext(ctx, "glpsol", "--cuts", "--lp", programmeOf(dir, i), "-w", solution).CombinedOutput()
		if err != nil {
			return 0, fmt.Errorf("%w: %s", err, out)
		}
		text, err := os.ReadFile(solution)
		if err != nil {
			return 0, err
		}
		for line := range strings.Lines(string(text)) { // "s mip rows columns status objective"
			var rows, columns int
			var status string
			var objective float64
			if n, _ := fmt.Sscanf(line, "s mip %d %d %s %g", &rows, &columns, &status, &objective); n == 4 {
				switch status {
				case "o":
					return int64(objective + .5), nil
				case "n":
					return -1, nil
				}
			}
		}
		return 0, fmt.Errorf("it says: %s", text)
	})
}

func solveCBC(t testing.TB, dir string, n int) []int64 {
	return each(t, n, func(ctx context.Context, i int) (int64, error) {
		solution := programmeOf(dir, i) + ".cbc"
		out, err := exec.CommandContext(ctx, "cbc", programmeOf(dir, i), "-ratioGap", "0", "-allowableGap", "0", "-solve", "-solution", solution).CombinedOutput()
		if err != nil {
			return 0, fmt.Errorf("%w: %s", err, out)
		}
		text, err := os.ReadFile(solution)
		if err != nil {
			return 0, err
		}
		first, _, _ := strings.Cut(string(text), "\n")
		var objective float64
		if _, err := fmt.Sscanf(first, "Optimal - objective value %g", &objective); err == nil {
			return int64(objective + .5), nil
		}
		if strings.Contains(first, "nfeasible") {
			return -1, nil
		}
		return 0, fmt.Errorf("it says: %s", first)
	})
}

// solveHiGHS asks one Node.js for all of them: starting it takes longer than most programmes.
func solveHiGHS(t testing.TB, dir string, n int) []int64 {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	script, err := filepath.Abs("testdata/highs.cjs")
	require.NoError(t, err)
	module, err := filepath.Abs(filepath.Join(highsFolder, "node_modules", "highs"))
	require.NoError(t, err)
	cmd := exec.CommandContext(ctx, "node", script, module, dir, fmt.Sprint(n))
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	var optima []int64
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		var answer struct {
			Status    string
			Objective float64
		}
		require.NoError(t, json.Unmarshal(lines.Bytes(), &answer), lines.Text())
		switch answer.Status {
		case "Optimal":
			optima = append(optima, int64(answer.Objective+.5))
		case "Infeasible":
			optima = append(optima, -1)
		default:
			t.Fatalf("instance %d: HiGHS says %s", len(optima), answer.Status)
		}
	}
	require.NoError(t, cmd.Wait())
	return optima
}
