package core_test

import (
	"encoding/json"
	"strconv"
	"testing"

	"github.com/bojanz/currency"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/fettle-tools/fettle/core"
)

// The sums are tried against another implementation, github.com/bojanz/currency, whose codes and digits come from the
// Unicode project's data for ISO 4217.

func TestEveryCodeHasTheDigitsOfISO4217(t *testing.T) {
	codes := currency.GetCurrencyCodes()
	require.Greater(t, len(codes), 150)
	for _, code := range codes {
		want, _ := currency.GetDigits(code)
		got, ok := core.CurrencyDigits(code)
		require.True(t, ok, code)
		require.Equal(t, int(want), got, code)
	}
	letters := "ABCDEFGHIJKLMNOPQRSTUVWXYZ "
	for _, a := range letters {
		for _, b := range letters {
			for _, c := range letters {
				code := string([]rune{a, b, c})
				require.Equal(t, currency.IsValid(code), core.ValidCurrency(code), code)
			}
		}
	}
	for _, code := range []string{"", "US", "usd", "USDX", "USD AED", " US"} {
		require.False(t, core.ValidCurrency(code), code)
	}
}

func drawAmount(t *rapid.T, label string) (core.Money, currency.Amount) {
	text := rapid.StringMatching(`[-+]?([0-9]{1,9}(\.[0-9]{0,4})?|\.[0-9]{1,4})`).Draw(t, label)
	code := rapid.SampledFrom([]string{"USD", "USD", "JPY", "TND", "CLF"}).Draw(t, label+" code")
	m, err := core.NewMoney(text, code)
	require.NoError(t, err)
	a, err := currency.NewAmount(text, code)
	require.NoError(t, err)
	return m, a
}

// alike wants the same figure and currency; how many digits stand behind the point may differ.
func alike(t *rapid.T, want currency.Amount, got core.Money) {
	a, err := currency.NewAmount(got.Number(), got.CurrencyCode())
	require.NoError(t, err)
	require.True(t, want.Equal(a), "%s, not %s", want, got)
}

func TestMoneyAgainstAnotherImplementation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, a := drawAmount(t, "a")
		o, b := drawAmount(t, "b")
		alike(t, a, m)
		require.Equal(t, a.IsZero(), m.IsZero())
		if !a.Round().IsZero() { // theirs keeps the sign of nothing
			require.Equal(t, a.Round().Number(), m.Round().Number())
		}
		minor, err := a.Int64()
		require.NoError(t, err)
		require.Equal(t, minor, core.Minor(m))

		sum, err := a.Add(b)
		ours, ourErr := m.Add(o)
		require.Equal(t, err == nil, ourErr == nil)
		if err == nil {
			alike(t, sum, ours)
		}
		rest, err := a.Sub(b)
		ours, ourErr = m.Sub(o)
		require.Equal(t, err == nil, ourErr == nil)
		if err == nil {
			alike(t, rest, ours)
		}
		order, err := a.Cmp(b)
		ourOrder, ourErr := m.Cmp(o)
		require.Equal(t, err == nil, ourErr == nil)
		require.Equal(t, order, ourOrder)

		factor := rapid.StringMatching(`-?[0-9]{1,2}(\.[0-9]{1,4})?`).Draw(t, "factor")
		product, err := a.Mul(factor)
		require.NoError(t, err)
		ours, err = m.Mul(factor)
		require.NoError(t, err)
		alike(t, product, ours)

		text, err := json.Marshal(m)
		require.NoError(t, err)
		var theirs currency.Amount
		require.NoError(t, json.Unmarshal(text, &theirs))
		alike(t, theirs, m)
		text, err = json.Marshal(a)
		require.NoError(t, err)
		var back core.Money
		require.NoError(t, json.Unmarshal(text, &back))
		alike(t, a, back)
	})
}

func TestMinorMoneyAgainstAnotherImplementation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64().Draw(t, "n")
		code := rapid.SampledFrom(currency.GetCurrencyCodes()).Draw(t, "code")
		a, err := currency.NewAmountFromInt64(n, code)
		require.NoError(t, err)
		require.Equal(t, a.Number(), core.MinorMoney(n, code).Number())
		require.Equal(t, n, core.Minor(core.MinorMoney(n, code)))
	})
	require.Equal(t, core.Money{}, core.MinorMoney(1, "XXX"))
}

func TestWhatIsNoMoney(t *testing.T) {
	for _, text := range []string{"", ".", "-", "1,50", "1e3", "12.50 USD", "NaN", "--1", "1.2.3", "١٢", "99999999999999999999", "0.1234567890123456789", "100000000000000000"} {
		_, err := core.NewMoney(text, "USD")
		require.Equal(t, core.Invalid, core.ErrorCode(err), text)
		require.ErrorContains(t, err, strconv.Quote(text))
	}
	_, err := core.NewMoney("1", "QQQ")
	require.Equal(t, core.Invalid, core.ErrorCode(err))
}

func TestAmountsAsTyped(t *testing.T) {
	for text, want := range map[string]string{"420": "420.00", "12 500.5": "12500.50", "1,200.50": "1200.50", "-1,234,567": "-1234567.00"} {
		m, err := core.ReadAmount(text, "USD")
		require.NoError(t, err)
		require.Equal(t, want, m.Number())
	}
	for _, text := range []string{"12,5", "1,20", "12,34,567", ",500"} {
		_, err := core.ReadAmount(text, "USD")
		require.Contains(t, core.ErrorNext(err), "write a point where cents begin", text)
	}
}

// What has no room is an error, never another figure.
func TestMoneyThatHasNoRoom(t *testing.T) {
	most, err := core.NewMoney("9223372036854775807", "JPY")
	require.NoError(t, err)
	_, err = most.Add(core.MinorMoney(1, "JPY"))
	require.Error(t, err)
	_, err = core.MinorMoney(-2, "JPY").Sub(most)
	require.Error(t, err)
	_, err = most.Mul("2")
	require.Error(t, err)
	// A sum of ten thousand million dollars at 8.250000 per cent: more digits than there is room for, and not one of them lost that counts.
	tax, err := core.MinorMoney(1_200_000_000_000, "USD").Mul("0.0825000000")
	require.NoError(t, err)
	require.Equal(t, int64(99_000_000_000), core.Minor(tax))
	third, err := core.MinorMoney(-1, "USD").Mul("0.666666666666666667")
	require.NoError(t, err)
	require.Equal(t, "-0.006666666666666667", third.Number())
	small, err := core.NewMoney("0.5", "JPY")
	require.NoError(t, err)
	_, err = most.Add(small)
	require.Error(t, err)
	order, err := most.Cmp(small)
	require.NoError(t, err)
	require.Equal(t, 1, order)
}

// The empty Money adds nothing, and is written and read back.
func TestTheEmptyMoney(t *testing.T) {
	dollar := core.MinorMoney(100, "USD")
	sum, err := core.Money{}.Add(dollar)
	require.NoError(t, err)
	require.Equal(t, dollar.Number()+dollar.CurrencyCode(), sum.Number()+sum.CurrencyCode())
	sum, err = dollar.Sub(core.Money{})
	require.NoError(t, err)
	require.Equal(t, dollar, sum)
	text, err := json.Marshal(core.Money{})
	require.NoError(t, err)
	back := dollar
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, core.Money{}, back)
}
