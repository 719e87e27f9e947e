package store

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
)

func usd(t interface{ Errorf(string, ...any) }, s string) core.Money {
	m, err := core.NewMoney(s, "USD")
	if err != nil {
		t.Errorf("%v", err)
	}
	return m
}

// scopeOf is an issued scope of one line of outwork, one of goods, one in reserve.
func scopeOf(t interface{ Errorf(string, ...any) }, job string, revision int) Paper {
	line := func(id, kind, amount string) core.Line {
		m, none := usd(t, amount), usd(t, "0")
		return core.Line{ID: id, Kind: core.LineKind(kind), Name: id, Amount: m, Low: m, Likely: m, High: m, Tax: none, Typical: none}
	}
	order := core.WorkOrder{Total: usd(t, "1000"), TotalBeforeTax: usd(t, "900"), Tax: usd(t, "100"), Typical: usd(t, "0"), Lines: []core.Line{
		line("work:bottom-end@engine:grind", "work", "400"), line("work:bottom-end@engine:shells", "work", "120"), line("reserve:bottom-end@engine:bore", "reserve", "80")}}
	inputs, err := json.Marshal(map[string]any{"order": order, "budget": map[string]any{"contingency": usd(t, "150")}})
	if err != nil {
		t.Errorf("%v", err)
	}
	return Paper{Job: job, Kind: "scope", Number: job + "-S", Revision: revision, Inputs: inputs, Bytes: []byte("scope")}
}

