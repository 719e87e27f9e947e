package main

import (
	"strconv"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// typedAmount reads an amount in the shop's currency, rounded to its minor unit; "" is none. The flag it was typed for stands in an error; it may be blank.
func (s *shop) typedAmount(flag, text string) (core.Money, error) {
	if text = strings.TrimSpace(text); text == "" {
		return core.Money{}, nil
	}
	m, err := core.ReadAmount(text, s.settings().Currency)
	if err != nil && flag != "" {
		return m, core.Errorf(core.Invalid, core.ErrorNext(err), "--%s %s", flag, err)
	}
	return m, err
}

// typedAmountOr is typedAmount where not saying anything differs from saying 0.
func (s *shop) typedAmountOr(flag, text string) (*core.Money, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	m, err := s.typedAmount(flag, text)
	return &m, err
}

// spans are the words for a time from now.
var spans = map[string]int{"day": 1, "days": 1, "week": 7, "weeks": 7}

// typedDate reads a day like 2026-12-20, or a time from now like "6 weeks"; "" is no day. It gives the start of that day in the shop's zone, in UTC.
func (s *shop) typedDate(flag, text string) (time.Time, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return time.Time{}, nil
	}
	if day, err := time.ParseInLocation(time.DateOnly, text, s.settings().Zone); err == nil {
		return day.UTC(), nil
	}
	if count, span, ok := strings.Cut(text, " "); ok {
		if n, err := strconv.Atoi(count); err == nil && n >= 0 && n < 1000 && spans[strings.TrimSpace(span)] > 0 {
			now := s.c.clock().In(s.settings().Zone)
			return time.Date(now.Year(), now.Month(), now.Day()+n*spans[strings.TrimSpace(span)], 0, 0, 0, 0, s.settings().Zone).UTC(), nil
		}
	}
	return time.Time{}, core.Errorf(core.Invalid, `write it like 2026-12-20, or "6 weeks"`, "--%s %q is no day", flag, text)
}

// typedDue is typedDate of a day that is promised: it has to come yet.
func (s *shop) typedDue(text string) (time.Time, error) {
	day, err := s.typedDate("due", text)
	y, m, d := s.c.clock().In(s.settings().Zone).Date()
	if err == nil && !day.IsZero() && day.Before(time.Date(y, m, d, 0, 0, 0, 0, s.settings().Zone)) {
		return day, core.Errorf(core.Invalid, `name a day to come, or "3 weeks"`, "--due %q is past", text)
	}
	return day, err
}

// day shows a time as a day in the shop's zone; a zero time is blank.
func (s *shop) day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.In(s.settings().Zone).Format("2 January 2006")
}
