package sdk

import (
	"os"
	"syscall"

	"github.com/landlock-lsm/go-landlock/landlock"
)

// confinedLibraries are where programs that are not whole in themselves find what they need.
var confinedLibraries = []string{"/usr", "/bin", "/lib", "/lib32", "/lib64", "/etc/ld.so.cache", "/etc/ld.so.conf", "/etc/localtime", "/etc/ssl/openssl.cnf"}

// confinedDevices are the files of /dev a program may expect.
var confinedDevices = []string{"/dev/null", "/dev/zero", "/dev/random", "/dev/urandom"}

// restrict takes the rights away, for good and from every thread.
func (c ConfinedStart) restrict() error {
	for resource, limit := range map[int]uint64{syscall.RLIMIT_CORE: 0, syscall.RLIMIT_DATA: confinedMemory} {
		if err := syscall.Setrlimit(resource, &syscall.Rlimit{Cur: limit, Max: limit}); err != nil {
			return err
		}
	}
	rules := []landlock.Rule{landlock.RWDirs(c.Folder), landlock.RWFiles(confinedDevices...).IgnoreIfMissing()}
	for _, path := range append(append([]string{c.Program}, c.Readable...), confinedLibraries...) {
		if info, err := os.Stat(path); err == nil && info.IsDir() {
			rules = append(rules, landlock.RODirs(path))
		} else if err == nil {
			rules = append(rules, landlock.ROFiles(path))
		}
	}
	return landlock.V11.BestEffort().Restrict(rules...)
}

// become replaces this process by the program; the host's pipe and go-plugin's environment go along.
func (c ConfinedStart) become() error {
	return syscall.Exec(c.Program, append([]string{c.Program}, c.Args...), os.Environ())
}
