package sdk

import (
	"bufio"
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/base64"
	"encoding/pem"
	"io"
	"math/big"
	"os"
	"strings"
	"time"

	"github.com/fettle-tools/fettle/core"
)

// ClientCertKey is the environment variable in which go-plugin's automatic mutual TLS gives a plugin the certificate of
// its host, in PEM.
const ClientCertKey = "PLUGIN_CLIENT_CERT"

// certificateDays is how long a certificate of one run is good: longer than any run.
const certificateDays = 30 * 365

// RunCertificate makes the key and certificate that one side of one run of a plugin shows the other, and the certificate
// in PEM. go-plugin would make them on the curve P-521; these are on P-256, whose tables lie in the program and are shared
// by all plugins, where those of P-521 take half a megabyte and some milliseconds of each.
func RunCertificate() (cert tls.Certificate, inPEM []byte, err error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return cert, nil, err
	}
	serial, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 128))
	if err != nil {
		return cert, nil, err
	}
	now := time.Now()
	template := &x509.Certificate{
		SerialNumber: serial,
		Subject:      pkix.Name{CommonName: "localhost"},
		DNSNames:     []string{"localhost"},
		NotBefore:    now.Add(-time.Minute), NotAfter: now.AddDate(0, 0, certificateDays),
		KeyUsage:              x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign,
		ExtKeyUsage:           []x509.ExtKeyUsage{x509.ExtKeyUsageClientAuth, x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true,
		IsCA:                  true, // it vouches for itself alone: the other side trusts nothing else
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		return cert, nil, err
	}
	return tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key}, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), nil
}

// mutualTLS is go-plugin's automatic mutual TLS with a certificate of our own: nil if the host asks for none. What it
// gives is for plugin.ServeConfig.TLSProvider; go-plugin then leaves the certificate out of the handshake's line, and
// answering puts it there.
func mutualTLS() (func() (*tls.Config, error), error) {
	host := os.Getenv(ClientCertKey)
	if host == "" {
		return nil, nil
	}
	trusted := x509.NewCertPool()
	if !trusted.AppendCertsFromPEM([]byte(host)) {
		return nil, core.Errorf(core.Invalid, "leave it to fettle to start plugins", "%s holds no certificate", ClientCertKey)
	}
	cert, _, err := RunCertificate()
	if err != nil {
		return nil, err
	}
	if os.Stdout, err = answering(os.Stdout, cert.Certificate[0]); err != nil {
		return nil, err
	}
	return func() (*tls.Config, error) {
		return &tls.Config{
			Certificates: []tls.Certificate{cert},
			ClientAuth:   tls.RequireAndVerifyClientCert,
			ClientCAs:    trusted,
			RootCAs:      trusted,
			MinVersion:   tls.VersionTLS13,
			ServerName:   "localhost",
		}, nil
	}, nil
}

// answering gives a standard output for go-plugin's handshake: the one line written to it goes on to out with the
// certificate as its last field.
func answering(out io.Writer, der []byte) (*os.File, error) {
	from, to, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	go func() {
		defer func() { _ = from.Close() }()
		lines := bufio.NewReaderSize(from, 256)
		line, err := lines.ReadString('\n')
		if err == nil && strings.HasSuffix(line, "|\n") {
			line = strings.TrimSuffix(line, "\n") + base64.RawStdEncoding.EncodeToString(der) + "\n"
		}
		_, _ = io.Copy(out, io.MultiReader(bytes.NewReader([]byte(line)), lines))
	}()
	return to, nil
}
