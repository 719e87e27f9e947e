package host

import (
	"crypto/sha256"
	"encoding/hex"
	"path/filepath"

	"github.com/fettle-tools/fettle/core"
)

// Spec is one plugin as the shop has pinned it.
type Spec struct {
	Name        string   `json:"name"`         // the subsystem it serves: its sheet must say the same
	Path        string   `json:"path"`         // its program
	Args        []string `json:"args"`         // what the program is started with
	SHA256      string   `json:"sha256"`       // of the program, in hex: nothing else is started
	SheetPath   string   `json:"sheet_path"`   // a bare sheet it serves; "" if none
	SheetSHA256 string   `json:"sheet_sha256"` // of the sheet, in hex
	Origin      string   `json:"origin"`       // for people: "built in", the shop's folder ...
}

// OriginBuiltIn is the origin of the built-in ones.
const OriginBuiltIn = "built in"

// BuiltIn is a subsystem of the program of built-in subsystems.
func BuiltIn(name, path, sum string) Spec {
	return Spec{Name: name, Path: path, SHA256: sum, Args: []string{name}, Origin: OriginBuiltIn}
}

// BareSheet is a sheet without code, served by the program of built-in subsystems. Its hash goes along, so that what
// is served is what was pinned, whatever happens to the file in between.
func BareSheet(name, path, sum, sheet, sheetSum string) Spec {
	sheet = full(sheet)
	return Spec{Name: name, Path: path, SHA256: sum, SheetPath: sheet, SheetSHA256: sheetSum,
		Args: []string{"sheet", sheet, sheetSum}, Origin: filepath.Dir(sheet)}
}

// full gives a path that means the same in a plugin, which runs in a folder of its own.
func full(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}

// Sum gives the SHA-256 of a file in hex, as pins are written.
func Sum(path string) (string, error) {
	sum, err := sumOf(path)
	return hex.EncodeToString(sum), err
}

// verify compares the files with their pins.
func (s Spec) verify(known *hashes) *core.Error {
	if err := s.verifyFile(known, s.Path, s.SHA256, "program"); err != nil {
		return err
	}
	if s.SheetPath == "" {
		return nil
	}
	return s.verifyFile(known, s.SheetPath, s.SheetSHA256, "sheet")
}

func (s Spec) verifyFile(known *hashes, path, pin, what string) *core.Error {
	sum, err := hex.DecodeString(pin)
	if err != nil || len(sum) != sha256.Size {
		return core.Errorf(core.Invalid, "look at it, then pin it: fettle plugin pin "+s.Name,
			"%s: not assessed: its %s is not pinned by a SHA-256", s.Name, what)
	}
	same, err := known.same(path, sum)
	if err != nil {
		return &core.Error{Code: core.Unavailable, What: s.Name + ": not assessed: its " + what + " cannot be read", Where: path,
			Next: "put the file back, or take the plugin off the list", Err: err}
	}
	if !same {
		return &core.Error{Code: core.Invalid, What: s.Name + ": not assessed: its " + what + " has changed since it was pinned", Where: path,
			Next: "if you changed it, pin it again; if you did not, find out who did"}
	}
	return nil
}
