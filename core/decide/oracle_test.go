package decide

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// mostSlips is how often a solver may fail by itself in a test, each time found out by another and by a check of our choice.
const mostSlips = 3

// oracle holds generated choices, what we say of them, and how often another solver agreed.
type oracle struct {
	files  []string // the integer programmes, written from the Selections and not from the network
	ours   []int64  // -1: there is no choice
	mu     sync.Mutex
	agreed []int
}

// TestAgainstOtherSolvers gives 1,000 generated choices of up to 40 parts, a third of them under a cap, to three integer
// programming solvers, a batch each, and compares the optimum, or that there is none.
//
// A solver that finds another optimum fails the test. One that crashes, or says that there is no choice where ours
// stands up to a check, is asked again with its preprocessing off; that is counted and printed. What it cannot answer
// then either another must confirm.
func TestAgainstOtherSolvers(t *testing.T) {
	const instances = 1000
	o := newOracle(t, instances)
	t.Run("each", func(t *testing.T) {
		for _, s := range otherSolvers {
			t.Run(s.name, func(t *testing.T) {
				s.look(t)
				t.Parallel()
				o.compare(t, s)
			})
		}
	})
	for i, n := range o.agreed {
		if n == 0 && !t.Failed() {
			t.Skipf("NOT CHECKED AGAINST ANY SOLVER, instance %d: none is here", i)
		}
	}
}

// newOracle generates the choices and solves them.
func newOracle(t *testing.T, instances int) *oracle {
	o := &oracle{files: make([]string, instances), ours: make([]int64, instances), agreed: make([]int, instances)}
	dir := t.TempDir()
	sels, answers, errs := make([]core.Selection, instances), make([]core.Selected, instances), make([]error, instances)
	var took atomic.Int64
	atOnce(instances, func(i int) {
		r := rand.New(rand.NewPCG(uint64(i), 4))
		sels[i] = generateLocal(r, 3+r.IntN(38), 1+i%5, float64(i%4)*.05, i%6 > 0)
		if i%3 == 0 {
			capHalfWay(t, &sels[i])
		}
		start := time.Now()
		answers[i], errs[i] = Solver{Bare: true}.Decide(context.Background(), sels[i])
		took.Add(int64(time.Since(start)))
	})
	solved, capped := 0, 0
	for i, sel := range sels {
		o.files[i] = filepath.Join(dir, fmt.Sprintf("%d.lp", i))
		writeLP(t, o.files[i], &sel)
		if errs[i] != nil {
			require.Equal(t, core.Invalid, core.ErrorCode(errs[i]), "instance %d", i)
			o.ours[i] = -1
			continue
		}
		require.True(t, answers[i].Proven, "instance %d", i)
		requireSound(t, sel, answers[i], uint64(i))
		o.ours[i] = answers[i].Value
		solved++
		if sel.Cap != nil {
			capped++
		}
	}
	t.Logf("%d of %d have a solution, %d of them under a cap; here %v", solved, instances, capped, time.Duration(took.Load()))
	require.Greater(t, solved, instances/2)
	require.Greater(t, capped, instances/4)
	return o
}

// TestHardCouplingsAgainstCBC solves choices of 300 parts most of whose couplings span the whole tree, and compares the
// proven optimum with CBC's.
func TestHardCouplingsAgainstCBC(t *testing.T) {
	cbc := otherSolvers[1]
	cbc.look(t)
	var files []string
	var ours []int64
	for seed := range uint64(4) {
		sel := generateLocal(rand.New(rand.NewPCG(300, seed)), 300, 1, .6+.1*float64(seed), true)
		got, err := Solver{}.Decide(t.Context(), sel)
		require.NoError(t, err)
		require.True(t, got.Proven, "choice %d: between %d and %d", seed, got.Bound, got.Value)
		requireSound(t, sel, got, seed)
		files, ours = append(files, filepath.Join(t.TempDir(), fmt.Sprintf("%d.lp", seed))), append(ours, got.Value)
		writeLP(t, files[seed], &sel)
	}
	for i, v := range cbc.solve(t, files, patienceWithOthers, false) {
		require.Empty(t, v.failed)
		require.Equal(t, v.optimum, ours[i], "choice %d", i)
	}
}

