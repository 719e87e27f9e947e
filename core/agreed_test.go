package core

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var agreedOn = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

func dollars(n int64) Money { return MinorMoney(100*n, "USD") }

func scopeLine(id string, kind LineKind, amount int64, places ...Place) Line {
	l := Line{ID: id, Kind: kind, Name: id, Amount: dollars(amount), Tax: dollars(0), Places: places}
	if kind == LineWork {
		l.Outwork = "grinding"
	}
	return l
}

var (
	pin    = Place{"bottom-end", "engine", Target{"crankpin", "P4"}}
	pin1   = Place{"bottom-end", "engine", Target{"crankpin", "P1"}}
	shells = Place{"bottom-end", "engine", Target{"shell", ""}}
)

// agreedStory is a job whose scope of 1000 is out: work of 400, goods of 120, a reserve of 80, a contingency of 150.
func agreedStory(t require.TestingT, revisions int) *Story {
	s := &Story{Job: Job{Number: "J-001", State: StateEnquiry, Owner: Party{Name: "O. Wner"}, Vehicle: &Vehicle{Title: "A truck"}}}
	for r := 1; r <= revisions; r++ {
		s.Papers = append(s.Papers, Issued{Kind: "scope", Number: "J-001-S", Revision: r, At: agreedOn, ValidUntil: agreedOn.AddDate(0, 0, 30), Total: dollars(1000), Contingency: dollars(150),
			Lines: []Line{scopeLine("work:grind", LineWork, 400, pin, pin1), scopeLine("work:shells", LineWork, 120, shells), scopeLine("reserve:bore", LineReserve, 80, shells)}})
	}
	doing(t, s, &Move{To: StateScopeOut})
	return s
}

func doing(t require.TestingT, s *Story, acts ...Act) {
	for _, a := range acts {
		_, err := s.Do(a, Stamp{"Wren", agreedOn})
		require.NoError(t, err)
	}
}

func budget(revision int, sum int64, refused ...string) *Agreement {
	return &Agreement{Gate: GateBudget, Paper: "J-001-S", Revision: revision, Who: "O. Wner", How: "signed", Sum: dollars(sum), Refused: refused}
}

func approved(t require.TestingT, s *Story, n int, options ...SurpriseOption) {
	id, note := fmt.Sprintf("C-%03d", n), fmt.Sprintf("N-%03d", n)
	doing(t, s, &Surprise{ID: id, Found: "a crack", Options: options}, &Note{ID: note, Surprises: []string{id}},
		&Answer{Note: note, State: NoteApproved, Who: "O. Wner", How: "phone", Options: []NoteAnswer{{id, 1}}})
}

// An agreement's sum stands for what was agreed before it; the notes after it add to it, and draw the contingency (common practice, no source).
func TestALaterAgreementTakesUpTheNotesBeforeIt(t *testing.T) {
	s := agreedStory(t, 2)
	s.Papers = s.Papers[:1]
	doing(t, s, budget(1, 1000))
	approved(t, s, 1, SurpriseOption{Do: "weld", Sum: dollars(60)})
	require.Equal(t, "1060.00", s.Authorised().Number())
	whole, left := s.Contingency()
	require.Equal(t, []string{"150.00", "90.00"}, []string{whole.Number(), left.Number()})
	require.NoError(t, s.Covered("change:C-001/1"))
	require.Equal(t, "1060.00", s.Left().Number())

	s.Papers = append(s.Papers, agreedStory(t, 2).Papers[1])
	doing(t, s, budget(2, 1100))
	require.Equal(t, "1100.00", s.Authorised().Number(), "the 60 are in it")
	_, left = s.Contingency()
	require.Equal(t, "150.00", left.Number(), "the new scope holds its own")
	require.NoError(t, s.Covered("change:C-001/1"), "what was approved stays approved")
	approved(t, s, 2, SurpriseOption{Do: "sleeve", Sum: dollars(200)})
	require.Equal(t, "1300.00", s.Authorised().Number())
	_, left = s.Contingency()
	require.Equal(t, "0.00", left.Number(), "it is not drawn below nothing")
}

