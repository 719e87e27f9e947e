package web

import (
	"crypto/sha256"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
)

// LAN lets devices on the network in, each with a key of its own.
type LAN interface {
	// Names are what this machine is called on the network, in small letters, without a port.
	Names() []string
	// Addresses are where the bench is on the network, like "https://192.168.1.20:8443", the likeliest first.
	Addresses() []string
	// Authority is the shop's own certificate authority, in DER.
	Authority() []byte
	// Offer makes a code that pairs one device, once.
	Offer(role Role) (Offer, error)
	// Offers are the codes that are still good, the last first.
	Offers() []Offer
	// Pair takes a code and gives the device's token; the code is good no longer. It is NotFound if the code is not good, and Invalid without a name.
	Pair(code, name string) (token string, d Device, err error)
	// Holder is the device that holds a token, as it was before this use of it.
	Holder(token string) (Device, bool)
	Devices() ([]Device, error)
	// Changed is another number whenever there are other devices or codes than before.
	Changed() int64
	// PutOut takes a device's key away. It is NotFound if there is no such device.
	PutOut(id string) error
}

// Offer is a code that pairs one device.
type Offer struct {
	Code  string // as shown: "K7QX-93MF-2B"
	Role  Role
	Until time.Time
}

// PairPath is where a device that takes a code by its square goes.
func PairPath(o Offer) string { return "/pair?code=" + o.Code }

// Device is one that has a key.
type Device struct {
	ID, Name    string
	Role        Role
	Since, Seen time.Time
}

// lanPage, at the shop's own machine, lets devices in.
type lanPage struct {
	frame
	Open        bool  // on the network
	Seen        int64 // what Changed was before anything was read
	Addresses   []string
	Fingerprint []string      // of the authority, in rows
	Trust       template.HTML // square code of the page that says how a device trusts the shop; "" while there is no address
	Offers      []offerShown
	Devices     []Device
}

// offerShown is a code with its square.
type offerShown struct {
	Offer
	Square template.HTML // of the last one; "" while there is no address to pair at
}

func (s *Server) showLAN(w http.ResponseWriter, r *http.Request) error {
	w.Header().Set("Cache-Control", "no-store")
	p := lanPage{frame: s.frame(r, "Phones and tablets")}
	if s.LAN == nil {
		return s.show(w, http.StatusOK, "lan", p)
	}
	p.Seen = s.LAN.Changed()
	p.Open, p.Addresses, p.Fingerprint = true, s.LAN.Addresses(), Fingerprint(s.LAN.Authority())
	var err error
	if p.Devices, err = s.LAN.Devices(); err != nil {
		return err
	}
	square := func(path string) (template.HTML, error) {
		if len(p.Addresses) == 0 {
			return "", nil
		}
		return paper.ScreenCode(p.Addresses[0] + path)
	}
	if p.Trust, err = square("/trust"); err != nil {
		return err
	}
	for i, o := range s.LAN.Offers() {
		x := offerShown{Offer: o}
		if i == 0 { // a camera that sees two squares takes either
			if x.Square, err = square(PairPath(o)); err != nil {
				return err
			}
		}
		p.Offers = append(p.Offers, x)
	}
	return s.show(w, http.StatusOK, "lan", p)
}

// Fingerprint is the SHA-256 of a certificate as devices show it, pairs of hexadecimal digits, eight in a row.
func Fingerprint(der []byte) (rows []string) {
	sum := sha256.Sum256(der)
	for part := range slices.Chunk(sum[:], 8) {
		rows = append(rows, fmt.Sprintf("% X", part))
	}
	return rows
}

// offerPairing makes a code for one device.
func (s *Server) offerPairing(w http.ResponseWriter, r *http.Request) error {
	if s.LAN == nil {
		return noLAN()
	}
	role := Mechanic
	if typed(r, "role") == "owner" {
		role = Owner
	}
	if _, err := s.LAN.Offer(role); err != nil {
		return err
	}
	http.Redirect(w, r, "/lan#code", http.StatusSeeOther)
	return nil
}

// putOut takes a device's key away.
func (s *Server) putOut(w http.ResponseWriter, r *http.Request) error {
	if s.LAN == nil {
		return noLAN()
	}
	if err := s.LAN.PutOut(r.PathValue("device")); err != nil {
		return err
	}
	s.Log.Info("a device's key was taken away", "device", r.PathValue("device"))
	http.Redirect(w, r, "/lan#devices", http.StatusSeeOther)
	return nil
}

// pairPage asks a device for its code.
type pairPage struct {
	frame
	Code, Device string
	Faults       []told
}

func (s *Server) showPair(w http.ResponseWriter, r *http.Request) error {
	if s.LAN == nil {
		return noLAN()
	}
	w.Header().Set("Cache-Control", "no-store") // a code stands in it
	return s.show(w, http.StatusOK, "pair", pairPage{frame: s.frame(r, "Pair this device"), Code: r.FormValue("code")})
}

// pair gives a device its key, and takes away the one that it had.
func (s *Server) pair(w http.ResponseWriter, r *http.Request) error {
	if s.LAN == nil {
		return noLAN()
	}
	v := s.visitor(r)
	if v.Role == Here {
		return core.Errorf(core.Conflict, "do this on the phone", "the shop's own machine needs no key")
	}
	p := pairPage{Code: typed(r, "code"), Device: typed(r, "device")}
	token, d, err := s.LAN.Pair(p.Code, p.Device)
	switch code := core.ErrorCode(err); code {
	case "":
		s.Log.Info("a device was given a key", "device", d.ID, "name", d.Name, "role", d.Role.String())
		if v.Device != "" {
			if err := s.LAN.PutOut(v.Device); err != nil && core.ErrorCode(err) != core.NotFound {
				return err
			}
		}
		giveKey(w, token)
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return nil
	case core.Invalid, core.NotFound, core.Conflict:
		w.Header().Set("Cache-Control", "no-store")
		p.frame, p.Faults = s.frame(r, "Pair this device"), faultsOf(err)
		return s.show(w, statuses[code], "pair", p)
	}
	return err
}

// trustPage says how a device comes to trust the shop's own address. It does not show the fingerprint: what comes over an address that is not trusted yet
// proves nothing, and two that are both false would be alike.
type trustPage struct{ frame }

func (s *Server) showTrust(w http.ResponseWriter, r *http.Request) error {
	if s.LAN == nil {
		return noLAN()
	}
	return s.show(w, http.StatusOK, "trust", trustPage{s.frame(r, "Let this device trust the shop")})
}

// sendAuthority gives the authority's certificate, for a device to take in. It is no attachment: a phone that would ask at once whether to install it keeps an
// attachment as a file instead.
func (s *Server) sendAuthority(w http.ResponseWriter, _ *http.Request) error {
	if s.LAN == nil {
		return noLAN()
	}
	h := w.Header()
	h.Set("Content-Type", "application/x-x509-ca-cert")
	h.Set("Cache-Control", "no-store")
	_, err := w.Write(s.LAN.Authority())
	return err
}
