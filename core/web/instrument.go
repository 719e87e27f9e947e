package web

import (
	"net/http"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// instrumentsPage lists what is measured with, and asks for a look at the zero.
type instrumentsPage struct {
	frame
	Instruments []Zeroed
	Faults      []told
	On, Off     string // the zero that was typed
}

func (s *Server) showInstruments(w http.ResponseWriter, r *http.Request) error {
	return s.instruments(w, r, http.StatusOK, core.ZeroCheck{}, nil)
}

func (s *Server) instruments(w http.ResponseWriter, r *http.Request, status int, z core.ZeroCheck, faults []told) error {
	list, err := s.Office.Zeroed(r.Context())
	if err != nil {
		return err
	}
	today := s.Clock().In(s.Zone).Format(time.DateOnly)
	for i, x := range list {
		list[i].Today = x.Zero != nil && x.Zero.At.In(s.Zone).Format(time.DateOnly) == today
	}
	return s.show(w, status, "instruments", instrumentsPage{s.frame(r, "Instruments"), list, faults, z.Instrument, z.Off})
}

// checkZero writes down that an instrument's zero was looked at.
func (s *Server) checkZero(w http.ResponseWriter, r *http.Request) error {
	id, err := formID(r)
	if err != nil {
		return err
	}
	z := core.ZeroCheck{Instrument: typed(r, "instrument"), Off: typed(r, "off"), Stamp: core.Stamp{At: s.typedAt(r.FormValue("typed-at"))}}
	err = s.Office.CheckZero(r.Context(), id, s.byWhom(r), z)
	switch code := core.ErrorCode(err); {
	case err == nil:
		return went(w, r, "/shop/instruments")
	case !byScript(r) && (code == core.Invalid || code == core.NotFound):
		return s.instruments(w, r, statuses[code], z, faultsOf(err))
	}
	return err
}