func TestWhatIsRefusedIsNotOrdered(t *testing.T) {
	s := agreedStory(t, 1)
	doing(t, s, budget(1, 1000, "bottom-end@engine/crankpin/P4"))
	require.Equal(t, Conflict, ErrorCode(s.Covered("work:grind")))
	require.NoError(t, s.Covered("work:shells"))
	require.Equal(t, Conflict, ErrorCode(s.Covered("reserve:bore")))
	approved(t, s, 1, SurpriseOption{Do: "grind after all", Sum: dollars(400), Lines: []string{"work:grind"}})
	require.NoError(t, s.Covered("work:grind"))
}

// A safety matter refused on the scope or left by the owner's word keeps the vehicle on a trailer until a note takes it up or the word is taken back.
func TestASafetyMatterRefusedMeansATrailer(t *testing.T) {
	s := agreedStory(t, 1)
	s.Papers[0].Lines[0].Safety, s.Papers[0].Lines[2].Safety = true, true
	doing(t, s, budget(1, 1000, "bottom-end@engine/crankpin/P4", "work:shells", "reserve:bore"))
	require.Equal(t, []string{"work:grind, refused by O. Wner on J-001-S revision 1"}, s.Trailer(), "not what no life hangs on, nor what opens a step")
	require.Contains(t, s.ByTrailer()[0], "work:grind")
	approved(t, s, 1, SurpriseOption{Do: "grind after all", Sum: dollars(400), Lines: []string{"work:grind"}})
	require.Empty(t, s.Trailer())

	s.Job.Left = []Left{{Place: shells, Reason: "next winter", By: "O. Wner"}, {Place: pin, Reason: "it held so far", By: "O. Wner", Safety: true}}
	require.Equal(t, []string{"bottom end: crankpin P4, left by O. Wner: it held so far"}, s.Trailer())
}

// Money held back for a part that nobody has seen is refused: then nobody looks, and a blank is never a pass. What was found or fitted since, or
// a later word, settles it.
func TestARefusedReserveOfASafetyPartMeansATrailer(t *testing.T) {
	refused := func() *Story {
		s := agreedStory(t, 2)
		s.Papers = s.Papers[:1]
		s.Papers[0].Lines[2].Safety, s.Papers[0].Lines[2].Subsystem, s.Papers[0].Lines[2].Name = true, "bottom-end", "Reserve: bore"
		doing(t, s, budget(1, 1000, "reserve:bore"))
		require.Equal(t, []string{"bore, not seen and its reserve refused by O. Wner on J-001-S revision 1"}, s.Trailer())
		require.ErrorContains(t, (&RoadTest{What: "round the village", Distance: "5 miles"}).Check(s), "left undone: bore")
		return s
	}
	s := refused()
	approved(t, s, 1, SurpriseOption{Do: "bore", Sum: dollars(40), Lines: []string{"work:bore"}})
	require.Empty(t, s.Trailer(), "what it has come to is done")

	s = refused()
	doing(t, s, &Surprise{ID: "C-001", Subsystem: "bottom-end", Unit: "engine", Target: shells.Target, Found: "looked at: sound", Safety: true, Options: []SurpriseOption{{Do: "nothing to be done"}}})
	require.Len(t, s.Trailer(), 1, "a word that nobody has answered settles nothing")
	doing(t, s, &Note{ID: "N-001", Surprises: []string{"C-001"}}, &Answer{Note: "N-001", State: NoteApproved, Who: "O. Wner", How: "phone", Options: []NoteAnswer{{"C-001", 1}}})
	require.Empty(t, s.Trailer())

	s = refused()
	doing(t, s, &Fit{Subsystem: "bottom-end", Unit: "engine", Target: shells.Target})
	require.Empty(t, s.Trailer(), "it was in somebody's hands")

	s = refused()
	s.Papers = append(s.Papers, Issued{Kind: "scope", Number: "J-001-S", Revision: 2, At: agreedOn, Total: dollars(900)})
	doing(t, s, budget(2, 900))
	require.Empty(t, s.Trailer(), "the newer scope knows it")

	s = agreedStory(t, 1)
	s.Papers[0].Lines[2].Safety = true
	doing(t, s, budget(1, 1000, "reserve:bore"))
	require.Empty(t, s.Trailer(), "what only opens a step is not itself what lives hang on")
}

