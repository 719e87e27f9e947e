package main

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestEveryCommandSpeaksJSON runs what reports and what acts with --json: one JSON text each, its keys in small letters.
func TestEveryCommandSpeaksJSON(t *testing.T) {
	dir := t.TempDir()
	shop := filepath.Join(dir, "shop")
	csv := filepath.Join("..", "..", "configs", "demo", "gearbox.csv")
	for _, line := range []string{
		"", "new shop Works --currency USD --rate mechanic=85", "", "new job One --unit gearbox", "record J-001 gearbox interlock working fails", "import J-001 " + csv,
		"job list", "job show", "job mark J-001 gearbox case G4 --says agrees", "job fact J-001 gearbox L_spring 1.1in", "job pin J-001 gearbox/interlock new-plungers --reason x --by y",
		"job leave J-001 gearbox/top-cover --reason x --by y", "job set J-001 --title Other", "job limit J-001 gearbox/interlock working", "plan", "budget", "budget J-001 --sum 500", "budget J-001 --by-day", "look", "what-if J-001 --rate mechanic=95", "why interlock", "sheet gearbox", "price list",
		"price set gear-pair 300", "price ask", "price undo", "price undo --redo", "undo J-001", "undo J-001 --redo", "plugin list", "plugin new winch", "plugin check winch",
		"plugin pin winch", "scope", "scope --issue", "work-order", "paper J-001 arrival --issue", "paper J-001 buying", "party set Agent --may 500 --role payer", "party list", "party undo", "party undo --redo", "tag J-001 --on gearbox --lies shelf", "tag J-001", "find shelf", "unit add J-001 second --kind gearbox --spare", "unit list J-001", "unit take J-001 gearbox@second/case gearbox --why x",
		"unit swap J-001 second - --why x", "job payer J-001 Agent --share 40", "job speaker J-001 Agent", "job labour J-001 gearbox --who Agent",
		"arrive J-001 --boxes 1", "arrive J-001", "photo J-001 " + csv + " --of box", "photo J-001", "strip J-001", "strip J-001 gearbox-shafts-out", "strip J-001 gearbox-shafts-out --skip x",
		"hours J-001 sweeping 1 --who Agent", "hours J-001 sweeping --start --who Agent", "hours J-001",
		"build J-001", "road-test J-001", "close J-001", "pay J-001", "pay J-001 received 5 --party Agent", "yard", "learned",
		"state J-001", "stop J-001 --why x", "resume J-001", "job export J-001 " + filepath.Join(dir, "job"), "job take " + filepath.Join(dir, "job"),
		"agree J-001", "send J-001", "receive J-001", "buy J-001", "change J-001", "change J-001 - --found x --not-before y --option do:60", "change J-001 C-001", "change J-001 --note",
		"change J-001 N-001 --withdraw why", "backup " + filepath.Join(dir, "book"), "version", "version --licences",
	} {
		status, out, told := at(t, shop, append(strings.Fields(line), "--json")...)
		require.Zero(t, status, "%s: %s", line, told)
		var v any
		require.NoError(t, json.Unmarshal([]byte(out), &v), "%s: %.80s", line, out)
		require.Empty(t, capitalKeys(v, ""), line)
	}
}

// capitalKeys lists the keys that are not in small letters, with their places.
func capitalKeys(v any, path string) (bad []string) {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			if k != strings.ToLower(k) {
				bad = append(bad, path+"."+k)
			}
			bad = append(bad, capitalKeys(x, path+"."+k)...)
		}
	case []any:
		for i, x := range v {
			bad = append(bad, capitalKeys(x, fmt.Sprintf("%s[%d]", path, i))...)
		}
	}
	return bad
}
