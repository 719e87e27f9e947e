package host

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/sdk"
)

// endWait is how long a broken connection waits to learn how the process ended.
const endWait = time.Second

// Advice, each for one sort of failure.
const (
	adviceAgain  = "run the same again; if it stops again, send its author the shop's log"
	adviceAuthor = "this is the plugin's own fault: send its author the shop's log, or take it off the list"
	adviceSlow   = "run the same again; if the machine is busy, allow plugins more time"
)

// notAssessed makes the error for a subsystem that could not be assessed.
func notAssessed(code core.Code, name, next, format string, args ...any) *core.Error {
	return core.Errorf(code, next, "%s: not assessed: %s", name, fmt.Sprintf(format, args...))
}

// startFault puts a failed start in words, by what was seen of it rather than by go-plugin's text.
func (h *Host) startFault(s Spec, p *process, err error) *core.Error {
	if r := p.runner(); r == nil || r.process() == 0 {
		f := notAssessed(core.Unavailable, s.Name, "check that the file is a program for this machine and may be run", "its program could not be started")
		f.Where, f.Err = s.Path, err
		return f
	}
	line := p.runner().handshake()
	fields := strings.Split(strings.TrimSpace(line), "|")
	var other wrongName
	switch {
	case errors.As(err, &other):
		return notAssessed(core.Invalid, s.Name, "pin it under the name it serves, or correct the sheet's name", "%v", other)
	case p.wasLate() && strings.TrimSpace(line) == "":
		return notAssessed(core.Unavailable, s.Name, adviceSlow, "the plugin said nothing within %v of its start", h.config.StartTimeout)
	case strings.TrimSpace(line) == "":
		return notAssessed(core.Unavailable, s.Name, adviceAuthor, "the plugin stopped before it was ready%s", lastSeen(p))
	case len(fields) < 4:
		return notAssessed(core.Invalid, s.Name, "a plugin may print nothing before it serves: send this to its author",
			"the plugin printed %q before it was ready", printable(line, 80))
	case fields[1] != fmt.Sprint(sdk.ProtocolVersion):
		return notAssessed(core.Invalid, s.Name, "use a plugin made for this version of fettle, or the fettle it was made for",
			"the plugin speaks version %s of the contract, this program version %d", printable(fields[1], 20), sdk.ProtocolVersion)
	case errors.Is(err, errSocketElsewhere):
		return notAssessed(core.Invalid, s.Name, adviceAuthor, "%v", err)
	case p.wasLate():
		return notAssessed(core.Unavailable, s.Name, adviceSlow, "the plugin did not describe its sheet within %v of its start", h.config.StartTimeout)
	}
	return connectFault(s, p, err)
}

// connectFault is for a plugin that gave its address and then could not be spoken to.
func connectFault(s Spec, p *process, err error) *core.Error {
	var own *core.Error
	if errors.As(err, &own) {
		return ownFault(s.Name, own)
	}
	if how := p.ended(endWait); how != "" {
		return notAssessed(core.Unavailable, s.Name, adviceAgain, "the plugin stopped while starting%s", lastSeen(p))
	}
	f := notAssessed(core.Unavailable, s.Name, adviceAuthor, "the plugin gave an address at which nobody answers as agreed")
	switch status.Code(err) {
	case codes.Internal:
		f = notAssessed(core.Unavailable, s.Name, adviceAuthor, "the plugin failed while describing its sheet: %s", statusText(err))
	case codes.ResourceExhausted:
		f = notAssessed(core.Invalid, s.Name, adviceAuthor, "the plugin's sheet is larger than %d MiB", sdk.MaxMessage>>20)
	case codes.Unimplemented:
		f = notAssessed(core.Invalid, s.Name, adviceAuthor, "the program serves something else than a subsystem")
	}
	f.Err = plainStatus(err)
	return f
}

// callFault puts a failed call in words; broken says that the process is of no more use.
func (h *Host) callFault(ctx context.Context, name string, p *process, err error) (fault *core.Error, broken bool) {
	var own *core.Error
	if errors.As(err, &own) {
		return ownFault(name, own), false
	}
	if ctx.Err() != nil {
		f := notAssessed(core.Unavailable, name, "", "nobody waited for the answer")
		f.Err = context.Cause(ctx)
		return f, false
	}
	switch status.Code(err) {
	case codes.DeadlineExceeded:
		return notAssessed(core.Unavailable, name, adviceSlow, "the plugin gave no answer within %v and was ended", h.config.CallTimeout), true
	case codes.ResourceExhausted:
		return notAssessed(core.Invalid, name, adviceAuthor, "a message to or from the plugin is larger than %d MiB", sdk.MaxMessage>>20), false
	case codes.Unimplemented:
		return notAssessed(core.Invalid, name, adviceAuthor, "the program serves something else than a subsystem"), false
	}
	if how := p.ended(endWait); how != "" {
		return notAssessed(core.Unavailable, name, adviceAgain, "the plugin stopped while answering%s", lastSeen(p)), true
	}
	if status.Code(err) == codes.Unavailable {
		return notAssessed(core.Unavailable, name, adviceAgain, "the plugin broke off its connection while answering"), true
	}
	return notAssessed(core.Unavailable, name, adviceAuthor, "the plugin failed while answering: %s", statusText(err)), false
}

// ownFault is an error the plugin answered with.
func ownFault(name string, own *core.Error) *core.Error {
	f := notAssessed(own.Code, name, printable(own.Next, 400), "%s", printable(own.What, 400))
	if f.Next == "" {
		f.Next = adviceAuthor
	}
	return f
}

// lastSeen says how the process ended and what it said last: " (exit status 2: panic: ...)".
func lastSeen(p *process) string {
	how, said := p.ended(endWait), p.out.lastWords()
	switch {
	case how == "" && said == "":
		return ""
	case how == "":
		return fmt.Sprintf(" (it said: %s)", said)
	case said == "":
		return fmt.Sprintf(" (%s)", how)
	}
	return fmt.Sprintf(" (%s: %s)", how, said)
}

// statusText is a status's message, fit to print.
func statusText(err error) string { return printable(status.Convert(err).Message(), 200) }

// plainStatus keeps the text of a status as a cause.
func plainStatus(err error) error { return errors.New(printable(err.Error(), 200)) }