// What no sheet names is asked about again by its number, or in the same words; a yes to it then is a yes to the matter.
func TestAMatterInWordsIsAskedAboutAgain(t *testing.T) {
	s := agreedStory(t, 1)
	put := func(n int, again, found string, option int) {
		id, note := fmt.Sprintf("C-%03d", n), fmt.Sprintf("N-%03d", n)
		state := NoteDeclined
		if option > 0 {
			state = NoteApproved
		}
		doing(t, s, &Surprise{ID: id, Again: again, Found: found, Safety: true, Options: []SurpriseOption{{Do: "insert", Sum: dollars(60)}}}, &Note{ID: note, Surprises: []string{id}},
			&Answer{Note: note, State: state, Who: "O. Wner", How: "phone", Options: []NoteAnswer{{id, option}}})
	}
	doing(t, s, budget(1, 1000))
	put(1, "", "stud broken off at the caliper bracket", 0)
	put(2, "", "pipe chafed", 0)
	put(3, "C-001", "the stud, with a cheaper insert", 0)
	require.Equal(t, []string{"pipe chafed", "the stud, with a cheaper insert"}, s.Trailer(), "one matter, told once, in its latest words")
	put(4, "C-003", "the stud, third time", 1)
	require.Equal(t, []string{"pipe chafed"}, s.Trailer())
	put(5, "", "Pipe  chafed", 1)
	require.Empty(t, s.Trailer(), "the same words are the same matter")
	refusedAs(t, s, NotFound, &Surprise{ID: "C-006", Again: "C-099", Found: "x", Options: []SurpriseOption{{Do: "y"}}}, "no change C-099")
	doing(t, s, &Surprise{ID: "C-007", Found: "x", Options: []SurpriseOption{{Do: "y"}}})
	refusedAs(t, s, Conflict, &Surprise{ID: "C-008", Again: "C-007", Found: "x", Options: []SurpriseOption{{Do: "y"}}}, "C-007 is not answered yet")
}

// A note that is withdrawn lets go of its matters. Until a safety matter is settled nothing moves by road, and an owner may think better of a no.
func TestASafetyMatterIsSettledOrLeavesOnATrailer(t *testing.T) {
	s := agreedStory(t, 1)
	doing(t, s, budget(1, 1000), &Surprise{ID: "C-001", Subsystem: "bottom-end", Unit: "engine", Target: pin.Target, Found: "cracked", Safety: true, Options: []SurpriseOption{{Do: "grind", Sum: dollars(40)}, {Do: "leave it", Leaves: true}}})
	drive := &RoadTest{What: "round the village", Distance: "5 miles"}
	unsettled := func(waits string) {
		t.Helper()
		require.ErrorContains(t, drive.Check(s), "a safety matter is not settled, C-001")
		require.Equal(t, []string{"a safety matter is not settled, C-001: cracked"}, s.ByTrailer())
		require.Empty(t, s.Trailer(), "it is not left undone yet")
		require.Contains(t, s.OpenAtHandover(), waits)
	}
	unsettled("C-001 was never put to the owner")
	doing(t, s, &Note{ID: "N-001", Surprises: []string{"C-001"}})
	unsettled("N-001 is not answered")
	doing(t, s, &Answer{Note: "N-001", State: NoteWithdrawn, Why: "the price was wrong"})
	unsettled("C-001 was never put to the owner")
	doing(t, s, &Note{ID: "N-002", Surprises: []string{"C-001"}}, &Answer{Note: "N-002", State: NoteDeclined, Who: "O. Wner", How: "phone", Options: []NoteAnswer{{"C-001", 0}}})
	require.Equal(t, []string{"cracked"}, s.Trailer())
	require.ErrorContains(t, drive.Check(s), "left undone: cracked")

	s.Job.Left = []Left{{Place: pin, Reason: "N-002", By: "O. Wner", Safety: true}}
	require.Len(t, s.Trailer(), 1, "one matter, told once")
	s.Job.Left = nil
	doing(t, s, &Surprise{ID: "C-002", Subsystem: "bottom-end", Unit: "engine", Target: pin.Target, Found: "cracked, asked again", Safety: true, Options: []SurpriseOption{{Do: "grind", Sum: dollars(40)}}},
		&Note{ID: "N-003", Surprises: []string{"C-002"}}, &Answer{Note: "N-003", State: NoteApproved, Who: "O. Wner", How: "phone", Options: []NoteAnswer{{"C-002", 1}}})
	require.Empty(t, s.ByTrailer())
	require.NoError(t, drive.Check(s))
}

