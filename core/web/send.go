package web

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Sending is outwork as it is typed.
type Sending struct {
	For       []string // lines of the order
	To, Work  string
	Tags      []string
	Sizes     []string // asked, one each: "M1 diameter 2.4790..2.4795 in"
	Price     string   // before tax
	Estimated bool     // the price may still move
	Due       string   // a day, or "6 weeks"
	Parts     string   // who supplies them
}

// toSendPage lists what goes out and nobody has yet, by the sort of outworker.
type toSendPage struct {
	frame
	Groups []sendGroup
}

// sendGroup is what goes to one sort of outworker.
type sendGroup struct {
	Outworker string
	Lines     []sendLine
	May       int // of them may go
}

// sendLine is one line, and why it may not go yet: "" if it may.
type sendLine struct {
	core.Line
	Not string
}

func (s *Server) showToSend(w http.ResponseWriter, r *http.Request) error {
	story, plan, err := s.order(r)
	if err != nil {
		return err
	}
	p := toSendPage{frame: s.jobFrame(r, "Out and in", &story.Job)}
	p.Title = "What to send, " + story.Job.Number
	for _, l := range story.ToSend() {
		i := slices.IndexFunc(p.Groups, func(g sendGroup) bool { return g.Outworker == l.Outwork })
		if i < 0 {
			i = len(p.Groups)
			p.Groups = append(p.Groups, sendGroup{Outworker: l.Outwork})
		}
		x := sendLine{l, notYet(story, plan, l.ID)}
		if x.Not == "" {
			p.Groups[i].May++
		}
		p.Groups[i].Lines = append(p.Groups[i].Lines, x)
	}
	return s.show(w, http.StatusOK, "to-send", p)
}

// notYet says why a line of the scope may not be ordered as the job stands; "" if it may.
func notYet(story core.Story, plan core.Plan, id string) string {
	if err := story.Covered(id); err != nil {
		return "not authorised: " + err.Error()
	}
	i := slices.IndexFunc(plan.WorkOrder.Lines, func(l core.Line) bool { return l.ID == id })
	if i < 0 {
		return "" // what was agreed to may go, whatever the plan says by now
	}
	if err := plan.Waits(plan.WorkOrder.Lines[i]); err != nil {
		return err.Error()
	}
	return ""
}

// sendPage takes outwork down.
type sendPage struct {
	frame
	Faults []told
	Lines  []sendChoice // the one asked for, and what else goes to that sort of outworker
	Tags   []tagChoice
	Known  []string // parties
	Unsent []string // what of the set lies elsewhere
	Typed  Sending
}

type sendChoice struct {
	core.Line
	Chosen bool
}

type tagChoice struct {
	core.Tag
	Chosen bool
}

// Asked are the sizes as typed, one a line.
func (p sendPage) Asked() string { return strings.Join(p.Typed.Sizes, "\n") }

func (s *Server) showSend(w http.ResponseWriter, r *http.Request) error {
	return s.sendForm(w, r, http.StatusOK, Sending{For: r.URL.Query()["for"]}, nil)
}

// send sends work out, or shows the form again with what is wrong.
func (s *Server) send(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read")
	}
	text := func(name string) string { return strings.TrimSpace(r.PostForm.Get(name)) }
	t := Sending{For: r.PostForm["for"], To: text("to"), Work: text("work"), Tags: r.PostForm["tag"], Sizes: lines(text("sizes")), Price: text("price"), Estimated: text("estimated") != "", Due: text("due"), Parts: text("parts")}
	number, err := s.Outgoing.Send(r.Context(), r.PathValue("job"), s.byWhom(r), t)
	if err != nil && wrong(err) {
		return s.sendForm(w, r, statuses[core.ErrorCode(err)], t, err)
	}
	return toOrder(w, r, number, err)
}

// toOrder leads on to what was sent or ordered, unless that failed.
func toOrder(w http.ResponseWriter, r *http.Request, number string, err error) error {
	if err == nil {
		http.Redirect(w, r, "/jobs/"+r.PathValue("job")+"/out/"+number, http.StatusSeeOther)
	}
	return err
}

// lines parts a text at its line ends; blank ones are left out.
func lines(text string) []string {
	var out []string
	for l := range strings.Lines(text) {
		if l = strings.TrimSpace(l); l != "" {
			out = append(out, l)
		}
	}
	return out
}

