package main

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

func (c *command) versionCommand() *cobra.Command {
	var withLicences bool
	cmd := &cobra.Command{
		Use: "version", Short: "Which version this is, and what is built in", Args: cobra.NoArgs, Example: "  fettle version --licences",
		RunE: func(*cobra.Command, []string) error {
			info, ok := debug.ReadBuildInfo()
			if !ok {
				return core.Errorf(core.Internal, "build it with make build", "this program does not say what it is made of")
			}
			v := versionJSON{Version: version, Go: runtime.Version(), Licence: "Apache-2.0"}
			if withLicences {
				for _, m := range info.Deps {
					v.Modules = append(v.Modules, moduleJSON{m.Path, m.Version, licences[m.Path]})
				}
				v.Modules = append(v.Modules, scripts...)
				slices.SortFunc(v.Modules, func(a, b moduleJSON) int { return strings.Compare(a.Path, b.Path) })
			}
			if c.asJSON() {
				return writeJSON(c.out, v)
			}
			fmt.Fprintf(c.out, "fettle %s (%s), licence %s\n", v.Version, v.Go, v.Licence)
			t := newTable("module", "version", "licence")
			for _, m := range v.Modules {
				t.add(m.Path, m.Version, m.Licence)
			}
			if withLicences {
				t.print(c.out, "", 160)
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&withLicences, "licences", false, "list the modules and scripts built in, with their licences")
	return cmd
}

type versionJSON struct {
	Version string       `json:"version"`
	Go      string       `json:"go"`
	Licence string       `json:"licence"`
	Modules []moduleJSON `json:"modules,omitempty"`
}

type moduleJSON struct {
	Path    string `json:"path"`
	Version string `json:"version"`
	Licence string `json:"licence"`
}
