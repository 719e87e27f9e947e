package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/host"
	"github.com/fettle-tools/fettle/core/paper"
	"github.com/fettle-tools/fettle/core/store"
)

// paperKind is one sort of paper the shop can write.
type paperKind struct {
	name  string // of the command and the file
	title string
	mark  string // stands in its number
	make  func(paper.Input) paper.Document
}

var (
	scopePaper     = paperKind{"scope", "scope", "S", paper.Scope}
	workOrderPaper = paperKind{"work-order", "work order", "W", paper.WorkOrder}
)

func (c *command) scopeCommand() *cobra.Command {
	return c.paperCommand(scopePaper, "What the customer signs: what was found, what is done, what it costs and how sure that is")
}

func (c *command) workOrderCommand() *cobra.Command {
	return c.paperCommand(workOrderPaper, "What the shop works from: steps, work, what to buy and what to send out")
}

func (c *command) paperCommand(k paperKind, short string) *cobra.Command {
	var out string
	var issue bool
	cmd := &cobra.Command{
		Use: k.name + " [JOB]", Short: short, Args: cobra.MaximumNArgs(1),
		Long: fmt.Sprintf(`Writes the %s as PDF and HTML into the shop's papers folder. It is a draft until it is issued: an issued paper is numbered, kept with its
bytes and everything it was made from, and never changes.`, k.title),
		Example: fmt.Sprintf("  fettle %s J-001\n  fettle %s J-001 --issue", k.name, k.name),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withFinish(cmd.Context(), args, func(s *shop, p core.Plan) error {
				written, err := s.write(cmd.Context(), k, p, out, issue)
				if err != nil {
					return err
				}
				if c.asJSON() {
					return writeJSON(c.out, written)
				}
				for _, f := range written.Files {
					c.print(f)
				}
				if !issue {
					c.print(fmt.Sprintf("\n  a draft; when it is right: %s %s %s --issue", c.self(), k.name, p.Job.Number))
				}
				return nil
			})
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "`PATH` to write it to, without an ending; the shop's papers folder if left out")
	cmd.Flags().BoolVar(&issue, "issue", false, "number it and keep it as issued")
	return cmd
}

// written says what paper was written, and where.
type written struct {
	Number   string   `json:"number"`
	Revision int      `json:"revision"`
	Issued   bool     `json:"issued"`
	Files    []string `json:"files"`
}

// spoken is the revision as printed; a draft says so.
func (w written) spoken() string {
	if !w.Issued {
		return fmt.Sprint(w.Revision, " draft")
	}
	return fmt.Sprint(w.Revision)
}

// replaces is the paper that this one takes the place of; "" for a first revision.
func (w written) replaces() string {
	if w.Revision < 2 {
		return ""
	}
	return fmt.Sprintf("%s revision %d", w.Number, w.Revision-1)
}

// letterhead is the shop as its papers name it.
func (s *shop) letterhead() paper.Shop {
	p := s.settings().Shop
	head := paper.Shop{Name: p.Name, Address: p.Address}
	if p.Contact != "" {
		head.Contact = []string{p.Contact}
	}
	return head
}

// printed is a paper printed in both media, with what it needs to be issued.
type printed struct {
	written
	job, title string
	name       string // of its files, before the revision
	pdf, html  []byte
	// from says what it was made from; of an offer it is said until when it holds.
	from  func(validUntil time.Time) (json.RawMessage, error)
	until time.Time                   // when an offer ends; zero: it is none
	after func(context.Context) error // what follows from its issue; nil: nothing
}

// teller is told how far work has come that takes more than a moment; nil is told nothing.
type teller func(n, of int, doing string)

func (t teller) tell(n, of int, doing string) {
	if t != nil {
		t(n, of, doing)
	}
}

// write prints a paper in both media, and keeps it in the book if it is issued.
func (s *shop) write(ctx context.Context, k paperKind, p core.Plan, out string, issue bool) (written, error) {
	m, err := s.make(ctx, k, p, issue, nil)
	if err != nil {
		return m.written, err
	}
	m.Files, err = s.put(ctx, m, s.c.by(), out)
	return m.written, err
}

// make prints a paper in both media.
func (s *shop) make(ctx context.Context, k paperKind, p core.Plan, issue bool, told teller) (printed, error) {
	m := printed{written: written{Number: p.Job.Number + "-" + k.mark, Issued: issue}, job: p.Job.Number, title: k.title, name: p.Job.Number + "-" + k.name, until: s.validUntil(k)}
	if issue {
		if err := mayIssue(p); err != nil {
			return m, err
		}
	}
	var err error
	if m.Revision, err = s.book.NextRevision(ctx, m.Number); err != nil {
		return m, err
	}
	in, err := s.paperInput(ctx, p, m.written)
	if err != nil {
		return m, err
	}
	m.from = func(until time.Time) (json.RawMessage, error) { return s.inputs(in, until) }
	if k.name == scopePaper.name {
		m.after = func(ctx context.Context) error { return s.scopeIsOut(ctx, m.written, m.job) }
	}
	return m, m.print(k.make(in), told)
}

