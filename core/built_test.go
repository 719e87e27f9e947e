package core

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// building is a job whose scope was agreed, with one line of outwork on the crankshaft.
func building(t *testing.T) *Story {
	s := engineAgreed(t)
	s.Job.State = StateBuilding
	return s
}

// engineAgreed is a job of one engine: 1000 agreed, 80 of it in reserve, shells for the crankshaft one-use.
func engineAgreed(t *testing.T) *Story {
	t.Helper()
	grind := scopeLine("work:bottom-end@engine:grind", LineWork, 400, pin1)
	grind.Subsystem, grind.Hours = "bottom-end", Range3{1, 2, 3}
	shell := scopeLine("work:bottom-end@engine:shells", LineWork, 520, pin1)
	shell.Subsystem, shell.Items = "bottom-end", []OrderItem{{Key: "bearing-shells", Name: "Main and big-end shells", OneUse: true}, {Key: "oil", Name: "Oil"}}
	reserve := scopeLine("reserve:bottom-end@engine:bore", LineReserve, 80, pin)
	reserve.Subsystem, reserve.Hours = "bottom-end", Range3{4, 5, 6}
	s := &Story{Job: Job{Number: "J-001", State: StateScopeOut, Owner: Party{Name: "M. Wellbeck"}, Vehicle: &Vehicle{Title: "Packhorse"}},
		Papers: []Issued{{Kind: "scope", Number: "J-001-S", Revision: 1, At: agreedOn, Lines: []Line{grind, shell, reserve}, Total: dollars(1000), Expected: dollars(1000), Contingency: dollars(100)}}}
	done(t, s, "M. Wellbeck", &Agreement{Gate: GateBudget, Paper: "J-001-S", Revision: 1, Who: "M. Wellbeck", How: "signed", Sum: dollars(2000)})
	return s
}

func done(t *testing.T, s *Story, by string, acts ...Act) {
	t.Helper()
	for _, a := range acts {
		_, err := s.Do(a, Stamp{By: by, At: agreedOn})
		require.NoError(t, err)
	}
}

func refusedAs(t *testing.T, s *Story, code Code, a Act, says ...string) {
	t.Helper()
	err := a.Check(s)
	require.Equal(t, code, ErrorCode(err), "%v", err)
	require.NotEmpty(t, ErrorNext(err))
	for _, w := range says {
		require.ErrorContains(t, err, w)
	}
}

func engineSheet() UnitSheet {
	f := func(x float64) *float64 { return &x }
	return UnitSheet{Subsystem: "bottom-end", Unit: "engine", Sheet: Sheet{Subsystem: "bottom-end", Parts: []Part{
		{ID: "crankpin", Name: "Crankpin", Positions: []string{"P1", "P4"}, Reach: []string{"bottom-end:caps-off"}, Checks: []Check{
			{ID: "diameter", Name: "diameter", Kind: Measured, Unit: "in", Limit: Limit{NewLow: f(1.9985), NewHigh: f(1.999), WearLow: f(1.995), Unit: "in", Source: "manual"}},
			{ID: "score-depth", Name: "depth of scores", Kind: Measured, Unit: "in", Limit: Limit{WearHigh: f(.002), Unit: "in", Source: "manual"}},
			{ID: "teeth", Name: "teeth", Kind: Judged, Limit: Limit{NewHigh: f(1), Source: "manual"}},
			{ID: "crack", Name: "cracks", Kind: GoNoGo, Limit: Limit{Source: "manual"}}}}},
		Steps: []Step{{ID: "bottom-end:caps-off", OneUse: []Item{{Key: "tab-washers", Name: "Tab washers"}}}}}}
}

func read(check, station string, v Value) Finding {
	return Finding{Subsystem: "bottom-end", Unit: "engine", Target: Target{"crankpin", "P1"}, Check: check, Station: station, Value: v, AsTyped: v.String()}
}

func inches(x float64) Value {
	return Value{Kind: ValueQuantity, Quantity: Quantity{Value: x, Unit: "in"}}
}

