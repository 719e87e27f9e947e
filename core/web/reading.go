package web

import (
	"encoding/json"
	"net/http"
	"regexp"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// sent is a reading as a device sends it. Its id is made on the device, so that what is sent twice is taken once.
type sent struct {
	ID         string `json:"id"`
	Subsystem  string `json:"subsystem"`
	Unit       string `json:"unit"`
	Part       string `json:"part"`
	Position   string `json:"position"`
	Check      string `json:"check"`
	Station    string `json:"station"`
	Value      string `json:"value"`
	Instrument string `json:"instrument"`
	By         string `json:"by"`
	At         string `json:"at"` // RFC 3339
	Note       string `json:"note"`
}

// mostReadings is how many are taken at once; a device sends what it has in pieces of this.
const mostReadings = 200

// taken says what became of a reading: taken, or what is wrong with it; what is to be sent again later is not refused.
type taken struct {
	ID    string `json:"id"`
	OK    bool   `json:"ok"`
	Later bool   `json:"later,omitempty"`
	What  string `json:"what,omitempty"`
	Next  string `json:"next,omitempty"`
}

// uuid is the form of an id (RFC 9562).
var uuid = regexp.MustCompile(`^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`)

// takeReadings writes readings down.
func (s *Server) takeReadings(w http.ResponseWriter, r *http.Request) error {
	var in struct {
		Readings []sent `json:"readings"`
	}
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	if err := d.Decode(&in); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "the readings cannot be read: %v", err)
	}
	if len(in.Readings) > mostReadings {
		return core.Errorf(core.Invalid, "send them in pieces", "%d readings at once are too many", len(in.Readings))
	}
	out, err := s.record(r, in.Readings)
	if err != nil {
		return err
	}
	writeJSON(w, http.StatusOK, struct {
		Readings []taken `json:"readings"`
	}{out})
	return nil
}

// record writes readings down one by one: what is wrong with one keeps none of the others back.
func (s *Server) record(r *http.Request, in []sent) ([]taken, error) {
	out := make([]taken, len(in))
	var typed []core.Typed
	var at []int
	for i, x := range in {
		out[i].ID = x.ID
		if x.ID != "" && !uuid.MatchString(x.ID) {
			out[i].What, out[i].Next = "the reading has no id that can be used", "load the page again"
			continue
		}
		by := strings.TrimSpace(x.By)
		if by == "" {
			by = s.by(r)
		}
		typed = append(typed, core.Typed{ID: x.ID, Subsystem: x.Subsystem, Unit: x.Unit, Part: x.Part, Position: x.Position, Check: x.Check, Station: x.Station,
			Value: x.Value, Instrument: x.Instrument, By: by, Note: x.Note, At: s.typedAt(x.At)})
		at = append(at, i)
	}
	errs, err := s.Readings.Record(r.Context(), r.PathValue("job"), typed)
	if err != nil {
		return nil, err
	}
	for k, i := range at {
		if errs[k] == nil {
			out[i].OK = true
			continue
		}
		f := faultsOf(errs[k])[0]
		out[i].What, out[i].Next, out[i].Later = f.What, f.Next, core.ErrorCode(errs[k]) == core.Unavailable
	}
	return out, nil
}

// takeBack takes one reading back: a device takes back what it wrote itself, not what another wrote since.
func (s *Server) takeBack(w http.ResponseWriter, r *http.Request) error {
	if err := s.Readings.TakeBack(r.Context(), r.PathValue("job"), s.by(r), r.PathValue("reading")); err != nil {
		return err
	}
	writeJSON(w, http.StatusOK, map[string]bool{"ok": true})
	return nil
}
