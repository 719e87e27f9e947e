package host

import (
	"os"
	"path/filepath"
	"strings"
	"time"
)

const (
	folderPrefix = "ft"
	// A socket's path has room for 107 bytes (sockaddr_un); go-plugin's names below the folder take about 45.
	folderRoom = 56
	// A folder younger than this may belong to a host that has not locked it yet.
	folderYoung = time.Minute
)

// folder is the private folder of the sockets. It is locked while its host lives, which keeps the system's sweepers
// of temporary files away (systemd's tmpfiles skips what is locked) and tells the next host what a dead one left.
type folder struct {
	path string
	lock *os.File
}

// makeFolder makes the folder below dir, and removes what dead hosts left there.
func makeFolder(dir string) (*folder, error) {
	if dir == "" {
		dir = os.TempDir()
	}
	if len(dir) > folderRoom-len("/ft1234567890") {
		if info, err := os.Stat("/tmp"); err == nil && info.IsDir() {
			dir = "/tmp"
		}
	}
	sweep(dir)
	path, err := os.MkdirTemp(dir, folderPrefix)
	if err != nil {
		return nil, err
	}
	f := &folder{path: path}
	f.lock, _ = lockFolder(path)
	return f, nil
}

// sweep removes the folders of hosts that are gone: old enough, and locked by nobody.
func sweep(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !e.IsDir() || !isFolderName(e.Name()) {
			continue
		}
		path := filepath.Join(dir, e.Name())
		info, err := e.Info()
		if err != nil || time.Since(info.ModTime()) < folderYoung || !isOurs(info) {
			continue
		}
		if lock, err := lockFolder(path); err == nil && lock != nil {
			_ = os.RemoveAll(path)
			_ = lock.Close()
		}
	}
}

// isFolderName tells our folders from what else begins with the same letters.
func isFolderName(name string) bool {
	digits, ok := strings.CutPrefix(name, folderPrefix)
	return ok && len(digits) >= 5 && strings.Trim(digits, "0123456789") == ""
}

func (f *folder) remove() {
	_ = os.RemoveAll(f.path)
	if f.lock != nil {
		_ = f.lock.Close()
	}
}
