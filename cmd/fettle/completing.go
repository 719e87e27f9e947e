package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/fettle-tools/fettle/core"
)

// completer offers the words that may stand next. It never fails: without a shop or an answer it offers nothing.
type completer func(ctx context.Context, s *shop, args []string) []string

// arguments says which words may stand at each argument of a command; the last serves all that follow. A command without a row takes what
// nobody can offer, and so does an argument with nothing; nil offers files.
var arguments = map[string][]completer{
	"budget":       {jobNumbers, nothing},
	"plan":         {jobNumbers, nothing},
	"scope":        {jobNumbers, nothing},
	"work-order":   {jobNumbers, nothing},
	"paper":        {jobNumbers, words(numbers(storyPapers, func(k storyPaper) string { return k.kind })...), paperNumbers, nothing},
	"undo":         {jobNumbers, nothing},
	"agree":        {jobNumbers, words("strip", "budget", "finish"), nothing},
	"send":         {jobNumbers, nothing},
	"receive":      {jobNumbers, outworkNumbers, nothing},
	"buy":          {jobNumbers, purchaseNumbers, nothing},
	"change":       {jobNumbers, partNames, nothing},
	"state":        {jobNumbers, words(core.States...), nothing},
	"stop":         {jobNumbers, nothing},
	"resume":       {jobNumbers, nothing},
	"why":          {jobNumbers, partNames, nothing},
	"record":       {findingWords},
	"import":       {jobNumbers, nil},
	"sheet":        {subsystemNames, nothing},
	"job show":     {jobNumbers, nothing},
	"job set":      {jobNumbers, nothing},
	"job mark":     {jobNumbers, unitNames, nothing},
	"job fact":     {jobNumbers, unitNames, nothing},
	"job pin":      {jobNumbers, partNames, nothing},
	"job leave":    {jobNumbers, partNames, nothing},
	"job limit":    {jobNumbers, nothing},
	"job export":   {jobNumbers, nil},
	"job payer":    {jobNumbers, partyNames, nothing},
	"job speaker":  {jobNumbers, partyNames, nothing},
	"job labour":   {jobNumbers, subsystemNames, nothing},
	"arrive":       {jobNumbers, nothing},
	"photo":        {jobNumbers, nil},
	"strip":        {jobNumbers, openSteps, nothing},
	"hours":        {jobNumbers, openSteps, nothing},
	"tag":          {jobNumbers, tagNumbers, nothing},
	"unit list":    {jobNumbers, nothing},
	"unit add":     {jobNumbers, nothing},
	"unit swap":    {jobNumbers, unitNames, unitNames, nothing},
	"unit belongs": {jobNumbers, unitNames, words(core.BelongsWords...), nothing},
	"unit take":    {jobNumbers, nothing},
	"party set":    {partyNames, nothing},
	"price ask":    {jobNumbers, nothing},
	"price set":    {priceItems, nothing},
	"plugin check": {ownSheetNames, nothing},
	"plugin pin":   {ownSheetNames, nothing},
}

// flagWords says which words a flag may take, by command and flag.
var flagWords = map[string]completer{
	"sheet --job":        jobNumbers,
	"why --job":          jobNumbers,
	"record --subsystem": subsystemNames,
	"record --with":      instrumentNames,
	"agree --how":        words(core.Ways...),
	"agree --who":        partyNames,
	"send --to":          partyNames,
	"send --for":         inJob(partNames),
	"change --who":       partyNames,
	"change --how":       words(core.Ways...),
	"buy --from":         partyNames,
	"buy --for":          inJob(partNames),
	"buy --item":         priceItems,
	"job mark --says":    words(core.MarkWords...),
	"tag --state":        words(core.TagStates...),
	"find --job":         jobNumbers,
	"arrive --runs":      words(core.RunsWords...),
	"arrive --stored":    words(core.StoredWords...),
	"arrive --ran":       words(core.RanWords...),
	"arrive --worked":    words(core.WorkedWords...),
	"strip --who":        partyNames,
	"hours --who":        partyNames,
	"new job --extent":   words(core.ExtentBareFrame, core.ExtentNamed, core.ExtentAsNeeded, core.ExtentBench),
	"job set --extent":   words(core.ExtentBareFrame, core.ExtentNamed, core.ExtentAsNeeded, core.ExtentBench),
	"job set --name":     subsystemNames,
	"job set --stored":   words(core.StoredWords...),
	"job set --ran":      words(core.RanWords...),
	"job set --worked":   words(core.WorkedWords...),
	"new job --stored":   words(core.StoredWords...),
	"new job --ran":      words(core.RanWords...),
	"new job --worked":   words(core.WorkedWords...),
	"new job --apart":    stepNames,
	"new job --name":     subsystemNames,
	"price set --kind":   words(core.PriceKinds...),
}

