package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

func (c *command) serveCommand() *cobra.Command {
	var port int
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "The bench: the shop in a browser, on this machine",
		Long: `Opens the shop in a browser: jobs, the bench with its number pad, and the rest of the journey. It is reached from this machine alone. What a
page keeps while there is no answer is sent when there is one again.`,
		Example: "  fettle serve\n  fettle serve --port 8040",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error { return c.serve(cmd.Context(), s, port) })
		},
	}
	cmd.Flags().IntVar(&port, "port", 8040, "the `PORT` to listen at; 0 takes a free one")
	return cmd
}

// serve answers until the context ends.
func (c *command) serve(ctx context.Context, s *shop, port int) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	bench, err := web.New(ctx, s.webConfig())
	if err != nil {
		return err
	}
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		return &core.Error{Code: core.Unavailable, What: "the port cannot be listened at", Where: fmt.Sprint(port), Next: "name another: fettle serve --port 8041", Err: err}
	}
	server := &http.Server{Handler: bench, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: time.Minute, WriteTimeout: time.Minute, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx }, ErrorLog: slog.NewLogLogger(s.logger.Handler(), slog.LevelWarn)}
	go func() {
		<-ctx.Done()
		end, cancel := context.WithTimeout(context.WithoutCancel(ctx), 3*time.Second)
		defer cancel()
		_ = server.Shutdown(end)
	}()
	c.print(fmt.Sprintf("The bench is open: http://%s/\n\n  ctrl-C closes it", l.Addr()))
	if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// webConfig wires the shop to its pages.
func (s *shop) webConfig() web.Config {
	b := &behind{s: s}
	return web.Config{Name: s.settings.Shop.Name, Zone: s.settings.Zone, Clock: s.c.clock, By: s.c.by(), Stories: b, Plans: b, Readings: b, Changes: b, Log: s.logger, Stripping: b, Tagging: b, Photos: b}
}
