package web

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func (s *shop) Send(_ context.Context, _, _ string, t Sending) (string, error) {
	if t.To == "" {
		return "", errors.Join(core.Errorf(core.Invalid, "agree the price first, then: --price AMOUNT", "the work has no price"), core.Errorf(core.Invalid, "name the outworker: --to NAME", "nobody is named to send it to"))
	}
	return "O-007", nil
}
func (s *shop) Receive(_ context.Context, _, _ string, t Receiving) error {
	s.received = append(s.received, t)
	if !t.Refused && t.Size(0) == "" {
		return core.Errorf(core.Conflict, "measure it", "asked to size and is not measured: M1 diameter")
	}
	return nil
}
func (s *shop) Buy(context.Context, string, string, Buying) (string, error) { return "B-007", nil }
func (s *shop) Delivered(_ context.Context, _, _ string, d core.Delivery) error {
	if d.State == core.PurchaseWrong && d.Why == "" {
		return core.Errorf(core.Invalid, "say what is wrong with it: --why WORDS", "no reason is given")
	}
	s.deliveries = append(s.deliveries, d)
	return nil
}

var typedForm = []string{"Content-Type", "application/x-www-form-urlencoded"}

// sentOut is outwork that is out, and late by any clock.
var sentOut = core.Outwork{ID: "O-001", To: "Tern Lane Grinding", Work: "Crack test", Tags: []string{"T-001"}, Asked: []core.Asked{{What: "M1 diameter", Low: new(2.479), High: new(2.4795), Unit: "in"}, {What: "no cracks"}},
	Price: core.MinorMoney(9000, "USD"), Type: core.PriceFixed, Due: scopeAt.At, State: core.OutworkOut}

var ordered = core.Purchase{ID: "B-001", From: "Birch Yard", What: "selector fork", Count: 2, Price: core.MinorMoney(7000, "USD"), Exchange: new(core.MinorMoney(2000, "USD")), State: core.PurchaseOrdered}

func TestWhatIsOutIsListedAndTakenIn(t *testing.T) {
	body := ask(t, "GET", "/jobs/J-001/out", "").Body.String()
	require.Contains(t, body, "Tern Lane Grinding · LATE")
	require.Contains(t, body, "2 × selector fork")
	require.Contains(t, body, "20.00 in exchange charges")

	body = ask(t, "GET", "/jobs/J-001/out/o-001", "").Body.String()
	require.Contains(t, body, "M1 diameter: 2.479 to 2.4795 in")
	require.Contains(t, body, `value="fails"`, "what was asked in words passes or fails")
	require.Equal(t, 404, ask(t, "GET", "/jobs/J-001/out/O-009", "").Code)

	x := &shop{}
	w := askOf(t, x, "POST", "/jobs/J-001/out/O-001", "do=take&lies=rack+2&size1=pass", typedForm...)
	require.Equal(t, 409, w.Code)
	require.Contains(t, w.Body.String(), "is not measured: M1 diameter")
	require.Contains(t, w.Body.String(), `value="rack 2"`, "what was typed stays")
	require.Contains(t, w.Body.String(), `value="pass" checked`)
	w = askOf(t, x, "POST", "/jobs/J-001/out/O-001", "do=take&lies=rack+2&size0=2.4792&size1=pass", typedForm...)
	require.Equal(t, 303, w.Code)
	w = askOf(t, x, "POST", "/jobs/J-001/out/O-001", "do=refuse&why=off", typedForm...)
	require.Equal(t, 303, w.Code)
	require.Equal(t, []string{"2.4792", "pass"}, x.received[1].Sizes)
	require.True(t, x.received[2].Refused)
}

func TestGoodsComeOrGoBack(t *testing.T) {
	x := &shop{}
	body := askOf(t, x, "GET", "/jobs/J-001/out/B-001", "").Body.String()
	require.Contains(t, body, "20.00, held until the old unit is back")
	require.Contains(t, body, "It came, and is what was ordered")
	require.Equal(t, 422, askOf(t, x, "POST", "/jobs/J-001/out/B-001", "do=wrong", typedForm...).Code)
	require.Equal(t, 303, askOf(t, x, "POST", "/jobs/J-001/out/B-001", "do=arrived&lies=shelf+4", typedForm...).Code)
	require.Equal(t, 303, askOf(t, x, "POST", "/jobs/J-001/out/B-001", "do=exchange+back", typedForm...).Code)
	require.Equal(t, []core.Delivery{{Purchase: "B-001", State: core.PurchaseArrived, Lies: "shelf 4"}, {Purchase: "B-001", State: core.PurchaseOrdered, ExchangeBack: true}}, x.deliveries)
}

func TestWhatIsToBeSentIsListed(t *testing.T) {
	body := ask(t, "GET", "/jobs/J-001/out/send", "").Body.String()
	require.Contains(t, body, "Gear work")
	require.Contains(t, body, "Not authorised: ")
	at := "/jobs/J-001/out/send/new?for=work%3Agearbox%40gearbox%3Aoverhaul"
	require.Contains(t, ask(t, "GET", at, "").Body.String(), `value="work:gearbox@gearbox:overhaul" checked`)
	w := ask(t, "POST", at, "due=soon&parts=they&estimated=yes&sizes=M1+diameter+2.4790..2.4795+in%0D%0A%0D%0Ano+cracks", typedForm...)
	require.Equal(t, 422, w.Code)
	require.Contains(t, w.Body.String(), "M1 diameter 2.4790..2.4795 in\nno cracks</textarea>")
	for _, s := range []string{"The work has no price", "Next: agree the price first</p>", "Nobody is named to send it to", "Next: name the outworker</p>", `value="soon"`, `value="they"`, `name="estimated" value="yes" checked`} {
		require.Contains(t, w.Body.String(), s)
	}
	w = ask(t, "POST", at, "for=work%3Agearbox%40gearbox%3Aoverhaul&to=Oakshott&price=90", typedForm...)
	require.Equal(t, "/jobs/J-001/out/O-007", w.Header().Get("Location"))
	require.Equal(t, 404, ask(t, "GET", "/jobs/J-001/out/send/new?for=x", "").Code)
	require.Equal(t, 404, ask(t, "GET", "/jobs/J-001/out/buy/new?item=x", "").Code)
}
