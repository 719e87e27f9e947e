package paper

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// must is a paper of a number that is known to be there.
func must(d Document, err error) Document {
	if err != nil {
		panic(err)
	}
	return d
}

// storyDocuments are one of each kind, and those that differ with the job's state.
func storyDocuments() map[string]Document {
	stopped := atWork()
	told(&stopped, "Wenna", &core.Move{To: core.StateStopped, Why: "the owner waits for a sale"})
	over := finished()
	told(&over, "Wenna", &core.Handover{Signed: "Marta Wellbeck", OldParts: "returned", FirstService: "oil and filter after 500 miles", Trailer: true, Told: "I know of the bag and the fork"})
	return map[string]Document{
		"arrival": Arrival(storyInput(begun(), "J-001-A")), "strip-authority": StripAuthority(storyInput(core.Story{Job: packhorse().Job}, "J-001-D")),
		"labels": must(Labels(storyInput(atWork(), "J-001-L"), "")), "outwork": must(OutworkTicket(storyInput(atWork(), "J-001-O-001"), "O-001")),
		"outwork-back": must(OutworkTicket(storyInput(finished(), "J-001-O-001"), "O-001")), "buying": BuyingList(storyInput(atWork(), "J-001-B")),
		"change-note": must(ChangeNote(storyInput(atWork(), "J-001-N-001"), "N-001")), "change-note-answered": must(ChangeNote(storyInput(finished(), "J-001-N-001"), "N-001")),
		"statement": Statement(storyInput(finished(), "J-001-P")), "build-sheet": BuildSheet(storyInput(finished(), "J-001-F")),
		"weighing": Weighing(weighed("J-001-W")),
		"handover": Handover(storyInput(over, "J-001-H")), "stopped": Stopped(storyInput(stopped, "J-001-X")),
	}
}

// weighed is the input of a paper with four plans of less and less risk, and two waits.
func weighed(number string) StoryInput {
	in := storyInput(begun(), number)
	at := func(part, position, now string) core.ChoiceDifference {
		return core.ChoiceDifference{Place: core.Place{Subsystem: "gearbox", Unit: "gearbox", Target: core.Target{Part: part, Position: position}}, PartName: part, Was: "left as it is", Now: now}
	}
	in.Weighing = core.Weighing{
		Risks: []core.Weighed{{Total: usd("7600.00"), Risk: usd("46100.00"), Left: 12},
			{Total: usd("8050.00"), Risk: usd("21000.00"), Left: 3, More: usd("450.00"), Less: usd("25100.00"), Differs: []core.ChoiceDifference{at("Pin", "P1", "rebuild: Reground"), at("Pin", "P2", "rebuild: Reground"), at("Ring", "", "replace: A new ring")}},
			{Total: usd("8400.00"), Risk: usd("9000.00"), Left: 1, More: usd("350.00"), Less: usd("12000.00"),
				Differs: []core.ChoiceDifference{at("A", "", "x"), at("B", "", "x"), at("C", "", "x"), at("D", "", "x"), at("E", "", "x"), at("F", "", "x")}},
			{Total: usd("9200.00"), Risk: usd("6400.00"), More: usd("800.00"), Less: usd("2600.00")}},
		Waits: []core.Weighed{{Total: usd("9200.00"), Weeks: 14}, {Total: usd("9550.00"), Weeks: 6, More: usd("350.00"), Differs: []core.ChoiceDifference{at("Gear", "third", "replace: A used pair")}}},
	}
	return in
}

// TestStoryGoldenTexts compares each paper's words.
func TestStoryGoldenTexts(t *testing.T) {
	for name, d := range storyDocuments() {
		golden(t, "story-"+name, storyText(d))
	}
}

// storyText is plainText with the labels' words.
func storyText(d Document) string {
	text := plainText(d)
	for _, b := range d.Blocks {
		if s, ok := b.(LabelSheet); ok {
			for _, l := range s.Items {
				text += strings.Join(append([]string{l.Number, l.Kind, l.Name}, l.Lines...), " | ") + "\n"
			}
		}
	}
	return text
}

