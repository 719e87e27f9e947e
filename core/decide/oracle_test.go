package decide

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// TestAgainstOtherSolvers gives 1,000 generated choices of up to 40 parts to three integer programming solvers, a batch each,
// and compares the optimum, or that there is none. The programme is written from the Selection, not
// from the network.
func TestAgainstOtherSolvers(t *testing.T) {
	dir := t.TempDir()
	const instances = 1000
	sels := make([]core.Selection, instances)
	for i := range sels {
		r := rand.New(rand.NewPCG(uint64(i), 4))
		sels[i] = generateLocal(r, 3+r.IntN(38), 1+i%5, float64(i%4)*.05, i%6 > 0)
		writeLP(t, programmeOf(dir, i), &sels[i])
	}
	start := time.Now()
	ours := make([]int64, instances) // -1: there is none
	solved := 0
	for i, sel := range sels {
		got, err := Solver{}.Decide(context.Background(), sel)
		if err != nil {
			require.Equal(t, core.Invalid, core.ErrorCode(err), "instance %d", i)
			ours[i] = -1
			continue
		}
		require.True(t, got.Proven, "instance %d", i)
		requireOpen(t, sel, got, uint64(i))
		ours[i] = got.Value
		solved++
	}
	t.Logf("%d of %d have a solution; here %v", solved, instances, time.Since(start))
	require.Greater(t, solved, instances/2)
	for _, s := range otherSolvers {
		t.Run(s.name, func(t *testing.T) {
			s.look(t)
			start := time.Now()
			theirs := s.solve(t, dir, instances)
			t.Logf("%s: %v", s.name, time.Since(start))
			require.Equal(t, theirs, ours)
		})
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
func writeLP(t *testing.T, file string, s *core.Selection) {
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