func TestASizeIsJudgedAgainstNewNotAgainstWear(t *testing.T) {
	s, u := building(t), engineSheet()
	judge := func(f Finding) Fitted {
		t.Helper()
		r, err := s.FitReading(u, f)
		require.NoError(t, err)
		return r
	}
	require.True(t, judge(read("diameter", "", inches(1.9985))).New)
	worn := judge(read("diameter", "", inches(1.9965)))
	require.False(t, worn.New, "inside the wear limit is not new")
	require.Equal(t, "1.9985 to 1.999 in", worn.Range())
	require.True(t, judge(read("diameter", "", Value{Kind: ValueQuantity, Quantity: Quantity{Value: 1.9985 * 25.4, Unit: "mm"}})).New, "in another unit")
	unknown := judge(read("score-depth", "", inches(.5)))
	require.True(t, unknown.New)
	require.Empty(t, unknown.Source, "no limit of new is known, and that is said")
	require.True(t, judge(read("teeth", "", Value{Kind: ValueClass, Class: 1})).New)
	require.False(t, judge(read("teeth", "", Value{Kind: ValueClass, Class: 2})).New)
	require.True(t, judge(read("crack", "", Value{Kind: ValuePass, Pass: true})).New)
	require.False(t, judge(read("crack", "", Value{Kind: ValuePass})).New)
	_, err := s.FitReading(u, read("diameter", "", Value{Kind: ValueNotRead, NotRead: NotMeasured}))
	require.Equal(t, Invalid, ErrorCode(err))

	low, high := 1.9785, 1.979
	s.Outwork = []Outwork{{ID: "O-001", To: "Tern Lane Grinding", Lines: []string{"work:bottom-end@engine:grind"}, State: OutworkOut, Asked: []Asked{{What: "p1 Diameter", Low: &low, High: &high, Unit: "in"}}}}
	require.False(t, judge(read("diameter", "", inches(1.9787))).New, "what is still out answers nothing")
	s.Outwork[0].State = OutworkAccepted
	ground := judge(read("diameter", "", inches(1.9787)))
	require.True(t, ground.New, "the size that was asked is the size that is new")
	require.Equal(t, "O-001, as asked of Tern Lane Grinding", ground.Source)
	target := read("diameter", "", Value{}).Target
	held := s.HeldTo(u, *u.Sheet.Part(target.Part), *u.Sheet.Check(target.Part, "diameter"), target)
	require.Equal(t, ground.Range()+ground.Source, held.Range()+held.Source, "what it is held to is known before it is read")
	require.False(t, judge(read("diameter", "", inches(1.9988))).New, "standard size is not what was asked")

	s.Outwork[0].Asked[0].What = "crankpin diameter"
	require.True(t, judge(read("diameter", "", inches(1.9787))).New, "asked of all of them at once")
	s.Outwork[0].Asked[0].What = "diameter"
	require.False(t, judge(read("diameter", "", inches(1.9787))).New, "of which part?")

	off := &Fit{Subsystem: "bottom-end", Unit: "engine", Target: Target{"crankpin", "P1"}, Readings: []Fitted{worn}}
	refusedAs(t, s, Conflict, off, "not within the limits of new", "1.9965 in, new is 1.9985 to 1.999 in")
	off.Why = "the owner will have it so"
	require.NoError(t, off.Check(s))

	// Where lives hang on it no word makes a worn-out part do; one that came back to the undersize that was asked is not worn.
	off.Safety = true
	off.Readings = []Fitted{judge(read("diameter", "", inches(1.9)))}
	require.NotEmpty(t, off.Readings[0].Past)
	refusedAs(t, s, Conflict, off, "lives hang on", "past its limit")
	s.Outwork[0].Asked[0].What = "crankpin diameter"
	off.Readings = []Fitted{judge(read("diameter", "", inches(1.9787)))}
	require.Empty(t, off.Readings[0].Past)
	require.NoError(t, off.Check(s))
	require.NotEmpty(t, judge(read("crack", "", Value{Kind: ValuePass})).Past)
}

