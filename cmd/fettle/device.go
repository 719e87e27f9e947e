package main

import (
	"time"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core/web"
)

func (c *command) deviceCommand() *cobra.Command {
	cmd := &cobra.Command{Use: "device", Short: "Phones and tablets that have a key to the bench on the network",
		Long:    "A device comes by its key with a code: see fettle serve --lan. A key that is not used for sixty days is good no longer.",
		Example: "  fettle device list\n  fettle device out 3f2a9c01"}
	cmd.AddCommand(c.deviceListCommand(), c.deviceOutCommand())
	return cmd
}

// deviceJSON is what device list --json prints of one.
type deviceJSON struct {
	ID    string    `json:"id"`
	Name  string    `json:"name"`
	Role  string    `json:"role"`
	Since time.Time `json:"since"`
	Seen  time.Time `json:"seen"`
}

func deviceShown(d web.Device) deviceJSON {
	return deviceJSON{d.ID, d.Name, d.Role.String(), d.Since.UTC(), d.Seen.UTC()}
}

func (c *command) deviceListCommand() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "The devices that have a key, and when each was here last", Args: cobra.NoArgs, Example: "  fettle device list",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				devices, err := openKeys(s.dir, c.clock).Devices()
				if err != nil {
					return err
				}
				if c.asJSON() {
					out := []deviceJSON{}
					for _, d := range devices {
						out = append(out, deviceShown(d))
					}
					return writeJSON(c.out, out)
				}
				if len(devices) == 0 {
					c.print("No device has a key.\n\n  " + c.self() + " serve --lan")
					return nil
				}
				t := newTable("id", "who", "role", "since", "here last")
				for _, d := range devices {
					t.add(d.ID, d.Name, d.Role.String(), s.day(d.Since), s.day(d.Seen))
				}
				t.print(c.out, "", screen)
				return nil
			})
		},
	}
}

func (c *command) deviceOutCommand() *cobra.Command {
	return &cobra.Command{
		Use: "out ID", Short: "Take a device's key away: it is asked to pair at its next step", Args: cobra.ExactArgs(1), Example: "  fettle device out 3f2a9c01",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				if err := openKeys(s.dir, c.clock).PutOut(args[0]); err != nil {
					return err
				}
				return c.report(struct {
					ID  string `json:"id"`
					Out bool   `json:"out"`
				}{args[0], true}, args[0]+" has no key any more")
			})
		},
	}
}