// addCompletion hands the two lists to the commands.
func (c *command) addCompletion(root *cobra.Command) {
	for path, places := range arguments {
		c.find(root, path).ValidArgsFunction = func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
			f := places[min(len(args), len(places)-1)]
			if f == nil {
				return nil, cobra.ShellCompDirectiveDefault
			}
			return c.offer(cmd.Context(), f, args, typed)
		}
	}
	for path, f := range flagWords {
		name, flag, _ := strings.Cut(path, " --")
		err := c.find(root, name).RegisterFlagCompletionFunc(flag, func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
			return c.offer(cmd.Context(), f, args, typed)
		})
		if err != nil {
			panic(err) // a list above names a flag that its command has not
		}
	}
}

// find gives the command that a list above names.
func (c *command) find(root *cobra.Command, path string) *cobra.Command {
	cmd, rest, err := root.Find(strings.Fields(path))
	if err != nil || len(rest) > 0 {
		panic("no command is called " + path)
	}
	return cmd
}

// offer asks for the words and keeps those that begin as typed. A word may carry a tab and what it means.
func (c *command) offer(ctx context.Context, f completer, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	var out []string
	s, err := c.openShop(ctx)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	defer s.close()
	for _, w := range f(ctx, s, args) {
		if strings.HasPrefix(w, typed) {
			out = append(out, w)
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// words offers a fixed list.
func words(list ...string) completer {
	return func(context.Context, *shop, []string) []string { return list }
}

func nothing(context.Context, *shop, []string) []string { return nil }

// jobNumbers offers the jobs, with their titles.
func jobNumbers(ctx context.Context, s *shop, _ []string) (out []string) {
	jobs, err := s.book.Jobs(ctx)
	if err != nil {
		return nil
	}
	for _, j := range jobs {
		out = append(out, j.Number+"\t"+j.Title)
	}
	return out
}

func subsystemNames(_ context.Context, s *shop, _ []string) []string { return s.names }

// ownSheetNames offers the sheets of the shop's own.
func ownSheetNames(_ context.Context, s *shop, _ []string) []string {
	names, err := s.ownSheets()
	if err != nil {
		return nil
	}
	return names
}

// unitNames offers the units of the job named first, and the vehicle.
func unitNames(ctx context.Context, s *shop, args []string) (out []string) {
	job, err := s.job(ctx, args[0])
	if err != nil {
		return nil
	}
	for _, u := range job.Units {
		out = append(out, u.ID)
	}
	if job.Vehicle != nil {
		out = append(out, wholeVehicle)
	}
	return out
}

// partNames offers the parts of a job's sheets, and after a subsystem those of that one: the job is the first word.
func partNames(ctx context.Context, s *shop, args []string) (out []string) {
	job, err := s.job(ctx, args[0])
	if err != nil {
		return nil
	}
	r, err := s.recorder(ctx, job)
	if err != nil {
		return nil
	}
	only := ""
	if len(args) > 1 {
		only, _, _ = strings.Cut(args[1], "@")
	}
	for _, us := range r.Sheets {
		if only != "" && us.Subsystem != only {
			continue
		}
		for _, p := range us.Sheet.Parts {
			out = append(out, p.ID+"\t"+p.Name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// findingWords offers what may stand next in a finding: the job, a subsystem, a part of it, then a position or a check.
func findingWords(ctx context.Context, s *shop, args []string) []string {
	switch len(args) {
	case 0:
		return jobNumbers(ctx, s, args)
	case 1:
		return subsystemNames(ctx, s, args)
	case 2:
		return partNames(ctx, s, args)
	}
	job, err := s.job(ctx, args[0])
	if err != nil {
		return nil
	}
	sheets, err := s.describe(ctx, job, []string{args[1]})
	if err != nil || len(sheets) == 0 {
		return nil
	}
	part := sheets[0].Sheet.Part(args[2])
	if part == nil {
		return nil
	}
	if len(args) == 3 && len(part.Positions) > 0 {
		return part.Positions
	}
	var out []string
	for _, c := range part.Checks {
		out = append(out, c.ID+"\t"+c.Name)
		if slices.Contains(args, c.ID) {
			return c.Stations
		}
	}
	return out
}

func priceItems(ctx context.Context, s *shop, _ []string) []string {
	keys := s.priceKeys(ctx)
	slices.Sort(keys)
	return slices.Compact(keys)
}

func instrumentNames(_ context.Context, s *shop, _ []string) (out []string) {
	instruments, err := s.instruments()
	if err != nil {
		return nil
	}
	for _, i := range instruments {
		out = append(out, i.Name)
	}
	return out
}

// stepNames offers the steps of the strip plan, for those done before a job came.
func stepNames(_ context.Context, s *shop, _ []string) (out []string) {
	plan, err := s.stripPlan()
	if err != nil {
		return nil
	}
	for _, step := range plan.Steps {
		out = append(out, step.ID+"\t"+step.Name)
	}
	return out
}

// openSteps offers the steps of the job named first that are neither done nor skipped.
func openSteps(ctx context.Context, s *shop, args []string) (out []string) {
	story, err := s.book.Story(ctx, args[0])
	if err != nil {
		return nil
	}
	req, err := s.request(ctx, story.Job)
	if err != nil {
		return nil
	}
	for _, t := range core.StripSteps(req, nil, story) {
		if t.Is == "" {
			out = append(out, t.Key+"\t"+t.Name)
		}
	}
	return out
}

func partyNames(ctx context.Context, s *shop, _ []string) []string {
	parties, err := s.book.Parties(ctx)
	if err != nil {
		return nil
	}
	var names []string
	for _, p := range parties {
		names = append(names, p.Name)
	}
	return names
}

func tagNumbers(ctx context.Context, s *shop, args []string) []string {
	if len(args) == 0 {
		return nil
	}
	story, err := s.book.Story(ctx, args[0])
	if err != nil {
		return nil
	}
	var numbers []string
	for _, t := range story.Tags {
		numbers = append(numbers, t.ID)
	}
	return numbers
}

// numbersOf offers the numbers of something in the story of the job named first.
func numbersOf(ctx context.Context, s *shop, args []string, of func(core.Story) []string) []string {
	if len(args) == 0 {
		return nil
	}
	story, err := s.book.Story(ctx, args[0])
	if err != nil {
		return nil
	}
	return of(story)
}

func outworkNumbers(ctx context.Context, s *shop, args []string) []string {
	return numbersOf(ctx, s, args, func(story core.Story) (ns []string) {
		for _, o := range story.Outwork {
			ns = append(ns, o.ID)
		}
		return ns
	})
}

func purchaseNumbers(ctx context.Context, s *shop, args []string) []string {
	return numbersOf(ctx, s, args, func(story core.Story) (ns []string) {
		for _, b := range story.Purchases {
			ns = append(ns, b.ID)
		}
		return ns
	})
}

// inJob offers nothing while no job is named.
func inJob(f completer) completer {
	return func(ctx context.Context, s *shop, args []string) []string {
		if len(args) == 0 {
			return nil
		}
		return f(ctx, s, args[:1])
	}
}
