package main

import (
	"context"
	"fmt"
	"io"
	"path"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/configs"
	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) demoCommand() *cobra.Command {
	return &cobra.Command{
		Use: "demo DIR", Short: "Make a shop folder with an invented job, and write its papers", Args: cobra.ExactArgs(1),
		Long:    "Everything in it is invented: vehicle, owner, shop, suppliers. Look round in it, change it, throw it away.",
		Example: "  fettle demo demo\n  fettle -C demo plan",
		RunE: func(cmd *cobra.Command, args []string) error {
			c.flags.Set("dir", args[0])
			return c.demo(cmd.Context())
		},
	}
}

// demo makes the shop, opens the job, takes in what was found, and writes the two papers.
func (c *command) demo(ctx context.Context) error {
	started := time.Now()
	settings, err := configs.Files.ReadFile("demo/fettle.yaml")
	if err != nil {
		return err
	}
	if err := c.createShop(ctx, string(settings)); err != nil {
		return err
	}
	return c.withShop(ctx, func(s *shop) error {
		if err := s.demoPrices(ctx); err != nil {
			return err
		}
		if err := s.demoParties(ctx); err != nil {
			return err
		}
		var first core.Job
		for i, d := range demoJobs() {
			job, err := s.demoOpen(ctx, d)
			if err != nil {
				return err
			}
			if i == 0 {
				first = job
			}
		}
		if err := s.demoPhotos(ctx, first.Number); err != nil {
			return err
		}
		p, err := s.demoWork(ctx, first)
		if err != nil {
			return err
		}
		if _, err := s.write(ctx, workOrderPaper, p, filepath.Join(s.dir, store.PapersDir, workOrderPaper.name), false); err != nil {
			return err
		}
		if c.asJSON() {
			return writeJSON(c.out, planToJSON(p))
		}
		printDemo(c.out, c.dir(), p, s.settings().Zone, time.Since(started))
		return nil
	})
}

// demoOpen opens one of the demo's jobs and takes in what was found.
func (s *shop) demoOpen(ctx context.Context, d demoJob) (core.Job, error) {
	job, err := s.book.OpenJob(ctx, d.job, "Jory")
	if err != nil {
		return job, err
	}
	for _, name := range d.findings {
		data, err := configs.Files.ReadFile(path.Join("demo", name))
		if err != nil {
			return job, err
		}
		if _, err := s.importFindings(ctx, job.Number, data, path.Base(name), true); err != nil {
			return job, err
		}
	}
	return job, nil
}

// demoPrices takes in the invented price book, dated a few weeks back.
func (s *shop) demoPrices(ctx context.Context) error {
	data, err := configs.Files.ReadFile("demo/prices.csv")
	if err != nil {
		return err
	}
	data = []byte(strings.ReplaceAll(string(data), "THREE-WEEKS-AGO", s.c.clock().AddDate(0, 0, -21).UTC().Format("2006-01-02")))
	prices, bad := config.ReadPrices(data, "prices.csv")
	if err := bad.Err(); err != nil {
		return err
	}
	_, err = s.book.ImportPrices(ctx, "Wenna", prices)
	return err
}

// demoJob is a job of the demo and the files of what was found.
type demoJob struct {
	job      core.Job
	findings []string
}

