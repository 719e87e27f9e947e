package host

import (
	"path/filepath"
	"runtime"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// Confiner is the program that confines itself and then becomes the plugin (sdk.BecomeConfined): the one of the built-in
// subsystems, started with sdk.ConfineWord. Without one plugins run unconfined, as they do on systems other than Linux.
type Confiner struct {
	Path   string
	SHA256 string // its pin
}

func (c *Confiner) works() bool { return c != nil && runtime.GOOS == "linux" }

// verify compares the confiner with its pin, unless it is the plugin's own program, which was compared already.
func (c *Confiner) verify(known *hashes, s Spec) *core.Error {
	if !c.works() || c.Path == s.Path && c.SHA256 == s.SHA256 {
		return nil
	}
	return s.verifyFile(known, c.Path, c.SHA256, "confining program")
}

// wrap gives the command that starts a plugin: the plugin itself, or the confiner before it. A plugin may read its
// sheet, and the folder it lies in if that is its own and not the confiner's.
func (c *Confiner) wrap(s Spec, folder string) (program string, args []string) {
	if !c.works() {
		return s.Path, s.Args
	}
	command := sdk.ConfinedStart{Folder: folder, Program: s.Path, Args: s.Args}
	if s.SheetPath != "" {
		command.Readable = append(command.Readable, s.SheetPath)
	}
	if dir := filepath.Dir(s.Path); dir != filepath.Dir(c.Path) {
		command.Readable = append(command.Readable, dir)
	}
	return c.Path, append([]string{sdk.ConfineWord}, command.Arguments()...)
}
