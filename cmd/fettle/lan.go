package main

import (
	"cmp"
	"context"
	"crypto/tls"
	"fmt"
	"net"
	"net/netip"
	"os"
	"regexp"
	"slices"
	"strings"
	"sync"

	"golang.org/x/net/netutil"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/paper"
	"github.com/fettle-tools/fettle/core/web"
)

// lan is the bench on the workshop's network.
type lan struct {
	*keys
	leaves *leaves
	port   int
}

// openLAN makes ready what the network's side of the bench needs; it listens nowhere yet.
func (s *shop) openLAN(port int) (*lan, error) {
	host, err := os.Hostname()
	if err != nil {
		host = ""
	}
	names := namesOn(host)
	now := s.c.clock
	a, err := openAuthority(s.dir, s.settings().Shop.Name, names, now())
	if err != nil {
		return nil, err
	}
	return &lan{keys: openKeys(s.dir, now), port: port, leaves: &leaves{authority: a, names: names, addresses: allAddresses, clock: now}}, nil
}

var hostLabel = regexp.MustCompile(`^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$`)

// namesOn are what a machine of that host name is called on its network. There is always one: an authority that is held to no name may vouch for any.
func namesOn(host string) []string {
	host, _, _ = strings.Cut(strings.ToLower(host), ".")
	if !hostLabel.MatchString(host) || host == "localhost" {
		return []string{"bench.invalid"} // nobody is called that (RFC 6761, section 6.4)
	}
	return []string{host, host + ".local"}
}

// Names are what this machine is called on the network.
func (l *lan) Names() []string { return l.leaves.names }

// allAddresses are those of this machine, as they are now.
func allAddresses() (out []net.IP) {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	for _, a := range all {
		if n, ok := a.(*net.IPNet); ok {
			out = append(out, n.IP)
		}
	}
	return out
}

// Authority is the shop's own, in DER.
func (l *lan) Authority() []byte { return l.leaves.authority.cert.Raw }

// Addresses are where the bench is on the network, those that a phone is likeliest on first.
func (l *lan) Addresses() []string {
	var ips []net.IP
	for _, ip := range l.leaves.addresses() {
		if ownAddress(ip) && !ip.IsLoopback() && !ip.IsLinkLocalUnicast() {
			ips = append(ips, ip)
		}
	}
	likely := func(ip net.IP) int {
		switch v := ip.To4(); {
		case v == nil:
			return 3
		case v[0] == 192:
			return 0
		case v[0] == 10:
			return 1
		}
		return 2
	}
	slices.SortStableFunc(ips, func(a, b net.IP) int { return cmp.Compare(likely(a), likely(b)) })
	var out []string
	for _, ip := range ips {
		out = append(out, "https://"+net.JoinHostPort(ip.String(), fmt.Sprint(l.port)))
	}
	return out
}

// words say where the bench is on the network, and to whoever sits at a screen how a phone comes in: with a code for a mechanic's, as a square.
func (l *lan) words(here string, screen bool) (string, error) {
	at := l.Addresses()
	where := "\nThis machine has no address on a workshop's own network yet, like 192.168.1.20."
	if len(at) > 0 {
		where = "\nOn the network, to devices with a key: " + strings.Join(at, "/, ") + "/"
	}
	out := fmt.Sprintf("%s\nThe fingerprint (SHA-256) of the shop's authority, to compare with the one that a phone shows:\n  %s\nPhones and tablets, how they trust the shop and get a key: %slan", where, strings.Join(web.Fingerprint(l.Authority()), "\n  "), here)
	if !screen || len(at) == 0 {
		return out, nil
	}
	o, err := l.Offer(web.Mechanic)
	if err != nil {
		return "", err
	}
	square, err := paper.CodeLines(at[0] + web.PairPath(o))
	if err != nil {
		return "", err
	}
	for i, line := range square {
		square[i] = "\x1b[30;107m" + line + "\x1b[0m" // black on white, whatever the terminal's colours are
	}
	return fmt.Sprintf("%s\n\n%s\nA mechanic's phone pairs by this square, once, until %s: %s", out, strings.Join(square, "\n"), o.Until.Local().Format("15:04"), o.Code), nil
}

// listen opens the port on the network. Port 0 takes a free one.
func (l *lan) listen(ctx context.Context) (net.Listener, error) {
	in, err := (&net.ListenConfig{}).Listen(ctx, "tcp", fmt.Sprintf(":%d", l.port))
	if err != nil {
		return nil, &core.Error{Code: core.Unavailable, What: "the port cannot be listened at on the network", Where: fmt.Sprint(l.port), Next: "name another: fettle serve --lan --lan-port 8444", Err: err}
	}
	l.port = in.Addr().(*net.TCPAddr).Port
	return tls.NewListener(netutil.LimitListener(&nearby{Listener: in, open: map[netip.Prefix]int{}}, mostLines), &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: l.leaves.now, NextProtos: []string{"h2", "http/1.1"}}), nil
}

// How many lines are held open at once, and how many of them by one machine, so that none shuts the others out. A browser holds a few.
const (
	mostLines   = 250
	mostLinesOf = 60
)

// nearby takes lines from the workshop's own network alone, since the port may be reached from further away than anybody meant, and not too many from one machine.
type nearby struct {
	net.Listener
	mu   sync.Mutex
	open map[netip.Prefix]int
}

func (n *nearby) Accept() (net.Conn, error) {
	for {
		c, err := n.Listener.Accept()
		if err != nil {
			return nil, err
		}
		if from, ok := c.RemoteAddr().(*net.TCPAddr); ok && ownAddress(from.IP) && n.take(machineAt(from), 1) {
			return &line{Conn: c, let: sync.OnceFunc(func() { n.take(machineAt(from), -1) })}, nil
		}
		_ = c.Close()
	}
}

// take counts a line of a machine, or counts it out again. It is false where there is no room for one more.
func (n *nearby) take(who netip.Prefix, lines int) bool {
	n.mu.Lock()
	defer n.mu.Unlock()
	now := n.open[who] + lines
	if now > mostLinesOf {
		return false
	}
	n.open[who] = now
	if now == 0 {
		delete(n.open, who)
	}
	return true
}

// machineAt is whose line it is. Of IPv6 it is the network: one machine has as many addresses there as it likes.
func machineAt(from *net.TCPAddr) netip.Prefix {
	ip := from.AddrPort().Addr().Unmap().WithZone("")
	bits := 64
	if ip.Is4() {
		bits = 32
	}
	return netip.PrefixFrom(ip, bits).Masked()
}

// line is one that is counted until it is closed.
type line struct {
	net.Conn
	let func()
}

func (l *line) Close() error {
	l.let()
	return l.Conn.Close()
}
