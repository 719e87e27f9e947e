package paper

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// manyPlaces is the fixture with a piece of work and a reserve at four wheels each, of different amounts: lines that are read as one.
func manyPlaces() Input {
	in := input()
	none := core.Range3{}
	for i, w := range []string{"LF", "RF", "LR", "RR"} {
		p := at("brakes", "vehicle", "shoes", w)
		c := cond(p, "brake shoes", true, core.PastLimit, inch("lining", "thickness of the lining", .19, .06, .03, practice))
		in.Plan.Conditions = append(in.Plan.Conditions, c)
		in.Plan.Choices = append(in.Plan.Choices, core.Choice{Place: p, PartName: c.PartName, Kind: core.Rebuild, Remedy: "reline", Name: "Relined"})
		l := line("work:brakes@vehicle:reline/"+w, core.LineWork, "brakes", "vehicle", fmt.Sprintf("reline the shoes of a wheel (%s)", w), three(1, 1.5, 2+float64(i)/7), three(31.11, 40.07, 60.03), none)
		l.Places = []core.Place{p}
		held := reserve("reserve:brakes@vehicle:drum/"+w, "brakes", "vehicle", fmt.Sprintf("another drum (%s)", w), .1+float64(i)/10, three(80, 120, 200), p)
		in.Plan.WorkOrder.Lines = append(in.Plan.WorkOrder.Lines, l, held)
	}
	in.Plan.WorkOrder = order(in.Plan.WorkOrder.Lines)
	in.Plan.Budget = budget(in.Plan.WorkOrder)
	return in
}

// lastSums adds up for a table the last column of the rows before its first total, and gives that total.
func lastSums(t *testing.T, x Table) (lines, total int64) {
	t.Helper()
	n := len(x.Columns)
	for _, r := range x.Rows {
		if len(r.Cells) < n || r.Group {
			continue
		}
		if r.Sum {
			return lines, minor(t, r.Cells[n-1].Text)
		}
		lines += minor(t, r.Cells[n-1].Text)
	}
	return lines, 0
}

// TestPrintedLinesAddUpToThePrintedTotals: of every table with a total the printed lines give it; the totals of the scope's
// sections give the total before tax; and so does the table of subsystems, whose rows add up across as well.
func TestPrintedLinesAddUpToThePrintedTotals(t *testing.T) {
	for name, in := range map[string]Input{"fixture": input(), "wheels": manyPlaces()} {
		before := core.Minor(in.Plan.WorkOrder.TotalBeforeTax)
		for _, d := range []Document{Scope(in), WorkOrder(in)} {
			var sections int64
			for _, b := range d.Blocks {
				x, ok := b.(Table)
				if !ok || !hasTotal(x) {
					continue
				}
				lines, total := lastSums(t, x)
				require.Equal(t, total, lines, "%s, %s: %v", name, d.Title, x.Columns)
				if x.Columns[0].Head == "Subsystem" {
					require.Equal(t, before, total, name)
					sumsAcross(t, x)
					continue
				}
				sections += total
			}
			if d.Title == "Scope of work" {
				require.Equal(t, before, sections, "%s: the sections do not come to the total", name)
			}
		}
	}
}

func hasTotal(x Table) bool {
	if strings.HasPrefix(x.Columns[0].Head, "All amounts") {
		return false
	}
	for _, r := range x.Rows {
		if r.Sum {
			return true
		}
	}
	return false
}

func sumsAcross(t *testing.T, x Table) {
	t.Helper()
	for _, r := range x.Rows {
		if r.Sum {
			return
		}
		require.Equal(t, minor(t, r.Cells[4].Text), minor(t, r.Cells[2].Text)+minor(t, r.Cells[3].Text), "%v", r.Cells)
	}
}

// TestWorkAtFourWheelsIsOneLine: the same check and the same remedy on several positions are read as one, with their sum.
func TestWorkAtFourWheelsIsOneLine(t *testing.T) {
	in := manyPlaces()
	text := plainText(Scope(in))
	require.Contains(t, text, "Reline the shoes of a wheel, 4 times: all four wheels | ")
	require.Contains(t, text, "Rebuilt: Brake shoes, all four wheels (lining past the limit).")
	require.Equal(t, 1, strings.Count(text, "Reline the shoes"))
	require.Contains(t, text, "Another drum, 4 times: all four wheels | 10–40% |")
	order := plainText(WorkOrder(in))
	for _, l := range in.Plan.WorkOrder.Lines {
		if strings.Contains(l.ID, "reline") {
			require.Contains(t, order, amount(l.Amount))
		}
	}
}

// TestEveryPartStandsOnTheScope: whatever becomes of a part, the customer finds it named before the appendix.
func TestEveryPartStandsOnTheScope(t *testing.T) {
	for _, in := range []Input{input(), manyPlaces()} {
		body, _, _ := strings.Cut(strings.ToLower(plainText(Scope(in))), "# appendix")
		for _, c := range in.Plan.Choices {
			name := strings.ToLower(partName(c))
			require.True(t, strings.Contains(body, name) || strings.Contains(body, strings.ToLower(plural(core.Capital(partName(c))))), "%s %s is not named", name, c.Position)
		}
	}
}