func TestSafetyWorkIsLookedOverByASecondPerson(t *testing.T) {
	s := building(t)
	shoe := func(second string, more ...Torque) *Fit {
		return &Fit{Subsystem: "brakes", Unit: "vehicle", Target: Target{"shoe", "LF"}, Safety: true, Second: second, Torques: more}
	}
	bolt := Torque{Fastener: "backplate", Value: Quantity{Value: 20, Unit: "lbf-ft"}}
	own := shoe("jory", bolt)
	own.Stamp.By = "Jory"
	refusedAs(t, s, Conflict, own, "cannot be the second person too")
	done(t, s, "Jory", shoe("", bolt))
	require.Len(t, s.Unchecked(), 1)
	refusedAs(t, s, Conflict, shoe("Jory"), "Jory fitted")
	refusedAs(t, s, Conflict, &RoadTest{What: "run", Distance: "5 miles"}, "not checked by a second person")
	require.NoError(t, (&RoadTest{What: "first start"}).Check(s))
	done(t, s, "Wren", shoe("Wren"))
	require.Empty(t, s.Unchecked(), "whoever writes it down is not whoever fitted it")
	require.Equal(t, "Wren", s.BuildSheet()[0].Second)
	require.Equal(t, "Jory", s.BuildSheet()[0].Fitted.By)
	done(t, s, "Jory", shoe("", bolt))
	require.Len(t, s.Unchecked(), 1, "fitted again, it is looked over again")
	require.Empty(t, s.BuildSheet()[0].Second)
	require.True(t, SafetyWork("brakes", nil))
	require.False(t, SafetyWork("gearbox", nil))
	require.False(t, SafetyWork("brakes", &Part{ID: "splash-plate"}))
	require.True(t, SafetyWork("gearbox", &Part{SafetyCritical: true}))
}

func TestOneUseItemsThatNobodyNamedAreRecalled(t *testing.T) {
	s, u := building(t), engineSheet()
	at := Target{"crankpin", "P1"}
	require.Equal(t, []string{"Main and big-end shells", "Tab washers"}, s.OneUseLeft(u, at, nil))
	require.Equal(t, []string{"Tab washers"}, s.OneUseLeft(u, at, []string{"big-end shells"}))
	done(t, s, "Jory", &Fit{Subsystem: "bottom-end", Unit: "engine", Target: at, OneUse: []string{"bearing-shells"}})
	require.Empty(t, s.OneUseLeft(u, at, []string{"tab washers"}))
	require.Equal(t, []string{"Tab washers"}, s.OneUseLeft(u, Target{"crankpin", "P4"}, nil), "the reserve was not carried out")
}

func TestRunsAndTorquesAsTyped(t *testing.T) {
	r, err := ReadRun("oil pressure hot 45 psi")
	require.NoError(t, err)
	require.Equal(t, RunReading{What: "oil pressure hot", Value: Quantity{Value: 45, Unit: "psi"}, As: "oil pressure hot 45 psi"}, r)
	r, err = ReadRun("cylinder 1 120 psi")
	require.NoError(t, err)
	require.Equal(t, "cylinder 1", r.What)
	r, err = ReadRun("no leaks")
	require.NoError(t, err)
	require.Equal(t, "no leaks", r.What)
	for _, bad := range []string{"", "45 psi", "oil pressure 45"} {
		_, err := ReadRun(bad)
		require.Equal(t, Invalid, ErrorCode(err), bad)
	}
	q, err := ReadTorque("main cap 60 lbf ft")
	require.NoError(t, err)
	require.Equal(t, Torque{Fastener: "main cap", Value: Quantity{Value: 60, Unit: "lbf-ft"}}, q)
	for _, bad := range []string{"main cap", "main cap 60", "main cap 60 psi", "60 lbf ft", "main cap 0 lbf ft"} {
		_, err := ReadTorque(bad)
		require.Equal(t, Invalid, ErrorCode(err), bad)
	}
}