// print prints the document in both media.
func (m *printed) print(doc paper.Document, told teller) (err error) {
	told.tell(2, 4, "printing it")
	if m.pdf, err = paper.PDF(doc); err != nil {
		return err
	}
	told.tell(3, 4, "writing it for a screen")
	m.html, err = paper.HTML(doc)
	return err
}

// put lays a paper's files into their place and gives their names: in the shop's papers folder, or out. What is to be issued is kept in the book, as
// issued by somebody, before the files are in their place.
func (s *shop) put(ctx context.Context, m printed, by, out string) ([]string, error) {
	if out == "" {
		out = filepath.Join(s.dir, store.PapersDir, fmt.Sprintf("%s-r%d", m.name, m.Revision))
		if !m.Issued {
			out += "-draft"
		}
	}
	files := []paperFile{{out + ".pdf", m.pdf}, {out + ".html", m.html}}
	if err := place(files, func() error {
		if !m.Issued {
			return nil
		}
		return s.issue(ctx, m, by)
	}); err != nil {
		return nil, err
	}
	return []string{files[0].name, files[1].name}, nil
}

// paperFile is a paper in one medium, and where it goes.
type paperFile struct {
	name  string
	bytes []byte
}

// place writes the files beside where they go, does what has to be done between, and puts them there: a paper that cannot be written is not
// issued, and one that is not issued is not left lying about.
func place(files []paperFile, between func() error) error {
	part := func(f paperFile) string { return f.name + ".part" }
	err := os.MkdirAll(filepath.Dir(files[0].name), 0o755)
	for _, f := range files {
		if err == nil {
			err = os.WriteFile(part(f), f.bytes, 0o644)
		}
		defer func() { _ = os.Remove(part(f)) }()
	}
	if err != nil {
		return &core.Error{Code: core.Unavailable, What: "the paper cannot be written", Where: files[0].name, Next: "choose another place with --out", Err: err}
	}
	if err := between(); err != nil {
		return err
	}
	for _, f := range files {
		if err := os.Rename(part(f), f.name); err != nil {
			return err
		}
	}
	return nil
}

// mayIssue refuses what stops a paper: an identity mark that looks altered, or prices asked too long ago. What was not seen or not
// assessed stands at the top of the paper and does not stop it.
func mayIssue(p core.Plan) error {
	if where := p.Job.Altered(); where != "" {
		return core.Errorf(core.Conflict, "stop work on this unit and tell the owner in writing; then write down how: fettle job mark ... --says \"looks altered\" --told WORDS",
			"the mark at %s looks altered: nothing is ordered and no scope is issued", where)
	}
	if len(p.OldPrices) > 0 {
		return core.Errorf(core.Conflict, "ask again, then:"+askAgain(p), "prices older than %d days: %s", core.PriceOldDays, strings.Join(p.OldPrices, ", "))
	}
	return nil
}

// askAgain writes down the commands that renew the prices that are too old, one a line. A price takes the place of an old one
// of the same supplier and kind alone.
func askAgain(p core.Plan) string {
	var lines string
	for _, l := range p.WorkOrder.Lines {
		for _, it := range l.Items {
			line := "\n  fettle price set " + it.Key + " PRICE"
			if it.Supplier != "" {
				line += fmt.Sprintf(" --from %q", it.Supplier)
			}
			if it.Kind != "" && it.Kind != "new" {
				line += fmt.Sprintf(" --kind %q", it.Kind)
			}
			if it.Old && !strings.Contains(lines, line) {
				lines += line
			}
		}
	}
	return lines
}

// paperInput gathers what a paper is made from: the plan, the shop, what was agreed, the photographs.
func (s *shop) paperInput(ctx context.Context, p core.Plan, w written) (paper.Input, error) {
	now := s.c.clock()
	set := s.settings()
	in := paper.Input{Plan: p, Shop: s.letterhead(), Number: w.Number, Revision: w.spoken(), Replaces: w.replaces(), Date: now, Zone: set.Zone,
		ValidUntil: now.AddDate(0, 0, set.ValidDays), Terms: set.Terms, Rates: set.Rates, Storage: set.Payment}
	story, err := s.book.Story(ctx, p.Job.Number)
	if err != nil {
		return in, err
	}
	in.Authorised = story.Agreed(core.GateBudget) != nil
	for _, l := range p.WorkOrder.Lines {
		if l.Kind != core.LineReserve && story.Covered(l.ID) != nil {
			in.NotCovered = append(in.NotCovered, l.ID)
		}
	}
	in.Photos, err = s.photographs(ctx, p.Job)
	return in, err
}

