package web

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Office keeps what the shop knows beside its jobs.
type Office interface {
	// House is what the settings say.
	House() House
	// Skills are those that work here asks for or has a price of an hour for.
	Skills(ctx context.Context) []string
	// SetFigures writes figures into the settings; all faults are told at once.
	SetFigures(ctx context.Context, by string, f Figures) error
	Parties(ctx context.Context) ([]core.Party, error)
	// SetParty keeps a party, in the place of the one of its name. May and hour are amounts; "" is none.
	SetParty(ctx context.Context, by string, p core.Party, may, hour string) error
	// Prices is the price book as it stands, by item.
	Prices(ctx context.Context) ([]core.PriceEntry, error)
	// Priced are the items that the sheets have, by key and name: what a price may be written down for.
	Priced(ctx context.Context) []Named
	// SetPrice writes a price down: its item is called by key or name, its three figures are decimal text, low and high may be left out. It gives the
	// item's key, and says what is odd about the price, or "".
	SetPrice(ctx context.Context, by string, p core.PriceEntry) (item, odd string, err error)
	// UndoPrice takes the last price back, or with again brings back what was taken; it says which.
	UndoPrice(ctx context.Context, by string, again bool) (what string, err error)
	// Unasked is what a job's money rests on that nobody has asked, dearest first.
	Unasked(ctx context.Context, job string) ([]Unasked, error)
	// Zeroed are the instruments, each with the last look at its zero.
	Zeroed(ctx context.Context) ([]Zeroed, error)
	// CheckZero writes down a look at an instrument's zero, at the time that it gives. What was sent under the same id before is taken already.
	CheckZero(ctx context.Context, id, by string, z core.ZeroCheck) error
	Plugins() []Plugin
	// Backup writes a copy of the book to a file that must not be there.
	Backup(ctx context.Context, to string) error
}

// House is what the shop says of itself.
type House struct {
	File        string // that says it
	Currency    string
	Rates       []core.Rate
	Taxes       []core.Tax
	Sundries    string // in words; "" if none are charged
	People      int
	WeeklyHours float64
	ValidDays   int
	Faulty      error // why what the file says by now does not hold; nil: it does
}

// Figures are what the page of the shop writes into its settings, as typed; a blank is not said.
type Figures struct {
	Hours       []SkillHour
	People      string // hands present
	WeeklyHours string // of the bench, for all jobs together
}

// SkillHour is what an hour of a skill costs, as typed.
type SkillHour struct{ Skill, Hour string }

// Zeroed is an instrument with the last look at its zero.
type Zeroed struct {
	core.Instrument
	Zero  *core.ZeroCheck // nil: nobody has looked yet
	Today bool
}

// Plugin is a subsystem that is served.
type Plugin struct{ Name, From, Pin, State string }

// Unasked is one price to ask for.
type Unasked struct {
	Key, Name string
	Count     float64
	Each      core.Money // typical
	Why       string
}

// shopPage shows what the shop is made of.
type shopPage struct {
	frame
	House
	Parties int
	Prices  int
	Old     int // prices that were asked too long ago
	Plugins []Plugin
	Typed   Figures
	Open    bool // the form of the figures is
	Faults  []told
}

// Unread is what is wrong with the file of the settings by now.
func (p shopPage) Unread() []told {
	if p.Faulty == nil {
		return nil
	}
	return faultsOf(p.Faulty)
}

func (s *Server) showShop(w http.ResponseWriter, r *http.Request) error {
	h := s.Office.House()
	f := Figures{People: asFigure(float64(h.People)), WeeklyHours: asFigure(h.WeeklyHours)}
	for _, skill := range s.Office.Skills(r.Context()) {
		x := SkillHour{Skill: skill}
		if i := slices.IndexFunc(h.Rates, func(rate core.Rate) bool { return rate.Skill == skill }); i >= 0 {
			x.Hour = h.Rates[i].Hour.Number()
		}
		f.Hours = append(f.Hours, x)
	}
	return s.shopWith(w, r, http.StatusOK, shopPage{House: h, Typed: f, Open: len(h.Rates) == 0})
}

// asFigure writes a figure as it is typed; nothing for 0.
func asFigure(x float64) string {
	if x == 0 {
		return ""
	}
	return core.FormatNumber(x)
}

// setFigures writes figures into the settings, or shows the form again with what is wrong.
func (s *Server) setFigures(w http.ResponseWriter, r *http.Request) error {
	f := Figures{People: typed(r, "people"), WeeklyHours: typed(r, "weekly-hours")}
	hours := r.PostForm["hour"]
	for i, skill := range r.PostForm["skill"] {
		if i < len(hours) {
			f.Hours = append(f.Hours, SkillHour{Skill: skill, Hour: strings.TrimSpace(hours[i])})
		}
	}
	err := s.Office.SetFigures(r.Context(), s.by(r), f)
	if err != nil && wrong(err) {
		return s.shopWith(w, r, statuses[core.ErrorCode(err)], shopPage{House: s.Office.House(), Typed: f, Open: true, Faults: faultsOf(err)})
	}
	if err == nil {
		http.Redirect(w, r, "/shop#figures", http.StatusSeeOther)
	}
	return err
}

func (s *Server) shopWith(w http.ResponseWriter, r *http.Request, status int, p shopPage) error {
	ctx := r.Context()
	p.frame, p.Plugins = s.frame(r, "The shop"), s.Office.Plugins()
	parties, err := s.Office.Parties(ctx)
	if err != nil {
		return err
	}
	prices, err := s.Office.Prices(ctx)
	if err != nil {
		return err
	}
	p.Parties, p.Prices = len(parties), len(prices)
	for _, x := range prices {
		if s.old(x) {
			p.Old++
		}
	}
	return s.show(w, status, "shop", p)
}

// old reports that a price was asked too long ago.
func (s *Server) old(p core.PriceEntry) bool {
	return s.Clock().Sub(p.Date) > core.PriceOldDays*24*time.Hour
}

// sendBackup gives a copy of the book, as it is at one moment.
func (s *Server) sendBackup(w http.ResponseWriter, r *http.Request) error {
	dir, err := os.MkdirTemp("", "fettle-backup-*")
	if err != nil {
		return &core.Error{Code: core.Unavailable, What: "there is no room for a copy", Next: "make room on the disk", Err: err}
	}
	defer func() { _ = os.RemoveAll(dir) }()
	name := filepath.Join(dir, "book.db")
	if err := s.Office.Backup(r.Context(), name); err != nil {
		return err
	}
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer func() { _ = f.Close() }()
	now := s.Clock().In(s.Zone)
	h := w.Header()
	h.Set("Content-Type", "application/octet-stream")
	h.Set("Content-Disposition", fmt.Sprintf(`attachment; filename="book-%s.db"`, now.Format(time.DateOnly)))
	h.Set("Cache-Control", "no-store")
	_ = http.NewResponseController(w).SetWriteDeadline(time.Now().Add(longestDownload))
	http.ServeContent(w, r, "", time.Time{}, f)
	return nil
}

// longestDownload is how long a copy of the book may take to a device.
const longestDownload = 30 * time.Minute
