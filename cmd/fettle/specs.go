package main

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/host"
)

// pinsFile holds the hashes of the shop's own plugins as they were accepted, beside them.
const pinsFile = "pins.json"

// builtInPath is where the program of the built-in subsystems stands: beside this one, or where FETTLE_SUBSYSTEMS says.
func (c *command) builtInPath() string {
	if p := c.getenv("FETTLE_SUBSYSTEMS"); p != "" {
		return p
	}
	return filepath.Join(c.folder, programFile("fettle-subsystems"))
}

// programFile is the name of a program's file on this system.
func programFile(name string) string {
	if runtime.GOOS == "windows" {
		return name + ".exe"
	}
	return name
}

// builtInSum is the hash that the linker put in. A program built without one takes the file as it is.
func (c *command) builtInSum() (string, error) {
	if subsystemsSHA256 != "" {
		return subsystemsSHA256, nil
	}
	sum, err := host.Sum(c.builtInPath())
	if err != nil {
		return "", &core.Error{Code: core.Unavailable, What: "the built-in subsystems are not here", Where: c.builtInPath(), Next: "build them: make build", Err: err}
	}
	return sum, nil
}

// builtInKind is the kind of unit that a built-in subsystem is of: of a job without such a unit it is not even started.
func builtInKind(name string) string {
	switch name {
	case "bottom-end", "cylinders", "head", "clutch":
		return "engine"
	case "gearbox", "transfer-box", "rear-axle", "front-axle":
		return name
	}
	return wholeVehicle
}

// specs lists the plugins: the built-in ones, the shop's sheets, and the programs that fettle.yaml pins. A plugin of the shop wins over a
// built-in one of the same name. sum is the hash of the built-in subsystems' program.
func (c *command) specs(s *shop, sum string) ([]host.Spec, error) {
	program := c.builtInPath()
	var specs []host.Spec
	put := func(x host.Spec) {
		if i := slices.IndexFunc(specs, func(y host.Spec) bool { return y.Name == x.Name }); i >= 0 {
			specs[i] = x
			return
		}
		specs = append(specs, x)
	}
	for _, n := range strings.Fields(builtinSubsystems) {
		put(host.BuiltIn(n, program, sum))
	}
	pins, err := s.pins()
	if err != nil {
		return nil, err
	}
	sheets, err := s.ownSheets()
	if err != nil {
		return nil, err
	}
	for _, n := range sheets {
		put(host.BareSheet(n, program, sum, s.sheetPath(n), pins[n]))
	}
	for _, p := range s.settings().Plugins {
		path := p.Path
		if !filepath.IsAbs(path) {
			path = filepath.Join(s.dir, path)
		}
		put(host.Spec{Name: p.Name, Path: path, SHA256: p.SHA256, Origin: p.Path})
	}
	return specs, nil
}

func (s *shop) pluginDir() string {
	if filepath.IsAbs(s.settings().PluginDir) {
		return s.settings().PluginDir
	}
	return filepath.Join(s.dir, s.settings().PluginDir)
}

func (s *shop) sheetPath(name string) string { return filepath.Join(s.pluginDir(), name, "sheet.yaml") }

// ownSheets lists the folders of the plugin folder that hold a sheet, by name.
func (s *shop) ownSheets() ([]string, error) {
	entries, err := os.ReadDir(s.pluginDir())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var names []string
	for _, e := range entries {
		if _, err := os.Stat(s.sheetPath(e.Name())); e.IsDir() && err == nil {
			names = append(names, e.Name())
		}
	}
	return names, nil
}

func (s *shop) pins() (map[string]string, error) {
	pins := map[string]string{}
	name := filepath.Join(s.pluginDir(), pinsFile)
	b, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return pins, nil
	}
	if err == nil {
		err = json.Unmarshal(b, &pins)
	}
	if err != nil {
		return nil, &core.Error{Code: core.Invalid, What: "the plugins' pins cannot be read", Where: name, Next: "put the file back, or delete it and pin each plugin again", Err: err}
	}
	return pins, nil
}

// pin accepts a sheet as it is now.
func (s *shop) pin(name string) (string, error) {
	sum, err := host.Sum(s.sheetPath(name))
	if err != nil {
		return "", core.Errorf(core.NotFound, "see: fettle plugin list", "no sheet of your own is called %q", name)
	}
	pins, err := s.pins()
	if err != nil {
		return "", err
	}
	pins[name] = sum
	b, err := json.MarshalIndent(pins, "", "  ")
	if err != nil {
		return "", err
	}
	return sum, os.WriteFile(filepath.Join(s.pluginDir(), pinsFile), append(b, '\n'), 0o644)
}
