package core

// Party is a person or firm: owner, payer, outworker, supplier, helper. The shop keeps each once, by name.
type Party struct {
	Name    string   `json:"name"`
	Address []string `json:"address,omitempty"`
	Contact string   `json:"contact,omitempty"`
	Roles   []string `json:"roles,omitempty"` // of PartyRoles
	// Standing is what it pays as: owner, insurer, charity, museum, trade ...; nothing else differs between them.
	Standing  string `json:"standing,omitempty"`
	TaxExempt bool   `json:"tax_exempt,omitempty"`
	TaxWhy    string `json:"tax_why,omitempty"` // the ground of the exemption, as printed
	// MayAuthorise is the largest sum, tax included, it may authorise for somebody; nil: no limit is known.
	MayAuthorise *Money `json:"may_authorise,omitempty"`
	// HourRate is what an hour of its own work is charged at; 0 for a volunteer or an owner; nil: the shop's rate of the skill.
	HourRate *Money `json:"hour_rate,omitempty"`
	Note     string `json:"note,omitempty"`
}

// PartyRoles are what a party may be to the shop.
var PartyRoles = []string{"owner", "payer", "outworker", "supplier", "volunteer", "mechanic"}

// Payer is who pays which part of a job.
type Payer struct {
	Party string `json:"party"`
	// Percent of the whole, or of its subsystems; decimal text. "" with subsystems: all of them.
	Percent    string   `json:"percent,omitempty"`
	Subsystems []string `json:"subsystems,omitempty"` // none: of every line
}
