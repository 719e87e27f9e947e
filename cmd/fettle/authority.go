package main

import (
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// lanDir holds, in the shop folder, what the bench on the network is trusted by: the authority, its key, and the devices that have a key.
const lanDir = "lan"

// The files of the authority, and how long it and what it vouches for hold. A leaf is short-lived: it is made anew by itself.
const (
	authorityFile  = "authority.crt"
	authorityKey   = "authority.key"
	authorityYears = 10
	authorityRenew = 60 * 24 * time.Hour
	leafDays       = 30
	leafRenew      = 10 * 24 * time.Hour
	clockSlack     = 24 * time.Hour // a phone's clock may be behind
	mostShopName   = 40             // a common name has at most 64 letters (RFC 5280, appendix A.1)
)

// authority is the shop's own: it vouches for addresses of the workshop's own network, and for none else.
type authority struct {
	cert *x509.Certificate
	key  crypto.Signer
}

// ownNetworks are the addresses that no machine on the internet has (RFC 1918, 3927, 4193, 4291, 6598).
var ownNetworks = []string{"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "100.64.0.0/10", "127.0.0.0/8", "fc00::/7", "fe80::/10", "::1/128"}

func ownRanges() (ranges []*net.IPNet) {
	for _, s := range ownNetworks {
		_, n, err := net.ParseCIDR(s)
		if err != nil {
			panic(err) // a constant
		}
		ranges = append(ranges, n)
	}
	return ranges
}

// ownAddress reports that an address is one of the workshop's own network.
func ownAddress(ip net.IP) bool {
	return slices.ContainsFunc(ownRanges(), func(n *net.IPNet) bool { return n.Contains(ip) })
}

// openAuthority reads the shop's authority, or makes it for the names that this machine has. One that ends soon is made anew: every device then has to be told
// again. A machine that was given another name since is vouched for by its addresses alone.
func openAuthority(shopDir, shop string, names []string, now time.Time) (*authority, error) {
	dir := filepath.Join(shopDir, lanDir)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, lanFault(dir, "the folder cannot be made", err)
	}
	a, err := readAuthority(dir)
	if errors.Is(err, fs.ErrNotExist) || err == nil && now.After(a.cert.NotAfter.Add(-authorityRenew)) {
		return makeAuthority(dir, shop, names, now)
	}
	return a, err
}

func lanFault(where, what string, err error) error {
	return &core.Error{Code: core.Unavailable, What: what, Where: where, Next: "look who may read and write there", Err: err}
}

// readAuthority gives fs.ErrNotExist if there is none.
func readAuthority(dir string) (*authority, error) {
	keyPath := filepath.Join(dir, authorityKey)
	st, err := os.Stat(keyPath)
	if err != nil {
		return nil, err
	}
	if runtime.GOOS != "windows" && st.Mode().Perm()&0o077 != 0 {
		return nil, &core.Error{Code: core.Conflict, What: "the authority's key may be read by others", Where: keyPath, Next: fmt.Sprintf("chmod 600 %s; or delete the folder %s: every device then trusts and pairs again", keyPath, lanDir)}
	}
	pair, err := tls.LoadX509KeyPair(filepath.Join(dir, authorityFile), keyPath)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	if err == nil {
		signer, ok := pair.PrivateKey.(crypto.Signer)
		if ok && pair.Leaf.IsCA {
			return &authority{pair.Leaf, signer}, nil
		}
		err = errors.New("it is no authority")
	}
	return nil, &core.Error{Code: core.Invalid, What: "the shop's authority cannot be read", Where: dir, Next: "put its files back, or delete the folder: every device then trusts and pairs again", Err: err}
}

func makeAuthority(dir, shop string, names []string, now time.Time) (*authority, error) {
	key, serial, err := newKey()
	if err != nil {
		return nil, err
	}
	t := &x509.Certificate{SerialNumber: serial, Subject: pkix.Name{CommonName: firstLetters(shop, mostShopName) + ", workshop network"}, NotBefore: now.Add(-clockSlack), NotAfter: now.AddDate(authorityYears, 0, 0),
		IsCA: true, BasicConstraintsValid: true, MaxPathLenZero: true, KeyUsage: x509.KeyUsageCertSign, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		PermittedDNSDomainsCritical: true, PermittedDNSDomains: names, PermittedIPRanges: ownRanges()}
	cert, err := vouched(t, t, key.Public(), key)
	if err != nil {
		return nil, err
	}
	keyDER, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	for _, f := range []struct {
		name, kind string
		body       []byte
		mode       os.FileMode
	}{{authorityKey, "PRIVATE KEY", keyDER, 0o600}, {authorityFile, "CERTIFICATE", cert.Raw, 0o644}} {
		if err := writeWhole(filepath.Join(dir, f.name), pemOf(f.kind, f.body), f.mode); err != nil {
			return nil, lanFault(filepath.Join(dir, f.name), "the file cannot be written", err)
		}
	}
	return &authority{cert, key}, nil
}

// newKey makes a key and a serial number for its certificate.
func newKey() (key *ecdsa.PrivateKey, serial *big.Int, err error) {
	if key, err = ecdsa.GenerateKey(elliptic.P256(), rand.Reader); err == nil {
		serial, err = rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 120))
	}
	return key, serial, err
}

