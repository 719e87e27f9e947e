package config

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
	"github.com/spf13/viper"

	"github.com/fettle-tools/fettle/core"
)

// overlay lays variables and flags over the scalars of the settings file.
type overlay struct {
	d     *document
	v     *viper.Viper
	flags *pflag.FlagSet
}

// scalars are the settings that a variable or a flag may give.
func (f *settingsFile) scalars() map[string]*text {
	return map[string]*text{"currency": &f.Currency, "zone": &f.Zone, "people": &f.People, "weekly_hours": &f.WeeklyHours,
		"valid_days": &f.ValidDays, "payment": &f.Payment, "plugin_dir": &f.PluginDir, "seed": &f.Seed, "trials": &f.Trials}
}

func flagName(key string) string { return strings.ReplaceAll(key, "_", "-") }

func envName(key string) string { return "FETTLE_" + strings.ToUpper(key) }

// lay gives every scalar its value: flag, else variable, else file.
func (o overlay) lay(f *settingsFile) {
	o.v.SetEnvPrefix("FETTLE")
	for key, t := range f.scalars() {
		if t.s != "" {
			o.v.SetDefault(key, t.s)
		}
		_ = o.v.BindEnv(key) // fails without a key only
		if flag := o.flag(key); flag != nil && flag.Changed {
			_ = o.v.BindPFlag(key, flag) // fails without a flag only
		}
		if s := o.v.GetString(key); s != "" {
			t.s = strings.TrimSpace(s)
		}
	}
}

func (o overlay) flag(key string) *pflag.Flag {
	if o.flags == nil {
		return nil
	}
	return o.flags.Lookup(flagName(key))
}

// fault tells what is wrong with a scalar at the place it came from.
func (o overlay) fault(key string, t text, next, format string, args ...any) {
	f := Fault{What: fmt.Sprintf(format, args...), Next: next}
	switch flag := o.flag(key); {
	case flag != nil && flag.Changed:
		f.Field = "--" + flag.Name
	case os.Getenv(envName(key)) != "":
		f.Field = envName(key)
	default:
		f.File, f.Line, f.Column = o.d.file, t.line, t.column
	}
	o.d.faults = append(o.d.faults, f)
}

// number reads a scalar as a number in [low, high]; 0 if it is blank.
func (o overlay) number(key string, t text, low, high float64, whole bool) float64 {
	if t.s == "" {
		return 0
	}
	x, err := strconv.ParseFloat(t.s, 64)
	switch {
	case err != nil || math.IsNaN(x):
		o.fault(key, t, "write a number", "%s: %q is no number", key, t.s)
	case x < low || x > high:
		o.fault(key, t, "write a number from "+core.FormatNumber(low)+" to "+core.FormatNumber(high), "%s: %s is outside what can be meant", key, t.s)
	case whole && x != math.Trunc(x):
		o.fault(key, t, "write a whole number", "%s: %s is no whole number", key, t.s)
	default:
		return x
	}
	return 0
}
