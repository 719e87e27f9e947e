package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/host"
	"github.com/fettle-tools/fettle/core/sdk"
)

func (c *command) pluginCommand() *cobra.Command {
	cmd := &cobra.Command{Use: "plugin", Short: "The subsystems served here, and sheets of your own", Example: "  fettle plugin list\n  fettle plugin new winch"}
	cmd.AddCommand(c.pluginListCommand(), c.pluginNewCommand(), c.pluginCheckCommand(), c.pluginPinCommand())
	return cmd
}

func (c *command) pluginListCommand() *cobra.Command {
	return &cobra.Command{
		Use: "list", Short: "What is served, from where, and whether it answers", Args: cobra.NoArgs, Example: "  fettle plugin list",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				_ = s.plugins.Start(cmd.Context()) // what does not start is in the list, with its fault
				list := s.plugins.List()
				if c.asJSON() {
					return writeJSON(c.out, list)
				}
				t := newTable("name", "from", "pinned", "state")
				for _, p := range list {
					t.add(p.Name, p.Origin, pinWords(p), strings.TrimSpace(p.State+" "+p.Fault))
				}
				t.print(c.out, "", screen)
				return nil
			})
		},
	}
}

func pinWords(p host.Info) string {
	sum := p.SHA256
	if p.SheetPath != "" {
		sum = p.SheetSHA256
	}
	if len(sum) < 12 {
		return "not pinned"
	}
	return sum[:12]
}

var pluginName = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

func (c *command) pluginNewCommand() *cobra.Command {
	return &cobra.Command{
		Use: "new NAME", Short: "Write a sheet to start from into the shop's plugins, and serve it", Args: cobra.ExactArgs(1),
		Long:    "The sheet's comments teach the format. Edit it, then: fettle plugin check NAME, and fettle plugin pin NAME.",
		Example: "  fettle plugin new winch",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				name := args[0]
				if !pluginName.MatchString(name) {
					return core.Errorf(core.Invalid, "use small letters, digits and dashes, like power-winch", "%q cannot be a subsystem's name", name)
				}
				path := s.sheetPath(name)
				if s.kinds[name] != "" {
					return core.Errorf(core.Conflict, "choose another name: a sheet of this name would be served in its place, and its findings would be lost to the plan", "%s is built in", name)
				}
				if _, err := os.Stat(path); err == nil {
					return core.Errorf(core.Conflict, "edit it, or choose another name", "there is a sheet %s already", path)
				}
				if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
					return err
				}
				if err := os.WriteFile(path, sdk.NewSheet(name), 0o644); err != nil {
					return err
				}
				if _, err := s.pin(name); err != nil {
					return err
				}
				return c.report(map[string]string{"name": name, "sheet": path}, fmt.Sprintf("%[1]s\n\n  edit it, then:\n  %[3]s plugin check %[2]s    all its faults, with line and column\n  %[3]s plugin pin %[2]s      accept it as it is\n  %[3]s sheet %[2]s", path, name, c.self()))
			})
		},
	}
}

func (c *command) pluginCheckCommand() *cobra.Command {
	return &cobra.Command{
		Use: "check NAME", Short: "All faults of a sheet of your own, with line and column", Args: cobra.ExactArgs(1), Example: "  fettle plugin check winch",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				path := s.sheetPath(args[0])
				data, err := os.ReadFile(path)
				if err != nil {
					return core.Errorf(core.NotFound, "see: fettle plugin list", "no sheet of your own is called %q", args[0])
				}
				found := sdk.CheckSheet(data)
				if c.asJSON() {
					return writeJSON(c.out, orEmpty(found))
				}
				var told faults
				for _, f := range found {
					told = append(told, &core.Error{Code: core.Invalid, Where: fmt.Sprintf("%s:%d:%d", path, f.Line, f.Column), What: f.What, Next: f.Next})
				}
				if len(told) > 0 {
					return told
				}
				c.print(fmt.Sprintf("%s has no faults\n\n  %s plugin pin %s", path, c.self(), args[0]))
				return nil
			})
		},
	}
}

func (c *command) pluginPinCommand() *cobra.Command {
	return &cobra.Command{
		Use: "pin NAME", Short: "Accept a sheet of your own as it is now: what is served is what was accepted", Args: cobra.ExactArgs(1), Example: "  fettle plugin pin winch",
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.withShop(cmd.Context(), func(s *shop) error {
				data, err := os.ReadFile(s.sheetPath(args[0]))
				if err == nil && len(sdk.CheckSheet(data)) > 0 {
					return core.Errorf(core.Invalid, "see them with: fettle plugin check "+args[0], "the sheet %q has faults and cannot be served", args[0])
				}
				sum, err := s.pin(args[0])
				if err != nil {
					return err
				}
				return c.report(map[string]string{"name": args[0], "sha256": sum}, fmt.Sprintf("%s is accepted as it is: %s", args[0], sum[:12]))
			})
		},
	}
}