// A mark that looks altered stops the work until the owner is told in writing: nothing more is agreed or taken apart. What is looked at may be.
func TestAnAlteredMarkStopsTheStripDown(t *testing.T) {
	s := &Story{Job: Job{Number: "J-001", State: StateArrived, Owner: Party{Name: "O. Wner"}, Vehicle: &Vehicle{Title: "A truck", Marks: []Mark{{Where: "frame stamp", Says: MarkAltered}}}}}
	yes, off := &Agreement{Gate: GateStrip, Who: "O. Wner", How: "signed", Sum: dollars(500)}, &StepDone{Step: "engine-out", Is: StepIsDone}
	require.ErrorContains(t, yes.Check(s), "a mark looks altered (frame stamp)")
	s.Job.Vehicle.Marks[0].Told = "letter of 3 May"
	doing(t, s, yes)
	s.Job.Vehicle.Marks[0].Told = ""
	require.ErrorContains(t, off.Check(s), "a mark looks altered (frame stamp)")
	require.Contains(t, ErrorNext(off.Check(s)), "--told")
	require.NoError(t, (&StepDone{Step: "arrival", Is: StepIsDone, Free: true}).Check(s))
	require.NoError(t, (&StepDone{Step: "engine-out", Is: StepIsSkipped, Why: "it came without"}).Check(s))
	s.Job.Vehicle.Marks[0].Told = "letter of 3 May"
	require.NoError(t, off.Check(s))
}

func TestNamesOnAScope(t *testing.T) {
	p := agreedStory(t, 1).Papers[0]
	for name, want := range map[string][]string{"work:grind": {"work:grind"}, "crankpin/P4": {"bottom-end@engine/crankpin/P4"}, "bottom-end/shell": {"bottom-end@engine/shell"},
		"Crankpin": {"bottom-end@engine/crankpin/P4", "bottom-end@engine/crankpin/P1"}} {
		got, err := p.Places(name)
		require.NoError(t, err, name)
		require.Equal(t, want, got)
	}
	_, err := p.Places("crankpn/P4")
	require.ErrorContains(t, err, "nothing on J-001-S revision 1")
	require.Contains(t, ErrorNext(err), "crankpin/P4")
	p.Lines = append(p.Lines, scopeLine("work:other", LineWork, 1, Place{"cylinders", "engine", Target{"shell", ""}}))
	_, err = p.Places("shell")
	require.ErrorContains(t, err, "more than once")
	require.False(t, p.Expired(agreedOn.AddDate(0, 0, 30)))
	require.True(t, p.Expired(agreedOn.AddDate(0, 0, 31)))
}

func TestWhatAGateStillNeeds(t *testing.T) {
	s := agreedStory(t, 1)
	require.Contains(t, s.Needs(GateStrip, agreedOn), "fettle agree J-001 strip")
	require.Contains(t, s.Needs(GateBudget, agreedOn), "an answer to J-001-S revision 1")
	require.Contains(t, s.Needs(GateBudget, agreedOn.AddDate(0, 2, 0)), "issue it again")
	s.Job.Vehicle.Marks = []Mark{{Where: "frame", Says: MarkAltered}}
	require.Contains(t, s.Needs(GateBudget, agreedOn), "looks altered")
	s.Job.Vehicle.Marks[0].Told = "letter of 3 May"
	doing(t, s, budget(1, 1000))
	require.Empty(t, s.Needs(GateBudget, agreedOn))
	require.Empty(t, s.Needs(GateStrip, agreedOn))
	require.Empty(t, s.Needs(GateChange, agreedOn))
	doing(t, s, &Surprise{ID: "C-001", Found: "a crack", Options: []SurpriseOption{{Do: "weld"}}})
	require.Contains(t, s.Needs(GateChange, agreedOn), "--note")
	doing(t, s, &Note{ID: "N-001", Surprises: []string{"C-001"}})
	require.Contains(t, s.Needs(GateChange, agreedOn), "an answer to N-001")
	require.Contains(t, s.Needs(GateFinish, agreedOn), "finish")
}

