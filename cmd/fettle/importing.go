package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/store"
)

func (c *command) importCommand() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use: "import JOB FILE.csv", Short: "Take findings from a CSV file; importing it twice changes nothing", Args: cobra.ExactArgs(2),
		Long: `The first line names the columns: subsystem,part,position,check,station,value,instrument,by,at,note and, if you like, unit; commas, semicolons or tabs part them.
A value may be a reading, or missing, could not reach, not measured. The word "again" in a note makes a row a new reading that takes the place of the
earlier ones. A row that cannot be read is told with its line, and the others are kept; with --all-or-none nothing is kept then.`,
		Example: "  fettle import J-001 gearbox.csv",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				data, err := os.ReadFile(args[1])
				if err != nil {
					return &core.Error{Code: core.NotFound, What: "the file cannot be read", Where: args[1], Next: "check its name", Err: err}
				}
				r, err := s.importFindings(cmd.Context(), args[0], data, filepath.Base(args[1]), all)
				if err == nil || r.New+r.There > 0 {
					if err := c.tellImport(r); err != nil {
						return err
					}
				}
				return err
			})
		},
	}
	cmd.Flags().BoolVar(&all, "all-or-none", false, "keep nothing if a single row cannot be read")
	return cmd
}

// imported says what became of a file's rows.
type imported struct {
	New     int `json:"new"`
	There   int `json:"already_there"`
	Refused int `json:"refused"`
}

func (c *command) tellImport(r imported) error {
	if c.asJSON() {
		return writeJSON(c.out, r)
	}
	s := fmt.Sprintf("%d findings new, %d already there", r.New, r.There)
	if r.Refused > 0 {
		s += fmt.Sprintf(", %d refused", r.Refused)
	}
	c.print(s)
	return nil
}

// importFindings reads a file's rows, looks them up and adds them as one batch. Refused rows are told, all at once.
func (s *shop) importFindings(ctx context.Context, number string, data []byte, name string, allOrNone bool) (imported, error) {
	job, err := s.job(ctx, number)
	if err != nil {
		return imported{}, err
	}
	rows, bad := config.ReadFindings(data, name, s.settings().Zone)
	var mentioned []string
	for _, row := range rows {
		mentioned = append(mentioned, row.Subsystem)
	}
	r, err := s.recorder(ctx, job, mentioned...)
	if err != nil {
		return imported{}, err
	}
	var told rowFaults
	for _, f := range bad {
		told.add(f.Line, &core.Error{Code: core.Invalid, What: f.What, Where: f.Place(), Next: f.Next})
	}
	var fs []core.Finding
	for _, row := range rows {
		f, err := r.Finding(core.Typed{Subsystem: row.Subsystem, Part: row.Part, Position: row.Position, Check: row.Check, Station: row.Station, Value: row.Value,
			Measure: row.Unit, Instrument: row.Instrument, By: row.By, Note: row.Note, At: row.Time, ID: store.ImportID(job.Number, row.Normalised(), row.Nth)})
		if err != nil {
			told.add(row.Line, &core.Error{Code: core.Invalid, What: err.Error(), Where: fmt.Sprintf("%s:%d", name, row.Line), Next: core.ErrorNext(err)})
			continue
		}
		fs = append(fs, f)
	}
	if len(told) > 0 && allOrNone {
		return imported{}, append(told.inOrder(), core.Errorf(core.Invalid, "put the rows right, or leave --all-or-none out", "%s: nothing was kept, because of %d faults", name, len(told)))
	}
	added, err := s.book.AddFindings(ctx, job.Number, fs)
	if err != nil {
		return imported{}, err
	}
	out := imported{New: len(added.New), There: len(added.There) + len(added.TakenBack), Refused: len(told)}
	if len(told) > 0 {
		return out, told.inOrder()
	}
	return out, nil
}

// rowFault is what is wrong with a row, from the file's reader or from the sheets.
type rowFault struct {
	line int
	err  error
}

type rowFaults []rowFault

func (r *rowFaults) add(line int, err error) {
	*r = append(*r, rowFault{line, err})
}

// inOrder gives the faults as the file has them.
func (r rowFaults) inOrder() (fs faults) {
	slices.SortStableFunc(r, func(a, b rowFault) int { return a.line - b.line })
	for _, f := range r {
		fs = append(fs, f.err)
	}
	return fs
}
