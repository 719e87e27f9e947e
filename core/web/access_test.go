package web

import (
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

// anybodys, heres and mechanics are the routes that are no shop owner's. What is on none of these lists is.
var (
	anybodys  = []string{"GET /pair", "POST /pair", "GET /trust", "GET /authority.crt", "GET /static/{version}/{file}", "GET /worker.js", "GET /offline"}
	heres     = []string{"GET /shop/backup", "GET /lan", "POST /lan/offers", "POST /lan/devices/{device}/out"}
	mechanics = []string{"GET /{$}", "GET /live", "GET /manifest.webmanifest", "GET /shop/instruments", "POST /shop/zero",
		"GET /jobs/{job}", "GET /jobs/{job}/begin", "POST /jobs/{job}/marks", "POST /jobs/{job}/units", "GET /jobs/{job}/arrive", "POST /jobs/{job}/arrive",
		"GET /jobs/{job}/sheets", "GET /jobs/{job}/sheets/{subsystem}", "GET /jobs/{job}/labels", "GET /jobs/{job}/bench", "GET /jobs/{job}/bench/{subsystem}", "POST /jobs/{job}/bench/{subsystem}/again",
		"POST /jobs/{job}/readings", "POST /jobs/{job}/readings/{reading}/back", "GET /jobs/{job}/look", "GET /jobs/{job}/strip", "POST /jobs/{job}/strip",
		"GET /jobs/{job}/tags", "POST /jobs/{job}/tags", "POST /jobs/{job}/photos", "GET /tags", "GET /tags/{tag}", "POST /tags/{tag}", "GET /photos/{sum}", "GET /photos/{sum}/small",
		"GET /jobs/{job}/out", "GET /jobs/{job}/out/{number}", "POST /jobs/{job}/out/{number}", "GET /jobs/{job}/build", "GET /jobs/{job}/build/fit", "POST /jobs/{job}/build/fit", "POST /jobs/{job}/hours"}
)

// door is a LAN of two devices, by their tokens, and of one code.
type door struct {
	devices map[string]Device
	code    string
	now     time.Time
}

func newDoor() *door {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	return &door{map[string]Device{"m": {"1", "Wenna", Mechanic, now, now}, "o": {"2", "Jory", Owner, now, now}}, "AAAA-BBBB-CC", now}
}

func (d *door) Names() []string                { return []string{"bench", "bench.local"} }
func (d *door) Addresses() []string            { return []string{"https://192.168.1.20:8443"} }
func (d *door) Authority() []byte              { return []byte("an authority") }
func (d *door) Offer(role Role) (Offer, error) { return Offer{d.code, role, d.now}, nil }
func (d *door) Offers() []Offer {
	return []Offer{{d.code, Mechanic, d.now}, {"DDDD-EEEE-FF", Owner, d.now}}
}
func (d *door) Changed() int64             { return int64(len(d.devices)) }
func (d *door) Devices() ([]Device, error) { return slices.Collect(maps.Values(d.devices)), nil }
func (d *door) Holder(token string) (Device, bool) {
	x, ok := d.devices[token]
	return x, ok
}

func (d *door) Pair(code, name string) (string, Device, error) {
	if code != d.code {
		return "", Device{}, core.Errorf(core.NotFound, "show a new one", "the code is not good")
	}
	d.code = ""
	d.devices["new"] = Device{"3", name, Mechanic, d.now, d.now}
	return "new", d.devices["new"], nil
}

func (d *door) PutOut(id string) error {
	for token, x := range d.devices {
		if x.ID == id {
			delete(d.devices, token)
			return nil
		}
	}
	return core.Errorf(core.NotFound, "load the page again", "no such device has a key")
}

// lanOf is a shop that is open on the network.
func lanOf(t *testing.T, d *door) *Server {
	t.Helper()
	x := &shop{}
	s, err := New(t.Context(), Config{Name: "Hollow Lane Works", Zone: time.UTC, Clock: func() time.Time { return d.now }, By: "Jory", Stories: x, Plans: x, Readings: x, Changes: x, Jobs: x, Yard: x,
		Vehicles: x, Arriving: x, Office: x, LAN: d,
		Stripping: x, Tagging: x, Photos: x, Looking: x, Choosing: x, Reckoning: x, Papers: x, Outgoing: x, Building: x, Ending: x})
	require.NoError(t, err)
	return s
}

// over asks over the network, with a token or "".
func over(t *testing.T, h http.Handler, token, method, path, body string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequestWithContext(t.Context(), method, "https://192.168.1.20:8443"+path, strings.NewReader(body))
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	if token != "" {
		r.AddCookie(&http.Cookie{Name: sessionCookie, Value: token})
	}
	for i := 0; i < len(headers); i += 2 {
		if headers[i] == "Host" {
			r.Host = headers[i+1]
		}
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// Every route has the role that it is meant to have, and lets nobody with a lower one through.
func TestEveryRouteHasItsRole(t *testing.T) {
	s := lanOf(t, newDoor())
	seen := map[string]bool{}
	for _, r := range s.routes() {
		seen[r.at] = true
		want := Owner
		switch {
		case slices.Contains(anybodys, r.at):
			want = Anybody
		case slices.Contains(heres, r.at):
			want = Here
		case slices.Contains(mechanics, r.at):
			want = Mechanic
		}
		require.Equal(t, want, r.who, r.at)
		let := s.answer(route{r.at, func(w http.ResponseWriter, _ *http.Request) error { w.WriteHeader(http.StatusTeapot); return nil }, r.who})
		method, path, _ := strings.Cut(strings.NewReplacer("{$}", "", "{place...}", "x", "{", "", "}", "").Replace(r.at), " ")
		for who, token := range map[Role]string{Anybody: "", Mechanic: "m", Owner: "o"} {
			t.Run(fmt.Sprint(r.at, " by ", who), func(t *testing.T) {
				v := visitor{Role: who}
				w := httptest.NewRecorder()
				let.ServeHTTP(w, asked(httptest.NewRequestWithContext(t.Context(), method, path, nil), v))
				switch {
				case who >= r.who:
					require.Equal(t, http.StatusTeapot, w.Code)
					return
				case who == Anybody:
					require.Equal(t, http.StatusUnauthorized, w.Code)
				default:
					require.Equal(t, http.StatusForbidden, w.Code)
				}
				require.Equal(t, w.Code, over(t, s.OnNetwork(), token, method, path, "").Code, "the same over the network")
			})
		}
	}
	for _, at := range slices.Concat(anybodys, heres, mechanics) {
		require.True(t, seen[at], "no route %s", at)
	}
	for _, p := range jobPages {
		require.Contains(t, s.who, "/jobs/{job}"+p.Path, "a page on the way round that has no role")
	}
}

// Whom nobody has said who they are, may nothing.
func TestWhoIsNotKnownMayNothing(t *testing.T) {
	s := lanOf(t, newDoor())
	w := httptest.NewRecorder()
	s.handler.ServeHTTP(w, httptest.NewRequestWithContext(t.Context(), "GET", "/jobs/J-001/money", nil))
	require.Equal(t, http.StatusUnauthorized, w.Code)
}

func TestADeviceWithoutAKeyIsAskedForOne(t *testing.T) {
	h := lanOf(t, newDoor()).OnNetwork()
	w := over(t, h, "", "GET", "/", "")
	require.Equal(t, http.StatusUnauthorized, w.Code)
	require.Contains(t, w.Body.String(), `action="/pair"`)
	require.NotContains(t, w.Body.String(), "gearbox")
	require.Equal(t, "no-store", w.Header().Get("Cache-Control"))
	require.Equal(t, http.StatusUnauthorized, over(t, h, "", "GET", "/no/such/page", "").Code, "nor is it told what there is")

	// A script is told so as one, and its words stay with it.
	w = over(t, h, "", "POST", "/jobs/J-001/readings", `{"readings":[]}`, "Accept", "application/json")
	require.Equal(t, http.StatusUnauthorized, w.Code)
	require.JSONEq(t, `{"faults":[{"what":"this device has no key","next":"pair it: open the bench on it, and type the code that the shop's own machine shows"}]}`, w.Body.String())
	// A form is told that it was not taken.
	w = over(t, h, "", "POST", "/jobs/J-001/arrive", "")
	require.Equal(t, http.StatusUnauthorized, w.Code)
	require.Contains(t, w.Body.String(), "Nothing of it was written down")
}

func TestAMechanicSeesNoMoney(t *testing.T) {
	h := lanOf(t, newDoor()).OnNetwork()
	w := over(t, h, "m", "GET", "/jobs/J-001/money", "")
	require.Equal(t, http.StatusForbidden, w.Code)
	require.Contains(t, w.Body.String(), "This is not for a mechanic’s device")
	require.Contains(t, w.Body.String(), "Next: ask the shop owner")

	job := over(t, h, "m", "GET", "/jobs/J-001", "").Body.String()
	require.Contains(t, job, `href="/jobs/J-001/strip"`)
	for _, p := range []string{"/choices", "/money", "/papers", "/handover"} {
		require.NotContains(t, job, `href="/jobs/J-001`+p+`"`)
		require.Contains(t, over(t, h, "o", "GET", "/jobs/J-001", "").Body.String(), `href="/jobs/J-001`+p+`"`)
	}
	require.NotContains(t, over(t, h, "m", "GET", "/", "").Body.String(), `href="/shop"`)
	require.Contains(t, over(t, h, "o", "GET", "/", "").Body.String(), `href="/shop"`)
	// What outwork cost is not a mechanic's to say.
	require.Equal(t, http.StatusForbidden, over(t, h, "m", "POST", "/jobs/J-001/out/"+sentOut.ID, "do=take&charged=900").Code)
	require.Equal(t, http.StatusForbidden, over(t, h, "m", "POST", "/jobs/J-001/out/"+ordered.ID, url.Values{"do": {"exchange back"}}.Encode()).Code)
	require.Equal(t, http.StatusForbidden, over(t, h, "m", "POST", "/jobs/J-001/hours", "task=sorting&hours=1:30&rate=900").Code)
	require.Equal(t, http.StatusSeeOther, over(t, h, "m", "POST", "/jobs/J-001/hours", "task=sorting&hours=1:30").Code)
	require.NotContains(t, over(t, h, "m", "GET", "/jobs/J-001/build", "").Body.String(), `name="rate"`)
	require.Contains(t, over(t, h, "o", "GET", "/jobs/J-001/build", "").Body.String(), `name="rate"`)
	require.NotContains(t, over(t, h, "o", "GET", "/shop", "").Body.String(), "/shop/backup", "the whole book stays at the shop's own machine")
	require.NotContains(t, over(t, h, "m", "GET", "/jobs/J-001/out/"+sentOut.ID, "").Body.String(), "Price before tax")
	require.Contains(t, over(t, h, "o", "GET", "/jobs/J-001/out/"+sentOut.ID, "").Body.String(), "Price before tax")
}

// A code pairs one device; the key that a device had goes.
func TestPairing(t *testing.T) {
	d := newDoor()
	h := lanOf(t, d).OnNetwork()
	require.Contains(t, over(t, h, "", "GET", "/pair?code=AAAA-BBBB-CC", "").Body.String(), `value="AAAA-BBBB-CC"`)
	w := over(t, h, "", "POST", "/pair", "code=WRONG&device=Wenna")
	require.Equal(t, http.StatusNotFound, w.Code)
	require.Contains(t, w.Body.String(), "The code is not good")
	require.Contains(t, w.Body.String(), `value="Wenna"`)

	w = over(t, h, "o", "POST", "/pair", "code=AAAA-BBBB-CC&device=Wenna")
	require.Equal(t, http.StatusSeeOther, w.Code)
	cookie := w.Result().Cookies()[0]
	require.Equal(t, "__Host-fettle", cookie.Name)
	require.Equal(t, "new", cookie.Value)
	require.True(t, cookie.Secure && cookie.HttpOnly)
	require.Equal(t, http.SameSiteStrictMode, cookie.SameSite)
	require.Equal(t, "/", cookie.Path)
	require.Equal(t, int(KeyHolds/time.Second), cookie.MaxAge)
	require.NotContains(t, d.devices, "o", "it has another key now")
	require.Equal(t, http.StatusNotFound, over(t, h, "", "POST", "/pair", "code=AAAA-BBBB-CC&device=Another").Code, "a code is good once")
	require.Equal(t, 200, over(t, h, "new", "GET", "/", "").Code)

	// The shop's own machine takes it away.
	s := lanOf(t, d)
	r := httptest.NewRequestWithContext(t.Context(), "POST", "/lan/devices/3/out", nil)
	w = httptest.NewRecorder()
	s.ServeHTTP(w, r)
	require.Equal(t, http.StatusSeeOther, w.Code)
	require.Equal(t, http.StatusUnauthorized, over(t, h, "new", "GET", "/", "").Code)
}

// A key that is used is held on to.
func TestAKeyIsGivenAnewWhileItIsUsed(t *testing.T) {
	d := newDoor()
	h := lanOf(t, d).OnNetwork()
	require.Empty(t, over(t, h, "m", "GET", "/", "").Result().Cookies())
	d.now = d.now.Add(KeyTouched + time.Minute)
	require.Equal(t, "m", over(t, h, "m", "GET", "/", "").Result().Cookies()[0].Value)
}

func TestTheNetworkIsGuarded(t *testing.T) {
	h := lanOf(t, newDoor()).OnNetwork()
	for _, w := range []*httptest.ResponseRecorder{over(t, h, "m", "GET", "/", ""), over(t, h, "", "GET", "/", ""), over(t, h, "m", "GET", "/", "", "Host", "elsewhere.example")} {
		for k, v := range map[string]string{"Content-Security-Policy": "frame-ancestors 'none'", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin", "Strict-Transport-Security": "max-age"} {
			require.Contains(t, w.Header().Get(k), v, "%d", w.Code)
		}
	}
	s := lanOf(t, newDoor())
	w := httptest.NewRecorder()
	s.ServeHTTP(w, httptest.NewRequestWithContext(t.Context(), "GET", "http://127.0.0.1:8040/", nil))
	require.Empty(t, w.Header().Get("Strict-Transport-Security"), "this machine alone")

	// Asked for by another name, it answers nothing: that name may have been pointed here by another site.
	for host, code := range map[string]int{"elsewhere.example": 421, "elsewhere.example:8443": 421, "": 421, "bench": 200, "Bench.local:8443": 200, "bench.local.": 200, "10.0.0.9:8443": 200, "[fd00::1]:8443": 200} {
		require.Equal(t, code, over(t, h, "m", "GET", "/", "", "Host", host).Code, host)
	}
	// Nothing is written in a user's name by another site's page.
	for _, x := range [][]string{{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Origin", "https://elsewhere.example"}, {"Origin", "null"}} {
		for _, r := range s.routes() {
			method, path, _ := strings.Cut(strings.NewReplacer("{place...}", "x", "{", "", "}", "").Replace(r.at), " ")
			if method != http.MethodPost {
				continue
			}
			w := over(t, lanOf(t, newDoor()).OnNetwork(), "o", method, path, "", x...)
			require.Equal(t, http.StatusForbidden, w.Code, "%s %v", r.at, x)
			require.Contains(t, w.Body.String(), "asked for this, not the bench", "%s %v", r.at, x)
		}
	}
	// Without a key little is taken.
	w = over(t, h, "", "POST", "/pair", "code=AAAA-BBBB-CC&device="+strings.Repeat("x", mostByAnybody))
	require.NotEqual(t, http.StatusSeeOther, w.Code)
}

// Codes are tried slowly, whoever tries, and nobody's trying fills the memory.
func TestHowMuchMayBeAsked(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	l := newLimits(func() time.Time { return now })
	try := func(v visitor, method, path, from string) bool {
		r := httptest.NewRequestWithContext(t.Context(), method, path, nil)
		r.RemoteAddr = from
		return l.allows(v, r)
	}
	tries := func(v visitor, from func(int) string, n int) (let int) {
		for i := range n {
			if try(v, "POST", "/pair", from(i)) {
				let++
			}
		}
		return let
	}
	one := func(at string) func(int) string { return func(int) string { return at } }
	require.Equal(t, pairs.burst, tries(visitor{}, one("192.168.1.7:1"), 50))
	require.Zero(t, tries(visitor{Role: Mechanic, Device: "9"}, one("192.168.1.7:1"), 1), "a key makes nobody faster")
	now = now.Add(pairs.every)
	require.Equal(t, 1, tries(visitor{}, one("192.168.1.7:1"), 50))
	now = now.Add(time.Hour)
	require.Equal(t, pairs.burst, tries(visitor{}, func(i int) string { return fmt.Sprintf("[fd00::%x]:1", i+1) }, 50), "one machine has many addresses of IPv6")
	now = now.Add(time.Hour)
	require.Equal(t, allPairs.burst, tries(visitor{}, func(i int) string { return fmt.Sprintf("10.0.%d.%d:1", i/250, i%250) }, 900), "all together")

	for i := range 5 * mostLimits {
		try(visitor{}, "GET", "/", fmt.Sprintf("10.%d.%d.%d:1", i/65536, i/256%256, i%256))
	}
	require.LessOrEqual(t, len(l.unknown.by), mostLimits)
	// A device empties what it kept, and is slowed only then.
	let := 0
	for range 1000 {
		if try(visitor{Role: Mechanic, Device: "1"}, "POST", "/jobs/J-001/readings", "192.168.1.9:1") {
			let++
		}
	}
	require.Equal(t, posts.burst, let)
	now = now.Add(time.Second)
	require.True(t, try(visitor{Role: Mechanic, Device: "1"}, "POST", "/jobs/J-001/readings", "192.168.1.9:1"))
}

// This machine is asked for by its own name.
func TestThisMachineIsAskedByItsName(t *testing.T) {
	h := AtLoopback(lanOf(t, newDoor()))
	for host, code := range map[string]int{"127.0.0.1:8040": 200, "localhost:8040": 200, "[::1]:8040": 200, "elsewhere.example:8040": 421, "192.168.1.20:8040": 421, "": 421} {
		r := httptest.NewRequestWithContext(t.Context(), "GET", "/", nil)
		r.Host = host
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		require.Equal(t, code, w.Code, host)
	}
}

func TestPhonesAndTablets(t *testing.T) {
	d := newDoor()
	s := lanOf(t, d)
	get := func(path string) string {
		w := httptest.NewRecorder()
		s.ServeHTTP(w, httptest.NewRequestWithContext(t.Context(), "GET", path, nil))
		require.Equal(t, 200, w.Code)
		return w.Body.String()
	}
	page := get("/lan")
	rows := Fingerprint(d.Authority())
	require.Len(t, rows, 4)
	for _, part := range append(rows, "https://192.168.1.20:8443/trust", "AAAA-BBBB-CC", "DDDD-EEEE-FF", "Wenna", "shop owner") {
		require.Contains(t, page, part)
	}
	require.Equal(t, 2, strings.Count(page, "<svg"), "how to trust the shop, and the last code: a camera that sees two codes takes either")
	// What comes over an address that nobody trusts yet proves nothing.
	require.NotContains(t, over(t, s.OnNetwork(), "", "GET", "/trust", "").Body.String(), rows[0])
	w := over(t, s.OnNetwork(), "", "GET", "/authority.crt", "")
	require.Equal(t, d.Authority(), w.Body.Bytes())
	require.Equal(t, "application/x-x509-ca-cert", w.Header().Get("Content-Type"))

	// Where it is not open on the network, none of it is there.
	require.Contains(t, ask(t, "GET", "/lan", "").Body.String(), "fettle serve --lan")
	require.Equal(t, 404, ask(t, "GET", "/trust", "").Code)
	require.Equal(t, 404, ask(t, "POST", "/lan/offers", "").Code)
}