// vouched makes the certificate of a key.
func vouched(t, by *x509.Certificate, of crypto.PublicKey, key crypto.Signer) (*x509.Certificate, error) {
	der, err := x509.CreateCertificate(rand.Reader, t, by, of, key)
	if err != nil {
		return nil, err
	}
	return x509.ParseCertificate(der)
}

// leaf makes a certificate for names and addresses. Those that the authority may not vouch for are left out.
func (a *authority) leaf(names []string, addresses []net.IP, now time.Time) (*tls.Certificate, error) {
	key, serial, err := newKey()
	if err != nil {
		return nil, err
	}
	t := &x509.Certificate{SerialNumber: serial, Subject: pkix.Name{CommonName: "the bench"}, NotBefore: now.Add(-clockSlack), NotAfter: now.AddDate(0, 0, leafDays),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}
	for _, n := range names {
		if slices.Contains(a.cert.PermittedDNSDomains, n) {
			t.DNSNames = append(t.DNSNames, n)
		}
	}
	for _, ip := range addresses {
		if ownAddress(ip) {
			t.IPAddresses = append(t.IPAddresses, ip)
		}
	}
	cert, err := vouched(t, a.cert, key.Public(), a.key)
	if err != nil {
		return nil, err
	}
	return &tls.Certificate{Certificate: [][]byte{cert.Raw, a.cert.Raw}, PrivateKey: key, Leaf: cert}, nil
}

// leaves gives the certificate that holds now. It is made anew before it ends, and when this machine's addresses have changed.
type leaves struct {
	authority *authority
	names     []string
	addresses func() []net.IP
	clock     func() time.Time
	mu        sync.Mutex
	cert      *tls.Certificate
	looked    time.Time // at the addresses
}

// lookEvery is how often the addresses are looked at, at most.
const lookEvery = time.Minute

// now is the certificate that holds now.
func (l *leaves) now(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.clock()
	if l.cert != nil && now.Sub(l.looked) < lookEvery && now.After(l.looked.Add(-time.Second)) {
		return l.cert, nil
	}
	l.looked = now
	addresses := l.addresses()
	if l.cert != nil && now.Before(l.cert.Leaf.NotAfter.Add(-leafRenew)) && sameAddresses(l.cert.Leaf.IPAddresses, addresses) {
		return l.cert, nil
	}
	cert, err := l.authority.leaf(l.names, addresses, now)
	if err != nil && l.cert != nil {
		return l.cert, nil // better than none, while it holds
	}
	if err != nil {
		return nil, err
	}
	l.cert = cert
	return cert, nil
}

// sameAddresses reports that a certificate names all of the workshop's own addresses.
func sameAddresses(named, addresses []net.IP) bool {
	for _, ip := range addresses {
		if ownAddress(ip) && !slices.ContainsFunc(named, ip.Equal) {
			return false
		}
	}
	return true
}

func pemOf(kind string, body []byte) []byte {
	return pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: body})
}
