package main

import (
	"cmp"
	"context"
	"log/slog"
	"net/http"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// door is what answers a browser: the page that makes a shop, as long as there is none, then the shop's bench.
type door struct {
	c     *command
	how   serving
	mu    sync.Mutex // one shop is made
	shop  *shop      // nil: none yet
	bench *web.Server
	lan   *lan // nil: the bench is open to this machine alone
	at    atomic.Pointer[http.Handler]
}

func (d *door) ServeHTTP(w http.ResponseWriter, r *http.Request) { (*d.at.Load()).ServeHTTP(w, r) }

// open opens the bench of the shop in the folder, or what stands there instead.
func (d *door) open(ctx context.Context) error {
	if d.c.hasBook() {
		return d.openShop(ctx)
	}
	if d.how.lan {
		return core.Errorf(core.NotFound, "make it first, on this machine: fettle serve", "there is no shop here to be opened on the network")
	}
	folder, err := filepath.Abs(d.c.dir())
	if err != nil {
		return err
	}
	h, err := web.NewOpening(web.Opening{Folder: folder, Zone: localZone(d.c.getenv), Clock: d.c.clock,
		Make: func(_ context.Context, f web.FirstShop) error { return d.make(ctx, f) }})
	if err != nil {
		return err
	}
	d.at.Store(&h)
	return nil
}

// openShop opens the shop; its bench answers until the context ends.
func (d *door) openShop(ctx context.Context) error {
	s, err := d.c.openShop(ctx)
	if err != nil {
		return err
	}
	config := s.webConfig(ctx)
	if d.how.lan {
		if d.lan, err = s.openLAN(d.how.lanPort); err != nil {
			s.close()
			return err
		}
		config.LAN = d.lan
	}
	if d.bench, err = web.New(ctx, config); err != nil {
		s.close()
		return err
	}
	d.shop = s
	var h http.Handler = d.bench
	d.at.Store(&h)
	return nil
}

// make makes the shop that a newcomer describes, and opens it.
func (d *door) make(ctx context.Context, f web.FirstShop) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.shop != nil {
		return core.Errorf(core.Conflict, "go to the yard", "the shop is made already")
	}
	text, err := firstSettings(f)
	if err != nil {
		return err
	}
	if err := d.c.createShop(ctx, text); err != nil {
		return err
	}
	if err := d.openShop(ctx); err != nil {
		return err
	}
	s := d.shop
	go func() { _ = s.plugins.Start(ctx) }() // the next page asks them what they look at
	return nil
}

// firstSettings writes the settings of a newcomer's shop, or tells what is wrong with what was typed.
func firstSettings(f web.FirstShop) (string, error) {
	var errs faults
	var rates []string
	f.Zone = cmp.Or(f.Zone, "UTC")
	if f.Rate != "" {
		rates = []string{"mechanic=" + f.Rate}
		if strings.Trim(f.Rate, "0123456789.") != "" || strings.Count(f.Rate, ".") > 1 {
			errs = append(errs, core.Errorf(core.Invalid, "write an amount like 85 or 85.50", "%q is no price of an hour", f.Rate))
		}
	}
	if _, err := time.LoadLocation(f.Zone); err != nil {
		errs = append(errs, core.Errorf(core.Invalid, "write a name like Europe/London, or leave it blank for UTC", "%q is no time zone", f.Zone))
	}
	if len(errs) > 0 {
		return "", errs
	}
	return settingsText(f.Name, f.Currency, f.Zone, rates)
}

// words say what is open.
func (d *door) words() string {
	if d.shop == nil {
		return "There is no shop in this folder yet. This page makes one"
	}
	return "The bench is open"
}

func (d *door) logger() *slog.Logger {
	if d.shop == nil {
		return slog.New(slog.DiscardHandler)
	}
	return d.shop.logger
}

func (d *door) close() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.shop != nil {
		d.shop.close()
	}
}
