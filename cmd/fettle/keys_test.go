package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// hand is a clock that is set by hand.
type hand struct{ at time.Time }

func (h *hand) now() time.Time { return h.at }

func newHand() *hand { return &hand{time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)} }

// A code is good once, for a while, however it is typed.
func TestACodeIsGoodOnce(t *testing.T) {
	h := newHand()
	k := openKeys(t.TempDir(), h.now)
	o, err := k.Offer(web.Mechanic)
	require.NoError(t, err)
	require.Regexp(t, `^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{2}$`, o.Code)

	for _, code := range []string{"", o.Code[:len(o.Code)-1], o.Code + "0", strings.Repeat("0", 10)} {
		_, _, err = k.Pair(code, "Wenna")
		require.Equal(t, core.NotFound, core.ErrorCode(err), code)
	}
	_, _, err = k.Pair(o.Code, " \t\x1b ")
	require.Equal(t, core.Invalid, core.ErrorCode(err), "a slip does not cost the code")
	require.Len(t, k.Offers(), 1)

	typed := strings.ToLower(strings.NewReplacer("-", " ", "0", "o", "1", "l").Replace(o.Code))
	token, d, err := k.Pair(typed, "Wenna\x1b[2J \n of the shed")
	require.NoError(t, err)
	require.Equal(t, "Wenna[2J of the shed", d.Name)
	require.Equal(t, web.Mechanic, d.Role)
	require.Empty(t, k.Offers())
	_, _, err = k.Pair(o.Code, "Another")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	held, ok := k.Holder(token)
	require.True(t, ok)
	require.Equal(t, d.ID, held.ID)

	// After ten minutes nobody has it.
	o, err = k.Offer(web.Owner)
	require.NoError(t, err)
	h.at = h.at.Add(offerFor)
	_, _, err = k.Pair(o.Code, "Late")
	require.Equal(t, core.NotFound, core.ErrorCode(err))
	// Only the last few are.
	for range mostOffers + 3 {
		_, err = k.Offer(web.Mechanic)
		require.NoError(t, err)
	}
	require.Len(t, k.Offers(), mostOffers)
}

// Of a token only its hash is kept, where nobody else may read it.
func TestATokenIsNotKept(t *testing.T) {
	h := newHand()
	dir := t.TempDir()
	k := openKeys(dir, h.now)
	o, err := k.Offer(web.Owner)
	require.NoError(t, err)
	token, d, err := k.Pair(o.Code, "Jory")
	require.NoError(t, err)
	require.Len(t, token, 43, "256 bits")
	require.Equal(t, web.Owner, d.Role)
	require.NoError(t, filepath.WalkDir(filepath.Join(dir, lanDir), func(p string, e os.DirEntry, err error) error {
		require.NoError(t, err)
		require.NotContains(t, p, token)
		st, err := e.Info()
		require.NoError(t, err)
		if runtime.GOOS != "windows" {
			require.Zero(t, st.Mode().Perm()&0o077, p)
		}
		if e.IsDir() {
			return nil
		}
		b, err := os.ReadFile(p)
		require.NoError(t, err)
		require.NotContains(t, string(b), token)
		require.NotContains(t, string(b), o.Code)
		return nil
	}))
	for _, wrong := range []string{"", token[:42], token + "A", strings.Repeat("A", 43), "../" + token[3:]} {
		_, ok := k.Holder(wrong)
		require.False(t, ok, wrong)
	}
}

// A key that is used holds; one that is not ends; one that is taken away, by whichever program, is gone at once.
func TestHowLongAKeyHolds(t *testing.T) {
	h := newHand()
	dir := t.TempDir()
	k := openKeys(dir, h.now)
	pair := func(name string) string {
		o, err := k.Offer(web.Mechanic)
		require.NoError(t, err)
		token, _, err := k.Pair(o.Code, name)
		require.NoError(t, err)
		return token
	}
	used, left := pair("used"), pair("left")
	for range 5 {
		h.at = h.at.Add(web.KeyHolds / 2)
		d, ok := k.Holder(used)
		require.True(t, ok)
		require.True(t, d.Seen.Before(h.at), "as it was before")
	}
	_, ok := k.Holder(left)
	require.False(t, ok)
	devices, err := k.Devices()
	require.NoError(t, err)
	require.Len(t, devices, 1)
	files, err := os.ReadDir(k.dir)
	require.NoError(t, err)
	require.Len(t, files, 1, "what opens nothing is thrown away")

	other := openKeys(dir, h.now) // another program
	require.NoError(t, other.PutOut(devices[0].ID))
	h.at = h.at.Add(2 * web.KeyTouched)
	_, ok = k.Holder(used)
	require.False(t, ok)
	require.Equal(t, core.NotFound, core.ErrorCode(k.PutOut(devices[0].ID)))
	devices, err = k.Devices()
	require.NoError(t, err)
	require.Empty(t, devices)
}

// A file that says no role opens nothing.
func TestAKeyWithoutARoleOpensNothing(t *testing.T) {
	h := newHand()
	k := openKeys(t.TempDir(), h.now)
	token := strings.Repeat("A", 43)
	for _, body := range []string{"", "{", `{}`, `{"name":"x","role":"here"}`, `{"name":"x","role":"the shop's own machine"}`} {
		require.NoError(t, k.write(sumOfToken(token), heldKey{}, h.at))
		require.NoError(t, os.WriteFile(k.path(sumOfToken(token)), []byte(body), 0o600))
		_, ok := k.Holder(token)
		require.False(t, ok, body)
	}
}

func TestThereIsRoomForSoManyDevices(t *testing.T) {
	h := newHand()
	k := openKeys(t.TempDir(), h.now)
	for i := range mostDevices + 1 {
		o, err := k.Offer(web.Mechanic)
		require.NoError(t, err)
		_, _, err = k.Pair(o.Code, "one")
		if i == mostDevices {
			require.Equal(t, core.Conflict, core.ErrorCode(err))
			return
		}
		require.NoError(t, err)
	}
}
