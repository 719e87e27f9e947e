package host

import "syscall"

// dieWithParent has the kernel end the child with the thread that started it: the launcher's, which lives as long as
// the host. It covers plugins that do not watch the host's pipe.
func dieWithParent(a *syscall.SysProcAttr) { a.Pdeathsig = syscall.SIGKILL }