func TestStoryPapersPrintTheSameTwice(t *testing.T) {
	again := storyDocuments()
	for name, d := range storyDocuments() {
		require.Equal(t, d, again[name], name)
		pdf, err := PDF(d)
		require.NoError(t, err)
		html, err := HTML(d)
		require.NoError(t, err)
		pdf2, err := PDF(again[name])
		require.NoError(t, err)
		require.True(t, string(pdf) == string(pdf2), name)
		clean(t, boxesOf(t, pdf))
		keep(t, "story-"+name+".pdf", pdf)
		keep(t, "story-"+name+".html", html)
	}
}

// TestNothingIsMadeUp prints every paper of a job of which nothing is known yet: it says so, and gives no sum.
func TestNothingIsMadeUp(t *testing.T) {
	in := StoryInput{Story: core.Story{Job: core.Job{Number: "J-002", Owner: core.Party{Name: "M. Wellbeck"}, State: core.StateEnquiry}}, Number: "J-002-A", Revision: "1", Date: time.Date(2026, 3, 17, 9, 0, 0, 0, time.UTC)}
	for says, d := range map[string]Document{
		"No arrival is recorded": Arrival(in), "Nothing is left to be ordered": BuyingList(in), "nobody has agreed to anything yet": Statement(in), "Nothing is written down as built yet": BuildSheet(in),
		"The job is enquiry": Handover(in), "Nothing is tagged": Stopped(in), "No budget could be made yet": StripAuthority(in), "there is nothing to weigh": Weighing(in)} {
		require.Contains(t, plainText(d), says, d.Title)
		_, err := PDF(d)
		require.NoError(t, err, d.Title)
	}
	_, err := Labels(in, "")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	_, err = OutworkTicket(in, "O-009")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	_, err = ChangeNote(in, "N-009")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
}

// TestHandoverNeverCallsItSafe reads the paper for the words that nobody may put on it.
func TestHandoverNeverCallsItSafe(t *testing.T) {
	text := strings.ToLower(plainText(storyDocuments()["handover"]))
	for _, never := range []string{"is safe", "roadworthy", "safe to drive", "passed"} {
		require.NotContains(t, text, never)
	}
	for _, wants := range []string{"leaves on a trailer", "it is not driven away.", "unsafe as it stands, g-003: pulls left under braking", "does not say that the vehicle is fit for the road", "refused by marta wellbeck", "1 of 6 missing", "no second torque"} {
		require.Contains(t, text, wants)
	}
}

// TestWhatNoAgreementCoversIsMarked is the rule of the shop: nothing is ordered before it is agreed.
func TestWhatNoAgreementCoversIsMarked(t *testing.T) {
	s := atWork()
	s.Agreements = s.Agreements[:1] // the strip-down alone
	require.Equal(t, NotAuthorised, BuyingList(storyInput(s, "B")).Mark)
	require.Equal(t, NotAuthorised, must(OutworkTicket(storyInput(s, "O"), "O-001")).Mark)
	require.Empty(t, must(OutworkTicket(storyInput(atWork(), "O"), "O-001")).Mark)
	require.Equal(t, NotAuthorised, storyDocuments()["strip-authority"].Mark)
	require.Empty(t, StripAuthority(storyInput(begun(), "D")).Mark)
}

// TestSquareCode checks the symbol against ISO/IEC 18004: version 1 has 21 modules a side, a finder in three corners of 7 modules with a blank ring, and
// 4 blank modules round it.
func TestSquareCode(t *testing.T) {
	code, err := squareCode("T-014-03")
	require.NoError(t, err)
	require.Len(t, code, 21+2*4)
	finder := []string{"#######", "#.....#", "#.###.#", "#.###.#", "#.###.#", "#.....#", "#######"}
	for _, corner := range [][2]int{{4, 4}, {4, 18}, {18, 4}} {
		for y, row := range finder {
			for x, want := range row {
				require.Equal(t, want == '#', code[corner[0]+y][corner[1]+x], "corner %v, %d %d", corner, y, x)
			}
		}
	}
	for i := range code {
		for k := range 4 {
			require.False(t, code[k][i] || code[i][k] || code[len(code)-1-k][i] || code[i][len(code)-1-k], "the quiet zone is not quiet")
		}
	}
	dark := 0
	for _, row := range code {
		for _, m := range row {
			if m {
				dark++
			}
		}
	}
	for _, r := range runsOf(code) {
		dark -= r.Width
	}
	require.Zero(t, dark, "runs and modules differ")
}