// What comes back is held to what was asked by its reading, whatever is said of it.
func TestAReadingSpeaksForItself(t *testing.T) {
	s := agreedStory(t, 1)
	low, high := 2.479, 2.4795
	doing(t, s, budget(1, 1000), &Tag{ID: "T-001", What: "Crankshaft", State: TagOff, Lies: "rack"},
		&Outwork{ID: "O-001", To: "Grinders", Lines: []string{"work:grind"}, Tags: []string{"T-001"}, Price: dollars(400), Type: "fixed", Due: agreedOn,
			Asked: []Asked{{What: "M1", Low: &low, High: &high, Unit: "in"}}})
	back := func(mm float64) error {
		return (&Received{Outwork: "O-001", Accepted: true, Lies: "rack", Results: []Result{{What: "M1", Got: Quantity{Value: mm, Unit: "mm"}, OK: true}}}).Check(s)
	}
	require.Equal(t, Conflict, ErrorCode(back(62.9)))
	require.NoError(t, back(62.975))
	more := dollars(401)
	dear := &Received{Outwork: "O-001", Accepted: true, Lies: "rack", Charged: &more, Results: []Result{{What: "M1", As: "2.4792", OK: true}}}
	require.ErrorContains(t, dear.Check(s), "the price was fixed at 400.00 USD, and 401.00 USD is charged")
	dear.Why = "carriage"
	require.NoError(t, dear.Check(s))
	o := s.Sent("O-001")
	require.False(t, o.Late(agreedOn.Add(23*time.Hour)), "the day itself is not over")
	require.True(t, o.Late(agreedOn.Add(24*time.Hour)))
	require.Equal(t, Invalid, ErrorCode((&Outwork{To: "Grinders", Lines: []string{"work:grind"}, Tags: []string{"T-001"}, Type: "fixed", Asked: []Asked{{What: "M1"}, {What: "m1"}}}).Check(s)))
	var faults []string
	for _, err := range (&Outwork{Lines: []string{"work:grind", "work:nothing"}, Tags: []string{"T-001", "T-009"}, Type: "fixed"}).Faults(s) {
		faults = append(faults, err.Error())
	}
	require.Len(t, faults, 4, "all at once: %q", faults)
	require.Equal(t, "nobody is named to send it to", faults[0])
	require.Contains(t, faults[1], "work:nothing")
	require.Contains(t, faults[2], "T-001 Crankshaft is out already")
	require.Contains(t, faults[3], "has no tag T-009")
}

func TestWhatBecomesOfAPurchase(t *testing.T) {
	s := agreedStory(t, 1)
	charge := dollars(40)
	doing(t, s, budget(1, 1000), &Purchase{ID: "B-001", From: "Spares", What: "Shells", Count: 1, Lines: []string{"work:shells"}, Price: dollars(120), Exchange: &charge})
	two := Story{Purchases: []Purchase{s.Purchases[0], s.Purchases[0]}}
	require.Equal(t, "80.00", two.ExchangeOutstanding().Number())
	is := func(state, why string) *Delivery { return &Delivery{Purchase: "B-001", State: state, Why: why} }
	require.Equal(t, Conflict, ErrorCode(is(PurchaseOrdered, "").Check(s)))
	require.Equal(t, Invalid, ErrorCode(is(PurchaseWrong, "").Check(s)))
	doing(t, s, is(PurchaseWrong, "standard size"), &Delivery{Purchase: "B-001", State: PurchaseWrong, ExchangeBack: true})
	require.Equal(t, "standard size", s.Bought("B-001").Why)
	require.Nil(t, s.Bought("B-001").Outstanding())
	require.Nil(t, s.ExchangeOutstanding())
	require.Equal(t, Conflict, ErrorCode((&Delivery{Purchase: "B-001", State: PurchaseWrong, ExchangeBack: true}).Check(s)))
	require.Equal(t, "120.00", s.Committed().Number())
	doing(t, s, is(PurchaseReturned, "went back"))
	require.Equal(t, "0.00", s.Committed().Number())
	for _, state := range PurchaseStates {
		require.Equal(t, Conflict, ErrorCode(is(state, "so").Check(s)), state)
	}
}

