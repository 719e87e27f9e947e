package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// usualPort is where the bench is, so that a browser finds what it keeps of it again.
const usualPort = 8040

// usualLANPort is where it is on the network.
const usualLANPort = 8443

// serving is how the bench is to be served.
type serving struct {
	port    int
	lan     bool
	lanPort int
	browse  func(address string)
}

func (c *command) serveCommand() *cobra.Command {
	how := serving{browse: func(string) {}}
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "The bench: the shop in a browser, on this machine or the workshop's network",
		Long: `Opens the shop in a browser: jobs, the bench with its number pad, and the rest of the journey. It is reached from this machine alone. What a
page keeps while there is no answer is sent when there is one again. In a folder that is no shop yet it asks what a shop must say of itself, and makes it.
fettle alone, at a screen, does the same and opens the browser too.

With --lan it is open on the workshop's network as well, over TLS by an authority of the shop's own, to devices that have a key and to no other. Which
devices, and how one comes to trust the shop, the page "Phones and tablets" shows on this machine; a mechanic's device writes findings, strip and build
down, a shop owner's sees prices, papers and agreements too. At a screen a code for a mechanic's is shown at once. The authority and the keys are in the
shop folder, in lan: whoever reads authority.key can pose as the shop. fettle device lists the devices, and takes a key away.`,
		Example: "  fettle serve\n  fettle serve --port 8041\n  fettle serve --lan",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.serveHere(cmd.Context(), how)
		},
	}
	cmd.Flags().IntVar(&how.port, "port", usualPort, "the `PORT` to listen at; 0 takes a free one")
	cmd.Flags().BoolVar(&how.lan, "lan", false, "open it on the workshop's network too, to devices that have a key")
	cmd.Flags().IntVar(&how.lanPort, "lan-port", usualLANPort, "the `PORT` to listen at on the network; 0 takes a free one")
	return cmd
}

// serveHere answers until the context ends: the bench of the shop that is here, or the page that makes one.
func (c *command) serveHere(ctx context.Context, how serving) error {
	debug.SetGCPercent(80) // a command ends soon; this stays, beside a browser and a camera on a workshop's laptop
	debug.SetMemoryLimit(72 << 20)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	d := &door{c: c, how: how}
	defer d.close()
	if err := d.open(ctx); err != nil {
		return err
	}
	return c.serve(ctx, d, how)
}

// openJSON is what serve --json prints once the bench is open. A code is not in it: what a program prints is often kept.
type openJSON struct {
	Bench       string   `json:"bench"`
	Network     []string `json:"network,omitempty"` // addresses, the likeliest first
	Names       []string `json:"names,omitempty"`   // of this machine on the network
	Fingerprint string   `json:"fingerprint,omitempty"`
}

// serve answers at a port of this machine, and on the network if that is wanted, until the context ends or one of them fails.
func (c *command) serve(ctx context.Context, d *door, how serving) error {
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", fmt.Sprintf("127.0.0.1:%d", how.port))
	if err != nil {
		return &core.Error{Code: core.Unavailable, What: "the port cannot be listened at", Where: fmt.Sprint(how.port),
			Next: fmt.Sprintf("look whether the bench is open already: http://127.0.0.1:%d/ ; or name another port: fettle serve --port 8041", how.port), Err: err}
	}
	server := httpServer(ctx, web.AtLoopback(d), d.logger())
	servers := []*http.Server{server}
	failed := make(chan error, 2)
	open := openJSON{Bench: fmt.Sprintf("http://%s/", l.Addr())}
	words := fmt.Sprintf("%s: %s", d.words(), open.Bench)
	if d.lan != nil {
		in, err := d.lan.listen(ctx)
		if err != nil {
			return errors.Join(err, l.Close())
		}
		said, err := d.lan.words(open.Bench, c.browse != nil && !c.asJSON())
		if err != nil {
			return errors.Join(err, l.Close(), in.Close())
		}
		words += said
		open.Network, open.Names, open.Fingerprint = d.lan.Addresses(), d.lan.Names(), strings.Join(web.Fingerprint(d.lan.Authority()), " ")
		network := httpServer(ctx, d.bench.OnNetwork(), d.logger())
		servers = append(servers, network)
		go func() { failed <- closed(network.Serve(in)) }()
	}
	go func() {
		<-ctx.Done()
		end, cancel := context.WithTimeout(context.WithoutCancel(ctx), 3*time.Second)
		defer cancel()
		for _, s := range servers {
			_ = s.Shutdown(end)
		}
	}()
	if err := c.report(open, words+"\n\n  ctrl-C closes it"); err != nil {
		return err
	}
	how.browse(open.Bench)
	go func() { failed <- closed(server.Serve(l)) }()
	return <-failed
}

// closed is how serving ended: being closed is no fault.
func closed(err error) error {
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// httpServer bounds how long anybody may take.
func httpServer(ctx context.Context, h http.Handler, log *slog.Logger) *http.Server {
	return &http.Server{Handler: h, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: time.Minute, WriteTimeout: time.Minute, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx }, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn)}
}

// webConfig wires the shop to its pages. What is done beside them ends with the context.
func (s *shop) webConfig(ctx context.Context) web.Config {
	b := &behind{s: s, life: ctx}
	go b.keepReady(ctx)
	return web.Config{Name: s.settings().Shop.Name, Zone: s.settings().Zone, Clock: s.c.clock, By: s.c.by(), Stories: b, Plans: b, Readings: b, Changes: b, Log: s.logger,
		Vehicles: b, Arriving: b, Office: b,
		Stripping: b, Tagging: b, Photos: b, Jobs: b, Yard: b, Looking: b, Choosing: b, Reckoning: b, Papers: b, Outgoing: b, Building: b, Ending: b}
}
