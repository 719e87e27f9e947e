package host

import "runtime"

// launcher starts children from one thread that lives as long as the host: on Linux a child can be made to die with
// the thread that started it (prctl PR_SET_PDEATHSIG), and Go's other threads come and go.
type launcher struct{ work chan func() }

func newLauncher() *launcher {
	l := &launcher{work: make(chan func())}
	go func() {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread() // the thread goes back to the pool, it does not end
		for f := range l.work {
			f()
		}
	}()
	return l
}

// do runs f on the thread and waits for it.
func (l *launcher) do(f func() error) error {
	done := make(chan error, 1)
	l.work <- func() { done <- f() }
	return <-done
}

func (l *launcher) close() { close(l.work) }