func TestASnagIsPutRightOrLeftOnAWordThatCounts(t *testing.T) {
	s := building(t)
	done(t, s, "Jory", &RoadTest{What: "first start"}, &Snag{ID: "G-001", What: "weeps"}, &Snag{ID: "G-002", What: "pulls left"})
	require.Equal(t, StateRoadTest, s.Job.State)
	refusedAs(t, s, Conflict, &Snag{ID: "G-001", What: "weeps", Owner: "A. Passer"}, "may not speak")
	refusedAs(t, s, NotFound, &Snag{ID: "G-009", What: "rattles", Cleared: "tightened"})
	done(t, s, "Jory", &Snag{ID: "G-001", What: "weeps", Owner: "M. Wellbeck"}, &Snag{ID: "G-002", What: "pulls left", Cleared: "cylinder freed"})
	require.Empty(t, s.OpenSnags())
	refusedAs(t, s, Conflict, &Snag{ID: "G-002", What: "pulls left", Cleared: "again"}, "put right already")
	require.Equal(t, []string{"G-001 weeps: left on the word of M. Wellbeck"}, s.NotDone())
}

func TestASnagOfSafetyKeepsItOffTheRoad(t *testing.T) {
	s := building(t)
	run, over := &RoadTest{What: "again", Distance: "20 miles"}, &Handover{Signed: "M. Wellbeck", OldParts: "returned", Told: "all of it"}
	done(t, s, "Jory", &RoadTest{What: "round the village", Distance: "5 miles"}, &Snag{ID: "G-001", What: "pulls left under braking", Safety: true}, &Snag{ID: "G-002", What: "rattles"})
	refusedAs(t, s, Conflict, run, "unsafe as it stands, G-001: pulls left under braking")
	refusedAs(t, s, Conflict, over, "on a trailer", "G-001: pulls left under braking")
	refusedAs(t, s, Conflict, &Snag{ID: "G-001", What: "pulls left under braking"}, "lives hang on")

	left := *s
	left.Snags = slices.Clone(s.Snags)
	done(t, &left, "Jory", &Snag{ID: "G-001", What: "pulls left under braking", Safety: true, Owner: "M. Wellbeck"})
	require.Equal(t, []string{"G-001 pulls left under braking, left on the word of M. Wellbeck"}, left.Trailer(), "the owner's word does not make it fit for the road")
	refusedAs(t, &left, Conflict, run, "left undone")
	refusedAs(t, &left, Conflict, over, "on a trailer")

	done(t, s, "Jory", &Snag{ID: "G-001", What: "pulls left under braking", Safety: true, Cleared: "cylinder freed"})
	require.Empty(t, s.ByTrailer())
	done(t, s, "Jory", run, &Snag{ID: "G-002", What: "rattles", Safety: true}) // seen to be worse than it was taken for
	refusedAs(t, s, Conflict, over, "on a trailer", "G-002: rattles")
}

// Nobody walks round the handover by saying that the job is handed over, nor round the scope.
func TestAStateIsNoWayRoundItsAct(t *testing.T) {
	s := building(t)
	done(t, s, "Jory", &RoadTest{What: "first start"})
	refusedAs(t, s, Conflict, &Move{To: StateHandedOver}, "handed over by closing it")
	done(t, s, "Jory", &Move{To: StateStopped, Why: "no money"})
	refusedAs(t, s, Conflict, &Move{To: StateHandedOver}, "handed over by closing it")
	refusedAs(t, &Story{Job: Job{Number: "J-002", State: StateEnquiry}}, Conflict, &Move{To: StateScopeOut}, "no scope of J-002 is issued")
}