// Whatever is agreed, changed, sent and bought in whatever order: nothing is out or ordered that was not covered when it was ordered, and never
// more is promised than was authorised then.
func TestNothingIsOrderedBeyondWhatIsAgreed(t *testing.T) {
	lines := []string{"work:grind", "work:shells", "reserve:bore", "work:extra", "change:C-001/1"}
	rapid.Check(t, func(t *rapid.T) {
		s := agreedStory(t, 3)
		s.Papers = s.Papers[:1]
		doing(t, s, &Tag{ID: "T-001", What: "Crank", State: TagOff, Lies: "rack"})
		for n := range rapid.IntRange(5, 40).Draw(t, "steps") {
			line := rapid.SampledFrom(lines).Draw(t, "line")
			sum := dollars(rapid.Int64Range(0, 500).Draw(t, "sum"))
			revision := len(s.Papers)
			acts := []Act{budget(revision, rapid.Int64Range(0, 1200).Draw(t, "agreed"), rapid.SliceOfN(rapid.SampledFrom(lines[:3]), 0, 1).Draw(t, "refused")...),
				&Surprise{ID: fmt.Sprintf("C-%03d", n+1), Found: "a crack", Options: []SurpriseOption{{Do: "weld", Sum: sum}, {Do: "replace", Sum: sum, Lines: []string{line}}}},
				&Note{ID: fmt.Sprintf("N-%03d", n+1), Surprises: idsOf(s.Gathering())},
				drawAnswer(t, s),
				&Outwork{ID: fmt.Sprintf("O-%03d", n+1), To: "Grinders", Lines: []string{line}, Tags: []string{"T-001"}, Price: sum, Type: "fixed"},
				&Received{Outwork: fmt.Sprintf("O-%03d", n), Accepted: true, Lies: "rack"},
				&Purchase{ID: fmt.Sprintf("B-%03d", n+1), From: "Spares", What: "Shells", Count: 1, Lines: []string{line}, Price: sum},
				&Delivery{Purchase: fmt.Sprintf("B-%03d", n), State: rapid.SampledFrom(PurchaseStates).Draw(t, "state"), Why: "so"}}
			if len(s.Papers) < 3 && rapid.IntRange(0, 9).Draw(t, "issue") == 0 {
				s.Papers = append(s.Papers, agreedStory(t, 3).Papers[len(s.Papers)])
			}
			a := rapid.SampledFrom(acts).Draw(t, "act")
			covered, before := s.Covered(line), Minor(s.Committed())
			if _, err := s.Do(a, Stamp{"Wren", agreedOn}); err != nil {
				if ErrorNext(err) == "" {
					t.Fatalf("no way on from: %v", err)
				}
				continue
			}
			switch a.(type) {
			case *Outwork, *Purchase:
				if covered != nil || strings.HasPrefix(line, "reserve:") {
					t.Fatalf("%s was ordered: %v", line, covered)
				}
				if now := Minor(s.Committed()); now > before && now > Minor(s.Authorised()) {
					t.Fatalf("%d is promised, %s authorised", now, s.Authorised())
				}
			}
			if whole, left := s.Contingency(); Minor(left) < 0 || Minor(left) > Minor(whole) {
				t.Fatalf("of %s there are %s left", whole, left)
			}
		}
	})
}

func idsOf(surprises []Surprise) (ids []string) {
	for _, p := range surprises {
		ids = append(ids, p.ID)
	}
	return ids
}

// drawAnswer answers the note that waits, if one does.
func drawAnswer(t *rapid.T, s *Story) *Answer {
	i := slices.IndexFunc(s.Notes, func(n Note) bool { return n.State == NoteSent })
	if i < 0 {
		return &Answer{Note: "N-000"}
	}
	a := &Answer{Note: s.Notes[i].ID, Who: "O. Wner", How: "phone", Why: "so", State: rapid.SampledFrom(NoteStates).Draw(t, "answer")}
	for _, id := range s.Notes[i].Surprises {
		a.Options = append(a.Options, NoteAnswer{id, rapid.IntRange(0, 2).Draw(t, "option")})
	}
	return a
}