func TestAJobFromArrivalToHandover(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	_, err := b.ChangeJob(ctx, "J-001", "Wren", Change{Owner: &core.Party{Name: "O. Wner"}})
	require.NoError(t, err)
	act := func(acts ...core.Act) core.Story {
		t.Helper()
		s, err := b.Act(ctx, "J-001", "Wren", acts...)
		require.NoError(t, err)
		return s
	}
	refused := func(code core.Code, a core.Act) {
		t.Helper()
		before, err := b.Entries(ctx, "J-001")
		require.NoError(t, err)
		_, err = b.Act(ctx, "J-001", "Wren", a)
		require.Equal(t, code, core.ErrorCode(err), "%v", err)
		require.NotEmpty(t, core.ErrorNext(err))
		after, err := b.Entries(ctx, "J-001")
		require.NoError(t, err)
		require.Len(t, after, len(before))
	}
	refused(core.Conflict, &core.StepDone{Step: "engine-out", Is: core.StepIsDone})
	require.Equal(t, core.StateArrived, act(&core.Arrival{Keys: 1, Boxes: 3}).Job.State)
	refused(core.Conflict, &core.StepDone{Step: "engine-out", Is: core.StepIsDone})
	refused(core.Conflict, &core.Agreement{Gate: core.GateStrip, Who: "Passer-by", How: "phone", Sum: usd(t, "500")})
	s := act(&core.Agreement{Gate: core.GateStrip, Who: "O. Wner", How: "signed", Sum: usd(t, "500")})
	require.Equal(t, core.StateStripAgreed, s.Job.State)
	require.Equal(t, core.StateStripping, act(&core.StepDone{Step: "engine-out", Is: core.StepIsDone, Hours: 3}).Job.State)
	s = act(&core.Tag{What: "Crankshaft", State: core.TagOff, Lies: "rack 1", Fasteners: []core.Fasteners{{In: 6}}}, &core.Tag{What: "Block", State: core.TagOff, Lies: "floor"})
	require.Equal(t, []string{"T-001", "T-002"}, []string{s.Tags[0].ID, s.Tags[1].ID})
	refused(core.NotFound, &core.Tag{ID: "T-009-01", What: "Cap", State: core.TagOff, Lies: "rack"})
	refused(core.Conflict, &core.Tag{ID: "T-001", What: "Crankshaft", State: core.TagScrapped})

	send := func() *core.Outwork {
		return &core.Outwork{To: "Tern Lane Grinding", Lines: []string{"work:bottom-end@engine:grind"}, Tags: []string{"T-001"}, Price: usd(t, "400"), Type: "fixed",
			Asked: []core.Asked{{What: "M1 diameter", Low: ptr(2.479), High: ptr(2.4795), Unit: "in"}}}
	}
	refused(core.Conflict, send())
	act(&core.Move{To: core.StateInspected})
	_, err = b.Issue(ctx, "Wren", scopeOf(t, "J-001", 1))
	require.NoError(t, err)
	act(&core.Move{To: core.StateScopeOut})
	refused(core.Conflict, send())
	refused(core.Conflict, &core.Agreement{Gate: core.GateBudget, Paper: "J-001-S", Revision: 2, Who: "O. Wner", How: "signed", Sum: usd(t, "1000")})
	require.Equal(t, core.StateAgreed, act(&core.Agreement{Gate: core.GateBudget, Paper: "J-001-S", Revision: 1, Who: "O. Wner", How: "signed", Sum: usd(t, "1000")}).Job.State)
	reserve := send()
	reserve.Lines = []string{"reserve:bottom-end@engine:bore"}
	refused(core.Conflict, reserve)
	dear := send()
	dear.Price = usd(t, "1001")
	refused(core.Conflict, dear)
	s = act(send())
	require.Equal(t, core.StateInWork, s.Job.State)
	require.Equal(t, "out at Tern Lane Grinding", s.Tag("T-001").Lies)
	refused(core.Conflict, send())
	refused(core.Conflict, &core.Received{Outwork: "O-001", Accepted: true, Lies: "rack 1"})
	off := []core.Result{{What: "M1 diameter", As: "2.4700 in"}}
	refused(core.Conflict, &core.Received{Outwork: "O-001", Accepted: true, Lies: "rack 1", Results: off})
	s = act(&core.Received{Outwork: "O-001", Why: "five thou under what was asked", Results: off})
	require.Equal(t, core.OutworkRefused, s.Outwork[0].State)
	s = act(&core.Received{Outwork: "O-001", Accepted: true, Lies: "rack 1", Results: []core.Result{{What: "M1 diameter", As: "2.4792 in", OK: true}}})
	require.Equal(t, core.TagBack, s.Tag("T-001").State)

	s = act(&core.Surprise{Found: "cap bolt hole stripped", Safety: true, Options: []core.SurpriseOption{{Do: "insert", Sum: usd(t, "60"), Lines: []string{"work:extra"}}, {Do: "leave it", Leaves: true, Sum: usd(t, "0")}}})
	require.Len(t, s.Gathering(), 1)
	s = act(&core.Note{Surprises: []string{"C-001"}})
	require.Empty(t, s.Gathering())
	require.ErrorContains(t, s.Covered("work:extra"), "not on what was agreed")
	refused(core.Invalid, &core.Answer{Note: "N-001", State: core.NoteApproved, Who: "O. Wner", How: "phone"})
	s = act(&core.Answer{Note: "N-001", State: core.NoteApproved, Who: "O. Wner", How: "phone", Options: []core.NoteAnswer{{Surprise: "C-001", Option: 1}}})
	require.NoError(t, s.Covered("work:extra"))
	require.Equal(t, "1060.00", s.Authorised().Number())
	require.Empty(t, s.Trailer())

	act(&core.Move{To: core.StateStopped, Why: "the owner is away"})
	refused(core.Conflict, &core.Fit{What: "crank in"})
	act(&core.Move{To: core.StateInWork})
	s = act(&core.Fit{Subsystem: "brakes", Target: core.Target{Part: "shoe", Position: "LF"}, Safety: true}, &core.Fit{Tag: "T-001", What: "crank in"})
	require.Equal(t, core.StateBuilding, s.Job.State)
	act(&core.Move{To: core.StateRoadTest})
	refused(core.Conflict, &core.RoadTest{What: "round the village", Distance: "5 miles"})
	act(&core.Fit{Subsystem: "brakes", Target: core.Target{Part: "shoe", Position: "LF"}, Safety: true, Second: "Ash"}, &core.RoadTest{What: "round the village", Distance: "5 miles"})
	refused(core.Conflict, &core.Handover{Signed: "O. Wner", OldParts: "returned"})
	crank, block := *s.Tag("T-001"), *s.Tag("T-002")
	crank.State, crank.Fasteners[0].Out, block.State = core.TagFitted, ptr(5), core.TagFitted
	s = act(&crank, &block)
	require.Equal(t, []string{"T-001 Crankshaft: 1 of 6 missing"}, s.Shortages())
	s = act(&core.Handover{Signed: "O. Wner", OldParts: "returned", Told: "one bolt replaced"})
	require.Equal(t, core.StateHandedOver, s.Job.State)
	refused(core.Conflict, &core.Tag{What: "One more", State: core.TagOff, Lies: "rack"})
	require.Len(t, s.Moves, 12)
	at := core.Place{Subsystem: "brakes", Target: core.Target{Part: "shoe", Position: "LF"}}
	for _, c := range []Change{{Pins: []core.Pin{{Place: at, Remedy: "new", Reason: "late", By: "Wren"}}}, {Left: []core.Left{{Place: at, Reason: "late", By: "O. Wner"}}}, {Brief: &core.Brief{Use: "shows"}}} {
		_, err := b.ChangeJob(t.Context(), "J-001", "Wren", c)
		require.Equal(t, core.Conflict, core.ErrorCode(err), "what was decided stands: %v", err)
	}
	_, err = b.ChangeJob(t.Context(), "J-001", "Wren", Change{Title: new("as it is called now")})
	require.NoError(t, err)
}

