package main

import (
	"debug/buildinfo"
	"encoding/json"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// shippable are the licences under which a module may be linked into a program under Apache-2.0 and shipped with it (Apache Software
// Foundation, "ASF 3rd Party License Policy": categories A, and B for MPL-2.0 in binary form).
var shippable = []string{"Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "MIT", "0BSD", "ISC", "Zlib", "MPL-2.0", "OFL-1.1", "blessing", "Unlicense", "CC0-1.0"}

// mayShip reads an SPDX expression: with AND every licence has to be shippable, with OR one is enough.
func mayShip(expression string) bool {
	for all := range strings.SplitSeq(expression, " AND ") {
		if !slices.ContainsFunc(strings.Split(strings.Trim(all, "()"), " OR "), func(one string) bool { return slices.Contains(shippable, one) }) {
			return false
		}
	}
	return expression != ""
}

func TestMayShip(t *testing.T) {
	for _, yes := range []string{"MIT", "BSD-3-Clause AND OFL-1.1", "BSD-3-Clause OR GPL-2.0-only", "MIT AND (Apache-2.0 OR GPL-2.0-only)"} {
		require.True(t, mayShip(yes), yes)
	}
	for _, no := range []string{"", "GPL-3.0-only", "AGPL-3.0-only", "BUSL-1.1", "MIT AND GPL-2.0-only", "LGPL-3.0-or-later", "MPL-2.0-no-copyleft-exception"} {
		require.False(t, mayShip(no), no)
	}
}

// TestEveryModuleHasALicenceThatMayShip reads what is linked into both programs as they are built.
func TestEveryModuleHasALicenceThatMayShip(t *testing.T) {
	linked := map[string]bool{}
	for _, program := range []string{"fettle", "fettle-subsystems"} {
		info, err := buildinfo.ReadFile(filepath.Join(programs(t), program))
		require.NoError(t, err)
		require.NotEmpty(t, info.Deps)
		for _, m := range info.Deps {
			linked[m.Path] = true
			require.Contains(t, licences, m.Path, "%s is linked into %s: read its licence and give it a row in licences", m.Path, program)
			require.True(t, mayShip(licences[m.Path]), "%s (%s) cannot ship with Apache-2.0", m.Path, licences[m.Path])
		}
	}
	for path := range licences {
		require.True(t, linked[path], "%s has a row in licences and is not linked: take the row out", path)
	}
}

// TestEveryScriptHasALicenceThatMayShip holds the pages' scripts of others against the licences that lie beside them.
func TestEveryScriptHasALicenceThatMayShip(t *testing.T) {
	beside, err := filepath.Glob("../../core/web/static/*.LICENSE")
	require.NoError(t, err)
	require.Len(t, scripts, len(beside))
	for _, s := range scripts {
		require.Contains(t, beside, "../../core/web/static/"+strings.TrimSuffix(s.Path, ".js")+".LICENSE")
		require.True(t, mayShip(s.Licence), s.Path)
	}
}

// TestVersionListsLicences runs the program as built: what it says of itself is complete.
func TestVersionListsLicences(t *testing.T) {
	out, err := exec.Command(filepath.Join(programs(t), "fettle"), "version", "--licences", "--json").Output()
	require.NoError(t, err)
	var v versionJSON
	require.NoError(t, json.Unmarshal(out, &v))
	require.Equal(t, "test", v.Version)
	require.Equal(t, "Apache-2.0", v.Licence)
	require.NotEmpty(t, v.Modules)
	for _, m := range v.Modules {
		require.NotEmpty(t, m.Version, m.Path)
		require.NotEmpty(t, m.Licence, m.Path)
	}
}
