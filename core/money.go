package core

import (
	"encoding/json"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Money is an exact decimal amount with its currency, marshalled as {"number": "12.50", "currency": "USD"}. Two of them are
// equal with == if they are written alike: 12.5 and 12.50 are not. The empty Money is no amount in no currency.
type Money struct {
	units  int64 // of the last digit
	digits uint8 // after the point
	code   string
}

// maxMoneyDigits is how many digits an amount may have after the point.
const maxMoneyDigits = 18

// NewMoney reads a decimal text, such as 12.50 or -3, in a currency. An amount of more digits than can be worked with, some 18
// with those of its currency, is an error.
func NewMoney(number, code string) (Money, error) {
	m, ok := parseMoney(number)
	digits, known := CurrencyDigits(code)
	if m.code = code; !ok || !known {
		return Money{}, Errorf(Invalid, "write an amount like 12.50 and a currency like USD", "%q is no amount in %q", number, code)
	}
	if _, fits := m.withDigits(uint8(digits)); !fits {
		return Money{}, Errorf(Invalid, "write an amount like 12.50", "%q %q is more than can be worked with", number, code)
	}
	return m, nil
}

// Near is an amount rounded to a number of whole units, half of them away from zero.
func (m Money) Near(units int64) Money {
	digits, _ := CurrencyDigits(m.code)
	for range digits {
		units *= 10
	}
	n, half := Minor(m), units/2
	if n < 0 {
		half = -half
	}
	return MinorMoney((n+half)/units*units, m.code)
}

// thousands are an amount with its thousands parted by commas.
var thousands = onFirstUse(`^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$`)

// ReadAmount reads an amount as people type it, thousands parted by blanks, by commas or not, rounded to the minor unit of its currency.
func ReadAmount(text, code string) (Money, error) {
	plain := strings.Join(strings.Fields(text), "")
	if thousands().MatchString(plain) {
		plain = strings.ReplaceAll(plain, ",", "")
	}
	m, err := NewMoney(plain, code)
	if err != nil {
		next := "write it like 420 or 12.50; it is in " + code
		if strings.Contains(plain, ",") {
			next = "write a point where cents begin, like 12.50; it is in " + code
		}
		return m, Errorf(Invalid, next, "%q is no amount", text)
	}
	return m.Round(), nil
}

func parseMoney(text string) (m Money, ok bool) {
	sign, digits := "", text
	if text != "" && (text[0] == '-' || text[0] == '+') {
		sign, digits = strings.TrimPrefix(text[:1], "+"), text[1:]
	}
	whole, part, _ := strings.Cut(digits, ".")
	if whole+part == "" || strings.Trim(whole+part, "0123456789") != "" || len(part) > maxMoneyDigits {
		return Money{}, false
	}
	units, err := strconv.ParseInt(sign+whole+part, 10, 64)
	return Money{units: units, digits: uint8(len(part))}, err == nil
}

// MinorMoney gives n minor units (cents) of a currency; the empty Money if there is no such currency.
func MinorMoney(n int64, code string) Money {
	digits, ok := CurrencyDigits(code)
	if !ok {
		return Money{}
	}
	return Money{n, uint8(digits), code}
}

// Minor gives an amount in minor units, halves away from zero; 0 if it is too large to be written so.
func Minor(m Money) int64 {
	digits, _ := CurrencyDigits(m.code)
	if r, ok := m.withDigits(uint8(digits)); ok {
		return r.units
	}
	return 0
}

// CurrencyCode gives the ISO 4217 code.
func (m Money) CurrencyCode() string { return m.code }

// Number writes the amount as a decimal text, with the digits it has.
func (m Money) Number() string {
	s := strconv.FormatInt(m.units, 10)
	if m.digits == 0 {
		return s
	}
	sign := ""
	if m.units < 0 {
		sign, s = "-", s[1:]
	}
	if n := int(m.digits) + 1 - len(s); n > 0 {
		s = strings.Repeat("0", n) + s
	}
	at := len(s) - int(m.digits)
	return sign + s[:at] + "." + s[at:]
}

// String writes amount and currency.
func (m Money) String() string { return m.Number() + " " + m.code }

// IsZero reports an amount of nothing, in whatever currency.
func (m Money) IsZero() bool { return m.units == 0 }

// Round gives the amount with the digits of its currency, halves away from zero. An amount too large to be written so
// stays as it is.
func (m Money) Round() Money {
	digits, _ := CurrencyDigits(m.code)
	if r, ok := m.withDigits(uint8(digits)); ok {
		return r
	}
	return m
}

// withDigits writes the amount with so many digits after the point, halves away from zero; ok is false if it has no room.
func (m Money) withDigits(digits uint8) (r Money, ok bool) {
	r = Money{m.units, digits, m.code}
	for d := m.digits; d < digits; d++ {
		if r.units > math.MaxInt64/10 || r.units < math.MinInt64/10 {
			return m, false
		}
		r.units *= 10
	}
	if m.digits > digits {
		scale := int64(1)
		for range m.digits - digits {
			scale *= 10 // 10^18 at most
		}
		rest := r.units % scale
		r.units /= scale
		if rest >= scale-rest && rest > 0 {
			r.units++
		} else if rest < 0 && -rest >= scale+rest {
			r.units--
		}
	}
	return r, true
}

// pair writes two amounts with the same digits. They must be of one currency, or one of them the empty Money.
func pair(a, b Money) (x, y Money, err error) {
	switch {
	case a == Money{}:
		a.code = b.code
	case b == Money{}:
		b.code = a.code
	case a.code != b.code:
		return a, b, Errorf(Invalid, "give both in one currency", "%s and %s cannot be put together", a, b)
	}
	digits := max(a.digits, b.digits)
	x, fits := a.withDigits(digits)
	y, also := b.withDigits(digits)
	if !fits || !also {
		return a, b, errMoneyRoom(a, b)
	}
	return x, y, nil
}

func errMoneyRoom(a, b Money) error {
	return Errorf(Invalid, "look at the figures: they have more digits than money has", "%s and %s cannot be worked with", a, b)
}

// Add gives the sum of two amounts of one currency; the empty Money adds nothing.
func (m Money) Add(o Money) (Money, error) {
	a, b, err := pair(m, o)
	if err != nil {
		return Money{}, err
	}
	sum := a.units + b.units
	if (sum > a.units) != (b.units > 0) && b.units != 0 {
		return Money{}, errMoneyRoom(m, o)
	}
	return Money{sum, a.digits, a.code}, nil
}

// Sub gives the difference of two amounts of one currency; the empty Money takes nothing off.
func (m Money) Sub(o Money) (Money, error) {
	if o.units == math.MinInt64 {
		return Money{}, errMoneyRoom(m, o)
	}
	return m.Add(Money{-o.units, o.digits, o.code})
}

// Cmp gives -1, 0 or 1 as the amount is less than, the same as or more than another of its currency.
func (m Money) Cmp(o Money) (int, error) {
	if m.code != o.code {
		return -1, Errorf(Invalid, "give both in one currency", "%s and %s cannot be compared", m, o)
	}
	a, b := big.NewInt(m.units), big.NewInt(o.units)
	ten := func(n uint8) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }
	return a.Mul(a, ten(o.digits)).Cmp(b.Mul(b, ten(m.digits))), nil
}