// What an undo takes back, nothing that stays may rest on; what a redo brings back must fit what was done since.
func TestUndoKeepsTheStoryTrue(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	_, err := b.ChangeJob(ctx, "J-001", "Wren", Change{Owner: &core.Party{Name: "O. Wner"}})
	require.NoError(t, err)
	_, err = b.Act(ctx, "J-001", "Wren", &core.Move{To: core.StateStopped, Why: "changed his mind"})
	require.NoError(t, err)
	_, err = b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	_, err = b.Act(ctx, "J-001", "Wren", &core.Arrival{})
	require.NoError(t, err)
	s, err := b.Story(ctx, "J-001")
	require.NoError(t, err)
	require.Equal(t, core.StateArrived, s.Job.State, "the move comes with the act")
	_, err = b.Redo(ctx, "J-001", "Wren")
	require.Equal(t, core.Conflict, core.ErrorCode(err), "%v", err)
	require.ErrorContains(t, err, "the arrival of")
	s, err = b.Story(ctx, "J-001")
	require.NoError(t, err)
	require.Equal(t, core.StateArrived, s.Job.State)
	_, err = b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	s, err = b.Story(ctx, "J-001")
	require.NoError(t, err)
	require.Equal(t, core.StateEnquiry, s.Job.State, "the move goes with the act")
}

func TestNumbersAreUniqueInTheShop(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	other, err := b.OpenJob(ctx, core.Job{Title: "Another"}, "Wren")
	require.NoError(t, err)
	tag := func(job, number string) error {
		_, err := b.Act(ctx, job, "Wren", &core.Tag{ID: number, What: "A lid", State: core.TagOff, Lies: "shelf"})
		return err
	}
	require.NoError(t, tag("J-001", "T-014"))
	require.NoError(t, tag("J-001", "T-014"), "the same tag, said again")
	err = tag(other.Number, "T-014")
	require.Equal(t, core.Conflict, core.ErrorCode(err))
	require.ErrorContains(t, err, "in use in J-001")
	require.NoError(t, tag("J-001", "T-014-03"))
	require.NoError(t, tag(other.Number, ""))
	s, err := b.Story(ctx, other.Number)
	require.NoError(t, err)
	require.Equal(t, "T-015", s.Tags[0].ID)
}