// requireSound checks a choice of seen parts from the Selection alone: that it suits, what it opens and pays, both its
// sums, and the cap.
func requireSound(t *testing.T, sel core.Selection, got core.Selected, seed uint64) {
	t.Helper()
	parts := make([]int, len(sel.Parts))
	var risk int64
	for p := range parts {
		parts[p] = p
		require.Contains(t, sel.Parts[p].States[0].Options, got.Choice[p], "seed %d", seed)
		risk += sel.Parts[p].Options[got.Choice[p]].Risk
	}
	require.True(t, suits(&sel, parts, got.Choice), "seed %d", seed)
	_, pays := operationsOf(&sel, parts, got.Choice)
	require.Equal(t, pays, got.Operations, "seed %d", seed)
	requireOpen(t, sel, got, seed)
	if sel.Cap == nil {
		require.Equal(t, got.Money+risk, got.Value, "seed %d", seed)
		return
	}
	require.Equal(t, risk, got.Value, "seed %d", seed)
	require.LessOrEqual(t, got.Money, *sel.Cap, "seed %d", seed)
}

// compare asks one solver about everything.
func (o *oracle) compare(t *testing.T, s otherSolver) {
	start := time.Now()
	theirs := s.solve(t, o.files, patienceWithOthers, false)
	var again []int
	var files []string
	for i, v := range theirs {
		if v.failed != "" || v.optimum < 0 && o.ours[i] >= 0 {
			again, files = append(again, i), append(files, o.files[i])
		}
	}
	slips := 0
	if len(again) > 0 {
		for k, v := range s.solve(t, files, patienceWithOthers, true) {
			i := again[k]
			t.Logf("%s failed by itself on instance %d (optimum %d, %s); without preprocessing: optimum %d, %s", s.name, i, theirs[i].optimum, theirs[i].failed, v.optimum, v.failed)
			theirs[i] = v
			slips++
		}
	}
	t.Logf("%s: %v, failed by itself %d times", s.name, time.Since(start), slips)
	require.LessOrEqual(t, slips, mostSlips)
	o.mu.Lock()
	defer o.mu.Unlock()
	for i, v := range theirs {
		if v.failed != "" || v.optimum < 0 && o.ours[i] >= 0 {
			continue
		}
		require.Equal(t, v.optimum, o.ours[i], "instance %d", i)
		o.agreed[i]++
	}
}

// capHalfWay puts a cap half way between the least money and the free optimum's, where there is an optimum.
func capHalfWay(t testing.TB, s *core.Selection) {
	t.Helper()
	free, err := Solver{}.Decide(context.Background(), *s)
	if err != nil {
		require.Equal(t, core.Invalid, core.ErrorCode(err))
		return
	}
	riskless := *s
	riskless.Parts = slices.Clone(s.Parts)
	for p := range riskless.Parts {
		riskless.Parts[p].Options = slices.Clone(s.Parts[p].Options)
		for o := range riskless.Parts[p].Options {
			riskless.Parts[p].Options[o].Risk = 0
		}
	}
	least, err := Solver{}.Decide(context.Background(), riskless)
	require.NoError(t, err)
	most := (least.Money + free.Money) / 2
	s.Cap = &most
}

// writeLP writes a Selection of seen parts as an integer programme in CPLEX LP format.
func writeLP(t testing.TB, file string, s *core.Selection) {
	t.Helper()
	f, err := os.Create(file)
	require.NoError(t, err)
	w := bufio.NewWriter(f)
	p := programme{w: w, s: s}
	p.write()
	require.NoError(t, w.Flush())
	require.NoError(t, f.Close())
}

// programme writes one integer programme: x one option a part, z operations needed, p operations paid, y steps open.
type programme struct {
	w io.Writer
	s *core.Selection
}

func (p programme) printf(format string, args ...any) { fmt.Fprintf(p.w, format, args...) }

func (p programme) write() {
	p.printf("Minimize\n obj: 0 nothing\n")
	for i, part := range p.s.Parts {
		for o, option := range part.Options {
			p.printf(" + %d x%d_%d\n", option.Risk, i, o)
		}
	}
	if p.s.Cap == nil {
		p.money()
	}
	p.printf("Subject To\n nothing >= 0\n")
	if p.s.Cap != nil {
		p.printf(" 0 nothing\n")
		p.money()
		p.printf(" <= %d\n", *p.s.Cap)
	}
	p.options()
	p.operations()
	p.steps()
	p.sets()
	p.bonds()
	p.variables()
	p.printf("End\n")
}

