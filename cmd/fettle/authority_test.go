package main

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/fettle-tools/fettle/core"
)

func ips(texts ...string) (out []net.IP) {
	for _, s := range texts {
		out = append(out, net.ParseIP(s))
	}
	return out
}

// verified asks whether a certificate holds for a name or an address, by the authority alone.
func verified(a *authority, cert *x509.Certificate, name string, at time.Time) error {
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	_, err := cert.Verify(x509.VerifyOptions{Roots: roots, DNSName: name, CurrentTime: at})
	return err
}

// The authority is the shop's own, is made once, and its key is nobody else's to read.
func TestTheAuthorityIsTheShops(t *testing.T) {
	h, dir := newHand(), t.TempDir()
	a, err := openAuthority(dir, "Hollow Lane Works of a very long name, which goes on and on and on", namesOn("Bench.example"), h.at)
	require.NoError(t, err)
	require.LessOrEqual(t, len(a.cert.Subject.CommonName), 64)
	st, err := os.Stat(filepath.Join(dir, lanDir, authorityKey))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), st.Mode().Perm())
	st, err = os.Stat(filepath.Join(dir, lanDir))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o700), st.Mode().Perm())

	again, err := openAuthority(dir, "Another name", namesOn("renamed"), h.at.AddDate(5, 0, 0))
	require.NoError(t, err)
	require.Equal(t, a.cert.Raw, again.cert.Raw, "devices trust this one")
	leaf, err := again.leaf(namesOn("renamed"), ips("192.168.1.20"), h.at.AddDate(5, 0, 0))
	require.NoError(t, err)
	require.Empty(t, leaf.Leaf.DNSNames, "a name that it may not vouch for is left out, for the addresses' sake")
	require.NoError(t, verified(again, leaf.Leaf, "192.168.1.20", h.at.AddDate(5, 0, 0)))
	anew, err := openAuthority(dir, "Hollow Lane Works", namesOn("bench"), h.at.AddDate(authorityYears, 0, -1))
	require.NoError(t, err)
	require.NotEqual(t, a.cert.Raw, anew.cert.Raw)

	require.NoError(t, os.Chmod(filepath.Join(dir, lanDir, authorityKey), 0o640))
	_, err = openAuthority(dir, "Hollow Lane Works", namesOn("bench"), h.at)
	require.Equal(t, core.Conflict, core.ErrorCode(err))
	require.Contains(t, core.ErrorNext(err), "chmod 600")
	require.NoError(t, os.Chmod(filepath.Join(dir, lanDir, authorityKey), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, lanDir, authorityFile), []byte("torn"), 0o600))
	_, err = openAuthority(dir, "Hollow Lane Works", namesOn("bench"), h.at)
	require.Equal(t, core.Invalid, core.ErrorCode(err))
}

// It vouches for the workshop's own addresses and names and for none else, even to whoever has stolen its key.
func TestTheAuthorityIsHeldToTheWorkshop(t *testing.T) {
	h := newHand()
	for _, host := range []string{"bench", "localhost", "", "not a host name", strings.Repeat("x", 64)} {
		a, err := openAuthority(t.TempDir(), "Hollow Lane Works", namesOn(host), h.at)
		require.NoError(t, err)
		require.True(t, a.cert.PermittedDNSDomainsCritical)
		key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
		require.NoError(t, err)
		forged := func(names []string, at []net.IP) *x509.Certificate {
			der, err := x509.CreateCertificate(rand.Reader, &x509.Certificate{SerialNumber: big.NewInt(7), NotBefore: h.at.Add(-time.Hour), NotAfter: h.at.AddDate(1, 0, 0), DNSNames: names, IPAddresses: at,
				ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}, a.cert, key.Public(), a.key)
			require.NoError(t, err)
			cert, err := x509.ParseCertificate(der)
			require.NoError(t, err)
			return cert
		}
		for _, name := range []string{"elsewhere.example", "other.local", "example"} {
			require.ErrorContains(t, verified(a, forged([]string{name}, nil), name, h.at), "not permitted", "%s by an authority of %q", name, host)
		}
		for _, at := range []string{"8.8.8.8", "172.32.0.1", "192.169.0.1", "2001:db8::1"} {
			require.ErrorContains(t, verified(a, forged(nil, ips(at)), at, h.at), "not permitted", at)
		}
	}
}

// A leaf names every address of the workshop's own network, ends soon, and is made anew in time and when an address has changed.
func TestALeafIsMadeAnew(t *testing.T) {
	h := newHand()
	a, err := openAuthority(t.TempDir(), "Hollow Lane Works", namesOn("bench"), h.at)
	require.NoError(t, err)
	at := ips("127.0.0.1", "192.168.1.20", "8.8.8.8", "fe80::1", "fd00::20")
	l := &leaves{authority: a, names: namesOn("bench"), addresses: func() []net.IP { return at }, clock: h.now}
	now := func() *x509.Certificate {
		c, err := l.now(nil)
		require.NoError(t, err)
		return c.Leaf
	}
	first := now()
	require.Less(t, first.NotAfter.Sub(first.NotBefore), 398*24*time.Hour)
	for _, name := range []string{"192.168.1.20", "127.0.0.1", "fd00::20", "bench", "bench.local"} {
		require.NoError(t, verified(a, first, name, h.at), name)
	}
	require.Error(t, verified(a, first, "8.8.8.8", h.at))
	require.Same(t, first, now())

	at = ips("192.168.1.33")
	require.Same(t, first, now(), "it is looked at once a minute")
	h.at = h.at.Add(lookEvery)
	second := now()
	require.NoError(t, verified(a, second, "192.168.1.33", h.at))
	h.at = h.at.Add(time.Hour)
	require.Same(t, second, now())
	h.at = second.NotAfter.Add(-leafRenew + time.Minute)
	third := now()
	require.NotEqual(t, second.SerialNumber, third.SerialNumber)
	require.NoError(t, verified(a, third, "192.168.1.33", h.at))
}

// Lines from further away than the workshop's own network are not taken.
func TestTheNetworkIsTheWorkshops(t *testing.T) {
	for s, own := range map[string]bool{"192.168.1.9": true, "10.1.2.3": true, "172.20.0.1": true, "127.0.0.1": true, "::1": true, "fe80::1": true, "fd12::1": true, "169.254.1.1": true,
		"8.8.8.8": false, "172.15.0.1": false, "2001:db8::1": false, "::ffff:8.8.8.8": false, "::ffff:192.168.1.9": true} {
		require.Equal(t, own, ownAddress(net.ParseIP(s)), s)
	}
}