func TestPartiesAreKeptOnce(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	limit := usd(t, "500")
	require.NoError(t, b.SetParty(ctx, "Wren", core.Party{Name: "The Agent", Roles: []string{"payer"}}))
	require.NoError(t, b.SetParty(ctx, "Wren", core.Party{Name: "the agent", Roles: []string{"payer"}, MayAuthorise: &limit}))
	require.Equal(t, core.Invalid, core.ErrorCode(b.SetParty(ctx, "Wren", core.Party{Name: "X", Roles: []string{"king"}})))
	ps, err := b.Parties(ctx)
	require.NoError(t, err)
	require.Len(t, ps, 1)
	_, err = b.ChangeJob(ctx, "J-001", "Wren", Change{Speakers: []string{"The Agent"}})
	require.NoError(t, err)
	_, err = b.Act(ctx, "J-001", "Wren", &core.Arrival{})
	require.NoError(t, err)
	agree := func(sum string) error {
		_, err := b.Act(ctx, "J-001", "Wren", &core.Agreement{Gate: core.GateStrip, Who: "The Agent", How: "message", Sum: usd(t, sum)})
		return err
	}
	require.ErrorContains(t, agree("500.01"), "may authorise up to")
	require.NoError(t, agree("500"))
}

// Whatever is done in whatever order: nothing leaves the book, the state has a name and was reached by a move that may follow, and
// nothing is out or bought without an agreement that covers it.
func TestNoOrderOfActsBreaksAJob(t *testing.T) {
	b := newBook(t)
	job := 0
	rapid.Check(t, func(t *rapid.T) {
		job++
		ctx := t.Context()
		opened, err := b.OpenJob(ctx, core.Job{Number: fmt.Sprintf("P-%d", job), Owner: core.Party{Name: "O. Wner"}, Vehicle: &core.Vehicle{Title: "A truck"}}, "Wren")
		if err != nil {
			t.Fatal(err)
		}
		n := opened.Number
		var entries []Entry
		revision := 0
		if rapid.Bool().Draw(t, "agreed") { // from enquiry, chance rarely gets this far
			if _, err := b.Issue(ctx, "Wren", scopeOf(t, n, 1)); err != nil {
				t.Fatal(err)
			}
			revision = 1
			if _, err := b.Act(ctx, n, "Wren", &core.Move{To: core.StateScopeOut}, &core.Agreement{Gate: core.GateBudget, Paper: n + "-S", Revision: 1, Who: "O. Wner", How: "signed", Sum: usd(t, "900")},
				&core.Tag{ID: fmt.Sprintf("T-%03d", 1000*job), What: "Crank", State: core.TagOff, Lies: "rack"}); err != nil {
				t.Fatal(err)
			}
		}
		for range rapid.IntRange(5, 40).Draw(t, "steps") {
			var err error
			now, err := b.Story(ctx, n)
			if err != nil {
				t.Fatal(err)
			}
			switch k := rapid.IntRange(0, 22).Draw(t, "what"); k {
			case 0:
				_, err = b.Undo(ctx, n, "Wren")
			case 1:
				_, err = b.Redo(ctx, n, "Wren")
			case 2:
				_, err = b.Issue(ctx, "Wren", scopeOf(t, n, revision+1))
				if err == nil {
					revision++
				}
			default:
				_, err = b.Act(ctx, n, "Wren", drawAct(t, now, fmt.Sprintf("T-%03d", 1000*job), revision, k))
			}
			if code := core.ErrorCode(err); code == core.Internal {
				t.Fatalf("a fault of our own: %v", err)
			}
			es, err := b.Entries(ctx, n)
			if err != nil || len(es) < len(entries) {
				t.Fatalf("the book has %d entries of %d: %v", len(es), len(entries), err)
			}
			for i, e := range entries {
				if es[i].ID != e.ID || string(es[i].Body) != string(e.Body) {
					t.Fatalf("entry %d of %s was changed", i, n)
				}
			}
			entries = es
			s, err := b.Story(ctx, n)
			if err != nil {
				t.Fatal(err)
			}
			sound(t, s)
		}
		s, err := b.Story(ctx, n)
		if err != nil {
			t.Fatal(err)
		}
		found, err := b.Find(ctx, n, "crank")
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range found {
			if tag := s.Tag(f.Name); f.Kind == "tag" && (tag == nil || tag.State != f.State || tag.Lies != f.Lies) {
				t.Fatalf("%s is found as %+v, and is %+v", f.Name, f, tag)
			}
		}
	})
}