// money writes what operations and steps cost.
func (p programme) money() {
	for o, op := range p.s.Operations {
		p.printf(" + %d p%d\n", op.Cost, o)
	}
	for a, st := range p.s.Steps {
		p.printf(" + %d y%d\n", st.Cost, a)
	}
}

func (p programme) options() {
	for i, part := range p.s.Parts {
		for o, option := range part.Options {
			if !slices.Contains(part.States[0].Options, o) {
				p.printf(" x%d_%d = 0\n", i, o)
			}
			for _, op := range option.Operations {
				p.printf(" x%d_%d - z%d <= 0\n", i, o, op)
			}
			for _, a := range option.Steps {
				p.printf(" x%d_%d - y%d <= 0\n", i, o, a)
			}
		}
		for o := range part.Options {
			p.printf(" + x%d_%d", i, o)
		}
		p.printf(" = 1\n")
	}
}

func (p programme) operations() {
	for o := range p.s.Operations {
		p.printf(" p%d - z%d", o, o)
		for q, other := range p.s.Operations {
			if slices.Contains(other.Includes, o) {
				p.printf(" + z%d", q)
			}
		}
		p.printf(" >= 0\n z%d", o)
		for i, part := range p.s.Parts {
			for k, option := range part.Options {
				if slices.Contains(option.Operations, o) {
					p.printf(" - x%d_%d", i, k)
				}
			}
		}
		p.printf(" <= 0\n")
	}
}

func (p programme) steps() {
	for a, st := range p.s.Steps {
		if st.Open {
			p.printf(" y%d = 1\n", a)
		}
		for _, b := range st.AllOf {
			p.printf(" y%d - y%d <= 0\n", a, b)
		}
		for _, clause := range st.AnyOf {
			p.printf(" y%d", a)
			for _, b := range clause {
				p.printf(" - y%d", b)
			}
			p.printf(" <= 0\n")
		}
	}
}

func (p programme) sets() {
	for _, set := range p.s.Sets {
		words := map[string]map[int][]int{} // word, part, options
		for _, m := range set.Members {
			for o, option := range p.s.Parts[m].Options {
				word := string(option.Kind)
				if !set.SameKind {
					word = option.Yields[0].Value
				}
				if words[word] == nil {
					words[word] = map[int][]int{}
				}
				words[word][m] = append(words[word][m], o)
			}
		}
		for _, word := range slices.Sorted(maps.Keys(words)) {
			by := words[word]
			for _, m := range set.Members[1:] {
				p.printf(" 0 nothing")
				for _, o := range by[set.Members[0]] {
					p.printf(" + x%d_%d", set.Members[0], o)
				}
				for _, o := range by[m] {
					p.printf(" - x%d_%d", m, o)
				}
				p.printf(" = 0\n")
			}
		}
	}
}

func (p programme) bonds() {
	for _, b := range p.s.Bonds {
		switch {
		case b.Part == b.OtherPart && b.Option == b.OtherOption:
			if b.Excludes {
				p.printf(" x%d_%d = 0\n", b.Part, b.Option)
			}
		case b.Excludes:
			p.printf(" x%d_%d + x%d_%d <= 1\n", b.Part, b.Option, b.OtherPart, b.OtherOption)
		default:
			p.printf(" x%d_%d - x%d_%d <= 0\n", b.Part, b.Option, b.OtherPart, b.OtherOption)
		}
	}
}

func (p programme) variables() {
	p.printf("Bounds\n")
	for o := range p.s.Operations {
		p.printf(" p%d >= 0\n", o)
	}
	p.printf("Binary\n")
	for i, part := range p.s.Parts {
		for o := range part.Options {
			p.printf(" x%d_%d\n", i, o)
		}
	}
	for o := range p.s.Operations {
		p.printf(" z%d\n", o)
	}
	for a := range p.s.Steps {
		p.printf(" y%d\n", a)
	}
}
