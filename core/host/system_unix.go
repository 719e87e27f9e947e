//go:build unix

package host

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"syscall"
)

// lockFolder takes the lock of a folder; an error if another process holds it. It is let go by closing the file.
func lockFolder(path string) (*os.File, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		_ = f.Close()
		return nil, err
	}
	return f, nil
}

// isOurs reports whether a file belongs to this user.
func isOurs(info fs.FileInfo) bool {
	s, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(s.Uid) == os.Getuid()
}

// fileNumber is the file's own number, which a file put in its place has not.
func fileNumber(info fs.FileInfo) string {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return fmt.Sprint(s.Dev, ":", s.Ino)
	}
	return ""
}

// separate gives the child a process group of its own, so that all it starts can be ended with it.
func separate(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	dieWithParent(cmd.SysProcAttr)
}

// killGroup ends a child and all it started.
func killGroup(pid int) { _ = syscall.Kill(-pid, syscall.SIGKILL) }
