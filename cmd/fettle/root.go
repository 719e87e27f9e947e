package main

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/viper"

	"github.com/fettle-tools/fettle/core"
)

// command is one run of the program: what it may touch, and the flags that every subcommand has.
type command struct {
	environment
	flags *viper.Viper
}

// run does what the arguments say and gives the exit status.
func run(ctx context.Context, args []string, env environment) int {
	debug.SetGCPercent(400)
	c := &command{environment: env, flags: viper.New()}
	root := c.root()
	root.SetArgs(args)
	root.SetIn(env.in)
	root.SetOut(env.out)
	root.SetErr(env.err)
	cmd, err := root.ExecuteContextC(ctx)
	return tell(env.err, usageError(cmd, err))
}

// usageError marks the errors that cobra itself makes: they are the caller's. It says how the command is written.
func usageError(cmd *cobra.Command, err error) error {
	if err == nil || errors.As(err, new(faults)) {
		return err
	}
	var e *core.Error
	if errors.As(err, &e) {
		return err
	}
	for _, start := range []string{"unknown command", "unknown flag", "unknown shorthand", "accepts ", "requires ", "invalid argument", "flag needed", "flag needs", "required flag"} {
		if strings.HasPrefix(err.Error(), start) {
			next := "see: fettle help"
			if cmd != nil && cmd.HasParent() {
				next = strings.TrimSuffix(cmd.UseLine(), " [flags]") + "\nsee: " + cmd.CommandPath() + " --help"
			}
			return core.Errorf(core.Invalid, next, "%s", plainUsage(err.Error()))
		}
	}
	return err
}

// counted finds what cobra says of too few or too many words: "accepts between 1 and 2 arg(s), received 0".
var counted = regexp.MustCompile(`^(accepts|requires) (at least |at most )?(?:between )?([0-9]+)(?: and ([0-9]+))? arg\(s\), (?:only )?received ([0-9]+)$`)

// notRead finds what cobra says of a flag's value that is no number: invalid argument "x" for "--keys" flag: strconv.ParseInt: ...
var notRead = regexp.MustCompile(`^invalid argument "(.*)" for "(?:-., )?(--[a-z-]+)" flag: strconv\.Parse(?:Int|Uint|Float)`)

// plainUsage says it without the words of programming.
func plainUsage(said string) string {
	if v := notRead.FindStringSubmatch(said); v != nil {
		return fmt.Sprintf("%s %q: that is no number", v[2], v[1])
	}
	m := counted.FindStringSubmatch(said)
	if m == nil {
		return strings.ReplaceAll(said, "\n", " ")
	}
	wanted := m[2] + m[3]
	if m[4] != "" {
		wanted += " to " + m[4]
	}
	if wanted == "1" {
		return "one word is wanted after the command, and there are " + m[5]
	}
	return fmt.Sprintf("%s words are wanted after the command, and there are %s", wanted, m[5])
}

func (c *command) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "fettle",
		Short: "Record what comes off a vehicle, decide what to do with each part, and say what it will cost",
		Long: `fettle keeps the record of a vehicle that is being stripped and rebuilt: what was found, against which
limit, what is to be done with each part, what it will cost and how sure that is, and the papers for it.

Exit status: 0 done, 1 a fault of the program, 2 something written wrong, 3 not found, 4 there already or not allowed now,
5 a plugin or a file cannot be reached, 6 the book was written by a newer program.`,
		Example: `  fettle demo demo
  fettle new shop "Hollow Lane Works" --currency USD --rate mechanic=85
  fettle new job "One gearbox" --owner "M. Wellbeck" --unit gearbox --extent "one unit on the bench"
  fettle record J-001 gearbox layshaft-cluster end-float 16 thou with feelers
  fettle plan J-001`,
		SilenceUsage: true, SilenceErrors: true,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return c.firstSteps(cmd.Context()) },
	}
	pf := root.PersistentFlags()
	pf.StringP("dir", "C", ".", "the shop `FOLDER`")
	pf.Bool("json", false, "print JSON, for programs")
	pf.Bool("debug", false, "log everything, plugins' output included, to the shop folder's log")
	pf.String("by", "", "`NAME` of whoever does this; FETTLE_BY says it for all commands")
	for _, name := range []string{"dir", "json", "debug", "by"} {
		if err := c.flags.BindPFlag(name, pf.Lookup(name)); err != nil {
			panic(err) // a flag that is defined just above cannot be missing
		}
	}
	c.flags.SetDefault("by", c.getenv("FETTLE_BY"))
	for _, g := range commandGroups {
		root.AddGroup(&cobra.Group{ID: g.id, Title: g.title})
	}
	for _, sub := range []*cobra.Command{c.newCommand(), c.jobCommand(), c.recordCommand(), c.importCommand(), c.undoCommand(), c.sheetCommand(), c.planCommand(), c.whyCommand(),
		c.budgetCommand(), c.lookCommand(), c.whatIfCommand(), c.weighCommand(), c.workOrderCommand(), c.scopeCommand(), c.storyPaperCommand(),
		c.agreeCommand(), c.sendCommand(), c.receiveCommand(), c.buyCommand(), c.changeCommand(),
		c.arriveCommand(), c.photoCommand(), c.stripCommand(), c.hoursCommand(),
		c.tagCommand(), c.findCommand(), c.unitCommand(), c.stateCommand(), c.stopCommand(), c.resumeCommand(),
		c.buildCommand(), c.roadTestCommand(), c.closeCommand(), c.payCommand(), c.yardCommand()} {
		sub.GroupID = groupOf(sub.Name())
		root.AddCommand(sub)
	}
	for _, sub := range []*cobra.Command{c.serveCommand(), c.partyCommand(), c.priceCommand(), c.learnedCommand(), c.instrumentCommand(), c.deviceCommand(), c.pluginCommand(), c.backupCommand(), c.demoCommand(), c.versionCommand()} {
		sub.GroupID = "shop"
		root.AddCommand(sub)
	}
	root.SetHelpCommandGroupID("shop")
	root.SetCompletionCommandGroupID("shop")
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	for _, sub := range root.Commands() {
		c.describeBuiltIn(sub)
	}
	c.addCompletion(root)
	introduce(root)
	return root
}

