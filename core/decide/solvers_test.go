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
	// solve gives the answers to programmes in CPLEX LP format within a time for all, with the solver's own simplifying of
	// them left out if plain.
	solve func(t testing.TB, files []string, most time.Duration, plain bool) []verdict
}

// verdict is what a solver says of one programme.
type verdict struct {
	optimum int64         // proven; -1: it says that there is none
	failed  string        // why there is no answer; "" if there is one
	took    time.Duration // by its own clock
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

// patienceWithOthers is how long a solver may take for a batch.
const patienceWithOthers = 5 * time.Minute

// each runs a program for every programme, as many at a time as there are processors.
func each(t testing.TB, files []string, most time.Duration, run func(ctx context.Context, file string) verdict) []verdict {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), most)
	defer cancel()
	list := make([]verdict, len(files))
	atOnce(len(files), func(i int) { list[i] = run(ctx, files[i]) })
	return list
}

// atOnce does n things, as many at a time as there are processors.
func atOnce(n int, do func(i int)) {
	next := make(chan int, n)
	for i := range n {
		next <- i
	}
	close(next)
	var wg sync.WaitGroup
	for range runtime.NumCPU() {
		wg.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	wg.Wait()
}

// told runs a solver that writes its answer into a file, and gives what it prints and what it wrote.
func told(ctx context.Context, file, name string, args ...string) (printed, wrote string, err error) {
	out, err := exec.CommandContext(ctx, name, args...).CombinedOutput()
	if err != nil {
		return "", "", fmt.Errorf("%w: %s", err, lastLine(string(out)))
	}
	text, err := os.ReadFile(file)
	return string(out), string(text), err
}

func lastLine(text string) string {
	text = strings.TrimSpace(text)
	return text[strings.LastIndexByte(text, '\n')+1:]
}

func solveGLPK(t testing.TB, files []string, most time.Duration, plain bool) []verdict {
	return each(t, files, most, func(ctx context.Context, file string) verdict {
		solution := file + ".glpk"
		args := []string{"--cuts", "--lp", file, "-w", solution}
		if plain {
			args = append(args, "--nopresol")
		}
		printed, text, err := told(ctx, solution, "glpsol", args...)
		if err != nil {
			return verdict{failed: err.Error()}
		}
		for line := range strings.Lines(text) { // "s mip rows columns status objective"
			var rows, columns int
			var status string
			var objective float64
			if n, _ := fmt.Sscanf(line, "s mip %d %d %s %g", &rows, &columns, &status, &objective); n == 4 {
				switch status {
				case "o":
					return verdict{optimum: int64(objective + .5), took: seconds(printed, "Time used:")}
				case "n":
					return verdict{optimum: -1}
				}
			}
		}
		return verdict{failed: "it says: " + text}
	})
}

// seconds reads the number of seconds after some words of what a solver prints; 0 if it does not stand there.
func seconds(printed, words string) time.Duration {
	_, after, _ := strings.Cut(printed, words)
	var s float64
	if _, err := fmt.Sscan(after, &s); err != nil {
		return 0
	}
	return time.Duration(s * float64(time.Second))
}

func solveCBC(t testing.TB, files []string, most time.Duration, plain bool) []verdict {
	return each(t, files, most, func(ctx context.Context, file string) verdict {
		solution := file + ".cbc"
		args := []string{file, "-ratioGap", "0", "-allowableGap", "0"}
		if plain {
			args = append(args, "-preprocess", "off")
		}
		printed, text, err := told(ctx, solution, "cbc", append(args, "-solve", "-solution", solution)...)
		if err != nil {
			return verdict{failed: err.Error()}
		}
		first, _, _ := strings.Cut(text, "\n")
		var objective float64
		if _, err := fmt.Sscanf(first, "Optimal - objective value %g", &objective); err == nil {
			return verdict{optimum: int64(objective + .5), took: seconds(printed, "(Wallclock seconds):")}
		}
		if strings.Contains(first, "nfeasible") {
			return verdict{optimum: -1}
		}
		return verdict{failed: "it says: " + first}
	})
}

// solveHiGHS asks one Node.js for all of them: starting it takes longer than most programmes.
func solveHiGHS(t testing.TB, files []string, most time.Duration, plain bool) []verdict {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), most)
	defer cancel()
	options := "{}"
	if plain {
		options = `{"presolve": "off"}`
	}
	script, err := filepath.Abs("testdata/highs.cjs")
	require.NoError(t, err)
	module, err := filepath.Abs(filepath.Join(highsFolder, "node_modules", "highs"))
	require.NoError(t, err)
	cmd := exec.CommandContext(ctx, "node", script, module, options)
	cmd.Stdin = strings.NewReader(strings.Join(files, "\n") + "\n")
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	var list []verdict
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		var answer struct {
			Status          string
			Objective, Took float64
		}
		if json.Unmarshal(lines.Bytes(), &answer) != nil {
			continue // what the library prints itself
		}
		v := verdict{took: time.Duration(answer.Took * float64(time.Millisecond))}
		switch answer.Status {
		case "Optimal":
			v.optimum = int64(answer.Objective + .5)
		case "Infeasible":
			v.optimum = -1
		default:
			v.failed = "it says: " + answer.Status
		}
		list = append(list, v)
	}
	if err := cmd.Wait(); ctx.Err() != nil {
		for len(list) < len(files) {
			list = append(list, verdict{failed: "out of time"})
		}
	} else {
		require.NoError(t, err)
	}
	require.Len(t, list, len(files), "HiGHS left programmes out")
	return list
}
