//go:build unix && !linux

package host

import "syscall"

// dieWithParent does nothing: this system has no such signal, and the host's pipe must do.
func dieWithParent(*syscall.SysProcAttr) {}