func sound(t *rapid.T, s core.Story) {
	if !slices.Contains(core.States, s.Job.State) {
		t.Fatalf("%q is no state", s.Job.State)
	}
	was := core.StateEnquiry
	for _, m := range s.Moves {
		if m.From != was {
			t.Fatalf("from %q, but it was %q", m.From, was)
		}
		was = m.To
	}
	agreed := s.Agreed(core.GateBudget) != nil
	if (len(s.Outwork) > 0 || len(s.Purchases) > 0 || len(s.Fits) > 0) && !agreed {
		t.Fatal("ordered without agreement")
	}
	for _, d := range s.Steps {
		if d.Is == core.StepIsDone && !d.Free && !agreed && s.Agreed(core.GateStrip) == nil {
			t.Fatal("taken apart without agreement")
		}
	}
	if s.Handover != nil && len(s.ByTrailer()) > 0 && !s.Handover.Trailer {
		t.Fatalf("it drove away: %s", s.ByTrailer())
	}
	if s.Job.State == core.StateHandedOver != (s.Handover != nil) {
		t.Fatalf("it is %s, and the handover is %v", s.Job.State, s.Handover)
	}
	for _, p := range s.Surprises {
		if p.Note != "" && s.Note(p.Note) == nil {
			t.Fatalf("%s is on %s, which is not there", p.ID, p.Note)
		}
	}
	for _, o := range s.Outwork {
		for _, l := range o.Lines {
			if !strings.HasPrefix(l, "work:") {
				t.Fatalf("%s is ordered, and was held in reserve only", l)
			}
		}
	}
}

// anyOf draws the number of something that the job has, or one it has not.
func anyOf[T any](t *rapid.T, has []T, number func(T) string) string {
	if len(has) == 0 {
		return "X-999"
	}
	return number(rapid.SampledFrom(has).Draw(t, "number"))
}

