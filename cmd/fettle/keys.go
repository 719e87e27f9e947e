package main

import (
	"cmp"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"

	"github.com/fettle-tools/fettle/core"
	"github.com/fettle-tools/fettle/core/web"
)

// devicesDir holds, in lanDir, a file for each device that has a key, named by the SHA-256 of its token. When the file was changed is when the device was here
// last, and a device whose file has gone has no key: what one program takes away no other writes back.
const devicesDir = "devices"

// How long a code is good, how long a token, an id and a name are, and how many devices and codes there may be.
const (
	offerFor    = 10 * time.Minute
	tokenBytes  = 32
	idLetters   = 8 // of the hash
	nameLetters = 60
	mostDevices = 100
	mostOffers  = 5
)

// roleWords are the roles that a device can have, as its file has them.
var roleWords = map[string]web.Role{"mechanic": web.Mechanic, "owner": web.Owner}

// heldKey is a device as its file has it.
type heldKey struct {
	Name  string    `json:"name"`
	Role  string    `json:"role"` // one of roleWords
	Since time.Time `json:"since"`
}

// keys are the devices that may come in over the network, and the codes that let one in.
type keys struct {
	dir   string
	clock func() time.Time

	mu     sync.Mutex // of the codes, and of giving a key
	offers []web.Offer
}

// openKeys gives those of a shop, of which there may be none yet.
func openKeys(shopDir string, clock func() time.Time) *keys {
	return &keys{dir: filepath.Join(shopDir, lanDir, devicesDir), clock: clock}
}

// codeLetters are those that nobody mistakes for another on a greasy screen (Crockford's base 32).
const codeLetters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// newCode is 50 bits in ten letters: "K7QX-93MF-2B".
func newCode() string {
	b := make([]byte, 10)
	_, _ = rand.Read(b) // it never fails
	for i := range b {
		b[i] = codeLetters[int(b[i])%len(codeLetters)]
	}
	return string(b[:4]) + "-" + string(b[4:8]) + "-" + string(b[8:])
}

// plainCode is a code as typed, without what stands between its letters and with the letters that are meant.
func plainCode(s string) []byte {
	return []byte(strings.NewReplacer("-", "", " ", "", "O", "0", "I", "1", "L", "1").Replace(strings.ToUpper(s)))
}

// Offer makes a code that pairs one device.
func (k *keys) Offer(role web.Role) (web.Offer, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.forget()
	o := web.Offer{Code: newCode(), Role: min(role, web.Owner), Until: k.clock().Add(offerFor)}
	k.offers = append([]web.Offer{o}, k.offers...)
	k.offers = k.offers[:min(len(k.offers), mostOffers)]
	return o, nil
}

// forget drops codes that are good no longer. The lock is held.
func (k *keys) forget() {
	now := k.clock()
	k.offers = slices.DeleteFunc(k.offers, func(o web.Offer) bool { return !now.Before(o.Until) })
}

// Offers are the codes that are still good, the last first.
func (k *keys) Offers() []web.Offer {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.forget()
	return slices.Clone(k.offers)
}

// offered is where the code that is meant stands; -1 if it is not good. How long it takes says nothing of how much of it was right.
func (k *keys) offered(code string) int {
	at := -1
	for i, o := range k.offers {
		if subtle.ConstantTimeCompare(plainCode(o.Code), plainCode(code)) == 1 {
			at = i
		}
	}
	return at
}

// Pair takes a code and gives the device its token.
func (k *keys) Pair(code, name string) (string, web.Device, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.forget()
	name = nameShown(name)
	if name == "" {
		return "", web.Device{}, core.Errorf(core.Invalid, "write who uses it: what is written down from it bears that name", "the device has no name")
	}
	i := k.offered(code)
	if i < 0 {
		return "", web.Device{}, core.Errorf(core.NotFound, "have the shop's own machine show a new one: a code is good once, for ten minutes", "the code is not good")
	}
	held, err := k.list()
	if err != nil {
		return "", web.Device{}, err
	}
	if len(held) >= mostDevices {
		return "", web.Device{}, core.Errorf(core.Conflict, "take the key of one away first", "%d devices have a key already", len(held))
	}
	role := "mechanic"
	if k.offers[i].Role == web.Owner {
		role = "owner"
	}
	raw := make([]byte, tokenBytes)
	_, _ = rand.Read(raw) // it never fails
	token := base64.RawURLEncoding.EncodeToString(raw)
	now := k.clock().UTC()
	h := heldKey{Name: name, Role: role, Since: now}
	if err := k.write(sumOfToken(token), h, now); err != nil {
		return "", web.Device{}, err
	}
	k.offers = slices.Delete(k.offers, i, i+1)
	return token, h.device(sumOfToken(token), now), nil
}

