package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"runtime/debug"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// usualPort is where the bench is, so that a browser finds what it keeps of it again.
const usualPort = 8040

func (c *command) serveCommand() *cobra.Command {
	var port int
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "The bench: the shop in a browser, on this machine",
		Long: `Opens the shop in a browser: jobs, the bench with its number pad, and the rest of the journey. It is reached from this machine alone. What a
page keeps while there is no answer is sent when there is one again. In a folder that is no shop yet it asks what a shop must say of itself, and makes it.
fettle alone, at a screen, does the same and opens the browser too.`,
		Example: "  fettle serve\n  fettle serve --port 8041",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.serveHere(cmd.Context(), port, func(string) {})
		},
	}
	cmd.Flags().IntVar(&port, "port", usualPort, "the `PORT` to listen at; 0 takes a free one")
	return cmd
}

// serveHere answers until the context ends: the bench of the shop that is here, or the page that makes one.
func (c *command) serveHere(ctx context.Context, port int, browse func(address string)) error {
	debug.SetGCPercent(80) // a command ends soon; this stays, beside a browser and a camera on a workshop's laptop
	debug.SetMemoryLimit(88 << 20)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	d := &door{c: c}
	defer d.close()
	if err := d.open(ctx); err != nil {
		return err
	}
	return c.serve(ctx, d, port, browse)
}

// serve answers at a port of this machine until the context ends.
func (c *command) serve(ctx context.Context, d *door, port int, browse func(address string)) error {
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return &core.Error{Code: core.Unavailable, What: "the port cannot be listened at", Where: fmt.Sprint(port),
			Next: fmt.Sprintf("look whether the bench is open already: http://127.0.0.1:%d/ ; or name another port: fettle serve --port 8041", port), Err: err}
	}
	server := httpServer(ctx, d, d.logger())
	go func() {
		<-ctx.Done()
		end, cancel := context.WithTimeout(context.WithoutCancel(ctx), 3*time.Second)
		defer cancel()
		_ = server.Shutdown(end)
	}()
	address := fmt.Sprintf("http://%s/", l.Addr())
	c.print(fmt.Sprintf("%s: %s\n\n  ctrl-C closes it", d.words(), address))
	browse(address)
	if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
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
	return web.Config{Name: s.settings.Shop.Name, Zone: s.settings.Zone, Clock: s.c.clock, By: s.c.by(), Stories: b, Plans: b, Readings: b, Changes: b, Log: s.logger,
		Vehicles: b, Arriving: b, Office: b,
		Stripping: b, Tagging: b, Photos: b, Jobs: b, Yard: b, Looking: b, Choosing: b, Reckoning: b, Papers: b, Outgoing: b, Building: b, Ending: b}
}