func TestTagsAreInTheirOrder(t *testing.T) {
	require.Negative(t, compareTags("T-002", "T-010"))
	require.Negative(t, compareTags("T-999", "T-1000"))
	require.Negative(t, compareTags("T-002", "T-002-01"))
	require.Positive(t, compareTags("T-003", "T-002-01"))
	require.Zero(t, compareTags("T-003", "T-003"))
}

// TestALabelLeavesNothingOut prints one with more words than a label is high.
func TestALabelLeavesNothingOut(t *testing.T) {
	s := begun()
	var shims []core.Shim
	for i := range 40 {
		shims = append(shims, core.Shim{Thickness: inches(.003 + float64(i)*.001), Side: "front"})
	}
	told(&s, "Jory", &core.Tag{ID: "T-003", What: strings.Repeat("swivel housing ", 12), Lies: "bay 2", State: core.TagOff, Shims: shims})
	pdf, err := PDF(must(Labels(storyInput(s, "L"), "T-003")))
	require.NoError(t, err)
	clean(t, boxesOf(t, pdf))
	require.Contains(t, pdfText(t, pdf), "J-001, Marta Wellbeck")
}

// TestBuildingInIsNoProofOfOutwork keeps what was to be sent out, and never came back, among what was not done.
func TestBuildingInIsNoProofOfOutwork(t *testing.T) {
	done, refused, open := storyInput(finished(), "H").parted()
	names := func(ls []core.Line) (out []string) {
		for _, l := range ls {
			out = append(out, l.ID)
		}
		return out
	}
	require.Equal(t, []string{"op:regrind", "op:overhaul"}, names(done))
	require.Equal(t, []string{"op:pair-1st"}, names(refused))
	require.Equal(t, []string{"op:crack", "op:rod", "op:pump", "op:pair-3rd", "op:interlock"}, names(open))
}

// TestWhatWasAgreedIsNotThereforeDone keeps an approved change among what was not done until the book shows work on it.
func TestWhatWasAgreedIsNotThereforeDone(t *testing.T) {
	s := finished()
	require.Contains(t, plainText(Handover(storyInput(s, "H"))), "Align bore the tunnel / C-001 | agreed with N-001, and not shown by the book to be done")
	told(&s, "Jory", &core.Worked{Who: "Jory", Task: "align bore", Line: "change:C-001/1", Hours: 3, Rate: usd("85.00")})
	text := plainText(Handover(storyInput(s, "H")))
	require.Contains(t, text, "Align bore the tunnel / change note N-001, agreed by Marta Wellbeck")
	require.Contains(t, text, "3 h spent on it")
	require.NotContains(t, text, "agreed with N-001, and not shown")
}

// What a task was to take is the scope's line where there is one, else the step of the strip plan by that name or id.
func TestExpectedHoursComeFromTheStripPlanToo(t *testing.T) {
	in := storyInput(core.Story{}, "P-1")
	in.Steps = core.StripPlan{Steps: []core.Step{{ID: "hub-off/LF", Name: "Hub and drum off, LF", StripHours: core.Range3{Low: .5, Likely: .8, High: 1.5}}}}
	require.Equal(t, &in.Steps.Steps[0].StripHours, in.expectedHours("Hub and drum off, LF", ""))
	require.Equal(t, &in.Steps.Steps[0].StripHours, in.expectedHours("something", "hub-off/LF"))
	require.Nil(t, in.expectedHours("Sweep the yard", ""))
}
