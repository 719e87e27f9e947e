package web

import (
	"net/http"
	"net/netip"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// pace is how often something may be done in the long run, and how often at once.
type pace struct {
	every time.Duration
	burst int
}

// How much may be asked. A code is tried some times a minute, by one and by all together; a device posts as fast as it empties what it kept.
var (
	pairs    = pace{6 * time.Second, 5}
	allPairs = pace{time.Second, 20}
	posts    = pace{100 * time.Millisecond, 120}
	asks     = pace{20 * time.Millisecond, 400}
	crowd    = pace{10 * time.Millisecond, 400} // all those together that there is no room to tell apart
)

// mostLimits is how many are told apart.
const mostLimits = 1000

func (p pace) limiter() *rate.Limiter { return rate.NewLimiter(rate.Every(p.every), p.burst) }

// limits holds who has asked how much. However many strangers ask, those who have a key are not slowed.
type limits struct {
	clock            func() time.Time
	mu               sync.Mutex
	pairs            *rate.Limiter
	devices, unknown *askers
}

// askers are told apart by a name, as far as there is room.
type askers struct {
	by    map[string]*rate.Limiter
	crowd *rate.Limiter
}

func newLimits(clock func() time.Time) *limits {
	return &limits{clock: clock, pairs: allPairs.limiter(), devices: newAskers(), unknown: newAskers()}
}

func newAskers() *askers { return &askers{map[string]*rate.Limiter{}, crowd.limiter()} }

// allows reports that a request may be answered.
func (l *limits) allows(v visitor, r *http.Request) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.clock()
	from, who := l.unknown, addressOf(r)
	if v.Device != "" {
		from, who = l.devices, v.Device
	}
	switch {
	case !from.of("asks "+who, asks, now).AllowN(now, 1):
		return false
	case r.Method == http.MethodGet || r.Method == http.MethodHead:
		return true
	case r.URL.Path == "/pair": // whoever has a key tries no faster
		return l.unknown.of("pairs "+addressOf(r), pairs, now).AllowN(now, 1) && l.pairs.AllowN(now, 1)
	}
	return from.of("posts "+who, posts, now).AllowN(now, 1)
}

// addressOf is where a request comes from. Of IPv6 it is the network: one machine has as many addresses there as it likes.
func addressOf(r *http.Request) string {
	at, err := netip.ParseAddrPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	ip := at.Addr().Unmap()
	if ip.Is4() {
		return ip.String()
	}
	return netip.PrefixFrom(ip.WithZone(""), 64).Masked().String()
}

// of is the limit that somebody has. Where there is no room for one more, those that are long rested go first.
func (a *askers) of(key string, p pace, now time.Time) *rate.Limiter {
	if x := a.by[key]; x != nil {
		return x
	}
	if len(a.by) >= mostLimits {
		for k, x := range a.by {
			if x.TokensAt(now) >= float64(x.Burst()) {
				delete(a.by, k)
			}
		}
	}
	if len(a.by) >= mostLimits {
		return a.crowd
	}
	x := p.limiter()
	a.by[key] = x
	return x
}
