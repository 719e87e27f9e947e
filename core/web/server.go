package web

import (
	"context"
	"log/slog"
	"net/http"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Stories tells what happened to jobs.
type Stories interface {
	Stories(ctx context.Context) ([]core.Story, error)
	// Story is NotFound for a job that there is not.
	Story(ctx context.Context, job string) (core.Story, error)
}

// Plans plans jobs.
type Plans interface {
	// Plan is the plan as the job stands. It may be kept from an earlier call while nothing has changed.
	Plan(ctx context.Context, job string) (core.Plan, error)
}

// Readings takes readings down and grades them.
type Readings interface {
	// Subsystems lists those of a job in bench order, then those that do not answer.
	Subsystems(ctx context.Context, job string) ([]Subsystem, error)
	// Bench is one subsystem of a job as it stands, with the findings on it, oldest first. One that failed stands there as such, with why among its problems.
	Bench(ctx context.Context, job, subsystem string) (core.UnitSheet, []core.Finding, error)
	// Record writes findings down, one by one: the error of each stands at its place, nil where it was taken or was there already.
	Record(ctx context.Context, job string, typed []core.Typed) ([]error, error)
	// TakeBack takes one reading back. It is NotFound if it does not stand any more.
	TakeBack(ctx context.Context, job, by, reading string) error
	// Again has a subsystem that did not answer tried once more, at the next page that asks it.
	Again(subsystem string)
}

// Subsystem is one bench of a job.
type Subsystem struct {
	Name        string // "gearbox", or "gearbox@gearbox-2"
	Title       string
	Read, Asked int  // questions
	Silent      bool // it does not answer at present: what it asks is not known
}

// Changes counts what is written into the book, by whomever.
type Changes interface {
	// Changed is another number after every change.
	Changed(ctx context.Context) (int64, error)
}

// Config is what the bench is made of. All but LAN and Log must be given.
type Config struct {
	Name  string // of the shop
	Zone  *time.Location
	Clock func() time.Time
	By    string // who writes where nobody is named

	Stories  Stories
	Plans    Plans
	Readings Readings
	Changes  Changes
	Jobs     Jobs
	Yard     Yard
	Vehicles Vehicles
	Arriving Arriving
	Office   Office

	Looking   Looking
	Choosing  Choosing
	Reckoning Reckoning
	Papers    Papers
	Outgoing  Outgoing
	Building  Building
	Ending    Ending

	Stripping Stripping
	Tagging   Tagging
	Photos    Photos

	LAN LAN // nil: the bench is open to this machine alone

	Log *slog.Logger // nil: nothing is logged
}

// Server answers the browsers of one shop.
type Server struct {
	Config
	pages map[string]page
	live  *live
	who   map[string]Role // who may read an address
	// darkroom holds whoever makes a photograph anew.
	darkroom chan struct{}
	handler  http.Handler
}

// New makes the handler. Its background work ends with the context.
func New(ctx context.Context, c Config) (*Server, error) {
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	s := &Server{Config: c, live: newLive(c.Changes, c.LAN, c.Log), darkroom: make(chan struct{}, 1)}
	var err error
	if s.pages, err = readPages(c.Zone); err != nil {
		return nil, err
	}
	mux := http.NewServeMux()
	s.who = map[string]Role{}
	for _, r := range s.routes() {
		mux.Handle(r.at, s.answer(r))
		s.who[strings.TrimPrefix(r.at, "GET ")] = r.who
	}
	mux.Handle("/", s.answer(route{at: "/", to: s.nothingHere, who: Mechanic}))
	s.handler = s.guarded(mux)
	go s.live.watch(ctx)
	return s, nil
}