// Mul gives the amount times a decimal text, with the digits of both; where those have no room, with as many as have, halves
// away from zero.
func (m Money) Mul(factor string) (Money, error) {
	f, ok := parseMoney(factor)
	if !ok {
		return Money{}, Errorf(Invalid, "write a number like 0.20", "%q is no number", factor)
	}
	product, digits := new(big.Int).Mul(big.NewInt(m.units), big.NewInt(f.units)), int(m.digits)+int(f.digits)
	spare := 0 // digits too many
	for rest := new(big.Int).Set(product); !rest.IsInt64() || digits-spare > maxMoneyDigits; spare++ {
		if spare == digits {
			return Money{}, errMoneyRoom(m, f)
		}
		rest.Quo(rest, big.NewInt(10))
	}
	if spare > 0 {
		scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(spare)), nil)
		half := new(big.Int).Quo(scale, big.NewInt(2))
		if product.Sign() < 0 {
			half.Neg(half)
		}
		product.Quo(product.Add(product, half), scale)
	}
	if !product.IsInt64() { // rounded up over the edge
		return Money{}, errMoneyRoom(m, f)
	}
	return Money{product.Int64(), uint8(digits - spare), m.code}, nil
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// MarshalJSON writes {"number": "12.50", "currency": "USD"}.
func (m Money) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Number   string `json:"number"`
		Currency string `json:"currency"`
	}{m.Number(), m.code})
}

// UnmarshalJSON reads what MarshalJSON writes; the number may be a JSON number too.
func (m *Money) UnmarshalJSON(data []byte) error {
	var in struct {
		Number   json.RawMessage `json:"number"`
		Currency string          `json:"currency"`
	}
	if err := json.Unmarshal(data, &in); err != nil {
		return err
	}
	var number string
	if json.Unmarshal(in.Number, &number) != nil {
		number = string(in.Number)
	}
	if number == "0" && in.Currency == "" {
		*m = Money{}
		return nil
	}
	read, err := NewMoney(number, in.Currency)
	if err != nil {
		return err
	}
	*m = read
	return nil
}
