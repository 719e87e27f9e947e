package core

import "strings"

// LineKind says what a line of the order is.
type LineKind string

// The kinds of line.
const (
	LineStrip   LineKind = "strip"   // opening a step
	LineRefit   LineKind = "refit"   // closing it again
	LineWork    LineKind = "work"    // an operation: hours, goods, outwork
	LineReserve LineKind = "reserve" // what may fall due, at its chance
)

// Line is one line of the work order. Amounts are expected amounts; ranges stand beside them. Each line keeps
// the ids of what is behind it: "why?" is answered by following fields.
type Line struct {
	ID         string       `json:"id"`
	Kind       LineKind     `json:"kind"`
	Subsystem  string       `json:"subsystem,omitempty"`
	Unit       string       `json:"unit,omitempty"`
	Name       string       `json:"name"`
	Amount     Money        `json:"amount"`
	Low        Money        `json:"low"`
	Likely     Money        `json:"likely"`
	High       Money        `json:"high"`
	Hours      Range3       `json:"hours"`
	Skill      string       `json:"skill,omitempty"`
	Items      []OrderItem  `json:"items,omitempty"`
	Outwork    string       `json:"outwork,omitempty"` // what kind of outworker; "" done in the shop
	LeadWeeks  Range3       `json:"lead_weeks"`
	Chance     *float64     `json:"chance,omitempty"` // of a reserve
	Tax        Money        `json:"tax"`
	TaxShares  []TaxedShare `json:"tax_shares,omitempty"`
	Typical    Money        `json:"typical"` // of the amount, what rests on typical prices nobody has asked
	Places     []Place      `json:"places,omitempty"`
	Remedies   []string     `json:"remedies,omitempty"`
	FindingIDs []string     `json:"finding_ids,omitempty"`
	Checks     []string     `json:"checks,omitempty"`
	Rules      []string     `json:"rules,omitempty"`
	Cautions   []Caution    `json:"cautions,omitempty"`
	Safety     bool         `json:"safety,omitempty"` // serves a safety-critical part: refused, the vehicle leaves on a trailer
	People     int          `json:"people,omitempty"`
	Shared     int          `json:"shared,omitempty"` // how many remedies it serves: done once
}

// reserveWord begins the name of a reserve's line.
const reserveWord = "Reserve: "

// Bare is the line's name without the word that it is held in reserve.
func (l Line) Bare() string { return strings.TrimPrefix(l.Name, reserveWord) }

// OrderItem is something to buy or take from the shelf.
type OrderItem struct {
	Key      string  `json:"key"`
	Name     string  `json:"name"`
	Count    float64 `json:"count"`
	Each     Money   `json:"each"`
	Supplier string  `json:"supplier,omitempty"`
	Kind     string  `json:"kind,omitempty"`
	Typical  bool    `json:"typical"` // "typical, not asked"
	Old      bool    `json:"old"`     // the price is older than PriceOldDays
	OneUse   bool    `json:"one_use"`
}

// Unpriced reports that nobody knows what it costs: no price is written down, and no typical one is known in the job's currency.
func (it OrderItem) Unpriced() bool { return it.Kind == "" && !it.Typical && it.Each.IsZero() }

// TaxedShare is the part of a line in one tax class.
type TaxedShare struct {
	Class  string `json:"class"`
	Amount Money  `json:"amount"`
}

// WorkOrder is the lines and their sums. Totals are sums of rounded lines.
type WorkOrder struct {
	Lines          []Line     `json:"lines"`
	TotalBeforeTax Money      `json:"total_before_tax"`
	Tax            Money      `json:"tax"`
	Taxes          []TaxTotal `json:"taxes"`
	Total          Money      `json:"total"`
	Typical        Money      `json:"typical"` // what of it rests on typical prices
	HoursExpected  float64    `json:"hours_expected"`
	DoneOnce       float64    `json:"done_once_hours"` // likely strip hours saved against each subsystem by itself
	// Left are ordinary parts that nothing is done to, to keep within what may be spent.
	Left []LeftPart `json:"left,omitempty"`
}

// LeftPart is a part that is left as it is.
type LeftPart struct {
	Place
	PartName string `json:"part_name"`
}

// String gives the part as spoken: "Crankpin P4".
func (l LeftPart) String() string { return strings.TrimSpace(l.PartName + " " + l.Position) }

// TaxTotal is the tax of one class.
type TaxTotal struct {
	Class   string `json:"class"`
	Name    string `json:"name"`
	Percent string `json:"percent"`
	Base    Money  `json:"base"`
	Tax     Money  `json:"tax"`
}
