package core

import "strings"

// currencyCodes lists the codes of ISO 4217 (funds codes among them, metals and the codes for tests not), each after a
// blank, by how many digits their minor unit has.
var currencyCodes = [...]string{
	0: " BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
	2: " AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF CHW CNY COP COU" +
		" CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES" +
		" KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR" +
		" NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP" +
		" TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG",
	3: " BHD IQD JOD KWD LYD OMR TND",
	4: " CLF UYW",
}

// CurrencyDigits gives how many digits the minor unit of a currency has; ok is false if code is none of ISO 4217.
func CurrencyDigits(code string) (digits int, ok bool) {
	if len(code) != 3 || strings.ContainsRune(code, ' ') {
		return 0, false
	}
	for d, codes := range currencyCodes {
		if strings.Contains(codes, " "+code) {
			return d, true
		}
	}
	return 0, false
}

// ValidCurrency reports whether code is a known ISO 4217 code.
func ValidCurrency(code string) bool {
	_, ok := CurrencyDigits(code)
	return ok
}