func (s *Server) sendForm(w http.ResponseWriter, r *http.Request, status int, typed Sending, fault error) error {
	story, plan, err := s.order(r)
	if err != nil {
		return err
	}
	p := sendPage{frame: s.jobFrame(r, "Out and in", &story.Job), Typed: typed}
	p.Title = "Send out, " + story.Job.Number
	if fault != nil {
		p.Faults = faultsOf(fault)
	}
	all := story.ToSend()
	asked := r.URL.Query()["for"] // stays in the address when nothing is chosen any more
	first := slices.IndexFunc(all, func(l core.Line) bool { return slices.Contains(typed.For, l.ID) || slices.Contains(asked, l.ID) })
	if first < 0 {
		return core.Errorf(core.NotFound, "choose one of those to send", "nothing that is to be sent is called %s", strings.Join(asked, ", "))
	}
	var chosen []core.Line
	for _, l := range all {
		is := slices.Contains(typed.For, l.ID)
		if is {
			chosen = append(chosen, l)
		}
		if is || slices.Contains(asked, l.ID) || l.Outwork == all[first].Outwork && notYet(story, plan, l.ID) == "" {
			p.Lines = append(p.Lines, sendChoice{l, is})
		}
	}
	tags := typed.Tags
	if fault == nil {
		tags = story.Sends(chosen)
	}
	p.Unsent = story.Unsent(chosen, tags)
	for _, t := range story.Tags {
		if t.Apart() && t.State != core.TagOut {
			p.Tags = append(p.Tags, tagChoice{t, slices.Contains(tags, t.ID)})
		}
	}
	slices.SortStableFunc(p.Tags, func(a, b tagChoice) int { return later(b.Chosen) - later(a.Chosen) })
	for _, q := range story.Parties {
		p.Known = append(p.Known, q.Name)
	}
	return s.show(w, status, "send", p)
}

// Receiving is what came back of outwork, as it is typed.
type Receiving struct {
	Outwork string
	Sizes   []string // what was read of each thing asked, in the order asked; "" was not read
	Refused bool
	Why     string
	Charged string // if not the price agreed
	Lies    string
}

// Size is what was typed of one thing asked.
func (t Receiving) Size(i int) string {
	if i < len(t.Sizes) {
		return t.Sizes[i]
	}
	return ""
}

// outworkPage shows outwork, and takes it in.
type outworkPage struct {
	frame
	Faults  []told
	Outwork core.Outwork
	Late    bool
	Typed   Receiving
}

// Open reports whether it can still be received.
func (p outworkPage) Open() bool {
	return p.Outwork.State != core.OutworkAccepted && p.Job.State != core.StateHandedOver
}

// Got is what was measured of one thing asked; nil if it was not.
func (p outworkPage) Got(a core.Asked) *core.Result {
	i := slices.IndexFunc(p.Outwork.Results, func(r core.Result) bool { return strings.EqualFold(r.What, a.What) })
	if i < 0 {
		return nil
	}
	return &p.Outwork.Results[i]
}

// receive takes outwork in or refuses it, or shows the form again with what is wrong.
func (s *Server) receive(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return core.Errorf(core.Invalid, "load the page again", "what was sent cannot be read")
	}
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	text := func(name string) string { return strings.TrimSpace(r.PostForm.Get(name)) }
	t := Receiving{Outwork: strings.ToUpper(r.PathValue("number")), Refused: text("do") == "refuse", Why: text("why"), Charged: text("charged"), Lies: text("lies")}
	if t.Charged != "" && s.visitor(r).Role < Owner {
		return s.refuse(w, r, Owner) // what it cost is the owner's to say
	}
	if o := story.Sent(t.Outwork); o != nil {
		for i := range o.Asked {
			t.Sizes = append(t.Sizes, text(fmt.Sprint("size", i)))
		}
	}
	if err := s.Outgoing.Receive(r.Context(), story.Job.Number, s.byWhom(r), t); err != nil {
		if !wrong(err) {
			return err
		}
		return s.outOne(w, r, statuses[core.ErrorCode(err)], t, core.Delivery{}, err)
	}
	http.Redirect(w, r, "/jobs/"+story.Job.Number+"/out/"+t.Outwork, http.StatusSeeOther)
	return nil
}