func TestAHandoverTellsAllThatIsOpenAtOnce(t *testing.T) {
	s := building(t)
	done(t, s, "Jory", &Fit{Subsystem: "brakes", Unit: "vehicle", Target: Target{"shoe", "LF"}, Safety: true}, &RoadTest{What: "first start"}, &Snag{ID: "G-001", What: "weeps"},
		&Tag{ID: "T-001", What: "Crankshaft", State: TagOff, Lies: "rack 1"})
	refusedAs(t, s, Invalid, &Handover{}, "nobody has signed", "old parts")
	refusedAs(t, s, Invalid, &Handover{Signed: "M. Wellbeck", OldParts: "lost"}, "old parts")
	refusedAs(t, s, Conflict, &Handover{Signed: "M. Wellbeck", OldParts: "returned"}, "on a trailer", "T-001 Crankshaft: off, rack 1", "G-001 weeps", "no second torque")
	refusedAs(t, s, Conflict, &Handover{Signed: "M. Wellbeck", OldParts: "returned", Told: "all of it"}, "on a trailer")
	require.NoError(t, (&Handover{Signed: "M. Wellbeck", OldParts: "returned", Told: "all of it", Trailer: true}).Check(s))
	done(t, s, "Jory", &Fit{What: "head", Torques: []Torque{{Fastener: "head nuts", Value: Quantity{Value: 60, Unit: "lbf-ft"}, Again: true}}})
	require.NotContains(t, s.OpenAtHandover(), "no second torque after running is recorded")
	done(t, s, "Jory", &Move{To: StateStopped, Why: "the owner takes it home"}, &Handover{Signed: "M. Wellbeck", OldParts: "returned", Told: "all of it", Trailer: true})
	require.True(t, s.Handover.Stopped)
	require.Equal(t, StateHandedOver, s.Job.State)
}

// Shares of 1000: 300, 250, 250, 150, 50 (common practice, no source).
func TestStagesOfTheAgreedSum(t *testing.T) {
	s := engineAgreed(t)
	sums := func() (sums []string) {
		for _, st := range s.Stages(agreedOn) {
			sums = append(sums, st.Sum.Round().Number())
		}
		return sums
	}
	require.Equal(t, []string{"300.00", "250.00", "250.00", "150.00", "50.00"}, sums())
	done(t, s, "Jory", &Payment{Is: PayAsked, Sum: dollars(300), Party: "M. Wellbeck", Stage: "deposit"}, &Payment{Is: PayReceived, Sum: dollars(100), Party: "M. Wellbeck"})
	deposit := s.Stages(agreedOn.Add(StageGrace - time.Second))[0]
	require.Equal(t, "100.00", deposit.Received.Round().Number(), "what is for no stage goes to the oldest that is open")
	require.False(t, deposit.Overdue)
	require.True(t, s.Stages(agreedOn.Add(StageGrace))[0].Overdue)
	done(t, s, "Jory", &Payment{Is: PayReceived, Sum: dollars(200), Party: "M. Wellbeck", Stage: "Deposit"})
	require.False(t, s.Stages(agreedOn.Add(10 * StageGrace))[0].Overdue)
	require.Equal(t, int64(0), Minor(s.Account().Owing))

	refusedAs(t, s, Conflict, &Payment{Is: PayRefunded, Sum: dollars(301), Party: "M. Wellbeck"}, "cannot be refunded")
	refusedAs(t, s, Conflict, &Payment{Is: PayBack, Sum: dollars(1), Party: "Tern Lane Grinding"}, "cannot be back")
	refusedAs(t, s, Invalid, &Payment{Is: PayReceived, Sum: MinorMoney(100, "EUR"), Party: "M. Wellbeck"}, "in USD")
	done(t, s, "Jory", &Payment{Is: PayRefunded, Sum: dollars(300), Party: "M. Wellbeck"})
	require.Equal(t, "300.00", s.Account().Owing.Round().Number(), "what went back is owed again until it is asked for no more")
	done(t, s, "Jory", &Payment{Is: PayAsked, Sum: dollars(40), Party: "M. Wellbeck", Stage: "storage"})
	require.Equal(t, "storage", s.Stages(agreedOn)[5].Name)
}

