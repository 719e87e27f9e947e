package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"golang.org/x/term"
)

// screenBrowser opens an address in the system's browser; it is nil where nobody sits at a screen.
func screenBrowser() func(address string) {
	if !term.IsTerminal(int(os.Stdin.Fd())) || !term.IsTerminal(int(os.Stdout.Fd())) {
		return nil
	}
	return func(address string) {
		program, args := "xdg-open", []string{address}
		switch runtime.GOOS {
		case "darwin":
			program = "open"
		case "windows":
			program, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
		}
		cmd := exec.Command(program, args...)
		if cmd.Start() == nil { // without it the address that is printed can be typed
			go func() { _ = cmd.Wait() }()
		}
	}
}

// localZone names this machine's time zone, or "UTC" where it has no name.
func localZone(getenv func(string) string) string {
	names := []string{getenv("TZ")}
	if to, err := filepath.EvalSymlinks("/etc/localtime"); err == nil {
		_, name, _ := strings.Cut(filepath.ToSlash(to), "/zoneinfo/")
		names = append(names, name)
	}
	for _, n := range names {
		if _, err := time.LoadLocation(n); n != "" && n != "Local" && err == nil {
			return n
		}
	}
	return "UTC"
}