func drawAct(t *rapid.T, s core.Story, tag string, revision, k int) core.Act {
	job := s.Job.Number
	who := rapid.SampledFrom([]string{"O. Wner", "Nobody"}).Draw(t, "who")
	line := rapid.SampledFrom([]string{"work:bottom-end@engine:grind", "work:bottom-end@engine:shells", "reserve:bottom-end@engine:bore", "work:elsewhere"}).Draw(t, "line")
	sum := usd(t, rapid.SampledFrom([]string{"0", "120", "400", "5000"}).Draw(t, "sum"))
	switch k {
	case 3:
		return &core.Arrival{}
	case 4:
		return &core.Agreement{Gate: core.GateStrip, Who: who, How: "signed", Sum: sum}
	case 5:
		return &core.Agreement{Gate: core.GateBudget, Paper: job + "-S", Revision: revision, Who: who, How: "signed", Sum: sum}
	case 6:
		return &core.StepDone{Step: "engine-out", Is: rapid.SampledFrom(core.StepWords).Draw(t, "is"), Why: "so"}
	case 7:
		return &core.Tag{What: "Crank", State: rapid.SampledFrom(core.TagStates).Draw(t, "state"), Lies: "rack"}
	case 8:
		return &core.Outwork{To: "Grinders", Lines: []string{line}, Tags: []string{tag}, Price: sum, Type: "fixed"}
	case 9:
		return &core.Received{Outwork: anyOf(t, s.Outwork, func(o core.Outwork) string { return o.ID }), Accepted: rapid.Bool().Draw(t, "accepted"), Why: "so", Lies: "rack"}
	case 10:
		return &core.Purchase{From: "Spares", What: "Shells", Count: 1, Lines: []string{line}, Price: sum}
	case 11:
		return &core.Fit{What: "crank in"}
	case 12:
		return &core.Move{To: rapid.SampledFrom(core.States).Draw(t, "to"), Why: "so"}
	case 13:
		return &core.Handover{Signed: who, OldParts: "none", Told: "all of it", Trailer: rapid.Bool().Draw(t, "trailer")}
	case 14:
		return &core.Surprise{Found: "a crack", Safety: rapid.Bool().Draw(t, "safety"), Options: []core.SurpriseOption{{Do: "do it", Sum: sum, Lines: []string{line}}, {Do: "leave it", Sum: usd(t, "0"), Leaves: true}}}
	case 16:
		n := &core.Note{}
		for _, p := range s.Gathering() {
			n.Surprises = append(n.Surprises, p.ID)
		}
		return n
	case 17:
		a := &core.Answer{Note: anyOf(t, s.Notes, func(n core.Note) string { return n.ID }), State: rapid.SampledFrom(core.NoteStates[1:]).Draw(t, "answer"), Who: who, How: "phone", Why: "so"}
		if n := s.Note(a.Note); n != nil {
			for _, id := range n.Surprises {
				a.Options = append(a.Options, core.NoteAnswer{Surprise: id, Option: rapid.IntRange(0, 2).Draw(t, "option")})
			}
		}
		return a
	case 18:
		g := &core.Snag{What: "pulls", Safety: rapid.Bool().Draw(t, "safety")}
		if rapid.Bool().Draw(t, "settles") {
			if was := s.Snag(anyOf(t, s.Snags, func(g core.Snag) string { return g.ID })); was != nil {
				*g = *was
				g.Cleared = "put right"
			}
		}
		return g
	case 19:
		return &core.Delivery{Purchase: anyOf(t, s.Purchases, func(p core.Purchase) string { return p.ID }), State: rapid.SampledFrom(core.PurchaseStates).Draw(t, "state"), Why: "so"}
	case 20:
		return &core.Payment{Is: rapid.SampledFrom(core.PaymentWords).Draw(t, "is"), Party: who, Sum: sum}
	case 21:
		return &core.Worked{Who: who, Task: "sorting", Hours: 1, Rate: sum}
	case 22:
		return &core.Fit{Subsystem: "brakes", Target: core.Target{Part: "shoe"}, Safety: true, Second: rapid.SampledFrom([]string{"", "Ash", "Wren"}).Draw(t, "second")}
	}
	return &core.RoadTest{What: "first start"}
}

// What came later does not undo what was accepted then: a newer revision of the scope, a lower limit of who may authorise.
func TestUndoReplaysWhatWasKnownThen(t *testing.T) {
	b := newBook(t)
	ctx := t.Context()
	may := func(sum string) {
		t.Helper()
		limit := usd(t, sum)
		require.NoError(t, b.SetParty(ctx, "Wren", core.Party{Name: "O. Wner", MayAuthorise: &limit}))
	}
	act := func(acts ...core.Act) {
		t.Helper()
		_, err := b.Act(ctx, "J-001", "Wren", acts...)
		require.NoError(t, err)
	}
	_, err := b.ChangeJob(ctx, "J-001", "Wren", Change{Owner: &core.Party{Name: "O. Wner"}})
	require.NoError(t, err)
	may("1000")
	_, err = b.Issue(ctx, "Wren", scopeOf(t, "J-001", 1))
	require.NoError(t, err)
	act(&core.Move{To: core.StateScopeOut}, &core.Agreement{Gate: core.GateBudget, Paper: "J-001-S", Revision: 1, Who: "O. Wner", How: "signed", Sum: usd(t, "1000")})
	_, err = b.Issue(ctx, "Wren", scopeOf(t, "J-001", 2))
	require.NoError(t, err)
	may("10")
	act(&core.Tag{What: "Crank", State: core.TagOff, Lies: "rack"})
	_, err = b.Undo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	_, err = b.Redo(ctx, "J-001", "Wren")
	require.NoError(t, err)
	_, err = b.Act(ctx, "J-001", "Wren", &core.Agreement{Gate: core.GateBudget, Paper: "J-001-S", Revision: 2, Who: "O. Wner", How: "signed", Sum: usd(t, "1000")})
	require.ErrorContains(t, err, "may authorise up to", "now the lower limit holds")
}