func (k *keys) write(sum string, h heldKey, now time.Time) error {
	b, err := json.Marshal(h)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(k.dir, 0o700); err != nil {
		return lanFault(k.dir, "the folder cannot be made", err)
	}
	path := k.path(sum)
	if err := writeWhole(path, append(b, '\n'), 0o600); err != nil {
		return lanFault(path, "the file cannot be written", err)
	}
	return os.Chtimes(path, now, now)
}

func (k *keys) path(sum string) string { return filepath.Join(k.dir, sum+".json") }

// nameShown is a name as it is kept: short, of one line, and of nothing that would move a screen.
func nameShown(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		if !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, s)
	return firstLetters(strings.Join(strings.Fields(s), " "), nameLetters)
}

func firstLetters(s string, most int) string {
	letters := []rune(s)
	return string(letters[:min(len(letters), most)])
}

func sumOfToken(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}

func (h heldKey) device(sum string, seen time.Time) web.Device {
	return web.Device{ID: sum[:idLetters], Name: h.Name, Role: roleWords[h.Role], Since: h.Since, Seen: seen}
}

// read is the device of a hash, as it was when it was here last. One that was not here for too long has no key any more, nor has one whose file says no role.
func (k *keys) read(sum string) (web.Device, bool) {
	path := k.path(sum)
	st, err := os.Stat(path)
	if err != nil || k.clock().Sub(st.ModTime()) > web.KeyHolds {
		return web.Device{}, false
	}
	var h heldKey
	b, err := os.ReadFile(path)
	if err != nil || json.Unmarshal(b, &h) != nil || roleWords[h.Role] == web.Anybody {
		return web.Device{}, false
	}
	return h.device(sum, st.ModTime()), true
}

// Holder is the device that holds a token. Its use is written down from time to time.
func (k *keys) Holder(token string) (web.Device, bool) {
	if len(token) != base64.RawURLEncoding.EncodedLen(tokenBytes) {
		return web.Device{}, false
	}
	sum := sumOfToken(token)
	d, ok := k.read(sum)
	if now := k.clock(); ok && now.Sub(d.Seen) > web.KeyTouched {
		_ = os.Chtimes(k.path(sum), now, now) // that it was here is worth no refusal
	}
	return d, ok
}

var keyFile = regexp.MustCompile(`^([0-9a-f]{64})\.json$`)

// list gives the devices that have a key by their hashes, and throws away the files of those that have one no longer.
func (k *keys) list() (map[string]web.Device, error) {
	files, err := os.ReadDir(k.dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, lanFault(k.dir, "the devices' keys cannot be read", err)
	}
	out := map[string]web.Device{}
	for _, f := range files {
		m := keyFile.FindStringSubmatch(f.Name())
		if m == nil {
			continue
		}
		if d, ok := k.read(m[1]); ok {
			out[m[1]] = d
			continue
		}
		if st, err := f.Info(); err == nil && k.clock().Sub(st.ModTime()) > web.KeyHolds {
			_ = os.Remove(k.path(m[1])) // it opens nothing
		}
	}
	return out, nil
}

// Devices are those that have a key, the last first.
func (k *keys) Devices() ([]web.Device, error) {
	held, err := k.list()
	if err != nil {
		return nil, err
	}
	var out []web.Device
	for _, d := range held {
		out = append(out, d)
	}
	slices.SortFunc(out, func(a, b web.Device) int { return cmp.Or(b.Since.Compare(a.Since), cmp.Compare(a.ID, b.ID)) })
	return out, nil
}

// Changed is another number whenever a key was given or taken away, by whichever program, or a code is good no longer. That a device was here changes its
// file, not the folder.
func (k *keys) Changed() int64 {
	k.mu.Lock()
	k.forget()
	n := int64(len(k.offers))
	k.mu.Unlock()
	if st, err := os.Stat(k.dir); err == nil {
		n += st.ModTime().UnixNano()
	}
	return n
}

// PutOut takes a device's key away.
func (k *keys) PutOut(id string) error {
	held, err := k.list()
	if err != nil {
		return err
	}
	for sum, d := range held {
		if d.ID != id {
			continue
		}
		if err := os.Remove(k.path(sum)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return lanFault(k.path(sum), "the key cannot be taken away", err)
		}
		return nil
	}
	return core.Errorf(core.NotFound, "see: fettle device list", "no device %q has a key", id)
}

// writeWhole writes a file so that nobody ever sees half of it, and nobody else may read what is not theirs.
func writeWhole(path string, body []byte, mode os.FileMode) error {
	partial := path + ".partial"
	if err := os.Remove(partial); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	f, err := os.OpenFile(partial, os.O_CREATE|os.O_EXCL|os.O_WRONLY, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(body)
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(partial, path)
}
