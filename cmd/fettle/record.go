package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) recordCommand() *cobra.Command {
	var subsystem, instrument string
	cmd := &cobra.Command{
		Use:   "record JOB WORDS...",
		Short: "Write down one finding, or many on a line",
		Long: `Write subsystem, part, position, check, then the reading as you would say it: 16 thou, 24.87 mm, 1 1/16 in, class 1, pass, fails, missing,
could not reach, not measured. Several stations of a check stand one after the other; a semicolon begins the next finding, which takes from the one
before the subsystem, part and check that it leaves out. "with" names the instrument, "by" who measured, "note" the rest. Each is read back with its unit; a number that
could be in two units is asked back. A dash instead of words reads a line at a time from the keyboard.`,
		Example: `  fettle record J-001 gearbox layshaft-cluster end-float 16 thou with feelers
  fettle record J-001 "bottom-end main-journal M2 diameter FV 2.4950 FH 2.4968 RV 2.4946 RH 2.4966 with micrometer"
  fettle record J-001 "gearbox synchro-ring third gap A 22 thou B 0.53 mm C could not reach; interlock working fails"
  fettle record J-001 -`,
		Args: cobra.MinimumNArgs(2),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.record(cmd.Context(), args[0], strings.Join(args[1:], " "), subsystem, instrument)
		},
	}
	cmd.Flags().StringVar(&subsystem, "subsystem", "", "the `SUBSYSTEM` meant where none is named")
	cmd.Flags().StringVar(&instrument, "with", "", "the `INSTRUMENT` used where none is named")
	return cmd
}

func (c *command) record(ctx context.Context, number, text, subsystem, instrument string) error {
	s, err := c.openShop(ctx)
	if err != nil {
		return err
	}
	defer s.close()
	job, err := s.job(ctx, number)
	if err != nil {
		return err
	}
	mentioned := append(strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ';' || r == '\t' }), subsystem)
	if text == "-" {
		mentioned = nil
	}
	r, err := s.recorder(ctx, job, mentioned...)
	if err != nil {
		return err
	}
	w := writer{c: c, s: s, r: r, job: job, subsystem: subsystem, instrument: instrument}
	if text != "-" {
		return w.line(ctx, text)
	}
	var all faults
	in := bufio.NewScanner(c.in)
	for in.Scan() {
		if strings.TrimSpace(in.Text()) == "" {
			continue
		}
		var many faults
		if err := w.line(ctx, in.Text()); errors.As(err, &many) {
			all = append(all, many...)
		} else if err != nil {
			return err
		}
	}
	if err := in.Err(); err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	if len(all) > 0 {
		return all
	}
	return nil
}

// writer writes findings down and reads them back.
type writer struct {
	c                     *command
	s                     *shop
	r                     core.Recorder
	job                   core.Job
	subsystem, instrument string
}

// line keeps what can be read of a line, echoes it with its unit, and tells the rest.
func (w *writer) line(ctx context.Context, text string) error {
	typed, errs := w.r.ReadLine(text, w.subsystem)
	var fs []core.Finding
	for _, t := range typed {
		if t.Instrument == "" {
			t.Instrument = w.instrument
		}
		if t.By == "" {
			t.By = w.c.by()
		}
		t.At = w.c.clock().UTC()
		f, err := w.r.Finding(t)
		if err != nil {
			errs = append(errs, &core.Error{Code: core.ErrorCode(err), Where: strings.Join(strings.Fields(t.Part+" "+t.Position+" "+t.Check+" "+t.Station), " "), What: err.Error(), Next: core.ErrorNext(err)})
			continue
		}
		fs = append(fs, f)
	}
	if len(fs) > 0 {
		added, err := w.s.book.AddFindings(ctx, w.job.Number, fs)
		if err != nil {
			return err
		}
		for i, id := range added.New { // none had an id before
			fs[i].ID = id
		}
		if err := w.echo(fs); err != nil {
			return err
		}
	}
	if len(errs) > 0 {
		return faults(errs)
	}
	return nil
}

func (w *writer) echo(fs []core.Finding) error {
	if w.c.asJSON() {
		return writeJSON(w.c.out, fs)
	}
	for _, f := range fs {
		station := ""
		if f.Station != "" {
			station = " at " + f.Station
		}
		with := ""
		if f.Instrument != "" && f.Value.Kind == core.ValueQuantity {
			with = fmt.Sprintf("  (%s, +/- %s)", f.Instrument, core.Quantity{Value: f.Value.Quantity.Bound, Unit: f.Value.Quantity.Unit})
		}
		fmt.Fprintf(w.c.out, "%s  %s%s  %s%s\n", f.Place(), f.Check, station, f.Value, with)
	}
	return nil
}
