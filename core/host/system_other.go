//go:build !unix

package host

import (
	"io/fs"
	"os"
	"os/exec"
)

// lockFolder locks nothing: without a lock nothing is swept either.
func lockFolder(string) (*os.File, error) { return nil, nil }

func isOurs(fs.FileInfo) bool { return false }

func fileNumber(fs.FileInfo) string { return "" }

func separate(*exec.Cmd) {}

// killGroup ends the child alone.
func killGroup(pid int) {
	if p, err := os.FindProcess(pid); err == nil {
		_ = p.Kill()
	}
}
