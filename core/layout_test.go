package core_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const module = "github.com/fettle-tools/fettle/"

// rules says which packages of this module a folder may import, longest folder first. Sub-folders follow their folder.
var rules = []struct {
	folder string
	may    []string
	others bool // packages outside the module, beside the standard library
}{
	{"core/sdk/sdktest", []string{"core", "core/sdk"}, true},
	{"core/sdk", []string{"core", "proto", "core/sdk"}, true},
	{"core/host", []string{"core", "core/sdk", "core/host"}, true},
	{"core/decide", []string{"core", "core/decide"}, true},
	{"core/budget", []string{"core", "core/budget"}, true},
	{"core/config", []string{"core", "core/config"}, true},
	{"core/store", []string{"core", "core/store"}, true},
	{"core/paper", []string{"core", "core/paper"}, true},
	{"core/web", []string{"core", "core/paper", "core/web"}, true},
	{"core", nil, false},
	{"proto", []string{"proto"}, true},
	{"plugins", []string{"core", "core/sdk"}, true},
	{"cmd/fettle-subsystems", []string{"core", "core/sdk", "plugins", "cmd/fettle-subsystems"}, true},
	{"cmd", []string{"core", "configs", "core/sdk", "core/host", "core/decide", "core/budget", "core/config", "core/store", "core/paper", "core/web", "cmd"}, true},
	{"configs", nil, true},
}

func within(path, folder string) bool { return path == folder || strings.HasPrefix(path, folder+"/") }

// TestImports holds every non-test file to the layout: the line that breaks a rule is named.
func TestImports(t *testing.T) {
	for _, fault := range importFaults(t, "..") {
		t.Error(fault)
	}
}

func importFaults(t *testing.T, root string) []string {
	var faults []string
	fset := token.NewFileSet()
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (strings.HasPrefix(d.Name(), ".") && path != root || d.Name() == "testdata" || d.Name() == "out" || d.Name() == "bin") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		folder := filepath.ToSlash(filepath.Dir(rel))
		file, err := parser.ParseFile(fset, path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		k := slices.IndexFunc(rules, func(r struct {
			folder string
			may    []string
			others bool
		}) bool {
			return within(folder, r.folder)
		})
		if k < 0 {
			faults = append(faults, rel+": no Go file belongs in this folder")
			return nil
		}
		for _, im := range file.Imports {
			name := strings.Trim(im.Path.Value, `"`)
			where := fset.Position(im.Pos())
			if own, ok := strings.CutPrefix(name, module); ok {
				allowed := slices.ContainsFunc(rules[k].may, func(m string) bool {
					return own == m || (m == "proto" || m == "plugins" || m == rules[k].folder) && within(own, m)
				})
				if folder == "core" {
					allowed = false
				}
				if strings.HasPrefix(folder, "plugins/") && within(own, "plugins") {
					// Rules that two subsystems share may have a folder of their own; another plugin is what has a sheet.
					_, err := os.Stat(filepath.Join(root, own, "sheet.yaml"))
					allowed = err != nil
				}
				if !allowed {
					faults = append(faults, where.String()+": "+folder+" may not import "+own)
				}
				continue
			}
			if !rules[k].others && strings.Contains(strings.Split(name, "/")[0], ".") {
				faults = append(faults, where.String()+": core imports the standard library alone, not "+name)
			}
		}
		return nil
	})
	require.NoError(t, err)
	return faults
}

// TestTopLevel keeps the top of the tree as it was laid out.
func TestTopLevel(t *testing.T) {
	allowed := []string{"core", "plugins", "proto", "cmd", "configs", "testdata", "go.mod", "go.sum", "Makefile", "README.md", "DEVELOPERS.md", "LICENSE", "bin", "out"}
	entries, err := os.ReadDir("..")
	require.NoError(t, err)
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !slices.Contains(allowed, e.Name()) {
			t.Errorf("%s does not belong at the top level", e.Name())
		}
	}
}

// TestImportsCatches proves that the test above can fail.
func TestImportsCatches(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "core", "store"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "core", "bad.go"), []byte("package core\n\nimport _ \"github.com/spf13/viper\"\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "core", "store", "bad.go"), []byte("package store\n\nimport _ \""+module+"core/host\"\n"), 0o644))
	faults := importFaults(t, dir)
	require.Len(t, faults, 2)
	require.Contains(t, faults[0], "bad.go:3:8")
	require.Contains(t, faults[1], "core/store may not import core/host")
}
