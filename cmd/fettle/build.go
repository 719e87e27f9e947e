package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// buildFlags are what may be said of something fitted on the command line.
type buildFlags struct {
	readings, torques, shims, used []string
	second, why, with              string
	again                          bool
}

func (c *command) buildCommand() *cobra.Command {
	var f buildFlags
	cmd := &cobra.Command{
		Use: "build JOB [PART|TAG]", Short: "What was fitted, to which sizes and torques, by whom; or the build so far", Args: cobra.RangeArgs(1, 2),
		Long: `PART is written like gearbox/layshaft-cluster or bottom-end/main-journal/M1, or by its name; a TAG says which part it is. Readings are
judged against the size asked of accepted outwork, else against the sheet's limits of new, never against wear limits: what is outside is refused
without --why. Of a safety-critical part no --why helps what is past its limit, and whoever fits it (--by) is not the --second person who looks
it over; --second alone looks over what was fitted before.`,
		Example: `  fettle build J-001
  fettle build J-001 gearbox/layshaft-cluster --reading "end-float 10 thou" --shims "front: .003 .005 in" --by Jory
  fettle build J-001 T-001 --torque "case bolts 20 lbf ft" --used "case gasket" --by Jory
  fettle build J-001 gearbox/layshaft-cluster --second Wren`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withStory(cmd.Context(), args[0], func(s *shop, story core.Story) error {
				if len(args) == 1 {
					return c.showBuild(s, story)
				}
				return c.build(cmd.Context(), s, story, args[1], f)
			})
		},
	}
	fs := cmd.Flags()
	fs.StringArrayVar(&f.readings, "reading", nil, "`WHAT` was read, like \"M1 diameter 2.4792 in\"; may be given several times")
	fs.StringArrayVar(&f.torques, "torque", nil, "`WHAT` was tightened to what, like \"main cap 60 lbf ft\"; may be given several times")
	fs.StringArrayVar(&f.shims, "shims", nil, "the `PACK` as fitted, like \"outer: .003 .005 in\"; may be given several times")
	fs.StringArrayVar(&f.used, "used", nil, "a one-use `ITEM` that went in new; may be given several times")
	fs.StringVar(&f.second, "second", "", "`NAME` of the second person, who looked it over")
	fs.StringVar(&f.why, "why", "", "`WHY` a size outside new will do")
	fs.StringVar(&f.with, "with", "", "the `INSTRUMENT` used")
	fs.BoolVar(&f.again, "again", false, "it was tightened a second time, after running")
	return cmd
}

func (c *command) build(ctx context.Context, s *shop, story core.Story, what string, f buildFlags) error {
	if !strings.HasPrefix(strings.ToUpper(what), "T-") {
		var err error
		if what, err = s.addressIn(ctx, story.Job, what); err != nil {
			return err
		}
	}
	fit, sheet, err := s.fitAs(ctx, story, what, c.by(), f)
	if err != nil {
		return err
	}
	if story, err = s.book.Act(ctx, story.Job.Number, c.by(), &fit); err != nil {
		return err
	}
	return c.showFit(story, fit, sheet)
}

// fitAs is what was fitted by somebody, as typed, with the sheet that the part is on. All faults are told at once.
func (s *shop) fitAs(ctx context.Context, story core.Story, what, by string, f buildFlags) (core.Fit, core.UnitSheet, error) {
	var sheet core.UnitSheet
	fit, err := beginFit(story, what)
	if err != nil {
		return fit, sheet, err
	}
	fit.By, fit.Second, fit.Why, fit.OneUse = by, f.second, f.why, f.used
	if f.second != "" && fit.By == "" && len(f.readings)+len(f.torques)+len(f.shims)+len(f.used) > 0 {
		return fit, sheet, core.Errorf(core.Invalid, "name who fitted it: --by NAME", "a second person looked it over: who was the first?")
	}
	wrong := f.wrench(&fit)
	if fit.Target.Part == "" {
		fit.Safety = core.SafetyWork(fit.Subsystem, nil)
		if len(f.readings) > 0 {
			wrong = append(wrong, core.Errorf(core.Invalid, "name the part, like gearbox/case", "readings are of a part, and %s names none", what))
		}
		return fit, sheet, wrong.orNil()
	}
	r, err := s.recorder(ctx, story.Job, fit.Subsystem)
	if err != nil {
		return fit, sheet, err
	}
	if sheet, err = placeFit(r, &fit); err != nil {
		return fit, sheet, err
	}
	wrong = append(wrong, f.measure(story, r, sheet, &fit)...)
	if fit.Tag == "" {
		fit.Tag = tagOf(story, fit)
	}
	return fit, sheet, wrong.orNil()
}

