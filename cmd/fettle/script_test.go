package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"github.com/fettle-tools/fettle/core/host"
)

// update rewrites what the scripts compare with (make golden); read the difference before you commit it.
var update = flag.Bool("update", false, "rewrite the files that scripts compare with")

func fileSum(path string) (string, error) { return host.Sum(path) }

// TestScript runs the mornings of testdata/script, each in a folder of its own, with real plugin processes. A script has these words
// beside testscript's own:
//
//	fails STATUS ARGUMENTS...   fettle fails with this exit status
//	lines MOST                  the last output has at most so many lines
//	try-next                    runs every command that the last output says to try
//	a-plan                      the last output is a plan in the promised shape, and its money adds up
//	found PLACE GRADE           the plan last printed as JSON has this grade at subsystem/part[/position]
//	chosen PLACE CHOICE         ... and this choice; CHOICE may be several, parted by |
//	keep NAME                   remembers the expected sum of the plan last printed
//	dearer NAME, cheaper NAME, same-sum NAME   compares it with the one remembered
func TestScript(t *testing.T) {
	subsystems := filepath.Join(programs(t), "fettle-subsystems")
	sums := map[string]int64{}
	testscript.Run(t, testscript.Params{
		Dir:                filepath.Join("testdata", "script"),
		RequireUniqueNames: true,
		UpdateScripts:      *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("FETTLE_SUBSYSTEMS", subsystems)
			e.Setenv(clockVariable, noon)
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"fails":    fails,
			"try-next": tryNext,
			"lines":    lines,
			"a-plan": func(ts *testscript.TestScript, _ bool, _ []string) {
				ts.Check(checkPlan([]byte(ts.ReadFile("stdout"))))
			},
			"found":    func(ts *testscript.TestScript, _ bool, args []string) { atPlace(ts, args, "conditions", "grade") },
			"chosen":   func(ts *testscript.TestScript, _ bool, args []string) { atPlace(ts, args, "choices", "choice") },
			"keep":     func(ts *testscript.TestScript, _ bool, args []string) { sums[ts.Name()+args[0]] = expected(ts) },
			"dearer":   compared(sums, func(now, kept int64) bool { return now > kept }),
			"cheaper":  compared(sums, func(now, kept int64) bool { return now < kept }),
			"same-sum": compared(sums, func(now, kept int64) bool { return now == kept }),
		},
	})
}

func fails(ts *testscript.TestScript, _ bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec("fettle", args[1:]...)
	var e *exec.ExitError
	switch {
	case err == nil:
		ts.Fatalf("fettle %s did not fail", strings.Join(args[1:], " "))
	case !errors.As(err, &e):
		ts.Check(err)
	case e.ExitCode() != want:
		ts.Fatalf("exit status %d, not %d:\n%s", e.ExitCode(), want, ts.ReadFile("stderr"))
	}
}

// tryNext runs the lines that begin with fettle; what stands after two blanks says what a command is for.
func tryNext(ts *testscript.TestScript, _ bool, _ []string) {
	n := 0
	for line := range strings.Lines(ts.ReadFile("stdout")) {
		said, ok := strings.CutPrefix(line, "  fettle ")
		if !ok {
			continue
		}
		said, _, _ = strings.Cut(said, "  ")
		n++
		ts.Check(ts.Exec("fettle", strings.Fields(said)...))
	}
	if n == 0 {
		ts.Fatalf("nothing is said to be tried next")
	}
}

func lines(ts *testscript.TestScript, _ bool, args []string) {
	most, err := strconv.Atoi(args[0])
	ts.Check(err)
	out := ts.ReadFile("stdout")
	if n := strings.Count(out, "\n"); n > most || n == 0 {
		ts.Fatalf("%d lines, not 1 to %d:\n%s", n, most, out)
	}
}

// atPlace looks a word up at subsystem/part[/position] in a list of the plan last printed.
func atPlace(ts *testscript.TestScript, args []string, list, key string) {
	var plan map[string]json.RawMessage
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &plan))
	var items []map[string]any
	ts.Check(json.Unmarshal(plan[list], &items))
	for _, it := range items {
		place := strings.TrimSuffix(fmt.Sprintf("%s/%s/%s", it["subsystem"], it["part"], it["position"]), "/")
		if place != args[0] {
			continue
		}
		for want := range strings.SplitSeq(args[1], "|") {
			if it[key] == want {
				return
			}
		}
		ts.Fatalf("%s: %s is %q, not %q", place, key, it[key], args[1])
	}
	ts.Fatalf("the plan's %s have no %s", list, args[0])
}

func expected(ts *testscript.TestScript) int64 {
	var p struct{ Budget struct{ Expected money } }
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &p))
	n, err := p.Budget.Expected.minor()
	ts.Check(err)
	return n
}

func compared(sums map[string]int64, holds func(now, kept int64) bool) func(*testscript.TestScript, bool, []string) {
	return func(ts *testscript.TestScript, _ bool, args []string) {
		kept, ok := sums[ts.Name()+args[0]]
		if !ok {
			ts.Fatalf("nothing is kept as %q", args[0])
		}
		if now := expected(ts); !holds(now, kept) {
			ts.Fatalf("expected %d now, %d as kept in %s", now, kept, args[0])
		}
	}
}