// The sum authorised has the tax in it, so what is promised counts with its tax: that of its lines, or the scope's where it is for none of them.
func TestWhatIsPromisedCountsWithItsTax(t *testing.T) {
	line := func(id string, amount, tax int64) Line {
		return Line{ID: id, Kind: LineWork, Name: id, Amount: dollars(amount), Tax: dollars(tax)}
	}
	s := &Story{Job: Job{Number: "J-001", State: StateScopeOut, Owner: Party{Name: "O. Wner"}}, Papers: []Issued{{Kind: "scope", Number: "J-001-S", Revision: 1,
		Lines: []Line{line("work:shells", 100, 25), line("work:gaskets", 100, 0)}, Expected: dollars(200), Total: dollars(225)}}}
	doing(t, s, budget(1, 225))
	buy := func(id string, price int64, lines ...string) error {
		_, err := s.Do(&Purchase{ID: id, From: "Spares", What: "Goods", Count: 1, Lines: lines, Price: dollars(price)}, Stamp{"Wren", agreedOn})
		return err
	}
	require.NoError(t, buy("B-001", 100, "work:gaskets"))
	require.ErrorContains(t, buy("B-002", 101, "work:shells"), "with tax")
	require.NoError(t, buy("B-002", 100, "work:shells"))
	require.Equal(t, "225.00", s.Committed().Number())
	require.Equal(t, "0.00", s.Left().Number())
	doing(t, s, &Worked{Who: "Jory", Task: "sorting", Hours: 1, Rate: dollars(80)})
	require.Equal(t, "315.00", s.Committed().Number(), "at the scope's own share, 25 of 200")
}

// A change is asked about with its tax, and everything else reckons it as it reckons the scope: net beside tax, nobody's tax where none is due, the
// contingency drawn before tax as it was held.
func TestAChangePartsItsTax(t *testing.T) {
	line := func(id string, amount, tax int64, places ...Place) Line {
		return Line{ID: id, Kind: LineWork, Subsystem: "bottom-end", Name: id, Amount: dollars(amount), Tax: dollars(tax), Places: places}
	}
	s := &Story{Job: Job{Number: "J-001", State: StateScopeOut, Owner: Party{Name: "O. Wner"}}, Papers: []Issued{{Kind: "scope", Number: "J-001-S", Revision: 1,
		Lines: []Line{line("work:shells", 100, 25, shells), line("work:gaskets", 100, 0)}, Expected: dollars(200), Total: dollars(225), Contingency: dollars(90)}}}
	doing(t, s, budget(1, 225))
	require.Equal(t, "50.00", s.TaxIn(dollars(450), nil).Number(), "at the scope's own share, 25 of 225")
	require.Equal(t, "90.00", s.TaxIn(dollars(450), []Place{shells}).Number(), "at that of the part's own lines, 25 of 125")
	approved(t, s, 1, SurpriseOption{Do: "better shells", Sum: dollars(50), Tax: dollars(10)})
	require.Equal(t, "275.00", s.Authorised().Number())
	whole, left := s.Contingency()
	require.Equal(t, []string{"90.00", "50.00"}, []string{whole.Number(), left.Number()})
	o := s.AgreedOrder()
	require.Equal(t, []string{"240.00", "35.00", "275.00"}, []string{o.TotalBeforeTax.Number(), o.Tax.Number(), o.Total.Number()})
	require.Equal(t, []string{"200.00", "40.00"}, []string{s.Outcomes()[0].Agreed.Number(), s.Outcomes()[1].Agreed.Number()}, "before tax, as what is spent")
	doing(t, s, &Surprise{ID: "C-002", Found: "x", Options: []SurpriseOption{{Do: "y", Sum: dollars(25), Tax: dollars(5)}}})
	e := s.Would([]NoteAnswer{{"C-002", 1}})
	require.Equal(t, []string{"25.00", "300.00", "30.00"}, []string{e.Sum.Number(), e.Authorised.Number(), e.Contingency.Number()})

	doing(t, s, &Purchase{ID: "B-001", From: "Spares", What: "Shells", Count: 1, Lines: []string{"change:C-001/1"}, Price: dollars(40)})
	require.Equal(t, "50.00", s.Committed().Number(), "at the tax of the change that it is for")

	s.Parties = []Party{{Name: "O. Wner", TaxExempt: true, TaxWhy: "charity 1234"}}
	require.Equal(t, "240.00", s.Job.Bills(s.AgreedOrder(), s.Parties)[0].Total.Number())
	require.Equal(t, "72.00", s.Stages(agreedOn)[0].Sum.Number(), "30 % of what is to be paid: no tax is")
}
