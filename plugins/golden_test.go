package plugins_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/fettle-tools/fettle/core"
	"github.com/stretchr/testify/require"
)

// go test ./plugins/ -run Golden -update writes the tables anew; read the difference before it is kept.
var update = flag.Bool("update", false, "write testdata/golden anew")

// A table of everything a subsystem offers: a lost row shows as a lost line.
func TestGolden(t *testing.T) {
	for _, b := range builtIns() {
		t.Run(b.name, func(t *testing.T) {
			p, sheet := b.described(t)
			got := table(sheet, b.unseen(t, p))
			file := filepath.Join("..", "testdata", "golden", b.name+".txt")
			if *update {
				require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
				require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), got, "read the difference; if it is meant, run again with -update")
		})
	}
}

func table(s core.Sheet, a core.Assessment) string {
	var w strings.Builder
	line := func(indent int, fields ...string) {
		fmt.Fprintf(&w, "%s%s\n", strings.Repeat("    ", indent), strings.Join(fields, " | "))
	}
	line(0, "sheet "+s.Subsystem, s.Version, s.Title, s.UnitKind, fmt.Sprint("weight ", s.OutlookWeight))
	for _, p := range s.Parts {
		line(0, partFields(p)...)
		for _, c := range p.Checks {
			line(1, checkFields(c)...)
		}
		_, rs := of(a, p.Targets()[0])
		for _, r := range rs {
			line(1, remedyFields(r)...)
		}
	}
	for _, x := range s.Sets {
		line(0, "set "+x.ID, x.Name, targets(x.Members), fmt.Sprintf("same kind %v, agree on %q, complete %v", x.SameKind, x.AgreeOn, x.CompleteBeforeOrder))
	}
	for _, x := range s.NoReuse {
		line(0, "no reuse "+x.ID, x.Part, x.Check, x.Trigger.String(), fmt.Sprint(x.Allowed), x.Source)
	}
	for _, x := range s.Hidden {
		line(0, "register "+x.ID, x.Name, fmt.Sprint(x.Chance), targets(x.Parts), fmt.Sprint(x.HistoryKeys))
	}
	for _, x := range s.Operations {
		line(0, operationFields(x)...)
	}
	for _, x := range s.Cautions {
		line(0, "caution", x.Part, x.Step, x.Text, x.Source)
	}
	return w.String()
}

func partFields(p core.Part) []string {
	fs := []string{"part " + p.ID, p.Name, fmt.Sprintf("%v x %d", p.Positions, p.Count), "reach " + strings.Join(p.Reach, " ")}
	if p.SafetyCritical {
		fs = append(fs, "safety-critical")
	}
	if p.OneUse {
		fs = append(fs, "one-use")
	}
	if p.Life != nil {
		fs = append(fs, fmt.Sprintf("life %g %s, sigma %g (%s)", p.Life.Typical, p.Life.Unit, p.Life.Sigma, p.Life.Source))
	}
	for _, s := range p.Outlook {
		fs = append(fs, fmt.Sprintf("%.2f %s %s", s.Chance, s.Grade, s.RegisterID))
	}
	return fs
}

func checkFields(c core.Check) []string {
	fs := []string{"check " + c.ID, c.Name, string(c.Kind), c.Unit, limitField(c.Limit), c.Limit.Source, c.Limit.Confidence, c.Instrument,
		fmt.Sprintf("%g min", c.Minutes)}
	if len(c.Stations) > 0 {
		fs = append(fs, "at "+strings.Join(c.Stations, " "))
	}
	if c.Formula != "" {
		fs = append(fs, "= "+c.Formula)
	}
	if c.TwoSided {
		fs = append(fs, "two-sided")
	}
	if c.BeforeStrip {
		fs = append(fs, "before strip")
	}
	if c.NeededForReuse {
		fs = append(fs, "needed for reuse")
	}
	return fs
}

func limitField(l core.Limit) string {
	bound := func(b *float64) string {
		if b == nil {
			return "-"
		}
		return core.FormatNumber(*b)
	}
	if l.WorstClass != nil {
		return fmt.Sprintf("new to class %s, worst class %d", bound(l.NewHigh), *l.WorstClass)
	}
	return fmt.Sprintf("new %s to %s, wear %s to %s", bound(l.NewLow), bound(l.NewHigh), bound(l.WearLow), bound(l.WearHigh))
}

func remedyFields(r core.Remedy) []string {
	fs := []string{fmt.Sprintf("remedy %s (%s)", r.ID, r.Kind), r.Name, "pays " + strings.Join(r.Operations, " "), fmt.Sprintf("residual %g", r.ResidualChance)}
	if len(r.Steps) > 0 {
		fs = append(fs, "opens "+strings.Join(r.Steps, " "))
	}
	for _, y := range r.Yields {
		fs = append(fs, y.Key+" = "+y.Value)
	}
	for _, x := range r.Requires {
		fs = append(fs, "requires "+x.Target.String()+"#"+x.Remedy)
	}
	for _, x := range r.Excludes {
		fs = append(fs, "excludes "+x.Target.String()+"#"+x.Remedy)
	}
	if r.OriginalityMax > 0 {
		fs = append(fs, fmt.Sprintf("originality %d to %d", r.OriginalityMin, r.OriginalityMax))
	}
	if r.PinOnly {
		fs = append(fs, "only pinned")
	}
	return fs
}

func operationFields(o core.Operation) []string {
	fs := []string{"operation " + o.ID, o.Name, o.Skill, three(o.Hours) + " h", "lead " + three(o.LeadWeeks) + " weeks", "per " + o.ServedPer}
	for _, i := range o.Items {
		fs = append(fs, fmt.Sprintf("%g x %s, %s: %s/%s/%s %s", i.Count, i.Key, i.Name, i.TypicalEach.Low, i.TypicalEach.Likely, i.TypicalEach.High, i.TypicalEach.Currency))
	}
	if o.OutworkKind != "" {
		fs = append(fs, fmt.Sprintf("out for %s: %s/%s/%s", o.OutworkKind, o.Outwork.Low, o.Outwork.Likely, o.Outwork.High))
	}
	if len(o.Includes) > 0 {
		fs = append(fs, "includes "+strings.Join(o.Includes, " "))
	}
	if len(o.After) > 0 {
		fs = append(fs, "after "+strings.Join(o.After, " "))
	}
	for _, c := range o.Cautions {
		fs = append(fs, c.Text)
	}
	return fs
}

func three(r core.Range3) string { return fmt.Sprintf("%g/%g/%g", r.Low, r.Likely, r.High) }

func targets(ts []core.Target) string {
	var ss []string
	for _, t := range ts {
		ss = append(ss, t.String())
	}
	return strings.Join(ss, " ")
}