// beginFit says what is fitted: a tag's part, a part, of which the tag is found, or the words on a tag.
func beginFit(story core.Story, what string) (core.Fit, error) {
	number := strings.ToUpper(strings.TrimSpace(what))
	if t := story.Tag(number); t != nil {
		return core.Fit{Subsystem: t.Subsystem, Unit: t.Unit, Target: t.Target, Tag: t.ID, What: t.What}, nil
	}
	head, rest, part := strings.Cut(what, "/")
	if strings.HasPrefix(number, "T-") || !part {
		return core.Fit{}, core.Errorf(core.NotFound, "name a part like gearbox/case, or a tag: fettle tag "+story.Job.Number, "%s has no tag or part %q", story.Job.Number, what)
	}
	f := core.Fit{}
	f.Subsystem, f.Unit, _ = strings.Cut(head, "@")
	f.Target.Part, f.Target.Position, _ = strings.Cut(rest, "/")
	return f, nil
}

// tagOf is the number of the tag that is of this part at this position alone, or "": a tag of four is not built with the first of them.
func tagOf(story core.Story, f core.Fit) string {
	for _, t := range story.Tags {
		if t.Subsystem == f.Subsystem && (t.Unit == "" || t.Unit == f.Unit) && t.Target == f.Target && !t.Gone() {
			return t.ID
		}
	}
	return ""
}

// placeFit looks the part up on the sheet, and says whether a second person must check it.
func placeFit(r core.Recorder, f *core.Fit) (core.UnitSheet, error) {
	for _, u := range r.Sheets {
		if u.Subsystem != f.Subsystem || f.Unit != "" && u.Unit != f.Unit {
			continue
		}
		p := u.Sheet.Part(f.Target.Part)
		if p == nil {
			var ids []string
			for _, q := range u.Sheet.Parts {
				ids = append(ids, q.ID)
			}
			next := "see: fettle sheet " + f.Subsystem
			if n := core.Nearest(f.Target.Part, ids); n != "" {
				next = "did you mean " + f.Subsystem + "/" + n + "?"
			}
			return u, core.Errorf(core.NotFound, next, "%s has no part %q", f.Subsystem, f.Target.Part)
		}
		if len(p.Positions) > 0 || f.Target.Position != "" {
			i := slices.IndexFunc(p.Positions, func(q string) bool { return strings.EqualFold(q, f.Target.Position) })
			if i < 0 && f.Target.Position != "" {
				return u, core.Errorf(core.Invalid, "use one of: "+strings.Join(p.Positions, ", "), "%s has no position %q", p.Name, f.Target.Position)
			}
			if i >= 0 {
				f.Target.Position = p.Positions[i]
			}
		}
		f.Unit, f.Safety = u.Unit, core.SafetyWork(f.Subsystem, p)
		return u, nil
	}
	return core.UnitSheet{}, core.Errorf(core.NotFound, "see: fettle job show", "the job has no %s", f.Subsystem)
}

// wrench reads torques and shims, and tells all that is wrong with them.
func (b *buildFlags) wrench(f *core.Fit) (wrong faults) {
	for _, text := range b.torques {
		t, err := core.ReadTorque(text)
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		t.By, t.Again = f.By, b.again
		f.Torques = append(f.Torques, t)
	}
	if b.again && len(b.torques) == 0 {
		wrong = append(wrong, core.Errorf(core.Invalid, `say what: --again --torque "main cap 60 lbf ft"`, "what was tightened again?"))
	}
	for _, text := range b.shims {
		pack, err := core.ParseShims(text)
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		f.Shims = append(f.Shims, pack...)
	}
	return wrong
}

// measure looks readings up as record does and judges each. A reading may name its position, or leave it to the part.
func (b *buildFlags) measure(story core.Story, r core.Recorder, u core.UnitSheet, f *core.Fit) (wrong faults) {
	for _, text := range b.readings {
		line := f.Subsystem + "@" + f.Unit + " " + f.Target.Part + " "
		if words := strings.Fields(text); f.Target.Position != "" && len(words) > 0 && !strings.EqualFold(words[0], f.Target.Position) {
			line += f.Target.Position + " "
		}
		typed, errs := r.ReadLine(line+text, f.Subsystem)
		wrong = append(wrong, errs...)
		for _, t := range typed {
			if t.Instrument == "" {
				t.Instrument = b.with
			}
			g, err := r.Finding(t)
			if err != nil {
				wrong = append(wrong, err)
				continue
			}
			if f.Target.Position == "" && len(b.readings) > 0 {
				f.Target.Position = g.Target.Position // "M1 diameter ..." of main-journal is of main-journal/M1
			}
			if g.Target != f.Target {
				wrong = append(wrong, core.Errorf(core.Invalid, "write each position down by itself", "%s was read, and %s is fitted", g.Target, f.Target))
				continue
			}
			x, err := story.FitReading(u, g)
			if err != nil {
				wrong = append(wrong, err)
				continue
			}
			f.Readings = append(f.Readings, x)
		}
	}
	return wrong
}
