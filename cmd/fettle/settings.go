package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"time"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/config"
	"github.com/fettle-tools/fettle/core/web"
)

// heldSettings is what the settings say, as they were read last.
type heldSettings struct {
	config.Settings
	file   stamp
	read   int64 // how often they have been read anew
	faulty error // why they do not say what the file says by now; nil: they do
}

// stamp tells two states of a file apart.
type stamp struct {
	size int64
	at   time.Time
}

func (s *shop) settingsFile() string { return filepath.Join(s.dir, config.SettingsFile) }

// stampOf is that of a file; zero, where it cannot be looked at.
func stampOf(name string) stamp {
	info, err := os.Stat(name)
	if err != nil {
		return stamp{}
	}
	return stamp{info.Size(), info.ModTime()}
}

// settings are what the shop says of itself.
func (s *shop) settings() config.Settings { return s.said.Load().Settings }

// settle reads the settings for the first time.
func (s *shop) settle() error {
	file := stampOf(s.settingsFile())
	settings, err := config.LoadSettings(s.dir, nil)
	if err != nil {
		return err
	}
	s.said.Store(&heldSettings{Settings: settings, file: file})
	return nil
}

// resettle reads the settings again if their file has changed. What they say with a fault does not hold: what they said before does.
func (s *shop) resettle() {
	was := s.said.Load()
	now := heldSettings{Settings: was.Settings, file: stampOf(s.settingsFile()), read: was.read + 1}
	if now.file == was.file {
		return
	}
	settings, err := config.LoadSettings(s.dir, nil)
	if now.faulty = err; err != nil {
		s.logger.Warn("the settings have changed and cannot be read", "error", err)
	} else {
		now.Settings = settings
	}
	s.said.CompareAndSwap(was, &now) // else somebody else has read them
}

// figures are what has to be written into the settings so that they say what was typed. All faults are told at once.
func (s *shop) figures(f web.Figures) (edits []config.Edit, err error) {
	var wrong faults
	now := s.settings()
	for _, h := range f.Hours {
		is := core.Money{}
		if i := slices.IndexFunc(now.Rates, func(r core.Rate) bool { return r.Skill == h.Skill }); i >= 0 {
			is = now.Rates[i].Hour
		}
		switch hour, err := core.ReadAmount(h.Hour, now.Currency); {
		case h.Hour == "" && is.IsZero() && is.CurrencyCode() == "":
		case h.Hour == "":
			edits = append(edits, config.Edit{In: "rates", Key: h.Skill})
		case err != nil || core.Minor(hour) < 0 || !skillWord.MatchString(h.Skill):
			wrong = append(wrong, core.Errorf(core.Invalid, "write an amount like 85 or 85.50", "%s: “%s” is no price of an hour", h.Skill, h.Hour))
		case is.CurrencyCode() == "" || core.Minor(hour) != core.Minor(is):
			edits = append(edits, config.Edit{In: "rates", Key: h.Skill, Value: hour.Number()})
		}
	}
	figure := func(key, what, typed string, now, least, most float64, whole bool) {
		x, err := strconv.ParseFloat(typed, 64)
		switch {
		case typed == "" && now != 0:
			edits = append(edits, config.Edit{Key: key})
		case typed == "":
		case err != nil || !(x >= least && x <= most) || whole && x != math.Trunc(x):
			wrong = append(wrong, core.Errorf(core.Invalid, fmt.Sprintf("write a number from %.0f to %.0f, or leave it blank", least, most), "%s: “%s” cannot be meant", what, typed))
		case x != now:
			edits = append(edits, config.Edit{Key: key, Value: core.FormatNumber(x)})
		}
	}
	figure("people", "hands present", f.People, float64(now.People), 1, 100, true)
	figure("weekly_hours", "hours a week", f.WeeklyHours, now.WeeklyHours, 1, 1000, false)
	return edits, wrong.orNil()
}

// editSettings writes values into the file of the settings: the whole of it, or nothing.
func (s *shop) editSettings(edits []config.Edit) error {
	name := s.settingsFile()
	cannot := func(err error) error {
		return &core.Error{Code: core.Unavailable, What: "the settings cannot be written", Where: name, Next: "look whether the file may be written and the disk has room", Err: err}
	}
	info, err := os.Stat(name)
	if err != nil {
		return cannot(err)
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return cannot(err)
	}
	if data, err = config.EditSettings(data, config.SettingsFile, edits); err != nil {
		return err
	}
	if err := writeWhole(name, data, info.Mode().Perm()); err != nil {
		return cannot(err)
	}
	return nil
}