// demoJobs are the Packhorse, whose engine is not the one it left with and whose gearbox has a gear of another year in it; a vehicle in for its
// brakes alone; and one gearbox on the bench without a vehicle.
func demoJobs() []demoJob {
	age := 70.0
	owner := core.Party{Name: "Marta Wellbeck", Address: []string{"Thorngill Farm"}}
	brief := core.Brief{Use: "farm tracks and shows, 50 mph, the look of 1956, no concours", Originality: 2, HorizonKM: 30000, HorizonYears: 15,
		Stored: "damp", Ran: "longer", Worked: "hard", AgeYears: &age}
	vehicle := core.Vehicle{Title: "Calder & Finch Packhorse, Mark B, 1956", Pack: "packhorse-mark-b", Marks: []core.Mark{
		{Where: "frame stamp", Text: "PK-15-20417", Says: core.MarkAgrees},
		{Where: "chassis plate, engine number", Text: "D4-20466", Says: core.MarkAgrees, Note: "the engine in it has another number"},
	}}
	engine := core.Unit{ID: "engine", Kind: "engine", Title: "Engine D4-31882", Pack: "d4-1959", Marks: []core.Mark{
		{Where: "engine number on the block", Text: "D4-31882", Expected: "D4-20466 by the plate", Says: core.MarkOtherType, Note: "not the engine it left with: a block of 1959 with the bigger crankpins"},
	}}
	gearbox := core.Unit{ID: "gearbox", Kind: "gearbox", Title: "Four-speed gearbox", Marks: []core.Mark{
		{Where: "case, casting date", Text: "G4 8 55", Says: core.MarkAgrees},
		{Where: "third speed wheel, tooth count", Text: "29", Expected: "28", Says: core.MarkOtherModel, Note: "a gear of a later year meshed with the old cluster"},
	}}
	var all []string
	for _, name := range strings.Fields(builtinSubsystems) {
		all = append(all, name+".csv")
	}
	return []demoJob{
		{core.Job{Title: "Packhorse: to the bare frame and back", Owner: owner, Vehicle: &vehicle, Units: []core.Unit{engine, gearbox}, Brief: brief,
			Extent: core.Extent{Kind: core.ExtentBareFrame}}, all},
		{core.Job{Title: "Brakes only, otherwise left alone", State: core.StateInspected, Owner: core.Party{Name: "Cottam Bros, Hayrick Lane"}, Vehicle: &core.Vehicle{Title: "Packhorse, Mark B, on the road", Pack: "packhorse-mark-b"},
			Brief:  core.Brief{Use: "milk round, every day", HorizonKM: 40000, HorizonYears: 5, Stored: "dry", Ran: "within 2 years", Worked: "hard"},
			Extent: core.Extent{Kind: core.ExtentNamed, Names: []string{"brakes"}}}, []string{"jobs/brakes-only.csv"}},
		{core.Job{Title: "One gearbox on the bench", State: core.StateArrived, Owner: owner, Brief: brief,
			Units:  []core.Unit{{ID: "gearbox", Kind: "gearbox", Title: "Spare gearbox, no number found", Pack: "packhorse-gearbox", Marks: []core.Mark{{Where: "case, casting date", Text: "", Says: "not found yet"}}}},
			Extent: core.Extent{Kind: core.ExtentBench, Apart: []string{"gearbox-split"}}}, []string{"jobs/bench-gearbox.csv"}},
	}
}

// printDemo is one screen that a tired mechanic can read.
func printDemo(w io.Writer, dir string, p core.Plan, zone *time.Location, took time.Duration) {
	fmt.Fprintf(w, "%s  %s, for %s (all invented)\n", p.Job.Number, p.Job.Title, p.Job.Owner.Name)
	counts := map[core.RemedyKind]int{}
	for _, c := range p.Choices {
		counts[c.Kind]++
	}
	fmt.Fprintf(w, "%d findings on %d parts: reuse %d, rebuild %d, replace %d, not decided yet %d; %d not seen\n\n", len(p.Findings), len(p.Choices),
		counts[core.Reuse], counts[core.Rebuild], counts[core.Replace], counts[core.Undecided], len(p.NotSeen))
	t := newTable("what decides", "")
	for _, place := range []string{"bottom-end/crankpin/P4", "gearbox/gear-pair/third", "gearbox/interlock", "steering/worm", "brakes/drum/LR", "frame/steering-box-mounting"} {
		found, err := findChoices(p, place)
		if err != nil {
			continue
		}
		for _, c := range found {
			t.add(strings.TrimSpace(c.PartName+" "+c.Position), fmt.Sprintf("%s: %s", c.Kind, p.Condition(c.Place).Short(c)))
		}
	}
	t.print(w, "  ", screen)
	fmt.Fprintln(w)
	printMoney(w, p)
	para(w, "  ", finishLine(p.Finish, zone))
	fmt.Fprintf(w, "\nPapers: %s and .html, %s and .html  (%.1f s in all)\n", filepath.Join(dir, "papers", "scope.pdf"), filepath.Join(dir, "papers", "work-order.pdf"), took.Seconds())
	fmt.Fprintf(w, `
Try next, with fettle on the path or as bin/fettle:
  fettle -C %[1]s plan %[2]s                      every part: found, to do, because
  fettle -C %[1]s why %[2]s crankpin/P4           from the finding to the price
  fettle -C %[1]s budget %[2]s                    how likely each sum is to be enough, and each day
  fettle -C %[1]s record %[2]s body seat-cover driver condition class 2
  fettle -C %[1]s job list                        the other jobs
`, dir, p.Job.Number)
}
