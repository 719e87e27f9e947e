package core_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func TestHoursAsTyped(t *testing.T) {
	for text, want := range map[string]float64{"1.5": 1.5, ".75": .75, "1:30": 1.5, "0:06": .1, "-0:30": -.5, " 2 ": 2} {
		got, err := core.ParseHours(text)
		require.NoError(t, err, text)
		require.InDelta(t, want, got, 1e-12, text)
	}
	for _, text := range []string{"", "two", "1:5", "1:60", "1.5:30", "1e3", "--1", "Inf", "nan", "1:-3", "0x10"} {
		_, err := core.ParseHours(text)
		require.Equal(t, core.Invalid, core.ErrorCode(err), text)
		require.NotEmpty(t, core.ErrorNext(err))
	}
}

func dollars(t *testing.T, s string) core.Money {
	t.Helper()
	m, err := core.NewMoney(s, "USD")
	require.NoError(t, err)
	return m
}

// TestAnHourIsChargedAtWhatIsKnown: the party's own, then the job's for the subsystem, then the shop's of the skill; never a guess.
func TestAnHourIsChargedAtWhatIsKnown(t *testing.T) {
	nothing, own := dollars(t, "0"), dollars(t, "40")
	rates := []core.Rate{{Skill: "mechanic", Hour: dollars(t, "85")}}
	s := core.Story{Parties: []core.Party{{Name: "Ned", HourRate: &nothing}, {Name: "Marta"}}, Job: core.Job{Labour: []core.Labour{{Subsystem: "body", Who: "Marta", Hour: own}}}}
	for _, c := range []struct {
		who, subsystem, skill string
		want                  string
	}{{"ned", "body", "mechanic", "0"}, {"Marta", "body", "mechanic", "40"}, {"Marta", "gearbox", "mechanic", "85"}, {"Jory", "body", "mechanic", "85"}} {
		got, err := s.HourRate(c.who, c.subsystem, c.skill, rates)
		require.NoError(t, err)
		require.Equal(t, core.Minor(dollars(t, c.want)), core.Minor(got), "%v", c)
	}
	_, err := s.HourRate("Jory", "body", "trimmer", rates)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
	require.Contains(t, core.ErrorNext(err), "--rate 0")
}

// TestATimerRunsUntilItsHoursAreWritten: one a person; it ends by its hours alone, and is dropped without any.
func TestATimerRunsUntilItsHoursAreWritten(t *testing.T) {
	eight := time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)
	s := &core.Story{Job: core.Job{Number: "J-001", State: core.StateStripping}}
	do := func(a core.Act, at time.Time) error {
		_, err := s.Do(a, core.Stamp{By: "Jory", At: at})
		return err
	}
	start := &core.Timer{Who: "Jory", Task: "engine-out", Rate: dollars(t, "85")}
	require.NoError(t, do(start, eight))
	require.Equal(t, core.Conflict, core.ErrorCode(do(&core.Timer{Who: "jory", Task: "head-off"}, eight)))
	require.NoError(t, do(&core.Timer{Who: "Wenna", Task: "head-off"}, eight.Add(time.Hour)))
	_, err := s.Running("Jory").Ended(eight.Add(10 * time.Second))
	require.ErrorContains(t, err, "less than a minute")
	_, err = s.Running("Jory").Ended(eight.Add(25 * time.Hour))
	require.ErrorContains(t, err, "forgotten")
	w, err := s.Running("Jory").Ended(eight.Add(100 * time.Minute))
	require.NoError(t, err)
	require.Equal(t, 1.67, w.Hours)
	require.NoError(t, do(&w, eight.Add(100*time.Minute)))
	require.Nil(t, s.Running("Jory"))
	require.NotNil(t, s.Running("Wenna"))
	require.Equal(t, core.Conflict, core.ErrorCode(do(&w, eight.Add(2*time.Hour))), "a timer ends once")
	require.NoError(t, do(&core.Timer{Who: "Wenna", Dropped: true}, eight))
	require.Empty(t, s.Timers)
	require.Equal(t, core.Conflict, core.ErrorCode(do(&core.Timer{Who: "Wenna", Dropped: true}, eight)))
	s.Job.State = core.StateHandedOver
	require.Equal(t, core.Conflict, core.ErrorCode(do(&core.Timer{Who: "Wenna", Task: "x"}, eight)))
}

func TestHoursByTaskAndPerson(t *testing.T) {
	s := core.Story{}
	for _, w := range []core.Worked{{Who: "Jory", Task: "engine-out", Hours: 2, Rate: dollars(t, "85")}, {Who: "Ned", Task: "engine-out", Hours: 1.5, Rate: dollars(t, "0")},
		{Who: "Jory", Task: "sweeping", Hours: .5, Rate: dollars(t, "85")}, {Who: "jory", Task: "engine-out", Hours: -.5, Rate: dollars(t, "85")}} {
		s.Fold(&w, core.Stamp{})
	}
	likely := core.Range3{Low: 2, Likely: 3, High: 5}
	got := s.TaskHours(func(task, _ string) *core.Range3 {
		if task == "engine-out" {
			return &likely
		}
		return nil
	})
	require.Equal(t, []core.TaskHours{
		{Task: "engine-out", Hours: 3, People: []core.PersonHours{{Who: "Jory", Hours: 1.5}, {Who: "Ned", Hours: 1.5}}, Labour: dollars(t, "127.50"), Expected: &likely},
		{Task: "sweeping", Hours: .5, People: []core.PersonHours{{Who: "Jory", Hours: .5}}, Labour: dollars(t, "42.50")}}, got)
}
