package main

import (
	"io"
	"net"
	"net/netip"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core/web"
)

// One machine takes no more lines than leave room for the others, and has room again when it lets one go.
func TestNoMachineTakesAllLines(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	n := &nearby{Listener: l, open: map[netip.Prefix]int{}}
	t.Cleanup(func() { require.NoError(t, l.Close()) })
	taken := make(chan net.Conn)
	go func() {
		for {
			c, err := n.Accept()
			if err != nil {
				close(taken)
				return
			}
			taken <- c
		}
	}()
	calls := func() net.Conn {
		c, err := net.Dial("tcp", l.Addr().String())
		require.NoError(t, err)
		t.Cleanup(func() { _ = c.Close() })
		return c
	}
	var held []net.Conn
	for range mostLinesOf {
		calls()
		held = append(held, <-taken)
	}
	more := calls()
	require.NoError(t, more.SetReadDeadline(time.Now().Add(5*time.Second)))
	_, err = more.Read(make([]byte, 1))
	require.ErrorIs(t, err, io.EOF, "it is shut at once")
	require.NoError(t, held[0].Close())
	_ = held[0].Close() // closed twice it is counted out once
	calls()
	held = append(held[1:], <-taken)
	require.Len(t, n.open, 1)
	for _, c := range held {
		require.NoError(t, c.Close())
	}
	require.Empty(t, n.open, "nobody is remembered for ever")

	at := func(s string) netip.Prefix {
		return machineAt(net.TCPAddrFromAddrPort(netip.MustParseAddrPort(s)))
	}
	require.Equal(t, at("[::ffff:192.168.1.7]:1"), at("192.168.1.7:2"))
	require.NotEqual(t, at("192.168.1.7:1"), at("192.168.1.8:1"))
	require.Equal(t, at("[fd00::1]:1"), at("[fd00::2:1]:1"))
	require.Equal(t, at("[fe80::1%eth0]:1"), at("[fe80::2%eth1]:1"))
}

// At a screen it is said where the bench is, by which authority, and a code is shown in words and as a square; to a script never a code.
func TestWhatIsSaidAtTheStart(t *testing.T) {
	h := newHand()
	a, err := openAuthority(t.TempDir(), "Hollow Lane Works", namesOn("bench"), h.at)
	require.NoError(t, err)
	at := ips("127.0.0.1", "172.16.0.9", "fd00::20", "8.8.8.8", "192.168.1.20", "fe80::1")
	l := &lan{keys: openKeys(t.TempDir(), h.now), port: 8443, leaves: &leaves{authority: a, names: namesOn("bench"), addresses: func() []net.IP { return at }, clock: h.now}}
	require.Equal(t, []string{"https://192.168.1.20:8443", "https://172.16.0.9:8443", "https://[fd00::20]:8443"}, l.Addresses(), "the likeliest first, none that a phone cannot reach")

	said, err := l.words("http://127.0.0.1:8040/", false)
	require.NoError(t, err)
	require.Empty(t, l.Offers(), "nobody sees a code here")
	for _, part := range append(web.Fingerprint(l.Authority()), "https://192.168.1.20:8443/", "http://127.0.0.1:8040/lan") {
		require.Contains(t, said, part)
	}
	require.NotContains(t, said, "▀")

	said, err = l.words("http://127.0.0.1:8040/", true)
	require.NoError(t, err)
	o := l.Offers()
	require.Len(t, o, 1)
	require.Equal(t, web.Mechanic, o[0].Role)
	require.Contains(t, said, o[0].Code)
	require.Greater(t, strings.Count(said, "▀"), 50)

	at = ips("127.0.0.1", "8.8.8.8")
	said, err = l.words("http://127.0.0.1:8040/", true)
	require.NoError(t, err)
	require.Contains(t, said, "no address on a workshop's own network")
	require.Len(t, l.Offers(), 1, "a code that no phone can use is not made")
}
