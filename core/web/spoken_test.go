package web

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A page has a field or a button where an advice has a command.
func TestAnAdviceIsSpokenWithoutCommands(t *testing.T) {
	for said, want := range map[string]string{
		"say that they are there: --people 2":                                         "say that they are there",
		"do it, or skip it with a reason: fettle strip J-001 hub-off/LF --skip WHY":   "do it, or skip it with a reason",
		"take them first: fettle record J-001 ..., or write them off as lost: --lost": "take them first, or write them off as lost",
		"see: fettle tag J-001":                                                              "",
		`say where: --lies "rack 2, shelf 3"`:                                                "say where",
		"list the jobs with: fettle job list":                                                "list the jobs",
		"write T-014, or T-014-03 for a part of it":                                          "write T-014, or T-014-03 for a part of it",
		"see: the yard":                                                                      "see: the yard",
		`write them like "6 x 3/8 UNF 1 1/2 in, bag 3"`:                                      `write them like "6 x 3/8 UNF 1 1/2 in, bag 3"`,
		"fettle new job \"What it is\" --owner \"Whose it is\"":                              "",
		"say it: --rate 0 for nothing; or keep it: fettle party set \"X\" --hour AMOUNT, or": "say it; or keep it, or",
		"issue it: fettle scope J-001 --issue":                                               "issue it",
		"see: fettle send J-001":                                                             "",
		"name the outworker: --to NAME":                                                      "name the outworker",
		"tag the pieces first, then name them: --tags NUMBERS":                               "tag the pieces first, then name them",
		"fettle undo J-001, if that was wrong":                                               "",
		"ask again, then:\n  fettle price set x PRICE":                                       "ask again",
		"agree the price first, then: --price AMOUNT, or x":                                  "agree the price first",
		"leave --charged out, or say why it is right: --why WORDS":                           "leave charged out, or say why it is right",
	} {
		require.Equal(t, want, spoken(said), said)
	}
}
