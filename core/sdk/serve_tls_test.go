package sdk

import (
	"bufio"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/tls"
	"crypto/x509"
	"encoding/base64"
	"fmt"
	"net"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// shake lets a host with this certificate, which trusts der alone, speak TLS with a plugin; nil if both let the other in.
func shake(t *testing.T, served *tls.Config, shown []tls.Certificate, der []byte) error {
	t.Helper()
	trusted := x509.NewCertPool()
	cert, err := x509.ParseCertificate(der)
	require.NoError(t, err)
	trusted.AddCert(cert)
	near, far := net.Pipe()
	t.Cleanup(func() { _ = near.Close(); _ = far.Close() })
	answer := make(chan error, 1)
	go func() { answer <- tls.Server(far, served).Handshake() }()
	host := tls.Client(near, &tls.Config{Certificates: shown, RootCAs: trusted, ServerName: "localhost", MinVersion: tls.VersionTLS13})
	if err := host.Handshake(); err != nil {
		_ = near.Close()
		return err
	}
	go func() { _, _ = host.Read(make([]byte, 1)) }() // takes the plugin's alert, if there is one
	return <-answer
}

func TestOnlyTheHostOfThisRunIsLetIn(t *testing.T) {
	host, inPEM, err := RunCertificate()
	require.NoError(t, err)
	t.Setenv(ClientCertKey, string(inPEM))
	real := os.Stdout
	t.Cleanup(func() { os.Stdout = real })
	said, out, err := os.Pipe()
	require.NoError(t, err)
	os.Stdout = out
	provider, err := mutualTLS()
	require.NoError(t, err)
	_, err = fmt.Printf("1|1|unix|/some/socket|grpc|\n") // what go-plugin prints where it made no certificate
	require.NoError(t, err)
	os.Stdout = real

	line, err := bufio.NewReader(said).ReadString('\n')
	require.NoError(t, err)
	field, ok := strings.CutPrefix(strings.TrimSpace(line), "1|1|unix|/some/socket|grpc|")
	require.True(t, ok, line)
	der, err := base64.RawStdEncoding.DecodeString(field)
	require.NoError(t, err)
	served, err := provider()
	require.NoError(t, err)

	require.NoError(t, shake(t, served, []tls.Certificate{host}, der))
	stranger, _, err := RunCertificate()
	require.NoError(t, err)
	require.Error(t, shake(t, served, []tls.Certificate{stranger}, der), "another run's certificate")
	require.Error(t, shake(t, served, nil, der), "no certificate")
	require.Error(t, shake(t, served, []tls.Certificate{host}, stranger.Certificate[0]), "the host trusts another plugin")
}

func TestARunsCertificateIsOnTheSmallCurve(t *testing.T) {
	cert, _, err := RunCertificate()
	require.NoError(t, err)
	require.Equal(t, elliptic.P256(), cert.PrivateKey.(*ecdsa.PrivateKey).Curve)
}

func TestWithoutAHostsCertificateNothingIsChanged(t *testing.T) {
	t.Setenv(ClientCertKey, "")
	before := os.Stdout
	provider, err := mutualTLS()
	require.NoError(t, err)
	require.Nil(t, provider)
	require.Same(t, before, os.Stdout)
	t.Setenv(ClientCertKey, "no certificate")
	_, err = mutualTLS()
	require.ErrorContains(t, err, "holds no certificate")
}
