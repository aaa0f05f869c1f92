package capture

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"fmt"
	"math/big"
	"net"
	"strings"
	"time"

	"hembook/internal/bench"
	"hembook/internal/disk"
)

const (
	certificateFile  = benchFolder + "/certificate.pem"
	certificateLasts = 397 * 24 * time.Hour // browsers refuse longer ones; CA/Browser Forum Baseline Requirements 6.3.2, from memory
	certificateLeft  = 14 * 24 * time.Hour  // before it ends another is made
)

// Certificate is the workroom's own certificate for those addresses, by which
// what a phone sends cannot be read on its way. Nobody vouches for it: a phone
// asks once, and its maker compares the fingerprint. It is kept in the workroom
// so that the phone asks once only, and made anew where it is missing, nearly
// over or for other addresses.
func Certificate(room string, addresses []net.IP, now time.Time) (cert tls.Certificate, fingerprint string, err error) {
	dir, err := disk.OpenRoot(room)
	if err != nil {
		return cert, "", err
	}
	defer dir.Close()
	if text, err := dir.ReadFile(certificateFile); err == nil {
		if cert, err := tls.X509KeyPair(text, text); err == nil && serves(cert, addresses, now) {
			return cert, fingerprintOf(cert), nil
		}
	}
	text, err := newCertificate(addresses, now)
	if err != nil {
		return cert, "", err
	}
	if err := makeFolder(dir, benchFolder); err != nil {
		return cert, "", err
	}
	defer disk.BeginErrand(room, bench.DraftsErrand(benchFolder)).End()
	if err := dir.Replace(certificateFile, text, 0o600); err != nil {
		return cert, "", err
	}
	cert, err = tls.X509KeyPair(text, text)
	return cert, fingerprintOf(cert), err
}

func serves(cert tls.Certificate, addresses []net.IP, now time.Time) bool {
	leaf, err := x509.ParseCertificate(cert.Certificate[0])
	if err != nil || now.Before(leaf.NotBefore) || now.Add(certificateLeft).After(leaf.NotAfter) {
		return false
	}
	for _, ip := range addresses {
		if leaf.VerifyHostname(ip.String()) != nil {
			return false
		}
	}
	return true
}

// newCertificate makes a key and signs it with itself; both as PEM.
func newCertificate(addresses []net.IP, now time.Time) ([]byte, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	serial, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 126))
	if err != nil {
		return nil, err
	}
	plan := &x509.Certificate{
		SerialNumber: serial, Subject: pkix.Name{CommonName: "hembook bench"},
		NotBefore: now.Add(-time.Hour), NotAfter: now.Add(certificateLasts),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true, // of no authority: it can vouch for nothing else
		IPAddresses:           addresses,
	}
	der, err := x509.CreateCertificate(rand.Reader, plan, plan, key.Public(), key)
	if err != nil {
		return nil, err
	}
	secret, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	text := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})
	return append(text, pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret})...), nil
}

// fingerprintOf is the SHA-256 sum of a certificate in pairs, as browsers show it.
func fingerprintOf(cert tls.Certificate) string {
	if len(cert.Certificate) == 0 {
		return ""
	}
	sum := sha256.Sum256(cert.Certificate[0])
	pairs := make([]string, len(sum))
	for i, b := range sum {
		pairs[i] = fmt.Sprintf("%02X", b)
	}
	return strings.Join(pairs, ":")
}