// photographs reads the pictures of a job that show a finding or a mark. One whose file is gone says so on the paper: that does not
// stop it.
func (s *shop) photographs(ctx context.Context, job core.Job) ([]paper.Photo, error) {
	kept, err := s.book.Photos(ctx, job.Number)
	if err != nil {
		return nil, err
	}
	marks := job.Marks()
	var out []paper.Photo
	for _, k := range kept {
		ofMark := slices.ContainsFunc(marks, func(m core.Mark) bool { return m.Photo == k.SHA256 })
		if len(k.FindingIDs) == 0 && !ofMark {
			continue
		}
		ph := paper.Photo{SHA256: k.SHA256, Title: k.Title, FindingIDs: k.FindingIDs}
		r, err := s.book.OpenPhoto(k)
		if err == nil {
			ph.Bytes, err = io.ReadAll(r)
			err = errors.Join(err, r.Close())
		}
		if err != nil {
			ph.Fault = "Its file cannot be read: look for it in a backup of the photos folder."
		}
		out = append(out, ph)
	}
	return out, nil
}

// issue keeps a paper in both media with everything it was made from, and does what follows.
func (s *shop) issue(ctx context.Context, m printed, by string) error {
	inputs, err := m.from(m.until)
	if err != nil {
		return err
	}
	one := store.Paper{Job: m.job, Kind: m.title, Number: m.Number, Revision: m.Revision, Inputs: inputs}
	asPDF, asHTML := one, one
	asPDF.Media, asPDF.Bytes = "application/pdf", m.pdf
	asHTML.Media, asHTML.Bytes = "text/html", m.html
	if _, err := s.book.Issue(ctx, by, asPDF, asHTML); err != nil || m.after == nil {
		return err
	}
	return m.after(ctx)
}

// validUntil is when an offer ends; zero: the paper is none.
func (s *shop) validUntil(k paperKind) time.Time {
	if k.name != scopePaper.name {
		return time.Time{}
	}
	return s.c.clock().AddDate(0, 0, s.settings().ValidDays).UTC()
}

// scopeIsOut takes a job to the state in which the owner's answer is waited for, where that may follow.
func (s *shop) scopeIsOut(ctx context.Context, w written, job string) error {
	story, err := s.book.Story(ctx, job)
	if err != nil || story.Job.State == core.StateStopped || !slices.Contains(story.Next(), core.StateScopeOut) {
		return err
	}
	_, err = s.book.Act(ctx, job, s.c.by(), &core.Move{To: core.StateScopeOut, Why: fmt.Sprintf("%s revision %d issued", w.Number, w.Revision)})
	return err
}

// inputs are what a paper was made from: the hashes of plugins, sheets and packs, the findings, assessments, prices, rates and seed.
func (s *shop) inputs(made paper.Input, validUntil time.Time) (json.RawMessage, error) {
	p := made.Plan
	type hashed struct {
		Name   string `json:"name"`
		SHA256 string `json:"sha256"`
	}
	in := struct {
		Version  string           `json:"version"`
		Plugins  []host.Info      `json:"plugins"`
		Sheets   []hashed         `json:"sheets"`
		Packs    []hashed         `json:"packs"`
		Photos   []hashed         `json:"photos,omitempty"`
		Settings hashed           `json:"settings"`
		Findings []core.Finding   `json:"findings"`
		Job      core.Job         `json:"job"`
		Assessed []core.UnitSheet `json:"assessed"`
		Order    core.WorkOrder   `json:"order"`
		Budget   core.Budget      `json:"budget"`
		Finish   *core.Finish     `json:"finish,omitempty"`
		Choices  []core.Choice    `json:"choices"`
		// Learned is what closed jobs had taught by then; nil if none was closed.
		Learned *core.LearnedHere `json:"learned,omitempty"`
		// ValidUntil is when an offer ends; the book reads it back with the paper.
		ValidUntil time.Time `json:"valid_until,omitzero"`
	}{Version: version, Plugins: s.plugins.List(), Findings: p.Findings, Job: p.Job, Assessed: p.Sheets, Order: p.WorkOrder, Budget: p.Budget, Finish: p.Finish, Choices: p.Choices, Learned: p.Learned,
		ValidUntil: validUntil}
	for i := range in.Plugins {
		in.Plugins[i].PID, in.Plugins[i].State = 0, ""
	}
	sum := func(name string, v any) (hashed, error) {
		b, err := json.Marshal(v)
		h := sha256.Sum256(b)
		return hashed{name, hex.EncodeToString(h[:])}, err
	}
	for _, us := range p.Sheets {
		h, err := sum(us.Subsystem+"@"+us.Unit, us.Sheet)
		if err != nil {
			return nil, err
		}
		in.Sheets = append(in.Sheets, h)
	}
	for _, ph := range made.Photos {
		in.Photos = append(in.Photos, hashed{ph.Title, ph.SHA256})
	}
	packs, err := s.packs()
	if err != nil {
		return nil, err
	}
	for _, k := range packs {
		h, err := sum(k.ID, k)
		if err != nil {
			return nil, err
		}
		in.Packs = append(in.Packs, h)
	}
	if in.Settings, err = sum("fettle.yaml", s.settings()); err != nil {
		return nil, err
	}
	return json.Marshal(in)
}