// commandGroups are the parts of the help, in the order of a job. What is in none of them is of the first.
var commandGroups = []struct{ id, title, commands string }{
	{"come", "A job comes in and comes apart:", "new job arrive photo strip tag find unit"},
	{"look", "What is found, what to do with it, what it will cost:", "sheet record import undo plan why budget look what-if weigh"},
	{"agree", "What is agreed:", "scope work-order paper agree change"},
	{"work", "The work:", "send receive buy hours build road-test"},
	{"stand", "Where jobs stand, what is owed, the end:", "yard state stop resume pay close"},
	{"shop", "The shop:", ""},
}

func groupOf(command string) string {
	for _, g := range commandGroups {
		if slices.Contains(strings.Fields(g.commands), command) {
			return g.id
		}
	}
	return commandGroups[0].id
}

// introduce lets the help of each command begin with what it does, and wraps it to the screen.
func introduce(cmd *cobra.Command) {
	if cmd.HasParent() && cmd.Long != "" && cmd.Parent().Name() != "completion" {
		cmd.Long = cmd.Short + ".\n\n" + strings.Join(wrap(cmd.Long, screen), "\n")
	}
	for _, sub := range cmd.Commands() {
		introduce(sub)
	}
}

// describeBuiltIn gives the commands that cobra adds the words and examples of the others.
func (c *command) describeBuiltIn(cmd *cobra.Command) {
	switch cmd.Name() {
	case "help":
		cmd.Short, cmd.Long, cmd.Example = "How a command is written, with examples", "", "  fettle help record"
	case "completion":
		cmd.Short, cmd.Long, cmd.Example = "Let the shell finish commands, job numbers and names with the tab key", "", "  source <(fettle completion bash)"
		for _, shell := range cmd.Commands() {
			shell.Short, shell.Example = "For "+shell.Name(), "  fettle completion "+shell.Name()
		}
	}
}

func (c *command) dir() string    { return c.flags.GetString("dir") }
func (c *command) asJSON() bool   { return c.flags.GetBool("json") }
func (c *command) by() string     { return c.flags.GetString("by") }
func (c *command) print(s string) { fmt.Fprintln(c.out, s) }

// self is how the program is called here, for hints that can be copied.
func (c *command) self() string {
	if c.dir() == "." {
		return "fettle"
	}
	return "fettle -C " + c.dir()
}

// report says what was done: in words, or to a program.
func (c *command) report(v any, words string) error {
	if c.asJSON() {
		return writeJSON(c.out, v)
	}
	c.print(words)
	return nil
}

// firstJSON is what fettle alone says to a program; without a shop its name is blank.
type firstJSON struct {
	Shop string     `json:"shop"`
	Jobs []core.Job `json:"jobs"`
}

// firstSteps is what fettle alone does: at a screen it opens the bench, or the page that makes a shop; in a script it says where you are and what to do next.
func (c *command) firstSteps(ctx context.Context) error {
	if c.browse != nil && !c.asJSON() {
		return c.serveHere(ctx, serving{port: usualPort, browse: c.browse})
	}
	s, err := c.openShop(ctx)
	if core.ErrorCode(err) == core.NotFound && c.asJSON() {
		return writeJSON(c.out, firstJSON{Jobs: []core.Job{}})
	}
	if core.ErrorCode(err) == core.NotFound {
		c.print(`There is no shop folder here yet.

  fettle demo demo                      look round in an invented shop first
  fettle new shop "Your shop" --currency USD --rate mechanic=85
                                        make this folder your shop
  fettle help                           everything else`)
		return nil
	}
	if err != nil {
		return err
	}
	defer s.close()
	jobs, err := s.book.Jobs(ctx)
	if err != nil {
		return err
	}
	if c.asJSON() {
		return writeJSON(c.out, firstJSON{Shop: s.settings().Shop.Name, Jobs: jobs})
	}
	if len(jobs) == 0 {
		c.print("The shop is open and has no job yet.\n\n  " + c.self() + " new job \"What it is\" --owner \"Whose it is\"")
		return nil
	}
	printJobs(c.out, jobs)
	n := jobs[len(jobs)-1].Number
	fmt.Fprintf(c.out, "\n  %[1]s record %[2]s ...    write down a finding\n  %[1]s plan %[2]s          what to do, and what it will cost\n", c.self(), n)
	return nil
}
