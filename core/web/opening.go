package web

import (
	"context"
	"log/slog"
	"net/http"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// Opening is what is needed where there is no shop yet.
type Opening struct {
	Folder string // that becomes the shop
	Zone   string // this machine's time zone, as far as it is known
	Clock  func() time.Time
	// Make makes the shop. Once it has, another handler answers.
	Make func(ctx context.Context, f FirstShop) error
	Log  *slog.Logger
}

// FirstShop is what a shop must say of itself.
type FirstShop struct {
	Name     string
	Currency string // ISO 4217
	Rate     string // of a mechanic's hour, decimal text; "" is asked for where it is needed
	Zone     string // IANA name
}

// openingPage asks it.
type openingPage struct {
	frame
	Folder string
	Faults []told
	FirstShop
}

// opening answers until there is a shop.
type opening struct {
	*Server
	o Opening
}

// NewOpening makes the handler of a folder that is no shop yet.
func NewOpening(o Opening) (http.Handler, error) {
	s := &Server{Config: Config{Name: "No shop yet", Zone: time.UTC, Clock: o.Clock, Log: o.Log}}
	if s.Log == nil {
		s.Log = slog.New(slog.DiscardHandler)
	}
	var err error
	if s.pages, err = readPages(time.UTC); err != nil {
		return nil, err
	}
	p := opening{s, o}
	mux := http.NewServeMux()
	for _, r := range []route{
		{"GET /{$}", p.showOpening, Here}, {"POST /{$}", p.makeShop, Here},
		{"GET /static/{version}/{file}", s.showStatic, Here}, {"GET /worker.js", s.showWorker, Here}, {"GET /manifest.webmanifest", s.showManifest, Here}, {"GET /offline", s.showOffline, Here},
		{"/", func(w http.ResponseWriter, r *http.Request) error {
			http.Redirect(w, r, "/", http.StatusSeeOther)
			return nil
		}, Here},
	} {
		mux.Handle(r.at, s.answer(r))
	}
	s.handler = s.guarded(mux)
	return s, nil
}

func (p opening) page(r *http.Request, f FirstShop, faults []told) openingPage {
	return openingPage{p.frame(r, "A shop to begin with"), p.o.Folder, faults, f}
}

func (p opening) showOpening(w http.ResponseWriter, r *http.Request) error {
	return p.show(w, http.StatusOK, "opening", p.page(r, FirstShop{Zone: p.o.Zone}, nil))
}

// makeShop makes the shop, or asks again with what was typed.
func (p opening) makeShop(w http.ResponseWriter, r *http.Request) error {
	f := FirstShop{typed(r, "name"), strings.ToUpper(typed(r, "currency")), typed(r, "rate"), typed(r, "zone")}
	err := p.o.Make(r.Context(), f)
	switch core.ErrorCode(err) {
	case "":
		http.Redirect(w, r, "/new", http.StatusSeeOther)
		return nil
	case core.Invalid:
		return p.show(w, http.StatusUnprocessableEntity, "opening", p.page(r, f, faultsOf(err)))
	}
	return err
}