// A job may be paid in stages of its own.
func TestAJobNamesItsOwnStages(t *testing.T) {
	for text, says := range map[string]string{"": "no stage", "deposit": `"deposit" is no stage`, "deposit 0, rest 100": `"deposit 0" is no stage`, "deposit 60, rest 50": "come to 110", "a 50, A 50": "twice", "deposit 40.5, rest 59.5": "is no stage", "40, 60": `"40" is no stage`} {
		_, err := ReadStages(text)
		require.ErrorContains(t, err, says, text)
		require.Equal(t, Invalid, ErrorCode(err))
		require.NotEmpty(t, ErrorNext(err))
	}
	own, err := ReadStages("deposit 40 %, engine in 35,  on handover 25")
	require.NoError(t, err)
	require.Equal(t, []StageShare{{"deposit", 40}, {"engine in", 35}, {"on handover", 25}}, own)
	s := engineAgreed(t)
	s.Job.Stages = own
	stages := s.Stages(agreedOn)
	require.Len(t, stages, 3)
	require.Equal(t, []string{"400.00", "350.00", "250.00"}, []string{stages[0].Sum.Round().Number(), stages[1].Sum.Round().Number(), stages[2].Sum.Round().Number()})
	require.Equal(t, []string{"deposit", "engine in", "on handover"}, s.Job.StageNames())
	done(t, s, "Jory", &Payment{Is: PayAsked, Sum: dollars(250), Party: "M. Wellbeck", Stage: "Rolling chassis"})
	require.Equal(t, "Rolling chassis", s.Stages(agreedOn)[3].Name, "a usual name is no stage of this job's")
	s.Job.Stages = nil
	require.Equal(t, "strip-down complete", s.Job.StageNames()[1])
}

func TestOutcomesSetWhatWasSpentAgainstWhatWasAgreed(t *testing.T) {
	s := engineAgreed(t)
	done(t, s, "Jory", &Worked{Who: "Jory", Task: "grinding", Line: "work:bottom-end@engine:grind", Hours: 1.5, Rate: dollars(80)}, &Worked{Who: "Jory", Task: "sweeping", Hours: .5, Rate: dollars(80)})
	charged := dollars(380)
	s.Outwork = []Outwork{{ID: "O-001", Lines: []string{"work:bottom-end@engine:grind"}, State: OutworkAccepted, Price: dollars(400), Charged: &charged}, {ID: "O-002", Lines: []string{"work:head@engine:face"}, State: OutworkOut, Price: dollars(9)}}
	s.Purchases = []Purchase{{ID: "B-001", Lines: []string{"work:head@engine:face"}, State: PurchaseArrived, Price: dollars(70)}}
	got := s.Outcomes()
	require.Len(t, got, 3)
	require.Equal(t, "bottom-end", got[0].Subsystem)
	require.Equal(t, []float64{2, 1.5}, []float64{got[0].AgreedHours, got[0].Hours}, "what was held in reserve is no hour agreed")
	require.Equal(t, []string{"1000.00", "120.00", "380.00", "500.00"}, []string{got[0].Agreed.Round().Number(), got[0].Labour.Round().Number(), got[0].Outwork.Round().Number(), got[0].Spent.Round().Number()})
	require.Equal(t, "", got[1].Subsystem)
	require.Equal(t, "head", got[2].Subsystem)
	total := int64(0)
	for _, o := range got {
		total += Minor(o.Spent)
	}
	require.Equal(t, Minor(s.Account().Done), total)
	require.InDelta(t, 2, s.HoursAgreed(), 1e-9)
}

func TestAVehicleIsKnownByItsFrame(t *testing.T) {
	job := func(where, text, says string) Job {
		return Job{Vehicle: &Vehicle{Marks: []Mark{{Where: where, Text: text, Says: says}}}}
	}
	was := job("frame, right front", "PH 2219-B", "agrees")
	require.True(t, job("Frame stamp", "ph2219b", "unknown").SameFrame(was))
	require.False(t, job("bulkhead plate", "PH 2219-B", "agrees").SameFrame(was), "a plate is moved more easily than a frame")
	require.False(t, job("frame", "", MarkNotFound).SameFrame(job("frame", "", MarkNotFound)))
	require.False(t, Job{}.SameFrame(was))
}
