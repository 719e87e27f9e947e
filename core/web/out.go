package web

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"github.com/fettle-tools/fettle/core"
)

// Outgoing sends work out and takes it in, and buys goods. What is typed is read as the commands read it; all faults are told at once.
type Outgoing interface {
	// Send sends work out and gives its number.
	Send(ctx context.Context, job, by string, t Sending) (string, error)
	Receive(ctx context.Context, job, by string, t Receiving) error
	// Buy orders goods and gives the order's number. What is not typed is the price book's.
	Buy(ctx context.Context, job, by string, t Buying) (string, error)
	// Delivered says what became of an order.
	Delivered(ctx context.Context, job, by string, d core.Delivery) error
}

// outPage shows what is out and what is ordered.
type outPage struct {
	frame
	Out      []core.Outwork // late first, then out, refused
	Back     []core.Outwork
	Ordered  []core.Purchase // late first
	Came     []core.Purchase // arrived, wrong, returned
	Exchange core.Money      // held until old units are back
	ToSend   int
	ToBuy    int
	late     []string
}

// Late reports whether a number is late.
func (p outPage) Late(number string) bool { return slices.Contains(p.late, number) }

func (s *Server) showOut(w http.ResponseWriter, r *http.Request) error {
	story, plan, err := s.order(r)
	if err != nil {
		return err
	}
	now := s.Clock()
	p := outPage{frame: s.jobFrame(r, "Out and in", &story.Job), ToSend: len(story.ToSend()), ToBuy: len(core.ByItem(story.ToBuy(plan)))}
	for _, o := range story.OutFirst(now) {
		if o.Late(now) {
			p.late = append(p.late, o.ID)
		}
		if o.State == core.OutworkAccepted {
			p.Back = append(p.Back, o)
		} else {
			p.Out = append(p.Out, o)
		}
	}
	if held := story.ExchangeOutstanding(); held != nil {
		p.Exchange = *held
	}
	for _, b := range story.Purchases {
		if b.Late(now) {
			p.late = append(p.late, b.ID)
		}
		if b.State == core.PurchaseOrdered {
			p.Ordered = append(p.Ordered, b)
		} else {
			p.Came = append(p.Came, b)
		}
	}
	slices.SortStableFunc(p.Ordered, func(a, b core.Purchase) int { return later(p.Late(b.ID)) - later(p.Late(a.ID)) })
	return s.show(w, http.StatusOK, "out", p)
}

// later is 1 for what is late.
func later(late bool) int {
	if late {
		return 1
	}
	return 0
}

// order gives a job's story and its plan.
func (s *Server) order(r *http.Request) (core.Story, core.Plan, error) {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return story, core.Plan{}, err
	}
	plan, err := s.Plans.Plan(r.Context(), story.Job.Number)
	return story, plan, err
}

// showOutOne shows one order of outwork or of goods.
func (s *Server) showOutOne(w http.ResponseWriter, r *http.Request) error {
	return s.outOne(w, r, http.StatusOK, Receiving{}, core.Delivery{}, nil)
}

func (s *Server) outOne(w http.ResponseWriter, r *http.Request, status int, typed Receiving, d core.Delivery, fault error) error {
	story, err := s.Stories.Story(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	f := s.jobFrame(r, "Out and in", &story.Job)
	number := strings.ToUpper(r.PathValue("number"))
	f.Title = number + ", " + story.Job.Number
	var faults []told
	if fault != nil {
		faults = faultsOf(fault)
	}
	if o := story.Sent(number); o != nil {
		return s.show(w, status, "outwork", outworkPage{f, faults, *o, o.Late(s.Clock()), typed})
	}
	if b := story.Bought(number); b != nil {
		return s.show(w, status, "purchase", purchasePage{f, faults, *b, b.Late(s.Clock()), d})
	}
	return core.Errorf(core.NotFound, "choose one of those on the page out and in", "%s has no order %s", story.Job.Number, number)
}

// takeOutOne takes down what became of one order.
func (s *Server) takeOutOne(w http.ResponseWriter, r *http.Request) error {
	if strings.HasPrefix(strings.ToUpper(r.PathValue("number")), (&core.Outwork{}).Prefix()) {
		return s.receive(w, r)
	}
	return s.delivered(w, r)
}

// wrong reports whether an error is the typer's to put right on the form.
func wrong(err error) bool {
	code := core.ErrorCode(err)
	return code == core.Invalid || code == core.Conflict || code == core.NotFound
}
